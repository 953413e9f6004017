package layout_test

import (
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"frp/veilwright/laminate/quantity"
	"frp/veilwright/schedules/paper"
	"frp/veilwright/schedules/paper/drawing"
	"frp/veilwright/schedules/paper/drawing/font"
	"frp/veilwright/schedules/paper/layout"
	"frp/veilwright/schedules/paper/picture"
)

var update = flag.Bool("update", false, "rewrite the golden files")

func frame() paper.Frame {
	return paper.Frame{Paper: "Lay-up sheet", Title: "Brine header", Job: "J-1", Revision: "3", State: paper.Draft, File: "header.toml",
		Fingerprint: "0123456789ab", Units: "us", Shop: []string{"Our shop", "1 Resin Lane"}, NotChecked: []string{"wind", "seismic"}}
}

func form(blocks ...paper.Block) *paper.Form { return &paper.Form{Frame: frame(), Sheet: blocks} }

// texts are those of a page from top to bottom, as they are read.
func texts(p *drawing.Picture) []string {
	var all []string
	for _, m := range p.Marks {
		if m.Text != "" {
			all = append(all, m.Text)
		}
	}
	return all
}

func table(rows int, write bool) paper.Table {
	t := paper.Table{Columns: []paper.Column{{Title: "ply"}, {Title: "material"}, {Title: "thickness, mil", Right: true}, {Title: "by", Write: write}, {Title: "basis", Under: true}}}
	for i := range rows {
		t.Rows = append(t.Rows, paper.Row{Cells: []string{fmt.Sprint(i + 1), "mat-1.5", "43.4", "", ""}})
	}
	return t
}

// legible tells what is wrong with pages: type too small or off the paper,
// boxes too low, a page that does not say what it is of.
func legible(pages []drawing.Picture) (wrong []string) {
	for i := range pages {
		p := &pages[i]
		said := strings.Join(texts(p), " ")
		for _, want := range []string{fmt.Sprintf("page %d of %d", i+1, len(pages)), "0123456789ab", "Design aid:", "Not checked: wind, seismic.", "DRAFT, not released", "revision 3", "job J-1", "Our shop"} {
			if !strings.Contains(said, want) {
				wrong = append(wrong, fmt.Sprintf("page %d does not say %q", i+1, want))
			}
		}
		for _, m := range p.Marks {
			if m.Text == "" {
				for _, at := range m.Path {
					if at.X < 10 || at.Y < 8 || at.X > p.Width-10 || at.Y > p.Height-8 {
						wrong = append(wrong, fmt.Sprintf("page %d: a line at %.1f, %.1f", i+1, at.X, at.Y))
					}
				}
				continue
			}
			from := m.At.X
			wide := font.Width(m.Text, m.Size, m.Bold)
			switch m.Anchor {
			case drawing.Middle:
				from -= wide / 2
			case drawing.End:
				from -= wide
			case drawing.Start:
			}
			switch {
			case m.Size < 8:
				wrong = append(wrong, fmt.Sprintf("page %d: %q in %g pt", i+1, m.Text, m.Size))
			case from < 17.5 || from+wide > p.Width-13.5 || m.At.Y < 10 || m.At.Y > p.Height-9:
				wrong = append(wrong, fmt.Sprintf("page %d: %.40q from %.1f to %.1f at %.1f", i+1, m.Text, from, from+wide, m.At.Y))
			}
		}
	}
	return wrong
}

