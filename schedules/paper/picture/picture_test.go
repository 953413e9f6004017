package picture_test

import (
	"encoding/json"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/schedules/paper/drawing"
	"frp/veilwright/schedules/paper/picture"
)

func said(p *drawing.Picture) string {
	var all []string
	for _, m := range p.Marks {
		all = append(all, m.Text)
	}
	return strings.Join(all, "\n")
}

func vessel(head laminate.Shape) *laminate.Job {
	d, l := quantity.New(10, quantity.Foot), quantity.New(5, quantity.Foot)
	return &laminate.Job{
		Vessel: laminate.Vessel{LiquidHeight: quantity.New(9, quantity.Foot)},
		Parts: []laminate.JobPart{
			{ID: "bottom", Part: laminate.Part{Form: laminate.FlatBottom, InsideDiameter: d}},
			{ID: "low", Part: laminate.Part{Form: laminate.ShellCourse, InsideDiameter: d, Length: l}},
			{ID: "high", Part: laminate.Part{Form: laminate.ShellCourse, InsideDiameter: d, Length: l}},
			{ID: "top", Part: laminate.Part{Form: laminate.HeadPart, InsideDiameter: d, Shape: head}},
			{ID: "line", Part: laminate.Part{Form: laminate.Pipe}},
		},
		Nozzles: []laminate.Nozzle{
			{ID: "N1", On: "low", Size: quantity.New(6, quantity.Inch), Height: quantity.New(2, quantity.Foot), Bearing: laminate.Some(60.0)},
			{ID: "N2", On: "high", Size: quantity.New(3, quantity.Inch), Height: quantity.New(1, quantity.Foot)},
			{ID: "N3", On: "top", Size: quantity.New(24, quantity.Inch), Offset: quantity.New(3, quantity.Foot), Bearing: laminate.Some(200.0)},
		},
	}
}

// extent is how high and wide the bold outline of the vessel is, in mm.
func extent(p *drawing.Picture) (wide, high float64) {
	low, top, left, right := math.Inf(1), math.Inf(-1), math.Inf(1), math.Inf(-1)
	for _, m := range p.Marks {
		if m.Text != "" || m.Closed || m.Stroke != drawing.Bold || len(m.Path) == 2 && m.Path[0].X == m.Path[1].X && math.Abs(m.Path[0].Y-m.Path[1].Y) < 10 {
			continue
		}
		for _, at := range m.Path {
			low, top = math.Min(low, at.Y), math.Max(top, at.Y)
			left, right = math.Min(left, at.X), math.Max(right, at.X)
		}
	}
	return right - left, top - low
}

// The depth of a torispherical head of crown radius D and knuckle radius 0.06 D
// is 0.16934 D, of 0.10 D 0.19377 D: h = L − √((L−r)² − (D/2−r)²), in any handbook
// of pressure vessels. That of an ellipsoidal one is stated.
func TestElevation_isToScale(t *testing.T) {
	ten := quantity.New(10, quantity.Foot)
	for name, c := range map[string]struct {
		shape laminate.Shape
		depth float64 // of the diameter
	}{
		"6 %":      {laminate.Shape{Head: laminate.Torispherical, CrownRadius: ten, KnuckleRadius: quantity.New(0.6, quantity.Foot)}, 0.16934},
		"10 %":     {laminate.Shape{Head: laminate.Torispherical, CrownRadius: ten, KnuckleRadius: quantity.New(1, quantity.Foot)}, 0.19377},
		"2:1":      {laminate.Shape{Head: laminate.Ellipsoidal, Depth: quantity.New(2.5, quantity.Foot)}, 0.25},
		"a sphere": {laminate.Shape{Head: laminate.Hemispherical}, 0.5},
	} {
		p, left, ok := picture.Elevation(vessel(c.shape), quantity.US)
		if !ok {
			t.Fatal("nothing is drawn")
		}
		wide, high := extent(&p)
		if want := 1 + c.depth; math.Abs(high/wide/want-1) > 1e-4 {
			t.Errorf("%s: %.4f high for 1 wide, want %.4f", name, high/wide, want)
		}
		text := said(&p)
		for _, want := range []string{"inside diameter 10 ft", "low, shell course, 5 ft", "liquid 9 ft", "N1, 6 in", "N2, 3 in at 1 ft\nbearing not stated", "N3, 24 in", "scale 1:"} {
			if !strings.Contains(text, want) {
				t.Errorf("%s: %q is not in\n%s", name, want, text)
			}
		}
		if len(left) != 1 || left[0] != "line is not drawn: pipe" {
			t.Errorf("left out: %q", left)
		}
	}
}

