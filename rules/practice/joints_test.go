package practice_test

import (
	"testing"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/catalog"
	"frp/veilwright/laminate/exercise"
	"frp/veilwright/laminate/overlay"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/rules/practice"
)

// What is worst of each, as it would be said on the floor (common practice, no
// source); the rules are told none of it.
func TestExercises_worstOfAJoint(t *testing.T) {
	lib := catalog.Library()
	for id, want := range map[string][2]string{
		"f3-as-in-the-wall":       {"break", exercise.VeilBuried},
		"f4-coat-before-the-veil": {"break", exercise.WaxBetween},
		"f5-roving-on-the-face":   {"warning", exercise.NoBondMat},
		"f6-thin-at-the-joint":    {"break", exercise.TooThin},
		"f7-veil-from-the-shelf":  {"warning", exercise.AnotherBarrier},
		"f8-edge-of-a-branch":     {"break", exercise.EdgeOpen},
		"f9-nothing-to-say":       {"clear", exercise.NothingWrong},
	} {
		e := find(t, id)
		if a := practice.Solve(e, lib, quantity.US); len(a.Values) != 2 || [2]string(a.Values) != want {
			t.Errorf("%s: %q, want %q", id, a.Values, want)
		}
		for _, word := range exercise.Worst.Words() {
			m := practice.Grade(e, practice.Answer{Values: []string{want[0], word}}, lib, quantity.US)
			if m.Full() != (word == want[1]) {
				t.Errorf("%s: %q marks %v", id, word, m.Score)
			}
		}
	}
}

// orders gives every order of a schedule's rows.
func orders(s *laminate.Schedule, each func(*laminate.Schedule)) {
	var put func(laid, left []laminate.Ply)
	put = func(laid, left []laminate.Ply) {
		if len(left) == 0 {
			n := s.Clone()
			n.Plies = append([]laminate.Ply(nil), laid...)
			each(n)
			return
		}
		seen := map[laminate.Ply]bool{}
		for i, p := range left {
			p.Origin = 0
			if seen[p] {
				continue
			}
			seen[p] = true
			rest := append(append([]laminate.Ply(nil), left[:i]...), left[i+1:]...)
			put(append(append([]laminate.Ply(nil), laid...), p), rest)
		}
	}
	put(nil, s.Plies)
}

// Of all orders of the plies of a seal one marks full: mats, the veil, the waxed
// coat. Those of a strap that do begin with a mat, have a mat last under the coat,
// and no two plies of woven roving on each other.
func TestOrder_ofAJointMarksFullWhatIsSoundAlone(t *testing.T) {
	lib := catalog.Library()
	for _, e := range builtIn(t) {
		if e.Overlay == overlay.None || e.Kind != exercise.Order {
			continue
		}
		full, all := 0, 0
		orders(&e.Given, func(s *laminate.Schedule) {
			all++
			n := len(s.Plies)
			sound := s.Plies[0].Material == catalog.Mat15 && s.Plies[n-1].Material == catalog.Topcoat
			last := s.Plies[n-2].Material
			if e.Overlay.Inside() {
				sound = sound && last == catalog.VeilC15
			} else {
				sound = sound && last == catalog.Mat15
				for i := 1; i < n; i++ {
					sound = sound && (s.Plies[i].Material != catalog.Woven24 || s.Plies[i-1].Material != catalog.Woven24)
				}
			}
			m := practice.Grade(e, practice.Answer{Schedule: s}, lib, quantity.US)
			if m.Full() != sound {
				t.Errorf("%s: %v marks %v: %+v", e.ID, s.Plies, m.Score, m.Lines)
			}
			if m.Full() {
				full++
			}
			for _, l := range m.Lines {
				if l.Missed && (l.Why == "" || l.Basis == "") {
					t.Errorf("%s: missed without a reason: %+v", e.ID, l)
				}
			}
		})
		if full == 0 || full == all {
			t.Errorf("%s: %d of %d orders mark full", e.ID, full, all)
		}
	}
}
