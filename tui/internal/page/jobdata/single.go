package jobdata

import (
	"frp/veilwright/tui/internal/page"
)

// Service are the texts of the lines of the service, by their labels.
func Service(d *page.Desk) map[string]string {
	texts := map[string]string{}
	for _, e := range service(d.Doc.Now(), d.Units()) {
		texts[e.field.Label] = e.field.Text
	}
	return texts
}

// One is the form of one line of the service, by its label.
func One(d *page.Desk, label string) *page.Form {
	find := func() entry {
		for _, e := range service(d.Doc.Now(), d.Units()) {
			if e.field.Label == label {
				return e
			}
		}
		return entry{}
	}
	e := find()
	f := &page.Form{Head: label, Fields: []*page.Field{&e.field}, Once: true, Leave: func() { d.Say("left as it was") }}
	f.Each = func(int) error {
		if err := commit(d, e.set, f.Fields[0].Text); err != nil {
			return err
		}
		e = find()
		f.Refill([]*page.Field{&e.field})
		return nil
	}
	return f
}
