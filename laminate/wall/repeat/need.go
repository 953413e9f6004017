// Package repeat figures how many repeats of a unit of plies a wall needs for
// its structure to be enough, and the courses of a tank: the inverse of package
// wall.
package repeat

import (
	"errors"
	"fmt"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/catalog"
	"frp/veilwright/laminate/edit"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/wall"
	"frp/veilwright/laminate/word"
)

// Unit is what a wall is built up by.
type Unit uint8

// The repeat units.
const (
	NoUnit      Unit = iota
	Mat              // a mat
	MatAndWoven      // woven roving and a mat over it
	WoundCover       // a helical cover of two crossing layers
	HoopAndChop      // hoop winding and sprayed chop over it
)

// Units are the words of the repeat units.
var Units = word.Of[Unit]("", "mat", "mat-and-woven", "wound-cover", "hoop-and-chop")

func (u Unit) String() string { return Units.Name(u) }

// Most bounds the search; a wall that wants more is no wall to lay up.
const Most = 400

// Needed is what has to be added to a wall for every deciding criterion to
// hold.
type Needed struct {
	Unit    Unit
	Repeats int            // 0: the wall is enough as it is
	Row     int            // index in Schedule.Plies at which Plies go in
	Plies   []laminate.Ply // all repeats, ready to insert, empty for none
	// Governing is the deciding criterion that asked for the last repeat, as it
	// stood with one repeat fewer; for none, the one nearest to failing.
	Governing wall.Criterion
	Result    *wall.Result // of the wall with Plies
	Notes     []string
}

// Apply gives the schedule with the plies inserted; s stays as it is.
func (n *Needed) Apply(s *laminate.Schedule, lib *laminate.Library) *laminate.Schedule {
	d := edit.Begin(s, lib)
	d.Insert(n.Row, n.Plies...)
	return d.Schedule()
}

// Need finds the least number of repeats of the unit which, laid on the outside
// of the structural layer, makes every deciding criterion hold. Materials,
// angle and resin are those of the last structural ply of the kind, else the
// usual ones, and Notes say which; where there is no structural ply yet, or a
// woven one lies outermost, a mat or chop comes first.
//
// Errors: a deciding criterion that cannot be determined, with the key that would
// settle it; no resin; a wall that Most do not fix.
func Need(s *laminate.Schedule, lib *laminate.Library, unit Unit, o wall.Options) (Needed, error) {
	if s == nil || lib == nil {
		return Needed{}, errors.New("what is needed: no schedule or no library to work with")
	}
	a := laminate.Analyze(s, lib)
	p, err := plan(s, lib, a, unit)
	if err != nil {
		return Needed{}, fmt.Errorf("what is needed: %w", err)
	}
	n, err := p.least(s, lib, unit, o)
	if err != nil {
		return Needed{}, fmt.Errorf("what is needed: %w", err)
	}
	return n, nil
}

// least searches by doubling and bisection. It takes it that a criterion which
// fails with some repeats and holds with more goes on holding, and takes nothing
// of a criterion that holds before it fails: adding glass brings some moduli
// down. So it looks for the least number that settles what fails, and again from
// there, until nothing does.
func (p *repeats) least(s *laminate.Schedule, lib *laminate.Library, unit Unit, o wall.Options) (Needed, error) {
	tried := map[int]*wall.Result{}
	with := func(n int) Needed { return Needed{Unit: unit, Repeats: n, Row: p.row, Plies: p.repeat(n)} }
	try := func(n int) (*wall.Result, error) {
		r := tried[n]
		if r == nil {
			needed := with(n)
			next := needed.Apply(s, lib)
			r = wall.Evaluate(next, lib, laminate.Analyze(next, lib), o)
			tried[n] = r
		}
		if c, is := incomplete(r); is && (n > 0 || r.Counted > 0) {
			return nil, fmt.Errorf("%s cannot be determined with %s of %s: %s", c.Name, quantity.Counted(n, "repeat", "repeats"), unit, c.Reason)
		}
		return r, nil
	}
	n := 0
	for {
		now, err := try(n)
		if err != nil {
			return Needed{}, err
		}
		if now.Answer() == wall.Holds || now.Answer() == wall.NotApplicable {
			break
		}
		// low fails still, and high is to hold.
		low, high := n, n
		for step := 1; ; step *= 2 {
			high = min(n+step, Most)
			r, err := try(high)
			switch {
			case err != nil:
				return Needed{}, err
			case !failsStill(now, r):
			case high == Most:
				c, _ := r.Governing()
				return Needed{}, fmt.Errorf("%d repeats of %s are not enough: %s still at %.3g times what it may be", Most, unit, c.Name, c.Ratio)
			default:
				low = high
				continue
			}
			break
		}
		for high-low > 1 {
			middle := (low + high) / 2
			r, err := try(middle)
			switch {
			case err != nil:
				return Needed{}, err
			case failsStill(now, r):
				low = middle
			default:
				high = middle
			}
		}
		n = high
	}
	found := with(n)
	found.Result = tried[n]
	found.Governing, _ = tried[max(n-1, 0)].Governing()
	if n > 0 {
		found.Notes = p.notes
	}
	return found, nil
}

// incomplete gives the first governing criterion that cannot be determined,
// however much glass there is.
func incomplete(r *wall.Result) (wall.Criterion, bool) {
	for _, c := range r.Criteria {
		if c.Governs && c.Answer == wall.Incomplete && !c.ByGlass {
			return c, true
		}
	}
	return wall.Criterion{}, false
}

