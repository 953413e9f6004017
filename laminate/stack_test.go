package laminate

import (
	"fmt"
	"math"
	"reflect"
	"testing"

	"pgregory.net/rapid"

	"frp/veilwright/laminate/quantity"
)

// equipment draws a job of any parts in any order: some without a length, some with
// the id of another, nozzles on what is not there and on flanges that they carry.
func equipment(t *rapid.T) *Job {
	j := &Job{Head: Head{Units: rapid.SampledFrom(quantity.Systems.All()).Draw(t, "units")}}
	id := func(prefix, of string) string {
		return rapid.SampledFrom([]string{"", prefix + "1", prefix + "2", prefix + "3", prefix + "4", prefix + "5", prefix + "6"}).Draw(t, of)
	}
	length := func(of string, most float64) (l quantity.Length) {
		if rapid.IntRange(0, 7).Draw(t, of+" stated") > 0 {
			l = quantity.New(rapid.Float64Range(0.1, most).Draw(t, of), quantity.Foot)
		}
		return l
	}
	j.Vessel.LiquidHeight = length("level", 30)
	j.Service.Contact = rapid.SampledFrom([]Contact{NoContact, Vapor, Immersed}).Draw(t, "contact")
	for i := range rapid.IntRange(0, 3).Draw(t, "laminates") {
		j.Laminates = append(j.Laminates, Laminate{ID: id("l", "laminate"), Plies: []Ply{{Count: i + 1}}})
	}
	forms := []PartForm{ShellCourse, ShellCourse, ShellCourse, FlatBottom, HeadPart, Cone, Cover, Flange, Flange, Pipe, Duct, Elbow, NoPartForm}
	for i := range rapid.IntRange(0, 8).Draw(t, "parts") {
		p := JobPart{ID: id("p", "part"), Laminate: id("l", "wall")}
		if rapid.IntRange(0, 3).Draw(t, "own id") > 0 {
			p.ID = fmt.Sprint("p", i)
		}
		p.Form = rapid.SampledFrom(forms).Draw(t, "form")
		p.InsideDiameter, p.Length = length("diameter", 12), length("length", 9)
		p.Head, p.Depth = Ellipsoidal, length("depth", 3)
		p.BendRadius, p.Turn = length("bend", 12), Some(rapid.SampledFrom([]float64{45, 90, 180}).Draw(t, "turn"))
		p.SmallDiameter, p.HalfAngle = length("small end", 2), Some(30.0)
		if rapid.IntRange(0, 5).Draw(t, "own level") == 0 {
			p.LiquidHeight = length("its level", 20)
		}
		if rapid.Bool().Draw(t, "on legs") {
			p.Supported = Some(false)
		}
		j.Parts = append(j.Parts, p)
	}
	for i := range rapid.IntRange(0, 6).Draw(t, "nozzles") {
		j.Nozzles = append(j.Nozzles, Nozzle{ID: fmt.Sprint("N", i), On: id("p", "on"), Flange: id("p", "flange"), Cover: id("p", "cover"), Height: length("height", 4), Size: length("size", 1)})
	}
	for i := range rapid.IntRange(0, 5).Draw(t, "joints") {
		j.Joints = append(j.Joints, Joint{ID: fmt.Sprint("J", i), Between: [2]string{id("p", "one"), id("p", "other")}})
	}
	return j
}

// bottom is where a part of the shell stands, figured by going through the whole job.
func bottom(j *Job, part int) (m float64, ok bool) {
	first, last := -1, -1
	for i := range j.Parts {
		if j.Parts[i].Form == ShellCourse {
			if last = i; first < 0 {
				first = i
			}
		}
	}
	in := func(i int) bool {
		f := j.Parts[i].Form
		return f == ShellCourse || f == FlatBottom || f == HeadPart || f == Cone
	}
	divides := func(i int) bool {
		f := j.Parts[i].Form
		return i > first && i < last && (f == HeadPart || f == FlatBottom)
	}
	if first < 0 || !in(part) || divides(part) {
		return 0, false
	}
	for i := first - 1; i >= part; i-- {
		if in(i) {
			m -= reach(&j.Parts[i])
		}
	}
	for i := first; i < part; i++ {
		if in(i) && !divides(i) {
			m += reach(&j.Parts[i])
		}
	}
	return m, !math.IsNaN(m)
}

