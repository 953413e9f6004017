package practice_test

import (
	"math"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/catalog"
	"frp/veilwright/laminate/exercise"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/rules"
	"frp/veilwright/rules/practice"
)

// By hand, t = W/ρf + b/ρb: 45 g/m² of C-glass veil (2500 kg/m³) at 90 % resin
// (1150 kg/m³) is 0.370 mm, 1.5 oz/ft² of mat (2620 kg/m³) at 27 % glass
// 1.251 mm. One and two: 2.872 mm or 113.1 mil, and Σ glass / Σ mass =
// (0.045 + 2 × 0.4577)/(0.45 + 2 × 1.695) = 0.250.
func TestTruthOf_oneVeilAndTwoMatsByHand(t *testing.T) {
	e, lib := find(t, "a6-one-and-two"), catalog.Library()
	thick, err := practice.TruthOf(e, 0, lib, quantity.US)
	if err != nil || math.Abs(thick.Figure-2.872e-3) > 0.002e-3 {
		t.Errorf("thickness %v m, %v", thick.Figure, err)
	}
	share, err := practice.TruthOf(e, 1, lib, quantity.US)
	if err != nil || math.Abs(share.Figure-0.2501) > 0.0003 {
		t.Errorf("content %v, %v", share.Figure, err)
	}
}

// ASTM D2584: loss % = 100 (W1 − W2)/W1. With filler share φ of the mix,
// R = g + φ(1 − g), so a residue of 0.495 at φ = 0.35 holds g = 0.223 of glass
// (own arithmetic).
func TestTruthOf_filledSpecimenByHand(t *testing.T) {
	e, lib := *find(t, "e5-grit-in-the-residue"), catalog.Library()
	e.Specimens = []exercise.Specimen{{Group: e.Specimens[0].Group, Before: quantity.New(5, quantity.Gram), After: quantity.New(2.475, quantity.Gram)}}
	loss, err := practice.TruthOf(&e, 0, lib, quantity.US)
	if err != nil || math.Abs(loss.Figure-0.505) > 1e-9 {
		t.Errorf("loss %v, %v", loss.Figure, err)
	}
	left, err := practice.TruthOf(&e, 1, lib, quantity.US)
	if err != nil || math.Abs(left.Figure-0.2231) > 0.0001 {
		t.Errorf("glass %v, %v", left.Figure, err)
	}
}

func TestTruthOf_carbonIsNotReadFromAsh(t *testing.T) {
	e, lib := *find(t, "c3-plain-residue"), catalog.Library()
	s := e.Given.Clone()
	s.Plies[0].Material = catalog.VeilCarbon11
	e.Given = *s
	if _, err := practice.TruthOf(&e, 1, lib, quantity.US); err == nil {
		t.Error("the glass content is told of a specimen with carbon")
	}
	m := practice.Grade(&e, practice.Solve(&e, lib, quantity.US), lib, quantity.US)
	if m.Score != 1 {
		t.Errorf("what cannot be told counts: %+v", m)
	}
}

func TestGrade_predictionsWithinToleranceHalfAndNothing(t *testing.T) {
	e, lib := find(t, "a6-one-and-two"), catalog.Library()
	for _, c := range []struct {
		text   string
		points float64
	}{
		{"113 mil", 2}, {"118", 2}, {"2.87 mm", 2}, {"122 mil", 1}, {"104 mil", 1}, {"130 mil", 0}, {"", 0}, {"much", 0}, {"-3 mil", 0}, {"1e999 mil", 0},
	} {
		m := practice.Grade(e, practice.Answer{Values: []string{c.text}}, lib, quantity.US)
		if l := m.Lines[0]; l.Points != c.points || l.Why == "" {
			t.Errorf("%q: %+v", c.text, l)
		}
	}
}

func TestReadValue_takesWhatPeopleType(t *testing.T) {
	content := exercise.Question{Ask: exercise.BarrierGlass}
	for text, want := range map[string]float64{"27 %": 0.27, "27": 0.27, "0.27": 0.27, " 27%": 0.27, "0.5 %": 0.005, "1": 1, "0": 0} {
		if v, _, err := practice.ReadValue(content, text, quantity.US); err != nil || math.Abs(v-want) > 1e-12 {
			t.Errorf("%q: %v, %v", text, v, err)
		}
	}
	for _, text := range []string{"", "x", "NaN", "Inf", "-1", "101", "27 mil", "\x1b[2J"} {
		if _, _, err := practice.ReadValue(content, text, quantity.US); err == nil || strings.ContainsRune(err.Error(), 0x1b) {
			t.Errorf("%q: %v", text, err)
		}
	}
	if _, w, err := practice.ReadValue(exercise.Question{Ask: exercise.Verdict}, "Break", quantity.US); w != "break" || err != nil {
		t.Errorf("%q, %v", w, err)
	}
}

