package equipment

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/catalog"
	"frp/veilwright/laminate/overlay"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/vessel"
	"frp/veilwright/laminate/wall"
	"frp/veilwright/laminate/wall/repeat"
	"frp/veilwright/rules"
	"frp/veilwright/rules/advice"
)

// stepped rounds up to a multiple of a step; what is there but for rounding
// stays.
func stepped(v, step float64) float64 { return math.Ceil(v/step-1e-6) * step }

// walls fills in the laminates of parts, the courses first: what they are built
// of goes for the others.
func (w *work) walls() error {
	var list []int
	for i := range w.j.Parts {
		if p := &w.j.Parts[i]; p.Schedule == "" && w.bare(p.Laminate) {
			list = append(list, i)
		}
	}
	w.standing()
	slices.SortStableFunc(list, func(a, b int) int { return w.rank(a) - w.rank(b) })
	if err := w.begin(list); err != nil {
		return err
	}
	thickest := map[string]float64{} // laminate that several parts name, by what stands in it now
	for _, i := range list {
		c, err := w.wall(i)
		if err != nil {
			return err
		}
		if c != nil {
			w.take(i, c, thickest)
		}
	}
	return nil
}

// rank is the order in which walls are proposed.
func (w *work) rank(part int) int {
	if w.j.Parts[part].Form == laminate.ShellCourse {
		return 0
	}
	return 1
}

// byHand tells whether a part is laid by hand; one that does not say is taken so.
func (w *work) byHand(part int) bool { return w.j.Parts[part].Process != laminate.Wound }

// standing goes by the walls that stand: the thickest barrier, and the
// structural rows of the first by hand and the first that is wound.
func (w *work) standing() {
	w.structures = map[bool][]laminate.Ply{}
	thickest := 0.0
	for i := range w.j.Parts {
		if w.j.Parts[i].Schedule != "" || w.bare(w.j.Parts[i].Laminate) {
			continue
		}
		s := w.j.Wall(i)
		a := laminate.Analyze(s, w.lib)
		if quantity.Above(a.Barrier.Thickness, thickest) {
			thickest = a.Barrier.Thickness
			w.barrier = barrierRows(s, a)
		}
		w.learn(i, s, a)
	}
}

// learn notes what a wall's structure is built of, where it is the first of its
// kind.
func (w *work) learn(part int, s *laminate.Schedule, a *laminate.Analysis) {
	rows := structureRows(s, a)
	if hand := w.byHand(part); len(w.structures[hand]) == 0 {
		w.structures[hand] = rows
	}
	if w.mix == "" {
		w.mix = mixOf(rows)
	}
}

// rowsOf are the rows of some zones, each with its zone, as new rows.
func rowsOf(s *laminate.Schedule, a *laminate.Analysis, in func(laminate.Zone) bool) (rows []laminate.Ply) {
	for k := range a.Rows {
		if p := s.Plies[k]; in(a.Rows[k].Zone) {
			p.Zone, p.Origin = a.Rows[k].Zone, 0
			rows = append(rows, p)
		}
	}
	return rows
}

func barrierRows(s *laminate.Schedule, a *laminate.Analysis) []laminate.Ply {
	return rowsOf(s, a, laminate.Zone.InBarrier)
}

func structureRows(s *laminate.Schedule, a *laminate.Analysis) []laminate.Ply {
	return rowsOf(s, a, func(z laminate.Zone) bool { return z == laminate.StructuralLayer })
}

