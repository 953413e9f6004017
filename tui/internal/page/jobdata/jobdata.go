// Package jobdata is the form of everything a schedule says beside its plies:
// header, part, service and resins. Every line that is left makes one change,
// so that figures and findings follow at once and each can be taken back.
package jobdata

import (
	"frp/veilwright/laminate/edit"
	"frp/veilwright/rules"
	"frp/veilwright/tui/internal/draw"
	"frp/veilwright/tui/internal/page"
	"frp/veilwright/tui/internal/widget"
	"slices"
)

// entry is a line of the form.
type entry struct {
	section string
	field   page.Field
	set     func(text string) (edit.Edit, error)
}

// New makes the form on the document of a desk.
func New(d *page.Desk) *page.Form {
	list := entries(d)
	f := &page.Form{Head: "job data", Full: true, Fields: fields(list), Foot: 2, At: missing(d, list)}
	f.Each = func(i int) error {
		if err := commit(d, list[i].set, f.Fields[i].Text); err != nil {
			return err
		}
		// In the form u types a letter.
		d.Notice.Tail = "after Esc, " + d.Undoes()
		list = entries(d)
		f.Refill(fields(list))
		return nil
	}
	f.Below = func(w, h int) []string { // what the rules say by now
		r := d.Report()
		say := "no findings"
		if len(r.Findings) > 0 {
			say = page.SeverityWord(r.Findings[0].Severity) + ": " + draw.Clean(r.Findings[0].Message)
		}
		head := page.TallyPieces(d.Theme, r)
		if d.Quiet {
			head, say = nil, "what check finds is said once the answer is handed in"
		}
		lines := []string{widget.Rule(d.Theme, w, head...)}
		for _, l := range draw.Wrap(say, max(1, w-2)) {
			lines = append(lines, " "+l)
		}
		return lines[:min(len(lines), h)]
	}
	return f
}

// missing is the first line, in floor order, that states nothing where a finding
// wants for a fact; else the first line of all.
func missing(d *page.Desk, list []entry) int {
	if d.Quiet || page.Tally(d.Report())[rules.Incomplete] == 0 {
		return 0
	}
	for _, label := range floorOrder(d.Doc.Now().Part.Form) {
		for i := range list {
			if list[i].field.Label == label && list[i].field.Text == "" && label != "concentration" {
				return i
			}
		}
	}
	return 0
}

// entries are the lines of the schedule as it stands.
func entries(d *page.Desk) []entry {
	s, u := d.Doc.Now(), d.Units()
	if d.Doc.Lent() != nil { // it is no part
		return slices.Concat(header(s), offer(d, service(s, u)), conditions(s, u), resins(s))
	}
	return slices.Concat(header(s), part(s, u), offer(d, service(s, u)), conditions(s, u), resins(s))
}

// usualFluids are what such walls often stand in.
var usualFluids = []string{"water", "waste water", "sea water", "sodium chloride brine", "sulfuric acid", "hydrochloric acid", "sodium hydroxide", "sodium hypochlorite"}

// offer lets the fluid be taken instead of typed: those that the shop book rates
// resins for, under the names it has for them, then the usual ones.
func offer(d *page.Desk, list []entry) []entry {
	for i := range list {
		if list[i].field.Label == "fluid" {
			list[i].field.Offers = fluids(d)
		}
	}
	return list
}

func fluids(d *page.Desk) (list []string) {
	for i := range d.Doc.Library().Ratings {
		if f := d.Doc.Library().Ratings[i].Fluid; !slices.Contains(list, f) {
			list = append(list, f)
		}
	}
	return append(list, usualFluids...)
}

func fields(list []entry) []*page.Field {
	out := make([]*page.Field, len(list))
	for i := range list {
		out[i] = &list[i].field
		if i == 0 || list[i].section != list[i-1].section {
			out[i].Section = list[i].section
		}
	}
	return out
}

// commit makes the change of one line; the row worked at stays.
func commit(d *page.Desk, set func(string) (edit.Edit, error), text string) error {
	e, err := set(text)
	if err != nil {
		return err
	}
	row := d.Row
	if !d.Apply(e) {
		return page.ErrStay
	}
	d.Go(row)
	return nil
}
