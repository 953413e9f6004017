package laminate

import (
	"math"

	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/stand"
	"frp/veilwright/laminate/surface"
)

// Assembly is a job put together: its ids looked up and its parts stood on each
// other, once for any number of questions. It holds as long as nobody changes the
// job, and is for one goroutine.
type Assembly struct {
	*stand.Vessel
	Job *Job

	ids      [2]map[string]int
	carriers map[string][]int // nozzles by the part that they end in
}

// stood are the forms of parts as they stand.
var stood = map[PartForm]stand.Form{ShellCourse: stand.Course, FlatBottom: stand.Flat, HeadPart: stand.Head, Cone: stand.Cone,
	Pipe: stand.Pipe, Duct: stand.Pipe, Elbow: stand.Elbow, Flange: stand.Flange, Cover: stand.Cover, Panel: stand.Panel}

// Assemble puts a job together.
func (j *Job) Assemble() *Assembly {
	a := &Assembly{Job: j}
	parts, joints, nozzles := make([]stand.Part, len(j.Parts)), make([][2]int, len(j.Joints)), make([]stand.Nozzle, len(j.Nozzles))
	for i := range j.Parts {
		p, own := a.Stated(i), &j.Parts[i]
		x := stand.Part{ID: own.ID, Form: stood[own.Form], Height: figure(p.Length), Wide: figure(p.InsideDiameter), Small: figure(p.SmallDiameter),
			Bend: figure(p.BendRadius), Turn: p.Turn.Or(math.NaN()), Grounded: own.Supported.Or(true), Liquid: figure(p.LiquidHeight), Filed: p != &own.Part, Settled: own.Pressure.Given() || p.LiquidHeight.Given(), At: p.Profile().At, Rings: figure(p.StiffenerSpacing), Flanged: p.Flanged.Or(false)}
		if own.LiquidHeight.Given() {
			x.Liquid, x.Filed, x.Settled = own.LiquidHeight.SI(), false, true
		}
		if own.Form == Cover && !p.InsideDiameter.Given() {
			x.Wide = math.Min(figure(p.Length), figure(p.Width))
			for _, d := range []quantity.Length{p.BoltCircle, own.Size} {
				if d.Given() {
					x.Wide = d.SI()
				}
			}
		}
		if closes := own.Form == FlatBottom || own.Form == HeadPart || own.Form == Cone; closes {
			x.Grounded = x.Grounded && own.Form == FlatBottom
			var known bool
			if x.Height, known = p.Rise(); own.Form == FlatBottom {
				x.Height = 0
			} else if !known {
				x.Height = math.NaN()
			}
			if x.Form == stand.Head && p.Head == Torispherical {
				dish, _ := surface.Torisphere(p.InsideDiameter.SI(), p.CrownRadius.SI(), p.KnuckleRadius.SI())
				x.Dish = dish.Volume // with sizes of none, too little to stand
			}
		}
		parts[i] = x
	}
	for i := range j.Joints {
		joints[i] = [2]int{a.named(j.Joints[i].Between[0]), a.named(j.Joints[i].Between[1])}
	}
	for i := range j.Nozzles {
		n := &j.Nozzles[i]
		nozzles[i] = stand.Nozzle{ID: n.ID, On: a.named(n.On), Ends: [2]int{a.named(n.Flange), a.named(n.Cover)}, Height: figure(n.Height), Offset: figure(n.Offset), Reach: n.Cut().SI() / 2, Projection: figure(n.Projection)}
	}
	a.Vessel = stand.New(parts, joints, nozzles, figure(j.Vessel.LiquidHeight), j.Service.Contact == Vapor)
	return a
}

// figure is a length in m, NaN where it is not stated.
func figure(l quantity.Length) float64 {
	if !l.Given() {
		return math.NaN()
	}
	return l.SI()
}

// Stated is what is known of a part: what the job says of it, or its own schedule
// where that is there and of the same form.
func (a *Assembly) Stated(part int) *Part {
	p := &a.Job.Parts[part]
	if s, ok := a.Job.Schedules[p.Schedule]; ok && p.Schedule != "" && s.Part.Form == p.Form {
		return &s.Part
	}
	return &p.Part
}

// named finds a part by an id that may be left out.
func (a *Assembly) named(id string) int {
	if id == "" {
		return -1
	}
	return a.Part(id)
}

// Part finds a part by its id, -1 where there is none.
func (a *Assembly) Part(id string) int {
	return a.find(0, id, len(a.Job.Parts), func(i int) string { return a.Job.Parts[i].ID })
}

