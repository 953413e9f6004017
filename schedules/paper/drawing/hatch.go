package drawing

import "math"

// Hatch is how the inside of a box is drawn to tell one thing from another.
type Hatch uint8

// The hatches.
const (
	Plain     Hatch = iota
	Stippled        // a veil
	Strands         // chopped fiber
	Chopped         // the same, looser: sprayed
	Woven           // bundles over and under
	Along           // fibers that run along
	Slanted         // wound at an angle
	Crossing        // wound to and fro
	Blackened       // carbon
)

// Hatched fills a box with a hatch and draws its outline. Seed makes the places
// of strands differ from box to box and stay the same from run to run.
func (p *Picture) Hatched(x, y, w, h float64, hatch Hatch, seed uint32) {
	if h <= Hair {
		p.Box(x, y, w, h, Hair, Clear) // which covers all of it, and a tall wall has thousands
		return
	}
	r := rectangle{x, y, x + w, y + h}
	n := rolling(seed*2654435761 + 12345)
	switch hatch {
	case Plain:
		p.Box(x, y, w, h, 0, White)
	case Stippled:
		p.Box(x, y, w, h, 0, Light)
		for range int(w*h/2) + 4 {
			p.Box(x+n.next()*(w-0.35), y+n.next()*(h-0.35), 0.35, 0.35, 0, Black)
		}
	case Blackened:
		p.Box(x, y, w, h, 0, Gray)
		for range int(w*h/2) + 4 {
			p.Box(x+n.next()*(w-0.35), y+n.next()*(h-0.35), 0.35, 0.35, 0, Black)
		}
	case Strands, Chopped:
		p.Box(x, y, w, h, 0, White)
		each, long := 3.0, 2.6
		if hatch == Chopped {
			each, long = 5, 1.8
		}
		for range int(w*h/each) + 6 {
			a := (n.next() - 0.5) * 1.6 // mostly along the ply
			cx, cy := x+n.next()*w, y+n.next()*h
			r.line(p, cx-long*math.Cos(a), cy-long*math.Sin(a), cx+long*math.Cos(a), cy+long*math.Sin(a))
		}
	case Woven:
		p.Box(x, y, w, h, 0, White)
		const pitch = 4.0
		for at := x; at < x+w; at += pitch {
			path := make([]Point, 0, 17)
			for i := range 17 {
				px := at + pitch*float64(i)/16
				if px > x+w {
					break
				}
				path = append(path, Point{px, y + h/2 - 0.32*h*math.Sin(2*math.Pi*(px-x)/pitch)})
			}
			if len(path) > 1 {
				p.Curve(path, Thin)
			}
			d := math.Min(0.28*h, 0.7)
			for _, tow := range [...]struct{ at, side float64 }{{at + pitch/4 - 0.5, 1}, {at + 3*pitch/4 - 0.5, -1}} {
				if tow.at+1 < x+w {
					p.Box(tow.at, y+h/2-d/2+tow.side*0.18*h, 1, d, 0, Black)
				}
			}
		}
	case Along:
		p.Box(x, y, w, h, 0, White)
		for i := 1; i < 4; i++ {
			p.Dash(x, y+h*float64(i)/4, x+w, y+h*float64(i)/4, Hair)
		}
	case Slanted, Crossing:
		p.Box(x, y, w, h, 0, White)
		for at := x - h; at < x+w; at += 1.6 {
			r.line(p, at, y+h, at+h, y)
			if hatch == Crossing {
				r.line(p, at, y, at+h, y+h)
			}
		}
	}
	p.Box(x, y, w, h, Hair, Clear)
}

// rolling is a linear-congruential sequence: the same picture on every machine.
type rolling uint32

func (r *rolling) next() float64 {
	*r = *r*1664525 + 1013904223
	return float64(*r>>8) / (1 << 24)
}

// rectangle is what lines of a hatch are cut to.
type rectangle struct{ left, top, right, bottom float64 }

// line draws as much of a line as lies inside (after Liang and Barsky).
func (r rectangle) line(p *Picture, x1, y1, x2, y2 float64) {
	from, to := 0.0, 1.0
	dx, dy := x2-x1, y2-y1
	for _, e := range [4][2]float64{{-dx, x1 - r.left}, {dx, r.right - x1}, {-dy, y1 - r.top}, {dy, r.bottom - y1}} {
		switch q := e[0]; {
		case q == 0 && e[1] < 0:
			return
		case q < 0:
			from = math.Max(from, e[1]/q)
		case q > 0:
			to = math.Min(to, e[1]/q)
		}
	}
	if from < to {
		p.Line(x1+from*dx, y1+from*dy, x1+to*dx, y1+to*dy, Hair)
	}
}