// reach is how high a part of the shell is, NaN where it is not stated.
func reach(p *JobPart) float64 {
	if h, known := p.Rise(); p.Form != ShellCourse && (known || p.Form == FlatBottom) {
		return h
	}
	if p.Form == ShellCourse && p.Length.Given() {
		return p.Length.SI()
	}
	return math.NaN()
}

// hangs tells whether a part of such a form is where others hold it.
func hangs(f PartForm) bool {
	return f == Flange || f == Cover || f == Pipe || f == Duct || f == Elbow
}

// fullTo is how high liquid stands in a job, NaN where nobody says.
func fullTo(j *Job, a *Assembly) float64 {
	if j.Vessel.LiquidHeight.Given() {
		return j.Vessel.LiquidHeight.SI()
	}
	most, silent := math.Inf(-1), false
	for i := range j.Parts {
		p := &j.Parts[i]
		if hangs(p.Form) || p.Form == NoPartForm || a.Line(i) {
			continue
		}
		silent = silent || !p.LiquidHeight.Given()
		if m, ok := bottom(j, i); p.LiquidHeight.SI() > 0 && ok {
			most = math.Max(most, m+p.LiquidHeight.SI())
		} else if p.LiquidHeight.SI() > 0 {
			return math.NaN()
		}
	}
	if math.IsInf(most, -1) && silent && j.Service.Contact != Vapor {
		return math.NaN()
	}
	return most
}

// lid tells whether a cover is one of the shell and of no opening.
func lid(j *Job, part, course int) bool {
	for i := range j.Nozzles {
		if a := j.Assemble(); a.named(j.Nozzles[i].Cover) == part || a.named(j.Nozzles[i].Flange) == part {
			return false
		}
	}
	for _, x := range j.Joints {
		one, other := j.Assemble().named(x.Between[0]), j.Assemble().named(x.Between[1])
		if other == part {
			one, other = other, one
		}
		if one == part && other >= 0 && (hangs(j.Parts[other].Form) || j.Parts[other].Form == NoPartForm) {
			return false
		}
	}
	d, of := j.Parts[part].InsideDiameter, j.Parts[course].InsideDiameter
	return !d.Given() || !of.Given() || d.SI() > 0.999*of.SI()
}

// A job put together answers, in any order, as going through it for each question does.
func TestAssembly_answersAsGoingThroughTheJob(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		j := equipment(t)
		a := j.Assemble()
		for _, id := range []string{"", "p1", "p2", "p3", "p0", "l1", "l2", "gone"} {
			if a.Part(id) != j.Part(id) || a.Laminate(id) != j.Laminate(id) {
				t.Fatalf("%q is part %d and laminate %d, not %d and %d", id, a.Part(id), a.Laminate(id), j.Part(id), j.Laminate(id))
			}
		}
		founded, last := false, -1
		for i := range j.Parts {
			p := &j.Parts[i]
			founded = founded || p.Form == FlatBottom && p.Supported.Or(true)
			if p.Form == ShellCourse {
				last = i
			}
		}
		if a.Founded != founded {
			t.Fatalf("founded: %v", a.Founded)
		}
		for range 2 * len(j.Parts) {
			i := rapid.IntRange(0, len(j.Parts)-1).Draw(t, "asked")
			p := &j.Parts[i]
			m, ok := a.Elevation(i)
			if !hangs(p.Form) {
				if want, known := bottom(j, i); known != ok || ok && math.Abs(want-m) > 1e-9 {
					t.Fatalf("part %d stands at %v (%v), not %v (%v)", i, m, ok, want, known)
				}
			} else if (a.Unknown(i) == "") != (ok && !math.IsNaN(fullTo(j, a))) {
				t.Fatalf("part %d hangs at %v (%v): %s", i, m, ok, a.Unknown(i))
			}
			full, stated := fullTo(j, a), j.Vessel.LiquidHeight.Given()
			depth, covered := math.Max(0, full-m), ok && (stated || full > math.Inf(-1) && hangs(p.Form) && last >= 0)
			level := quantity.Length{}
			if unit := j.Units.Long(); p.LiquidHeight.Given() {
				depth, covered, level = p.LiquidHeight.SI(), true, p.LiquidHeight
			} else if covered {
				level = quantity.New(depth/quantity.New(1, unit).SI(), unit).Spelled(unit)
			}
			if got, known := a.Covered(i, 0); known != covered || covered && got != depth {
				t.Fatalf("part %d is %v under (%v), not %v (%v)", i, got, known, depth, covered)
			}
			top := last >= 0 && i > last && (p.Form == HeadPart || p.Form == Cone || p.Form == Cover && lid(j, i, last) || p.Form == FlatBottom)
			w := a.Wall(i)
			if w.Part.Place.Top != top || w.Part.LiquidHeight != level || a.OnTop(i) != top {
				t.Fatalf("the wall of part %d is %+v under %v", i, w.Part, level)
			}
			if asked := (hangs(p.Form) || a.Line(i)) && !(full <= 0 && stated || math.IsInf(full, -1)); w.Part.Place.Unplaced != (asked && !level.Given()) {
				t.Fatalf("part %d under %v: unplaced %v", i, level, w.Part.Place.Unplaced)
			}
			if !reflect.DeepEqual(w, j.Wall(i)) {
				t.Fatalf("alone the wall is %+v, not %+v", j.Wall(i), w)
			}
		}
	})
}

