package bench

import (
	"strings"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/rules"
	"frp/veilwright/schedules/paper"
	"frp/veilwright/tui/internal/draw"
	"frp/veilwright/tui/internal/page"
)

// figureStyle is how much the line of figures says: all of it where there is
// room, and less step by step.
type figureStyle struct{ mass, none, units, glass bool }

// totals is the line of figures of the parts and of the whole. While a choice
// is open it shows where each figure would go.
func (b *Bench) totals(w int) string {
	look := b.Desk.Theme.Strong
	if b.preview != nil {
		look = b.Desk.Theme.Changed
	}
	line := ""
	for _, style := range [...]figureStyle{{true, true, true, true}, {false, true, true, true}, {false, false, true, true}, {false, false, false, true}, {}} {
		if line = b.totalsAs(style); draw.Width(line) <= w {
			break
		}
	}
	if draw.Width(line) > w {
		line = strings.ReplaceAll(line, " │ ", "│")
	}
	return look.Render(draw.Cut(line, w))
}

func (b *Bench) totalsAs(style figureStyle) string {
	u := b.Desk.Units()
	now := b.Desk.Report().Analysis
	then := now
	if b.preview != nil {
		then = b.preview.Analysis
	}
	unit := " " + u.Thin().Symbol()
	var parts []string
	add := func(name string, was, is laminate.Sum, glass bool) {
		if was.Plies == 0 && is.Plies == 0 {
			if style.none {
				parts = append(parts, name+" none")
			}
			return
		}
		s := name + " " + change(page.Thick(was.Thickness, u), page.Thick(is.Thickness, u))
		if style.units {
			s += unit
		}
		if glass && style.glass {
			s += ", " + percents(was, is)
		}
		parts = append(parts, s)
	}
	z, o := laminate.StructuralLayer, laminate.OuterSurface
	add("barrier", now.Barrier, then.Barrier, true)
	add("structure", now.Zones[z], then.Zones[z], true)
	add("outer", now.Zones[o], then.Zones[o], false)
	parts = append(parts, "total "+change(page.Thick(now.Total.Thickness, u), page.Thick(then.Total.Thickness, u))+unit)
	if style.mass && then.Total.MassKnown {
		parts = append(parts, change(u.Bare(now.Total.Mass, quantity.WallMass), u.Bare(then.Total.Mass, quantity.WallMass))+" "+u.Wall().Symbol())
	}
	return " " + strings.Join(parts, " │ ")
}

// percents is the glass content before and after: "25→24 %".
func percents(was, is laminate.Sum) string {
	_, known := is.GlassMassFraction()
	before, after := paper.Share(was.GlassMassFraction()), paper.Share(is.GlassMassFraction())
	if known && before != after {
		before = strings.TrimSuffix(before, " %")
	}
	return change(before, after)
}

func change(was, is string) string {
	if was == is {
		return is
	}
	return was + "→" + is
}

// tally is how many findings of each severity a report has: "1 break · 2 notes".
func tally(r *rules.Report) string {
	var parts []string
	n := page.Tally(r)
	for s := rules.Unusable; s >= rules.Note; s-- {
		if n[s] > 0 {
			parts = append(parts, page.Count(n[s], s.String()))
		}
	}
	if len(parts) == 0 {
		return "nothing found"
	}
	return strings.Join(parts, " · ")
}
