package widget

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"frp/veilwright/tui/internal/draw"
	"frp/veilwright/tui/internal/keys"
	"frp/veilwright/tui/internal/tuitest"
)

type ply struct {
	id    int
	name  string
	mil   float64
	to    float64
	resin string
	zone  string
	gel   bool
}

func plies(n int) []ply {
	out := []ply{{1, "veil-c-15", 14.6, 14.6, "liner", "inner", false}, {2, "mat-1.5  ×2", 98.4, 113, "liner", "interior", false}, {id: -1, gel: true}}
	for i := 3; len(out) < n; i++ {
		name, zone := "mat-1.5", "structural"
		if i%2 == 0 {
			name = "woven-24"
		}
		out = append(out, ply{i, name, 43.4, 113 + 43.4*float64(i-2), "wall", zone, false})
	}
	return out[:n]
}

func figure(f float64) string { return strconv.FormatFloat(f, 'f', 1, 64) }

func sample(th *draw.Theme) *Table[int, ply] {
	t := NewTable(th, func(p ply) int { return p.id },
		Column[ply]{Title: "ply", Width: 4, Cell: func(p ply) string { return strconv.Itoa(p.id) }},
		Column[ply]{Title: "material", Width: 12, Grow: 1, Cell: func(p ply) string { return p.name }},
		Column[ply]{Title: "each", Width: 6, Right: true, Drop: 1, Cell: func(p ply) string { return figure(p.mil) }},
		Column[ply]{Title: "to here", Width: 7, Right: true, Cell: func(p ply) string { return figure(p.to) }},
		Column[ply]{Title: "resin", Width: 6, Drop: 3, Cell: func(p ply) string { return p.resin }},
		Column[ply]{Title: "zone", Width: 10, Drop: 2, Cell: func(p ply) string { return p.zone }, Look: func(p ply) draw.Style {
			if p.zone == "structural" {
				return th.Structure
			}
			return th.Barrier
		}},
	)
	t.Banner = func(p ply) (string, draw.Style, bool) {
		return "── gel stop: barrier hard before the wall ──", th.Mark, p.gel
	}
	t.Empty = "no plies yet: a digit lays the first"
	return t
}

func (t *Table[K, R]) at() any {
	r, ok := t.Selected()
	if !ok {
		return "none"
	}
	return t.key(r)
}

func TestSetRows_selectionStaysWithItsRow(t *testing.T) {
	tab := sample(draw.New(draw.Mono))
	tab.SetRows(plies(8))
	if tab.at() != 1 {
		t.Fatalf("at first %v is selected", tab.at())
	}
	tab.Select(5)
	for _, tc := range []struct {
		name string
		rows []ply
		want any
	}{
		{"a row more before it", slices.Insert(plies(8), 1, ply{id: 99}), 5},
		{"turned around", func() []ply { p := plies(8); slices.Reverse(p); return p }(), 5},
		{"gone: the row now at its place", slices.DeleteFunc(plies(8), func(p ply) bool { return p.id == 5 }), 3},
		{"all gone", nil, "none"},
		{"back again", plies(8), 1},
	} {
		tab.SetRows(tc.rows)
		if tab.at() != tc.want {
			t.Errorf("%s: %v is selected, want %v", tc.name, tab.at(), tc.want)
		}
	}
	tab.SetRows([]ply{{id: -1, gel: true}})
	if tab.at() != "none" {
		t.Errorf("a banner alone: %v is selected", tab.at())
	}
}

func TestHandle_moves(t *testing.T) {
	tab := sample(draw.New(draw.Mono))
	tab.SetRows(plies(20))
	tab.Fit(6)
	for _, tc := range []struct {
		key  string
		want any
	}{
		{"up", 1}, {"down", 2}, {"down", 3}, {"up", 2}, {"end", 19}, {"down", 19}, {"home", 1}, {"pgdown", 5}, {"pgup", 1},
	} {
		if !tab.Handle(keys.Key(tc.key)) {
			t.Errorf("%s is not taken", tc.key)
		}
		if tab.at() != tc.want {
			t.Errorf("%s: %v is selected, want %v", tc.key, tab.at(), tc.want)
		}
	}
	if tab.Handle(keys.Key("x")) {
		t.Error("x is taken")
	}
	var empty Table[int, ply]
	empty.sel = -1
	empty.Handle(keys.Key("down"))
	if empty.at() != "none" {
		t.Error("an empty table has a selection after a key")
	}
}

