package all_test

import (
	"regexp"
	"slices"
	"strings"
	"testing"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/catalog"
	"frp/veilwright/laminate/glossary"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/source"
	"frp/veilwright/laminate/takeoff"
	"frp/veilwright/laminate/wall"
	"frp/veilwright/rules/all"
	"frp/veilwright/rules/ruletest"
)

// A publication as texts write it.
var publication = regexp.MustCompile(`\b(ASTM [A-Z]\d+|ASME (?:Section )?[IVXB][\w.]*|BS \d+|EN \d+|ISO \d+(?:-\d+)?|API \w+|AWWA \w+|NBS PS [\d-]+|USACE EM [\d-]+|ADR|NFPA \d+|IBC \d+|NIOSH|Roark|Windenburg|Reissner|Timoshenko|ASME RTP-1)`)

// bases are all texts that say what a figure, a rule or a criterion rests on.
func bases() map[string]string {
	list := map[string]string{}
	for _, r := range all.Rules() {
		list["rule "+r.ID] = r.Basis
	}
	lib := catalog.Library()
	s := ruletest.Sound()
	for _, basis := range []laminate.DesignBasis{laminate.StrengthTable, laminate.StrainLimit, laminate.UnitLoad} {
		s.Part.DesignBasis = basis
		r := wall.Evaluate(s, lib, laminate.Analyze(s, lib), wall.Options{})
		for i := range r.Criteria {
			list["criterion "+r.Criteria[i].Name] = r.Criteria[i].Basis
		}
	}
	for name, part := range formed() {
		for _, basis := range []laminate.DesignBasis{laminate.StrengthTable, laminate.StrainLimit} {
			c := s.Clone()
			part.DesignBasis = basis
			c.Part = part
			c.Service.Vacuum = quantity.New(0.1, quantity.PSI)
			r := wall.Evaluate(c, lib, laminate.Analyze(c, lib), wall.Options{})
			for i := range r.Criteria {
				list[name+"'s criterion "+r.Criteria[i].Name+" "+basis.String()] = r.Criteria[i].Basis
			}
		}
	}
	for i := range lib.Materials {
		list["material "+lib.Materials[i].ID] = lib.Materials[i].Source
	}
	for i := range lib.Resins {
		list["resin "+lib.Resins[i].ID] = lib.Resins[i].Source
	}
	for i := range lib.Families {
		if f := &lib.Families[i]; f.Source != "" {
			list["family "+laminate.Family(i).String()] = f.Source
		}
	}
	for i := range lib.Fibers {
		if f := &lib.Fibers[i]; f.Source != "" {
			list["fiber "+laminate.Fiber(i).String()] = f.Source
		}
	}
	for i := range lib.Fillers {
		if f := &lib.Fillers[i]; f.Source != "" {
			list["filler "+laminate.Filler(i).String()] = f.Source
		}
	}
	for _, t := range glossary.Terms() {
		list["word "+t.Word] = t.Source
	}
	list["styrene"] = takeoff.StyreneSource
	return list
}

// formed are parts of every form that only jobs have.
func formed() map[string]laminate.Part {
	d := quantity.New(48, quantity.Inch)
	in := func(v float64) quantity.Length { return quantity.New(v, quantity.Inch) }
	none := quantity.New(0, quantity.Inch)
	list := map[string]laminate.Part{
		"sphere":     {Form: laminate.HeadPart, Shape: laminate.Shape{Head: laminate.Hemispherical, Place: laminate.Place{Top: true}}},
		"ellipsoid":  {Form: laminate.HeadPart, Shape: laminate.Shape{Head: laminate.Ellipsoidal, Depth: in(12), Place: laminate.Place{Top: true}}},
		"torisphere": {Form: laminate.HeadPart, Shape: laminate.Shape{Head: laminate.Torispherical, CrownRadius: in(48), KnuckleRadius: in(4), Place: laminate.Place{Top: true}}},
		"cone":       {Form: laminate.Cone, Shape: laminate.Shape{HalfAngle: laminate.Some(25.0), SmallDiameter: in(4)}},
		"elbow":      {Form: laminate.Elbow, Shape: laminate.Shape{BendRadius: in(72), Miters: laminate.Some(0)}},
		"course":     {Form: laminate.ShellCourse},
		"bottom":     {Form: laminate.FlatBottom, Shape: laminate.Shape{Supported: laminate.Some(true)}},
		"cover":      {Form: laminate.Cover, Shape: laminate.Shape{DeflectionLimit: laminate.Some(0.01)}},
		"lid":        {Form: laminate.Cover, Shape: laminate.Shape{Place: laminate.Place{Top: true}}},
		"panel":      {Form: laminate.Panel, Length: in(40), Shape: laminate.Shape{Width: in(20), DeflectionLimit: laminate.Some(0.01)}},
		"flange": {Form: laminate.Flange, Shape: laminate.Shape{Size: in(12), Drilling: laminate.Class150, Thickness: in(0.2),
			PressureClass: quantity.New(50, quantity.PSI), Torque: quantity.New(30, quantity.FootPound)}},
	}
	large := list["flange"]
	large.Size, large.Drilling = in(36), laminate.Class125
	list["large flange"] = large
	for name, p := range list {
		p.InsideDiameter, p.LiquidHeight, p.Ends = d, none, laminate.ClosedEnds
		list[name] = p
	}
	return list
}

// Every figure that decides something rests on a publication of the register, or
// says that there is none; and what was not read in the publication itself says
// so where it is printed.
func TestSources_everyBasisIsInTheRegister(t *testing.T) {
	for of, basis := range bases() {
		if basis == "" {
			t.Errorf("%s names no basis", of)
			continue
		}
		known := source.Of(basis)
		for _, name := range publication.FindAllString(basis, -1) {
			if !slices.ContainsFunc(known, func(e source.Entry) bool { return strings.HasPrefix(name, e.Name) || strings.HasPrefix(e.Name, name) }) {
				t.Errorf("%s: %q is not in the register: %q", of, name, basis)
			}
		}
		own := slices.ContainsFunc(source.Own, func(s string) bool { return strings.Contains(basis, s) })
		if len(known) == 0 && !own {
			t.Errorf("%s: no source and no word that there is none: %q", of, basis)
		}
		if strings.HasPrefix(of, "word ") {
			continue // a word is defined, nothing is figured from it
		}
		for _, e := range known {
			switch says := strings.Contains(basis, "from memory"); e.Read {
			case source.SecondHand:
				if !says && !strings.Contains(basis, "second-hand") {
					t.Errorf("%s: %s was read second-hand, and the text does not say so: %q", of, e.Name, basis)
				}
			case source.Memory:
				if !says {
					t.Errorf("%s: %s is from memory, and the text does not say so: %q", of, e.Name, basis)
				}
			case source.Published:
			}
		}
		if strings.Contains(basis, "published") {
			t.Errorf("%s: says published and not where: %q", of, basis)
		}
	}
}

// The register holds nothing twice and nothing that nothing rests on.
func TestSources_registerIsUsed(t *testing.T) {
	texts := bases()
	seen := map[string]bool{}
	for _, e := range source.Register() {
		if e.Title == "" || e.For == "" || seen[e.Name] {
			t.Errorf("%+v", e)
		}
		seen[e.Name] = true
		used := e.Name == "ISO 8502-4" || e.Name == "ISO 12944-7" || e.Name == "EN 59" || e.Name == "OSHA" // of acceptance and cautions, held in its own test
		for _, basis := range texts {
			used = used || strings.Contains(basis, e.Name)
		}
		if !used {
			t.Errorf("nothing rests on %s", e.Name)
		}
	}
}
