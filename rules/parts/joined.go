package parts

import (
	"strings"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/ground"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/vessel"
	"frp/veilwright/rules"
)

// PartsNotJoined looks for parts that stand on one another unjoined.
var PartsNotJoined = &rules.Rule{
	ID: "parts-not-joined", Family: family, Title: "Two parts stand on one another without a joint",
	Why: "Where two parts meet the barrier has to run through, and the load has to get across. What no joint of the job describes nobody plans, cuts or inspects, " +
		"and the first to find it is the fluid.",
	Severity: []rules.Severity{rules.Incomplete},
	When: "neighbors among bottom, courses, cone and head of a shell have no [[joint]] between them, nor flanges of one size and drilling on both that face each other, or of several parts a pipe, duct, elbow or panel is named by none; " +
		"in a job of other parts no joint and no nozzle names a flange or a cover, a lid on the shell apart; " +
		"in a job without a shell the joints leave the line in two pieces or more, each with an end that no joint names, but for parts whose ends are stated to be open",
	Basis: "the program's own check",
	Job: func(p *rules.JobPass) {
		pieces(p)
		unplaced(p)
		joined, named := make(map[[2]string]bool, len(p.Job.Joints)), map[string]bool{}
		for i := range p.Job.Joints {
			b := p.Job.Joints[i].Between
			joined[b], named[b[0]], named[b[1]] = true, true, true
		}
		last, others, plates := -1, 0, 0
		for i := range p.Job.Parts {
			switch f := p.Job.Parts[i].Form; {
			case f.OfShell() || tubular(f):
				others++
			case f == laminate.Panel:
				plates++
			default:
			}
		}
		for i := range p.Job.Parts {
			if f := p.Job.Parts[i].Form; !f.OfShell() || p.Line(i) { // a cone between pipes is of their line
				loose := (tubular(f) || p.Line(i)) && others > 1 || f == laminate.Panel && others+plates > 1
				if id := p.Job.Parts[i].ID; loose && !named[id] {
					p.Report(rules.Incomplete, laminate.JobPartRef(i, ""), "", "%s %s is joined to nothing: no joint names it", f, id)
				}
				continue
			}
			if last >= 0 {
				a, b := p.Job.Parts[last].ID, p.Job.Parts[i].ID
				switch below, above, fit := p.Facing(last, i); {
				case joined[[2]string{a, b}] || joined[[2]string{b, a}] || fit:
				case below >= 0:
					p.Report(rules.Incomplete, laminate.JobPartRef(i, ""), "", "parts %s and %s meet, and nothing is known to tie them: flanges %s and %s between them are, as stated, not of one size and drilling (size, drilling, bolts, bolt_circle)", a, b, p.Job.Parts[below].ID, p.Job.Parts[above].ID)
				default:
					p.Report(rules.Incomplete, laminate.JobPartRef(i, ""), "", "parts %s and %s meet, and no joint is between them", a, b)
				}
			}
			last = i
		}
	},
}

// unplaced reports flanges and covers that nothing of a job with other parts names: the
// joint or nozzle that they were written for was forgotten.
func unplaced(p *rules.JobPass) {
	ends, others := ending(p), false
	for i := range p.Job.Joints {
		b := p.Job.Joints[i].Between
		ends[b[0]], ends[b[1]] = true, true
	}
	for i := range p.Job.Parts {
		others = others || !ground.Flat(&p.Job.Parts[i].Part)
	}
	for i := range p.Job.Parts {
		if x := &p.Job.Parts[i]; others && ground.Flat(&x.Part) && !ends[x.ID] && !p.OnTop(i) {
			p.Report(rules.Incomplete, laminate.JobPartRef(i, ""), "", "%s %s is tied to nothing: no joint and no nozzle names it, and what it ends nobody judges", x.Form, x.ID)
		}
	}
}

// pieces reports where the joints of a line leave it in two: a strap between them was
// forgotten, or the pieces are two jobs.
func pieces(p *rules.JobPass) {
	if len(p.Stack) > 0 {
		return
	}
	piece, ends := make([]int, len(p.Job.Parts)), make([]int, len(p.Job.Parts))
	for i := range piece {
		piece[i] = i
	}
	joints(p, func(_, one, other int) {
		ends[one], ends[other] = ends[one]+1, ends[other]+1
		from, to := piece[other], piece[one]
		for i := range piece {
			if piece[i] == from {
				piece[i] = to
			}
		}
	})
	var loose []int // parts with one end that is joined, and one that is not
	told := map[int]bool{}
	for i := range p.Job.Parts {
		if !p.Line(i) || ends[i] != 1 || p.Stated(i).Ends == laminate.OpenEnds {
			continue
		}
		for k := len(loose) - 1; k >= 0; k-- { // the nearest before it
			if before := loose[k]; piece[before] != piece[i] && !told[piece[i]] {
				told[piece[i]] = true
				p.Report(rules.Incomplete, laminate.JobPartRef(i, ""), "", "the line is in pieces: %s %s and %s %s each have an end that no joint names, and nothing joins their pieces", p.Job.Parts[before].Form, p.Job.Parts[before].ID, p.Job.Parts[i].Form, p.Job.Parts[i].ID)
				break
			}
		}
		loose = append(loose, i)
	}
}

