package cli

import (
	"fmt"

	"frp/veilwright/cmd/internal/flag"
	"frp/veilwright/laminate"
	"frp/veilwright/laminate/exercise"
	"frp/veilwright/schedules"
	"frp/veilwright/schedules/editor"
	"frp/veilwright/tui"
)

// anybody is the person of a call that names none.
const anybody = "me"

// open practices in the terminal. The document beside it is the example: what
// is laid in an exercise is no document.
func (k practiceCommand) open(c *call) error {
	var own []*exercise.Exercise
	if k.Folder != "" {
		var err error
		if own, err = c.ownExercises(k.Folder); err != nil {
			return err
		}
	}
	s := c.fresh()
	d, err := editor.FromBytes("example", schedules.Example(), s)
	if err != nil {
		return err
	}
	if c.Units != flag.UnitsAsWritten {
		d.SetUnits(c.units(&laminate.Schedule{}))
	}
	person := k.Person
	if person == anybody {
		person = ""
	}
	err = tui.Run(d, tui.Options{Theme: string(c.Theme), Shop: s, Page: tui.Practice, Person: person, Exercises: own})
	if err != nil {
		return fmt.Errorf("%w; to print or mark without one: an exercise, --list, --next, --seed, --summary, --course or --glossary, see veilwright practice --help", err)
	}
	return nil
}
