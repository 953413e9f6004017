//go:build unix

package e2e

import (
	"encoding/json"
	"strings"
	"syscall"
	"testing"
	"time"
)

const (
	coupon = `document = "schedule"
format = 1
title = "Test coupon"
[part]
form = "panel"
process = "contact"
area = "1 m2"
[service]
fluid = "water"
[[resin]]
id = "r"
family = "vinyl-ester"
[[ply]]
material = "veil-c-10"
resin = "r"
[[ply]]
material = "mat-1.5"
resin = "r"
`
	couponDemands = `document = "specification"
format = 1
title = "Coupons"
[inspection]
thickness_readings = 2
layup_record = true
[total]
thickness = ["1 mm", ""]
`
)

// aPlyLater is longer than what still counts as a key that is held down.
const aPlyLater = 1100 * time.Millisecond

// A part is laid, measured and decided on by keys, and the command line comes to
// the same verdict from the files.
func TestRecord_laidMeasuredDecidedAndComparedAlike(t *testing.T) {
	h := newHome(t)
	h.write(t, "coupon.toml", coupon)
	h.write(t, "demands.toml", couponDemands)
	s := h.open(t, "coupon.toml")
	s.see("BENCH")
	s.press("tab").see("lay-up")
	s.press("5").see("LAY PLY 1 of 2", "no record")
	s.press("3").see("start a new record")
	s.press("1").see("serial number")
	s.press("C-1", "enter", "enter").see("begun coupon-record-1.toml")
	s.press("2").see("lot of")
	s.press("crew one", "enter", "1", "enter", "esc", "esc").gone("lot of")
	lots := func(fabric, resin string) {
		s.press("2").see("lot of")
		s.press("enter", "enter", fabric, "enter", resin, "enter", "enter", "enter").see("lot " + fabric)
	}
	lots("V-3", "R-9")
	s.press("1").see("humidity")
	s.press("20 degC", "enter", "50", "enter", "18 degC", "enter").see(": dry")
	time.Sleep(aPlyLater)
	s.press("0").see("lay up nevertheless?")
	time.Sleep(aPlyLater)
	s.press("2").see("LAY PLY 2 of 2", "resin lot R-9")
	lots("M-8", "R-9")
	time.Sleep(aPlyLater)
	s.press("enter").see("recorded a moment ago", "recorded together")
	time.Sleep(aPlyLater)
	s.press("1").see("ALL LAID")

	s.press("tab").see("inspect")
	s.press("6").see("INSPECT", "serial C-1")
	s.press("5").see("demands.toml")
	s.press("demands", "enter").see("against Coupons", "INCOMPLETE")
	s.press("1").see("which reading?")
	s.press("1").see("value")
	s.press("1.3 mm", "enter").see("1 reading:")
	s.press("52", "enter").see("2 readings:", "INCOMPLETE", "the schedule breaks no ru")
	s.press("enter").see("which reading?")
	s.press("esc").gone("which reading?")
	s.press("3").see("sign a decision")
	s.press("1", "enter", "enter", "enter", "a coupon carries nothing", "enter").see("signed as entry")
	s.press("q")
	if code := s.end(); code != 0 {
		t.Errorf("ended with %d", code)
	}

	out, said, code := h.run(t, "compare", "coupon.toml", "demands.toml", "coupon-record-1.toml", "--json")
	var got struct{ Verdict string }
	if err := json.Unmarshal([]byte(out), &got); err != nil {
		t.Fatalf("%v: %s%s", err, out, said)
	}
	if code != 3 || got.Verdict != "incomplete" {
		t.Errorf("compare ends with %d, %q: %s", code, got.Verdict, out)
	}

	// A power cut in the middle of the last entry: it is left out, and that is said.
	text := h.read(t, "coupon-record-1.toml")
	h.write(t, "coupon-record-1.toml", text+"[[reading]]\nkind = \"bar")
	again := h.open(t, "coupon.toml")
	again.see("BENCH")
	again.press("tab").see("lay-up")
	again.press("5").see("LAY PLY 1 of 2")
	again.press("3").see("half-written")
	again.press("coupon-rec", "enter").see("recovered", "ALL LAID")
	again.press("q")
	if code := again.end(); code != 0 {
		t.Errorf("ended with %d", code)
	}
	if now := h.read(t, "coupon-record-1.toml"); !strings.HasPrefix(now, text) || !strings.Contains(now, "[[cut]]") || !strings.Contains(h.read(t, "coupon-record-1.toml.torn-1"), "bar") {
		t.Errorf("after recovery the record is\n%s", now)
	}
}

