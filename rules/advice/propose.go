package advice

import (
	"fmt"
	"slices"
	"strings"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/edit"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/wall"
	"frp/veilwright/laminate/wall/repeat"
	"frp/veilwright/rules"
	"frp/veilwright/rules/all"
)

// Options say how to propose.
type Options struct {
	Units quantity.System
	// VeilOutside asks for a veil under the coat, where the surroundings are
	// corrosive too.
	VeilOutside bool
	// Veil, Resin and Build fix a choice by its id in the advice; empty leaves it
	// to the search. What does not suit is refused all the same.
	Veil, Resin, Build string
	// Unit fixes what the structure is built up by; NoUnit leaves it to the
	// search, which puts what shops keep as their usual structure first.
	Unit repeat.Unit
	// Replace lets plies that are there already be left out; without it a
	// schedule that has plies is refused.
	Replace bool
	// Barrier is laid as it stands, in the place of a search: rows of another
	// part of the same equipment, whose resins the schedule has.
	Barrier []laminate.Ply
	// Structure are structural rows of another part: of their materials and in
	// the resin of the last one the structure is built, where it can be.
	Structure []laminate.Ply
}

// mix is the resin that the structure is given.
func (o *Options) mix() string {
	if n := len(o.Structure); n > 0 {
		return o.Structure[n-1].Resin
	}
	return ""
}

// Candidate is one whole schedule that suits.
type Candidate struct {
	Schedule *laminate.Schedule
	Report   *rules.Report
	Figures  Figures
	// Titles are what it is best at: "best", "leanest", "cheapest", … The
	// first candidate of all is the best one. Where nothing competed with it,
	// where service or load are not stated or the structure was left out, the
	// one title says that instead.
	Titles []string
	// GivesUp is what another candidate has more of.
	GivesUp []string
	// Notes are what was taken for granted, what could not be judged and why,
	// and what of the wall fails without deciding.
	Notes []string
	// Unfinished tells why the structure is the least that is built, figured for
	// no load; empty where it is figured.
	Unfinished string

	assumed *rules.Report // of the wall as it was figured: with what is assumed
}

// Figures are what candidates are weighed by.
type Figures struct {
	Breaks, Opens, Warnings int
	Plies, GelStops         int
	Standard                bool    // built up by a structural unit that shops keep
	Rings                   float64 // m apart, 0 for none
	Thickness               float64 // m, the whole wall
	Mass                    float64 // kg/m²
	MassKnown               bool
	Cost                    float64 // per m², resin and reinforcement by the given prices alone
	CostKnown               bool
	Currency                string
}

// Propose finds whole schedules for the part and service of s: barriers from
// the advice, structures from what the wall needs, an outer surface, gel stops.
// It searches over veils, resins, mats, builds and structural units; a
// candidate that another one equals or betters in every figure is dropped. The
// best one stands first; the same input gives the same candidates.
//
// What is not stated and a structure needs is assumed, noted and left
// incomplete; where nobody can assume it the structure is the least that is
// built, and Unfinished says what is missing. Errors: plies that are there already, no option
// that suits, no material to build with.
func Propose(s *laminate.Schedule, lib *laminate.Library, o Options) ([]Candidate, error) {
	if lib == nil {
		lib = &laminate.Library{}
	}
	if n := s.NumberOfPlies(); n > 0 && !o.Replace {
		return nil, fmt.Errorf("proposing a schedule: the schedule has %d plies already; a proposal needs part and service only", n)
	}
	f, err := newFinder(s, lib, o)
	if err != nil {
		return nil, err
	}
	barriers := f.barriers()
	if len(barriers) == 0 {
		return nil, &NothingSuitsError{"every barrier that the known materials allow breaks a rule" + f.because()}
	}
	f.trouble = ""
	list := f.structures(barriers)
	if len(list) == 0 {
		return nil, &NothingSuitsError{"no structure that the known materials allow holds" + f.because()}
	}
	list = leastBad(list)
	competed := len(list)
	list = undominated(list)
	entitle(list, competed, o.Units)
	return list, nil
}

// Into gives s with what the candidate lays: its plies, its resins, and where
// it holds the wall by rings, their spacing.
func (c *Candidate) Into(s *laminate.Schedule) *laminate.Schedule {
	n := s.Clone()
	n.Plies, n.Resins, n.Part.StiffenerSpacing = c.Schedule.Plies, c.Schedule.Resins, c.Schedule.Part.StiffenerSpacing
	return n
}

// proposed begins the notes of a proposal, which a later one replaces.
const proposed = "Proposed: "

