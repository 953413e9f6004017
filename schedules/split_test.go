package schedules

import (
	"bytes"
	"fmt"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/catalog"
	edits "frp/veilwright/laminate/edit"
)

func splitDocument(rows ...string) []byte {
	text := "document = \"schedule\"\nformat = 1\n[[resin]]\nid = \"r\"\nfamily = \"vinyl-ester\"\n"
	for i, row := range rows {
		material, count, _ := strings.Cut(row, " ")
		text += fmt.Sprintf("\n# row %d\n[[ply]]\nmaterial = %q # its mat\nresin = \"r\"\n", i, material)
		if count != "" {
			text += "count = " + count + "\n"
		}
	}
	return []byte(text)
}

// A row in which the barrier ends is two: mat ×4 behind one veil is two plies of
// interior layer and two of structure (common practice, no source).
func TestDecode_aRowInWhichTheBarrierEndsIsTwo(t *testing.T) {
	lib := catalog.Library()
	for _, c := range []struct {
		rows    []string
		inside  int
		outside int
		lines   []int
	}{
		{[]string{"veil-c-15", "mat-1.5 4"}, 2, 2, []int{8, 13, 13}},
		{[]string{"veil-c-15 2", "mat-1.5 6"}, 4, 2, []int{8, 14, 14}},
		{[]string{"veil-c-15", "mat-1.5", "mat-0.75 3", "woven-24"}, 2, 3, []int{8, 13, 18, 18, 24}},
		{[]string{"veil-c-15", "mat-1.5 2", "mat-0.75 3"}, 2, 3, []int{8, 13, 19}},
	} {
		b := splitDocument(c.rows...)
		src, s, problems := Decode(b, lib)
		if len(problems) > 0 {
			t.Fatal(problems)
		}
		a := laminate.Analyze(s, lib)
		if in, out := a.Zones[laminate.InteriorLayer].Plies, a.Zones[laminate.StructuralLayer].Plies; in != c.inside || out != c.outside {
			t.Errorf("%q: %d inside, %d outside", c.rows, in, out)
		}
		if got := src.Render(s); !bytes.Equal(got, b) {
			t.Errorf("%q is written as\n%s", c.rows, got)
		}
		var lines []int
		for i := range s.Plies {
			lines = append(lines, src.Line(laminate.PlyRef(i, "")))
		}
		if fmt.Sprint(lines) != fmt.Sprint(c.lines) {
			t.Errorf("%q: lines %v, want %v", c.rows, lines, c.lines)
		}
	}
}

// Taking a ply from the half of a row that is barrier takes it from the barrier:
// no ply of the other half comes in for it. The document has two rows then.
func TestSplit_oneLessOfTheBarrierIsOneLess(t *testing.T) {
	lib := catalog.Library()
	src, s, problems := Decode(splitDocument("veil-c-15", "mat-1.5 4"), lib)
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	next, err := edits.AddCount(s, lib, 1, -1).Do(s)
	if err != nil {
		t.Fatal(err)
	}
	_, read, problems := Decode(src.Render(next), lib)
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	for name, now := range map[string]*laminate.Schedule{"edited": next, "read back": read} {
		a := laminate.Analyze(now, lib)
		if in, out := a.Zones[laminate.InteriorLayer].Plies, a.Zones[laminate.StructuralLayer].Plies; in != 1 || out != 2 || len(now.Plies) != 3 {
			t.Errorf("%s: %d inside, %d outside, in %d rows", name, in, out, len(now.Plies))
		}
	}
}

// Whatever stands in a document without zones, it is written back byte for byte,
// and says the same with its zones stated, with every row taken apart into single
// plies, and after tidying.
func TestSplit_changesNothingThatIsSaid(t *testing.T) {
	lib := catalog.Library()
	materials := []string{"veil-c-15", "veil-polyester-15", "mat-1.5", "mat-0.75", "woven-24", "chop-1.5", "topcoat"}
	rapid.Check(t, func(t *rapid.T) {
		var rows []string
		for range rapid.IntRange(1, 7).Draw(t, "rows") {
			rows = append(rows, rapid.SampledFrom(materials).Draw(t, "material")+" "+fmt.Sprint(rapid.IntRange(1, 6).Draw(t, "count")))
		}
		b := splitDocument(rows...)
		src, s, problems := Decode(b, lib)
		if len(problems) > 0 {
			t.Fatal(problems)
		}
		if got := src.Render(s); !bytes.Equal(got, b) {
			t.Fatalf("%q is written as\n%s", rows, got)
		}
		zones := func(s *laminate.Schedule) string {
			a, text := laminate.Analyze(s, lib), ""
			for _, z := range laminate.Zones.All() {
				text += fmt.Sprintf("%s %d %.12g; ", z, a.Zones[z].Plies, a.Zones[z].Thickness)
			}
			return text
		}
		want := zones(s)
		stated := s.Clone()
		for i, z := range laminate.InferZones(s, lib) {
			stated.Plies[i].Zone = z
		}
		if got := zones(stated); got != want {
			t.Fatalf("%q: stated %s, inferred %s", rows, got, want)
		}
		single := s.Clone()
		single.Plies = nil
		for _, p := range s.Plies {
			for range p.Count {
				one := p
				one.Count = 1
				single.Plies = append(single.Plies, one)
			}
		}
		if got := zones(single); got != want {
			t.Fatalf("%q: ply by ply %s, by rows %s", rows, got, want)
		}
		tidy, problems := Tidy(b, lib)
		if len(problems) > 0 {
			t.Fatal(problems)
		}
		_, again, problems := Decode(tidy, lib)
		if len(problems) > 0 || zones(again) != want {
			t.Fatalf("%q: tidied %s, before %s; %v", rows, zones(again), want, problems)
		}
		// One more or one less of any row, or none, is written and read as it
		// stands, and moves no other ply to another zone.
		row := rapid.IntRange(0, len(s.Plies)-1).Draw(t, "row")
		by := rapid.SampledFrom([]int{-1, 1, -s.Plies[row].Count}).Draw(t, "by")
		edit := edits.AddCount(s, lib, row, by)
		if by == -s.Plies[row].Count {
			edit = edits.Remove(s, lib, row)
		}
		next, err := edit.Do(s)
		if err != nil {
			return
		}
		was, is := laminate.Analyze(s, lib), laminate.Analyze(next, lib)
		for _, z := range laminate.Zones.All() {
			n := was.Zones[z].Plies
			if z == was.Rows[row].Zone {
				n += by
			}
			if is.Zones[z].Plies != n {
				t.Fatalf("%q, %+d of row %d, which is %s: %d plies of %s, want %d", rows, by, row, was.Rows[row].Zone, is.Zones[z].Plies, z, n)
			}
		}
		_, read, problems := Decode(src.Render(next), lib)
		if len(problems) > 0 || zones(read) != zones(next) {
			t.Fatalf("%q, %+d of row %d: %s, read back %s; %v\n%s", rows, by, row, zones(next), zones(read), problems, src.Render(next))
		}
	})
}
