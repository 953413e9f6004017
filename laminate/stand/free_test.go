package stand

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

func duct(id string, long float64) Part {
	return Part{ID: id, Form: Pipe, Height: long, Wide: 36, Rings: math.NaN()}
}

// What holds a line round are lines of support (ASME VIII UG-28, from memory: flanges,
// stiffening rings, a third of the depth of a head); the lengths are arithmetic: an elbow
// of 54 in and 90° of a bore of 36 in is (54 + 18)·π/2 = 113.1 in on the outside of its
// bend.
func TestFree_goesFromWhatHoldsALineRoundToWhatDoes(t *testing.T) {
	nan := math.NaN()
	flange := func(id string) Part { return Part{ID: id, Form: Flange, Rings: nan} }
	with := func(p Part, change func(*Part)) Part { change(&p); return p }
	flanged := func(p *Part) { p.Flanged = true }
	rings := func(apart float64) func(*Part) { return func(p *Part) { p.Rings = apart } }
	elbow := Part{ID: "E", Form: Elbow, Bend: 54, Wide: 36, Turn: 90, Height: nan, Rings: nan}
	cone := Part{ID: "T", Form: Cone, Wide: 36, Small: 24, Height: 22.392, Rings: nan}
	course := func(id string) Part {
		return Part{ID: id, Form: Course, Wide: 36, Height: 100, Rings: nan, Liquid: nan}
	}
	head := Part{ID: "H", Form: Head, Wide: 36, Height: 9, Rings: nan, Liquid: nan, At: func(float64) float64 { return nan }}
	for name, c := range map[string]struct {
		parts   []Part
		joints  [][2]int
		of      int
		want    float64
		between string // or, after "?", what is not known
	}{
		"strapped from flange to flange": {[]Part{flange("F"), duct("A", 60), duct("B", 60), cone, flange("G")}, [][2]int{{0, 1}, {1, 2}, {2, 3}, {3, 4}}, 2, 142.392, "flange F and flange G"},
		"a flange between":               {[]Part{flange("F"), duct("A", 60), flange("G"), flange("H"), duct("B", 70), flange("K")}, [][2]int{{0, 1}, {1, 2}, {2, 3}, {3, 4}, {4, 5}}, 4, 70, "flange H and flange K"},
		"an elbow, then rings":           {[]Part{flange("F"), duct("A", 240), elbow, with(duct("B", 180), rings(22.5)), duct("C", 50)}, [][2]int{{0, 1}, {1, 2}, {2, 3}, {3, 4}}, 1, 240 + 113.097 + 22.5, "flange F and the first ring of part B"},
		"rings of its own":               {[]Part{duct("A", 240), with(duct("B", 180), rings(22.5)), duct("C", 50)}, [][2]int{{0, 1}, {1, 2}}, 1, 22.5, ""},
		"rings wider apart than it":      {[]Part{with(duct("A", 60), flanged), with(duct("B", 60), rings(322)), with(duct("C", 60), flanged)}, [][2]int{{0, 1}, {1, 2}}, 0, 180, "the flange that part C states (flanged) and the flange that part A states (flanged)"},
		"flanged where straps are":       {[]Part{with(duct("A", 60), flanged), with(duct("B", 60), flanged), duct("C", 60)}, [][2]int{{0, 1}, {1, 2}}, 1, 180, "?free end"},
		"flanged and alone":              {[]Part{with(duct("A", 60), flanged)}, nil, 0, 60, "the flanges that part A states (flanged)"},
		"open at both ends":              {[]Part{duct("A", 60), cone}, [][2]int{{0, 1}}, 1, 82.392, "?free end"},
		"a size that nobody states":      {[]Part{flange("F"), duct("A", nan), duct("B", 60), flange("G")}, [][2]int{{0, 1}, {1, 2}, {2, 3}}, 2, 0, "?part A, which is not held round where it is joined, is not stated (length)"},
		"a tee of joints":                {[]Part{flange("F"), duct("A", 60), duct("B", 60), duct("C", 60)}, [][2]int{{0, 1}, {1, 2}, {1, 3}}, 1, 60, "?more than two joints tie part A"},
		"a ring of pipes":                {[]Part{duct("A", 60), duct("B", 60)}, [][2]int{{0, 1}, {1, 0}}, 0, 120, "?to itself"},
		"a panel":                        {[]Part{flange("F"), duct("A", 60), {ID: "P", Form: Panel}}, [][2]int{{0, 1}, {1, 2}}, 1, 60, "?part P"},
		"a cap":                          {[]Part{flange("F"), duct("A", 60), head}, [][2]int{{0, 1}, {1, 2}}, 1, 63, "flange F and head H"},
		"on the top of a wider head":     {[]Part{flange("F"), with(duct("A", 60), func(p *Part) { p.Wide = 12 }), course("C"), head}, [][2]int{{0, 1}, {1, 3}, {2, 3}}, 1, 60, "flange F and part H"},
		"a shell by itself":              {[]Part{course("C"), course("D"), head}, [][2]int{{0, 1}, {1, 2}}, 1, 203, ""},
		"a shell that goes on as a duct": {[]Part{course("C"), course("D"), duct("A", 60), flange("F")}, [][2]int{{0, 1}, {1, 2}, {2, 3}}, 0, 260, "flange F and the other end of the shell"},
		"the duct that it goes on as":    {[]Part{course("C"), course("D"), duct("A", 60), flange("F")}, [][2]int{{0, 1}, {1, 2}, {2, 3}}, 2, 260, "flange F and the other end of the shell"},
		"a cone of a shell":              {[]Part{with(cone, func(p *Part) { p.ID, p.Liquid = "B", nan }), course("C")}, [][2]int{{0, 1}}, 0, 122.392, ""},
		"a cone between ducts beside it": {[]Part{course("C"), head, flange("F"), duct("A", 60), cone, flange("G")}, [][2]int{{0, 1}, {2, 3}, {3, 4}, {4, 5}}, 4, 82.392, "flange F and flange G"},
	} {
		r := New(c.parts, c.joints, nil, nan, true).Free(c.of)
		unknown, open := strings.CutPrefix(c.between, "?")
		if math.Abs(r.Length-c.want) > 1e-3 || open && !strings.Contains(r.Open, unknown) || !open && (r.Between != c.between || r.Open != "") {
			t.Errorf("%s: %+v, want %v, %q", name, r, c.want, c.between)
		}
	}
	ringed := New([]Part{duct("A", 240), with(duct("B", 180), rings(22.5)), flange("F")}, [][2]int{{0, 1}, {1, 2}}, nil, nan, true)
	if r := ringed.Free(1); r.Ringed != "A" {
		t.Errorf("rings beside a strap: %+v", r)
	}
}

