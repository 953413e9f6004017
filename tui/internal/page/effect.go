package page

import (
	"fmt"
	"strings"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/rules"
)

// Effect says in one line what a change did to the wall: thickness, the zone
// that changed most, and findings that came or went. It is empty where
// nothing of these changed.
func Effect(before, after *rules.Report, units quantity.System) string {
	most, zone := effect(before, after, units)
	if zone != "" {
		most = append(most, zone)
	}
	return strings.Join(most, ", ")
}

// Outcome says what was done: first the figures of the whole, then the change, and
// last the zone it changed most. Where there is little room the end is cut.
func Outcome(label string, before, after *rules.Report, units quantity.System) string {
	most, zone := effect(before, after, units)
	var parts []string
	if len(most) > 0 {
		parts = append(parts, strings.Join(most, ", "))
	}
	parts = append(parts, strings.TrimSuffix(label, "."))
	// One row of the document may be read as two, barrier and structure; a change
	// to either makes it two.
	if b, a := before.Schedule, after.Schedule; b != nil && a != nil && joined(b) && !joined(a) {
		parts = append(parts, "the row across barrier and structure is written as two")
	}
	if zone != "" {
		parts = append(parts, zone)
	}
	return strings.Join(parts, " · ")
}

// joined tells whether two rows of a schedule are one of its document.
func joined(s *laminate.Schedule) bool { return len(laminate.JoinRow(s.Plies)) < len(s.Plies) }

func effect(before, after *rules.Report, units quantity.System) (parts []string, zone string) {
	a, b := before.Analysis, after.Analysis
	if a != nil && b != nil {
		if d := b.Total.Thickness - a.Total.Thickness; quantity.Compare(a.Total.Thickness, b.Total.Thickness) != 0 {
			sign := "+"
			if d < 0 {
				sign, d = "−", -d
			}
			parts = append(parts, sign+units.Thickness(d))
		}
	}
	was, is := Tally(before), Tally(after)
	for s := rules.Unusable; s >= rules.Warning; s-- {
		if was[s] != is[s] {
			parts = append(parts, fmt.Sprintf("%s %d→%d", s, was[s], is[s]))
		}
	}
	if a != nil && b != nil {
		if z := mostChanged(a, b); z != laminate.NoZone {
			zone = ZoneFigures(z, b.Zones[z], units)
		}
	}
	return parts, zone
}

// ZoneFigures names a zone with its thickness and glass content.
func ZoneFigures(z laminate.Zone, s laminate.Sum, units quantity.System) string {
	if s.Plies == 0 {
		return ZoneWord(z) + " none"
	}
	text := ZoneWord(z) + " " + Thick(s.Thickness, units) + " " + units.Thin().Symbol()
	if share, ok := s.GlassMassFraction(); ok {
		text += ", " + quantity.Share(share) + " glass"
	}
	return text
}

// Thick prints a total thickness without its unit: whole mils, hundredths of mm.
func Thick(m float64, units quantity.System) string {
	return units.Bare(m, quantity.Build)
}

// Tally counts the findings of a report by severity.
func Tally(r *rules.Report) (n [rules.Unusable + 1]int) {
	for i := range r.Findings {
		n[r.Findings[i].Severity]++
	}
	return n
}

func mostChanged(a, b *laminate.Analysis) laminate.Zone {
	most, by := laminate.NoZone, 0.0
	for _, z := range laminate.Zones.All() {
		d := b.Zones[z].Thickness - a.Zones[z].Thickness
		if d < 0 {
			d = -d
		}
		// Fiber content alone may change too, with hardly any thickness.
		m := b.Zones[z].GlassMass - a.Zones[z].GlassMass
		if m < 0 {
			m = -m
		}
		if score := d + m*1e-3; score > by+1e-9 {
			most, by = z, score
		}
	}
	return most
}
