// Package ruletest is how rules are tested: a sound schedule, a change to it,
// and every finding of one family that has to follow, no more and no fewer.
package ruletest

import (
	"slices"
	"strconv"
	"strings"
	"testing"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/catalog"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/rules"
	"frp/veilwright/rules/all"
)

// Resin ids of the sound schedule.
const (
	Liner = "liner" // of the barrier
	Wall  = "wall"  // of structure and outer surface
)

// Rows of the sound schedule.
const (
	VeilRow = iota
	MatRow
	BondRow
	WovenRow
	OverRow
	CoatRow
)

// Sound is a contact-molded pipe with nothing to complain about: a veil and
// two mats, mat and woven roving and mat, a waxed coat. Every fact that rules
// ask for is stated and every zone written out.
func Sound() *laminate.Schedule {
	ply := func(material, resin string, zone laminate.Zone, count int) laminate.Ply {
		return laminate.Ply{Material: material, Resin: resin, Zone: zone, Count: count}
	}
	s := &laminate.Schedule{
		Head: laminate.Head{Title: "rinse water header"},
		Part: laminate.Part{
			Form: laminate.Pipe, Process: laminate.ContactMolded, Flanged: laminate.Some(false), Ends: laminate.ClosedEnds,
			InsideDiameter: quantity.New(12, quantity.Inch), Length: quantity.New(10, quantity.Foot),
		},
		Service: laminate.Service{
			Fluid: "rinse water", Concentration: laminate.Some(0.02), Temperature: quantity.New(110, quantity.Fahrenheit),
			PH: laminate.PHRange{Lowest: 6, Highest: 8, Given: true}, Contact: laminate.Immersed, Contains: laminate.TraitSet(),
			Pressure: quantity.New(25, quantity.PSI), Vacuum: quantity.New(0, quantity.PSI), Conductive: laminate.Some(false), Abrasive: laminate.Some(false),
		},
		Resins: []laminate.Resin{
			{ID: Liner, Family: laminate.VinylEster, Density: quantity.New(1150, quantity.KilogramPerCubicMeter)},
			{ID: Wall, Family: laminate.VinylEster, Density: quantity.New(1150, quantity.KilogramPerCubicMeter)},
		},
		Plies: []laminate.Ply{
			ply(catalog.VeilC15, Liner, laminate.InnerSurface, 1),
			ply(catalog.Mat15, Liner, laminate.InteriorLayer, 2),
			ply(catalog.Mat15, Wall, laminate.StructuralLayer, 1),
			ply(catalog.Woven24, Wall, laminate.StructuralLayer, 1),
			ply(catalog.Mat15, Wall, laminate.StructuralLayer, 1),
			ply(catalog.Topcoat, Wall, laminate.OuterSurface, 1),
		},
	}
	s.Plies[MatRow].GelAfter = true
	return s
}

// Job is the job of one part that a schedule is.
func Job(s *laminate.Schedule) *laminate.Job {
	return &laminate.Job{Head: s.Head, Service: s.Service, Resins: s.Resins, Materials: s.Materials, Conditions: s.Conditions,
		Laminates: []laminate.Laminate{{Plies: s.Plies}}, Parts: []laminate.JobPart{{Part: s.Part}}}
}

// Case is one change and what follows.
type Case struct {
	Name   string
	Change func(*laminate.Schedule)
	// Library changes the built-in library; may be nil.
	Library func(*laminate.Library)
	// Want are the findings of the family, in any order: "break rule-id" or,
	// to name the rows too, "break rule-id 0 2".
	Want []string
	// Says are texts that have to stand in the messages of the family.
	Says []string
	// Fixes is a text in the fix of the first finding of the family that
	// has one; empty means that none of them may have one.
	Fixes string
	// After are the findings of the family once that fix is applied.
	After []string
	// Metric asks for messages in SI units.
	Metric bool
}

// Run judges each case by every rule and compares the findings of a family.
// IDs of Always stand in many reports and are compared only where Want or
// After names them.
func Run(t *testing.T, family string, cases []Case, always ...string) {
	t.Helper()
	for _, c := range cases {
		t.Run(c.Name, func(t *testing.T) {
			t.Helper()
			s := Sound()
			if c.Change != nil {
				c.Change(s)
			}
			lib := catalog.Library()
			if c.Library != nil {
				c.Library(lib)
				lib.Index()
			}
			o := rules.Options{Fixes: true}
			if c.Metric {
				o.Units = quantity.Metric
			}
			r := all.Judge(s, lib, o)
			check(t, "findings", r, family, c.Want, always)
			var said strings.Builder
			var fix *rules.Fix
			for i := range r.Findings {
				f := &r.Findings[i]
				sound(t, s, f)
				if f.Rule.Family != family {
					continue
				}
				said.WriteString(f.Message + "\n")
				if fix == nil {
					fix = f.Fix
				}
			}
			for _, text := range c.Says {
				if !strings.Contains(said.String(), text) {
					t.Errorf("no message says %q:\n%s", text, said.String())
				}
			}
			switch {
			case c.Fixes == "" && fix != nil:
				t.Errorf("unexpected fix %q", fix.Text)
			case c.Fixes != "" && fix == nil:
				t.Errorf("no fix; %q was expected", c.Fixes)
			case fix != nil:
				if !strings.Contains(fix.Text, c.Fixes) {
					t.Errorf("fix %q does not say %q", fix.Text, c.Fixes)
				}
				next, err := fix.Edit.Do(s)
				if err != nil {
					t.Fatalf("applying fix: %v", err)
				}
				check(t, "findings after the fix", all.Judge(next, lib, rules.Options{}), family, c.After, always)
			}
		})
	}
}

