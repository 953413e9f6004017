package editor_test

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"runtime"
	"testing"

	"pgregory.net/rapid"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/catalog"
	"frp/veilwright/laminate/edit"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/schedules"
	"frp/veilwright/schedules/editor"
)

var ids = []string{"veil-c-15", "veil-polyester-15", "mat-1.5", "woven-24", "uni-13", "band-hoop", "band-helical", "topcoat"}

func anyEdit(t *rapid.T, s *laminate.Schedule, l *laminate.Library) edit.Edit {
	row := rapid.IntRange(-1, len(s.Plies)).Draw(t, "row")
	k := rapid.IntRange(0, 4).Draw(t, "k")
	id := rapid.SampledFrom(ids).Draw(t, "id")
	var e edit.Edit
	switch rapid.IntRange(0, 16).Draw(t, "kind") {
	case 0:
		e = edit.AddCount(s, l, row, k-1)
	case 1:
		e = edit.Remove(s, l, row)
	case 2:
		e = edit.Move(s, l, row, k)
	case 3:
		e = edit.SwapMaterial(s, l, row, id)
	case 4:
		e = edit.SwapEverywhere(s, l, rapid.SampledFrom(ids).Draw(t, "old"), id)
	case 5:
		e = edit.TimesBarrier(s, l, 2)
	case 6:
		e = edit.TimesStructure(s, l, 2)
	case 7:
		e = edit.SetGel(s, l, row, k > 1)
	case 8:
		e = edit.SetPly(s, l, row, "glass_content", "glass content", func(p *laminate.Ply) {
			p.GlassContent = laminate.Some(rapid.Float64Range(0.01, 0.95).Draw(t, "share"))
		})
	case 9:
		e = edit.SetPart("length", "length", func(p *laminate.Part) { p.Length = quantity.New(float64(k+1), quantity.Foot) })
	case 10:
		e = edit.SetService("temperature", "temperature", func(v *laminate.Service) { v.Temperature = quantity.New(float64(100+k), quantity.Fahrenheit) })
	case 11:
		title := rapid.StringMatching(`[a-z "#\\é]{0,8}`).Draw(t, "title")
		e = edit.SetHeader("title", "title", func(s *laminate.Schedule) { s.Title = title })
	case 12:
		e = edit.AddResin(s, laminate.Resin{ID: fmt.Sprintf("resin %d", k), Family: laminate.Isophthalic})
	case 13:
		e = edit.SetResin(s, k, "id", "id", func(r *laminate.Resin) { r.ID += "x" })
	case 14:
		e = edit.RemoveResin(s, k)
	case 15:
		e = edit.Duplicate(s, l, row)
	default:
		e = edit.AddPly(s, l, row, id)
	}
	if rapid.Bool().Draw(t, "merge") {
		e.Merge = "any"
	}
	return e
}

// The texts that edits begin from: with comments, zones and odd spellings.
var texts = []string{
	document,
	"document = \"schedule\"\nformat = 1\n[[resin]]\nid = \"r\"\nfamily = \"vinyl-ester\"\n",
	"# top\r\ndocument = \"schedule\"\r\nformat = 1\r\n\r\n[[resin]]\r\nid = 'r' # one\r\nfamily = \"vinyl-ester\"\r\n[[ply]]\r\nmaterial = \"mat-1.5\"\r\nresin='r'\r\nzone = \"structural-layer\"\r\ncount=3",
	"document = \"schedule\"\nformat = 1\nresin = [{ id = \"r\", family = \"vinyl-ester\" }]\nply = [{ material = \"mat-1.5\", resin = \"r\" }, { material = \"woven-24\", resin = \"r\" }]\n",
}

func TestHistory_anyEditsAndAsManyUndosGiveTheLoadedBytes(t *testing.T) {
	home(t)
	rapid.Check(t, func(t *rapid.T) {
		text := rapid.SampledFrom(texts).Draw(t, "text")
		d, err := editor.FromBytes("any", []byte(text), none)
		if err != nil {
			t.Fatal(err)
		}
		states := [][]byte{bytes.Clone(d.Bytes())}
		for range rapid.IntRange(1, 12).Draw(t, "edits") {
			e := anyEdit(t, d.Now(), d.Library())
			e.Merge = ""
			rev := d.Revision()
			if err := d.Apply(e); err == nil && d.Revision() != rev {
				states = append(states, bytes.Clone(d.Bytes()))
			}
		}
		for i := len(states) - 1; i > 0; i-- {
			if !bytes.Equal(d.Bytes(), states[i]) {
				t.Fatalf("before undo %d:\n%s\nwas\n%s", i, d.Bytes(), states[i])
			}
			if _, _, ok := d.Undo(); !ok {
				t.Fatalf("no undo of edit %d", i)
			}
		}
		if string(d.Bytes()) != text || d.Dirty() || d.CanUndo() {
			t.Fatalf("undone to the start: dirty %v\n%s", d.Dirty(), d.Bytes())
		}
		for i := 1; i < len(states); i++ {
			if _, _, ok := d.Redo(); !ok || !bytes.Equal(d.Bytes(), states[i]) {
				t.Fatalf("redone %d:\n%s\nwas\n%s", i, d.Bytes(), states[i])
			}
		}
	})
}

