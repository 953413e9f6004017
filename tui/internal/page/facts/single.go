package facts

import (
	"strings"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/edit"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/tui/internal/page"
)

// Line is a line of the form by itself, for pages that ask for one fact.
type Line struct {
	Field page.Field
	set   func(text string) (edit.Edit, error)
}

// Edit is the change that what stands in the field makes, or why it cannot be
// taken.
func (l *Line) Edit() (edit.Edit, error) { return l.set(l.Field.Text) }

// ServiceLines are the lines of the service, by the labels they have in the form.
func ServiceLines(s *laminate.Schedule, u quantity.System) map[string]Line {
	lines := map[string]Line{}
	for _, e := range service(s, u) {
		// A page that asks for one fact sets the unit of a share itself.
		e.field.Text = strings.TrimSuffix(e.field.Text, " %")
		lines[e.field.Label] = Line{e.field, e.set}
	}
	return lines
}
