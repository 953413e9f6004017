package laid_test

import (
	"math"
	"testing"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/catalog"
	"frp/veilwright/laminate/laid"
	"frp/veilwright/laminate/quantity"
)

// By hand, on a 12 in pipe of 10 ft: a ply of 1.5 oz/ft² mat in the middle of
// its own thickness covers π × d × 10 ft, and the fabric weighs 1.5 oz on each
// square foot of that.
func TestOf_aMatOnAPipe(t *testing.T) {
	s := &laminate.Schedule{
		Part:   laminate.Part{Form: laminate.Pipe, InsideDiameter: quantity.New(12, quantity.Inch), Length: quantity.New(10, quantity.Foot)},
		Resins: []laminate.Resin{{ID: "r", Family: laminate.VinylEster}},
		Plies:  []laminate.Ply{{Material: catalog.VeilC15, Resin: "r", Count: 1}, {Material: catalog.Mat15, Resin: "r", Count: 2}},
	}
	a := laminate.Analyze(s, catalog.Library())
	p := laid.Of(s, a, 3, quantity.US)
	feet := math.Pi * (1 + 2*(a.Rows[0].Thickness+1.5*a.Rows[1].Thickness)/0.3048) * 10
	if want := feet * 1.5 * 0.45359237 / 16; p.Missing != "" || math.Abs(p.Fabric/want-1) > 1e-9 {
		t.Errorf("fabric %.6f kg, want %.6f; %s", p.Fabric, want, p.Missing)
	}
	if p.Row != 1 || math.Abs(p.Area/(feet*0.3048*0.3048)-1) > 1e-9 || math.Abs(p.Circumference*p.Length-p.Area) > 1e-9 || p.Filler != 0 || p.Resin() != p.Mix {
		t.Errorf("%+v", p)
	}
	if p := laid.Of(s, a, 4, quantity.US); p.Missing == "" {
		t.Errorf("a ply that is none takes %+v", p)
	}
}