func TestHistory_mergedEditsUndoToTheSameStart(t *testing.T) {
	home(t)
	rapid.Check(t, func(t *rapid.T) {
		d, err := editor.FromBytes("any", []byte(document), none)
		if err != nil {
			t.Fatal(err)
		}
		for range rapid.IntRange(1, 12).Draw(t, "edits") {
			if rapid.IntRange(0, 4).Draw(t, "undo") == 0 {
				d.Undo()
				continue
			}
			// Refused edits are part of it.
			_ = d.Apply(anyEdit(t, d.Now(), d.Library()))
		}
		for d.CanUndo() {
			d.Undo()
		}
		if string(d.Bytes()) != document || d.Dirty() {
			t.Fatalf("undone to the start:\n%s", d.Bytes())
		}
	})
}

// What is saved is read back as what was saved.
func TestSave_thenOpenIsTheSameSchedule(t *testing.T) {
	home(t)
	dir := t.TempDir()
	rapid.Check(t, func(rt *rapid.T) {
		path := filepath.Join(dir, "any.toml")
		if err := os.WriteFile(path, []byte(rapid.SampledFrom(texts).Draw(rt, "text")), 0o644); err != nil {
			rt.Fatal(err)
		}
		d, err := editor.Open(path, none)
		if err != nil {
			rt.Fatal(err)
		}
		for range rapid.IntRange(0, 8).Draw(rt, "edits") {
			_ = d.Apply(anyEdit(rt, d.Now(), d.Library()))
		}
		if err := d.Save(); err != nil {
			rt.Fatalf("%v\n%s", err, d.Bytes())
		}
		want := laminate.Analyze(d.Now(), d.Library())
		canonical := schedules.New(d.Now()).Render(d.Now())
		if d.Dirty() {
			rt.Fatal("dirty after a save")
		}
		if err := d.Close(); err != nil {
			rt.Fatal(err)
		}
		again, err := editor.Open(path, none)
		if err != nil {
			rt.Fatal(err)
		}
		defer again.Close()
		if got := schedules.New(again.Now()).Render(again.Now()); !bytes.Equal(got, canonical) {
			rt.Fatalf("read back\n%s\nwas\n%s", got, canonical)
		}
		if a := laminate.Analyze(again.Now(), again.Library()); a.Total != want.Total || a.BarrierEnd != want.BarrierEnd {
			rt.Fatalf("read back %+v, was %+v", a.Total, want.Total)
		}
	})
}

// long is a document of many rows.
func long(rows int) []byte {
	s := &laminate.Schedule{Resins: []laminate.Resin{{ID: "r", Family: laminate.VinylEster}}}
	for i := range rows {
		s.Plies = append(s.Plies, laminate.Ply{Material: []string{catalog.Mat15, catalog.Woven24}[i%2], Resin: "r", Count: 1})
	}
	return schedules.New(s).Render(s)
}

func TestHistory_ofALongScheduleStaysSmall(t *testing.T) {
	home(t)
	d, err := editor.FromBytes("long", long(2000), none)
	if err != nil {
		t.Fatal(err)
	}
	// A copy of the rows for each edit would be some 50 MB.
	const edits, most = 200, 4 << 20
	before := heap()
	for range edits {
		if err := d.Apply(edit.AddCount(d.Now(), d.Library(), 1000, 1)); err != nil {
			t.Fatal(err)
		}
	}
	if grown := heap() - before; grown > most {
		t.Errorf("%d edits of one ply keep %d bytes", edits, grown)
	}
	for d.CanUndo() {
		d.Undo()
	}
	if d.Dirty() || d.Now().Plies[1000].Count != 1 {
		t.Errorf("undone: %+v", d.Now().Plies[1000])
	}
}

func heap() int64 {
	runtime.GC()
	var m runtime.MemStats
	runtime.ReadMemStats(&m)
	return int64(m.HeapAlloc)
}

func BenchmarkEdit(b *testing.B) {
	b.Setenv("XDG_STATE_HOME", b.TempDir())
	for _, rows := range []int{40, 2000} {
		d, err := editor.FromBytes("long", long(rows), none)
		if err != nil {
			b.Fatal(err)
		}
		by := 1
		step := func(b *testing.B, then func()) {
			b.ReportAllocs()
			for b.Loop() {
				if err := d.Apply(edit.AddCount(d.Now(), d.Library(), rows/2, by)); err != nil {
					b.Fatal(err)
				}
				by = -by
				then()
			}
		}
		b.Run(fmt.Sprintf("rows=%d/apply", rows), func(b *testing.B) { step(b, func() {}) })
		b.Run(fmt.Sprintf("rows=%d/journal", rows), func(b *testing.B) {
			step(b, func() {
				if err := d.Journal(); err != nil {
					b.Fatal(err)
				}
			})
		})
		if err := d.Discard(); err != nil {
			b.Fatal(err)
		}
		d.Close()
	}
}
