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

// run is the way that strips have to run round a tube.
type run uint8

const (
	either run = iota // whichever takes less
	round
	along
	bias // by an angle, which no strip is cut for
)

// runOf is the way of a ply: that of its angle where one is stated, else of woven
// roving round, so that no lap lies across the greatest load, and of a lamina that is
// stiffer one way along the axis, as it is figured. A mat may go either way.
func runOf(m *laminate.Material, angle laminate.Optional[float64]) run {
	switch a := math.Abs(angle.Value); {
	case angle.Given && a != 0 && a != 90:
		return bias
	case angle.Given && a == 0:
		return along
	case angle.Given || m.Form.Continuous():
		return round
	case m.Form == laminate.Lamina && m.E1.Cmp(m.E2) != 0:
		return along
	}
	return either
}

// Hoops tells whether strips of a ply have to go round a tube.
func Hoops(m *laminate.Material, angle laminate.Optional[float64]) bool {
	return runOf(m, angle) == round
}

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
// gives the strips and the area that they take, m². What runs at a bias goes into flat.
func (c *counter) strips(g *Goods, l *covered, rolls []stock.Roll, flat *float64) (best []strip, used float64) {
	lap := c.lap()
	net := 0.0
	var tubes []tube
	for _, t := range l.tubes {
		area := t.around * t.along * float64(t.count)
		if t.run == bias {
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
		return nil, 0
	}
	least := math.Inf(1)
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
		return nil, 0
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
	return best, least
}

// Cut cuts one ply of a material round a tube or over a disc from the roll width that
// takes the least, round a tube the way that it has to run: by its angle where it has
// one, and woven roving round. ok is false where it runs at a bias, no width is wider
// than the lap, or the ply is of neither.
func Cut(take *laid.Ply, m *laminate.Material, angle laminate.Optional[float64], widths []float64, lap float64) (width float64, s Strips, ok bool) {
	var tubes []tube
	var discs []disc
	switch {
	case take.Disc > 0:
		discs = []disc{{take.Disc, 1}}
	case take.Circumference <= 0 || runOf(m, angle) == bias:
		return 0, s, false
	default:
		tubes = []tube{{around: take.Circumference, along: take.Length, count: 1, run: runOf(m, angle)}}
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

// cut cuts every ply the way that it has to run, or else that takes least; ok is false where the lap leaves
// nothing of the width.
func cut(tubes []tube, discs []disc, w, lap float64) (list []strip, ok bool) {
	if w <= lap {
		return nil, false
	}
	for _, t := range tubes {
		s := strip{length: t.around + lap, count: StripCount(t.along, w, lap, false), way: Hoopwise}
		lengthwise := strip{length: t.along, count: StripCount(t.around, w, lap, true), way: Lengthwise}
		if t.run == along || t.run == either && lengthwise.length*float64(lengthwise.count) < s.length*float64(s.count) {
			s = lengthwise
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

// rolls counts those of everything that is ordered of a material: its strips packed
// whole, and rest, m² with its waste, which is cut to fit, by area: from what the
// strips leave of their rolls and from further ones.
func (c *counter) rolls(g *Goods, list []strip, rest float64, sizes []stock.Roll) {
	if g.Roll == nil { // no strips: the size of which the fewest square meters are bought
		least := math.Inf(1)
		for i := range sizes {
			one := sizes[i].Width.SI() * sizes[i].Length.SI()
			if bought := one * math.Ceil(rest/one-1e-9); one > 0 && bought < least {
				least, g.Roll = bought, &sizes[i]
			}
		}
		if g.Roll == nil {
			g.Roll = &sizes[0]
		}
	}
	left, packed := 0.0, g.Roll.Length.Given()
	if !packed {
		c.remark("roll-size-missing", "", "how many rolls of "+g.Material.ID+" cannot be determined: the shop book states no length for a width of "+c.o.Units.Stated(g.Roll.Width.SI(), quantity.Size))
	} else if len(list) > 0 {
		left, packed = c.pack(g, list)
	}
	if !packed || rest <= 0 {
		return
	}
	if more := rest/g.Roll.Width.SI() - left; more > 0 {
		g.Rolls += int(math.Ceil(more/g.Roll.Length.SI() - 1e-9))
	}
	from := "rolls "
	if len(list) > 0 {
		from = "the strips' rolls and further ones "
	}
	g.How = append(g.How, c.o.Units.Figure(rest, quantity.Surface)+" of it cut to fit, counted into rolls by area: from "+from+c.o.Units.Stated(g.Roll.Width.SI(), quantity.Size)+" wide")
}

// pack puts strips into rolls, the longest first, each into the first roll with
// room, and says how much length of the rolls is left, m; ok is false where that
// cannot be told.
func (c *counter) pack(g *Goods, list []strip) (left float64, ok bool) {
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
		return float64(g.Rolls)*whole - run, true
	case longest > whole*(1+1e-9):
		c.remark("roll-size-missing", "", "rolls of "+g.Material.ID+" cannot be determined: a strip of "+c.o.Units.Figure(longest, quantity.Distance)+" is longer than a roll, and the shop book does not say that strips may join (strips_join)")
		return 0, false
	case number > mostStrips:
		c.remark("roll-size-missing", "", "rolls of "+g.Material.ID+" cannot be determined: there are too many strips to pack")
		return 0, false
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
	return float64(g.Rolls)*whole - run, true
}