func TestElevation_saysWhatItDoesNotDraw(t *testing.T) {
	j := vessel(laminate.Shape{})
	j.Parts[1].Length = quantity.Length{}
	j.Parts[2].InsideDiameter = quantity.Length{}
	_, left, _ := picture.Elevation(j, quantity.US)
	all := strings.Join(left, "\n")
	for _, want := range []string{"low is not drawn: its length is not stated", "high is not drawn: its inside diameter is not stated", "top is not drawn: its shape is not stated"} {
		if !strings.Contains(all, want) {
			t.Errorf("%q is not in\n%s", want, all)
		}
	}
}

func TestPlan_leavesOutNozzlesWithoutABearingAndSaysSo(t *testing.T) {
	p, left, ok := picture.Plan(vessel(laminate.Shape{Head: laminate.Hemispherical}))
	if text := said(&p); !ok || !strings.Contains(text, "N1, 60°") || !strings.Contains(text, "N3, 200°") || strings.Contains(text, "N2") {
		t.Errorf("%v\n%s", ok, text)
	}
	if len(left) != 1 || !strings.Contains(left[0], "nozzle N2") {
		t.Errorf("left out: %q", left)
	}
}

// No ply of an overlay lies in another, none floats above what is under it, and
// the last one ends on the wall: each follows what lies under it.
func TestDraped_layersFollowOneAnother(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 9).Draw(t, "plies")
		first, last := rapid.Float64Range(0.02, 0.2).Draw(t, "first"), rapid.Float64Range(0.02, 0.4).Draw(t, "last")
		j := picture.Joint{Left: picture.JoinedWall{Name: "a", Thickness: 0.008, Barrier: 0.003}, Right: picture.JoinedWall{Name: "b", Thickness: 0.006}, Gap: 0.004, Widths: "some"}
		for i := range n {
			w := first
			if n > 1 {
				w = first + (last-first)*float64(i)/float64(n-1)
			}
			j.Outside = append(j.Outside, picture.Band{Width: w, Thickness: 0.001})
		}
		p, ok := j.Draped()
		if !ok {
			t.Fatal("nothing is drawn")
		}
		for _, m := range p.Marks {
			if !m.Closed || len(m.Path) != 242 {
				continue
			}
			for k := range 121 { // the path goes there along the top and back along the bottom
				top, bottom := m.Path[k].Y, m.Path[241-k].Y
				if top > bottom+1e-9 {
					t.Fatalf("a ply is turned inside out at %d: %.3f under %.3f", k, top, bottom)
				}
			}
			if math.Abs(m.Path[0].Y-m.Path[241].Y) > 1e-9 {
				t.Fatal("a ply does not run out at its end")
			}
		}
		if p.Height <= 0 || p.Height > 200 {
			t.Fatalf("%.1f mm high", p.Height)
		}
	})
}

func TestSection_isToScale(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w := picture.Wall{}
		total := 0.0
		for range rapid.IntRange(1, 30).Draw(t, "layers") {
			l := picture.Layer{Thickness: rapid.Float64Range(0.0001, 0.004).Draw(t, "thickness"), Count: rapid.IntRange(1, 5).Draw(t, "count")}
			total += l.Thickness
			w.Layers = append(w.Layers, l)
		}
		p := w.Section()
		var scale float64
		text := said(&p)
		_, rest, _ := strings.Cut(text, "scale ")
		rest, _, _ = strings.Cut(rest, ",")
		a, b, _ := strings.Cut(rest, ":")
		var x, y float64
		if json.Unmarshal([]byte(a), &x) != nil || json.Unmarshal([]byte(b), &y) != nil {
			t.Fatalf("no scale in %q", text)
		}
		scale = x / y
		low, high := math.Inf(1), math.Inf(-1)
		for _, m := range p.Marks {
			if m.Closed && len(m.Path) == 4 {
				low, high = math.Min(low, m.Path[0].Y), math.Max(high, m.Path[2].Y)
			}
		}
		if math.Abs((high-low)/(total*1000*scale)-1) > 0.005 {
			t.Fatalf("%.3f mm drawn at %g:1 are %.3f", total*1000, scale, high-low)
		}
	})
}
