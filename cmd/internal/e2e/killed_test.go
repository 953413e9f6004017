//go:build unix

package e2e

import (
	"fmt"
	"math/rand/v2"
	"os"
	"strings"
	"syscall"
	"testing"
	"time"

	"frp/veilwright/laminate/inspection"
	"frp/veilwright/laminate/record"
	"frp/veilwright/schedules"
)

const (
	killsVariable = "VEILWRIGHT_KILLS" // how often, where more than usual is wanted
	usualKills    = 3
	longestLife   = 6 * time.Second // of a program that is to be killed
	couponRecord  = "coupon-record-1.toml"
)

// lost is what a wait ends in when the program was killed meanwhile.
type lost struct{}

// inspector is somebody who lays and inspects a coupon by keys, and starts anew
// where the record stands whenever the program dies under the hands.
type inspector struct {
	t    *testing.T
	home home
	s    *terminal

	told   string // the record when it was last said that something is in it
	random *rand.Rand
	doom   int // how many more entries are made until the program is killed in the middle of one
}

// From specification to signed acceptance by keys, killed at any moment: what was
// acknowledged is in the record when it is opened again, and the part is accepted
// in the end. VEILWRIGHT_KILLS kills more often.
func TestRecord_isNeverLessThanWhatWasAcknowledged(t *testing.T) {
	t.Parallel()
	kills, _ := wantedKills()
	seed := uint64(time.Now().UnixNano())
	t.Logf("seed %d", seed)
	random := rand.New(rand.NewPCG(seed, 0))
	for kills > 0 {
		h := newHome(t)
		h.write(t, "coupon.toml", soundCoupon)
		h.write(t, "demands.toml", soundDemands)
		who := &inspector{t: t, home: h, random: random}
		for done := false; !done; {
			life := time.Hour
			switch who.doom = 0; {
			case kills > 0 && random.IntN(2) == 0:
				life = time.Duration(random.Int64N(int64(longestLife)))
			case kills > 0:
				who.doom = 1 + random.IntN(5)
			}
			if done = who.sitting(life); !done {
				kills--
			}
		}
		who.accepted()
		h.leftNothing(t)
	}
}

// sitting opens the program and goes on with what is to be done; false where it
// was killed before all of it was.
func (i *inspector) sitting(life time.Duration) (done bool) {
	i.t.Helper()
	i.s = i.home.open(i.t, "coupon.toml")
	i.s.mortal = true
	killer := time.AfterFunc(life, func() { _ = i.s.cmd.Process.Kill() })
	defer func() {
		killer.Stop()
		if r := recover(); r != nil && r != any(lost{}) {
			panic(r)
		}
		i.s.mortal = false
		i.s.end()
		i.whole()
	}()
	i.s.see("BENCH")
	if i.record() == nil || i.ticked() < 5 {
		i.layUp()
	}
	i.inspect()
	i.s.press("q")
	<-i.s.waited
	return i.record().Decisions != nil
}

// record is what stands on disk, nil where it was not begun.
func (i *inspector) record() *record.Record {
	i.t.Helper()
	text, err := os.ReadFile(i.home.path(couponRecord))
	if err != nil {
		return nil
	}
	r, _, problems := schedules.DecodeRecord(text)
	if len(problems) > 0 {
		i.t.Fatalf("%v\n%s", problems, text)
	}
	return r
}

// acknowledged remembers that the screen said what is on disk by now.
func (i *inspector) acknowledged() { i.told = i.home.read(i.t, couponRecord) }

// whole holds the record against what was acknowledged: it only ever grows.
func (i *inspector) whole() {
	i.t.Helper()
	if i.told == "" {
		return
	}
	if now := i.home.read(i.t, couponRecord); !strings.HasPrefix(now, i.told) {
		i.t.Fatalf("what was acknowledged is not in the record any more:\n%s\nit was\n%s", now, i.told)
	}
	if r := i.record(); !r.Trail.Sound() {
		i.t.Fatalf("the record does not verify: %+v", r.Trail)
	}
}

func (i *inspector) ticked() int { return len(i.record().Laid) }

// page goes to a page of the desk and opens the record there, or begins it.
func (i *inspector) page(key, title, choose string) {
	i.s.press("tab").see("lay-up")
	i.s.press(key).see(title)
	i.s.press(choose)
	if i.record() == nil {
		i.s.see("start a new record")
		i.s.press("1").see("serial number")
		i.s.press("C-2", "enter", "enter").see("begun " + couponRecord)
		i.acknowledged()
		return
	}
	i.s.see("coupon-record-1")
	i.s.press("coupon-rec", "enter").gone("start a new record")
}

func (i *inspector) layUp() {
	title := "LAY PLY 1 of 5"
	if i.record() != nil && i.ticked() < 5 {
		title = "LAY-UP WAS BEGUN"
	}
	i.page("5", title, "3")
	if i.ticked() == 5 {
		return
	}
	i.s.see(fmt.Sprintf("LAY PLY %d of 5", i.ticked()+1))
	i.lots("crew one", "1")
	if i.ticked() == 0 {
		i.s.press("1").see("humidity")
		i.s.press("20 degC", "enter", "50 %", "enter", "18 degC", "enter").see(": dry")
	}
	for n := i.ticked() + 1; n <= 5; n++ {
		if n == 2 {
			i.lots("", "") // the mat is another material than the veil
		}
		next := fmt.Sprintf("LAY PLY %d of 5", n+1)
		if n == 5 {
			next = "ALL LAID"
		}
		time.Sleep(aPlyLater)
		i.commit("0")
		for asked := ""; asked != next; {
			switch asked = i.s.which(next, "lay up nevertheless?", "recorded a moment ago"); asked {
			case "lay up nevertheless?":
				time.Sleep(aPlyLater)
				i.s.press("2").gone(asked)
			case "recorded a moment ago":
				time.Sleep(aPlyLater)
				i.commit("1")
				i.s.gone(asked)
			}
		}
		i.acknowledged()
		if got := i.ticked(); got != n {
			i.t.Fatalf("ply %d is said to be recorded, and the record has %d", n, got)
		}
	}
}

