package laminate

import (
	"path"
	"strings"

	"frp/veilwright/laminate/word"
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
	c.equipment(j)
	resins := c.shared(j.Resins, j.Materials)
	for i := range c.faults {
		c.faults[i].Ref.Part = -1
	}
	c.laminates(j, lib, resins)
	a := j.Assemble()
	c.parts(a)
	c.joints(a)
	c.nozzles(a)
	return c.faults
}

func (c *checker) laminates(j *Job, lib *Library, resins map[string]int) {
	seen := map[string]int{}
	rows, plies, told := 0, 0, false
	for i := range j.Laminates {
		l := &j.Laminates[i]
		c.ref = Ref{Kind: RefLaminate, Index: i}
		c.named(seen, l.ID, i, "laminate")
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

func (c *checker) parts(a *Assembly) {
	seen := map[string]int{}
	for i := range a.Job.Parts {
		p := &a.Job.Parts[i]
		c.ref = Ref{Kind: RefJobPart, Index: i}
		c.named(seen, p.ID, i, "part")
		switch {
		case p.Laminate != "" && p.Schedule != "":
			c.fail("schedule", "there is a laminate already: a part has one or the other")
		case p.Schedule != "":
			c.file("schedule", p.Schedule)
		}
		c.laminate(a, "laminate", p.Laminate)
		c.laminate(a, "knuckle", p.Knuckle)
		c.partValues(&p.Part)
		c.shape(&p.Part)
		within(c, "pressure", p.Pressure, pressures)
		within(c, "vacuum", p.Vacuum, pressures)
		within(c, "temperature", p.Temperature, heats)
		c.sane("specific_gravity", p.SpecificGravity, gravities)
	}
}

func (c *checker) partNamed(a *Assembly, key, id string) {
	if a.Part(id) < 0 {
		c.fail(key, "no [[part]] has the id %s%s", quoted(id), word.Plainly(id))
	}
}

func (c *checker) laminate(a *Assembly, key, id string) {
	if id != "" && a.Laminate(id) < 0 {
		c.fail(key, "no [[laminate]] has the id %s%s", quoted(id), word.Plainly(id))
	}
}

// BesideJob tells whether a name is that of a TOML file which cannot lie outside
// the job's folder.
func BesideJob(name string) bool { return !outside(name) && path.Ext(name) == ".toml" }

func outside(name string) bool {
	clean := path.Clean(name)
	return strings.ContainsAny(name, `\:`) || path.IsAbs(name) || clean == ".." || strings.HasPrefix(clean, "../")
}

// file refuses a name that could lead outside the job's folder.
func (c *checker) file(key, name string) {
	switch {
	case outside(name):
		c.fail(key, "%s is not a file in the job's folder: a name such as \"shell.toml\" is expected, with forward slashes", quoted(name))
	case !BesideJob(name):
		c.fail(key, "%s does not end in .toml", quoted(name))
	default:
		c.text(key, name)
	}
}
