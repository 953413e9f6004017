package joint_test

import (
	"slices"
	"strings"
	"testing"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/catalog"
	"frp/veilwright/laminate/overlay"
	"frp/veilwright/rules"
	"frp/veilwright/rules/all"
	"frp/veilwright/rules/ruletest"
)

// laidOver are the findings of rules of walls about what is laid at joints and
// nozzles: severity, rule, and the key that names the laminate.
func laidOver(r *rules.JobReport) (list []string) {
	for _, f := range r.Findings {
		if f.Rule.Run != nil && f.Rule.Overlays != rules.WallsAlone {
			list = append(list, f.Severity.String()+" "+f.Rule.ID+" "+f.At.Key)
		}
	}
	slices.Sort(list)
	return list
}

// A strap, a pad, a seal are laid of the same plies as walls, by the same hands and
// into the same fluid: nothing said so of them.
func TestOverlays_areJudgedByWhatHoldsOfThemToo(t *testing.T) {
	for _, c := range []struct {
		name   string
		change func(*laminate.Job)
		want   []string
	}{
		{"sound", func(*laminate.Job) {}, nil},
		{"five mats at once", func(j *laminate.Job) {
			j.Laminates[1].Plies = []laminate.Ply{j.Laminates[1].Plies[0]}
			j.Laminates[1].Plies[0].Count = 5
		},
			[]string{"warning gel-stop-late installation_outside", "warning gel-stop-late outside", "warning gel-stop-late pad"}},
		{"woven on woven", func(j *laminate.Job) {
			woven := j.Laminates[1].Plies[0]
			woven.Material, woven.Count = catalog.Woven24, 2
			j.Laminates[1].Plies = append(j.Laminates[1].Plies, woven)
		}, []string{"break woven-on-woven installation_outside", "break woven-on-woven outside", "break woven-on-woven pad", "warning no-bond-mat installation_outside", "warning no-bond-mat outside", "warning no-bond-mat pad", "warning woven-outermost installation_outside", "warning woven-outermost outside", "warning woven-outermost pad"}},
		{"woven last under the coat of a strap", func(j *laminate.Job) {
			woven, coat := j.Laminates[1].Plies[0], j.Laminates[1].Plies[0]
			woven.Material, woven.Count, woven.GelAfter = catalog.Woven24, 1, false
			coat.Material, coat.Count, coat.GelAfter, coat.Zone = catalog.Topcoat, 1, false, laminate.NoZone
			j.Laminates[1].Plies = append(j.Laminates[1].Plies, woven, coat)
			j.Nozzles = nil
		}, []string{"warning no-bond-mat outside", "warning woven-outermost outside"}},
		{"a waxed coat over the veil of a seal", coated, nil},
		{"a waxed coat over too thick a veil of a seal", func(j *laminate.Job) {
			coated(j)
			j.Laminates[2].Plies[1].GlassContent = laminate.Some(0.05)
		}, []string{"warning barrier-glass-content inside", "warning barrier-glass-content installation_inside", "warning inner-surface-thickness inside", "warning inner-surface-thickness installation_inside"}},
		{"wax inside a strap", func(j *laminate.Job) {
			coat := j.Laminates[1].Plies[0]
			coat.Material, coat.Count, coat.Zone = catalog.Topcoat, 1, laminate.NoZone
			j.Laminates[1].Plies = slices.Insert(j.Laminates[1].Plies, 1, coat)
			j.Nozzles = nil
		}, []string{"break wax-between-plies outside"}},
		{"a carbon veil on a seal in hypochlorite", func(j *laminate.Job) {
			j.Service.Contains = laminate.TraitSet(laminate.Hypochlorite)
			j.Laminates[2].Plies[1].Material = catalog.VeilCarbon11
			for i := range j.Resins {
				j.Resins[i].Cure = laminate.PeroxideAmine
			}
		}, []string{"break carbon-veil-in-hypochlorite inside", "break carbon-veil-in-hypochlorite installation_inside"}},
		{"a glass veil on a seal in fluorides", func(j *laminate.Job) {
			j.Service.Contains = laminate.TraitSet(laminate.Fluorides)
			j.Laminates[0].Plies[0].Material = catalog.VeilPolyester15
		}, []string{"break fluorides-attack-glass-veil inside", "break fluorides-attack-glass-veil installation_inside"}},
		{"a seal of a resin for neither the acid nor its heat", func(j *laminate.Job) {
			j.Service.Contains, j.Service.Temperature = laminate.TraitSet(laminate.StrongAcid), ruletest.Fahrenheit(140)
			j.Resins = append(j.Resins, laminate.Resin{ID: "cheap", Family: laminate.Isophthalic})
			for _, l := range []int{1, 2} { // the strap too, which the acid does not reach
				for i := range j.Laminates[l].Plies {
					j.Laminates[l].Plies[i].Resin = "cheap"
				}
			}
		}, []string{"warning resin-for-acid inside", "warning resin-for-acid installation_inside", "warning resin-for-acid neck", "warning resin-temperature inside", "warning resin-temperature installation_inside"}},
		{"a strap of a resin without a family", func(j *laminate.Job) {
			j.Resins = append(j.Resins, laminate.Resin{ID: "drum"})
			j.Laminates[1].Plies[0].Resin = "drum"
			j.Nozzles = nil
		}, []string{"incomplete resin-family-missing outside"}},
	} {
		j := sound()
		j.Laminates[1].Plies = slices.Repeat([]laminate.Ply{j.Laminates[1].Plies[0]}, 2)
		for i := range j.Laminates[1].Plies {
			j.Laminates[1].Plies[i].Count, j.Laminates[1].Plies[i].GelAfter = 3-i, true
		}
		c.change(j)
		if got := laidOver(rules.JudgeJob(all.Rules(), j, catalog.Library(), rules.Options{})); !slices.Equal(got, c.want) {
			t.Errorf("%s: %q, want %q", c.name, got, c.want)
		}
	}
}

