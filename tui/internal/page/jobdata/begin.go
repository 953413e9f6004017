package jobdata

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/edit"
	"frp/veilwright/rules"
	"frp/veilwright/rules/advice"
	"frp/veilwright/tui/internal/draw"
	"frp/veilwright/tui/internal/page"
	"frp/veilwright/tui/internal/widget"
)

// floorOrder are the facts that decide a wall, in the order in which somebody
// tells them: what stands in it, how warm, how strong, what presses, how large.
func floorOrder(f laminate.PartForm) []string {
	list := []string{"fluid", "contains", "temperature", "pH", "concentration"}
	switch f {
	case laminate.Tank:
		list = append(list, "liquid height", "specific gravity", "pressure inside", "vacuum", "inside diameter", "length")
	case laminate.Panel:
		list = append(list, "pressure inside", "vacuum", "area")
	default:
		list = append(list, "pressure inside", "vacuum", "inside diameter", "length")
	}
	return append(list, "process")
}

// floor are the entries of floorOrder.
func floor(d *page.Desk) []entry {
	s, u := d.Doc.Now(), d.Units()
	all := slices.Concat(part(s, u), offer(d, service(s, u)))
	var list []entry
	for _, label := range floorOrder(s.Part.Form) {
		for _, e := range all {
			if e.field.Label == label {
				list = append(list, e)
			}
		}
	}
	return list
}

// Begin is the form of a new wall: the facts that decide it, in floor order, each
// of them skippable. Enter on the last line ends it: what follows from the facts
// is taken then.
func Begin(d *page.Desk, end func()) *page.Form {
	const section = "What it has to bear"
	make := func() []entry {
		list := floor(d)
		for i := range list {
			list[i].section = section
		}
		return append(list, entry{section: "Then", field: page.Field{Label: "lay", Text: laid, Choices: []string{laid, "nothing: an empty rack"}}, set: nil})
	}
	list := make()
	f := &page.Form{Head: "new wall", Full: true, Fields: fields(list), Foot: 5}
	f.Each = func(i int) error {
		if list[i].set == nil {
			return nil
		}
		if err := commit(d, list[i].set, f.Fields[i].Text); err != nil {
			return err
		}
		d.Notice.Tail = "after Esc, " + d.Undoes()
		list = make()
		f.Refill(fields(list))
		return nil
	}
	f.End = func() error {
		if f.Fields[len(f.Fields)-1].Text == laid {
			end()
		}
		return nil
	}
	f.Below = func(w, h int) []string { return decided(d, w) }
	return f
}

const laid = "the wall that follows"

// decided draws what the facts decide so far.
func decided(d *page.Desk, w int) []string {
	t := d.Theme
	a := advice.Advise(d.Doc.Now(), d.Doc.Library(), d.Units())
	lines := []string{widget.Rule(t, w, widget.Piece{Text: "decided so far", Look: t.Title})}
	for _, part := range []struct {
		label   string
		options []advice.Option
	}{{"veil", a.Veils}, {"resin", a.Resins}, {"build", a.Builds}} {
		for _, grade := range []advice.Suits{advice.Usual, advice.Suitable, advice.Conditional, advice.Unknown} {
			var names []string
			for i := range part.options {
				if part.options[i].Suits == grade {
					names = append(names, part.options[i].ID)
				}
			}
			if names != nil {
				lines = append(lines, draw.Cut(" "+t.Label.Render(draw.Left(part.label, 8))+grade.String()+": "+draw.Clean(strings.Join(names, ", ")), w))
				break
			}
		}
	}
	return append(lines, t.Dim.Render(draw.Cut(" nothing typed is not stated, and stays incomplete where it matters", w)))
}

// Proposal is the best wall that follows from the facts, as one change, and what
// it is.
func Proposal(d *page.Desk) (said string, e edit.Edit, err error) {
	list, err := advice.Propose(d.Doc.Now(), d.Doc.Library(), advice.Options{Units: d.Units(), Replace: true})
	if err != nil {
		return "", e, err
	}
	if len(list) == 0 {
		return "", e, errors.New("nothing can be proposed")
	}
	c := &list[0]
	said = fmt.Sprintf("laid the first of %s", page.Count(len(list), "proposal"))
	if n := page.Tally(c.Report)[rules.Incomplete]; n > 0 {
		said += ", " + page.Count(n, "incomplete") + " for want of facts"
	}
	return said, edit.Edit{Label: said, At: laminate.PlyRef(0, ""), Do: func(s *laminate.Schedule) (*laminate.Schedule, error) { return c.Into(s), nil }}, nil
}