func TestTableView_golden(t *testing.T) {
	tab := sample(draw.New(draw.Mono))
	tab.Fit(4)
	tuitest.Golden(t, "empty 62x4", tuitest.Box(t, tab.View(62, 4), 62, 4))
	tab.SetRows(plies(9))
	tab.Select(8)
	tab.Fit(11)
	tuitest.Golden(t, "wide 62x11", tuitest.Box(t, tab.View(62, 11), 62, 11))
	tab.Fit(6)
	tuitest.Golden(t, "resin dropped 50x6", tuitest.Box(t, tab.View(50, 6), 50, 6))
	tab.Fit(6)
	tuitest.Golden(t, "each dropped 30x6", tuitest.Box(t, tab.View(30, 6), 30, 6))
	tab.SetRows(plies(40))
	tab.Select(20)
	tab.Fit(7)
	tuitest.Golden(t, "scrolled 62x7", tuitest.Box(t, tab.View(62, 7), 62, 7))
	col := sample(draw.New(draw.Dark))
	col.SetRows(plies(5))
	col.Select(3)
	col.Fit(6)
	tuitest.Golden(t, "dark 40x6", tuitest.Visible(tuitest.Box(t, col.View(40, 6), 40, 6)))
}

func TestTableView_anySize(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		tab := sample(draw.New(rapid.SampledFrom(draw.Kinds()).Draw(t, "theme")))
		tab.SetRows(plies(rapid.IntRange(0, 60).Draw(t, "n")))
		w, h := rapid.IntRange(1, 250).Draw(t, "w"), rapid.IntRange(1, 80).Draw(t, "h")
		for _, k := range rapid.SliceOfN(rapid.SampledFrom([]string{"up", "down", "pgup", "pgdown", "home", "end"}), 0, 20).Draw(t, "keys") {
			tab.Handle(keys.Key(k))
			tab.Fit(h)
		}
		tab.Fit(h)
		tuitest.Box(t, tab.View(w, h), w, h)
		if i := tab.Index(); i >= 0 && (i < tab.top || i >= tab.top+tab.height) {
			t.Fatalf("row %d is out of sight of %d rows from %d", i, tab.height, tab.top)
		}
	})
}

func TestView_asksOnlyRowsInSight(t *testing.T) {
	asked := 0
	tab := NewTable(draw.New(draw.Mono), func(i int) int { return i }, Column[int]{Title: "n", Width: 5, Cell: func(i int) string { asked++; return strconv.Itoa(i) }})
	rows := make([]int, 2000)
	for i := range rows {
		rows[i] = i
	}
	tab.SetRows(rows)
	tab.View(80, 20)
	if asked != 19 {
		t.Errorf("%d cells asked for, want 19", asked)
	}
}

func BenchmarkTableView(b *testing.B) {
	for _, n := range []int{40, 2000} {
		b.Run(fmt.Sprintf("%d rows 120x36", n), func(b *testing.B) {
			tab := sample(draw.New(draw.Dark))
			rows := plies(n)
			b.ReportAllocs()
			for b.Loop() {
				tab.SetRows(rows)
				tab.Handle(keys.Key("down"))
				tab.View(120, 36)
			}
		})
	}
}

// Reverse never hides a bar: of the selected row everything but what is drawn in
// it is turned over.
func TestTable_selectionLeavesABarAsItIs(t *testing.T) {
	th := draw.New(draw.Dark)
	columns := []Column[int]{
		{Title: "name", Width: 4, Cell: func(int) string { return "hoop" }},
		{Title: "bar", Width: 6, Fill: func(_ int, cells int) string { return draw.Run("█", cells-2) + "··" }, Look: func(int) draw.Style { return th.Gauge }},
		{Title: "word", Width: 5, Cell: func(int) string { return "holds" }},
	}
	table := NewTable(th, func(i int) int { return i }, columns...)
	table.SetRows([]int{1, 2})
	lines := table.View(30, 3)
	if want := th.Selected.Render("▸ hoop ") + th.Gauge.Render("████··") + th.Selected.Render(" holds"); !strings.HasPrefix(lines[1], strings.TrimSuffix(want, "\x1b[m")) {
		t.Errorf("the selected row is %q", lines[1])
	}
	if !strings.Contains(lines[2], th.Gauge.Render("████··")) {
		t.Errorf("another row is %q", lines[2])
	}
}
