//go:build unix

package e2e

import (
	"strings"
	"syscall"
	"testing"
	"time"
)

const (
	soundCoupon = `document = "schedule"
format = 1
title = "Sound coupon"
[part]
form = "panel"
process = "contact"
area = "1 m2"
[service]
fluid = "water"
temperature = "20 degC"
ph = [6, 8]
contains = []
pressure = "0 psi"
vacuum = "0 psi"
[[resin]]
id = "r"
family = "vinyl-ester"
[[ply]]
material = "veil-c-10"
resin = "r"
[[ply]]
material = "mat-1.5"
resin = "r"
count = 2
[[ply]]
material = "mat-1.5"
resin = "r"
count = 2
`
	soundDemands = `document = "specification"
format = 1
title = "Sound coupons"
[barrier]
veil_plies = 1
[total]
thickness = ["150 mil", ""]
[inspection]
acetone = true
layup_record = true
[[inspection.defect]]
kind = "crack"
side = "process"
size_max = "1/16 in"
[[inspection.plan]]
of = "thickness"
places = "A1, A2"
number = 1
`
)

// From specification to signed acceptance by keys, killed in between: each
// acknowledged entry is there again, and the part is accepted only when the last
// thing that the plan asks for is in the record.
func TestRecord_fromSpecificationToSignedAcceptanceThoughKilled(t *testing.T) {
	h := newHome(t)
	h.write(t, "coupon.toml", soundCoupon)
	h.write(t, "demands.toml", soundDemands)
	verdict := func(want string, code int) {
		t.Helper()
		out, said, got := h.run(t, "compare", "coupon.toml", "demands.toml", "coupon-record-1.toml", "--json")
		if got != code || !strings.Contains(out, `"verdict": "`+want+`"`) {
			t.Errorf("compare ends with %d, want %d %s:\n%s%s", got, code, want, out, said)
		}
	}
	s := h.open(t, "coupon.toml")
	s.see("BENCH")
	s.press("tab").see("lay-up")
	s.press("5").see("LAY PLY 1 of 5")
	s.press("3").see("start a new record")
	s.press("1").see("serial number")
	s.press("C-2", "enter", "enter").see("begun coupon-record-1.toml")
	verdict("not inspected", 3)
	s.press("2").see("lot of")
	s.press("crew one", "enter", "1", "enter", "V-3", "enter", "R-9", "enter", "enter", "enter").see("lot V-3")
	s.press("1").see("humidity")
	s.press("20 degC", "enter", "0.5", "enter").see("as typed   * 50 %")
	s.press("*", "18 degC", "enter").see(": dry")
	time.Sleep(aPlyLater)
	s.press("0").see("LAY PLY 2 of 5")
	s.signal(syscall.SIGKILL)
	s.end()
	verdict("incomplete", 3)

	s = h.open(t, "coupon.toml")
	s.see("BENCH")
	s.press("tab").see("lay-up")
	s.press("5").see("LAY-UP WAS BEGUN", "serial C-2, 1 of 5 plies laid")
	s.press("3").see("coupon-record-1")
	s.press("coupon-rec", "enter").see("LAY PLY 2 of 5")
	s.press("2").see("lot of")
	s.press("crew one", "enter", "1", "enter", "M-8", "enter", "R-9", "enter", "enter", "enter").see("lot M-8")
	for _, next := range []string{"LAY PLY 3 of 5", "LAY PLY 4 of 5", "LAY PLY 5 of 5", "ALL LAID"} {
		time.Sleep(aPlyLater)
		s.press("0").see("recorded a moment ago")
		time.Sleep(aPlyLater)
		s.press("1")
		s.see(next)
	}
	s.press("tab").see("inspect")
	s.press("6").see("INSPECT", "serial C-2")
	s.press("5").see("against Sound coupons", "INCOMPLETE")
	s.press("1").see("which reading?")
	s.press("1").see("value")
	s.press("192", "down", "A1", "enter", "enter").see("recorded as entry")
	s.signal(syscall.SIGKILL)
	s.end()
	verdict("incomplete", 3)

	s = h.open(t, "coupon.toml")
	s.see("BENCH")
	s.press("tab").see("inspect")
	s.press("6").see("INSPECT")
	s.press("6").see("which record?")
	s.press("coupon-rec", "enter").see("serial C-2")
	s.press("5").see("against Sound coupons", "INCOMPLETE")
	s.press("1").see("who enters?")
	s.press("inspector one", "enter", "2", "enter").see("which reading?")
	s.press("1").see("value")
	s.press("195", "down", "A2", "enter", "enter").see("recorded as entry", "2 readings:")
	s.press("esc").see("which reading?")
	s.press("6").see("acetone wipe")
	s.press("1", "enter").see("1 clean")
	s.press("esc").see("which reading?")
	s.press("8").see("examination by eye")
	s.press("A1", "enter", "1", "enter", "enter", "enter", "enter").see("examined", "ACCEPT")
	s.press("3").see("sign a decision", "the verdict is ACCEPT")
	s.press("1", "enter", "enter", "enter", "enter").see("signed as entry")
	s.press("q")
	if code := s.end(); code != 0 {
		t.Errorf("ended with %d", code)
	}
	verdict("accept", 0)
	if out, _, code := h.run(t, "verify", "coupon-record-1.toml"); code != 0 || !strings.Contains(out, ": follows\n") {
		t.Errorf("verify ends with %d: %s", code, out)
	}
	h.write(t, "tampered.toml", strings.Replace(h.read(t, "coupon-record-1.toml"), "192 mil", "182 mil", 1))
	if out, _, code := h.run(t, "verify", "tampered.toml"); code != 1 || !strings.Contains(out, "entry 6: it does not follow") {
		t.Errorf("verify ends with %d on a changed reading: %s", code, out)
	}
	h.write(t, "tampered.toml", "document = \"record\"\nformat = 1\n") // no second record of this serial number
	out, _, code := h.run(t, "print", "inspection-report", "coupon.toml", "demands.toml", "coupon-record-1.toml")
	if code != 0 || !strings.Contains(out, "Inspection report: Sound coupon\n") || !strings.Contains(out, "serial C-2\n") {
		t.Errorf("the report ends with %d: %s", code, out)
	}
}
