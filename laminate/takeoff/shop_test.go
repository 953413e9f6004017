package takeoff_test

import (
	"strings"
	"testing"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/catalog"
	"frp/veilwright/laminate/published"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/stock"
	"frp/veilwright/laminate/takeoff"
)

func table(t *testing.T) []stock.Initiation {
	var f floorFile
	published.Load(t, "takeoff/shop-floor.json", &f)
	row := func(c, minutes, share float64) stock.Initiation {
		return stock.Initiation{
			Family: laminate.VinylEster, Cure: laminate.PeroxideCobalt, Temperature: quantity.New(c, quantity.Celsius), Initiator: laminate.Some(share),
			Promoter: laminate.Some(0.002), GelMinutes: laminate.Some(minutes), Density: quantity.New(1150, quantity.KilogramPerCubicMeter), Source: "invented",
		}
	}
	return []stock.Initiation{row(f.Gel.LowC, f.Gel.LowMin, 0.02), row(f.Gel.HighC, f.Gel.HighMin, 0.015)}
}

func TestInitiation_staysInTheShopsTable(t *testing.T) {
	var f floorFile
	published.Load(t, "takeoff/shop-floor.json", &f)
	shop := stock.Stock{Initiators: table(t)}
	r := &laminate.Resin{ID: "r", Family: laminate.VinylEster, Cure: laminate.PeroxideCobalt}
	at := func(c float64) quantity.Temperature { return quantity.New(c, quantity.Celsius) }
	got, err := shop.Initiation(r, at(30))
	if err != nil || got.Initiator.Value != 0.015 || got.GelMinutes.Value != 15 {
		t.Errorf("on a row: %+v, %v", got, err)
	}
	for _, c := range []struct {
		name string
		r    laminate.Resin
		at   quantity.Temperature
		want string
	}{
		{"colder", *r, at(19.9), "outside the shop's table"},
		{"hotter", *r, at(30.1), "outside the shop's table"},
		// Two percent gels sooner at 29 °C than one and a half does at 30 °C in 15 minutes.
		{"between rows of other amounts, warm", *r, at(29), "at 293.15 K 2 % of initiator, 0.2 % of promoter, gels in 30 minutes; at 303.15 K 1.5 % of initiator, 0.2 % of promoter, gels in 15 minutes"},
		{"between rows of other amounts, cold", *r, at(21), "differ in amounts"},
		{"not stated", *r, quantity.Temperature{}, "state that of the shop"},
		{"another cure", laminate.Resin{Family: laminate.VinylEster, Cure: laminate.PeroxideAmine}, at(25), "no [[initiator]]"},
		{"another family", laminate.Resin{Family: laminate.Isophthalic, Cure: laminate.PeroxideCobalt}, at(25), "no [[initiator]]"},
	} {
		if _, err := shop.Initiation(&c.r, c.at); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: %v", c.name, err)
		}
	}
	shop.Initiators[1].Promoter = laminate.Some(0.003)
	shop.Initiators[1].Initiator = laminate.Some(0.02)
	if _, err := shop.Initiation(r, at(25)); err == nil || !strings.Contains(err.Error(), "differ in amounts") {
		t.Errorf("between rows of another promoter: %v", err)
	}
	shop.Initiators[1].Promoter = laminate.Some(0.002)
	if got, err = shop.Initiation(r, at(f.Gel.AtC)); err != nil || got.Initiator.Value != 0.02 {
		t.Fatalf("between two rows of the same amounts: %+v, %v", got, err)
	}
	published.Near(t, "gel time", got.GelMinutes.Value, f.Gel.Minutes, 0.05)
	if got, err = shop.Initiation(r, quantity.Temperature{}); err != nil || got.GelMinutes.Given {
		t.Errorf("rows of one amount need no temperature, and give no gel time: %+v, %v", got, err)
	}
}

// Of several rows that might count none is taken for another: a second initiator of
// the same resin, and a row for any temperature beside those that name one.
func TestInitiation_takesNoneOfSeveralThatDiffer(t *testing.T) {
	at := func(c float64) quantity.Temperature { return quantity.New(c, quantity.Celsius) }
	r := &laminate.Resin{ID: "r", Family: laminate.VinylEster, Cure: laminate.PeroxideCobalt}
	shop := stock.Stock{Initiators: table(t)[:1]}
	second := shop.Initiators[0]
	second.Initiator = laminate.Some(0.03)
	shop.Initiators = append(shop.Initiators, second)
	if _, err := shop.Initiation(r, at(20)); err == nil || !strings.Contains(err.Error(), "2 % of initiator") || !strings.Contains(err.Error(), "3 % of initiator") {
		t.Errorf("two rows of one temperature: %v", err)
	}
	shop.Initiators[1].Temperature = quantity.Temperature{}
	for _, c := range []float64{15, 20, 25} {
		if got, err := shop.Initiation(r, at(c)); err == nil || !strings.Contains(err.Error(), "at any temperature 3 %") {
			t.Errorf("a row of any temperature beside one of 20 °C, at %g °C: %+v, %v", c, got, err)
		}
	}
	shop.Initiators = shop.Initiators[1:]
	if got, err := shop.Initiation(r, at(25)); err != nil || got.Initiator.Value != 0.03 {
		t.Errorf("a row of any temperature alone: %+v, %v", got, err)
	}
}