// In a line of straps and flanges the length is that between the nearest two flanges,
// whichever part is asked and in whatever order its joints stand.
func TestFree_isTheSameOfAllThatIsBetween(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var parts []Part
		var joints [][2]int
		var lengths []float64 // by part, of the bay that it is in
		bay, begin := 0.0, 0
		end := func() {
			for i := begin; i < len(parts); i++ {
				lengths = append(lengths, bay)
			}
			bay, begin = 0, len(parts)
		}
		n := rapid.IntRange(1, 12).Draw(t, "parts")
		for i := range n {
			id := fmt.Sprint("p", i)
			if i == 0 || i == n-1 || rapid.IntRange(0, 3).Draw(t, "flange") == 0 {
				end()
				parts, lengths, begin = append(parts, Part{ID: id, Form: Flange}), append(lengths, 0), begin+1
			} else {
				long := rapid.Float64Range(1, 100).Draw(t, "long")
				parts, bay = append(parts, duct(id, long)), bay+long
			}
			if i > 0 {
				joints = append(joints, [2]int{i, i - 1})
			}
		}
		end()
		joints = rapid.Permutation(joints).Draw(t, "joints")
		v := New(parts, joints, nil, math.NaN(), true)
		for i := range parts {
			if r := v.Free(i); math.Abs(r.Length-lengths[i]) > 1e-9 || r.Open != "" {
				t.Fatalf("%s of %d: %+v, want %v", parts[i].ID, n, r, lengths[i])
			}
		}
	})
}