// begin chooses the barrier of all walls where none stands: the one that suits
// the hottest part.
func (w *work) begin(list []int) error {
	list = slices.DeleteFunc(slices.Clone(list), func(i int) bool { return len(w.unstated(i)) > 0 })
	if len(w.barrier) > 0 && len(list) > 0 && w.o.Veil+w.o.Resin+w.o.Build != "" {
		w.left(laminate.JobPartRef(list[0], "laminate"), "the barrier stays the one that other parts have: veil, resin and build choose one where none stands, or where all is proposed anew")
	}
	if len(w.barrier) > 0 || len(list) == 0 {
		return nil
	}
	hottest := list[0]
	for _, i := range list {
		if a, b := w.j.Wall(i).Service.Hottest(), w.j.Wall(hottest).Service.Hottest(); a.Given() && (!b.Given() || a.Cmp(b) > 0) {
			hottest = i
		}
	}
	o := w.o.Options
	o.Replace, o.Unit = true, repeat.NoUnit
	found, err := advice.Propose(w.j.Wall(hottest), w.lib, o)
	if why, is := w.nothing(err); is {
		w.left(laminate.JobPartRef(hottest, "laminate"), "no barrier can be proposed: "+why)
		return nil
	}
	if err != nil {
		return fmt.Errorf("proposing a job: %w", err)
	}
	s, a := found[0].Schedule, found[0].Report.Analysis
	w.j.Resins, w.barrier = s.Resins, barrierRows(s, a)
	w.mix = mixOf(structureRows(s, a))
	return nil
}

// mixOf is the resin of the last row.
func mixOf(rows []laminate.Ply) string {
	if len(rows) == 0 {
		return ""
	}
	return rows[len(rows)-1].Resin
}

// options are those of a part's wall.
func (w *work) options(part int) advice.Options {
	o := w.o.Options
	o.Replace = true // nothing stands in it
	if wound := o.Unit == repeat.WoundCover || o.Unit == repeat.HoopAndChop; wound == w.byHand(part) {
		o.Unit = repeat.NoUnit // it is for the others
	}
	o.Veil, o.Resin, o.Build = "", "", "" // they chose the barrier
	o.Barrier, o.Structure = w.barrier, w.structures[w.byHand(part)]
	if len(o.Structure) == 0 && w.mix != "" {
		o.Structure = []laminate.Ply{{Resin: w.mix}} // of whatever material
	}
	return o
}

// wall proposes one, nil where a fact is missing or nothing holds.
func (w *work) wall(part int) (*advice.Candidate, error) {
	id := w.j.Parts[part].ID
	keys := w.unstated(part)
	switch {
	case len(keys) > 0:
		w.left(laminate.JobPartRef(part, "laminate"), "part "+id+" has no wall: state "+rules.Join(keys, "and"))
		return nil, nil
	case len(w.barrier) == 0:
		w.left(laminate.JobPartRef(part, "laminate"), "part "+id+" has no wall: there is no barrier to begin with")
		return nil, nil
	}
	list, err := advice.Propose(w.j.Wall(part), w.lib, w.options(part))
	if why, is := w.nothing(err); is {
		w.left(laminate.JobPartRef(part, "laminate"), "part "+id+" has no wall: "+why)
		return nil, nil
	}
	if err != nil {
		return nil, fmt.Errorf("part %s: %w", id, err)
	}
	if why := list[0].Unfinished; why != "" {
		w.left(laminate.JobPartRef(part, "laminate"), "part "+id+" has no wall: "+why)
		return nil, nil
	}
	return &list[0], nil
}

// take gives a part its wall. Of several parts that name one laminate the
// thickest stands.
func (w *work) take(part int, c *advice.Candidate, thickest map[string]float64) {
	p := &w.j.Parts[part]
	named := p.Laminate
	if named != "" && thickest[named] > 0 && !quantity.Above(c.Report.Analysis.Total.Thickness, thickest[named]) {
		w.filled(laminate.JobPartRef(part, "laminate"), "part "+p.ID+": laminate "+named+", as thick as another part wants it")
		return
	}
	w.j.Resins = c.Schedule.Resins
	plies := slices.Clone(c.Schedule.Plies)
	p.Laminate = w.share(named, "part", p.ID, plies)
	if named != "" {
		thickest[named] = c.Report.Analysis.Total.Thickness
	}
	if rings := c.Schedule.Part.StiffenerSpacing; rings != p.StiffenerSpacing {
		p.StiffenerSpacing = rings
	}
	w.learn(part, c.Schedule, c.Report.Analysis)
	text := "part " + p.ID + ": laminate " + p.Laminate + ", " + w.figures(c.Report)
	w.filled(laminate.JobPartRef(part, "laminate"), text)
	if r, flat := c.Report.Wall, p.Form == laminate.Cover || p.Form == laminate.FlatBottom; flat && r != nil && quantity.Above(r.Whole, catalog.ThickestLid.SI()) {
		if g, ok := r.Governing(); ok && g.Name == wall.StepLoad {
			w.assumed(laminate.JobPartRef(part, "laminate"), "part "+p.ID, "a plain flat plate of "+w.o.Units.Thickness(r.Whole)+" carries who steps on it; ribs laid under it, or a dished head in its place, carry that with far less laminate, and by figures that are not made here")
		}
	}
	for _, n := range c.Notes {
		if !strings.HasPrefix(n, "not checked") {
			w.assumed(laminate.JobPartRef(part, "laminate"), "part "+p.ID, n)
		}
	}
}

