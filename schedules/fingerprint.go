package schedules

import (
	"crypto/sha256"
	"strconv"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/overlay"
	"frp/veilwright/laminate/record"
	"frp/veilwright/laminate/spec"
	"frp/veilwright/schedules/internal/tables"
)

// unweighed are keys that say nothing of what is laid: names, prices, rolls.
var unweighed = []string{"name", "price", "roll_width", "roll_length", "source"}

// Fingerprints say what a schedule is by its content: what was resolved for each
// ply out of the schedule, its shop books and what is built in, and the part and
// service it is for. Spelling, comments, line ends, title, revision number and
// prices do not count.
type Fingerprints struct {
	Schedule string   // 64 hexadecimal digits
	Plies    []string // of each single ply, 12 of them
}

// Fingerprint takes those of an analyzed schedule.
func Fingerprint(s *laminate.Schedule, a *laminate.Analysis, lib *laminate.Library) Fingerprints {
	var b []byte
	for _, kind := range []laminate.RefKind{laminate.RefPart, laminate.RefService, laminate.RefCondition} {
		b = scheduleTables[kind].Said(b, s, unweighed)
	}
	return fingerprints(b, s, a, lib)
}

// OverlayFingerprint takes those of what a job has laid at a joint or nozzle, or in
// a corner: of its plies, and of all that the joint, nozzle or part states.
func OverlayFingerprint(o *overlay.Overlay, j *laminate.Job, s *laminate.Schedule, a *laminate.Analysis, lib *laminate.Library) Fingerprints {
	var one laminate.Job
	table, at := jobJoint, o.At.Index
	switch o.Kind {
	case overlay.Knuckle:
		table, one.Parts = jobPart, j.Parts[at:at+1]
	case overlay.Strap, overlay.Seal:
		one.Joints = j.Joints[at : at+1]
	default:
		table, one.Nozzles = jobNozzle, j.Nozzles[at:at+1]
	}
	return fingerprints(jobTables()[table].Said([]byte(o.Kind.String()+"\n"), &one, unweighed), s, a, lib)
}

// fingerprints are those of plies, and of them behind what is said before.
func fingerprints(b []byte, s *laminate.Schedule, a *laminate.Analysis, lib *laminate.Library) (f Fingerprints) {
	for i := range a.Rows {
		row := &a.Rows[i]
		last := record.Sum(sha256.Sum256(plySaid(&s.Plies[i], row, lib, s.Plies[i].GelAfter)))
		before := last
		if s.Plies[i].GelAfter {
			before = sha256.Sum256(plySaid(&s.Plies[i], row, lib, false))
		}
		for n := row.First; n <= row.Last; n++ {
			sum := before
			if n == row.Last {
				sum = last
			}
			f.Plies = append(f.Plies, sum.ID())
			b = append(b, sum[:]...)
		}
	}
	f.Schedule = record.Sum(sha256.Sum256(b)).String()
	return f
}

// JobFingerprint says what a job is by its content: what its tables say, and the
// fingerprint of every laminate and of every wall that lies in a file of its own.
func JobFingerprint(j *laminate.Job, lib *laminate.Library) string {
	var b []byte
	for _, table := range []int{jobService, jobVessel, jobTest, jobBond, jobCondition, jobPart, jobNozzle, jobJoint} {
		b = jobTables()[table].Said(b, j, unweighed)
	}
	add := func(id string, s *laminate.Schedule) {
		b = append(b, id+"="+Fingerprint(s, laminate.Analyze(s, lib), lib).Schedule+"\n"...)
	}
	for i := range j.Laminates {
		add(j.Laminates[i].ID, j.Schedule(i))
	}
	for i := range j.Parts {
		if j.Parts[i].Schedule != "" {
			add(j.Parts[i].ID, j.Wall(i))
		}
	}
	return record.Sum(sha256.Sum256(b)).String()
}

// plySaid is what a single ply is: its own keys with its zone, whether it gels
// before the next, and what its material and its resin come to.
func plySaid(p *laminate.Ply, row *laminate.RowFigures, lib *laminate.Library, gel bool) []byte {
	one := *p
	one.Count, one.Zone, one.GelAfter = 1, row.Zone, gel
	b := tables.Said(nil, "ply", plyFields, &one, unweighed)
	value := func(v float64) string { return " " + strconv.FormatFloat(v, 'g', tables.Digits, 64) }
	if m := row.Material; m != nil {
		b = tables.Said(b, "material", materialFields, m, unweighed)
		fiber := &lib.Fibers[m.Fiber]
		b = append(b, value(fiber.Density.SI())+value(fiber.Modulus.SI())+value(fiber.Poisson)...)
	}
	if r := row.Resin; r != nil {
		b = tables.Said(b, "resin", resinFields, r, unweighed)
		family, filler := &lib.Families[r.Family], &lib.Fillers[r.Filler]
		b = append(b, value(family.Density.SI())+value(family.Modulus.SI())+value(family.Poisson)+value(family.FailureStrain)+value(filler.Density.SI())...)
	}
	return b
}

// SpecificationFingerprint says what a specification requires, by its content:
// what its shop's book states of the acceptance level that it names is of it.
func SpecificationFingerprint(d *spec.Specification, levels []spec.LevelLimit) string {
	var b []byte
	for i := range specTables() {
		b = specTables()[i].Said(b, d, unweighed)
	}
	for _, l := range spec.OfLevel(d.Inspection.AcceptanceLevel, levels) {
		b = tables.Said(b, "level", defectFields(), &l.DefectLimit, nil)
	}
	return record.Sum(sha256.Sum256(b)).String()
}