// What stands in a shell stands on what the document has before it, and all of it
// together is as high as its parts.
func TestAssembly_standsPartsOnEachOther(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		j := equipment(t)
		a := j.Assemble()
		sum, lowest, before := 0.0, math.NaN(), math.NaN()
		for _, i := range a.Stack {
			at, ok := a.Elevation(i)
			if !ok {
				return
			}
			if math.IsNaN(lowest) {
				lowest = at
			}
			h := reach(&j.Parts[i])
			if h < 0 { // a cone whose small end is the wider: Validate refuses it
				return
			}
			if at < before {
				t.Fatalf("part %d stands at %v, below %v of the one before it", i, at, before)
			}
			before = at
			if math.IsNaN(h) { // of the uppermost, which nothing stands on
				return
			}
			sum += h
			if math.Abs(a.Top(i)-(lowest+sum)) > 1e-9 {
				t.Fatalf("part %d ends at %v, and the parts up to it are %v high from %v on", i, a.Top(i), sum, lowest)
			}
		}
	})
}

func in(v float64) quantity.Length { return quantity.New(v, quantity.Inch) }

// hopper is a cap below a cone below a course, a cone and a course on that, and a head.
func hopper() *Job {
	part := func(id string, f PartForm, d float64) JobPart {
		return JobPart{ID: id, Part: Part{Form: f, InsideDiameter: in(d)}}
	}
	bottom, cone, low, neck, high, top := part("cap", HeadPart, 24), part("cone", Cone, 96), part("low", ShellCourse, 96), part("neck", Cone, 96), part("high", ShellCourse, 48), part("top", HeadPart, 48)
	bottom.Head, bottom.Depth = Ellipsoidal, in(6)
	cone.SmallDiameter, cone.HalfAngle = in(24), Some(30.0)
	neck.SmallDiameter, neck.HalfAngle = in(48), Some(45.0)
	low.Length, high.Length = in(168), in(60)
	top.Head, top.Depth = Ellipsoidal, in(12)
	j := &Job{Head: Head{Units: quantity.US}, Vessel: Vessel{LiquidHeight: in(144)}, Parts: []JobPart{bottom, cone, low, neck, high, top}}
	return j
}

// A cone from 96 to 24 in at 30° is 36/tan 30° = 62.354 in high: the cap of 6 in below
// it ends 68.354 in below the shell, and 144 + 68.354 = 212.354 in under the liquid. A
// cone from 96 to 48 in at 45° is 24 in high: the course on it begins at 168 + 24 in.
func TestAssembly_sumsWhatStandsOnEachOther(t *testing.T) {
	a := hopper().Assemble()
	for i, want := range []float64{-68.354, -62.354, 0, 168, 192, 252} {
		if at, ok := a.Elevation(i); !ok || math.Abs(at-want*0.0254) > 1e-5 {
			t.Errorf("%s stands at %.3f in (%v), not %.3f", a.Job.Parts[i].ID, at/0.0254, ok, want)
		}
	}
	if depth, ok := a.Covered(0, 0); !ok || math.Abs(depth-212.354*0.0254) > 1e-5 {
		t.Errorf("the cap is %.3f in under the liquid (%v)", depth/0.0254, ok)
	}
	// The free length: 252 in of shell, a third of 6 and of 12 in, the lower cone whole.
	if l := a.Wall(2).Part.Place.Free.Length; math.Abs(l-(252+2+4+62.354)*0.0254) > 1e-5 {
		t.Errorf("the free length is %.3f in", l/0.0254)
	}
	for i, want := range []bool{false, true, false, false, false, false} {
		if a.Tip(i) != want {
			t.Errorf("%s stands on its small end: %v", a.Job.Parts[i].ID, !want)
		}
	}
}