// tubular tells whether a part goes on in another at its ends.
func tubular(f laminate.PartForm) bool {
	return f == laminate.Pipe || f == laminate.Duct || f == laminate.Elbow
}

// JoinedPartsDiffer wants what a joint joins to be as wide.
var JoinedPartsDiffer = &rules.Rule{
	ID: "joined-parts-differ", Family: family, Title: "Parts that a joint joins differ in diameter",
	Why: "A strap lies on two walls that go on in one another. Over a step it lies on nothing, the barrier has a ledge, and the seal cannot be rolled. " +
		"Pipes of two sizes are joined by a cone.",
	Severity: []rules.Severity{rules.Break},
	When:     "of two parts of a joint that are not both of the shell the inside diameters are stated, of a flange its inside diameter, else its size, and differ by more than a thousandth, but for one nominal size in inches and in millimeters; a cone may meet with either end",
	Basis:    "the program's own check",
	Job: func(p *rules.JobPass) {
		joints(p, func(joint, one, other int) {
			if p.Job.Parts[one].Form.OfShell() && p.Job.Parts[other].Form.OfShell() {
				return // parts-do-not-meet says so
			}
			a, b := ground.Bores(&p.Parts[one].Schedule.Part), ground.Bores(&p.Parts[other].Schedule.Part)
			if len(a) == 0 || len(b) == 0 {
				return
			}
			named := p.Job.Parts[one].Form == laminate.Flange || p.Job.Parts[other].Form == laminate.Flange
			for _, m := range a {
				for _, n := range b {
					if abs(m-n) <= 1e-3*n || named && vessel.SameNominal(m, n) {
						return
					}
				}
			}
			m, n := p.Units.Pair(a[0], b[0], quantity.Size)
			p.Report(rules.Break, laminate.Ref{Kind: laminate.RefJoint, Index: joint, Key: "between"}, "", "joint %s: part %s is %s across inside, part %s %s: they do not meet",
				p.Job.Joints[joint].ID, p.Job.Parts[one].ID, m, p.Job.Parts[other].ID, n)
		})
	},
}

// joints goes through the joints whose two parts are there.
func joints(p *rules.JobPass, each func(joint, one, other int)) {
	for i := range p.Job.Joints {
		b := p.Job.Joints[i].Between
		if one, other := p.Part(b[0]), p.Part(b[1]); one >= 0 && other >= 0 {
			each(i, one, other)
		}
	}
}

// JointElsewhere asks that a joint is where two parts meet.
var JointElsewhere = &rules.Rule{
	ID: "joint-elsewhere", Family: family, Title: "A joint is between parts that do not meet",
	Why: "A joint is laid where two parts stand on one another. One between others is a slip of the pen: the strap that it stands for is laid nowhere, " +
		"and the place that it was meant for has none.",
	Severity: []rules.Severity{rules.Break, rules.Warning},
	When:     "a joint is between two of bottom, courses, cone and head that are no neighbors: break; two joints are between the same parts: warning",
	Basis:    "the program's own check",
	Job: func(p *rules.JobPass) {
		place := make(map[int]int, len(p.Job.Parts)) // in the stack, by part
		for i := range p.Job.Parts {
			if p.Job.Parts[i].Form.OfShell() {
				place[i] = len(place)
			}
		}
		seen := map[[2]int]string{}
		joints(p, func(i, one, other int) {
			x, parts := &p.Job.Joints[i], [2]int{min(one, other), max(one, other)}
			at := laminate.Ref{Kind: laminate.RefJoint, Index: i, Key: "between"}
			a, inA := place[parts[0]]
			b, inB := place[parts[1]]
			switch before := seen[parts]; {
			case inA && inB && b-a != 1:
				p.Report(rules.Break, at, "", "joint %s: parts %s do not meet: others stand between them", x.ID, strings.Join(x.Between[:], " and "))
			case before != "":
				p.Report(rules.Warning, at, "", "joint %s joins what joint %s joins: parts %s", x.ID, before, strings.Join(x.Between[:], " and "))
			}
			seen[parts] = x.ID
		})
	},
}

