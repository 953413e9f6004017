package catalog_test

import (
	"testing"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/catalog"
)

func TestPick_takesTheUsualElseTheFirstThatIsNotHidden(t *testing.T) {
	lib := catalog.Library()
	mat := func(m *laminate.Material) bool { return m.Form == laminate.ChoppedMat }
	veil := lib.Materials[0]
	veil.ID = catalog.Mat15
	light := veil
	light.ID = catalog.Mat075
	own := laminate.Material{ID: "own", Form: laminate.ChoppedMat}
	for name, c := range map[string]struct {
		own  []laminate.Material
		want string
	}{
		"the usual":                                {nil, catalog.Mat15},
		"its id is a veil's here":                  {[]laminate.Material{veil}, catalog.Mat075},
		"and so is the next":                       {[]laminate.Material{veil, light}, catalog.Mat10},
		"one that lacks its areal mass is no help": {[]laminate.Material{own, veil}, catalog.Mat075},
	} {
		s := &laminate.Schedule{Materials: c.own}
		id, ok := catalog.Pick(lib, s, catalog.Mat15, mat)
		if m, known := lib.Material(s, id); !ok || id != c.want || !known || !mat(m) {
			t.Errorf("%s: %q, want %q", name, id, c.want)
		}
	}
	if id, ok := catalog.Pick(&laminate.Library{}, &laminate.Schedule{}, catalog.Mat15, mat); ok {
		t.Errorf("an empty library has %q", id)
	}
}
