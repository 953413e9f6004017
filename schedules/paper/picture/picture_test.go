package picture_test

import (
	"encoding/json"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/schedules/paper/drawing"
	"frp/veilwright/schedules/paper/drawing/font"
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
		for _, want := range []string{"inside diameter 10 ft", "low, shell course, 5 ft", "liquid 9 ft", "N1, 6 in", "N2, 3 in at 1 ft, bearing not stated", "N3, 24 in", "scale 1:"} {
			if !strings.Contains(text, want) {
				t.Errorf("%s: %q is not in\n%s", name, want, text)
			}
		}
		if len(left) != 0 {
			t.Errorf("left out: %q", left)
		}
	}
}

// What is stated to the inch reads so: 14 ft 3 in is no 14.2 ft, 16 in is no 1.3 ft.
func TestElevation_keepsTheDigitsStated(t *testing.T) {
	j := vessel(laminate.Shape{Head: laminate.Hemispherical})
	j.Vessel.LiquidHeight, j.Parts[1].Length = quantity.New(9.25, quantity.Foot), quantity.New(5.25, quantity.Foot)
	j.Parts[0].InsideDiameter, j.Parts[1].InsideDiameter, j.Parts[2].InsideDiameter, j.Parts[3].InsideDiameter = quantity.New(10.25, quantity.Foot), quantity.New(10.25, quantity.Foot), quantity.New(10.25, quantity.Foot), quantity.New(10.25, quantity.Foot)
	j.Nozzles[1].Height, j.Nozzles[1].Size = quantity.New(1.25, quantity.Foot), quantity.New(0.375, quantity.Inch)
	p, _, _ := picture.Elevation(j, quantity.US)
	for _, want := range []string{"liquid 111 in", "N2, 0.375 in at 15 in", "low, shell course, 63 in", "inside diameter 10.25 ft"} {
		if text := said(&p); !strings.Contains(text, want) {
			t.Errorf("%q is not in\n%s", want, text)
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

// Wherever nozzles stand, no name is written over another, and none is lost.
func TestNozzles_areNamedWithoutCoveringOneAnother(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		j := vessel(laminate.Shape{Head: laminate.Hemispherical})
		j.Nozzles = nil
		for i := range rapid.IntRange(1, 9).Draw(t, "nozzles") {
			j.Nozzles = append(j.Nozzles, laminate.Nozzle{
				ID: "N" + strconv.Itoa(i), On: rapid.SampledFrom([]string{"low", "high", "top"}).Draw(t, "on"), Size: quantity.New(float64(rapid.IntRange(1, 24).Draw(t, "size")), quantity.Inch),
				Height: quantity.New(float64(rapid.IntRange(0, 60).Draw(t, "height")), quantity.Inch), Offset: quantity.New(float64(rapid.IntRange(0, 50).Draw(t, "offset")), quantity.Inch),
				Bearing: laminate.Some(float64(rapid.IntRange(0, 359).Draw(t, "bearing"))),
			})
		}
		elevation, _, _ := picture.Elevation(j, quantity.US)
		plan, _, _ := picture.Plan(j)
		for what, p := range map[string]*drawing.Picture{"elevation": &elevation, "plan": &plan} {
			for i := range j.Nozzles {
				if !strings.Contains(said(p)+"\n", "\n"+j.Nozzles[i].ID+",") {
					t.Errorf("%s: %s is not named in\n%s", what, j.Nozzles[i].ID, said(p))
				}
			}
			for i := range p.Marks {
				for k := range i {
					if a, b := &p.Marks[i], &p.Marks[k]; a.Text != "" && b.Text != "" && covers(a, b) {
						t.Errorf("%s: %q lies over %q", what, a.Text, b.Text)
					}
				}
			}
		}
	})
}

// covers tells whether the letters of two texts meet: an em of 8 pt is 2.8 mm.
func covers(a, b *drawing.Mark) bool {
	span := func(m *drawing.Mark) (from, to float64) {
		w := font.Width(m.Text, m.Size, m.Bold)
		from = m.At.X - w*map[drawing.Anchor]float64{drawing.Start: 0, drawing.Middle: 0.5, drawing.End: 1}[m.Anchor]
		return from, from + w
	}
	a1, a2 := span(a)
	b1, b2 := span(b)
	return a1 < b2 && b1 < a2 && math.Abs(a.At.Y-b.At.Y) < 2
}

// Every part that does not stand in the vessel is drawn by itself, with its
// measures and to a scale that a rule reads, or it is said why it is not.
func TestPieces_areDrawnToScaleOrSaidToBeMissing(t *testing.T) {
	inch := func(v float64) quantity.Length { return quantity.New(v, quantity.Inch) }
	j := &laminate.Job{Parts: []laminate.JobPart{
		{ID: "line", Part: laminate.Part{Form: laminate.Pipe, InsideDiameter: inch(6), Length: inch(60), Shape: laminate.Shape{Count: laminate.Some(3)}}},
		{ID: "bend", Part: laminate.Part{Form: laminate.Elbow, InsideDiameter: inch(6), Shape: laminate.Shape{BendRadius: inch(9), Turn: laminate.Some(90.0), Miters: laminate.Some(0)}}},
		{ID: "cut", Part: laminate.Part{Form: laminate.Elbow, InsideDiameter: inch(24), Shape: laminate.Shape{BendRadius: inch(36), Turn: laminate.Some(90.0), Miters: laminate.Some(2)}}},
		{ID: "ring", Part: laminate.Part{Form: laminate.Flange, Shape: laminate.Shape{Size: inch(6), Drilling: laminate.Class150}}},
		{ID: "lid", Part: laminate.Part{Form: laminate.Cover, InsideDiameter: inch(30)}},
		{ID: "wall", Part: laminate.Part{Form: laminate.Panel, Length: inch(96), Shape: laminate.Shape{Width: inch(36)}}},
		{ID: "vague", Part: laminate.Part{Form: laminate.Duct, InsideDiameter: inch(48)}},
		{ID: "course", Part: laminate.Part{Form: laminate.ShellCourse}},
	}}
	rows, left := picture.Pieces(j, quantity.US)
	if len(rows) != 2 || len(left) != 1 || left[0] != "vague is not drawn: the length is not stated (length)" {
		t.Fatalf("%d rows, left out %q", len(rows), left)
	}
	all := said(&rows[0]) + "\n" + said(&rows[1])
	// Class 150, 6 in: 11 in outside, 8 bolts of 3/4 in on 9 1/2 in (ASME B16.5, from memory).
	for _, want := range []string{"line, pipe ×3", "5 ft", "inside diameter 6 in", "90°, smooth, bend radius 9 in", "90°, 2 miters, bend radius 36 in", "outside 11 in, bolt circle 9.5 in", "8 holes 0.88 in, size 6 in",
		"lid, cover", "30 in", "96 in", "by 36 in", "scale 1:20"} {
		if !strings.Contains(all, want) {
			t.Errorf("%q is not in\n%s", want, all)
		}
	}
	// The pipe is ten times as long as it is wide, the panel 8 by 3.
	for i, ratio := range map[int]float64{0: 10, 1: 96.0 / 36} {
		found := false
		for _, m := range rows[i].Marks {
			if len(m.Path) == 4 && m.Closed && m.Stroke == drawing.Bold {
				found = found || math.Abs((m.Path[2].X-m.Path[0].X)/(m.Path[2].Y-m.Path[0].Y)/ratio-1) < 1e-9
			}
		}
		if !found {
			t.Errorf("row %d has no rectangle of %g to 1", i, ratio)
		}
	}
	for _, p := range rows {
		for _, m := range p.Marks {
			for _, at := range append(m.Path, m.At) {
				if at.X < 0 || at.X > p.Width || at.Y < 0 || at.Y > p.Height {
					t.Errorf("%+v lies beside the picture", m)
				}
			}
		}
	}
}

// +30° turns to the right of the axis seen from outside, and to the left of it
// seen from inside; a band runs both ways.
func TestAngles_turnOverFromInside(t *testing.T) {
	list := []picture.Angle{{Degrees: 30}, {Degrees: 55, Both: true}}
	for inside, want := range map[bool]float64{false: 1, true: -1} {
		p := picture.Angles(list, inside)
		var bold []drawing.Mark
		for _, m := range p.Marks {
			if m.Stroke == drawing.Bold {
				bold = append(bold, m)
			}
		}
		if len(bold) != 3 {
			t.Fatalf("%d lines", len(bold))
		}
		top := bold[0].Path[1]
		if bold[0].Path[0].Y < top.Y {
			top = bold[0].Path[0]
		}
		mid := (bold[0].Path[0].X + bold[0].Path[1].X) / 2
		if got := (top.X - mid) / 9; math.Abs(got-want*0.5) > 1e-9 { // the sine of 30°
			t.Errorf("inside %v: the line turns by %g", inside, got)
		}
		if text := said(&p); !strings.Contains(text, "±55°") || !strings.Contains(text, map[bool]string{false: "from outside", true: "the sign is turned over"}[inside]) {
			t.Errorf("inside %v: %s", inside, text)
		}
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

// crowded is a vessel of so many courses with so many nozzles on all of its parts.
func crowded(courses, nozzles int) *laminate.Job {
	j := vessel(laminate.Shape{Head: laminate.Hemispherical})
	low := j.Parts[1]
	for i := range courses - 2 {
		low.ID = "course " + strconv.Itoa(i)
		j.Parts = slices.Insert(j.Parts, 2, low)
	}
	j.Nozzles = nil
	for i := range nozzles {
		j.Nozzles = append(j.Nozzles, laminate.Nozzle{
			ID: "N" + strconv.Itoa(i), On: j.Parts[i%(len(j.Parts)-1)].ID, Size: quantity.New(2, quantity.Inch), Height: quantity.New(float64(i*7%60), quantity.Inch),
			Offset: quantity.New(float64(i*11%55), quantity.Inch), Bearing: laminate.Some(float64(i * 37 % 360)),
		})
	}
	return j
}

// Of a crowd as much is drawn as can be read, and the rest is counted.
func TestPictures_sayHowMuchOfACrowdTheyLeaveOut(t *testing.T) {
	for _, c := range []struct{ courses, nozzles int }{{2, 960}, {3, 60}, {200, 300}, {900, 0}} {
		j := crowded(c.courses, c.nozzles)
		elevation, left, _ := picture.Elevation(j, quantity.US)
		plan, beside, _ := picture.Plan(j)
		for _, of := range []struct {
			what string
			p    *drawing.Picture
			left []string
		}{{"elevation", &elevation, left}, {"plan", &plan, beside}} {
			name, named := fmt.Sprintf("%s of %d courses, %d nozzles", of.what, c.courses, c.nozzles), 0
			for i := range of.p.Marks {
				m := &of.p.Marks[i]
				if m.Text == "" {
					continue
				}
				if strings.HasPrefix(m.Text, "N") {
					named++
				}
				if m.At.Y < 0 || m.At.Y > of.p.Height {
					t.Errorf("%s: %q stands %.0f mm down of %.0f", name, m.Text, m.At.Y, of.p.Height)
				}
				for k := range i {
					if b := &of.p.Marks[k]; b.Text != "" && covers(m, b) {
						t.Errorf("%s: %q lies over %q", name, m.Text, b.Text)
					}
				}
			}
			out := 0
			for _, l := range of.left {
				if n, rest, ok := strings.Cut(l, " nozzles are not "); ok && strings.HasSuffix(rest, "there is no room for the name; the table of nozzles has them") {
					out, _ = strconv.Atoi(n)
				}
			}
			if named+out != c.nozzles {
				t.Errorf("%s: %d named and %d said to be left out: %q", name, named, out, of.left)
			}
		}
		// Names do not wander from what they name: those of the uppermost parts are not pushed off.
		if c.courses == 200 && !strings.Contains(said(&elevation), "course 4, shell course, 5 ft") {
			t.Error("of 200 courses the uppermost have no name")
		}
		if c.courses > 100 && (!strings.Contains(strings.Join(left, "\n"), "are not named in the picture: there is no room") || !strings.Contains(strings.Join(left, "\n"), "courses are too low at this scale")) {
			t.Errorf("%d courses: %q", c.courses, left)
		}
	}
}

// A neck stands on the outside of what it is on: below a bottom, above a head; it is
// at the side that the plan has, and hidden there where the vessel is over it.
func TestElevation_nozzlesStandOnTheOutsideAndAsThePlanHasThem(t *testing.T) {
	ten := quantity.New(10, quantity.Foot)
	n := laminate.Nozzle{ID: "N", Size: quantity.New(6, quantity.Inch), Height: quantity.New(1, quantity.Foot), Offset: quantity.New(3, quantity.Foot), Projection: quantity.New(8, quantity.Inch)}
	for name, c := range map[string]struct {
		part    laminate.Part
		on      int // part 0 is below, part 3 above
		bearing float64
		below   bool
	}{
		"flat bottom":  {laminate.Part{Form: laminate.FlatBottom}, 0, 90, true},
		"lower head":   {laminate.Part{Form: laminate.HeadPart, Shape: laminate.Shape{Head: laminate.Hemispherical}}, 0, 270, true},
		"lower cone":   {laminate.Part{Form: laminate.Cone, Shape: laminate.Shape{HalfAngle: laminate.Some(45.0), SmallDiameter: quantity.New(1, quantity.Foot)}}, 0, 90, true},
		"flat on top":  {laminate.Part{Form: laminate.FlatBottom}, 3, 270, false},
		"head on top":  {laminate.Part{Form: laminate.HeadPart, Shape: laminate.Shape{Head: laminate.Hemispherical}}, 3, 90, false},
		"cone on top ": {laminate.Part{Form: laminate.Cone, Shape: laminate.Shape{HalfAngle: laminate.Some(45.0), SmallDiameter: quantity.New(1, quantity.Foot)}}, 3, 90, false},
	} {
		j := vessel(laminate.Shape{Head: laminate.Hemispherical})
		c.part.InsideDiameter = ten
		j.Parts[c.on].Part = c.part
		n.On, n.Bearing = j.Parts[c.on].ID, laminate.Some(c.bearing)
		j.Nozzles = []laminate.Nozzle{n}
		p, left, _ := picture.Elevation(j, quantity.US)
		plan, _, _ := picture.Plan(j)
		if len(left) != 0 {
			t.Errorf("%s: %q", name, left)
		}
		// The neck is the one box; the profile that it stands on is bold.
		var neck *drawing.Mark
		for i := range p.Marks {
			if m := &p.Marks[i]; m.Closed && len(m.Path) == 4 {
				neck = m
			}
		}
		if neck == nil {
			t.Fatalf("%s: no neck", name)
		}
		x := (neck.Path[0].X + neck.Path[1].X) / 2
		surface := 0.0
		for i := range p.Marks {
			m := &p.Marks[i]
			for k := 1; k < len(m.Path); k++ {
				a, b := m.Path[k-1], m.Path[k]
				if m.Stroke == drawing.Bold && !m.Closed && math.Min(a.X, b.X) <= x && x <= math.Max(a.X, b.X) && a.X != b.X {
					if y := a.Y + (b.Y-a.Y)*(x-a.X)/(b.X-a.X); surface == 0 || c.below && y > surface || !c.below && y < surface {
						surface = y
					}
				}
			}
		}
		from, to := surface-neck.Path[0].Y, neck.Path[2].Y-surface // over the surface, under it
		if c.below {
			from, to = to, from
		}
		if from < 2 || math.Abs(to) > 0.1 {
			t.Errorf("%s: the neck stands %.1f mm out of the surface and %.1f in", name, from, to)
		}
		// In the plan it is at the same side, and hidden under the vessel.
		closed, right := false, false
		for i := range plan.Marks {
			m := &plan.Marks[i]
			if m.Closed && len(m.Path) > 4 && m.Stroke == drawing.Thin {
				closed = true
			}
			if m.Dashed {
				right = m.Path[1].X > m.Path[0].X
			}
		}
		if mid := picture.Width/2 + 10; right != (x > mid) || closed == c.below {
			t.Errorf("%s: right in the plan %v, in the elevation %v; outlined in the plan %v", name, right, x > mid, closed)
		}
	}
	// Seen from 180° a nozzle there is before the vessel and one at 0° behind it.
	for bearing, before := range map[float64]bool{0: false, 180: true} {
		j := vessel(laminate.Shape{Head: laminate.Hemispherical})
		n.On, n.Bearing = "low", laminate.Some(bearing)
		j.Nozzles = []laminate.Nozzle{n}
		p, _, _ := picture.Elevation(j, quantity.US)
		whole := slices.ContainsFunc(p.Marks, func(m drawing.Mark) bool { return m.Closed && len(m.Path) > 4 })
		if whole != before || !strings.Contains(said(&p), "seen from bearing 180°") {
			t.Errorf("at %g°: drawn whole %v\n%s", bearing, whole, said(&p))
		}
	}
}

// A nozzle is never drawn at a height or an offset that nobody stated, nor left out
// without a word.
func TestPictures_sayWhichNozzlesHaveNoPlace(t *testing.T) {
	j := vessel(laminate.Shape{Head: laminate.Hemispherical})
	j.Nozzles = []laminate.Nozzle{
		{ID: "A", On: "low", Bearing: laminate.Some(10.0)}, {ID: "B", On: "top", Bearing: laminate.Some(10.0)}, {ID: "C", On: "line", Bearing: laminate.Some(10.0)}, {ID: "D", On: "bottom", Bearing: laminate.Some(10.0)},
	}
	_, left, _ := picture.Elevation(j, quantity.US)
	_, beside, _ := picture.Plan(j)
	want := []string{"nozzle A is not drawn: the height is not stated", "nozzles B, D are not drawn: the offset from the axis is not stated", "nozzle C is not drawn: on no part of this picture"}
	if !slices.Equal(left, want) {
		t.Errorf("%q", left)
	}
	if want := []string{"nozzles B, D are not in the plan: the offset from the axis is not stated", "nozzle C is not in the plan: on no part of the vessel"}; !slices.Equal(beside, want) {
		t.Errorf("%q", beside)
	}
}

// The axis of a nozzle on the shell does not run through the circle, where its name may
// stand; of the one on the head it leads out to where that is.
func TestPlan_strikesNoNameThrough(t *testing.T) {
	p, _, _ := picture.Plan(vessel(laminate.Shape{Head: laminate.Hemispherical}))
	inside := 0
	for _, m := range p.Marks {
		if m.Dashed && len(m.Path) == 2 && math.Hypot(m.Path[0].X-picture.Width/2, m.Path[0].Y-48) < 31 {
			inside++
		}
	}
	if inside > 1 {
		t.Errorf("%d axes begin inside the circle", inside)
	}
}
