package practice

import (
	"slices"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/exercise"
	"frp/veilwright/laminate/quantity"
)

// Stage is where a trainee stands with an exercise.
type Stage uint8

// The stages.
const (
	Answering Stage = iota
	Marked
)

// Session is one trainee at one exercise. It is a value: every step gives a
// new one and leaves the old as it was, so that a page can go back. While it is
// marked the answer stands still until Again.
type Session struct {
	exercise *exercise.Exercise
	answer   Answer
	stage    Stage
	mark     Mark
	tries    int
}

// Start begins an exercise: with what is given where a schedule answers it,
// else with nothing told. The schedule keeps no title but the exercise's.
func Start(e *exercise.Exercise) Session {
	s := Session{exercise: e}
	if e.Kind.Builds() {
		s.answer.Schedule = e.Given.Clone()
	}
	if e.Kind.Asks() {
		s.answer.Values = make([]string, len(e.Questions))
	}
	return s
}

// Exercise is the one being done.
func (s Session) Exercise() *exercise.Exercise { return s.exercise }

// Stage tells whether it is marked.
func (s Session) Stage() Stage { return s.stage }

// Tries counts how often it was marked.
func (s Session) Tries() int { return s.tries }

// Answer is what was given so far; its slices are not to be changed.
func (s Session) Answer() Answer { return s.answer }

// Mark is the last mark; ok is false while there is none to show. The
// solution stands in it, and nowhere else.
func (s Session) Mark() (m Mark, ok bool) { return s.mark, s.stage == Marked }

// Lay takes the schedule as it is now.
func (s Session) Lay(now *laminate.Schedule) Session {
	if s.stage == Answering && s.exercise.Kind.Builds() {
		s.answer.Schedule = now
	}
	return s
}

// Unchanged tells of an exercise that starts from a schedule to be changed
// whether its plies and resins are as they were given.
func (s Session) Unchanged() bool {
	now, given := s.answer.Schedule, &s.exercise.Given
	return s.exercise.Kind.Builds() && s.exercise.Kind != exercise.Order && now != nil &&
		slices.EqualFunc(now.Plies, given.Plies, func(a, b laminate.Ply) bool {
			a.Origin, b.Origin = 0, 0
			return a == b
		}) &&
		slices.EqualFunc(now.Resins, given.Resins, func(a, b laminate.Resin) bool {
			a.Origin, b.Origin = 0, 0
			return a == b
		})
}

// Unanswered counts the questions that nothing was said to.
func (s Session) Unanswered() (n int) {
	for _, text := range s.answer.Values {
		if text == "" {
			n++
		}
	}
	return n
}

// With goes on with an answer that an earlier sitting left, as far as it fits
// the exercise.
func (s Session) With(a Answer) Session {
	n := s
	n.answer.Hints = max(0, min(a.Hints, len(s.exercise.Hints)))
	if a.Schedule != nil {
		n = n.Lay(a.Schedule)
	}
	for _, ply := range a.Faults {
		n = n.Blame(ply)
	}
	n = n.Veil(a.Veil).Family(a.Family)
	for i, text := range a.Values {
		n = n.Tell(i, text)
	}
	return n
}

// Blame says that a single ply of the given schedule is at fault, or takes
// that back.
func (s Session) Blame(ply int) Session {
	if s.stage != Answering || !s.exercise.NamesPlies() || ply < 1 || ply > s.exercise.Given.NumberOfPlies() {
		return s
	}
	faults := slices.Clone(s.answer.Faults)
	if i := slices.Index(faults, ply); i >= 0 {
		faults = slices.Delete(faults, i, i+1)
	} else {
		faults = append(faults, ply)
		slices.Sort(faults)
	}
	s.answer.Faults = faults
	return s
}

// Veil names the veil of a choice by its material id.
func (s Session) Veil(id string) Session {
	if s.stage == Answering && s.exercise.Kind == exercise.Choose {
		s.answer.Veil = id
	}
	return s
}

// Family names the resin family of a choice.
func (s Session) Family(f laminate.Family) Session {
	if s.stage == Answering && s.exercise.Kind == exercise.Choose {
		s.answer.Family = f
	}
	return s
}

// Tell answers question i with a text; ReadValue says whether it can be read.
func (s Session) Tell(i int, text string) Session {
	if s.stage != Answering || i < 0 || i >= len(s.answer.Values) {
		return s
	}
	s.answer.Values = slices.Clone(s.answer.Values)
	s.answer.Values[i] = text
	return s
}

// HintsLeft tells how many hints there still are, and what the next costs, as
// a share of the full mark.
func (s Session) HintsLeft() (n int, cost float64) {
	n = len(s.exercise.Hints) - s.answer.Hints
	if n > 0 {
		cost = s.exercise.Hints[s.answer.Hints].Price()
	}
	return n, cost
}

// Hint shows the next hint; there is none left where it gives no other session.
func (s Session) Hint() Session {
	if n, _ := s.HintsLeft(); n > 0 && s.stage == Answering {
		s.answer.Hints++
	}
	return s
}

// Hints are the texts shown so far.
func (s Session) Hints() []string {
	var texts []string
	for _, h := range s.exercise.Hints[:s.answer.Hints] {
		texts = append(texts, h.Text)
	}
	return texts
}

// Submit marks the answer.
func (s Session) Submit(lib *laminate.Library, units quantity.System) Session {
	if s.stage == Marked {
		return s
	}
	s.mark, s.stage = Grade(s.exercise, s.answer, lib, units), Marked
	s.tries++
	return s
}

// Again goes on with the answer as it was marked; hints stay shown and paid.
func (s Session) Again() Session {
	s.stage = Answering
	s.mark = Mark{}
	return s
}

// Entry is what goes into the progress once it is marked.
func (s Session) Entry(today Day) (Entry, bool) {
	return Entry{Day: today, Exercise: s.exercise.ID, Step: s.exercise.Step, Score: s.mark.Score, Hints: s.answer.Hints}, s.stage == Marked
}
