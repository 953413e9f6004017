package bench

import (
	"strings"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/rules"
	"frp/veilwright/tui/internal/page"
	"frp/veilwright/tui/internal/text"
)

// totals is the line of figures of the parts and of the whole. While a choice
// is open it shows where each figure would go.
func (b *Bench) totals(w int) string {
	t, u := b.desk.Theme, b.desk.Units()
	now := b.desk.Report().Analysis
	then := now
	if b.preview != nil {
		then = b.preview.Analysis
	}
	unit := u.Thin().Symbol()
	part := func(name string, was, is laminate.Sum, glass bool) string {
		if was.Plies == 0 && is.Plies == 0 {
			return name + " none"
		}
		s := name + " " + change(page.Thick(was.Thickness, u), page.Thick(is.Thickness, u)) + " " + unit
		if glass {
			a, oka := was.GlassMassFraction()
			c, okc := is.GlassMassFraction()
			s += ", " + change(page.Percent(a, oka), page.Percent(c, okc))
		}
		return s
	}
	z := laminate.StructuralLayer
	o := laminate.OuterSurface
	whole := func(mass bool) []string {
		list := []string{
			part("barrier", now.Barrier, then.Barrier, true),
			part("structure", now.Zones[z], then.Zones[z], true),
			part("outside", now.Zones[o], then.Zones[o], false),
			"all " + change(page.Thick(now.Total.Thickness, u), page.Thick(then.Total.Thickness, u)) + " " + unit,
		}
		if mass && then.Total.MassKnown {
			list = append(list, change(number(u, now.Total.Mass), number(u, then.Total.Mass))+" "+u.Wall().Symbol())
		}
		return list
	}
	line := " " + strings.Join(whole(true), " │ ")
	if text.Width(line) > w {
		line = " " + strings.Join(whole(false), " │ ")
	}
	if b.preview != nil {
		return t.Changed.Render(text.Cut(line, w))
	}
	return t.Strong.Render(text.Cut(line, w))
}

func change(was, is string) string {
	if was == is {
		return is
	}
	return was + "→" + is
}

func number(u quantity.System, kgPerM2 float64) string {
	return quantity.Number(quantity.New(kgPerM2, quantity.KilogramPerSquareMetre).In(u.Wall()), 2)
}

// tally is how many findings of each severity a report has: "1 break · 2 notes".
func tally(r *rules.Report) string {
	var parts []string
	n := page.Tally(r)
	for s := rules.Break; s >= rules.Note; s-- {
		if n[s] > 0 {
			parts = append(parts, page.Count(n[s], s.String()))
		}
	}
	if len(parts) == 0 {
		return "nothing found"
	}
	return strings.Join(parts, " · ")
}
