package jobdata

import (
	"errors"
	"fmt"
	"strconv"
	"strings"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/edit"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/tui/internal/page"
)

// conditions are the pairs of load and temperature, a line each, and one that
// adds another.
func conditions(s *laminate.Schedule, u quantity.System) []entry {
	const section = "Conditions"
	line := func(label, text string, i int) entry {
		f := page.Field{Label: label, Text: text, Hint: "name: temperature, pressure, vacuum, share of the modulus kept"}
		return entry{section, f, func(v string) (edit.Edit, error) {
			if strings.TrimSpace(v) == "" {
				return edit.SetCondition(i, nil), nil
			}
			var was laminate.Condition
			if i < len(s.Conditions) {
				was = s.Conditions[i]
			}
			c, err := readCondition(v, was, u)
			if err != nil {
				return edit.Edit{}, err
			}
			return edit.SetCondition(i, &c), nil
		}}
	}
	var list []entry
	for i := range s.Conditions {
		list = append(list, line("condition "+strconv.Itoa(i+1), conditionText(&s.Conditions[i]), i))
	}
	return append(list, line("another", "", len(s.Conditions)))
}

const conditionExample = "write steam-out: 230 degF, pressure 0 psi, vacuum 5 psi, keeps 60 %"

func conditionText(c *laminate.Condition) string {
	text := c.Name + ": " + c.Temperature.Text()
	if c.Pressure.Given() {
		text += ", pressure " + c.Pressure.Text()
	}
	if c.Vacuum.Given() {
		text += ", vacuum " + c.Vacuum.Text()
	}
	if c.ModulusRetention.Given {
		text += ", keeps " + strconv.FormatFloat(100*c.ModulusRetention.Value, 'g', 6, 64) + " %"
	}
	return text
}

// readCondition reads what conditionText writes; figures without a unit are in
// the reader's.
func readCondition(text string, was laminate.Condition, u quantity.System) (laminate.Condition, error) {
	name, rest, ok := strings.Cut(text, ":")
	c := laminate.Condition{Origin: was.Origin, Name: strings.TrimSpace(name)}
	if !ok || c.Name == "" {
		return c, errors.New("a condition has a name and a temperature; " + conditionExample)
	}
	for i, part := range strings.Split(rest, ",") {
		word, value, _ := strings.Cut(strings.TrimSpace(part), " ")
		value = strings.TrimSpace(value)
		var err error
		switch {
		case i == 0:
			c.Temperature, err = quantity.ParseDefault(strings.TrimSpace(part), u.Heat())
		case word == "pressure":
			c.Pressure, err = quantity.ParseDefault(value, u.Load())
		case word == "vacuum":
			c.Vacuum, err = quantity.ParseDefault(value, u.Load())
		case word == "keeps":
			c.ModulusRetention, err = page.ReadShare(value)
		default:
			return c, fmt.Errorf("%q is none of pressure, vacuum and keeps; %s", word, conditionExample)
		}
		if err != nil {
			return c, fmt.Errorf("%w; %s", err, conditionExample)
		}
	}
	return c, nil
}
