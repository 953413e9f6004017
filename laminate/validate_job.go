package laminate

import (
	"path"
	"strings"
)

// MostParts is how many parts, joints and nozzles a job may each have.
const MostParts = 1_000

// ValidateJob judges the values of a job as [Validate] does those of a schedule,
// and what its tables say of each other: ids given twice, laminates and parts
// that are not there. Schedules of their own are not looked into.
func ValidateJob(j *Job, lib *Library) []Fault {
	c := &checker{}
	c.head(&j.Head)
	c.service(&j.Service)
	c.conditions(j.Conditions, &j.Service)
	resins := c.shared(j.Resins, j.Materials)
	for i := range c.faults {
		c.faults[i].Ref.Part = -1
	}
	c.laminates(j, lib, resins)
	c.parts(j)
	c.joints(j)
	c.nozzles(j)
	return c.faults
}

func (c *checker) laminates(j *Job, lib *Library, resins map[string]int) {
	seen := map[string]int{}
	rows, plies, told := 0, 0, false
	for i := range j.Laminates {
		l := &j.Laminates[i]
		c.ref = Ref{Kind: RefLaminate, Index: i}
		c.id(l.ID)
		c.unique(seen, l.ID, i, "laminate")
		s := j.Schedule(i)
		n := len(c.faults)
		c.plies(s, lib, resins)
		for k := range c.faults[n:] {
			if f := &c.faults[n+k]; f.Ref.Kind == RefPly {
				f.Ref.Kind, f.Ref.Index = RefLaminatePly, rows+f.Ref.Index
			} else {
				f.Ref.Part = -1
			}
		}
		rows += len(l.Plies)
		own := s.NumberOfPlies()
		plies += own
		if told = told || own > MostPlies; told || plies <= MostPlies {
			continue
		}
		// Where it becomes too much, and once.
		told, c.ref = true, Ref{Kind: RefLaminate, Index: i}
		c.fail("", "with this one there are %d plies in all laminates, counts multiplied out: at most %d are read", plies, MostPlies)
	}
	c.ref = Ref{Part: -1, Kind: RefSchedule}
}

func (c *checker) parts(j *Job) {
	seen := map[string]int{}
	for i := range j.Parts {
		p := &j.Parts[i]
		c.ref = Ref{Kind: RefJobPart, Index: i}
		c.id(p.ID)
		c.unique(seen, p.ID, i, "part")
		switch {
		case p.Laminate != "" && p.Schedule != "":
			c.fail("schedule", "there is a laminate already: a part has one or the other")
		case p.Laminate == "" && p.Schedule == "":
			c.fail("laminate", "it is missing: a part names a laminate, or a schedule beside the job")
		case p.Schedule != "":
			c.file("schedule", p.Schedule)
		}
		c.laminate(j, "laminate", p.Laminate)
		c.partValues(&p.Part)
		c.shape(&p.Shape)
		within(c, "pressure", p.Pressure, pressures)
		within(c, "vacuum", p.Vacuum, pressures)
		within(c, "temperature", p.Temperature, heats)
		c.sane("specific_gravity", p.SpecificGravity, gravities)
	}
}

func (c *checker) shape(s *Shape) {
	within(c, "crown_radius", s.CrownRadius, diameters)
	within(c, "knuckle_radius", s.KnuckleRadius, diameters)
	within(c, "depth", s.Depth, diameters)
	c.number("half_angle", s.HalfAngle, 0, 90, true, true)
	within(c, "bend_radius", s.BendRadius, diameters)
	c.number("turn", s.Turn, 0, 180, true, false)
	c.whole("miters", s.Miters, 0, 100)
	within(c, "size", s.Size, diameters)
	c.text("drilling", s.Drilling)
	within(c, "thickness", s.Thickness, thicknesses)
	within(c, "pressure_class", s.PressureClass, pressures)
	c.whole("count", s.Count, 1, 10_000)
	if s.CrownRadius.Given() && s.KnuckleRadius.Given() && s.KnuckleRadius.Cmp(s.CrownRadius) > 0 {
		c.fail("knuckle_radius", "%s is more than the crown radius, %s", quoted(s.KnuckleRadius.Text()), s.CrownRadius.Text())
	}
}

func (c *checker) joints(j *Job) {
	seen := map[string]int{}
	for i := range j.Joints {
		n := &j.Joints[i]
		c.ref = Ref{Kind: RefJoint, Index: i}
		c.id(n.ID)
		c.unique(seen, n.ID, i, "joint")
		switch {
		case n.Between == [2]string{}:
			c.fail("between", "it is missing: a joint names the two parts that it joins")
		case n.Between[0] == n.Between[1]:
			c.fail("between", "%s is named twice: a joint joins two parts", quoted(n.Between[0]))
		default:
			c.partNamed(j, "between", n.Between[0])
			c.partNamed(j, "between", n.Between[1])
		}
		c.laminate(j, "outside", n.Outside)
		c.laminate(j, "inside", n.Inside)
		within(c, "width", n.Width, widths)
		within(c, "first_width", n.FirstWidth, widths)
		if n.Width.Given() && n.FirstWidth.Given() && n.FirstWidth.Cmp(n.Width) > 0 {
			c.fail("first_width", "%s is more than the whole width, %s", quoted(n.FirstWidth.Text()), n.Width.Text())
		}
	}
}

func (c *checker) nozzles(j *Job) {
	seen := map[string]int{}
	for i := range j.Nozzles {
		n := &j.Nozzles[i]
		c.ref = Ref{Kind: RefNozzle, Index: i}
		c.id(n.ID)
		c.unique(seen, n.ID, i, "nozzle")
		if n.On == "" {
			c.fail("on", "it is missing: a nozzle names the part that it is on")
		} else {
			c.partNamed(j, "on", n.On)
		}
		if h := n.Height; !(h.Given() && h.SI() == 0) {
			within(c, "height", h, lengths)
		}
		within(c, "size", n.Size, diameters)
		c.laminate(j, "pad", n.Pad)
		c.laminate(j, "installation_outside", n.InstallationOutside)
		c.laminate(j, "installation_inside", n.InstallationInside)
		c.laminate(j, "neck", n.Neck)
		c.whole("gussets", n.Gussets, 0, 100)
	}
}

func (c *checker) partNamed(j *Job, key, id string) {
	if j.Part(id) < 0 {
		c.fail(key, "no [[part]] has the id %s", quoted(id))
	}
}

func (c *checker) laminate(j *Job, key, id string) {
	if id != "" && j.Laminate(id) < 0 {
		c.fail(key, "no [[laminate]] has the id %s", quoted(id))
	}
}

// file refuses a name that could lead outside the job's folder.
func (c *checker) file(key, name string) {
	clean := path.Clean(name)
	switch {
	case strings.ContainsAny(name, `\:`), path.IsAbs(name), clean == "..", strings.HasPrefix(clean, "../"):
		c.fail(key, "%s is not a file in the job's folder: a name such as \"shell.toml\" is expected, with forward slashes", quoted(name))
	case path.Ext(name) != ".toml":
		c.fail(key, "%s does not end in .toml", quoted(name))
	default:
		c.text(key, name)
	}
}