// coated lays the coat over the seal that keeps the air from it.
func coated(j *laminate.Job) {
	coat := j.Laminates[2].Plies[1]
	coat.Material, coat.Zone = catalog.Topcoat, laminate.InnerSurface
	j.Laminates[2].Plies = append(j.Laminates[2].Plies, coat)
}

// Findings of what is laid stand in its own report and count for its verdict, on the
// bench once, at the plies; and in no report of a part.
func TestOverlays_findingsStandWithWhatIsLaid(t *testing.T) {
	j := sound()
	woven := j.Laminates[1].Plies[0]
	woven.Material, woven.Count = catalog.Woven24, 2
	j.Laminates[1].Plies = append(j.Laminates[1].Plies, woven)
	r := rules.JudgeJob(all.Rules(), j, catalog.Library(), rules.Options{})
	has := func(of *rules.Report, id string) (found []rules.Finding) {
		for _, f := range of.Findings {
			if f.Rule.ID == id {
				found = append(found, f)
			}
		}
		return found
	}
	for _, o := range overlay.All(j) {
		found := has(r.Overlay(o), "woven-on-woven")
		if laid := o.Laminate == "strap"; laid != (len(found) == 1) {
			t.Errorf("%s: %d findings", o.Name(), len(found))
		} else if laid && (!strings.HasPrefix(found[0].Message, o.Name()+": pl") || r.Overlay(o).Verdict != rules.Break) {
			t.Errorf("%s: %q", o.Name(), found[0].Message)
		}
	}
	o, err := overlay.Find(j, "", "J", overlay.Strap)
	if err != nil {
		t.Fatal(err)
	}
	if found := has(r.Laminate(o), "woven-on-woven"); len(found) != 1 || !slices.Equal(found[0].Rows, []int{1}) || !strings.HasPrefix(found[0].Message, "pl") {
		t.Errorf("on the bench: %+v", found)
	}
	for i := range r.Parts {
		if has(r.PartReport(i), "woven-on-woven") != nil {
			t.Errorf("it is said of part %d", i)
		}
	}
}

// A neck that is laid as a wall is meets the fluid as that wall does, and what holds
// of both is said of both alike.
func TestOverlays_aNeckIsJudgedAsTheWallItIs(t *testing.T) {
	for _, traits := range [][]laminate.Trait{{laminate.Hypochlorite}, {laminate.StrongAcid}, {laminate.Fluorides}, {laminate.Oxidizer}, {laminate.StrongBase}, {laminate.Solvent}} {
		j := sound()
		j.Service.Contains = laminate.TraitSet(traits...)
		j.Service.Temperature, j.Service.PH = ruletest.Fahrenheit(200), laminate.PHRange{}
		j.Joints, j.Nozzles[0].Pad, j.Nozzles[0].InstallationInside, j.Nozzles[0].InstallationOutside = nil, "", "", ""
		r := rules.JudgeJob(all.Rules(), j, catalog.Library(), rules.Options{})
		var want []string
		for _, f := range r.Parts[0].Findings {
			if f.Rule.Overlays != rules.WallsAlone && f.Severity >= rules.Warning && f.Rows != nil {
				want = append(want, f.Severity.String()+" "+f.Rule.ID+" neck")
			}
		}
		slices.Sort(want)
		if got := laidOver(r); !slices.Equal(got, want) || len(want) == 0 {
			t.Errorf("%v: the neck has %q, the wall %q", traits, got, want)
		}
	}
}