// anyForm is a form of whatever blocks and texts.
func anyForm(t *rapid.T) *paper.Form {
	text := rapid.OneOf(rapid.StringN(0, 40, -1), rapid.Just(strings.Repeat("longword", 40)), rapid.Just(strings.Repeat("many words ", 30)))
	f := form()
	f.Title = text.Draw(t, "title")
	for range rapid.IntRange(1, 6).Draw(t, "blocks") {
		switch rapid.IntRange(0, 6).Draw(t, "block") {
		case 0:
			f.Sheet = append(f.Sheet, paper.Heading{Level: rapid.IntRange(1, 2).Draw(t, "level"), Text: text.Draw(t, "heading")})
		case 1:
			f.Sheet = append(f.Sheet, paper.Facts{{Name: text.Draw(t, "name"), Value: text.Draw(t, "value")}})
		case 2:
			table := paper.Table{}
			n := rapid.IntRange(1, 12).Draw(t, "columns")
			for i := range n {
				kind := rapid.IntRange(0, 4).Draw(t, "kind")
				table.Columns = append(table.Columns, paper.Column{Title: "column " + text.Draw(t, "column"), Right: kind == 1, Under: kind == 2 && i > 0, Write: kind == 3})
			}
			for range rapid.IntRange(0, 40).Draw(t, "rows") {
				r := paper.Row{Cells: rapid.SliceOfN(text, n, n).Draw(t, "cells")}
				for i := range r.Cells {
					if table.Columns[i].Write {
						r.Cells[i] = ""
					}
				}
				if rapid.IntRange(0, 5).Draw(t, "band") == 0 {
					r = paper.Row{Band: "STOP " + text.Draw(t, "stop")}
				}
				table.Rows = append(table.Rows, r)
			}
			f.Sheet = append(f.Sheet, table)
		case 3:
			f.Sheet = append(f.Sheet, paper.Note{Mark: "Safety: ", Text: text.Draw(t, "note"), Indent: 2, Framed: rapid.Bool().Draw(t, "framed")})
		case 4:
			f.Sheet = append(f.Sheet, paper.Boxes{Titles: rapid.SliceOfN(text, 1, 9).Draw(t, "boxes"), Across: rapid.IntRange(0, 5).Draw(t, "across")})
		case 5:
			w := picture.Wall{Layers: []picture.Layer{{Thickness: rapid.Float64Range(0, 0.05).Draw(t, "thick"), Count: rapid.IntRange(1, 400).Draw(t, "count"), Gel: true}}}
			w.Labels = []picture.Label{{Text: text.Draw(t, "label")}}
			w.Zones = []picture.Label{{Text: text.Draw(t, "zone")}}
			f.Sheet = append(f.Sheet, paper.Section{Wall: w})
		default:
			f.Sheet = append(f.Sheet, paper.Signature{Role: text.Draw(t, "role")})
		}
	}
	return f
}

func TestPages_setNothingOffThePaperOrTooSmall(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := anyForm(t)
		size := rapid.SampledFrom([]layout.Size{layout.Letter, layout.A4}).Draw(t, "size")
		pages, _ := layout.Pages(f, size)
		if wrong := legible(pages); wrong != nil {
			t.Fatal(strings.Join(wrong[:min(8, len(wrong))], "\n"))
		}
	})
}

func TestPages_areTheSameForTheSameForm(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := anyForm(t)
		a, _ := layout.Pages(f, layout.Letter)
		b, _ := layout.Pages(f, layout.Letter)
		if fmt.Sprint(a) != fmt.Sprint(b) {
			t.Fatal("two runs differ")
		}
	})
}

func TestPages_repeatTheTitlesOfATable(t *testing.T) {
	pages, _ := layout.Pages(form(table(400, false)), layout.Letter)
	if len(pages) < 6 {
		t.Fatalf("400 rows stand on %d pages", len(pages))
	}
	rows := 0
	for i := range pages {
		said := texts(&pages[i])
		if !slices.Contains(said, "material") {
			t.Errorf("page %d does not repeat the titles", i+1)
		}
		for _, s := range said {
			if s == "mat-1.5" {
				rows++
			}
		}
	}
	if rows != 400 {
		t.Errorf("%d of 400 rows are set", rows)
	}
}

