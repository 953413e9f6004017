package all_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/catalog"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/rules"
	"frp/veilwright/rules/all"
	"frp/veilwright/rules/ruletest"
)

// maybe leaves a fact out now and then.
func maybe[T comparable](t *rapid.T, name string, g *rapid.Generator[T]) laminate.Optional[T] {
	if rapid.IntRange(0, 3).Draw(t, name+" given") == 0 {
		return laminate.Optional[T]{}
	}
	return laminate.Some(g.Draw(t, name))
}

// drawSchedule makes any schedule a document could hold, sensible or not.
func drawSchedule(t *rapid.T, lib *laminate.Library) *laminate.Schedule {
	s := ruletest.Sound()
	var traits []laminate.Trait
	for _, trait := range laminate.TraitWords.All() {
		if rapid.IntRange(0, 4).Draw(t, trait.String()) == 0 {
			traits = append(traits, trait)
		}
	}
	v := &s.Service
	v.Contains = laminate.TraitSet(traits...)
	v.Contains.Given = v.Contains.Given && rapid.Bool().Draw(t, "carries given")
	if heat := maybe(t, "heat", rapid.Float64Range(40, 260)); heat.Given {
		v.Temperature = ruletest.Fahrenheit(heat.Value)
	} else {
		v.Temperature = quantity.Temperature{}
	}
	if low := maybe(t, "pH", rapid.Float64Range(-1, 15)); low.Given {
		v.PH = laminate.PHRange{Lowest: low.Value, Highest: low.Value + rapid.Float64Range(0, 4).Draw(t, "pH range"), Given: true}
	} else {
		v.PH = laminate.PHRange{}
	}
	v.FlameSpread = maybe(t, "flame", rapid.IntRange(0, 200))
	v.Conductive = maybe(t, "conductive", rapid.Bool())
	v.Abrasive = maybe(t, "abrasive", rapid.Bool())
	s.Part.Form = rapid.SampledFrom(append(laminate.PartForms.All(), laminate.NoPartForm)).Draw(t, "form")
	s.Part.Process = rapid.SampledFrom(laminate.Processes.All()).Draw(t, "process")
	s.Part.Flanged = maybe(t, "flanged", rapid.Bool())
	for i := range s.Resins {
		r := &s.Resins[i]
		r.Family = rapid.SampledFrom(append(laminate.Families.All(), laminate.NoFamily)).Draw(t, "family")
		r.Filler = rapid.SampledFrom(append(laminate.Fillers.All(), laminate.NoFiller, laminate.NoFiller, laminate.NoFiller)).Draw(t, "filler")
		r.FillerContent = maybe(t, "filler content", rapid.Float64Range(0.01, 0.6))
		r.Cure = rapid.SampledFrom(append(laminate.Cures.All(), laminate.NoCure)).Draw(t, "cure")
		r.FlameSpreadTested = maybe(t, "tested", rapid.IntRange(0, 100))
	}
	s.Plies = s.Plies[:0]
	n := rapid.IntRange(0, 12).Draw(t, "rows")
	inOrder := rapid.Bool().Draw(t, "in order")
	for i := range n {
		m := lib.Materials[rapid.IntRange(0, len(lib.Materials)-1).Draw(t, "material")]
		if i == 0 && rapid.Bool().Draw(t, "veil first") {
			m = lib.Materials[0]
		}
		p := laminate.Ply{Material: m.ID, Count: rapid.IntRange(1, 6).Draw(t, "count"), GelAfter: rapid.Bool().Draw(t, "gel")}
		p.Resin = rapid.SampledFrom([]string{ruletest.Liner, ruletest.Wall, ruletest.Wall, ""}).Draw(t, "resin")
		if inOrder {
			p.Zone = laminate.Zone(1 + 4*i/n)
		} else {
			p.Zone = rapid.SampledFrom(append(laminate.Zones.All(), laminate.NoZone, laminate.NoZone, laminate.NoZone)).Draw(t, "zone")
		}
		if rapid.IntRange(0, 3).Draw(t, "share given") == 0 {
			p.GlassContent = laminate.Some(rapid.Float64Range(0.05, 0.8).Draw(t, "share"))
		}
		if m.Form.Continuous() && m.Form != laminate.WovenRoving {
			p.Angle = laminate.Some(float64(rapid.IntRange(0, 90).Draw(t, "angle")))
		}
		s.Plies = append(s.Plies, p)
	}
	return s
}