// What joints tie to the lower end of a shell leads downward from there: a pipe of 20
// in below the cone ends at −62.354 − 20 in, an elbow of 18 in round a bore of 24 in
// 18 + 12 in below that, and what follows lies level. On the top it leads up from
// 252 + 12 in. The flange of a nozzle on a course is at its lower edge, that of one in
// the middle of a bottom as far below as the nozzle reaches. Beside the axis a cone is
// where it is as wide: at 36 of 48 in 12/tan 30° = 20.785 in below its rim, at 30 of 48
// in 18 in above it at 45°; an ellipsoid 6·√(1 − ¼) and 12·√(1 − ¼) in from its own.
func TestAssembly_hangsWhatIsTiedToTheShell(t *testing.T) {
	j := hopper()
	hung := func(id string, f PartForm, tied string) *JobPart {
		j.Parts = append(j.Parts, JobPart{ID: id, Part: Part{Form: f, InsideDiameter: in(24)}})
		if tied != "" {
			j.Joints = append(j.Joints, Joint{ID: "J" + id, Between: [2]string{id, tied}})
		}
		return &j.Parts[len(j.Parts)-1]
	}
	hung("leg", Pipe, "cap").Length = in(20)
	e := hung("elbow", Elbow, "leg")
	e.BendRadius, e.Turn = in(18), Some(90.0)
	hung("run", Pipe, "elbow")
	hung("end", Flange, "run")
	hung("vent", Duct, "top").Length = in(30)
	hung("lid", Flange, "vent")
	hung("side", Flange, "")
	hung("drain", Flange, "")
	hung("bare", Flange, "")
	hung("loose", Pipe, "")
	for _, id := range []string{"slope", "neck side", "crown", "dish"} {
		hung(id, Flange, "")
	}
	hung("beside", Pipe, "low")
	j.Nozzles = []Nozzle{
		{ID: "N1", On: "low", Height: in(30), Size: in(4), Flange: "side"}, {ID: "N2", On: "cap", Size: in(4), Projection: in(9), Flange: "drain"},
		{ID: "N3", On: "cap", Size: in(4), Flange: "bare"}, {ID: "N4", On: "cone", Offset: in(36), Size: in(4), Projection: in(8), Flange: "slope"},
		{ID: "N5", On: "neck", Offset: in(30), Size: in(4), Flange: "neck side"}, {ID: "N6", On: "top", Offset: in(12), Size: in(4), Flange: "crown"},
		{ID: "N7", On: "cap", Offset: in(6), Size: in(4), Projection: in(9), Flange: "dish"},
	}
	a := j.Assemble()
	for id, want := range map[string]float64{"leg": -88.354, "elbow": -118.354, "run": -118.354, "end": -118.354, "vent": 264, "lid": 294, "side": 28, "drain": -77.354, "slope": -28.785, "neck side": 184, "crown": 260.392, "dish": -76.550} {
		if at, ok := a.Elevation(a.Part(id)); !ok || math.Abs(at-want*0.0254) > 1e-5 {
			t.Errorf("%s hangs at %.3f in (%v), not %.3f", id, at/0.0254, ok, want)
		}
	}
	for id, want := range map[string]string{"loose": "no nozzle names it and no joint ties it to the shell", "bare": "how far nozzle N3 reaches down is not stated (projection)", "beside": "which end of part low it is joined to is not known"} {
		if at, ok := a.Elevation(a.Part(id)); ok || a.Unknown(a.Part(id)) != want || !a.Unplaced(a.Part(id)) {
			t.Errorf("%s hangs at %.3f in (%v): %s", id, at/0.0254, ok, a.Unknown(a.Part(id)))
		}
	}
}

