package edit

import (
	"testing"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/catalog"
	"frp/veilwright/laminate/quantity"
)

func TestSetMaterial_winsOverTheBuiltInOneAndIsChangedInPlace(t *testing.T) {
	lib := catalog.Library()
	band, _ := lib.Material(nil, "band-helical")
	m := *band
	m.BandWidth = quantity.New(3, quantity.Inch)
	s := &laminate.Schedule{}
	one, err := SetMaterial(s, m, "band 3 in").Do(s)
	if err != nil || len(s.Materials) != 0 || len(one.Materials) != 1 {
		t.Fatalf("%v, %d and %d materials", err, len(s.Materials), len(one.Materials))
	}
	if got, _ := lib.Material(one, "band-helical"); got.BandWidth.Cmp(m.BandWidth) != 0 {
		t.Error("the schedule's own material must win")
	}
	m.BandWidth = quantity.New(4, quantity.Inch)
	two, err := SetMaterial(one, m, "band 4 in").Do(one)
	if err != nil || len(two.Materials) != 1 || two.Materials[0].BandWidth.Cmp(m.BandWidth) != 0 {
		t.Errorf("%v, %v", err, two)
	}
	if same, _ := SetMaterial(two, m, "again").Do(two); same != two {
		t.Error("a change that changes nothing must give the same schedule")
	}
	m.BandWidth = quantity.New(-1, quantity.Inch)
	if _, err := SetMaterial(two, m, "impossible").Do(two); err == nil {
		t.Error("a negative band width must be refused")
	}
}
