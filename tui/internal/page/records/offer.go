package records

import (
	"reflect"
	"slices"
	"strings"

	"frp/veilwright/laminate/record"
	"frp/veilwright/schedules/settings"
	"frp/veilwright/tui/internal/page"
)

// mostOffered is how many likely texts a line goes through.
const mostOffered = 9

// entered are the fields of entries that a line of a form is filled from, by the
// line's label.
var entered = map[string][]string{
	"name": {"Who", "Witness"}, "who": {"Who", "Witness"}, "witness": {"Witness", "Who"}, "place": {"Place"},
	"instrument": {"Instrument", "Gauge", "Name"}, "gauge": {"Gauge", "Instrument", "Name"}, "method": {"Method"}, "procedure": {"Procedure"},
}

// Offer lets lines of a form be filled with what is likely there: what was
// entered in this record before, the latest first, and the points that the
// specification names. Lots are those of the same material.
func (c *Case) Offer(fields ...*page.Field) {
	for _, f := range fields {
		var list []string
		add := func(text string) {
			if f.Label == "witness" && strings.EqualFold(strings.TrimSpace(text), c.who) { // nobody witnesses what he enters
				return
			}
			if text = strings.TrimSpace(text); text != "" && !slices.Contains(list, text) && len(list) < mostOffered {
				list = append(list, text)
			}
		}
		if r := c.Record(); r != nil {
			entries := r.Entries()
			for i := len(entries) - 1; i >= 0; i-- {
				for _, text := range c.likely(f.Label, entries[i]) {
					add(text)
				}
			}
		}
		if demands, _ := c.Specification(); demands != nil && f.Label == "point" {
			for i := range demands.Inspection.Holds {
				add(demands.Inspection.Holds[i].Point)
			}
		}
		if f.Label == "name" || f.Label == "who" {
			if s, err := settings.Load(); err == nil {
				add(s.Name)
			}
		}
		f.Offers = list
	}
}

// likely are the texts of an entry that fit a line.
func (c *Case) likely(label string, entry record.Any) (list []string) {
	if laid, ok := entry.(*record.Laid); ok {
		if i := c.RowOf(laid.Ply); i >= 0 {
			switch p := &c.Schedule().Plies[i]; label {
			case "lot of " + p.Material:
				return []string{laid.MaterialLot}
			case "lot of resin " + p.Resin:
				return []string{laid.ResinLot}
			}
		}
	}
	v := reflect.ValueOf(entry).Elem()
	for _, name := range entered[label] {
		if f := v.FieldByName(name); f.IsValid() && f.Kind() == reflect.String {
			list = append(list, f.String())
		}
	}
	return list
}
