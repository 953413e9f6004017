package takeoff

import (
	"cmp"
	"math"
	"slices"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/catalog"
	"frp/veilwright/laminate/laid"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/stock"
)

// Direction is which way strips run.
type Direction uint8

// The directions.
const (
	Hoopwise   Direction = iota // round the tube
	Lengthwise                  // along it
	Across                      // over a disc
	directions
)

var directionNames = [directions]string{"hoopwise", "lengthwise", "across"}

func (d Direction) String() string { return directionNames[d] }

// Strips are those of a material that run one way.
type Strips struct {
	Direction Direction
	Number    int
	Length    float64 // of all together, m
	Longest   float64
}

// StripCount is how many strips of width w, lapped by o, cover a length X: round
// a closed ring ⌈X/(w − o)⌉, along an open one ⌈(X − o)/(w − o)⌉. It is 0 where
// the lap leaves nothing of the width.
func StripCount(x, w, o float64, closed bool) int {
	if !(w > o && x > 0 && o >= 0) {
		return 0
	}
	if !closed {
		x -= o
	}
	// A length that the strips cover exactly must not gain one by rounding.
	return max(1, int(math.Ceil(x/(w-o)-1e-9)))
}

// mostStrips bounds what is packed into rolls, one strip after the other.
const mostStrips = 20_000

// strip is one strip's length and how many there are.
type strip struct {
	length float64
	count  int
	way    Direction
}

func (c *counter) lap() float64 {
	lap := c.shop.Takeoff.Lap
	if !lap.Given() {
		lap = catalog.StripLap
		c.remark("lap-unstated", "common practice, no source", "the shop book does not state lap: strips lap by "+c.o.Units.Stated(lap.SI(), quantity.Size)+", a typical value")
	}
	return lap.SI()
}

// strips cuts what can be cut from the roll that takes the least glass, and
// gives the area that it takes, m². What runs at a bias goes into flat.
func (c *counter) strips(g *Goods, l *covered, rolls []stock.Roll, flat *float64) float64 {
	lap := c.lap()
	net := 0.0
	var tubes []tube
	for _, t := range l.tubes {
		area := t.around * t.along * float64(t.count)
		if a := math.Abs(t.angle.Value); t.angle.Given && a != 0 && a != 90 {
			*flat += area
			continue
		}
		tubes = append(tubes, t)
		net += area
	}
	for _, d := range l.discs {
		net += math.Pi / 4 * d.diameter * d.diameter * float64(d.count)
	}
	if net == 0 {
		return 0
	}
	least, best := math.Inf(1), []strip(nil)
	for i := range rolls {
		w := rolls[i].Width.SI()
		list, ok := cut(tubes, l.discs, w, lap)
		run := 0.0
		for _, s := range list {
			run += s.length * float64(s.count)
		}
		if ok && run*w < least {
			least, best, g.Roll = run*w, list, &rolls[i]
		}
	}
	if g.Roll == nil {
		c.remark("roll-size-missing", "", "no roll of "+g.Material.ID+" is wider than the lap of its strips")
		*flat += net
		return 0
	}
	for _, s := range best {
		at := slices.IndexFunc(g.Strips, func(x Strips) bool { return x.Direction == s.way })
		if at < 0 {
			at = len(g.Strips)
			g.Strips = append(g.Strips, Strips{Direction: s.way})
		}
		x := &g.Strips[at]
		x.Number += s.count
		x.Length += s.length * float64(s.count)
		x.Longest = max(x.Longest, s.length)
	}
	slices.SortFunc(g.Strips, func(a, b Strips) int { return cmp.Compare(a.Direction, b.Direction) })
	if share := least/net - 1; share > highStripWaste {
		c.remark("strip-waste-high", "common practice, no source", "strips of "+g.Material.ID+" take "+quantity.Percent(share)+" more than they cover, over "+quantity.Percent(highStripWaste)+": another roll width would save glass")
	}
	g.How = append(g.How, "strips cut from a roll "+c.o.Units.Stated(g.Roll.Width.SI(), quantity.Size)+" wide")
	c.pack(g, best)
	return least
}

