package edit_test

import (
	"fmt"
	"strings"
	"testing"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/catalog"
	"frp/veilwright/laminate/edit"
)

// Four mats or a quarter of an inch in one go (common practice, no source): a
// mat of 1.5 oz/ft² is about 43 mil in the structure and 49 in the barrier, a
// woven roving of 24 oz/yd² about 35.
func TestRecipe_setsGelStopsWhereTooMuchWouldBeLaid(t *testing.T) {
	mat := func(n int) laminate.Ply { return laminate.Ply{Material: catalog.Mat15, Count: n} }
	woven := laminate.Ply{Material: catalog.Woven24, Count: 1}
	band := laminate.Ply{Material: catalog.BandHelical, Angle: laminate.Some(55.0), Count: 20}
	for _, c := range []struct {
		name      string
		mats      int
		structure []laminate.Ply
		want      string
	}{
		{"four mats go in one", 2, []laminate.Ply{mat(4)}, "veil 2m. 4m coat"},
		{"a fifth wants a stop", 2, []laminate.Ply{mat(5)}, "veil 2m. 4m. 1m coat"},
		{"nine want two", 2, []laminate.Ply{mat(9)}, "veil 2m. 4m. 4m. 1m coat"},
		{"the barrier's own four and two", 6, []laminate.Ply{mat(1)}, "veil 4m. 2m. 1m coat"},
		{"fabrics count by thickness", 2, []laminate.Ply{mat(1), woven, mat(1), woven, mat(1), woven, mat(1)}, "veil 2m. 1m 1w 1m 1w 1m 1w. 1m coat"},
		{"no fabric on a gelled mat", 2, []laminate.Ply{woven, mat(1), woven, mat(1), woven, mat(1), woven}, "veil 2m. 1w 1m 1w 1m 1w. 1m 1w coat"},
		{"but on the last of two", 2, []laminate.Ply{mat(1), woven, mat(1), woven, mat(2), woven}, "veil 2m. 1m 1w 1m 1w 1m. 1m 1w coat"},
		{"winding ends the count", 2, []laminate.Ply{mat(4), band, mat(4)}, "veil 2m. 4m 20b 4m coat"},
		{"no structure, no stop", 2, nil, "veil 2m. coat"},
	} {
		r := edit.Recipe{
			Veil: catalog.VeilC15, Veils: 1, Mat: catalog.Mat15, Mats: c.mats, Structure: c.structure, Coat: catalog.Topcoat,
			Barrier: laminate.Resin{ID: "b", Family: laminate.VinylEster}, Wall: laminate.Resin{ID: "w", Family: laminate.VinylEster},
		}
		s := r.Build(&laminate.Schedule{}, catalog.Library())
		var got []string
		for _, p := range s.Plies {
			word := map[string]string{catalog.VeilC15: "veil", catalog.Topcoat: "coat"}[p.Material]
			if word == "" {
				short := map[string]string{catalog.Mat15: "m", catalog.Woven24: "w", catalog.BandHelical: "b"}
				word = fmt.Sprintf("%d%s", p.Count, short[p.Material])
			}
			if p.GelAfter {
				word += "."
			}
			got = append(got, word)
		}
		if text := strings.Join(got, " "); text != c.want {
			t.Errorf("%s: %s, want %s", c.name, text, c.want)
		}
	}
}