// lots says the lots of the ply that is next, and who lays it where that is asked.
func (i *inspector) lots(who, role string) {
	i.s.press("2").see("lot of")
	for _, text := range []string{who, role, "M-8", "R-9", "", ""} {
		if text != "" {
			i.s.press(text)
		}
		i.s.press("enter")
	}
	i.s.see("lot M-8")
}

// inspect takes the readings that are missing, and signs.
func (i *inspector) inspect() {
	i.page("6", "INSPECT", "6")
	i.s.see("serial C-2")
	i.s.press("5").see("against Sound coupons")
	if r := i.record(); r.Decisions != nil {
		return
	}
	for _, x := range []struct {
		kind  inspection.Kind
		place string
		digit string
		says  string
		keys  []string
	}{
		{inspection.WallThickness, "A1", "1", "value", []string{"192", "down", "A1", "enter", "enter"}},
		{inspection.WallThickness, "A2", "1", "value", []string{"195", "down", "A2", "enter", "enter"}},
		{inspection.Acetone, "", "6", "acetone wipe", []string{"1", "enter"}},
		{inspection.Visual, "A1", "8", "examination by eye", []string{"A1", "enter", "1", "enter", "enter", "enter", "enter"}},
	} {
		if i.has(x.kind, x.place) {
			continue
		}
		i.open("1", "which reading?")
		i.s.press(x.digit).see(x.says)
		i.enter(x.keys...)
		if x.kind != inspection.Visual {
			i.s.press("esc").see("which reading?")
			i.s.press("esc").gone("which reading?")
		}
	}
	i.open("3", "sign a decision")
	i.s.see("the verdict is ACCEPT")
	n := len(i.record().Entries())
	i.commit("1", "enter", "enter", "enter", "enter")
	i.s.see(fmt.Sprintf("signed as entry %d", n+1))
	i.acknowledged()
}

// open opens a form or a list, and says who enters where that is asked.
func (i *inspector) open(key, what string) {
	i.s.press(key)
	if i.s.which(what, "who enters?") == "who enters?" {
		i.s.press("inspector one", "enter", "2", "enter").see(what)
	}
}

// commit presses keys of which the last makes an entry: at the moment of that the
// program may be killed.
func (i *inspector) commit(keys ...string) {
	if i.doom--; i.doom == 0 {
		time.AfterFunc(time.Duration(i.random.Int64N(int64(30*time.Millisecond))), func() { _ = i.s.cmd.Process.Kill() })
	}
	i.s.press(keys...)
}

// enter fills in a form and waits for the entry that it makes.
func (i *inspector) enter(keys ...string) {
	n := len(i.record().Entries())
	i.commit(keys...)
	i.s.see(fmt.Sprintf("recorded as entry %d", n+1))
	i.acknowledged()
}

func (i *inspector) has(kind inspection.Kind, place string) bool {
	for _, r := range i.record().Readings {
		if r.Kind == kind && (place == "" || r.Place == place) {
			return true
		}
	}
	return false
}

// accepted is what everybody has to come to in the end.
func (i *inspector) accepted() {
	i.t.Helper()
	out, said, code := i.home.run(i.t, "compare", "coupon.toml", "demands.toml", couponRecord, "--json")
	if code != 0 || !strings.Contains(out, `"verdict": "accept"`) {
		i.t.Fatalf("compare ends with %d: %s%s", code, out, said)
	}
	if out, _, code := i.home.run(i.t, "verify", couponRecord); code != 0 {
		i.t.Fatalf("verify ends with %d: %s", code, out)
	}
	if n := i.ticked(); n != 5 || len(i.record().Decisions) != 1 {
		i.t.Fatalf("%d plies, %d decisions", n, len(i.record().Decisions))
	}
}

// What was measured before the first ply is there again after a kill, with one key.
func TestKilled_ambientConditionsAreThereAgain(t *testing.T) {
	t.Parallel()
	h := newHome(t)
	h.write(t, "coupon.toml", soundCoupon)
	s := h.open(t, "coupon.toml")
	s.see("BENCH")
	who := &inspector{t: t, home: h, s: s}
	who.page("5", "LAY PLY 1 of 5", "3")
	s.see("LAY PLY 1 of 5")
	s.press("1").see("humidity")
	s.press("20 degC", "enter", "50 %", "enter", "18 degC", "enter").see(": dry")
	s.signal(syscall.SIGKILL)
	s.end()
	who.s = h.open(t, "coupon.toml")
	who.s.see("BENCH")
	who.page("5", "LAY-UP WAS BEGUN", "3")
	who.s.see("before the program ended", "humidity 50 %", ": dry")
	who.s.press("q")
	who.s.end()
}
