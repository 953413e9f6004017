package practice

import (
	"cmp"
	"errors"
	"fmt"
	"slices"
	"strconv"
	"strings"
	"time"

	"frp/veilwright/laminate/exercise"
)

// Day is a date without a time of day, counted from 1 January 1970.
type Day int

// DayOf is the date that a clock shows.
func DayOf(t time.Time) Day {
	y, m, d := t.Date()
	return Day(time.Date(y, m, d, 0, 0, 0, 0, time.UTC).Unix() / (24 * 60 * 60))
}

// String reads "2026-03-02".
func (d Day) String() string { return time.Unix(int64(d)*24*60*60, 0).UTC().Format(time.DateOnly) }

// ParseDay reads "2026-03-02".
func ParseDay(s string) (Day, error) {
	t, err := time.Parse(time.DateOnly, s)
	if err != nil {
		return 0, errors.New("a date such as 2026-03-02 is expected")
	}
	return DayOf(t), nil
}

// Entry is one exercise marked.
type Entry struct {
	Day      Day
	Exercise string // id
	Step     int
	Score    float64 // 0 to 1
	Hints    int
}

// String is the entry as one line of a progress file: date, exercise, step,
// score, hints.
func (e Entry) String() string {
	return fmt.Sprintf("%s %s step=%d score=%s hints=%d", e.Day, e.Exercise, e.Step, strconv.FormatFloat(e.Score, 'f', -1, 64), e.Hints)
}

// ParseEntry reads a line that String wrote.
func ParseEntry(line string) (Entry, error) {
	words := strings.Fields(line)
	if len(words) != 5 {
		return Entry{}, errors.New("a date, an exercise, step=, score= and hints= are expected")
	}
	day, err := ParseDay(words[0])
	if err != nil {
		return Entry{}, err
	}
	e := Entry{Day: day, Exercise: words[1]}
	if strings.Trim(e.Exercise, "abcdefghijklmnopqrstuvwxyz0123456789-") != "" || len(e.Exercise) > 60 {
		return Entry{}, errors.New("the exercise is not an id")
	}
	figure := func(word, key string, most float64) (float64, error) {
		text, ok := strings.CutPrefix(word, key+"=")
		v, err := strconv.ParseFloat(text, 64)
		if !ok || err != nil || !(v >= 0 && v <= most) {
			return 0, fmt.Errorf("%s= and a number from 0 to %v are expected", key, most)
		}
		return v, nil
	}
	step, err1 := figure(words[2], "step", exercise.Steps)
	score, err2 := figure(words[3], "score", 1)
	hints, err3 := figure(words[4], "hints", exercise.MostHints)
	if err := errors.Join(err1, err2, err3); err != nil {
		return Entry{}, err
	}
	e.Step, e.Score, e.Hints = int(step), score, int(hints)
	return e, nil
}

// Progress is what one person did, oldest first.
type Progress struct{ Entries []Entry }

// wait is after how many days an exercise comes back that was passed so many
// days running: a simple box system after Leitner (from memory). What was
// missed is due at once.
var wait = []Day{1, 1, 3, 7, 21, 60}

// Standing is where a person stands with one exercise.
type Standing struct {
	Tries             int
	First, Last, Best float64
	Box               int // how many days running it was passed, missed = 0
	On, Due           Day
}

// Missed tells whether the last try did not pass.
func (s Standing) Missed() bool { return s.Tries > 0 && s.Last < Passed }

// Of gives the standing with an exercise.
func (p Progress) Of(id string) Standing {
	var s Standing
	for i := range p.Entries {
		e := &p.Entries[i]
		if e.Exercise != id {
			continue
		}
		again := s.Tries > 0 && e.Day <= s.On
		if s.Tries == 0 {
			s.First = e.Score
		}
		s.Tries++
		s.Last, s.Best = e.Score, max(s.Best, e.Score)
		s.On = max(s.On, e.Day)
		switch {
		case e.Score < Passed:
			s.Box, s.Due = 0, s.On
		case again: // right once the answer was seen is not yet known
			s.Due = max(s.Due, s.On+1)
		default:
			s.Box = min(s.Box+1, len(wait)-1)
			s.Due = s.On + wait[s.Box]
		}
	}
	return s
}

// NextOf picks what to go on with after an exercise: of its step the next in the
// order of the list, and round, that is new, was missed or is due again. Nil where
// every other exercise of the step is passed.
func NextOf(p Progress, list []*exercise.Exercise, after *exercise.Exercise, today Day) *exercise.Exercise {
	var step []*exercise.Exercise
	from := 0
	for _, e := range list {
		if e.Step != after.Step {
			continue
		}
		if e.ID == after.ID {
			from = len(step)
			continue
		}
		step = append(step, e)
	}
	for i := range step {
		e := step[(from+i)%len(step)]
		if s := p.Of(e.ID); s.Tries == 0 || s.Missed() || s.Due <= today {
			return e
		}
	}
	return nil
}

// Next picks what to do today: first what is due again, longest due first,
// though not what was done just now; then what is new, in the order of the
// course; then what falls due soonest. Nil where there is no exercise.
func Next(p Progress, list []*exercise.Exercise, today Day) *exercise.Exercise {
	last := ""
	if n := len(p.Entries); n > 0 {
		last = p.Entries[n-1].Exercise
	}
	type place struct {
		rank, order int
		due         Day
		e           *exercise.Exercise
	}
	var places []place
	for i, e := range list {
		s := p.Of(e.ID)
		at := place{rank: 2, order: i, due: s.Due, e: e}
		switch {
		case s.Tries == 0:
			at.rank, at.order, at.due = 1, e.Step*len(list)+i, 0
		case s.Due <= today:
			at.rank = 0
		}
		if e.ID == last {
			at.rank = 3
		}
		places = append(places, at)
	}
	if len(places) == 0 {
		return nil
	}
	return slices.MinFunc(places, func(a, b place) int {
		return cmp.Or(cmp.Compare(a.rank, b.rank), cmp.Compare(a.due, b.due), cmp.Compare(a.order, b.order))
	}).e
}