// Laminate finds a laminate by its id, -1 where there is none.
func (a *Assembly) Laminate(id string) int {
	return a.find(1, id, len(a.Job.Laminates), func(i int) string { return a.Job.Laminates[i].ID })
}

// find goes by the first row of an id.
func (a *Assembly) find(table int, id string, rows int, of func(int) string) int {
	if a.ids[table] == nil {
		a.ids[table] = make(map[string]int, rows)
		for i := rows - 1; i >= 0; i-- {
			a.ids[table][of(i)] = i
		}
	}
	if i, ok := a.ids[table][id]; ok {
		return i
	}
	return -1
}

// Ending lists the nozzles that end in a part: a flange or a cover.
func (a *Assembly) Ending(id string) []int {
	if a.carriers == nil {
		a.carriers = map[string][]int{}
		for i := range a.Job.Nozzles {
			for _, end := range []string{a.Job.Nozzles[i].Flange, a.Job.Nozzles[i].Cover} {
				if end != "" {
					a.carriers[end] = append(a.carriers[end], i)
				}
			}
		}
	}
	return a.carriers[id]
}

// level is the liquid height of a part that states none of its own, from the
// level of the whole equipment.
func (a *Assembly) level(part int) quantity.Length {
	if a.Job.Parts[part].LiquidHeight.Given() {
		return quantity.Length{}
	}
	depth, ok := a.Covered(part, 0)
	if !ok {
		return quantity.Length{}
	}
	unit := a.Job.Units.Long()
	return quantity.New(depth/quantity.New(1, unit).SI(), unit).Spelled(unit)
}

// Wall is [Job.Wall].
func (a *Assembly) Wall(part int) *Schedule {
	return a.wall(part, a.Laminate(a.Job.Parts[part].Laminate))
}

func (a *Assembly) wall(part, laminate int) *Schedule {
	j := a.Job
	p := &j.Parts[part]
	if p.Schedule != "" {
		if s, ok := j.Schedules[p.Schedule]; ok {
			own := *s
			own.Part.Place.Free = a.Free(part) // what it is joined to the file does not know
			return &own
		}
		return &Schedule{Head: j.Head}
	}
	s := &Schedule{Head: j.Head, Part: p.Part, Service: j.Service, Conditions: j.Conditions, Resins: j.Resins, Materials: j.Materials}
	instead(&s.Part.LiquidHeight, a.level(part))
	s.Part.Place = Place{Free: a.Free(part), Top: a.OnTop(part), Tested: j.Test != (Test{}), Line: a.Line(part), Unplaced: a.Unplaced(part), Hangs: a.Hangs(part) || a.Borne(part), Tip: a.Tip(part),
		Axial: a.Loaded(part, func(joint int) float64 { return j.Joints[joint].AxialLoad.SI() })}
	if m, ok := a.Pull(part); ok && (a.Borne(part) || m > 0) {
		s.Part.Place.Pull = quantity.New(m, quantity.Meter)
	}
	p.override(&s.Service)
	if p.Temperature.Given() || p.Pressure.Given() || p.Vacuum.Given() {
		s.Conditions = nil // its own load and temperature are all there is
	}
	if laminate >= 0 {
		s.Plies = j.Laminates[laminate].Plies
	}
	return s
}

// Cut is the diameter that a nozzle's opening is cut to: the one stated, else
// its nominal size.
func (n *Nozzle) Cut() quantity.Length {
	if n.Opening.Given() {
		return n.Opening
	}
	return n.Size
}

// Rise is how far a head or cone reaches beyond its rim, in m, inside, 0 of what does
// not; not ok where its shape is not wholly stated.
func (p *Part) Rise() (m float64, ok bool) {
	m = p.Profile().Rise
	return m, !math.IsNaN(m) && p.InsideDiameter.Given()
}

// Profile is how the inside of a head or cone stands over its wide end, m; what is
// neither has no rise.
func (p *Part) Profile() surface.Profile {
	d := figure(p.InsideDiameter)
	switch {
	case p.Form == Cone:
		return surface.ConeProfile(d, figure(p.SmallDiameter), p.HalfAngle.Or(math.NaN())*math.Pi/180)
	case p.Form == HeadPart && p.Head == Hemispherical:
		return surface.EllipsoidProfile(d, d/2)
	case p.Form == HeadPart && p.Head == Ellipsoidal:
		return surface.EllipsoidProfile(d, figure(p.Depth))
	case p.Form == HeadPart:
		return surface.TorisphereProfile(d, figure(p.CrownRadius), figure(p.KnuckleRadius))
	}
	return surface.Profile{At: func(float64) float64 { return math.NaN() }}
}