// A cover as wide as the course that ends a shell lies on it, 84 in up, and needs no
// joint; one that is less wide, or of which nobody knows, may be anywhere.
func TestAssembly_laysALidOnItsShell(t *testing.T) {
	for name, c := range map[string]struct {
		change func(lid *JobPart)
		lies   bool
	}{
		"by its bolts":               {func(lid *JobPart) { lid.BoltCircle = in(75) }, true},
		"by its diameter":            {func(lid *JobPart) { lid.InsideDiameter = in(72) }, true},
		"a square":                   {func(lid *JobPart) { lid.Length, lid.Width = in(75), in(75) }, true},
		"of a manway":                {func(lid *JobPart) { lid.BoltCircle = in(22) }, false},
		"of a size":                  {func(lid *JobPart) { lid.Size, lid.BoltCircle = in(20), in(75) }, false},
		"as wide as nobody has said": {func(*JobPart) {}, false},
	} {
		j := &Job{Vessel: Vessel{LiquidHeight: in(72)}, Parts: []JobPart{{ID: "bottom"}, {ID: "course"}, {ID: "lid"}}}
		j.Parts[0].Form, j.Parts[0].InsideDiameter = FlatBottom, in(72)
		j.Parts[1].Form, j.Parts[1].InsideDiameter, j.Parts[1].Length = ShellCourse, in(72), in(84)
		j.Parts[2].Form = Cover
		c.change(&j.Parts[2])
		a := j.Assemble()
		at, lies := a.Elevation(2)
		if lies != c.lies || lies && math.Abs(at-84*0.0254) > 1e-9 || a.Unplaced(2) == lies {
			t.Errorf("%s: at %.2f in (%v)", name, at/0.0254, lies)
		}
	}
}

// A level that the parts of a shell state is that of what hangs on it: 360 in over the
// bottom of the course, 374 in over the tip of a cone 14 in high, where the flange is.
// Where no part states one nobody knows it, unless vapor alone is in the shell.
func TestAssembly_takesTheLevelOfTheShellForWhatHangsOnIt(t *testing.T) {
	j := &Job{Parts: []JobPart{{ID: "cone"}, {ID: "course"}, {ID: "top"}, {ID: "end"}}, Joints: []Joint{{Between: [2]string{"end", "cone"}}}}
	cone, course, top, end := &j.Parts[0], &j.Parts[1], &j.Parts[2], &j.Parts[3]
	cone.Form, cone.InsideDiameter, cone.SmallDiameter, cone.HalfAngle = Cone, inches(40), inches(12), Some(45.0)
	course.Form, course.InsideDiameter, course.Length, course.LiquidHeight = ShellCourse, inches(40), inches(400), inches(360)
	top.Form, top.InsideDiameter, top.Head, top.LiquidHeight = HeadPart, inches(40), Hemispherical, inches(0)
	end.Form = Flange
	is := func(what string, want float64, placed bool) {
		t.Helper()
		a := j.Assemble()
		if depth, ok := a.Covered(3, 0); ok != placed || math.Abs(depth-want*0.0254) > 1e-9 || a.Unplaced(3) == placed || (a.Unknown(3) == "") != placed {
			t.Errorf("%s: %.2f in over the flange (%v), unplaced %v: %s", what, depth/0.0254, ok, a.Unplaced(3), a.Unknown(3))
		}
		if _, ok := a.Covered(0, 0); ok {
			t.Errorf("%s: the cone is taken to stand under what another part states", what)
		}
	}
	is("of the course", 374, true)
	top.LiquidHeight = inches(2)
	is("of the top, above that of the course", 416, true)
	course.Length = quantity.Length{}
	is("of a part that stands nobody knows where", 0, false)
	top.LiquidHeight, course.LiquidHeight = inches(0), quantity.Length{}
	is("of none", 0, false)
	j.Service.Contact = Vapor
	if a := j.Assemble(); a.Unplaced(3) {
		t.Error("a flange of a shell of vapor is unplaced")
	}
}