// Noted gives the schedule with what has to be known of it in its notes.
func (c *Candidate) Noted() *laminate.Schedule {
	s := c.Schedule.Clone()
	lines := []string{proposed + strings.Join(c.Titles, ", ") + "."}
	if len(c.GivesUp) > 0 {
		lines = append(lines, "Trade-offs: "+strings.Join(c.GivesUp, "; ")+".")
	}
	for _, n := range c.Notes {
		if !slices.Contains(c.Titles, n) { // said above
			lines = append(lines, strings.ToUpper(n[:1])+n[1:]+".")
		}
	}
	before, _, _ := strings.Cut(s.Notes, proposed)
	s.Notes = Note(before, append(lines, wall.DesignAid))
	return s
}

// Note adds lines to the notes of a document.
func Note(notes string, lines []string) string {
	if notes = strings.TrimRight(notes, "\n"); notes != "" {
		notes += "\n"
	}
	return notes + strings.Join(lines, "\n") + "\n"
}

// newFinder begins a search among what the options leave open.
func newFinder(s *laminate.Schedule, lib *laminate.Library, o Options) (*finder, error) {
	f := &finder{advisor: newAdvisor(s, lib, o.Units), o: o}
	if _, known := s.Resin(o.mix()); len(o.Barrier) > 0 && known {
		f.advice = &Advice{} // nothing is chosen
		return f, nil
	}
	f.advice = Advise(s, lib, o.Units)
	for _, x := range []struct {
		what    string
		options *[]Option
		chosen  string
	}{{"veil", &f.advice.Veils, o.Veil}, {"resin family", &f.advice.Resins, o.Resin}, {"build", &f.advice.Builds, o.Build}} {
		if x.chosen != "" {
			one := find(*x.options, x.chosen)
			if one == nil || one.ID == NoVeil || one.ID == HeavyBuild {
				return nil, fmt.Errorf("proposing a schedule: there is no %s %q to build with; there are %s", x.what, x.chosen, ids(*x.options))
			}
			*x.options = []Option{*one}
		}
		if best(*x.options) == Unsuitable && len(o.Barrier) == 0 { // one that is given is judged as it is
			return nil, &NothingSuitsError{"no " + x.what + " is suitable for this part and service: " + why(*x.options)}
		}
	}
	return f, nil
}

// ids lists what can be chosen.
func ids(options []Option) string {
	var all []string
	for _, o := range options {
		if o.ID != NoVeil && o.ID != HeavyBuild {
			all = append(all, o.ID)
		}
	}
	return strings.Join(all, ", ")
}

// NothingSuitsError tells that no schedule can be proposed, and why.
type NothingSuitsError struct{ Why string }

func (e *NothingSuitsError) Error() string { return "proposing a schedule: " + e.Why }

// why gathers the first reason of every option.
func why(options []Option) string {
	var all []string
	for _, o := range options {
		if len(o.Reasons) > 0 && o.ID != NoVeil {
			all = append(all, o.ID+" ("+o.Reasons[0].Text+")")
		}
	}
	return strings.Join(all, "; ")
}

// finder is one search.
type finder struct {
	*advisor
	o      Options
	advice *Advice
	// trouble is the first thing that spoke against a wall.
	trouble string
}

func (f *finder) because() string {
	if f.trouble == "" {
		return ": no material to build with"
	}
	return "; first reason: " + f.trouble
}

// judge weighs a recipe with every rule, the wall held at the spacing. What it weighs is
// the wall as it was figured: with what is assumed of part and service, for a wall is the
// same whether a fact is assumed or stated; what its ends are taken for stays open.
func (f *finder) judge(r *edit.Recipe, as *held, unfinished string, notes []string) Candidate {
	c := Candidate{Unfinished: unfinished, Notes: notes}
	under := func(part laminate.Part, service laminate.Service, conditions []laminate.Condition) *rules.Report {
		s := *f.s
		s.Part, s.Service, s.Conditions = part, service, conditions
		return rules.Judge(all.Rules(), r.Build(&s, f.lib), f.lib, rules.Options{Units: f.o.Units})
	}
	stated, figured := f.s.Part, as.header
	stated.StiffenerSpacing = as.spacing
	c.Report = under(stated, f.s.Service, f.s.Conditions)
	c.Schedule = c.Report.Schedule
	c.assumed = c.Report
	if figured.Part != stated || figured.Service != f.s.Service || len(figured.Conditions) != len(f.s.Conditions) {
		c.assumed = under(figured.Part, figured.Service, figured.Conditions)
	}
	c.Figures = figures(c.assumed, f.lib)
	if part := figured.Part; as.ends {
		part.StiffenerSpacing = as.spacing
		_, c.Figures.Opens, _, _ = under(part, figured.Service, figured.Conditions).Counts()
	}
	for _, report := range []*rules.Report{c.Report, c.assumed} {
		breaks, _, _, _ := report.Counts()
		c.Figures.Breaks = max(c.Figures.Breaks, breaks)
	}
	return c
}
