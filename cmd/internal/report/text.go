package report

import (
	"fmt"
	"strconv"
	"strings"

	"frp/veilwright/cmd/internal/output"
	"frp/veilwright/laminate"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/rules"
)

// Detail says how much text to print beside the findings.
type Detail struct {
	Plies   bool // the ply table
	Explain bool // basis and fix under each finding
}

// Print prints the report of a schedule that could be read, in the units
// asked for. s must be made from r.
func Print(out *output.Sink, s Schedule, r *rules.Report, units quantity.System, d Detail) {
	out.Line("%s: %s", s.File, heading(r.Schedule))
	for _, b := range s.Books {
		out.Line("  shop book %s", b)
	}
	if d.Plies {
		printPlies(out, s, units)
	}
	printZones(out, r, units)
	for _, f := range s.Findings {
		printFinding(out, s.File, f, d.Explain)
	}
	out.Line("%s: %s", s.File, sentence(s))
}

// PrintUnread prints the verdict on a document that could not be read.
func PrintUnread(out *output.Sink, s Schedule) {
	out.Line("%s: %s", s.File, Unusable)
}

// SayUnread tells why a document could not be read: each problem on a line of
// its own, with file, line and key, else the one sentence.
func SayUnread(say output.Messages, s Schedule) {
	for _, p := range s.Problems {
		say.Say("%s", problem(s.File, p))
	}
	if len(s.Problems) == 0 && s.Error != nil {
		say.Say("%s: %s", s.File, *s.Error)
	}
}

// problem is one line that an editor can jump to.
func problem(file string, p Problem) string {
	where := file
	if p.Line > 0 {
		where += ":" + strconv.Itoa(p.Line)
		if p.Column > 0 {
			where += ":" + strconv.Itoa(p.Column)
		}
	}
	if p.Key != "" {
		where += ": " + p.Key
	}
	return where + ": " + p.Message
}

func heading(s *laminate.Schedule) string {
	title := s.Title
	if title == "" {
		title = "no title"
	}
	var more []string
	if s.Job != "" {
		more = append(more, "job "+s.Job)
	}
	if s.Revision.Given {
		more = append(more, fmt.Sprintf("revision %d", s.Revision.Value))
	}
	if len(more) > 0 {
		title += " (" + strings.Join(more, ", ") + ")"
	}
	return title
}

// printZones prints a line for each zone that has plies, then the sums.
func printZones(out *output.Sink, r *rules.Report, units quantity.System) {
	a := r.Analysis
	line := func(name string, s laminate.Sum) {
		mass := "mass not known"
		if s.MassKnown {
			mass = units.WallMass(s.Mass)
		}
		out.Line("  %-16s %5d %-5s %12s %14s  glass %s", name, s.Plies, quantity.Plural(s.Plies, "ply", "plies"),
			units.Thickness(s.Thickness), mass, share(s.GlassMassFraction()))
	}
	for _, z := range laminate.Zones.All() {
		if a.Zones[z].Plies > 0 {
			line(z.String(), a.Zones[z])
		}
	}
	if a.Barrier.Plies > 0 {
		line("barrier", a.Barrier)
	}
	line("total", a.Total)
}

func share(v float64, ok bool) string {
	if !ok {
		return "not known"
	}
	return quantity.Share(v)
}

// printPlies prints equal plies that follow each other as one line.
func printPlies(out *output.Sink, s Schedule, units quantity.System) {
	out.Line("  %-9s %-20s %-16s %-12s %10s %10s %6s", "ply", "material", "zone", "resin", "each", "to here", "glass")
	for i := 0; i < len(s.Plies); {
		first, j := s.Plies[i], i
		for j+1 < len(s.Plies) && s.Plies[j+1].Line == first.Line && s.Plies[j+1].Material == first.Material {
			j++
		}
		last := s.Plies[j]
		number := strconv.Itoa(first.Number)
		if j > i {
			number += "-" + strconv.Itoa(last.Number)
		}
		resin, glass := "-", "-"
		if first.Resin != nil {
			resin = *first.Resin
		}
		if first.GlassMassFraction != nil {
			glass = quantity.Share(*first.GlassMassFraction)
		}
		out.Line("  %-9s %-20s %-16s %-12s %10s %10s %6s", number, first.Material, first.Zone, resin,
			units.Thickness(first.ThicknessMM/mmPerM), units.Thickness(last.ToHereMM/mmPerM), glass)
		i = j + 1
	}
}

func printFinding(out *output.Sink, file string, f Finding, explain bool) {
	where := file
	if f.line > 0 {
		where += ":" + strconv.Itoa(f.line)
	}
	out.Line("%s: %s %s: %s", where, f.Severity, f.Rule, f.Message)
	if !explain {
		return
	}
	out.Line("    basis: %s", f.Basis)
	if f.Fix != nil {
		out.Line("    fix: %s", *f.Fix)
	}
}

// sentence is the verdict and how it comes about.
func sentence(s Schedule) string {
	counts := map[string]int{}
	for _, f := range s.Findings {
		counts[f.Severity]++
	}
	var parts []string
	for _, severity := range []rules.Severity{rules.Break, rules.Incomplete, rules.Warning, rules.Note} {
		word := severity.String()
		if n := counts[word]; n > 0 {
			many := word + "s"
			if severity == rules.Incomplete {
				many = word
			}
			parts = append(parts, fmt.Sprintf("%d %s", n, quantity.Plural(n, word, many)))
		}
	}
	if len(parts) == 0 {
		return s.Verdict
	}
	return s.Verdict + " (" + strings.Join(parts, ", ") + ")"
}
