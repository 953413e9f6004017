package catalog_test

import (
	"testing"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/catalog"
	"frp/veilwright/laminate/stock"
)

// The ranges are common practice, no source.
func TestOddShares_areThoseOutsideWhatIsUsual(t *testing.T) {
	row := func(initiator, promoter float64) *stock.Initiation {
		return &stock.Initiation{Initiator: laminate.Some(initiator), Promoter: laminate.Some(promoter)}
	}
	for _, c := range []struct {
		row  *stock.Initiation
		cure laminate.Cure
		want []catalog.OddShare
	}{
		{row(0.015, 0.003), laminate.PeroxideCobalt, nil},
		{row(0.01, 0), laminate.PeroxideCobalt, nil}, // the bound itself, and a resin that comes promoted
		{row(0.15, 0.03), laminate.PeroxideCobalt, []catalog.OddShare{
			{Key: "initiator", Far: true, Says: "15 % of initiator; 1 % to 3 % is usual, and it looks like 1.5 %"},
			{Key: "promoter", Far: true, Says: "3 % of cobalt solution; 0.1 % to 0.5 % is usual, and it looks like 0.3 %"}}},
		{row(0.04, 0.002), laminate.NoCure, []catalog.OddShare{{Key: "initiator", Says: "4 % of initiator; 1 % to 3 % is usual"}}},
		{row(0.0015, 0.0004), laminate.PeroxideAmine, []catalog.OddShare{
			{Key: "initiator", Far: true, Says: "0.15 % of initiator; 1 % to 3 % is usual, and it looks like 1.5 %"},
			{Key: "promoter", Says: "0.04 % of amine; 0.05 % to 0.3 % is usual"}}},
		{row(0.02, 0.03), laminate.NoCure, []catalog.OddShare{{Key: "promoter", Far: true, Says: "3 % of promoter; 0.05 % to 0.5 % is usual, and it looks like 0.3 %"}}},
	} {
		got := catalog.OddShares(c.row, c.cure)
		if len(got) != len(c.want) {
			t.Errorf("%v %v: %+v, want %+v", c.row.Initiator, c.row.Promoter, got, c.want)
			continue
		}
		for i := range got {
			if got[i] != c.want[i] {
				t.Errorf("%v %v: %+v, want %+v", c.row.Initiator, c.row.Promoter, got[i], c.want[i])
			}
		}
	}
}