func TestGrade_hintsCostWhatTheySay(t *testing.T) {
	e, lib := *find(t, "a6-one-and-two"), catalog.Library()
	e.Hints = []exercise.Hint{{Text: "a"}, {Text: "b", Cost: laminate.Some(0.25)}}
	a := practice.Solve(&e, lib, quantity.US)
	for hints, want := range []float64{1, 0.9, 0.65, 0.65} {
		a.Hints = hints
		if m := practice.Grade(&e, a, lib, quantity.US); math.Abs(m.Score-want) > 1e-9 || !m.Full() {
			t.Errorf("%d hints: %v", hints, m.Score)
		}
	}
}

func TestGrade_glassVeilInFluoridesLosesTheVeilAlone(t *testing.T) {
	e, lib := find(t, "a7-lamp-rinse"), catalog.Library()
	a := practice.Solve(e, lib, quantity.US)
	s := a.Schedule.Clone()
	s.Plies[0].Material = catalog.VeilC15
	m := practice.Grade(e, practice.Answer{Schedule: s}, lib, quantity.US)
	for _, l := range m.Lines {
		if veil := l.Demand == "the veil resists the fluid"; veil != l.Missed {
			t.Errorf("%+v", l)
		}
	}
	if m.Points != m.Of-2 || m.Solution.Schedule == nil {
		t.Errorf("%v of %v", m.Points, m.Of)
	}
}

func TestGrade_whatIsDearWithoutNeedCostsALittle(t *testing.T) {
	lib := catalog.Library()
	for _, c := range []struct {
		id, veil string
		family   laminate.Family
		score    float64
	}{
		{"a2-first-veil", "veil-c-15", laminate.VinylEster, 1},
		{"a2-first-veil", "veil-carbon-11", laminate.VinylEster, 0.9},
		{"a2-first-veil", "veil-carbon-11", laminate.BrominatedVinylEster, 0.8},
		{"a3-etch-rinse", "veil-c-15", laminate.VinylEster, 0.6},
		{"b3-fume-duct", "veil-polyester-15", laminate.BrominatedVinylEster, 1},
	} {
		if m := practice.Grade(find(t, c.id), practice.Answer{Veil: c.veil, Family: c.family}, lib, quantity.US); math.Abs(m.Score-c.score) > 1e-6 {
			t.Errorf("%s, %s in %s: %v, want %v", c.id, c.veil, c.family, m.Score, c.score)
		}
	}
}

func TestGrade_theStructureAndTheServiceAreNotTheTraineesToChange(t *testing.T) {
	e, lib := find(t, "a7-lamp-rinse"), catalog.Library()
	s := practice.Solve(e, lib, quantity.US).Schedule.Clone()
	s.Plies[0].Material = catalog.VeilC15
	s.Service.Contains = laminate.TraitSet()
	m := practice.Grade(e, practice.Answer{Schedule: s}, lib, quantity.US)
	if m.Full() || len(m.Notes) == 0 {
		t.Error("a service without its fluorides passes")
	}
	s = practice.Solve(e, lib, quantity.US).Schedule.Clone()
	s.Plies = append(s.Plies[:2], s.Plies[4:]...)
	m = practice.Grade(e, practice.Answer{Schedule: s}, lib, quantity.US)
	if last := m.Lines[len(m.Lines)-1]; !last.Missed {
		t.Errorf("a changed structure passes: %+v", last)
	}
}

func TestGrade_blamingSoundPliesTakesPointsAway(t *testing.T) {
	e, lib := find(t, "b7-frosted-again"), catalog.Library()
	a := practice.Solve(e, lib, quantity.US)
	points := func(faults ...int) float64 {
		a.Faults = faults
		return practice.Grade(e, a, lib, quantity.US).Lines[0].Points
	}
	if points(1) != 2 || points() != 0 || points(1, 5) != 0 || points(5) != 0 || points(1, 1) != 2 || points(-4, 99) != 0 {
		t.Errorf("%v %v %v", points(1), points(), points(1, 5))
	}
}

