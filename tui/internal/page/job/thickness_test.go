package job

import (
	"slices"
	"testing"

	"pgregory.net/rapid"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/catalog"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/schedules"
)

// Whatever is edited, a thickness that is kept is the one that is figured anew.
func TestThicknesses_keptAreThoseFiguredAnew(t *testing.T) {
	_, example, _ := schedules.DecodeJob(schedules.ExampleJob(), nil, nil)
	lib := catalog.Library()
	rapid.Check(t, func(t *rapid.T) {
		j := example
		var kept thicknesses
		kept.of(j, lib)
		for range rapid.IntRange(1, 8).Draw(t, "edits") {
			n := j.Clone()
			i := rapid.IntRange(0, len(n.Laminates)-1).Draw(t, "laminate")
			switch rapid.IntRange(0, 5).Draw(t, "edit") {
			case 0:
				if l := &n.Laminates[i]; len(l.Plies) > 0 {
					l.Plies[0].Count = rapid.IntRange(1, 5).Draw(t, "count")
				}
			case 1:
				n.Laminates = slices.Delete(n.Laminates, i, i+1)
			case 2:
				n.Laminates = append(n.Laminates, laminate.Laminate{ID: "more", Plies: slices.Clone(n.Laminates[i].Plies)})
			case 3:
				n.Resins[0].Density = quantity.New(rapid.Float64Range(1000, 2000).Draw(t, "density"), quantity.KilogramPerCubicMeter)
			case 4:
				n.Joints[0].Inside, n.Joints[0].Outside = n.Joints[0].Outside, n.Laminates[i].ID
				for k := range n.Laminates[i].Plies {
					n.Laminates[i].Plies[k].Zone = laminate.NoZone
				}
			default:
				n.Vessel.LiquidHeight = quantity.New(rapid.Float64Range(1, 5).Draw(t, "level"), quantity.Meter)
			}
			if len(n.Laminates) == 0 {
				return
			}
			j = n
			var anew thicknesses
			if got, want := kept.of(j, lib), anew.of(j, lib); !slices.Equal(got, want) {
				t.Fatalf("%v, figured anew %v", got, want)
			}
		}
	})
}

// A seal whose zones nobody states is as thick in its row as on the bench: its mats
// are as rich in resin as those of a barrier.
func TestThicknesses_ofASeal(t *testing.T) {
	_, j, _ := schedules.DecodeJob(schedules.ExampleJob(), nil, nil)
	j = j.Clone()
	lib, seal := catalog.Library(), j.Laminate("seal")
	var stated, unstated thicknesses
	want := stated.of(j, lib)[seal]
	for k := range j.Laminates[seal].Plies {
		j.Laminates[seal].Plies[k].Zone = laminate.NoZone
	}
	if got := unstated.of(j, lib)[seal]; got != want {
		t.Errorf("%v, with zones %v", got, want)
	}
}
