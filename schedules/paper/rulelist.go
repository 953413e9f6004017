package paper

import (
	"strings"

	"frp/veilwright/laminate/source"
	"frp/veilwright/rules"
)

// Rules is the catalog of rules, family by family, in short.
func Rules(list []*rules.Rule) Sheet {
	sheet := Sheet{
		// What the words mean, for whoever has not read a report yet.
		Note{Text: "break: do not build it that way; incomplete: a fact that matters is missing;"},
		Note{Text: "warning: a person has to decide; note: for information."},
	}
	var t Table
	for i, r := range list {
		if i == 0 || r.Family != list[i-1].Family {
			t = Table{Columns: []Column{{Title: r.Family}, {Title: "severity"}, {Title: "title"}}}
		}
		t.Rows = append(t.Rows, Row{Cells: []string{r.ID, severities(r), r.Title}})
		if i == len(list)-1 || r.Family != list[i+1].Family {
			sheet = append(sheet, t)
		}
	}
	return sheet
}

// Rule is one rule in full.
func Rule(r *rules.Rule) Sheet {
	sheet := Sheet{Heading{Level: 1, Text: r.ID + ": " + r.Title}, Facts{{"severity", severities(r)}, {"when", r.When + reaches[r.Overlays]}, {"why", r.Why}, {"basis", r.Basis}}}
	if list := source.Of(r.Basis); len(list) > 0 {
		sheet = append(sheet, Sources(list)...)
	}
	return sheet
}

func severities(r *rules.Rule) string {
	words := make([]string, len(r.Severity))
	for i, s := range r.Severity {
		words[i] = s.String()
	}
	return strings.Join(words, ", ")
}

// reaches say of which laminates beside walls a rule holds.
var reaches = [...]string{
	rules.WallsAlone:    "",
	rules.EveryOverlay:  "; of a wall, and of what is laid at joints, at nozzles and in corners",
	rules.WettedOverlay: "; of a wall, and of what is laid at joints and nozzles where the fluid touches it",
	rules.NeckOverlay:   "; of a wall, and of the neck of a nozzle",
}
