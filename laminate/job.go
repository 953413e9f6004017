package laminate

import (
	"maps"
	"slices"

	"frp/veilwright/laminate/quantity"
)

// Job is one piece of equipment: parts, the joints between them and the nozzles
// on them, each with its laminate. What the parts share stands once. A job does
// not change: edits make another, which shares what they leave alone.
type Job struct {
	Head
	Service    Service
	Vessel     Vessel
	Test       Test
	Bond       Bond
	Resins     []Resin
	Materials  []Material
	Conditions []Condition // of parts that state no load or temperature of their own
	Laminates  []Laminate
	Parts      []JobPart
	Joints     []Joint
	Nozzles    []Nozzle

	// Schedules are those that parts name, by the name as it is written. Who
	// opens the job puts them here: a document has the names alone.
	Schedules map[string]*Schedule
}

// Laminate is a list of plies that parts, joints and nozzles refer to.
type Laminate struct {
	Origin
	ID    string
	Plies []Ply
}

// JobPart is one part of a job. Its laminate stands in the job, or its whole
// schedule in a file beside it, whose own part and service then count.
type JobPart struct {
	Origin
	ID       string
	Laminate string
	Schedule string // file, with forward slashes, never outside the job's folder
	Part
	Knuckle string // laminate of a flat bottom's reinforcement

	// These stand for the service's where they are given.
	Pressure, Vacuum quantity.Pressure
	Temperature      quantity.Temperature
	SpecificGravity  Optional[float64]
}

// Laminate finds a laminate by its id, -1 where there is none. Who asks for many
// asks an [Assembly].
func (j *Job) Laminate(id string) int {
	return first(len(j.Laminates), func(i int) bool { return j.Laminates[i].ID == id })
}

// Part finds a part by its id, -1 where there is none.
func (j *Job) Part(id string) int {
	return first(len(j.Parts), func(i int) bool { return j.Parts[i].ID == id })
}

// first finds a row without making copies of those before it.
func first(rows int, is func(i int) bool) int {
	for i := range rows {
		if is(i) {
			return i
		}
	}
	return -1
}

// Clone gives a job whose lists may be changed without touching j.
func (j *Job) Clone() *Job {
	c := *j
	c.Resins, c.Materials = slices.Clone(j.Resins), slices.Clone(j.Materials)
	c.Conditions, c.Laminates = slices.Clone(j.Conditions), slices.Clone(j.Laminates)
	for i := range c.Laminates {
		c.Laminates[i].Plies = slices.Clone(c.Laminates[i].Plies)
	}
	c.Parts, c.Joints, c.Nozzles = slices.Clone(j.Parts), slices.Clone(j.Joints), slices.Clone(j.Nozzles)
	return &c
}

// Schedule is a laminate by itself: its plies and what they are made of.
func (j *Job) Schedule(laminate int) *Schedule {
	return &Schedule{Resins: j.Resins, Materials: j.Materials, Plies: j.Laminates[laminate].Plies}
}

// Wall is the schedule of one part, with everything that is judged of one: the
// part, its service, the resins and materials of the job and the plies of its
// laminate; none where the laminate is missing. Where the part states no liquid
// height, it is what the level in the equipment leaves above it. Of a part with a file of its
// own it is the schedule in the file, with what the job knows of how it is held round,
// empty where nobody put it into the job.
func (j *Job) Wall(part int) *Schedule {
	return j.Assemble().wall(part, j.Laminate(j.Parts[part].Laminate))
}

// override puts what stands on the part in the place of the service's.
func (p *JobPart) override(s *Service) {
	instead(&s.Pressure, p.Pressure)
	instead(&s.Vacuum, p.Vacuum)
	instead(&s.Temperature, p.Temperature)
	if p.SpecificGravity.Given {
		s.SpecificGravity = p.SpecificGravity
	}
}

// instead puts a value in the place of another, where it is stated.
func instead[D quantity.Dimension](of *quantity.Quantity[D], own quantity.Quantity[D]) {
	if own.Given() {
		*of = own
	}
}

// Overrides tells whether a value of the service stands on the part, by its key.
func (p *JobPart) Overrides(key string) bool {
	return map[string]bool{"pressure": p.Pressure.Given(), "vacuum": p.Vacuum.Given(), "temperature": p.Temperature.Given(), "specific_gravity": p.SpecificGravity.Given}[key]
}

