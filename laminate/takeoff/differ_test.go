package takeoff_test

import (
	"math"
	"testing"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/catalog"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/stock"
	"frp/veilwright/laminate/takeoff"
)

// tube is a pipe of some mats, 1 m across, π m long inside: 1 m × π × 1 m.
func tube(mats int, resin string) *laminate.Schedule {
	s := &laminate.Schedule{Resins: []laminate.Resin{{ID: resin, Family: laminate.VinylEster, Density: quantity.New(1000, quantity.KilogramPerCubicMeter)}},
		Plies: []laminate.Ply{{Material: catalog.Mat15, Resin: resin, Zone: laminate.StructuralLayer, Count: mats}}}
	s.Part.Form, s.Part.InsideDiameter, s.Part.Length = laminate.Pipe, quantity.New(1, quantity.Meter), quantity.New(1, quantity.Meter)
	return s
}

func counted(s *laminate.Schedule, own stock.Stock) *takeoff.Takeoff {
	return takeoff.Count([]takeoff.Piece{takeoff.Of(s)}, catalog.Library(), own, takeoff.Options{})
}

func change(t *testing.T, list []takeoff.Change, of string, m takeoff.Measure) takeoff.Change {
	t.Helper()
	for _, c := range list {
		if c.Of == of && c.Measure == m {
			return c
		}
	}
	t.Fatalf("nothing is said of %s in %+v", of, list)
	return takeoff.Change{}
}

func TestDiffer_saysWhatMoreIsOrdered(t *testing.T) {
	var own stock.Stock
	own.Takeoff.HoursContact, own.Takeoff.HourPrice, own.Takeoff.Currency = laminate.Some(0.5), laminate.Some(40.0), "EUR"
	two, three := counted(tube(2, "r"), own), counted(tube(3, "r"), own)
	if same := takeoff.Differ(two, counted(tube(2, "r"), own), catalog.Library()); len(same) > 0 {
		t.Errorf("the same differ: %+v", same)
	}
	list := takeoff.Differ(two, three, catalog.Library())
	// One mat of 1.5 oz/ft² on π m² and a little: 0.4577 kg/m² (the mass of an
	// ounce and a foot).
	mat := change(t, list, catalog.Mat15, takeoff.Ordered)
	if net := 0.45771 * math.Pi; mat.More() < net || mat.More() > net*1.02 {
		t.Errorf("a mat more is %.4f kg of mat, on the inside face %.4f", mat.More(), net)
	}
	kg, m3 := change(t, list, "resin r", takeoff.Ordered), change(t, list, "resin r", takeoff.Volume)
	if math.Abs(kg.More()/1000-m3.More()) > 1e-12 {
		t.Errorf("%v kg of 1000 kg/m³ are %v m³", kg.More(), m3.More())
	}
	hours, cost := change(t, list, "laying by hand", takeoff.Hours), change(t, list, "laying by hand", takeoff.Amount)
	if math.Abs(hours.More()*40-cost.More()) > 1e-9 || cost.Currency != "EUR" || hours.More() < 0.5*math.Pi {
		t.Errorf("hours %+v, cost %+v", hours, cost)
	}
	if total := change(t, list, "total", takeoff.Amount); math.Abs(total.More()-cost.More()) > 1e-9 {
		t.Errorf("total %+v", total)
	}
	if wall := change(t, list, "the wall", takeoff.Laid); math.Abs(wall.More()-(three.Mass()-two.Mass())) > 1e-9 {
		t.Errorf("the wall %+v", wall)
	}
	// What cannot be determined is no difference of nothing, and no equality.
	open := tube(2, "r")
	open.Part.Length = quantity.Length{}
	for _, newer := range []*takeoff.Takeoff{three, counted(open, own)} {
		list := takeoff.Differ(counted(open, own), newer, catalog.Library())
		if wall := change(t, list, "the wall", takeoff.Laid); !wall.Unknown || wall.Old.Given {
			t.Errorf("a wall without a length: %+v", wall)
		}
	}
	// What stands in one alone is there on one side alone.
	list = takeoff.Differ(two, counted(tube(2, "other"), own), catalog.Library())
	if a, b := change(t, list, "resin r", takeoff.Ordered), change(t, list, "resin other", takeoff.Ordered); !a.Old.Given || a.New.Given || b.Old.Given || !b.New.Given || math.Abs(a.More()+b.More()) > 1e-9 {
		t.Errorf("%+v, %+v", a, b)
	}
}
