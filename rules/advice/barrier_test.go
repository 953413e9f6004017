package advice_test

import (
	"strings"
	"testing"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/catalog"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/rules"
	"frp/veilwright/rules/advice"
	"frp/veilwright/rules/all"
)

func drain(traits ...laminate.Trait) *laminate.Schedule {
	s := &laminate.Schedule{Head: laminate.Head{Title: "drain"}}
	s.Service = laminate.Service{
		Fluid: "condensate", Temperature: quantity.New(120, quantity.Fahrenheit), PH: laminate.PHRange{Lowest: 4, Highest: 6, Given: true},
		Contains: laminate.TraitSet(traits...), Abrasive: laminate.Some(false), Conductive: laminate.Some(false),
	}
	s.Resins = []laminate.Resin{{ID: "liner", Family: laminate.VinylEster}, {ID: "wall", Family: laminate.VinylEster}}
	s.Plies = []laminate.Ply{
		{Material: "veil-c-10", Resin: "liner", Count: 1, Zone: laminate.InnerSurface},
		{Material: "mat-1.5", Resin: "liner", Count: 2, Zone: laminate.InteriorLayer, GelAfter: true},
		{Material: "mat-1.5", Resin: "wall", Count: 3},
		{Material: "topcoat", Resin: "wall", Count: 1},
	}
	return s
}

// TestWithBarrier_replacesTheBarrierAlone checks the build by API 12P 5.4.2 and 5.4.3
// (a veil of at least 10 mil, two plies of mat or more) through the rules, and
// that what stands outside is untouched.
func TestWithBarrier_replacesTheBarrierAlone(t *testing.T) {
	s, lib := drain(laminate.Fluorides), catalog.Library()
	n, err := advice.WithBarrier(s, lib, advice.Options{})
	if err != nil {
		t.Fatal(err)
	}
	if got := n.Plies[0].Material; got != catalog.VeilPolyester15 {
		t.Errorf("veil in fluorides %s, want polyester", got)
	}
	last := n.Plies[len(n.Plies)-2:]
	if last[0].Material != "mat-1.5" || last[0].Count != 3 || last[0].Zone != laminate.StructuralLayer || last[1].Zone != laminate.OuterSurface {
		t.Errorf("outside of the barrier: %+v", last)
	}
	if k := len(n.Plies) - 3; !n.Plies[k].GelAfter || n.Plies[k].Zone != laminate.InteriorLayer {
		t.Errorf("the barrier ends in %+v, want a gel stop", n.Plies[k])
	}
	r := rules.Judge(all.Rules(), n, lib, rules.Options{})
	for _, f := range r.Findings {
		if f.Severity == rules.Break && f.Rule.Family != "structure" {
			t.Errorf("breaks %s: %s", f.Rule.ID, f.Message)
		}
	}
	if s.Plies[0].Material != "veil-c-10" {
		t.Error("the schedule given was changed")
	}
}

func TestWithBarrier_choice(t *testing.T) {
	s, lib := drain(), catalog.Library()
	n, err := advice.WithBarrier(s, lib, advice.Options{Veil: catalog.VeilPolyester15, Resin: laminate.NovolacVinylEster.String(), Build: catalog.DoubleBuild.ID})
	if err != nil {
		t.Fatal(err)
	}
	r, ok := n.Resin(n.Plies[0].Resin)
	if !ok || r.Family != laminate.NovolacVinylEster || n.Plies[0].Material != catalog.VeilPolyester15 || n.Plies[0].Count != 2 {
		t.Errorf("laid %+v in %+v", n.Plies[0], r)
	}
	mats := 0
	for _, p := range n.Plies {
		if p.Zone == laminate.InteriorLayer {
			mats += p.Count
		}
	}
	if mats != 4 {
		t.Errorf("%d mats, want the 4 of a double build (common practice, no source)", mats)
	}
}

func TestWithBarrier_refuses(t *testing.T) {
	s, lib := drain(laminate.Fluorides), catalog.Library()
	for _, tc := range []struct {
		name string
		o    advice.Options
		want string
	}{
		{"glass veil in fluorides", advice.Options{Veil: "veil-c-10"}, "no veil is suitable"},
		{"a build nobody asks for", advice.Options{Build: catalog.SingleBuild.ID + advice.FilledSuffix}, "there is no build"},
		{"a veil there is none of", advice.Options{Veil: "veil-of-moonlight"}, "there is no veil"},
	} {
		if _, err := advice.WithBarrier(s, lib, tc.o); err == nil || !strings.Contains(err.Error(), tc.want) {
			t.Errorf("%s: %v, want %q", tc.name, err, tc.want)
		}
	}
}
