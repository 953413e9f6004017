package practice_test

import (
	"regexp"
	"slices"
	"strings"
	"testing"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/catalog"
	"frp/veilwright/laminate/exercise"
	"frp/veilwright/laminate/overlay"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/rules/practice"
	"frp/veilwright/rules/practice/maker"
)

// What is worst of each, as it would be said on the floor (common practice, no
// source); the rules are told none of it.
func TestExercises_worstOfAJoint(t *testing.T) {
	lib := catalog.Library()
	for id, want := range map[string][2]string{
		"f3-new-hand":           {"break", exercise.VeilBuried},
		"f4-tacky-at-lunch":     {"break", exercise.WaxBetween},
		"f5-the-strong-ply":     {"warning", exercise.NoBondMat},
		"f6-end-of-the-roll":    {"break", exercise.TooThin},
		"f7-from-the-shelf":     {"warning", exercise.AnotherBarrier},
		"f8-branch-on-a-friday": {"break", exercise.EdgeOpen},
		"f9-lamp-in-the-line":   {"clear", exercise.NothingWrong},
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

// tellTale are words that give away what is worst, whoever reads them.
var tellTale = map[string][]string{
	exercise.NothingWrong:   {"nothing to say", "nothing is wrong", "sound"},
	exercise.VeilBuried:     {"buried", "veil first", "under the mats"},
	exercise.WaxBetween:     {"wax", "coat"},
	exercise.NoBondMat:      {"no mat", "without a mat", "begins with woven", "roving"},
	exercise.TooThin:        {"thin", "one mat"},
	exercise.AnotherBarrier: {"another", "synthetic", "polyester"},
	exercise.WovenMisplaced: {"roving"},
	exercise.TooMuchAtOnce:  {"at once", "too much"},
	exercise.EdgeOpen:       {"open edge", "edge open", "not sealed", "sealed", "bare"},
}

// What is shown before the answer is what somebody sees who stands there; the answer
// does not stand in it in words.
func TestExercises_ofAJointDoNotSayTheirAnswer(t *testing.T) {
	lib := catalog.Library()
	list := builtIn(t)
	for seed := range uint64(60) {
		list = append(list, maker.Generate(seed, exercise.Steps, lib))
	}
	asked := 0
	for _, e := range list {
		for i, q := range e.Questions {
			truth, err := practice.TruthOf(e, i, lib, quantity.US)
			if q.Ask != exercise.Worst || err != nil {
				continue
			}
			asked++
			shown := []string{e.ID, e.Title, e.Scenario, e.Task}
			for _, f := range e.Facts(quantity.US) {
				if f.Name != "contains" && !strings.HasPrefix(f.Name, "wall of") { // of the fluid, and the plies that are there
					shown = append(shown, f.Name+" "+f.Value)
				}
			}
			for _, text := range shown {
				for _, word := range append(tellTale[truth.Word], truth.Word) {
					if strings.Contains(strings.ToLower(strings.ReplaceAll(text, "-", " ")), word) && truth.Word != exercise.NothingWrong || strings.Contains(strings.ToLower(text), "nothing to say") {
						t.Errorf("%s: %q says %q, and it is %s", e.ID, text, word, truth.Word)
					}
				}
			}
		}
	}
	if asked < 20 {
		t.Errorf("%d asked", asked)
	}
}

// A finding names joint, nozzle and parts; the facts have named them before.
func TestExercises_ofAJointNameWhatFindingsName(t *testing.T) {
	lib := catalog.Library()
	named := regexp.MustCompile(`\b([Jj]oint|[Nn]ozzle|[Pp]arts?) ([A-Z])\b`)
	found := 0
	for _, e := range builtIn(t) {
		if e.Overlay == overlay.None {
			continue
		}
		facts := ""
		for _, f := range e.Facts(quantity.US) {
			facts += f.Value + "; "
		}
		for _, f := range practice.Judge(e, &e.Given, lib, quantity.US).Findings {
			for _, m := range named.FindAllStringSubmatch(f.Message, -1) {
				found++
				if !regexp.MustCompile(`\b` + m[2] + `\b`).MatchString(facts) {
					t.Errorf("%s: %q, and the facts are %q", e.ID, f.Message, facts)
				}
			}
		}
	}
	if found == 0 {
		t.Error("no finding names anything")
	}
}

// The review says apart what was answered, what there is, what of it was left out,
// and what was named that is not there.
func TestGrade_ofAJointSaysBothAnswers(t *testing.T) {
	lib := catalog.Library()
	for _, k := range []struct{ id, word, right, lacks, wrong string }{
		{"f8-branch-on-a-friday", exercise.NothingWrong, exercise.EdgeOpen, exercise.EdgeOpen, "something is wrong with it"},
		{"f8-branch-on-a-friday", exercise.TooThin, exercise.EdgeOpen, exercise.EdgeOpen, "too thin: no rule finds that in it"},
		{"f8-branch-on-a-friday", exercise.EdgeOpen, exercise.EdgeOpen, "", ""},
		{"f9-lamp-in-the-line", exercise.EdgeOpen, exercise.NothingWrong, "", "edge open: no rule finds that in it"},
		{"f8-branch-on-a-friday", "", exercise.EdgeOpen, exercise.EdgeOpen, ""},
	} {
		m := practice.Grade(find(t, k.id), practice.Answer{Values: []string{"clear", k.word}}, lib, quantity.US)
		l := m.Lines[1]
		said := k.word
		if said == "" {
			said = "not answered"
		}
		if l.Found != said || l.Right != k.right || l.Lacks != k.lacks || l.Wrong != k.wrong {
			t.Errorf("%s, %q: %+v", k.id, k.word, l)
		}
	}
	// A sound ply is named, and one left alone that is not.
	e := find(t, "d7-strand-in-the-barrier")
	a := practice.Solve(e, lib, quantity.US)
	right := a.Faults
	a.Faults = []int{6}
	l := practice.Grade(e, a, lib, quantity.US).Lines[0]
	if len(right) == 0 || l.Found != "ply 6" || l.Right != "ply 3" || !strings.HasPrefix(l.Lacks, "ply ") || l.Wrong != "ply 6: nothing is wrong there" {
		t.Errorf("%v: %+v", right, l)
	}
}

// What is put right is what a foreman would put right: of a strap the mat that is
// missing over the roving, of a seal the veil laid last, of a pad a mat between roving
// and roving and one over the last (common practice, no source; the solver is told
// none of it). The rules that judge the answer are those of the job.
func TestFix_ofAJoint(t *testing.T) {
	lib := catalog.Library()
	const mat, woven, veil, coat = catalog.Mat15, catalog.Woven24, catalog.VeilC15, catalog.Topcoat
	for id, c := range map[string]struct{ right, short []string }{
		"f10-before-the-weekend":    {[]string{mat, woven, mat, coat}, []string{mat, mat, woven, coat}},
		"f11-card-from-the-mandrel": {[]string{mat, mat, veil, coat}, []string{mat, veil, mat, coat}},
		"f12-pad-of-a-drain":        {[]string{mat, woven, mat, woven, mat}, []string{mat, woven, mat, woven, woven}},
	} {
		e := find(t, id)
		resin := e.Given.Plies[0].Resin
		schedule := func(list []string) *laminate.Schedule {
			s := e.Given.Clone()
			s.Plies = nil
			for _, m := range list {
				s.Plies = append(s.Plies, laminate.Ply{Material: m, Resin: resin, Count: 1})
			}
			return s
		}
		var solved []string
		for _, p := range practice.Solve(e, lib, quantity.US).Schedule.Plies {
			for range p.Count {
				solved = append(solved, p.Material)
			}
		}
		if !slices.Equal(solved, c.right) {
			t.Errorf("%s is solved by %v", id, solved)
		}
		if m := practice.Grade(e, practice.Answer{Schedule: schedule(c.right)}, lib, quantity.US); !m.Full() || m.Score != 1 {
			t.Errorf("%s, right: %v %+v", id, m.Score, m.Lines)
		}
		if m := practice.Grade(e, practice.Answer{Schedule: schedule(c.short), Faults: []int{1}}, lib, quantity.US); m.Full() || m.Report == nil || m.Report.Overlay == nil {
			t.Errorf("%s, wrong: %v %+v", id, m.Score, m.Lines)
		}
		if s := practice.Start(e).Blame(1); len(s.Answer().Faults) > 0 {
			t.Errorf("%s: a ply is named", id)
		}
	}
}

// What no change of a ply or two mends is laid as the program proposes it.
func TestFix_ofAJointLaidAnew(t *testing.T) {
	lib := catalog.Library()
	e := *find(t, "f2-strap-over-a-butt")
	e.Kind = exercise.Fix
	for range 3 {
		e.Wall = append(e.Wall, e.Wall[len(e.Wall)-2], e.Wall[len(e.Wall)-1])
	}
	e.Joint.Width = quantity.New(14, quantity.Inch)
	e.Given.Plies = e.Given.Plies[:1]
	s := practice.Solve(&e, lib, quantity.US).Schedule
	if breaks, incompletes, warnings, _ := practice.Judge(&e, s, lib, quantity.US).Counts(); breaks+incompletes+warnings > 0 || len(s.Plies) < 8 {
		t.Errorf("%d breaks, %d incomplete, %d warnings: %+v", breaks, incompletes, warnings, s.Plies)
	}
}

// Where no ply is defective the review says that one is missing.
func TestGrade_saysThatAPlyIsMissing(t *testing.T) {
	e := find(t, "d4-woven-on-woven")
	l := practice.Grade(e, practice.Answer{Faults: []int{1, 5}, Schedule: &e.Given}, catalog.Library(), quantity.US).Lines[0]
	if l.Found != "plies 1, 5" || l.Right != "none, or ply 5, where a ply is missing" || l.Wrong != "ply 1: nothing is wrong there" {
		t.Errorf("%+v", l)
	}
	// What is forgiven is not called wrong: points and words agree.
	solved := practice.Solve(e, catalog.Library(), quantity.US).Schedule
	for said, right := range map[int]string{0: "none, a ply is missing", 5: "none, or ply 5, where a ply is missing"} {
		a := practice.Answer{Schedule: solved}
		if said > 0 {
			a.Faults = []int{said}
		}
		l := practice.Grade(e, a, catalog.Library(), quantity.US).Lines[0]
		if l.Missed || l.Points != l.Of || l.Right != right || said > 0 && !strings.Contains(l.Why, "costs nothing") {
			t.Errorf("naming %d: %+v", said, l)
		}
	}
}