// With is the job whose part has the wall s; what it shares with other parts
// changes for them too. With(part, Wall(part)) is the job itself. A value that
// stands on the part in the place of the service's stays there; taken back, the
// service's counts again.
func (j *Job) With(part int, s *Schedule) *Job {
	was := j.Wall(part)
	p := j.Parts[part]
	p.Part = s.Part
	p.Place = Place{}
	if p.LiquidHeight == was.Part.LiquidHeight && !j.Parts[part].LiquidHeight.Given() {
		p.LiquidHeight = quantity.Length{} // that of the whole equipment still counts
	}
	conditions, resins, materials, plies := same(s.Conditions, was.Conditions), same(s.Resins, was.Resins), same(s.Materials, was.Materials), same(s.Plies, was.Plies)
	if alike := s.Part == was.Part || p.Schedule == "" && p == j.Parts[part]; alike && s.Head == was.Head && s.Service == was.Service && conditions && resins && materials && plies {
		return j
	}
	n := *j
	if p.Schedule != "" {
		own := *s
		own.Part.Place = Place{}
		n.Schedules = make(map[string]*Schedule, len(j.Schedules)+1)
		maps.Copy(n.Schedules, j.Schedules)
		n.Schedules[p.Schedule] = &own
		return &n
	}
	n.Head = s.Head
	if s.Service != was.Service {
		n.Service = s.Service
		p.giveBack(&n.Service, j.Service)
	}
	if !conditions {
		n.Conditions = s.Conditions
	}
	if !resins || !materials {
		n.Resins, n.Materials = s.Resins, s.Materials
	}
	if !plies {
		i := j.Laminate(p.Laminate)
		n.Laminates = slices.Clone(j.Laminates)
		if i < 0 {
			if p.Laminate == "" {
				p.Laminate = p.ID
			}
			n.Laminates = append(n.Laminates, Laminate{ID: p.Laminate})
			i = len(n.Laminates) - 1
		}
		n.Laminates[i].Plies = s.Plies
	}
	if p != j.Parts[part] {
		n.Parts = slices.Clone(j.Parts)
		n.Parts[part] = p
	}
	n.follow(j, n.Laminate(p.Laminate))
	return &n
}

// giveBack takes what stands on the part out of a service that was put
// together for it; shared is what the others have.
func (p *JobPart) giveBack(s *Service, shared Service) {
	if p.Pressure.Given() {
		p.Pressure, s.Pressure = s.Pressure, shared.Pressure
	}
	if p.Vacuum.Given() {
		p.Vacuum, s.Vacuum = s.Vacuum, shared.Vacuum
	}
	if p.Temperature.Given() {
		p.Temperature, s.Temperature = s.Temperature, shared.Temperature
	}
	if p.SpecificGravity.Given {
		p.SpecificGravity, s.SpecificGravity = s.SpecificGravity, shared.SpecificGravity
	}
}

// follow gives the plies of the other laminates the new ids of resins and
// materials that go by another one now.
func (j *Job) follow(was *Job, except int) {
	resins := renamed(was.Resins, j.Resins, func(r *Resin) string { return r.ID })
	materials := renamed(was.Materials, j.Materials, func(m *Material) string { return m.ID })
	if len(resins)+len(materials) == 0 {
		return
	}
	j.Laminates = slices.Clone(j.Laminates)
	for i := range j.Laminates {
		if i == except {
			continue
		}
		plies := slices.Clone(j.Laminates[i].Plies)
		for n := range plies {
			if id, ok := resins[plies[n].Resin]; ok {
				plies[n].Resin = id
			}
			if id, ok := materials[plies[n].Material]; ok {
				plies[n].Material = id
			}
		}
		j.Laminates[i].Plies = plies
	}
}

// renamed finds the ids that went from a list of rows while one that was not
// there before stands in the same place.
func renamed[T any](was, now []T, id func(*T) string) map[string]string {
	if len(was) != len(now) {
		return nil
	}
	has := func(list []T, want string) bool {
		return slices.ContainsFunc(list, func(t T) bool { return id(&t) == want })
	}
	names := map[string]string{}
	for i := range was {
		before, after := id(&was[i]), id(&now[i])
		if before != after && !has(now, before) && !has(was, after) {
			names[before] = after
		}
	}
	return names
}

// same tells whether two lists are equal; those that are shared are at once.
func same[T comparable](a, b []T) bool {
	return len(a) == len(b) && (len(a) == 0 || &a[0] == &b[0] || slices.Equal(a, b))
}