// A hold point stops the lay-up whatever happened in between: answered no, killed, opened
// anew; passed by name it is over, and the record says who passed it.
func TestRecord_holdPointStopsThoughKilled(t *testing.T) {
	h := newHome(t)
	h.write(t, "coupon.toml", coupon)
	h.write(t, "demands.toml", couponDemands+"[[inspection.hold]]\npoint = \"veil laid\"\nbefore_ply = 2\nwitness = \"purchaser\"\n")
	s := h.open(t, "coupon.toml")
	s.see("BENCH")
	s.press("tab").see("lay-up")
	s.press("5").see("LAY PLY 1 of 2", "no record")
	s.press("3").see("start a new record")
	s.press("1").see("serial number")
	s.press("C-1", "enter", "enter").see("begun coupon-record-1.toml")
	s.press("2").see("lot of")
	s.press("crew one", "enter", "1", "enter", "esc", "esc").gone("lot of")
	s.press("1").see("humidity")
	s.press("20 degC", "enter", "50", "enter", "18 degC", "enter").see(": dry")
	time.Sleep(aPlyLater)
	s.press("0").see("lay up nevertheless?")
	time.Sleep(aPlyLater)
	s.press("2").see("LAY PLY 2 of 2", "hold point: veil laid")
	laid := func() int { return strings.Count(h.read(t, "coupon-record-1.toml"), "[[laid]]") }
	refused := func() {
		t.Helper()
		time.Sleep(aPlyLater)
		s.press("0").see("recorded a moment ago")
		time.Sleep(aPlyLater)
		s.press("1").see("HOLD POINT: lay up nevertheless?", "witnessed by purchaser")
		s.press("enter").gone("lay up nevertheless?")
		if n := laid(); n != 1 {
			t.Fatalf("%d plies are laid", n)
		}
	}
	refused()
	s.signal(syscall.SIGKILL)
	s.end()
	s = h.open(t, "coupon.toml")
	s.see("BENCH")
	s.press("tab").see("lay-up")
	s.press("5").see("LAY-UP WAS BEGUN")
	s.press("3").see("coupon-record-1.toml")
	s.press("1").see("LAY PLY 2 of 2", "hold point: veil laid")
	s.press("2").see("kept from ply to ply")
	s.press("crew one", "enter", "1", "enter", "esc", "esc").gone("kept from ply to ply")
	refused()
	s.press("6").see("a hold or witness point", "veil laid")
	s.press("1", "enter").see("witness")
	s.press("9", "enter").see("witness is")
	s.press("4", "enter", "enter").gone("hold point: veil laid")
	time.Sleep(aPlyLater)
	s.press("0").see("recorded a moment ago")
	time.Sleep(aPlyLater)
	s.press("1").see("lay up nevertheless?") // of the schedule, not of the point
	time.Sleep(aPlyLater)
	s.press("2").see("ALL LAID")
	if n := laid(); n != 2 || !strings.Contains(h.read(t, "coupon-record-1.toml"), "[[hold]]") {
		t.Errorf("%d plies are laid", n)
	}
	s.press("q")
	if code := s.end(); code != 0 {
		t.Errorf("ended with %d", code)
	}
}
