package layup

import (
	"fmt"
	"path/filepath"

	"frp/veilwright/tui/internal/draw"
	"frp/veilwright/tui/internal/page"
)

// mostBegun is how many records are named that were begun.
const mostBegun = 3

// instead is what stands in place of the ply where nobody here knows which one is
// next: a record of what is laid up was begun and is not open, or one of something
// else is. Somebody who looks at a ply sees that one. nil where the ply stands.
func (p *Page) instead(w int) []string {
	switch {
	case p.look != 0:
		return nil
	case p.records.OfAnother() != "":
		return p.ofAnother(w)
	case p.records.Record() == nil && len(p.begun) > 0:
		return p.goOn(w)
	}
	return nil
}

// ofAnother says that the record is of something else, and what to do.
func (p *Page) ofAnother(w int) []string {
	t := p.Desk.Theme
	lines := []string{"", " " + t.Break.Render(draw.Cut("STOP: "+draw.Clean(p.records.Foreign()), w-2)), ""}
	for _, l := range draw.Wrap("Nothing is recorded here of another part, joint or nozzle. 3 opens or starts a record of what is on the desk; Enter on the job page leads to what the open record is of. ↑↓ shows the plies.", w-2) {
		lines = append(lines, " "+l)
	}
	return lines
}

// goOn says that lay-up was begun, and how it goes on.
func (p *Page) goOn(w int) []string {
	t := p.Desk.Theme
	what := "LAY-UP WAS BEGUN: its record lies here"
	if n := len(p.begun); n > 1 {
		what = fmt.Sprintf("LAY-UP WAS BEGUN: %d records lie here", n)
	}
	lines := []string{"", " " + t.Warning.Render(draw.Cut(what, w-2)), ""}
	for i := range p.begun[:min(len(p.begun), mostBegun)] {
		b := &p.begun[i]
		said := fmt.Sprintf(", %d of %s laid", len(b.Laid), page.Count(p.total(), "ply"))
		if n := len(b.Laid); n > 0 {
			said += ", last entry " + b.Last.Local().Format("2006-01-02 15:04")
		}
		if serial := b.Record.SerialNumber(); serial != "" {
			said = ", serial " + draw.Clean(serial) + said
		}
		for _, l := range draw.Wrap(draw.Clean(filepath.Base(b.Path))+said, w-2) {
			lines = append(lines, " "+t.Strong.Render(l))
		}
	}
	lines = append(lines, "")
	which := "it"
	if len(p.begun) > 1 {
		which = "the first of them"
	}
	for _, l := range draw.Wrap("3 Enter goes on with "+which+". A new record is of another piece: 3 starts one too. ↑↓ shows the plies.", w-2) {
		lines = append(lines, " "+l)
	}
	return lines
}
