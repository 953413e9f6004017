// Package others owns the rules about what a job takes from others: what they proved of
// a part, joint or nozzle that no formula here figures, whether it reaches all that the
// thing has to bear, and what it answers for. It settles what the rules before it could
// not figure, and is the one place that does.
package others

import (
	"cmp"
	"slices"
	"strings"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/others"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/wall"
	"frp/veilwright/laminate/wall/form"
	"frp/veilwright/laminate/word"
	"frp/veilwright/rules"
	"frp/veilwright/rules/joint/statics"
)

const family = "others"

// Rules lists the family. It stands last among all: the second takes away what the rules
// before it found, and the others go by that.
func Rules() []*rules.Rule {
	return []*rules.Rule{ProofShort, RestsOnOthers, ProofUnused}
}

// ProofShort holds what others proved against what the thing has to bear.
var ProofShort = &rules.Rule{
	ID: "proof-short", Family: family, Title: "What others proved does not reach what is borne",
	Why: "A calculation or a test shows that a thing holds under the pressure, the vacuum and the temperature that it was made for, with the laminate that it was made of. " +
		"Beyond one of them, or with less laid, nobody has shown anything: what no formula here figures then rests on nothing.",
	Severity: []rules.Severity{rules.Break, rules.Incomplete},
	When: "of a part, joint or nozzle that no formula here figures, what it bears in service, under a condition or in the test is above what was proved, or its structure is thinner than proved (all bounds are within): break; " +
		"one of the figures is borne and not stated, or hardly meant (a pressure above ten times what is borne and above 150 psi, a temperature more than 50 °C above the highest heat deflection temperature of the resins, a structure below half of what is laid; all bounds are within), or they stand without anybody's name, or with one that has no number (proved_by; none, pending and the like name nobody): incomplete. No vacuum asks for none",
	Basis: "arithmetic",
	Job: func(p *rules.JobPass) {
		needed := unfigured(p)
		each(p, func(t *Thing) {
			if !needed[t.row()] {
				return
			}
			if !t.Proof.Named() {
				p.Report(rules.Incomplete, t.at("proved_by"), "", "%s: %s", t.Name, nobody(t.Proof))
				return
			}
			for i := range t.Checks {
				c := &t.Checks[i]
				switch said := c.Says(p.Units); {
				case said == "":
				case c.Missing != "":
					p.Report(rules.Incomplete, t.at(c.Key), "", "%s: the proof, %s, does not reach: %s", t.Name, t.by(), said)
				default:
					p.Report(rules.Break, t.at(c.Key), "", "%s: the proof, %s, does not reach: %s", t.Name, t.by(), said)
				}
			}
		})
	},
}

// nobody says of a proof that is not named what is the matter with that.
func nobody(proof *others.Proof) string {
	switch stated, there := word.Answered(proof.By); {
	case there:
		return `"` + word.Clean(proof.By) + `" names no calculation or test by its number (proved_by)`
	case proof.Figured():
		return "figures of a proof are stated without anybody's name (proved_by)"
	case stated:
		return "what shows it is still open: the document says that there is no proof by others (proved_by)"
	}
	return "what shows it is still open: whose calculation or test does is not stated yet (proved_by)"
}