// Cut cuts one ply round a tube or over a disc from the roll width that takes
// the least, round a tube the way that its warp runs where it has an angle. ok is
// false where it runs at a bias, no width is wider than the lap, or the ply is of
// neither.
func Cut(take *laid.Ply, angle laminate.Optional[float64], widths []float64, lap float64) (width float64, s Strips, ok bool) {
	var tubes []tube
	var discs []disc
	switch {
	case take.Disc > 0:
		discs = []disc{{take.Disc, 1}}
	case take.Circumference <= 0 || angle.Given && angle.Value != 0 && math.Abs(angle.Value) != 90:
		return 0, s, false
	default:
		tubes = []tube{{around: take.Circumference, along: take.Length, count: 1, angle: angle}}
	}
	least := math.Inf(1)
	for _, w := range widths {
		list, fits := cut(tubes, discs, w, lap)
		if !fits {
			continue
		}
		of := Strips{Direction: list[0].way}
		for _, x := range list {
			of.Number += x.count
			of.Length += float64(x.count) * x.length
			of.Longest = math.Max(of.Longest, x.length)
		}
		if of.Length*w < least {
			least, width, s, ok = of.Length*w, w, of, true
		}
	}
	return width, s, ok
}

// highStripWaste is the waste in strips from which another width is worth a
// look.
const highStripWaste = 0.25

// cut cuts every ply the way that takes least; ok is false where the lap leaves
// nothing of the width.
func cut(tubes []tube, discs []disc, w, lap float64) (list []strip, ok bool) {
	if w <= lap {
		return nil, false
	}
	for _, t := range tubes {
		round := strip{length: t.around + lap, count: StripCount(t.along, w, lap, false), way: Hoopwise}
		along := strip{length: t.along, count: StripCount(t.around, w, lap, true), way: Lengthwise}
		s := round
		lengthwise := along.length*float64(along.count) < round.length*float64(round.count)
		if t.angle.Given {
			lengthwise = t.angle.Value == 0 // the way that its warp is to run
		}
		if lengthwise {
			s = along
		}
		s.count *= t.count
		list = append(list, s)
	}
	for _, d := range discs {
		n := StripCount(d.diameter, w, lap, false)
		for i := range n {
			// The strip is as long as the widest place that it covers.
			from := -d.diameter/2 + float64(i)*(w-lap)
			near := max(0, max(from, -(from+w)))
			half := math.Sqrt(max(0, d.diameter*d.diameter/4-near*near))
			list = append(list, strip{length: 2 * half, count: d.count, way: Across})
		}
	}
	return list, true
}

// pack puts strips into rolls, the longest first, each into the first roll with
// room.
func (c *counter) pack(g *Goods, list []strip) {
	if !g.Roll.Length.Given() {
		c.remark("roll-size-missing", "", "how many rolls of "+g.Material.ID+" cannot be determined: the shop book states no length for a width of "+c.o.Units.Stated(g.Roll.Width.SI(), quantity.Size))
		return
	}
	whole := g.Roll.Length.SI()
	number, run, longest := 0, 0.0, 0.0
	for _, s := range list {
		number += s.count
		run += s.length * float64(s.count)
		longest = max(longest, s.length)
	}
	joins := c.shop.Takeoff.StripsJoin
	switch {
	case joins.Value:
		g.Rolls = int(math.Ceil(run/whole - 1e-9))
		return
	case longest > whole*(1+1e-9):
		c.remark("roll-size-missing", "", "rolls of "+g.Material.ID+" cannot be determined: a strip of "+c.o.Units.Figure(longest, quantity.Distance)+" is longer than a roll, and the shop book does not say that strips may join (strips_join)")
		return
	case number > mostStrips:
		c.remark("roll-size-missing", "", "rolls of "+g.Material.ID+" cannot be determined: there are too many strips to pack")
		return
	}
	slices.SortStableFunc(list, func(a, b strip) int { return cmp.Compare(b.length, a.length) })
	var room []float64
	for _, s := range list {
		first := 0 // equal strips fit no earlier roll than the one before
		for range s.count {
			for first < len(room) && room[first] < s.length*(1-1e-12) {
				first++
			}
			if first == len(room) {
				room = append(room, whole)
			}
			room[first] -= s.length
		}
	}
	g.Rolls = len(room)
}
