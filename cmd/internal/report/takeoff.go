package report

import (
	"frp/veilwright/laminate/takeoff"
)

// Takeoff is one element of what takeoff prints as JSON. Masses in kg, areas in
// m², lengths in m; what is not known is null.
type Takeoff struct {
	File     string      `json:"file"`
	Title    string      `json:"title"`
	Books    []string    `json:"books"`
	Error    *string     `json:"error"`
	Problems []Problem   `json:"problems"`
	Pieces   []Piece     `json:"pieces"`
	Goods    []Goods     `json:"reinforcement"`
	Resins   []ResinTake `json:"resins"`
	MassKg   float64     `json:"mass_kg"`
	Complete bool        `json:"complete"` // whether every quantity could be determined
	Cost     Cost        `json:"cost"`
	Remarks  []Remark    `json:"remarks"`
}

// Piece is a laminate of the takeoff, all of its number together.
type Piece struct {
	Name     *string   `json:"name"`
	Number   int       `json:"number"`
	Missing  *string   `json:"missing"`
	InsideM2 float64   `json:"inside_m2"`
	PliesM2  float64   `json:"plies_m2"`
	FiberKg  float64   `json:"fiber_kg"`
	MixKg    float64   `json:"resin_mix_kg"`
	Plies    []PlyTake `json:"plies"`
}

// PlyTake is what a row of plies takes.
type PlyTake struct {
	First    int      `json:"first"`
	Last     int      `json:"last"`
	Material string   `json:"material"`
	Zone     string   `json:"zone"`
	Resin    *string  `json:"resin"`
	AreaM2   float64  `json:"area_m2"`
	FiberKg  *float64 `json:"fiber_kg"`
	MixKg    *float64 `json:"resin_mix_kg"`
	Pots     *int     `json:"pots"`
}

// Goods is a reinforcement.
type Goods struct {
	Material  string       `json:"material"`
	AreaM2    float64      `json:"area_m2"`
	NetKg     float64      `json:"net_kg"`
	OrderKg   float64      `json:"order_kg"`
	More      float64      `json:"more"` // share beyond net
	How       []string     `json:"how"`
	RollM     *float64     `json:"roll_width_m"`
	Rolls     *int         `json:"rolls"`
	Strips    []StripsTake `json:"strips"`
	TowM      *float64     `json:"tow_m"`
	TowMassKg *float64     `json:"tow_kg"`
}

// StripsTake are strips that run one way.
type StripsTake struct {
	Direction string  `json:"direction"`
	Number    int     `json:"number"`
	LengthM   float64 `json:"length_m"`
	LongestM  float64 `json:"longest_m"`
}

// ResinTake is a resin mix.
type ResinTake struct {
	Resin          string   `json:"resin"`
	LaidKg         float64  `json:"laid_kg"`
	OrderKg        float64  `json:"order_kg"`
	FillerKg       float64  `json:"filler_order_kg"`
	InitiatorKg    *float64 `json:"initiator_kg"`
	InitiatorLiter *float64 `json:"initiator_liter"`
	PromoterKg     *float64 `json:"promoter_kg"`
	GelMinutes     *float64 `json:"gel_minutes"`
	RowK           *float64 `json:"initiator_temperature_k"` // of the row of the table; null of any
	Missing        *string  `json:"initiator_missing"`
	Source         *string  `json:"initiator_source"`
	Pots           *int     `json:"pots"`
	StyreneKg      *float64 `json:"styrene_kg"`
	StyreneMissing *string  `json:"styrene_missing"`
	StyreneSource  string   `json:"styrene_source"`
}

// Cost are the lines and the totals by currency.
type Cost struct {
	Lines   []CostLine  `json:"lines"`
	Totals  []CostTotal `json:"totals"`
	Without []string    `json:"without"`
}

// CostLine is null in price and amount where no price is stated.
type CostLine struct {
	What     string   `json:"what"`
	Quantity float64  `json:"quantity"`
	Unit     string   `json:"unit"`
	Price    *float64 `json:"price"`
	Amount   *float64 `json:"amount"`
	Currency string   `json:"currency"`
}

// CostTotal is the sum in one currency, "" where none is named.
type CostTotal struct {
	Currency string  `json:"currency"`
	Amount   float64 `json:"amount"`
}

// Remark is something that whoever orders has to know.
type Remark struct {
	ID     string  `json:"id"`
	Text   string  `json:"text"`
	Source *string `json:"source"`
}

