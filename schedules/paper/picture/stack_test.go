package picture

import (
	"math"
	"testing"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/quantity"
)

// A cap of 6 in hangs below a cone from 96 to 24 in at 30°, 36/tan 30° = 62.354 in high.
func TestStack_hangsOneBottomBelowTheOther(t *testing.T) {
	in := func(v float64) quantity.Length { return quantity.New(v, quantity.Inch) }
	j := &laminate.Job{Parts: []laminate.JobPart{{ID: "cap"}, {ID: "cone"}, {ID: "shell"}}}
	cup, cone, shell := &j.Parts[0].Part, &j.Parts[1].Part, &j.Parts[2].Part
	cup.Form, cup.InsideDiameter, cup.Head, cup.Depth = laminate.HeadPart, in(24), laminate.Ellipsoidal, in(6)
	cone.Form, cone.InsideDiameter, cone.SmallDiameter, cone.HalfAngle = laminate.Cone, in(96), in(24), laminate.Some(30.0)
	shell.Form, shell.InsideDiameter, shell.Length = laminate.ShellCourse, in(96), in(168)
	rings, left := stack(j)
	if len(rings) != 3 || len(left) != 0 {
		t.Fatalf("%d rings, left %v", len(rings), left)
	}
	for i, want := range [][2]float64{{-62.354, -68.354}, {0, -62.354}, {0, 168}} {
		p := rings[i].profile
		if a, b := p[0].Y/0.0254, p[len(p)-1].Y/0.0254; math.Abs(a-want[0]) > 1e-3 || math.Abs(b-want[1]) > 1e-3 {
			t.Errorf("%s goes from %.3f to %.3f in, not %v", rings[i].id, a, b, want)
		}
	}
}
