package safety_test

import (
	"slices"
	"strings"
	"testing"
	"unicode/utf8"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/safety"
)

func ids(list []safety.Caution) []string {
	var all []string
	for _, c := range list {
		all = append(all, c.ID)
	}
	return all
}

func TestCautions_eachKindOfWorkHasOneAndEachIsWhole(t *testing.T) {
	seen := map[string]bool{}
	for work := safety.Mixing; work <= safety.Bonding; work++ {
		list := safety.For(work)
		if len(list) == 0 {
			t.Errorf("no caution for %d", work)
		}
		for _, c := range list {
			if c.ID == "" || seen[c.ID] || c.Label == "" || c.Source == "" || !strings.HasSuffix(c.Text, ".") || utf8.RuneCountInString(c.Line) > 47 || c.Line == "" {
				t.Errorf("%+v", c)
			}
			seen[c.ID] = true
			if safety.Text(c.ID) != c.Text {
				t.Errorf("%s is not found by its id", c.ID)
			}
		}
	}
}

// Each hazard that a ply brings is said, and none that it does not bring.
func TestForPly_followsTheResinAndTheMaterial(t *testing.T) {
	always := []string{"peroxide-promoter", "styrene", "leftovers", "peroxide-eyes", "dry-peroxide", "amounts"}
	for name, c := range map[string]struct {
		row  laminate.RowFigures
		more []string
	}{
		"nothing known":     {laminate.RowFigures{}, nil},
		"plain":             {laminate.RowFigures{Resin: &laminate.Resin{}, Material: &laminate.Material{Form: laminate.ChoppedMat}}, nil},
		"grit":              {laminate.RowFigures{Resin: &laminate.Resin{Filler: laminate.SiliconCarbide}}, []string{"filler-dust"}},
		"carbon":            {laminate.RowFigures{Resin: &laminate.Resin{Filler: laminate.CarbonPowder}}, []string{"filler-dust", "carbon-dust"}},
		"fumed silica":      {laminate.RowFigures{Resin: &laminate.Resin{Thixotrope: "fumed silica"}}, []string{"filler-dust"}},
		"antimony trioxide": {laminate.RowFigures{Resin: &laminate.Resin{Synergist: "Antimony trioxide 3 %"}}, []string{"antimony"}},
		"spray-up":          {laminate.RowFigures{Material: &laminate.Material{Form: laminate.SprayedChop}}, []string{"spray-mist"}},
	} {
		want, got := append(slices.Clone(always), c.more...), ids(safety.ForPly(&c.row))
		slices.Sort(want)
		slices.Sort(got)
		if !slices.Equal(got, want) {
			t.Errorf("%s: %v, want %v", name, got, want)
		}
	}
}

func TestForPly_sayFireOrExplosionFirstAndNameThePromoter(t *testing.T) {
	for cure, promoter := range map[laminate.Cure]string{laminate.NoCure: "promoter", laminate.PeroxideCobalt: "cobalt promoter", laminate.PeroxideAmine: "amine promoter"} {
		first := safety.ForPly(&laminate.RowFigures{Resin: &laminate.Resin{Cure: cure}})[0]
		if !strings.Contains(first.Text, "directly with "+promoter+": fire or explosion") || !strings.Contains(first.Line, "fire, explosion") {
			t.Errorf("%v: %q, %q", cure, first.Line, first.Text)
		}
	}
	if again := safety.For(safety.Mixing)[0]; strings.Contains(again.Text, "amine") || strings.Contains(again.Text, "cobalt") {
		t.Errorf("the list itself was changed: %q", again.Text)
	}
}

// Of what can hurt in this trade none is left unsaid where it may happen.
func TestCautions_nameWhatHurts(t *testing.T) {
	for hazard, work := range map[string]safety.Trigger{
		"peroxide": safety.Mixing, "promoter": safety.Mixing, "heats up": safety.Mixing, "Styrene vapor burns": safety.Mixing,
		"Dust of fillers": safety.Filling, "throw dust": safety.Cutting, "static": safety.Cutting,
		"permit": safety.Entering, "heavier than air": safety.Entering, "never with air": safety.PressureTest,
	} {
		if !slices.ContainsFunc(safety.For(work), func(c safety.Caution) bool { return strings.Contains(c.Text, hazard) }) {
			t.Errorf("%s is not said of that work", hazard)
		}
	}
}
