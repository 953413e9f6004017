package advice

import (
	"slices"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/catalog"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/word"
)

// Suits says how well an option suits, better before worse.
type Suits uint8

// The answers. Neither of the first two raises a break, an incomplete or a
// warning in a check by itself.
const (
	Usual       Suits = iota // what practice itself takes for this service
	Suitable                 // nothing speaks against it
	Conditional              // a person has to decide
	Unknown                  // cannot be determined: a fact is missing
	Unsuitable               // not to be built
)

var grades = word.Of[Suits]("usual", "suitable", "conditional", "unknown", "unsuitable")

func (s Suits) String() string { return grades.Name(s) }

// Reason is one thing that speaks for or against an option, or about it.
type Reason struct {
	Text  string
	Basis string
}

// Option is one veil, resin family or build.
type Option struct {
	ID      string // material id, family word, or build
	Suits   Suits
	Reasons []Reason // at least one; what makes the answer stands first
}

// Advice is what suits a service and part. Lists stand in the library's order,
// best answers not first: a table keeps its rows where they were.
type Advice struct {
	Veils, Resins, Builds []Option
	// Conflicts are requirements that exclude each other, and the usual answers.
	Conflicts []Reason
	// Notes are what holds for every option: facts not stated, what to confirm.
	Notes []Reason
	// Ratings are the rows of the shop books that matched the service.
	Ratings []laminate.Rating
	Books   []string
}

// Options of an axis by id, nil where there is none.
func find(list []Option, id string) *Option {
	for i := range list {
		if list[i].ID == id {
			return &list[i]
		}
	}
	return nil
}

// Veil finds a veil's answer by material id.
func (a *Advice) Veil(id string) *Option { return find(a.Veils, id) }

// Resin finds a family's answer.
func (a *Advice) Resin(f laminate.Family) *Option { return find(a.Resins, f.String()) }

// Build finds a build's answer.
func (a *Advice) Build(id string) *Option { return find(a.Builds, id) }

// Worst is the least bad answer of each axis, the worst of the three: what the
// best that can be had comes to.
func (a *Advice) Worst() Suits {
	return max(best(a.Veils), best(a.Resins), best(a.Builds))
}

// best is the best answer of a list, Unsuitable for an empty one.
func best(list []Option) Suits {
	b := Unsuitable
	for i := range list {
		b = min(b, list[i].Suits)
	}
	return b
}

// withAnswer lists the ids that have an answer.
func withAnswer(list []Option, s Suits) []string {
	var ids []string
	for i := range list {
		if list[i].Suits == s {
			ids = append(ids, list[i].ID)
		}
	}
	return ids
}

// suiting lists the ids that a wall may be built with: what is usual or
// suitable, else what has the best answer there is.
func suiting(list []Option) []string {
	worst := max(best(list), Suitable)
	var ids []string
	for i := range list {
		if list[i].Suits <= worst {
			ids = append(ids, list[i].ID)
		}
	}
	return ids
}

// nothingAgainst is the first reason of every suitable option.
const nothingAgainst = "nothing in this service speaks against it"

// graded puts the reason for a good answer first: why practice takes the option
// (usual, empty where it does not), which makes a suitable one usual, or that
// nothing speaks against it. Where facts are missing it says what is usual last.
func (o *Option) graded(usual Reason, byRules string) {
	if o.Suits == Unknown && usual.Text != "" {
		o.Reasons = append(o.Reasons, usual)
	}
	if o.Suits != Suitable {
		return
	}
	first := Reason{nothingAgainst, byRules}
	if usual.Text != "" {
		o.Suits, first = Usual, usual
	}
	o.Reasons = append([]Reason{first}, slices.DeleteFunc(o.Reasons, func(r Reason) bool { return r == first })...)
}

// Advise tells what suits the service and part of s; plies and resins of s do
// not matter, its own materials do. lib may be nil. Texts give figures in
// units. The same input gives the same advice.
//
// Sources: those of the rules, named with each reason.
func Advise(s *laminate.Schedule, lib *laminate.Library, units quantity.System) *Advice {
	if lib == nil {
		lib = &laminate.Library{}
	}
	a := newAdvisor(s, lib, units)
	r := &Advice{Books: lib.Books}
	r.Ratings = catalog.Ratings(lib, &s.Service)
	r.Veils = a.veils()
	r.Resins = a.resins(r.Veils, r.Ratings)
	r.Builds = a.builds(r)
	r.Conflicts = a.conflicts(r)
	r.Notes = a.notes()
	return r
}