// figures says what a wall is and what decided it.
func (w *work) figures(r *rules.Report) string {
	text := quantity.Counted(r.Schedule.NumberOfPlies(), "ply", "plies") + ", " + w.o.Units.Thickness(r.Analysis.Total.Thickness)
	if r.Wall == nil {
		return text
	}
	if c, ok := r.Wall.Governing(); ok && c.Measured() {
		text += "; " + c.Title() + " at " + quantity.Utilization(c.Ratio) + " of its limit"
	}
	return text
}

// shellParts lists the parts of the shell from the bottom up.
func (w *work) shellParts() (list []int) {
	for i := range w.j.Parts {
		if w.j.Parts[i].Form.OfShell() {
			list = append(list, i)
		}
	}
	return list
}

// tapers states over what length a thicker course runs out into the next.
func (w *work) tapers() {
	list := w.shellParts()
	for k := 1; k < len(list); k++ {
		low, high := &w.j.Parts[list[k-1]], &w.j.Parts[list[k]]
		if low.Form != laminate.ShellCourse || high.Form != laminate.ShellCourse || low.Schedule != "" || high.Schedule != "" || w.bare(low.Laminate) || w.bare(high.Laminate) {
			continue
		}
		thick := func(part int) float64 { return w.pass().Parts[part].Analysis.Total.Thickness }
		step := thick(list[k-1]) - thick(list[k])
		if step <= 1e-6 || low.Taper.Given() && !(w.o.Replace && quantity.Below(low.Taper.SI(), vessel.LeastTaper*step)) {
			continue
		}
		low.Taper = w.up(vessel.LeastTaper * step)
		w.filled(laminate.JobPartRef(list[k-1], "taper"), fmt.Sprintf("part %s: taper %s, at least %d times the step into %s", low.ID, low.Taper.Text(), vessel.LeastTaper, high.ID))
	}
}

// coats says of what was filled in when its waxed coat is laid, where that waits.
func (w *work) coats() {
	filled := func(at laminate.Ref) bool {
		return slices.ContainsFunc(w.p.Filled, func(l Line) bool { return l.At == at })
	}
	for i := range w.j.Parts {
		at := laminate.JobPartRef(i, "laminate")
		if filled(at) && overlay.LastCoat(w.j, i, laminate.Analyze(w.j.Wall(i), w.lib)) != nil {
			w.assumed(at, "part "+w.j.Parts[i].ID, "its waxed coat is laid last, when its joints and nozzles are, as lay-up and route sheets have it")
		}
	}
	for _, o := range overlay.All(w.j) {
		at := laminate.Ref{Kind: o.At.Kind, Index: o.At.Index, Key: o.Kind.Key()}
		if !filled(at) {
			continue
		}
		if c := o.LastCoat(w.j, laminate.Analyze(o.Schedule(w.j), w.lib)); c != nil {
			w.assumed(at, o.Where(), "the waxed coat of its "+o.Kind.Noun()+" is laid after "+c.Before()+", as lay-up and route sheets have it")
		}
	}
}
