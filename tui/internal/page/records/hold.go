package records

import (
	"errors"
	"fmt"
	"path/filepath"
	"slices"
	"strings"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/record"
	"frp/veilwright/laminate/spec"
	"frp/veilwright/rules/acceptance/holdpoint"
	"frp/veilwright/schedules"
	"frp/veilwright/schedules/paper/forms"
	"frp/veilwright/tui/internal/page"
)

// inForce is the specification whose hold points stop lay-up: the one chosen, else of
// those beside the document the one that the record was decided by, or the only one.
// Nobody may have chosen one and the point be there all the same. unknown says why it
// is not known which points there are, where there may be some.
func (c *Case) inForce() (d *spec.Specification, file, unknown string) {
	if d, path := c.files.Specification(); d != nil {
		return d, filepath.Base(path), ""
	}
	if c.desk.Doc.Path() == "" {
		return nil, "", ""
	}
	signed, held := "", false
	if r := c.files.Record(); r != nil {
		for i := range r.Now().Decisions {
			if x := &r.Now().Decisions[i]; !x.Struck {
				signed = x.Specification
			}
		}
		held = slices.ContainsFunc(r.Now().Holds, func(h record.Hold) bool { return !h.Struck })
	}
	list := c.demands.In(c.folder())
	points, wrong := 0, ""
	for i := range list {
		switch x := &list[i]; {
		case x.Specification == nil:
			wrong = filepath.Base(x.Path) + " cannot be used: " + x.Why
		case signed != "" && strings.EqualFold(signed, schedules.SpecificationFingerprint(x.Specification, c.desk.Doc.Levels())):
			return x.Specification, filepath.Base(x.Path), ""
		default:
			points += len(x.Specification.Inspection.Holds)
		}
	}
	switch {
	case len(list) == 1 && wrong == "":
		return list[0].Specification, filepath.Base(list[0].Path), ""
	case wrong != "":
		unknown = "hold points are not known: " + wrong
	case points > 0:
		unknown = fmt.Sprintf("which hold points there are is not known: %d specifications lie here and none is chosen", len(list))
	case len(list) == 0 && (held || signed != ""):
		unknown = "hold points are not known: the record was held against a specification, and none lies here"
	}
	return nil, "", unknown
}

// Hold has a paper stop at the hold points of that specification, or say why it is not
// known which there are.
func (c *Case) Hold(of *forms.Subject) {
	d, file, unknown := c.inForce()
	if of.Unheld = unknown; d != nil {
		of.Hold(d, file)
	}
}

// Holding are the hold points that a ply may not be laid past as things stand, and
// the file of the specification that has them; unknown says why it is not known
// whether there are some.
func (c *Case) Holding(ply int) (list []spec.Hold, file, unknown string) {
	r := c.files.Record()
	if r == nil || c.Overlay() != nil {
		return nil, "", ""
	}
	d, file, unknown := c.inForce()
	return holdpoint.Holding(d, c.Report(), r.Now(), ply), file, unknown
}

const passed, notPassed = "passed", "not passed"

// HoldText is the entry of a hold point in a few words.
func HoldText(h *record.Hold) string {
	is := notPassed
	if h.Passed.Value {
		is = passed
	}
	return "hold point " + h.Point + ": " + is
}

// HoldPoint is the lines on which it is entered that a hold or witness point was come
// to, and what makes the entry of them. Nobody passes one without a name, nor as the
// witness of what he enters himself: where the specification requires a witness, that
// one is named, and what the witness is has a digit of its own.
func (c *Case) HoldPoint(of, who string) (fields []*page.Field, read func() (*record.Hold, error)) {
	point := &page.Field{Label: "point", Text: of, Hint: "as the specification calls it"}
	witness := &page.Field{Label: "witness", Text: who, Hint: "name"}
	as := &page.Field{Label: "witness is", Choices: Roles()}
	demands, _, _ := c.inForce()
	required := func() string { return "" }
	if demands != nil {
		holds := demands.Inspection.Holds
		for i := range holds {
			point.Choices = append(point.Choices, holds[i].Point)
			if w := strings.TrimSpace(holds[i].Witness); w != "" && !slices.ContainsFunc(as.Choices, func(r string) bool { return strings.EqualFold(r, w) }) {
				as.Choices = append(as.Choices, w)
			}
		}
		required = func() string {
			for i := range holds {
				if strings.EqualFold(strings.TrimSpace(holds[i].Point), strings.TrimSpace(point.Text)) {
					return strings.TrimSpace(holds[i].Witness)
				}
			}
			return ""
		}
	}
	if w := required(); w != "" {
		witness.Hint = "name of the " + w
	}
	is, remark := &page.Field{Label: "passed", Choices: []string{passed, notPassed}}, &page.Field{Label: "remark"}
	return []*page.Field{point, is, witness, as, remark}, func() (*record.Hold, error) {
		h := &record.Hold{Entry: c.By(), Point: strings.TrimSpace(point.Text), Witness: strings.TrimSpace(witness.Text), Remark: strings.TrimSpace(remark.Text)}
		switch {
		case h.Point == "":
			return h, errors.New("point: which one?")
		case is.Text == "":
			return h, errors.New("passed: 1 passed, 2 not passed")
		}
		h.Passed = laminate.Some(is.Text == passed)
		w := required()
		if h.Passed.Value && w != "" && (h.Witness == "" || strings.EqualFold(h.Witness, w)) {
			return h, fmt.Errorf("witness: the specification requires the %s there: who was it, by name?", w)
		}
		if err := c.OwnWitness(witness, w); err != nil {
			return h, err
		}
		if h.Witness != "" && as.Text != "" && !strings.Contains(strings.ToLower(h.Witness), strings.ToLower(as.Text)) {
			h.Witness += ", " + as.Text
		}
		if h.Passed.Value && holdpoint.Unwitnessed(&h.Entry, h.Witness, w) != "" {
			return h, fmt.Errorf("witness is: the specification requires the %s there, and no other", w)
		}
		return h, nil
	}
}

// OwnWitness is an error where somebody is named as the witness of what he enters
// himself, unless he enters it as what the witness has to be.
func (c *Case) OwnWitness(witness *page.Field, required string) error {
	if by := c.By(); holdpoint.OwnWitness(&by, witness.Text, required) {
		return fmt.Errorf("witness: %s enters this, and is no witness of it: who else was there?", by.Who)
	}
	return nil
}
