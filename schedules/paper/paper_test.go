package paper_test

import (
	"bytes"
	"encoding/csv"
	"slices"
	"strings"
	"testing"
	"unicode"
	"unicode/utf8"

	"pgregory.net/rapid"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/catalog"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/wall"
	"frp/veilwright/rules"
	"frp/veilwright/rules/acceptance"
	"frp/veilwright/rules/all"
	"frp/veilwright/schedules/paper"
	"frp/veilwright/schedules/paper/picture"
)

func pipe() *laminate.Schedule {
	return &laminate.Schedule{
		Head:    laminate.Head{Title: "Brine \x1b[31mheader", Job: "J-1", Revision: laminate.Some(3)},
		Part:    laminate.Part{Form: laminate.Pipe, Process: laminate.ContactMolded, InsideDiameter: quantity.New(24, quantity.Inch), Ends: laminate.ClosedEnds},
		Service: laminate.Service{Temperature: quantity.New(80, quantity.Fahrenheit), Pressure: quantity.New(60, quantity.PSI)},
		Resins:  []laminate.Resin{{ID: "r", Family: laminate.VinylEster}},
		Plies: []laminate.Ply{
			{Material: catalog.VeilC15, Resin: "r", Zone: laminate.InnerSurface, Count: 1},
			{Material: catalog.Mat15, Resin: "r", Zone: laminate.InteriorLayer, Count: 2, GelAfter: true},
			{Material: catalog.Mat15, Resin: "r", Zone: laminate.StructuralLayer, Count: 2},
		},
	}
}

func judged(s *laminate.Schedule, u quantity.System) *rules.Report {
	r := rules.Judge(all.Rules(), s, catalog.Library(), rules.Options{Units: u})
	for i := range r.Findings {
		r.Fix(i)
	}
	return r
}

func lineOf(r laminate.Ref) int {
	if r.Kind == laminate.RefPly {
		return 40 + r.Index
	}
	return 0
}

