package records

import (
	"cmp"
	"path/filepath"
	"slices"
	"strconv"
	"strings"

	"frp/veilwright/laminate/record"
	"frp/veilwright/schedules"
	"frp/veilwright/schedules/recorder"
	"frp/veilwright/schedules/shop"
	"frp/veilwright/tui/internal/draw"
	"frp/veilwright/tui/internal/page"
)

// unshelved opens what rests on no shop book.
var unshelved *shop.Shop

// ChooseSpecification takes the one specification beside the schedule, or opens
// the choice where there are several, or that one is taken already.
func (c *Case) ChooseSpecification(open func(page.Overlay)) {
	f := &page.Files{Head: "which specification?", None: "no specification lies here: veilwright new --kind specification spec.toml makes one with every key"}
	f.Look = func(name string, text []byte) (page.Item, bool) {
		o := unshelved.Open(name, text, "")
		s := o.Specification
		if s == nil {
			return page.Item{Why: o.Why()}, o.Kind == schedules.Specification
		}
		return page.Item{Note: strings.TrimSpace(s.Number + " " + s.Title)}, true
	}
	f.Take = func(path string, _ int) error {
		if err := c.OpenSpecification(path); err != nil {
			return err
		}
		c.desk.Say("compared with " + filepath.Base(path))
		return nil
	}
	list := f.List(c.desk, c.folder())
	if _, taken := c.Specification(); taken == "" {
		if only := f.Only(); only != "" {
			if err := f.Take(only, 0); err != nil {
				c.desk.Refuse(err.Error())
			}
			return
		}
	}
	open(list)
}

// ChooseRecord is the choice of a record's file, or of beginning one, which
// open opens. First come those of what is laid up and inspected that Enter goes on with
// rather than begin anew: those that are not finished, to inspect the last one where
// none is.
func (c *Case) ChooseRecord(open func(page.Overlay), layup bool) page.Overlay {
	of := "the schedule on the desk"
	if what := c.What(); what != "" {
		of = what
	}
	c.beside = beside{}
	lying := c.Lying()
	begun := c.Unfinished()
	if len(begun) == 0 && !layup {
		begun = lying[:min(len(lying), 1)]
	}
	f := &page.Files{Head: "which record?"}
	for i := range begun {
		b := &begun[i]
		f.First = append(f.First, page.Item{Name: filepath.Base(b.Path), Note: about(b.Record, b.Torn), Word: cmp.Or(b.Over, "go on"), Look: c.desk.Theme.Good})
	}
	f.First = append(f.First, page.Item{Name: "start a new record", Note: "of " + of, Why: c.cannotBegin()})
	f.Look = func(name string, text []byte) (page.Item, bool) {
		if slices.ContainsFunc(begun, func(b recorder.Beside) bool { return b.Path == name }) {
			return page.Item{}, false
		}
		o := unshelved.Open(name, text, "")
		r := o.Record
		if r == nil {
			return page.Item{Why: o.Why()}, o.Kind == schedules.Record
		}
		e := page.Item{Note: about(r, o.Torn), Word: "another schedule", Look: c.desk.Theme.Warning}
		switch other := c.ofAnother(r); {
		case c.isOf(r) && other == "":
			e.Word, e.Look = "this schedule", c.desk.Theme.Good
			for i := range lying {
				if lying[i].Path == name {
					e.Word = cmp.Or(lying[i].Over, e.Word)
				}
			}
		case other != "" && r.Schedule == filepath.Base(c.desk.Doc.Path()):
			e.Word, e.Look = "of "+draw.Clean(other), c.desk.Theme.Dim
		}
		return e, true
	}
	f.Take = func(path string, first int) error {
		switch {
		case path == "" && first < len(begun):
			path = begun[first].Path
		case path == "":
			open(c.begin())
			return nil
		}
		if err := c.Open(path); err != nil {
			return err
		}
		c.said("opened " + filepath.Base(path))
		return nil
	}
	return f.List(c.desk, c.folder())
}

// about says of what a record is and how much stands in it.
func about(r *record.Record, torn string) string {
	n := len(r.Entries())
	s := strconv.Itoa(n) + " entries"
	if n == 1 {
		s = "1 entry"
	}
	if serial := r.SerialNumber(); serial != "" {
		s = "serial " + serial + ", " + s
	}
	if what := r.What(); what != "" {
		s = what + ", " + s
	}
	if torn != "" {
		s += " · last entry half-written"
	}
	return s
}