// lines is what a report says, without the names that a schedule is free to choose.
func lines(r *rules.Report, rename func(string) string) []string {
	var list []string
	for i := range r.Findings {
		f := &r.Findings[i]
		line := fmt.Sprint(f.Severity, " ", f.Rule.ID, " ", f.Rows, " ", f.At, " ", rename(f.Message), " ", f.Basis)
		if f.Fix != nil {
			line += " | " + rename(f.Fix.Text)
		}
		list = append(list, line)
	}
	return list
}

func same(s string) string { return s }

func TestSameScheduleSameReport(t *testing.T) {
	lib := catalog.Library()
	rapid.Check(t, func(t *rapid.T) {
		s := drawSchedule(t, lib)
		before := s.Clone()
		o := rules.Options{Fixes: true, Units: quantity.System(rapid.IntRange(0, 1).Draw(t, "units"))}
		first := lines(all.Judge(s, lib, o), same)
		if diff := cmp.Diff(first, lines(all.Judge(s.Clone(), lib, o), same)); diff != "" {
			t.Fatalf("a clone is judged differently:\n%s", diff)
		}
		if !equal(s, before) {
			t.Fatal("judging changed the schedule")
		}
		for _, line := range first {
			if strings.Contains(line, rules.InternalError.ID) || strings.Contains(line, "NaN") || strings.Contains(line, "Inf") {
				t.Fatal(line)
			}
		}
	})
}

func equal(a, b *laminate.Schedule) bool {
	return fmt.Sprintf("%v", *a) == fmt.Sprintf("%v", *b)
}

func TestNamesDoNotMatter(t *testing.T) {
	lib := catalog.Library()
	rapid.Check(t, func(t *rapid.T) {
		s := drawSchedule(t, lib)
		other := s.Clone()
		rename := func(id string) string {
			switch id {
			case ruletest.Liner:
				return "zzz-rich"
			case ruletest.Wall:
				return "aaa-lean"
			}
			return id
		}
		for i := range other.Resins {
			other.Resins[i].ID = rename(other.Resins[i].ID)
		}
		for i := range other.Plies {
			other.Plies[i].Resin = rename(other.Plies[i].Resin)
		}
		a, b := all.Judge(s, lib, rules.Options{}), all.Judge(other, lib, rules.Options{})
		strip := func(r *rules.Report) []string {
			var list []string
			for i := range r.Findings {
				f := &r.Findings[i]
				list = append(list, fmt.Sprint(f.Severity, f.Rule.ID, f.Rows, f.At))
			}
			return list
		}
		if diff := cmp.Diff(strip(a), strip(b)); diff != "" {
			t.Fatalf("renamed resins are judged differently:\n%s", diff)
		}
	})
}

func TestFixMakeTheReportBetter(t *testing.T) {
	lib := catalog.Library()
	rapid.Check(t, func(t *rapid.T) {
		s := drawSchedule(t, lib)
		before := all.Judge(s, lib, rules.Options{Fixes: true})
		for i := range before.Findings {
			f := &before.Findings[i]
			if f.Fix == nil {
				continue
			}
			next, err := f.Fix.Edit.Do(s)
			if err != nil {
				t.Fatalf("%s: %v", f.Rule.ID, err)
			}
			after := all.Judge(next, lib, rules.Options{})
			b1, o1, c1, _ := before.Counts()
			b2, o2, c2, _ := after.Counts()
			if b2 > b1 || b2 == b1 && (o2 > o1 || o2 == o1 && c2 >= c1) {
				t.Fatalf("%s: %q takes breaks, incompletes, warnings from %d %d %d to %d %d %d", f.Rule.ID, f.Fix.Text, b1, o1, c1, b2, o2, c2)
			}
			for id, n := range serious(after) {
				if n > serious(before)[id] {
					t.Fatalf("%s: %q brings about %s", f.Rule.ID, f.Fix.Text, id)
				}
			}
		}
	})
}

// serious counts breaks and opens by rule and severity.
func serious(r *rules.Report) map[string]int {
	m := map[string]int{}
	for i := range r.Findings {
		if f := &r.Findings[i]; f.Severity >= rules.Incomplete {
			m[f.Severity.String()+" "+f.Rule.ID]++
		}
	}
	return m
}

func TestMendingEnds(t *testing.T) {
	lib := catalog.Library()
	rapid.Check(t, func(t *rapid.T) {
		s := drawSchedule(t, lib)
		for range 60 {
			r := all.Judge(s, lib, rules.Options{Fixes: true})
			at := -1
			for i := range r.Findings {
				if r.Findings[i].Fix != nil {
					at = i
					break
				}
			}
			if at < 0 {
				return
			}
			next, err := r.Findings[at].Fix.Edit.Do(s)
			if err != nil {
				t.Fatal(err)
			}
			s = next
		}
		t.Fatal("fixes call for fixes without end")
	})
}
