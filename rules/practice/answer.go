package practice

import (
	"errors"
	"fmt"
	"math"
	"strconv"
	"strings"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/exercise"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/word"
)

// Answer is what a trainee gives, or what the program would.
type Answer struct {
	Schedule *laminate.Schedule // build, fix, order: the whole schedule
	Faults   []int              // fix: single plies of the given schedule that are at fault, from 1
	Veil     string             // choose: a material id
	Family   laminate.Family    // choose
	Values   []string           // predict, ignition: one text a question, as typed; "" = not answered
	Hints    int                // hints that were shown
}

var errNoWord = errors.New("enter one of the words")

// ReadValue reads the answer to a question: a thickness in m, taken in the
// reader's unit where it bears none; a content as a share of 1, from "27 %",
// "27" or "0.27"; or a word.
func ReadValue(q exercise.Question, text string, units quantity.System) (figure float64, answer string, err error) {
	text = strings.TrimSpace(text)
	if r, bad := word.BadCharacter(text, false); bad {
		return 0, "", fmt.Errorf("the answer has the control character %U", r)
	}
	switch q.Ask.Answer() {
	case exercise.Thickness:
		t, err := quantity.ParseDefault(text, units.Thin())
		if err != nil {
			return 0, "", err
		}
		if t.SI() < 0 || t.SI() > 10 {
			return 0, "", errors.New("enter a thickness from 0 to 10 m")
		}
		return t.SI(), "", nil
	case exercise.Content:
		bare, percent := strings.CutSuffix(text, "%")
		v, err := strconv.ParseFloat(strings.TrimSpace(bare), 64)
		if err != nil || math.IsNaN(v) {
			return 0, "", errors.New(`enter a percentage, such as "27 %"`)
		}
		if percent || v > 1 {
			v /= 100
		}
		if v < 0 || v > 1 {
			return 0, "", errors.New("enter a percentage from 0 to 100 %")
		}
		return v, "", nil
	default: // nothing of the others
	}
	for _, w := range q.Ask.Words() {
		if strings.EqualFold(w, text) {
			return 0, w, nil
		}
	}
	return 0, "", fmt.Errorf("%w: %s", errNoWord, strings.Join(q.Ask.Words(), ", "))
}