// TakeoffOf is the report of what it takes to build the pieces of a document.
func TakeoffOf(file, title string, books []string, t *takeoff.Takeoff) Takeoff {
	out := Takeoff{File: file, Title: title, Books: list(books), Problems: []Problem{}, Pieces: []Piece{}, Goods: []Goods{}, Resins: []ResinTake{},
		MassKg: t.Mass(), Complete: !t.Incomplete(), Remarks: []Remark{}}
	for i := range t.Pieces {
		p := &t.Pieces[i]
		one := Piece{Name: stated(p.Name), Number: max(p.Count, 1), Missing: stated(p.Why), InsideM2: p.Inside, PliesM2: p.Area, FiberKg: p.Fiber, MixKg: p.Mix, Plies: []PlyTake{}}
		for k := range p.Plies {
			x := &p.Plies[k]
			figured := x.Known && x.Area > 0
			one.Plies = append(one.Plies, PlyTake{First: x.First, Last: x.Last, Material: x.Material, Zone: x.Zone.String(), Resin: stated(x.Resin), AreaM2: x.Area,
				FiberKg: known(x.Fiber, figured), MixKg: known(x.Mix, figured), Pots: counted(x.Batches)})
		}
		out.Pieces = append(out.Pieces, one)
	}
	for i := range t.Goods {
		g := &t.Goods[i]
		one := Goods{Material: g.Material.ID, AreaM2: g.Area, NetKg: g.Net, OrderKg: g.Ordered, More: g.Waste(), How: list(g.How), Rolls: counted(g.Rolls), Strips: []StripsTake{},
			TowM: known(g.Tow, g.Tow > 0), TowMassKg: known(g.TowMass, g.Tow > 0)}
		if g.Roll != nil {
			one.RollM = known(g.Roll.Width.SI(), true)
		}
		for _, s := range g.Strips {
			one.Strips = append(one.Strips, StripsTake{s.Direction.String(), s.Number, s.Length, s.Longest})
		}
		out.Goods = append(out.Goods, one)
	}
	for i := range t.Resins {
		r := &t.Resins[i]
		one := ResinTake{Resin: r.Resin.ID, LaidKg: r.Laid(), OrderKg: r.Ordered, FillerKg: r.FillerOrdered(), Missing: stated(r.WhyNot), Pots: counted(r.Batches),
			StyreneKg: known(r.Styrene, r.StyreneWhy == ""), StyreneMissing: stated(r.StyreneWhy), StyreneSource: takeoff.StyreneSource}
		if x := r.Initiation; x != nil {
			one.InitiatorKg, one.InitiatorLiter = known(r.Initiator, true), known(r.InitiatorLiter, r.InitiatorLiter > 0)
			one.PromoterKg, one.GelMinutes, one.Source = known(r.Promoter, x.Promoter.Given), known(x.GelMinutes.Value, x.GelMinutes.Given), stated(x.Source)
			one.RowK = known(x.Temperature.SI(), x.Temperature.Given())
		}
		out.Resins = append(out.Resins, one)
	}
	out.Cost = Cost{Lines: []CostLine{}, Totals: []CostTotal{}, Without: list(t.Cost.Without)}
	for i := range t.Cost.Lines {
		l := &t.Cost.Lines[i]
		out.Cost.Lines = append(out.Cost.Lines, CostLine{l.What, l.Quantity, l.Unit, known(l.Price, l.Priced), known(l.Amount(), l.Priced), l.Currency})
	}
	for _, x := range t.Cost.Totals {
		out.Cost.Totals = append(out.Cost.Totals, CostTotal(x))
	}
	for _, r := range t.Remarks {
		out.Remarks = append(out.Remarks, Remark{r.ID, r.Text, stated(r.Source)})
	}
	return out
}

// UnreadTakeoff is the report of a document that cannot be used.
func UnreadTakeoff(s Schedule) Takeoff {
	return Takeoff{File: s.File, Books: list(s.Books), Error: s.Error, Problems: s.Problems, Pieces: []Piece{}, Goods: []Goods{}, Resins: []ResinTake{},
		Cost: Cost{Lines: []CostLine{}, Totals: []CostTotal{}, Without: []string{}}, Remarks: []Remark{}}
}

func counted(n int) *int {
	if n == 0 {
		return nil
	}
	return &n
}

// TakeoffDifference is what diff --takeoff prints.
type TakeoffDifference struct {
	Old      string          `json:"old"`
	New      string          `json:"new"`
	Error    *string         `json:"error"`
	Problems []Problem       `json:"problems"`
	Changes  []TakeoffChange `json:"changes"`
}

// TakeoffChange is one quantity that differs; null where it is in one alone or
// cannot be determined. Unit is kg, m3, h or money.
type TakeoffChange struct {
	Of       string   `json:"of"`
	Measure  string   `json:"measure"`
	Unit     string   `json:"unit"`
	Currency *string  `json:"currency"`
	Old      *float64 `json:"old"`
	New      *float64 `json:"new"`
}

// TakeoffDiffering is what differs between two takeoffs.
func TakeoffDiffering(old, new string, list []takeoff.Change) TakeoffDifference {
	d := TakeoffDifference{Old: old, New: new, Problems: []Problem{}, Changes: []TakeoffChange{}}
	units := map[takeoff.Measure][2]string{takeoff.Laid: {"laid", "kg"}, takeoff.Ordered: {"ordered", "kg"}, takeoff.Volume: {"ordered", "m3"}, takeoff.Hours: {"labor", "h"}, takeoff.Amount: {"cost", "money"}}
	for i := range list {
		x := &list[i]
		one := TakeoffChange{Of: x.Of, Measure: units[x.Measure][0], Unit: units[x.Measure][1]}
		if x.Currency != "" {
			one.Currency = &x.Currency
		}
		if x.Old.Given {
			one.Old = &x.Old.Value
		}
		if x.New.Given {
			one.New = &x.New.Value
		}
		d.Changes = append(d.Changes, one)
	}
	return d
}