func TestPages_giveRoomForAPen(t *testing.T) {
	pages, _ := layout.Pages(form(table(3, true), paper.Boxes{Titles: []string{"batch"}}, paper.Signature{Role: "foreman"}), layout.A4)
	boxes := 0
	for _, m := range pages[0].Marks {
		if !m.Closed || m.Stroke == 0 || len(m.Path) != 4 || m.Path[0].Y < 40 {
			continue
		}
		boxes++
		if high := m.Path[2].Y - m.Path[0].Y; high < 7+3.5 { // a title stands in it
			t.Errorf("a box of %.1f mm", high)
		}
	}
	if boxes != 4 {
		t.Errorf("%d boxes", boxes)
	}
	var edges []float64 // of the column that is written in
	for _, m := range pages[0].Marks {
		if len(m.Path) == 2 && m.Path[0].X == m.Path[1].X {
			edges = append(edges, m.Path[1].Y-m.Path[0].Y)
		}
	}
	if len(edges) < 3 || slices.Min(edges) < 7 {
		t.Errorf("rows to write in are %v mm high", edges)
	}
}

func TestPages_sayOnceWhatTheTypefaceLacks(t *testing.T) {
	f := form(paper.Note{Text: "שלום e\u0301 שלום 漢"}, paper.Facts{{Name: "אב", Value: "漢"}})
	f.Title = "עברית"
	pages, missing := layout.Pages(f, layout.Letter)
	seen := map[rune]bool{}
	for _, r := range missing {
		if seen[r] {
			t.Errorf("%U is told twice", r)
		}
		seen[r] = true
	}
	if !seen['漢'] || !seen['ש'] || !seen['\u0301'] || seen['e'] {
		t.Errorf("missing are %q", missing)
	}
	if said := strings.Join(texts(&pages[0]), " "); strings.ContainsAny(said, "שלום漢") || !strings.Contains(said, "¿") {
		t.Errorf("set is %q", said)
	}
}

func TestPages_takeATitleOfTenThousandLettersAndTwentyThousandRows(t *testing.T) {
	f := form(table(20_000, true))
	f.Title = strings.Repeat("x", 10_000)
	pages, _ := layout.Pages(f, layout.SizeFor(quantity.Metric))
	if wrong := legible(pages); wrong != nil {
		t.Error(strings.Join(wrong[:min(8, len(wrong))], "\n"))
	}
	if n := len(pages); n < 500 || n > 1000 {
		t.Errorf("%d pages", n)
	}
}

// A part's sheet is handed to somebody: it begins a page, and no page is empty
// for it.
func TestPages_beginAnewWhereAHeadingSaysSo(t *testing.T) {
	part := func(id string) paper.Heading { return paper.Heading{Level: 1, Text: "Part " + id, Page: true} }
	pages, _ := layout.Pages(form(part("one"), paper.Note{Text: "first"}, part("two"), paper.Note{Text: "second"}, table(100, true)), layout.Letter)
	if len(pages) != 5 {
		t.Fatalf("%d pages", len(pages))
	}
	for i := 2; i < len(pages); i++ { // a page that gets loose says whose it is
		if !slices.Contains(texts(&pages[i]), "Part two") {
			t.Errorf("page %d does not say whose it is", i+1)
		}
	}
	for i, want := range []string{"Part one first", "Part two second"} {
		if got := strings.Join(texts(&pages[i]), " "); !strings.Contains(got, want) {
			t.Errorf("page %d says %s", i+1, got)
		}
	}
}

// A heading never stands at the foot of a page without what it names, and titles
// of columns take one line where there is room.
func TestPages_keepAHeadingWithItsDrawingAndTitlesInALine(t *testing.T) {
	w := picture.Wall{Total: "1 in", Layers: []picture.Layer{{Plies: "1", Material: "mat-1.5", Zone: "structural-layer", Thickness: 0.025, Count: 1}}}
	for fill := range 60 {
		blocks := make([]paper.Block, 0, fill+3)
		for range fill {
			blocks = append(blocks, paper.Note{Text: "filled"})
		}
		pages, _ := layout.Pages(form(append(blocks, paper.Heading{Level: 2, Text: "Section"}, paper.Section{Wall: w})...), layout.Letter)
		for i := range pages {
			said := texts(&pages[i])
			if slices.Contains(said, "Section") != slices.Contains(said, "PROCESS SIDE") {
				t.Errorf("after %d lines the heading and its section are on two pages", fill)
			}
		}
	}
	pages, _ := layout.Pages(form(table(3, false)), layout.Letter)
	if said := texts(&pages[0]); !slices.Contains(said, "thickness, mil") {
		t.Errorf("the title is broken up: %q", said)
	}
}