// RestsOnOthers takes away what others answer for, and says what rests on them.
var RestsOnOthers = &rules.Rule{
	ID: "rests-on-others", Family: family, Title: "An answer rests on others, and nothing here judged it",
	Why: "What no formula here figures may be shown by an engineer's calculation, by a code that has to be bought, or by a test. Then the answer is theirs: that it is sound, that it is of this revision and covers what this program would have said is for whoever signs. " +
		"Here its figures alone are held against what the thing bears, and of its laminate the thickness of the structure alone: not which plies that is of, nor how part and pad share it.",
	Severity: []rules.Severity{rules.Note},
	When:     "a part, joint or nozzle that no formula here figures names whose calculation or test shows it (proved_by), and what that proved reaches all that the thing bears",
	Basis:    "the program's own check",
	Job: func(p *rules.JobPass) {
		settled := map[laminate.Ref][]string{}    // what a proof has to cover, by row
		reach := map[laminate.Ref]*others.Proof{} // those that reach
		each(p, func(t *Thing) {
			if t.Proof.Named() && !t.open && others.Reach(t.Checks) {
				reach[t.row()] = t.Proof
				if t.rests {
					settled[t.row()] = append(settled[t.row()], "its form ("+t.why+")")
				}
				if t.rests && form.Stepped(&p.Parts[t.Ref.Index].Schedule.Part) {
					settled[t.row()] = append(settled[t.row()], "a person who steps on it")
				}
			}
		})
		p.Settle(func(f *rules.Finding) bool {
			one := reach[row(f.At)]
			if one == nil {
				return false
			}
			for _, at := range f.Also { // of several rows it is one proof of all of them
				if other := reach[row(at)]; other == nil || !one.Same(other) {
					return false
				}
			}
			for _, at := range append([]laminate.Ref{f.At}, f.Also...) {
				if of := settled[row(at)]; !slices.Contains(of, f.Covers) {
					settled[row(at)] = append(of, f.Covers)
				}
			}
			return true
		})
		each(p, func(t *Thing) {
			if covers := settled[t.row()]; covers != nil {
				p.Report(rules.Note, t.at("proved_by"), "", "%s rests on %s, which nothing here judged: that has to cover %s", t.Name, t.by(), strings.Join(covers, "; "))
			}
		})
	},
}

// ProofUnused says of a proof that it changes nothing.
var ProofUnused = &rules.Rule{
	ID: "proof-unused", Family: family, Title: "A proof is stated, and nothing rests on it",
	Why: "Where formulas here figure a thing their figures govern, whatever anybody else proved of it. " +
		"A proof that stands there all the same is of use to whoever reviews the job, and decides nothing.",
	Severity: []rules.Severity{rules.Note},
	When:     "a part, joint or nozzle states what others proved of it, and nothing was found of it that no formula here figures",
	Basis:    "the program's own check",
	Job: func(p *rules.JobPass) {
		needed := unfigured(p)
		each(p, func(t *Thing) {
			if !needed[t.row()] {
				p.Report(rules.Note, t.at("proved_by"), "", "%s: %s", t.Name, unused(t.Proof))
			}
		})
	},
}

// unused says that a proof is not used; of what nobody is named for it does not say that
// others proved it.
func unused(proof *others.Proof) string {
	const governs = ": what is judged of it is figured here, and those figures govern"
	switch {
	case proof.Named():
		return "what others proved of it is not used" + governs
	case proof.Figured():
		return "figures of a proof are stated without the number of a calculation or test (proved_by), and not used" + governs
	}
	return "no proof of others is asked for (proved_by): what is judged of it is figured here"
}

// unfigured are the rows of a job of which something is figured by no formula here,
// settled or not.
func unfigured(p *rules.JobPass) map[laminate.Ref]bool {
	rows := map[laminate.Ref]bool{}
	for i := range p.Parts {
		if w := p.Parts[i].Wall; w != nil && (w.FormOpen != "" || w.Rests != "") {
			rows[laminate.JobPartRef(i, "")] = true
		}
	}
	p.Unsettled(func(f *rules.Finding) {
		rows[row(f.At)] = true
		for _, at := range f.Also {
			rows[row(at)] = true
		}
	})
	return rows
}

func row(at laminate.Ref) laminate.Ref { return laminate.Ref{Kind: at.Kind, Index: at.Index} }

// Thing is a part, joint or nozzle of which a proof is stated.
type Thing struct {
	Ref    laminate.Ref
	Name   string
	Proof  *others.Proof
	Checks []others.Check // of all that it has to bear

	rests bool   // a part whose form no formula here figures, whose wall has them too
	open  bool   // such a one that the wall calls open, since its proof does not reach
	why   string // no formula does
}