func text(t *testing.T, s paper.Sheet, width int) string {
	t.Helper()
	var b bytes.Buffer
	if err := paper.Text(&b, s, width); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

func TestCheck_saysPlaceSeverityRuleAndVerdict(t *testing.T) {
	r := judged(pipe(), quantity.US)
	got := text(t, paper.Check("a.toml", []string{"shop-book.toml"}, r, lineOf, quantity.US, paper.Detail{Plies: true, Explain: true}), 100)
	for _, want := range []string{
		"a.toml: Brine \\u001b[31mheader (job J-1, revision 3)\n",
		"  shop book  shop-book.toml\n",
		"  ply  material   zone              resin  per ply, mil  total, mil  glass\n",
		"  2-3  mat-1.5    interior-layer    r              49.2       113.1   27 %\n",
		"  total             5 plies  199.9 mil  1.41 lb/ft²   27 %\n",
		"\na.toml:42: break structure-fails: hoop strength under pressure fails: required ",
		"\n    basis: ", "\n    fix: add topcoat in resin r as the last ply\n",
		"\na.toml: break (",
	} {
		if !strings.Contains(got, want) {
			t.Errorf("%q is not in\n%s", want, got)
		}
	}
	brief := text(t, paper.Check("a.toml", nil, judged(pipe(), quantity.Metric), lineOf, quantity.Metric, paper.Detail{}), 100)
	if strings.Contains(brief, "basis") || strings.Contains(brief, "per ply") || strings.Contains(brief, " mil") || !strings.Contains(brief, "5.08 mm") {
		t.Errorf("more than was asked for, or not metric:\n%s", brief)
	}
}

// The rows of a sheet are those that screens show, cell by cell.
func TestSheets_showTheRowsThatScreensTake(t *testing.T) {
	for _, u := range []quantity.System{quantity.US, quantity.Metric} {
		r := judged(pipe(), u)
		w := wall.Evaluate(r.Schedule, catalog.Library(), r.Analysis, wall.Options{Units: laminate.Some(u)})
		check := text(t, paper.Check("a.toml", nil, r, lineOf, u, paper.Detail{Plies: true}), 0)
		for i := range r.Schedule.Plies {
			p := paper.PlyOf(r.Schedule, r.Analysis, i, u)
			if !hasRow(check, p.Numbers, p.Material, p.Zone, p.Resin, p.PerPly, p.Total) {
				t.Errorf("row %d is not in\n%s", i, check)
			}
		}
		criteria := text(t, paper.Wall("a.toml", nil, r.Schedule, w, nil, u), 0)
		for i := range w.Criteria {
			c := paper.CriterionOf(&w.Criteria[i], u)
			if !hasRow(criteria, c.Name, c.Case, c.Answer, c.Required, c.Allowable, c.Utilization, c.Role) {
				t.Errorf("%s is not in\n%s", c.Name, criteria)
			}
		}
	}
}

func hasRow(text string, cells ...string) bool {
	want := strings.Join(strings.Fields(strings.Join(cells, " ")), " ")
	return slices.ContainsFunc(strings.Split(text, "\n"), func(l string) bool {
		return strings.HasPrefix(strings.Join(strings.Fields(l), " "), want)
	})
}

func comparison() paper.Sheet {
	res := &acceptance.Result{
		Lines: []acceptance.Line{
			{Key: "barrier.veil_plies", Demand: "at least 1 veil ply", Found: "1 veil ply", Basis: "the specification", Plies: []int{1}},
			{Key: "barrier.mat", Demand: "a | b", Found: "=cmd()", Verdict: acceptance.Fails, Basis: "the specification", Plies: []int{2, 3, 5}},
		},
		Notes: []string{"signed \x07"}, Answers: acceptance.Answers{Answer: acceptance.DoesNotConform},
	}
	return paper.Compare(paper.Compared{Schedule: "a.toml", Specification: "s.toml"}, res, judged(pipe(), quantity.US))
}

func TestCompare_failsFirstInEveryForm(t *testing.T) {
	got := text(t, comparison(), 100)
	fails, meets := strings.Index(got, "  fails  barrier.mat: a | b; found =cmd() (plies 2-3, 5)\n    basis: the specification\n"), strings.Index(got, "  meets  barrier.veil_plies: ")
	if fails < 0 || meets < fails || strings.Count(got, "basis: ") != 1 || !strings.Contains(got, "a.toml: does not conform (1 meet, 1 fail, 0 incomplete; the schedule itself has ") {
		t.Errorf("got\n%s", got)
	}
	var b bytes.Buffer
	if err := paper.Markdown(&b, comparison()); err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{"# a.toml against s.toml\n\n| verdict | key |", `| fails | barrier.mat | a \| b | =cmd() | 2-3, 5 | the specification |`, "note: signed \\\\u0007"} {
		if !strings.Contains(b.String(), want) {
			t.Errorf("%q is not in\n%s", want, b.String())
		}
	}
	b.Reset()
	if err := paper.CSV(&b, comparison()); err != nil {
		t.Fatal(err)
	}
	rows, err := csv.NewReader(&b).ReadAll()
	if err != nil || len(rows) != 3 || rows[1][3] != "'=cmd()" || rows[0][2] != "requirement" {
		t.Errorf("%q, %v", rows, err)
	}
}

func section(layers ...picture.Layer) paper.Section {
	return paper.Section{Wall: picture.Wall{Layers: layers}}
}

// anySheet is a sheet of whatever blocks and texts.
func anySheet(t *rapid.T) paper.Sheet {
	word := rapid.StringN(0, 30, 60)
	cells := func(n int) []string { return rapid.SliceOfN(word, n, n).Draw(t, "cells") }
	var s paper.Sheet
	for range rapid.IntRange(1, 5).Draw(t, "blocks") {
		switch rapid.IntRange(0, 5).Draw(t, "block") {
		case 0:
			s = append(s, paper.Heading{Level: 1, Text: word.Draw(t, "heading")})
		case 1:
			s = append(s, paper.Facts{{Name: word.Draw(t, "name"), Value: word.Draw(t, "value")}})
		case 2:
			table := paper.Table{Columns: []paper.Column{{Title: "a"}, {Title: "b", Right: true}, {Title: "c"}, {Title: "d", Under: true, List: true}}}
			for range rapid.IntRange(0, 3).Draw(t, "rows") {
				table.Rows = append(table.Rows, paper.Row{Cells: cells(4), Line: rapid.SampledFrom([]string{"", "in a line \x1b"}).Draw(t, "line"), Place: rapid.Bool().Draw(t, "place")})
			}
			s = append(s, table)
		case 3:
			s = append(s, paper.Note{Mark: "- ", Text: word.Draw(t, "note"), Indent: 2})
		case 4:
			s = append(s, section(picture.Layer{Plies: "1", Material: word.Draw(t, "material"), Thickness: 1e-3, Gel: true}, picture.Layer{Plies: "2"}))
		default:
			s = append(s, paper.Signature{Role: word.Draw(t, "role")})
		}
	}
	return s
}

func TestWriters_letNoControlCharacterThrough(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := anySheet(t)
		width := rapid.IntRange(0, 120).Draw(t, "width")
		for name, write := range map[string]func(*bytes.Buffer) error{
			"text":     func(b *bytes.Buffer) error { return paper.Text(b, s, width) },
			"markdown": func(b *bytes.Buffer) error { return paper.Markdown(b, s) },
			"csv":      func(b *bytes.Buffer) error { return paper.CSV(b, s) },
		} {
			var b bytes.Buffer
			if err := write(&b); err != nil {
				t.Fatal(err)
			}
			for _, r := range b.String() {
				if r != '\n' && unicode.IsControl(r) || r == utf8.RuneError && !strings.ContainsRune(b.String(), '\ufffd') {
					t.Fatalf("%s lets %U through: %q", name, r, b.String())
				}
			}
		}
	})
}