// failsStill tells whether a governing criterion that does not hold in r does
// not hold in another result either.
func failsStill(r, other *wall.Result) bool {
	for _, c := range r.Criteria {
		if !c.Governs || c.Answer == wall.Holds || c.Answer == wall.NotApplicable {
			continue
		}
		for _, d := range other.Criteria {
			if d.Name == c.Name && d.Governs && (d.Answer == wall.Fails || d.Answer == wall.Incomplete) {
				return true
			}
		}
	}
	return false
}

// repeats is how repeats go into a schedule.
type repeats struct {
	row   int
	first []laminate.Ply // once, before the repeats
	unit  []laminate.Ply
	notes []string
}

// repeat gives n repeats. A unit of one material is one row of that count.
func (p *repeats) repeat(n int) []laminate.Ply {
	if n == 0 {
		return nil
	}
	out := append([]laminate.Ply(nil), p.first...)
	if len(p.unit) == 1 {
		row := p.unit[0]
		row.Count = n
		return append(out, row)
	}
	for range n {
		out = append(out, p.unit...)
	}
	return out
}

func plan(s *laminate.Schedule, lib *laminate.Library, a *laminate.Analysis, unit Unit) (repeats, error) {
	p := repeats{row: min(a.BarrierEnd, len(s.Plies))}
	outermost := -1
	for i := range a.Rows {
		if a.Rows[i].Zone == laminate.StructuralLayer {
			outermost, p.row = i, i+1
		}
	}
	k := picker{s: s, lib: lib, a: a, p: &p}
	if err := k.pickResin(outermost); err != nil {
		return p, err
	}
	mat, chop := k.mat, func() laminate.Ply { return k.pick(laminate.SprayedChop, catalog.Chop15, nil) }
	switch unit {
	case Mat:
		p.unit = []laminate.Ply{mat()}
	case MatAndWoven:
		p.unit = []laminate.Ply{k.pick(laminate.WovenRoving, catalog.Woven24, nil), mat()}
		if outermost < 0 || !chopped(a.Rows[outermost].Material) {
			p.first = []laminate.Ply{mat()}
		}
	case WoundCover:
		p.unit = []laminate.Ply{k.pick(laminate.RovingBand, catalog.BandHelical, func(deg float64) bool { return deg > 0 && deg < laminate.HoopFrom })}
		if outermost < 0 {
			p.first = []laminate.Ply{mat()}
		}
	case HoopAndChop:
		p.unit = []laminate.Ply{k.pick(laminate.RovingBand, catalog.BandHoop, func(deg float64) bool { return deg >= laminate.HoopFrom }), chop()}
		if outermost < 0 {
			p.first = []laminate.Ply{chop()}
		}
	default:
		return p, errors.New("no such repeat unit")
	}
	return p, k.err
}

func chopped(m *laminate.Material) bool { return m != nil && m.Form.Chopped() }

// picker chooses what a repeat is made of.
type picker struct {
	s     *laminate.Schedule
	lib   *laminate.Library
	a     *laminate.Analysis
	p     *repeats
	resin string
	err   error
}

// pickResin takes the outermost structural ply's resin, else the last of the
// schedule's that is not filled.
func (k *picker) pickResin(outermost int) error {
	for i := outermost; i >= 0; i-- {
		if r := k.a.Rows[i].Resin; r != nil && k.a.Rows[i].Zone == laminate.StructuralLayer {
			k.resin = r.ID
			return nil
		}
	}
	for i := len(k.s.Resins) - 1; i >= 0; i-- {
		if k.s.Resins[i].Filler == laminate.NoFiller {
			k.resin = k.s.Resins[i].ID
			k.p.notes = append(k.p.notes, fmt.Sprintf("No structural ply names a resin yet: the repeats take %q.", k.resin))
			return nil
		}
	}
	return errors.New("the schedule has no resin without filler for the structure")
}

func (k *picker) mat() laminate.Ply { return k.pick(laminate.ChoppedMat, catalog.Mat15, nil) }

// pick gives a ply of the form, like the outermost structural one at a fitting
// angle, else of the usual material.
func (k *picker) pick(form laminate.Form, usual string, fits func(deg float64) bool) laminate.Ply {
	ply := laminate.Ply{Resin: k.resin, Zone: laminate.StructuralLayer, Count: 1}
	for i := len(k.a.Rows) - 1; i >= 0; i-- {
		m, like := k.a.Rows[i].Material, &k.s.Plies[i]
		if m != nil && m.Form == form && k.a.Rows[i].Zone == laminate.StructuralLayer && (fits == nil || fits(like.Angle.Or(0))) {
			ply.Material, ply.Angle, ply.GlassContent, ply.VoidContent = like.Material, like.Angle, like.GlassContent, like.VoidContent
			return ply
		}
	}
	ply.Material = usual
	if m, ok := k.lib.Material(k.s, usual); !ok || m.Form != form {
		k.err = fmt.Errorf("no material %q of form %s to build with", usual, form)
	}
	note := fmt.Sprintf("No structural ply of form %s yet: the repeats take %s", form, usual)
	if deg, ok := catalog.UsualAngle(usual); ok && fits != nil {
		ply.Angle = laminate.Some(deg)
		note += fmt.Sprintf(" at %.4g°", deg)
	}
	k.p.notes = append(k.p.notes, note+".")
	return ply
}
