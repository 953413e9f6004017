package repeat

import (
	"errors"
	"fmt"
	"math"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/edit"
	"frp/veilwright/laminate/wall"
)

// UsualCourse is the height in m by which Courses divides a tank where none is
// given: 4 ft (common practice, no source).
const UsualCourse = 4 * 0.3048

// mostCourses bounds the table.
const mostCourses = 500

// Course is one ring of a tank's wall.
type Course struct {
	Bottom, Top float64 // m above the bottom
	Depth       float64 // m of liquid above its bottom
	Needed              // from the barrier outward: its Plies are the whole structure
}

// Courses says, bottom to top, what structure every course of a tank needs if
// it is built of the barrier, repeats of the unit and the outer surface; the
// structural plies of s count for nothing but as patterns. height is that of a
// course in m, UsualCourse where it is not above zero. The top course ends at
// the straight side, or at the liquid where that is higher or no length is
// given.
//
// Errors: the part is no tank, or has no liquid height; those of Need.
func Courses(s *laminate.Schedule, lib *laminate.Library, unit Unit, o wall.Options, height float64) ([]Course, error) {
	if s == nil || lib == nil {
		return nil, errors.New("courses: no schedule or no library to work with")
	}
	if s.Part.Form != laminate.Tank {
		return nil, errors.New("courses: the part is not a tank (form)")
	}
	liquid := s.Part.LiquidHeight.SI()
	if !sound(liquid) {
		return nil, errors.New("courses: the tank's liquid height is not given (liquid_height)")
	}
	top := liquid
	if straight := s.Part.Length.SI(); sound(straight) {
		top = math.Max(top, straight)
	}
	if !sound(height) {
		height = UsualCourse
	}
	n := math.Ceil(top/height - 1e-9)
	if !(n <= mostCourses) {
		return nil, fmt.Errorf("courses: %.4g courses are more than the %d that can be listed", n, mostCourses)
	}
	bare, patterns, err := stripped(s, lib, unit)
	if err != nil {
		return nil, fmt.Errorf("courses: %w", err)
	}
	courses := make([]Course, 0, int(n))
	for i := range int(math.Max(1, n)) {
		c := Course{Bottom: float64(i) * height, Top: math.Min(top, float64(i+1)*height)}
		c.Depth = math.Max(0, liquid-c.Bottom)
		// Above the liquid there is no head, which depth 0 does not say.
		o.Depth = math.Max(c.Depth, 1e-9)
		if c.Needed, err = patterns.least(bare, lib, unit, o); err != nil {
			return nil, fmt.Errorf("course %d: %w", i+1, err)
		}
		courses = append(courses, c)
	}
	return courses, nil
}

// sound tells whether v can be a height.
func sound(v float64) bool { return v > 0 && !math.IsInf(v, 0) }

// stripped gives the schedule without its structural layer, zones written out
// since without the structure they would be inferred otherwise, and how
// repeats like its own go in.
func stripped(s *laminate.Schedule, lib *laminate.Library, unit Unit) (*laminate.Schedule, repeats, error) {
	a := laminate.Analyze(s, lib)
	p, err := plan(s, lib, a, unit)
	if err != nil {
		return nil, p, err
	}
	p.row, p.first = 0, nil
	d := edit.Begin(s, lib)
	for i := len(d.Plies) - 1; i >= 0; i-- {
		switch z := d.Zone(i); z {
		case laminate.StructuralLayer:
			d.Remove(i, i+1)
		default:
			d.SetZone(i, z)
		}
	}
	for i := range d.Plies {
		if d.Zone(i).InBarrier() {
			p.row = i + 1
		}
	}
	switch unit {
	case MatAndWoven, HoopAndChop:
		p.first = []laminate.Ply{p.unit[1]}
	case WoundCover:
		k := picker{s: s, lib: lib, a: a, p: &p, resin: p.unit[0].Resin}
		p.first = []laminate.Ply{k.mat()}
		err = k.err
	default: // nothing of the others
	}
	return d.Schedule(), p, err
}
