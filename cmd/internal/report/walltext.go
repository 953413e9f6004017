package report

import (
	"math"
	"strconv"

	"frp/veilwright/cmd/internal/output"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/wall"
)

// newtonPerMeterOfPoundPerInch is a pound-force on an inch in N/m, from the
// pound and inch of package quantity.
const newtonPerMeterOfPoundPerInch = 0.45359237 * 9.80665 / 0.0254

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
			modulus(m.Ex, units), modulus(m.Ey, units), modulus(m.Gxy, units), quantity.Number(m.Nuxy, 2))
	}
	for _, c := range r.Cases {
		strain := "strain not known"
		if c.StrainKnown {
			strain = "strain axial " + percent(c.StrainAxial) + ", hoop " + percent(c.StrainHoop)
		}
		aside := ""
		if !c.Judged {
			aside = " (shown, not judged)"
		}
		out.Line("  %s%s: axial %s, hoop %s; %s", c.Name, aside, lineLoad(c.NAxial, units), lineLoad(c.NHoop, units), strain)
		if c.FirstPly != "" {
			out.Line("    first ply: %s", c.FirstPly)
		}
	}
	for _, o := range r.Unknown {
		out.Line("  %s: cannot be figured: %s", o.Name, o.Reason)
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
		return "holds: every criterion that decides"
	case wall.Fails:
		return "fails: a criterion that decides"
	case wall.Incomplete:
		return "cannot tell: a fact that a deciding criterion needs is missing"
	case wall.NotApplicable:
	}
	return "nothing decides: no load is given"
}

func printCriteria(out *output.Sink, r *wall.Result, units quantity.System) {
	out.Line("  %-22s %-15s %14s %14s %11s  %s", "criterion", "answer", "demand", "capacity", "used", "decides")
	for _, c := range r.Criteria {
		demand, capacity, used, decides := "-", "-", "-", "no"
		if c.Answer == wall.Holds || c.Answer == wall.Fails {
			demand, capacity = figureOf(c.Demand, c.Unit, units), figureOf(c.Capacity, c.Unit, units)
			used = quantity.Utilization(c.Ratio)
		}
		if c.Governs {
			decides = "yes"
		}
		out.Line("  %-22s %-15s %14s %14s %11s  %s", c.Name, c.Answer.String(), demand, capacity, used, decides)
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
			where = "course " + height(n.Bottom, units) + " to " + height(n.Top, units)
		}
		if n.Repeats == 0 {
			out.Line("  %s: enough as it is", where)
		} else {
			out.Line("  %s: %s more of %s, for %s", where, strconv.Itoa(n.Repeats), n.Unit.String(), n.Governing.Name)
		}
		for _, note := range n.Notes {
			out.Line("    %s", note)
		}
	}
}

// figureOf prints a figure of a criterion in a person's units.
func figureOf(v float64, unit string, units quantity.System) string {
	switch unit {
	case "strain":
		return percent(v)
	case "m":
		return units.Thickness(v)
	case "N/m":
		return lineLoad(v, units)
	case "Pa":
		if math.Abs(v) >= 1e9 {
			return modulus(v, units)
		}
		return units.Pressure(v)
	}
	return strconv.FormatFloat(v, 'g', 4, 64) + " " + unit
}

func percent(strain float64) string {
	if math.Abs(strain) > 10 {
		return quantity.Utilization(math.Abs(strain))
	}
	return quantity.Number(100*strain, 4) + " %"
}

func modulus(pa float64, units quantity.System) string {
	return quantity.New(pa, quantity.Pascal).Format(units.Modulus(), 2)
}

func height(m float64, units quantity.System) string {
	return quantity.New(m, quantity.Meter).Format(units.Long(), 1)
}

func lineLoad(newtonPerMeter float64, units quantity.System) string {
	if units == quantity.Metric {
		return quantity.Number(newtonPerMeter/1000, 1) + " kN/m"
	}
	return quantity.Number(newtonPerMeter/newtonPerMeterOfPoundPerInch, 0) + " lb/in"
}
