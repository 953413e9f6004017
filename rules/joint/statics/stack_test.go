package statics_test

import (
	"testing"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/catalog"
	"frp/veilwright/rules/joint/statics"
	"frp/veilwright/rules/ruletest"
)

// What a strap may bear comes of the table of mat and woven roving of glass: other
// fibers have no strength there, and a veil among mats makes nothing woven.
func TestStackOf_creditsGlassAlone(t *testing.T) {
	s := ruletest.Sound()
	of := func(change func(*laminate.Schedule)) statics.Stack {
		n := *s
		n.Plies = append([]laminate.Ply(nil), s.Plies...)
		n.Materials = append([]laminate.Material(nil), s.Materials...)
		change(&n)
		return statics.StackOf(laminate.Analyze(&n, catalog.Library()))
	}
	structure := func(n *laminate.Schedule, material string) {
		for i := range n.Plies {
			if n.Plies[i].Zone == laminate.StructuralLayer {
				n.Plies[i].Material = material
			}
		}
	}
	if got := of(func(*laminate.Schedule) {}); got.Hoop <= 0 || !got.Known {
		t.Errorf("mat and woven roving of glass: %+v", got)
	}
	for _, form := range []laminate.Form{laminate.ChoppedMat, laminate.WovenRoving} {
		got := of(func(n *laminate.Schedule) {
			mat, _ := catalog.Library().Material(n, catalog.Mat15)
			own := *mat
			own.ID, own.Form, own.Fiber = "pet", form, laminate.Polyester
			n.Materials = append(n.Materials, own)
			structure(n, "pet")
		})
		if got.Hoop != 0 || got.Structure <= 0 {
			t.Errorf("%v of polyester: %+v", form, got)
		}
	}
	mats := of(func(n *laminate.Schedule) { structure(n, catalog.Mat15) })
	veiled := of(func(n *laminate.Schedule) {
		structure(n, catalog.Mat15)
		n.Plies[len(n.Plies)-1].Zone = laminate.StructuralLayer
		n.Plies[len(n.Plies)-1].Material = catalog.VeilC15
	})
	if a, b := mats.Hoop/mats.Structure, veiled.Hoop/veiled.Structure; b > a*(1+1e-9) {
		t.Errorf("mats bear %v a square meter, with a veil among them %v", a, b)
	}
}