func (t *Thing) row() laminate.Ref { return row(t.Ref) }

func (t *Thing) by() string { return word.Clean(t.Proof.By) }

func (t *Thing) at(key string) laminate.Ref {
	at := t.Ref
	at.Key = key
	return at
}

const inTest = " in the test"

// each goes through what states a proof.
func each(p *rules.JobPass, look func(*Thing)) {
	for i := range p.Job.Parts {
		if x := &p.Job.Parts[i]; x.Proof.Stated() {
			look(part(p, i))
		}
	}
	statics.EachJoint(func(p *rules.JobPass, x *statics.Joined) {
		if x.Proof.Stated() {
			look(joint(p, x))
		}
	})(p)
	statics.EachNozzle(func(p *rules.JobPass, x *statics.Opening) {
		if x.Proof.Stated() {
			look(nozzle(p, x))
		}
	})(p)
}

// Held is the evaluation of the wall of a part, with what was found of its job: where what
// others proved reaches the service and not the test, no criterion of it holds as they
// proved, and each that does not is in the notes.
func Held(of *wall.Result, part int, found []rules.Finding) *wall.Result {
	for i := range found {
		f := &found[i]
		if of == nil || f.Rule != ProofShort || row(f.At) != laminate.JobPartRef(part, "") {
			continue
		}
		short := *of
		short.Criteria, short.Notes, of = slices.Clone(of.Criteria), append(slices.Clone(of.Notes), f.Message), &short
		name := strings.ReplaceAll(f.At.Key, "_", "-")
		c := wall.Criterion{Name: name, Basis: f.Basis} // nothing of it in service
		if k := slices.IndexFunc(short.Criteria, func(c wall.Criterion) bool { return c.Name == name }); k >= 0 {
			c = short.Criteria[k]
			short.Criteria = slices.Delete(short.Criteria, k, k+1)
		}
		if c.Answer != wall.Fails && c.Answer != wall.Incomplete {
			if c.Answer, c.Reason, c.Governs = wall.Fails, f.Message, true; f.Severity == rules.Incomplete {
				c.Answer = wall.Incomplete
			}
		}
		short.Criteria = slices.Insert(short.Criteria, 0, c) // findings stand worst first, and so do criteria
		slices.SortStableFunc(short.Criteria, func(a, b wall.Criterion) int { return cmp.Compare(rank(&a), rank(&b)) })
	}
	return of
}

// rank orders criteria as they decide: what fails, what cannot be determined, the rest.
func rank(c *wall.Criterion) int {
	switch {
	case c.Governs && c.Answer == wall.Fails:
		return 0
	case c.Governs && c.Answer == wall.Incomplete:
		return 1
	}
	return 2
}

// Of is what rests on others of a row of a job that is judged: its proof against what it
// bears. Not ok where nothing does.
func Of(r *rules.JobReport, lib *laminate.Library, u quantity.System, at laminate.Ref) (t *Thing, ok bool) {
	if !slices.ContainsFunc(r.Findings, func(f rules.Finding) bool { return f.Rule == RestsOnOthers && row(f.At) == row(at) }) {
		return nil, false
	}
	p := &rules.JobPass{Assembly: r.Job.Assemble(), Library: lib, Units: u, Parts: r.Parts}
	each(p, func(x *Thing) {
		if x.row() == row(at) {
			t = x
		}
	})
	return t, t != nil
}

