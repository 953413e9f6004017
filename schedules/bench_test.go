package schedules

import (
	"fmt"
	"testing"

	"github.com/BurntSushi/toml"

	"frp/veilwright/laminate"
)

// tenPlies is a usual document: the example with ten ply tables.
func tenPlies() []byte {
	b := Example()
	for i := range 5 {
		b = fmt.Appendf(b, "\n[[ply]]\nmaterial = \"mat-1.5\"\nresin    = \"structure\"\nzone     = \"outer-surface\"\ncount    = %d\n", i+1)
	}
	return b
}

// BenchmarkBareTOML is the floor: the value reader alone, into a map.
func BenchmarkBareTOML(b *testing.B) {
	text := string(tenPlies())
	b.ReportAllocs()
	for b.Loop() {
		var m map[string]any
		if _, err := toml.Decode(text, &m); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkDecode(b *testing.B) {
	text := tenPlies()
	b.ReportAllocs()
	for b.Loop() {
		if _, _, problems := Decode(text, nil); len(problems) > 0 {
			b.Fatal(problems)
		}
	}
}

// BenchmarkRender is what the journal costs after an edit.
func BenchmarkRender(b *testing.B) {
	for _, n := range []int{40, 2000} {
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			s := &laminate.Schedule{Head: laminate.Head{Title: "x"}, Resins: []laminate.Resin{{ID: "r", Family: laminate.VinylEster}}}
			for range n {
				s.Plies = append(s.Plies, laminate.Ply{Material: "mat-1.5", Resin: "r", Count: 1})
			}
			src, s, problems := Decode(New(s).Render(s), nil)
			if len(problems) > 0 {
				b.Fatal(problems)
			}
			s = s.Clone()
			s.Plies[n/2].Count = 2
			b.ReportAllocs()
			for b.Loop() {
				src.Render(s)
			}
		})
	}
}