func TestGrade_takesAnySchedule(t *testing.T) {
	lib, list := catalog.Library(), builtIn(t)
	ids := []string{"veil-c-15", "mat-1.5", "woven-24", "topcoat", "band-helical", "nothing-known"}
	rapid.Check(t, func(t *rapid.T) {
		e := rapid.SampledFrom(list).Draw(t, "exercise")
		s := e.Given.Clone()
		s.Plies = nil
		for range rapid.IntRange(0, 6).Draw(t, "rows") {
			p := laminate.Ply{Material: rapid.SampledFrom(ids).Draw(t, "material"), Count: rapid.IntRange(-1, 5).Draw(t, "count"),
				Zone: laminate.Zone(rapid.IntRange(0, 4).Draw(t, "zone")), GelAfter: rapid.Bool().Draw(t, "gel")}
			if len(s.Resins) > 0 {
				p.Resin = s.Resins[0].ID
			}
			s.Plies = append(s.Plies, p)
		}
		m := practice.Grade(e, practice.Answer{Schedule: s, Values: []string{rapid.String().Draw(t, "text")}, Hints: rapid.IntRange(-1, 20).Draw(t, "hints")}, lib, quantity.US)
		if !(m.Score >= 0 && m.Score <= 1) || math.IsNaN(m.Points) {
			t.Fatalf("score %v of %+v", m.Score, m)
		}
	})
}

// Where a ply is missing and none is wrong, naming none is right once it is
// laid, and so is naming the one that stands in the missing one's place.
func TestGrade_aMissingPlyIsNoPlyAtFault(t *testing.T) {
	lib := catalog.Library()
	for _, id := range []string{"a4-bare-mat", "c6-one-mat-short"} {
		e := find(t, id)
		a := practice.Solve(e, lib, quantity.US)
		if len(a.Faults) > 0 {
			t.Errorf("%s: the answer names %v", id, a.Faults)
		}
		for _, said := range [][]int{nil, {1}} {
			a.Faults = said
			if m := practice.Grade(e, a, lib, quantity.US); m.Score != 1 {
				t.Errorf("%s, naming %v: %v, %+v", id, said, m.Score, m.Lines)
			}
		}
		last := e.Given.NumberOfPlies()
		if m := practice.Grade(e, practice.Answer{Schedule: a.Schedule, Faults: []int{last}}, lib, quantity.US); m.Full() {
			t.Errorf("%s: tearing out sound ply %d costs nothing", id, last)
		}
	}
}

// Whoever lays woven glass to the fluid hears from the checker what is wrong
// with it, not only that there is no barrier.
func TestGrade_handsOutWhatTheCheckerSays(t *testing.T) {
	e, lib := find(t, "a5-from-the-fluid"), catalog.Library()
	s := practice.Solve(e, lib, quantity.US).Schedule.Clone()
	for i := range s.Plies {
		if s.Plies[i].Material == catalog.Woven24 {
			s.Plies[0], s.Plies[i] = s.Plies[i], s.Plies[0]
			break
		}
	}
	m := practice.Grade(e, practice.Answer{Schedule: s}, lib, quantity.US)
	if m.Report == nil || len(m.Report.Findings) == 0 || m.Report.Findings[0].Severity != rules.Break {
		t.Errorf("the report is %+v", m.Report)
	}
}

// Two mats too many are structure to the checker, and the mark says so.
func TestGrade_saysWhichPliesAreNoBarrierAnyMore(t *testing.T) {
	e, lib := find(t, "a7-lamp-rinse"), catalog.Library()
	s := practice.Solve(e, lib, quantity.US).Schedule.Clone()
	for i := range s.Plies {
		s.Plies[i].Zone = laminate.NoZone
	}
	mats := s.Plies[1]
	mats.GelAfter = false
	s.Plies[1].GelAfter = false
	s.Plies = slices.Insert(s.Plies, 2, mats)
	for _, l := range practice.Grade(e, practice.Answer{Schedule: s}, lib, quantity.US).Lines {
		if strings.HasPrefix(l.Demand, "what stands outside") && !strings.Contains(l.Found, "with plies 4, 5") {
			t.Errorf("%+v", l)
		}
	}
}