// ConeOpen asks what closes a cone at the end of a shell.
var ConeOpen = &rules.Rule{
	ID: "cone-open", Family: family, Title: "Nothing closes the small end of a cone",
	Why: "A cone at the bottom or the top of a vessel ends in a hole. Whatever closes it, a flange, a pipe or a cap, carries all the liquid over it and is joined there, " +
		"and what the job does not hold nobody judges.",
	Severity: []rules.Severity{rules.Incomplete},
	When:     "the lowest or highest part of a shell is a cone with a small diameter, and no joint ties another part to it there",
	Basis:    "the program's own check",
	Job: func(p *rules.JobPass) {
		first, last, courses := -1, -1, false
		for i := range p.Job.Parts {
			if f := p.Job.Parts[i].Form; f.OfShell() && !p.Line(i) {
				if first < 0 {
					first = i
				}
				last, courses = i, courses || f == laminate.ShellCourse
			}
		}
		for _, i := range [...]int{first, last} {
			if i < 0 || !courses || p.Job.Parts[i].Form != laminate.Cone || p.Parts[i].Schedule.Part.SmallDiameter.SI() <= 0 {
				continue
			}
			closed := false
			joints(p, func(_, one, other int) {
				if other == i {
					one, other = other, one
				}
				closed = closed || one == i && (!p.Job.Parts[other].Form.OfShell() || p.Line(other))
			})
			if !closed {
				p.Report(rules.Incomplete, laminate.JobPartRef(i, "small_diameter"), "", "part %s: what closes its small end, %s, is not known: no joint ties another part to it", p.Job.Parts[i].ID, p.Units.Stated(p.Parts[i].Schedule.Part.SmallDiameter.SI(), quantity.Size))
			}
		}
	},
}

// IDShared asks that one name means one thing.
var IDShared = &rules.Rule{
	ID: "id-shared", Family: family, Title: "Two things of a job have one name",
	Why: "Papers, records and what is written on the part go by names: \"nozzle N1\", \"lay-up sheet of N1\". " +
		"Where a nozzle and its flange are both called so, whoever reads it lays, measures or signs the one for the other. So with S1 and s1, which nobody tells apart aloud, and some systems of files not at all.",
	Severity: []rules.Severity{rules.Warning},
	When:     "a nozzle has the id of a part, or a joint that of a part or nozzle; or two ids of them, or two of laminates, of resins or of materials, differ by capital and small letters alone",
	Basis:    "the program's own check",
	Job: func(p *rules.JobPass) {
		j := p.Job
		names := map[string]name{}
		for i := range j.Parts {
			share(p, names, laminate.JobPartRef(i, "id"), "part", j.Parts[i].ID)
		}
		for i := range j.Nozzles {
			share(p, names, laminate.Ref{Kind: laminate.RefNozzle, Index: i, Key: "id"}, "nozzle", j.Nozzles[i].ID)
		}
		for i := range j.Joints {
			share(p, names, laminate.Ref{Kind: laminate.RefJoint, Index: i, Key: "id"}, "joint", j.Joints[i].ID)
		}
		laminates, resins, materials := map[string]name{}, map[string]name{}, map[string]name{}
		for i := range j.Laminates {
			share(p, laminates, laminate.Ref{Kind: laminate.RefLaminate, Index: i, Key: "id"}, "laminate", j.Laminates[i].ID)
		}
		for i := range j.Resins {
			share(p, resins, laminate.Ref{Part: -1, Kind: laminate.RefResin, Index: i, Key: "id"}, "resin", j.Resins[i].ID)
		}
		for i := range j.Materials {
			share(p, materials, laminate.Ref{Part: -1, Kind: laminate.RefMaterial, Index: i, Key: "id"}, "material", j.Materials[i].ID)
		}
	},
}

// name is what has a name first.
type name struct{ what, id string }

// share reports what has the name of something before it.
func share(p *rules.JobPass, names map[string]name, at laminate.Ref, what, id string) {
	folded := strings.ToLower(strings.ToUpper(id))
	before, taken := names[folded]
	switch {
	case id == "":
	case !taken:
		names[folded] = name{what, id}
	case before.id != id:
		p.Report(rules.Warning, at, "", "%s %s and %s %s differ by capital and small letters alone: papers and records that say one may mean the other", what, id, before.what, before.id)
	case before.what != what: // else nothing is read
		p.Report(rules.Warning, at, "", "%s %s has the name of %s %s: papers and records that say %s may mean either", what, id, before.what, id, id)
	}
}

// LaminateUnused tells of a laminate that nothing of the job is made of.
var LaminateUnused = &rules.Rule{
	ID: "laminate-unused", Family: family, Title: "A laminate is laid nowhere",
	Why: "A laminate is judged for the part, joint or nozzle that names it. One that nothing names no rule looks at, no takeoff counts and no lay-up sheet holds, however well it stands in the document. " +
		"Often the strap or pad that it was written for lacks the line that names it.",
	Severity: []rules.Severity{rules.Warning},
	When:     "a laminate has plies, and no part, joint or nozzle names it",
	Basis:    "the program's own check",
	Job: func(p *rules.JobPass) {
		named := make(map[string]bool, len(p.Job.Laminates))
		for i := range p.Job.Parts {
			named[p.Job.Parts[i].Laminate] = true
		}
		for _, o := range p.Overlays() {
			named[o.Laminate] = true
		}
		for i := range p.Job.Laminates {
			if x := &p.Job.Laminates[i]; len(x.Plies) > 0 && !named[x.ID] {
				p.Report(rules.Warning, laminate.Ref{Kind: laminate.RefLaminate, Index: i, Key: "id"}, "", "no part, joint or nozzle names laminate %s: nothing is laid by it, and no rule looks at it", x.ID)
			}
		}
	},
}