// Each circle of nozzles is told, and nothing that is none.
func TestValidateJob_tellsCirclesOfNozzles(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		j := equipment(t)
		told := map[int]bool{}
		for _, f := range ValidateJob(j, nil) {
			if f.Ref.Kind == RefNozzle && f.Ref.Key == "on" && f.Message == fmt.Sprintf("%q ends in what it stands on itself: a circle", j.Nozzles[f.Ref.Index].ID) {
				told[f.Ref.Index] = true
			}
		}
		under := func(i int) int { // the first nozzle that ends in what i stands on
			for k := range j.Nozzles {
				if on := j.Nozzles[i].On; on != "" && (j.Nozzles[k].Flange == on || j.Nozzles[k].Cover == on) {
					return k
				}
			}
			return -1
		}
		for i := range j.Nozzles {
			circle := []int{}
			at := under(i)
			for ; at >= 0 && at != i && len(circle) < len(j.Nozzles); at = under(at) {
				circle = append(circle, at)
			}
			some := told[i]
			for _, k := range circle {
				some = some || told[k]
			}
			if round := at == i; round && !some || !round && told[i] {
				t.Fatalf("nozzle %d: round %v, told %v", i, round, told)
			}
		}
	})
}

// A column of sections that are flanged together: each flange is at the end of its course
// that no joint takes, or beside which it stands in the document.
func TestAssembly_flangesBetweenSections(t *testing.T) {
	part := func(id string, f PartForm, long float64) JobPart {
		p := JobPart{ID: id, Part: Part{Form: f, InsideDiameter: in(48), Shape: Shape{Size: in(48)}}}
		if f == ShellCourse {
			p.Length = in(long)
		}
		if f == HeadPart {
			p.Head, p.Depth = Ellipsoidal, in(12)
		}
		return p
	}
	tie := func(a, b string) Joint { return Joint{ID: a + b, Between: [2]string{a, b}} }
	j := &Job{
		Parts: []JobPart{
			part("base", HeadPart, 0), part("rim", Flange, 0), part("f0", Flange, 0), part("s1", ShellCourse, 144), part("f1", Flange, 0), part("f2", Flange, 0),
			part("s2", ShellCourse, 120), part("f3", Flange, 0), part("f4", Flange, 0), part("s3", ShellCourse, 96), part("top", HeadPart, 0),
		},
		Joints: []Joint{tie("base", "rim"), tie("s1", "f0"), tie("s1", "f1"), tie("s2", "f2"), tie("f3", "s2"), tie("f4", "s3"), tie("s3", "top")},
	}
	a := j.Assemble()
	for id, want := range map[string]float64{"rim": 0, "f0": 0, "f1": 144, "f2": 144, "f3": 264, "f4": 264} {
		if at, ok := a.Elevation(a.Part(id)); !ok || math.Abs(at-want*0.0254) > 1e-9 {
			t.Errorf("%s is at %.3f in (%v), not %.3f", id, at/0.0254, ok, want)
		}
	}
}

// What a nozzle on a loose lid ends in is where the lid lies; of two nozzles with one
// flange the lower counts.
func TestAssembly_placesWhatStandsOnALid(t *testing.T) {
	j := &Job{
		Parts: []JobPart{
			{ID: "c1", Part: Part{Form: ShellCourse, InsideDiameter: in(48), Length: in(60)}},
			{ID: "lid", Part: Part{Form: Cover, InsideDiameter: in(48), Shape: Shape{Size: in(48)}}},
			{ID: "f3", Part: Part{Form: Flange, Shape: Shape{Size: in(3)}}},
			{ID: "f4", Part: Part{Form: Flange, Shape: Shape{Size: in(4)}}},
		},
		Nozzles: []Nozzle{{ID: "vent", On: "lid", Size: in(3), Flange: "f3"}, {ID: "in", On: "lid", Size: in(4), Flange: "f4"}, {ID: "out", On: "c1", Height: in(10), Size: in(4), Flange: "f4"}},
	}
	a := j.Assemble()
	for id, want := range map[string]float64{"lid": 60, "f3": 60, "f4": 8} {
		if at, ok := a.Elevation(a.Part(id)); !ok || math.Abs(at-want*0.0254) > 1e-9 {
			t.Errorf("%s is at %.3f in (%v), not %.3f", id, at/0.0254, ok, want)
		}
	}
}