// Letters that the typeface has not are said once and stand as a box, marks that
// combine and letters that run from right to left among them; what would turn
// the line over is taken out.
func TestPages_takeATitleInAnyScript(t *testing.T) {
	f := form(paper.Note{Text: "e\u0301 \u05d0\u05d1 \u05d0 \U0001f6e2"})
	f.Title = "Gro\u0308\u00dfe \u05d0\u05d1\u05d2 \u202eturned\u202c \u7ba1"
	pages, missing := layout.Pages(f, layout.Letter)
	if wrong := legible(pages); wrong != nil {
		t.Error(strings.Join(wrong, "\n"))
	}
	for _, r := range []rune{'\u05d0', '\u05d1', '\u05d2', '\u7ba1', '\U0001f6e2'} {
		if n := strings.Count(string(missing), string(r)); n != 1 {
			t.Errorf("%q is said to be missing %d times", r, n)
		}
	}
	if all := strings.Join(texts(&pages[0]), " "); strings.ContainsAny(all, "\u202e\u202c\u05d0\u7ba1") || !strings.Contains(all, "turned") {
		t.Errorf("the page says %q", all)
	}
}

// Calls of one page of every block: where each line, box and text goes.
func TestPages_areDrawnAsBefore(t *testing.T) {
	w := picture.Wall{Total: "0.25 in", Layers: []picture.Layer{
		{Plies: "1", Material: "veil-c-15", Zone: "inner-surface", Thickness: 0.4e-3, Count: 1, Hatch: drawing.Stippled},
		{Plies: "2-3", Material: "mat-1.5", Zone: "interior-layer", Thickness: 2.4e-3, Count: 2, Hatch: drawing.Strands, Gel: true},
		{Plies: "4", Material: "woven-24", Zone: "structural-layer", Thickness: 0.8e-3, Count: 1, Hatch: drawing.Woven},
	}, Labels: []picture.Label{{Text: "1  veil-c-15"}, {First: 1, Last: 1, Text: "2-3  mat-1.5"}, {First: 2, Last: 2, Text: "4  woven-24"}}, Zones: []picture.Label{{Text: "barrier", Last: 1}, {Text: "structure", First: 2, Last: 2}}}
	tab := table(2, true)
	tab.Rows = append(tab.Rows, paper.Row{Band: "GEL STOP: let it gel and cool"})
	pages, _ := layout.Pages(form(paper.Heading{Level: 2, Text: "Wall"}, paper.Section{Wall: w}, tab, paper.Note{Mark: "Safety: ", Text: "Goggles.", Framed: true},
		paper.Boxes{Titles: []string{"batch", "gel time"}}, paper.Signature{Role: "foreman"}), layout.Letter)
	var b strings.Builder
	for i := range pages {
		fmt.Fprintf(&b, "page %d\n", i+1)
		for _, m := range pages[i].Marks {
			switch {
			case m.Text != "":
				fmt.Fprintf(&b, "text %.1f %.1f %gpt bold=%t anchor=%d %q\n", m.At.X, m.At.Y, m.Size, m.Bold, m.Anchor, m.Text)
			case m.Path[0].Y > 30 && m.Stroke >= drawing.Thin: // neither the code nor hatches
				fmt.Fprintf(&b, "path %.1f width=%g fill=%d dashed=%t\n", m.Path, m.Stroke, m.Fill, m.Dashed)
			}
		}
	}
	name := filepath.Join("testdata", "page.golden")
	if *update {
		if err := os.WriteFile(name, []byte(b.String()), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(name)
	if err != nil || string(want) != b.String() {
		t.Errorf("differs from %s (%v); got\n%.3000s", name, err, b.String())
	}
}
