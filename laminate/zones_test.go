package laminate_test

import (
	"strings"
	"testing"

	"frp/veilwright/laminate"
)

// build reads "veil*2 mat. woven/b mat=structural-layer": count after *, resin
// after /, zone after =, and a full stop is a gel stop.
func build(t *testing.T, text string) *laminate.Schedule {
	t.Helper()
	var plies []laminate.Ply
	for _, w := range strings.Fields(text) {
		p := laminate.Ply{Count: 1, Resin: "a"}
		w, p.GelAfter = strings.CutSuffix(w, ".")
		w, zone, stated := strings.Cut(w, "=")
		if stated {
			var ok bool
			if p.Zone, ok = laminate.Zones.Parse(zone); !ok {
				t.Fatalf("zone %q", zone)
			}
		}
		if name, resin, ok := strings.Cut(w, "/"); ok {
			w, p.Resin = name, resin
		}
		if name, count, ok := strings.Cut(w, "*"); ok {
			w, p.Count = name, int(count[0]-'0')
		}
		p.Material = w
		plies = append(plies, p)
	}
	return schedule(plies...)
}

func TestInferZones(t *testing.T) {
	letters := map[laminate.Zone]string{laminate.InnerSurface: "S", laminate.InteriorLayer: "L", laminate.StructuralLayer: "T", laminate.OuterSurface: "O"}
	for _, c := range []struct{ name, plies, want string }{
		{"usual wall", "veil mat mat. woven mat veil coat", "SLLTTOO"},
		{"sprayed chop is chopped", "veil chop mat woven", "SLLT"},
		{"the gel stop's row belongs to it", "veil mat. mat woven", "SLTT"},
		{"two after one veil", "veil mat mat mat", "SLLT"},
		{"four after two veils", "veil veil mat mat mat mat mat", "SSLLLLT"},
		{"a row of two veils is two", "veil*2 mat*4 mat", "SLT"},
		{"a row that does not fit whole is structure", "veil mat*3 woven", "STT"},
		{"and ends the layer", "veil mat mat*2 mat", "SLTT"},
		{"another resin ends it", "veil mat mat/b woven", "SLTT"},
		{"another resin than the veil's", "veil mat/b mat/b", "STT"},
		{"another form ends it", "veil mat woven mat", "SLTT"},
		{"a stated zone ends it", "veil mat mat=structural-layer mat", "SLTT"},
		{"even the same one", "veil mat=interior-layer mat", "SLT"},
		{"stated veils lead all the same", "veil=inner-surface mat*2 woven", "SLT"},
		{"a veil stated elsewhere does not lead", "veil=structural-layer mat woven", "TTT"},
		{"no leading veil, no barrier", "mat mat woven", "TTT"},
		{"a coat first is no veil", "coat mat woven", "TTT"},
		{"nothing but veils", "veil veil", "SS"},
		{"veil and coat", "veil coat", "SO"},
		{"a coat under a mat is structure", "veil mat*2. woven coat mat", "SLTTT"},
		{"veils and coats outside in any order", "veil mat*2. woven coat veil coat", "SLTOOO"},
		{"a stated coat outside does not hide the veil", "veil mat*2. woven veil coat=structural-layer", "SLTOT"},
		{"a gel stop on the veil ends nothing", "veil. mat mat woven", "SLLT"},
		{"an unknown material is another form", "veil mat cloth mat", "SLTT"},
		{"empty", "", ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			s := build(t, c.plies)
			got := ""
			for _, z := range laminate.InferZones(s, library()) {
				got += letters[z]
			}
			if got != c.want {
				t.Errorf("%s: %s, want %s", c.plies, got, c.want)
			}
			for i, row := range laminate.Analyze(s, library()).Rows {
				if letters[row.Zone] != c.want[i:i+1] || row.ZoneGiven != (s.Plies[i].Zone != laminate.NoZone) {
					t.Errorf("the analysis says %v (given %v) of row %d", row.Zone, row.ZoneGiven, i)
				}
			}
		})
	}
}
