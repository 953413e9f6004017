package takeoff

import (
	"errors"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/ground"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/stock"
)

// Options say what the documents do not.
type Options struct {
	// At is the temperature of shop and resin, for the table of initiators.
	At    quantity.Temperature
	Units quantity.System // of remarks
}

// Takeoff is what it takes to build some pieces. Masses in kg, areas in m²,
// lengths in m.
type Takeoff struct {
	Pieces  []Figures
	Goods   []Goods // by material, in the order of use
	Resins  []Resin // by resin, in the order of use
	Labor   []Line
	Cost    Cost
	Remarks []Remark
}

// Figures are those of one piece, of all of its count.
type Figures struct {
	*Piece
	Plies  []Ply
	Area   float64 // of all plies together
	Inside float64 // of the face that the first ply is laid on
	Fiber  float64
	Mix    float64 // resin mix: resin and filler
	Why    string  // what is missing; the sums are of the rest then
}

// Mass is fiber and resin mix.
func (f *Figures) Mass() float64 { return f.Fiber + f.Mix }

// Ply are the figures of one row, all of its plies.
type Ply struct {
	Row, First, Last int // the row in the piece's schedule, its plies from 1
	Material, Resin  string
	Zone             laminate.Zone
	Area             float64
	Fiber, Mix       float64
	Known            bool // else Fiber and Mix are 0
	Batches          int  // pots of resin, 0 where the book states no size
}

// Remark is something that whoever orders has to know.
type Remark struct {
	ID     string // see Remarks of the documentation: price-missing and so on
	Text   string
	Source string // "" where it follows from what is stated
}

// Incomplete tells whether some quantity could not be determined; a price that
// is missing is none.
func (t *Takeoff) Incomplete() bool {
	for i := range t.Pieces {
		if t.Pieces[i].Why != "" {
			return true
		}
	}
	return len(t.Pieces) == 0
}

// Mass is that of all pieces, kg.
func (t *Takeoff) Mass() float64 {
	sum := 0.0
	for i := range t.Pieces {
		sum += t.Pieces[i].Mass()
	}
	return sum
}

// Count takes the pieces off. lib must not be nil; what the shop book says beside
// materials is in own. What is missing is said in
// the figures of the piece, or in a remark.
func Count(pieces []Piece, lib *laminate.Library, own stock.Stock, o Options) *Takeoff {
	c := counter{t: &Takeoff{}, lib: lib, o: o, shop: &own, goods: map[laminate.Material]int{}, resins: map[laminate.Resin]int{}}
	gussets := 0
	for i := range pieces {
		c.piece(&pieces[i])
		gussets += pieces[i].Gussets
	}
	if gussets > 0 {
		c.remark("gussets-not-counted", "", quantity.Counted(gussets, "gusset round nozzles is", "gussets round nozzles are")+" not counted: neither their laminate nor their size has a key")
	}
	for i := range c.t.Goods {
		c.order(&c.t.Goods[i], &c.laid[i])
	}
	for i := range c.t.Resins {
		c.resin(&c.t.Resins[i])
	}
	c.labor(pieces)
	c.price()
	return c.t
}

type counter struct {
	t      *Takeoff
	lib    *laminate.Library
	shop   *stock.Stock
	o      Options
	goods  map[laminate.Material]int
	laid   []covered // beside t.Goods
	resins map[laminate.Resin]int
	said   map[Remark]bool
	// contact and wound are the areas of plies that hours go by.
	contact, wound float64
	unpaid         []string // labor without a price
}

// remark says something once.
func (c *counter) remark(id, source, text string) {
	r := Remark{id, text, source}
	if c.said == nil {
		c.said = map[Remark]bool{}
	}
	if !c.said[r] {
		c.said[r] = true
		c.t.Remarks = append(c.t.Remarks, r)
	}
}

// piece adds up the plies of one.
func (c *counter) piece(p *Piece) {
	f := Figures{Piece: p}
	a := laminate.Analyze(p.Schedule, c.lib)
	if p.Schedule.Part.Form == laminate.Tank {
		c.remark("ends-not-counted", "", "the bottom and the head of the tank are not counted: a schedule has its straight side alone, a job has them as parts")
	}
	if p.Kind == Part && p.Schedule.Part.Form == laminate.Flange {
		c.remark("stub-not-counted", "", "flanges are counted as their ring alone, each ply of it from the bore to the outside: which plies run out into the stub behind it, and how far, no key states")
	}
	if p.Taken != "" {
		c.remark("reach-assumed", "", p.Taken)
	}
	count := float64(max(p.Count, 1))
	if p.Missing != nil {
		f.Why = p.Missing.Error()
		if open := (seams{}); errors.As(p.Missing, &open) {
			f.Why = open.in(c.o.Units)
		}
	} else if inside, err := p.Ground.Area(0, 0); err == nil {
		f.Inside = inside * count
	}
	if rings := ground.RingsSaid(&p.Schedule.Part, c.o.Units); p.Kind == Part && rings != "" && f.Why == "" {
		f.Why = "without its " + rings
	}
	if len(a.Rows) == 0 && f.Why == "" {
		f.Why = "there are no plies"
	}
	single := 0
	for row := range a.Rows {
		r := &a.Rows[row]
		ply := Ply{Row: row, First: r.First, Last: r.Last, Material: p.Schedule.Plies[row].Material, Resin: p.Schedule.Plies[row].Resin, Zone: r.Zone, Known: r.MassKnown}
		if !r.MassKnown && f.Why == "" {
			f.Why = "the mass of ply " + quantity.Number(float64(r.First), 0) + " is not known"
		}
		n := r.Last - r.First + 1
		under := r.ToHere - float64(n)*r.Thickness
		if p.Missing == nil {
			c.lay(p, &f, &ply, r, n, single, under)
		}
		single += n
		f.Plies = append(f.Plies, ply)
		f.Area += ply.Area
		f.Fiber += ply.Fiber
		f.Mix += ply.Mix
	}
	c.t.Pieces = append(c.t.Pieces, f)
}

// lay lays the n plies of a row one on another, from under on.
func (c *counter) lay(p *Piece, f *Figures, ply *Ply, r *laminate.RowFigures, n, single int, under float64) {
	count := max(p.Count, 1)
	process := processOf(r.Material)
	for i := range n {
		at := under + float64(i)*r.Thickness
		area, err := p.Ground.Area(single+i, at+r.Thickness/2)
		if err != nil {
			if f.Why == "" {
				f.Why = err.Error()
			}
			return
		}
		area *= float64(count)
		ply.Area += area
		if process == wound {
			c.wound += area
		} else {
			c.contact += area
		}
		fiber, mix := r.FiberMass*area, (r.Mass-r.FiberMass)*area
		ply.Fiber += fiber
		ply.Mix += mix
		if fiber > 0 {
			c.cut(p, ply.Row, r, at, area, fiber)
		}
		if mix > 0 && r.Resin != nil {
			resin := c.mix(r.Resin)
			resin.Net[process] += mix
			resin.Filler += r.FillerMass * area
			pots := count * Pots(r.Material, mix/float64(count), c.shop)
			ply.Batches += pots
			resin.Batches += pots
		}
	}
}

// process is how resin gets into a ply.
type process uint8

const (
	contact process = iota
	sprayed
	wound
)

func processOf(m *laminate.Material) process {
	switch {
	case m == nil:
	case m.Form == laminate.SprayedChop:
		return sprayed
	case m.Form == laminate.RovingBand:
		return wound
	}
	return contact
}
