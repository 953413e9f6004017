package picture

import (
	"math"
	"strconv"

	"frp/veilwright/schedules/paper/drawing"
)

// Angle is how a ply runs: degrees from the axis, of a wound band both ways.
type Angle struct {
	Degrees float64
	Both    bool
}

// Angles draws how fibers lie as whoever lays them sees the part: the axis
// upright, an angle turning from it. An angle belongs to the part, seen from
// outside; from inside its sign is the other.
func Angles(list []Angle, inside bool) drawing.Picture {
	const across, r, most = 28.0, 9.0, 6
	p := drawing.Picture{Width: Width}
	for i, angle := range list[:min(len(list), most)] {
		x, y := across*(float64(i)+0.5), 6+r
		sees := angle.Degrees
		if inside {
			sees = -sees
		}
		sin, cos := math.Sincos(sees * math.Pi / 180)
		p.Shape(circle(x, y, r), drawing.Hair, drawing.White)
		p.Dash(x, y-r-2, x, y+r+2, drawing.Hair)
		p.Line(x-r*sin, y+r*cos, x+r*sin, y-r*cos, drawing.Bold)
		name := strconv.FormatFloat(angle.Degrees, 'g', 4, 64) + "°"
		if angle.Both {
			p.Line(x+r*sin, y+r*cos, x-r*sin, y-r*cos, drawing.Bold)
			name = "±" + name
		}
		p.Write(x, y+r+6, name, drawing.Smallest, drawing.Middle)
	}
	from := "as you see it from outside; dashes: the axis"
	if inside {
		from = "as you see it from inside: the sign is turned over; dashes: the axis"
	}
	p.Write(0, 4+2*r+13, from, drawing.Smallest, drawing.Start)
	p.Height = 4 + 2*r + 15
	return p
}