func part(p *rules.JobPass, i int) *Thing {
	x, w := &p.Job.Parts[i], p.Parts[i].Wall
	t := &Thing{Ref: laminate.JobPartRef(i, ""), Name: "part " + x.ID, Proof: &x.Proof}
	if w != nil {
		t.rests, t.open, t.why = w.Rests != "", w.FormOpen != "", w.Rests
	}
	b := borne(p, func(by statics.Pressing) (float64, string) { return by.At(p, i, 0) }, i)
	s := statics.StackOf(p.Parts[i].Analysis)
	b.Structure.Take(s.Structure, "", unknown(s.Known, "a thickness of its wall is not known"))
	b.Softens = form.Softens(p.Library, p.Parts[i].Analysis)
	t.Checks = t.Proof.Checks(b)
	return t
}

func joint(p *rules.JobPass, x *statics.Joined) *Thing {
	t := &Thing{Ref: x.At(""), Name: "joint " + x.ID, Proof: &x.Joint.Proof}
	b := borne(p, func(by statics.Pressing) (float64, string) { return x.Pressed(p, by) }, x.Parts[:]...)
	b.Softens = form.Softens(p.Library, p.Analysis(x.Outside), p.Analysis(x.Inside))
	if a := p.Analysis(x.Outside); a == nil {
		b.Structure.Take(0, "", "no laminate is named for its outside (outside)")
	} else {
		s := statics.StackOf(a)
		b.Structure.Take(s.Structure, "", unknown(s.Known, "a thickness of laminate "+x.Outside+" is not known"))
	}
	t.Checks = t.Proof.Checks(b)
	return t
}

// nozzle has the structure of its part and its pad together carry round its opening: their
// sum is held against what was proved, so that more of the one makes up for less of the
// other. How it is shared, and which plies it is of, is for whoever proved it.
func nozzle(p *rules.JobPass, x *statics.Opening) *Thing {
	t := &Thing{Ref: x.At(""), Name: "nozzle " + x.ID, Proof: &x.Nozzle.Proof}
	b := borne(p, func(by statics.Pressing) (float64, string) {
		if !x.Height.Given() && p.Job.Parts[x.Part].Form == laminate.ShellCourse {
			return 0, "its height is not stated (height)"
		}
		return by.At(p, x.Part, x.Foot(p))
	}, x.Part)
	s := statics.StackOf(p.Parts[x.Part].Analysis)
	together, missing := s.Structure, unknown(s.Known, "a thickness of part "+x.On+" is not known")
	if a := p.Analysis(x.Pad); a != nil {
		pad := statics.StackOf(a)
		together, missing = together+pad.Structure, cmp.Or(missing, unknown(pad.Known, "a thickness of laminate "+x.Pad+" is not known"))
	}
	b.Structure.Take(together, "", missing)
	b.Softens = form.Softens(p.Library, p.Parts[x.Part].Analysis, p.Analysis(x.Pad))
	t.Checks = t.Proof.Checks(b)
	return t
}

func unknown(known bool, why string) string {
	if known {
		return ""
	}
	return why
}

// borne is the most that comes to a place of parts in their service, under each of their
// conditions and in the test, its structure apart; pressed is the pressure there.
func borne(p *rules.JobPass, pressed func(statics.Pressing) (float64, string), parts ...int) (b others.Borne) {
	for _, u := range statics.States(p, parts...) {
		when := ""
		if u != "" {
			when = " under " + string(u)
		}
		pa, missing := pressed(u.Pressing())
		b.Pressure.Take(pa, when, missing)
		for _, i := range parts {
			s := &u.Schedule(p, i).Service
			b.Vacuum.Take(s.Vacuum.SI(), when, unknown(s.Vacuum.Given(), "the vacuum is not stated (vacuum; zero says that there is none)"))
			b.Temperature.Take(s.Hottest().SI(), when, "")
		}
	}
	if test := &p.Job.Test; statics.Tested(p) {
		pa, missing := pressed(statics.InTest)
		b.Pressure.Take(pa, inTest, missing)
		b.Vacuum.Take(test.Vacuum.SI(), inTest, "")
		b.Temperature.Take(test.Temperature.SI(), inTest, "")
	}
	return b
}
