package progress

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"path/filepath"
	"slices"
	"strings"
	"time"

	"frp/veilwright/laminate"
	"frp/veilwright/rules/practice"
	"frp/veilwright/schedules"
	"frp/veilwright/schedules/store"
)

// Draft keeps a person's answer to an exercise while it is not marked, so that
// it outlasts whatever ends the program: in a recovery journal, under the
// person's and the exercise's name.
type Draft struct {
	journal *store.Journal
	left    []store.Unsaved
	start   []byte // what is not worth keeping: nothing was done yet
	answer  []byte // as it stood last
	kept    bool
}

// OpenDraft opens it; a person without a name has the name "". The error says
// why what an earlier sitting left cannot be looked for; answers can be kept
// all the same where the draft is not nil.
func OpenDraft(person, exercise string) (*Draft, error) {
	folder, err := answers(person)
	if err != nil {
		return nil, err
	}
	path := filepath.Join(folder, exercise)
	d := &Draft{journal: store.NewJournal(path)}
	d.left, err = store.PendingFor(path)
	return d, err
}

// answers is where a person's answers would lie. Nothing is ever written there:
// its paths are names for journals that no document's can be mistaken for.
func answers(person string) (string, error) {
	if person == "" {
		folder, err := store.StateFolder()
		return filepath.Join(folder, "practice", ".answers"), err
	}
	file, err := File(person)
	return strings.TrimSuffix(file, ".txt") + ".answers", err
}

// Begin says what an answer is in which nothing was done yet.
func (d *Draft) Begin(a practice.Answer) {
	if text, err := encodeAnswer(a); err == nil {
		d.start, d.answer = text, text
	}
}

// Kept tells whether an answer is kept.
func (d *Draft) Kept() bool { return d.kept }

// Left is the newest answer that an earlier sitting left, and when it was kept;
// ok is false where there is none that can be read.
func (d *Draft) Left() (a practice.Answer, when time.Time, ok bool) {
	for len(d.left) > 0 {
		if a, err := decodeAnswer(d.left[0].Bytes); err == nil {
			return a, d.left[0].Time, true
		}
		d.left = d.left[1:]
	}
	return practice.Answer{}, time.Time{}, false
}

// Forget drops what Left gave, for good: it is gone on with and kept anew, or
// not wanted.
func (d *Draft) Forget() error {
	if len(d.left) == 0 {
		return nil
	}
	u := d.left[0]
	d.left = d.left[1:]
	return u.Drop()
}

// Keep keeps the answer as it stands, in place of what was kept before. It
// outlasts a kill at once, and a power cut within a second.
func (d *Draft) Keep(a practice.Answer) error {
	text, err := encodeAnswer(a)
	if err != nil || bytes.Equal(text, d.answer) {
		return err
	}
	if bytes.Equal(text, d.start) {
		d.answer, d.kept = text, false
		return d.journal.Drop(0)
	}
	if err := d.journal.Save(text, store.Meta{Label: "an answer that is not marked"}); err != nil {
		return fmt.Errorf("the answer is not kept: %w", err)
	}
	d.answer, d.kept = text, true
	return nil
}

// Drop forgets what is kept, in this sitting and before: the answer was marked,
// and is not worth keeping until it changes.
func (d *Draft) Drop() error {
	d.start, d.kept = d.answer, false
	err := d.journal.Drop(0)
	for _, u := range d.left {
		err = errors.Join(err, u.Drop())
	}
	d.left = nil
	return err
}

// Close ends the sitting; what is kept is left for the next.
func (d *Draft) Close() error { return d.journal.Close() }

// Begun lists the exercises that a person left with an answer not marked, who
// was last first.
func Begun(person string) ([]string, error) {
	folder, err := answers(person)
	if err != nil {
		return nil, err
	}
	all, err := store.Pending()
	var ids []string
	for i := range all {
		if id := filepath.Base(all[i].Path); filepath.Dir(all[i].Path) == folder && !slices.Contains(ids, id) {
			ids = append(ids, id)
		}
	}
	return ids, err
}

// answerHead is the first line of a kept answer; a schedule stands below it as
// any other does.
type answerHead struct {
	Hints  int      `json:"hints,omitempty"`
	Faults []int    `json:"faults,omitempty"`
	Veil   string   `json:"veil,omitempty"`
	Resin  string   `json:"resin,omitempty"`
	Values []string `json:"values,omitempty"`
}

func encodeAnswer(a practice.Answer) ([]byte, error) {
	text, err := json.Marshal(answerHead{a.Hints, a.Faults, a.Veil, a.Family.String(), a.Values})
	if err != nil {
		return nil, err
	}
	text = append(text, '\n')
	if a.Schedule != nil {
		text = append(text, schedules.New(a.Schedule).Render(a.Schedule)...)
	}
	return text, nil
}

func decodeAnswer(text []byte) (practice.Answer, error) {
	line, schedule, _ := bytes.Cut(text, []byte{'\n'})
	var head answerHead
	if err := json.Unmarshal(line, &head); err != nil {
		return practice.Answer{}, err
	}
	a := practice.Answer{Hints: head.Hints, Faults: head.Faults, Veil: head.Veil, Values: head.Values}
	a.Family, _ = laminate.Families.Parse(head.Resin)
	if len(schedule) > 0 {
		// What can be shown of it is taken up: an answer is not locked away by a slip.
		_, s, problems := schedules.Decode(schedule, nil)
		if s == nil {
			return a, errors.New(problems[0].String())
		}
		a.Schedule = s
	}
	return a, nil
}
