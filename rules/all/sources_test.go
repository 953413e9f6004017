package all_test

import (
	"regexp"
	"slices"
	"strings"
	"testing"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/catalog"
	"frp/veilwright/laminate/glossary"
	"frp/veilwright/laminate/source"
	"frp/veilwright/laminate/takeoff"
	"frp/veilwright/laminate/wall"
	"frp/veilwright/rules/all"
	"frp/veilwright/rules/ruletest"
)

// A publication as texts write it.
var publication = regexp.MustCompile(`\b(ASTM [A-Z]\d+|ASME (?:Section )?[IVXB][\w.]*|BS \d+|EN \d+|ISO \d+(?:-\d+)?|API \w+|AWWA \w+|NBS PS [\d-]+|USACE EM [\d-]+|ADR|NFPA \d+|IBC \d+|NIOSH|Roark|Windenburg)`)

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
