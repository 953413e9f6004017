package report

import (
	"strconv"

	"frp/veilwright/cmd/internal/output"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/wall"
)

// PrintWall prints an evaluated wall in the units asked for.
func PrintWall(out *output.Sink, w Wall, r *wall.Result, needed []wall.Course, units quantity.System) {
	title := w.Title
	if title == "" {
		title = "no title"
	}
	out.Line("%s: %s", w.File, title)
	for _, b := range w.Books {
		out.Line("  shop book %s", b)
	}
	if r.Problem != "" {
		out.Line("  %s", r.Problem)
	} else {
		m := r.Membrane
		out.Line("  counted %s; moduli axial %s, hoop %s, shear %s; Poisson %s", units.Thickness(r.Thickness),
			units.Figure(m.Ex, quantity.Stress), units.Figure(m.Ey, quantity.Stress), units.Figure(m.Gxy, quantity.Stress), quantity.Number(m.Nuxy, 2))
	}
	for _, c := range r.Cases {
		strain := "strain not known"
		if c.StrainKnown {
			strain = "strain axial " + units.Figure(c.StrainAxial, quantity.Strain) + ", hoop " + units.Figure(c.StrainHoop, quantity.Strain)
		}
		aside := ""
		if !c.Judged {
			aside = " (shown, not judged)"
		}
		out.Line("  %s%s: axial %s, hoop %s; %s", c.Name, aside, units.Figure(c.NAxial, quantity.LineLoad), units.Figure(c.NHoop, quantity.LineLoad), strain)
		if c.FirstPly != "" {
			out.Line("    first ply: %s", c.FirstPly)
		}
	}
	for _, o := range r.Unknown {
		out.Line("  %s: cannot be calculated: %s", o.Name, o.Reason)
	}
	printCriteria(out, r, units)
	printNeeded(out, needed, units)
	for _, n := range r.Notes {
		out.Line("  note: %s", n)
	}
	out.Line("%s: %s", w.File, told(r.Answer()))
}

func told(t wall.Answer) string {
	switch t {
	case wall.Holds:
		return "holds: every criterion that governs"
	case wall.Fails:
		return "fails: a criterion that governs"
	case wall.Incomplete:
		return "incomplete: a fact that a governing criterion needs is missing"
	case wall.NotApplicable:
	}
	return "nothing governs: no load is given"
}

func printCriteria(out *output.Sink, r *wall.Result, units quantity.System) {
	out.Line("  %-22s %-15s %14s %14s %11s  %s", "criterion", "answer", "required", "allowable", "of limit", "governs")
	for _, c := range r.Criteria {
		demand, capacity, used, governs := "-", "-", "-", "no"
		if c.Judged() {
			demand, capacity = c.Figures(units)
			used = quantity.Utilization(c.Ratio)
		}
		if c.Governs {
			governs = "yes"
		}
		out.Line("  %-22s %-15s %14s %14s %11s  %s", c.Title(), c.Answer.String(), demand, capacity, used, governs)
		if c.Reason != "" {
			out.Line("    %s", c.Reason)
		}
		out.Line("    basis: %s", c.Basis)
	}
}

func printNeeded(out *output.Sink, needed []wall.Course, units quantity.System) {
	for _, n := range needed {
		where := "needed"
		if n.Top > n.Bottom {
			where = "course " + units.Figure(n.Bottom, quantity.Distance) + " to " + units.Figure(n.Top, quantity.Distance)
		}
		if n.Repeats == 0 {
			out.Line("  %s: enough as it is", where)
		} else {
			out.Line("  %s: %s more of %s, for %s", where, strconv.Itoa(n.Repeats), n.Unit.String(), n.Governing.Title())
		}
		for _, note := range n.Notes {
			out.Line("    %s", note)
		}
	}
}