func TestResin_isOrderedWithInitiatorOfTheTableAlone(t *testing.T) {
	s, f := pipe(t)
	bare := count(s, stock.Stock{})
	if r := bare.Resins[0]; r.Initiation != nil || r.Initiator != 0 || !remarked(bare, "initiator-unstated", "no [[initiator]]") {
		t.Errorf("without a table: %+v", r)
	}
	var own stock.Stock
	own.Initiators = table(t)
	own.Takeoff.Batch = quantity.New(4, quantity.Kilogram)
	own.Takeoff.LaidAMinute = quantity.New(0.1, quantity.Kilogram)
	got := takeoff.Count([]takeoff.Piece{takeoff.Of(s)}, catalog.Library(), own, takeoff.Options{At: quantity.New(20, quantity.Celsius)})
	r := got.Resins[0]
	published.Near(t, "initiator", r.Initiator, 0.02*f.Mix*1.08, 0.001)
	published.Near(t, "liters", r.InitiatorLiter, r.Initiator/1.15, 1e-9)
	published.Near(t, "promoter", r.Promoter, 0.002*f.Mix*1.08, 0.001)
	if p := got.Pieces[0].Plies[1]; p.Batches != 4 {
		t.Errorf("%d pots for ply 2, by hand 4", p.Batches)
	}
	if !remarked(got, "batch-outlasts-pot", "a pot of") {
		t.Errorf("4 kg at 0.1 kg a minute outlast 30 minutes: %+v", got.Remarks)
	}
	// 40 % styrene by hand: 123 lb a ton, as published.
	published.Near(t, "styrene", r.Styrene, r.Ordered*123/2000, 0.001*r.Ordered)
	own.Initiators[0].Initiator = laminate.Some(0.2)
	got = takeoff.Count([]takeoff.Piece{takeoff.Of(s)}, catalog.Library(), own, takeoff.Options{At: quantity.New(20, quantity.Celsius)})
	if !remarked(got, "peroxide-outside-range", "20 % of initiator") {
		t.Errorf("a tenth too much goes by unseen: %+v", got.Remarks)
	}
}

func TestResin_withoutStyreneContentHasNoEstimate(t *testing.T) {
	s, _ := pipe(t)
	s.Resins[0].StyreneContent = laminate.Optional[float64]{}
	if r := count(s, stock.Stock{}).Resins[0]; r.Styrene != 0 || r.StyreneWhy == "" {
		t.Errorf("%+v", r)
	}
}

func TestCost_countsWhatIsPricedAndNamesTheRest(t *testing.T) {
	s, _ := pipe(t)
	price := func(text string) quantity.Price {
		p, err := quantity.ParsePrice(text)
		if err != nil {
			t.Fatal(err)
		}
		return p
	}
	var own stock.Stock
	own.Rolls = []stock.Roll{{Material: "m1", Price: price("3 per kg")}}
	own.Takeoff.HoursContact, own.Takeoff.HourPrice, own.Takeoff.Currency = laminate.Some(0.5), laminate.Some(60.0), "EUR"
	s.Resins[0].Price = price("EUR 2 per kg")
	got := count(s, own)
	sums := map[string]float64{}
	for _, x := range got.Cost.Totals {
		sums[x.Currency] = x.Amount
	}
	// The price that names no currency is in the book's.
	published.Near(t, "in EUR", sums["EUR"], 3*got.Goods[1].Ordered+2*got.Resins[0].Ordered+60*0.5*got.Pieces[0].Area, 1e-6)
	if len(got.Cost.Totals) != 1 {
		t.Errorf("totals: %+v", got.Cost.Totals)
	}
	if len(got.Cost.Without) != 8 || !remarked(got, "price-missing", "m0, m2") {
		t.Errorf("without: %v", got.Cost.Without)
	}
	own.Takeoff.Currency = ""
	bare := count(s, own)
	for _, x := range bare.Cost.Totals {
		sums[x.Currency] = x.Amount
	}
	published.Near(t, "where the book states none", sums[""], 3*got.Goods[1].Ordered+60*0.5*got.Pieces[0].Area, 1e-6)
	published.Near(t, "in EUR by itself", sums["EUR"], 2*got.Resins[0].Ordered, 1e-6)
	if !remarked(got, "roll-size-missing", "m1") || !remarked(got, "waste-unstated", "glass_waste") {
		t.Errorf("remarks: %+v", got.Remarks)
	}
}

func TestCount_saysWhatIsMissingAndNeverSumsIt(t *testing.T) {
	s, _ := pipe(t)
	s.Part.Length = quantity.Length{}
	got := count(s, stock.Stock{})
	if !got.Incomplete() || got.Mass() != 0 || !strings.Contains(got.Pieces[0].Why, "length") {
		t.Errorf("without a length: %+v", got.Pieces[0])
	}
	s, _ = pipe(t)
	s.Plies[2].Resin = ""
	if got = count(s, stock.Stock{}); !got.Incomplete() || !strings.Contains(got.Pieces[0].Why, "ply 3") {
		t.Errorf("without a resin: %+v", got.Pieces[0])
	}
	s.Plies = nil
	if got = count(s, stock.Stock{}); !got.Incomplete() {
		t.Error("no plies pass for a takeoff of nothing")
	}
}

// Two resins of one id that are not the same are ordered apart.
func TestCount_keepsResinsOfOneNameApart(t *testing.T) {
	s, _ := pipe(t)
	other := s.Clone()
	other.Resins[0].Family = laminate.NovolacVinylEster
	got := takeoff.Count([]takeoff.Piece{takeoff.Of(s), takeoff.Of(other)}, catalog.Library(), stock.Stock{}, takeoff.Options{})
	if len(got.Resins) != 2 || len(got.Goods) != 8 {
		t.Errorf("%d resins, %d materials", len(got.Resins), len(got.Goods))
	}
}