// Covers checks that the cases name every severity that every rule of the
// family declares, and that each rule has a case that leaves it silent.
func Covers(t *testing.T, family string, cases []Case) {
	t.Helper()
	for _, rule := range all.Rules() {
		if rule.Family != family {
			continue
		}
		for _, severity := range rule.Severity {
			short := severity.String() + " " + rule.ID
			if !slices.ContainsFunc(cases, func(c Case) bool {
				return slices.ContainsFunc(c.Want, func(w string) bool { return w == short || strings.HasPrefix(w, short+" ") })
			}) {
				t.Errorf("no case makes %s give %v", rule.ID, severity)
			}
		}
		if rule.When != "always" && !slices.ContainsFunc(cases, func(c Case) bool {
			return !slices.ContainsFunc(c.Want, func(w string) bool { return strings.Contains(w+" ", " "+rule.ID+" ") })
		}) {
			t.Errorf("no case leaves %s silent", rule.ID)
		}
	}
}

// sound checks what every finding owes its reader.
func sound(t *testing.T, s *laminate.Schedule, f *rules.Finding) {
	t.Helper()
	if !slices.Contains(f.Rule.Severity, f.Severity) {
		t.Errorf("%s gives severity %v, which it does not declare", f.Rule.ID, f.Severity)
	}
	if f.Message == "" || f.Basis == "" || strings.HasSuffix(f.Message, ".") {
		t.Errorf("%s: message %q, basis %q", f.Rule.ID, f.Message, f.Basis)
	}
	if !slices.IsSorted(f.Rows) {
		t.Errorf("%s: rows %v are not ascending", f.Rule.ID, f.Rows)
	}
	if f.At.Kind == laminate.RefPly && (f.At.Index < 0 || f.At.Index >= len(s.Plies)) {
		t.Errorf("%s points at row %d of %d", f.Rule.ID, f.At.Index, len(s.Plies))
	}
}

func check(t *testing.T, what string, r *rules.Report, family string, want, always []string) {
	t.Helper()
	want = slices.Clone(want)
	for i := range r.Findings {
		f := &r.Findings[i]
		if f.Rule.Family != family {
			continue
		}
		short := f.Severity.String() + " " + f.Rule.ID
		long := short
		for _, row := range f.Rows {
			long += " " + strconv.Itoa(row)
		}
		if at := slices.IndexFunc(want, func(w string) bool { return w == short || w == long }); at >= 0 {
			want = slices.Delete(want, at, at+1)
		} else if !slices.Contains(always, f.Rule.ID) {
			t.Errorf("%s: not expected: %s: %s", what, long, f.Message)
		}
	}
	for _, w := range want {
		t.Errorf("%s: missing: %s", what, w)
	}
}

// Veil makes a material of the schedule's own: a veil whose ply, in a resin of
// 1 150 kg/m³, has exactly the thickness given, at 10 % fiber by mass.
func Veil(s *laminate.Schedule, id string, fiber laminate.Fiber, thickness quantity.Length) string {
	return fabric(s, id, laminate.Veil, fiber, 0.10, catalog.Library().Fibers[fiber].Density.SI(), thickness)
}

// Mat makes a chopped glass mat likewise, at 27 % fiber by mass.
func Mat(s *laminate.Schedule, id string, thickness quantity.Length) string {
	return fabric(s, id, laminate.ChoppedMat, laminate.ECRGlass, 0.27, 2620, thickness)
}

// fabric solves t = W/ρf + W(1−g)/(g ρr) for W.
func fabric(s *laminate.Schedule, id string, form laminate.Form, fiber laminate.Fiber, g, density float64, thickness quantity.Length) string {
	const resin = 1150
	mass := thickness.SI() / (1/density + (1-g)/(g*resin))
	s.Materials = append(s.Materials, laminate.Material{
		ID: id, Form: form, Fiber: fiber, GlassContent: laminate.Some(g),
		ArealMass:    quantity.New(mass, quantity.KilogramPerSquareMeter),
		FiberDensity: quantity.New(density, quantity.KilogramPerCubicMeter),
	})
	return id
}

// Mil is a thickness in mil.
func Mil(v float64) quantity.Length { return quantity.New(v, quantity.Mil) }

// Fahrenheit is a temperature in °F.
func Fahrenheit(v float64) quantity.Temperature { return quantity.New(v, quantity.Fahrenheit) }