func TestText_wrapsAllButPlaces(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		width := rapid.IntRange(60, 120).Draw(t, "width")
		long := rapid.StringOfN(rapid.RuneFrom([]rune("ab° ")), 0, 400, -1).Draw(t, "long")
		s := paper.Sheet{
			paper.Heading{Level: 1, Text: long}, paper.Facts{{Name: "fact", Value: long}}, paper.Note{Mark: "note: ", Text: long, Indent: 2},
			paper.Table{Columns: []paper.Column{{Title: "a"}, {Title: "b"}, {Title: "c", Under: true}}, Rows: []paper.Row{{Cells: []string{"one", long, long}}, {Cells: []string{"two", "", ""}, Line: long}}},
		}
		var b bytes.Buffer
		if err := paper.Text(&b, s, width); err != nil {
			t.Fatal(err)
		}
		for _, l := range strings.Split(b.String(), "\n") {
			if utf8.RuneCountInString(l) > width {
				t.Fatalf("%d wide: %q", utf8.RuneCountInString(l), l)
			}
		}
	})
	place := paper.Sheet{paper.Table{Columns: []paper.Column{{Title: "place"}}, Rows: []paper.Row{{Cells: []string{""}, Line: strings.Repeat("a.toml ", 30), Place: true}}}}
	if got := text(t, place, 40); strings.Count(got, "\n") != 1 {
		t.Errorf("a place is broken:\n%s", got)
	}
}

func TestText_drawsASectionToScaleAndALineToSignOn(t *testing.T) {
	got := text(t, paper.Sheet{
		section(picture.Layer{Plies: "1", Zone: "inner", Material: "veil", Thickness: 1e-3, Gel: true}, picture.Layer{Plies: "2-3", Zone: "structure", Material: "mat", Thickness: 4e-3}),
		paper.Signature{Role: "inspector"},
	}, 100)
	for _, want := range []string{"  1    inner      veil      ########## | gel stop\n", "  2-3  structure  mat       " + strings.Repeat("#", 40) + "\n", "inspector: ______"} {
		if !strings.Contains(got, want) {
			t.Errorf("%q is not in\n%s", want, got)
		}
	}
}
