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
	for i := range rapid.IntRange(0, 3).Draw(t, "laminates") {
		j.Laminates = append(j.Laminates, Laminate{ID: id("l", "laminate"), Plies: []Ply{{Count: i + 1}}})
	}
	forms := []PartForm{ShellCourse, ShellCourse, ShellCourse, FlatBottom, HeadPart, Cone, Cover, Flange, Flange, Pipe, NoPartForm}
	for i := range rapid.IntRange(0, 8).Draw(t, "parts") {
		p := JobPart{ID: id("p", "part"), Laminate: id("l", "wall")}
		if rapid.IntRange(0, 3).Draw(t, "own id") > 0 {
			p.ID = fmt.Sprint("p", i)
		}
		p.Form = rapid.SampledFrom(forms).Draw(t, "form")
		p.InsideDiameter, p.Length = length("diameter", 12), length("length", 9)
		p.Head, p.Depth = Ellipsoidal, length("depth", 3)
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
	return j
}

// bottom is where a part stands, figured for each part anew by going through the whole job.
func bottom(j *Job, part int, through []int) (m float64, ok bool) {
	p := &j.Parts[part]
	before := func(n int) (courses []*JobPart) {
		for i := range n {
			if j.Parts[i].Form == ShellCourse {
				courses = append(courses, &j.Parts[i])
			}
		}
		return courses
	}
	below, all := before(part), before(len(j.Parts))
	switch {
	case p.Form == Flange || p.Form == Cover:
		for _, k := range through {
			if k == part {
				return 0, false
			}
		}
		found := false
		for _, n := range j.Nozzles {
			on := -1
			for i := len(j.Parts) - 1; i >= 0; i-- {
				if j.Parts[i].ID == n.On {
					on = i
				}
			}
			if p.ID == "" || n.Flange != p.ID && n.Cover != p.ID || on < 0 {
				continue
			}
			at, ok := bottom(j, on, append(through, part))
			if !ok || !n.Height.Given() {
				return 0, false
			}
			if at += n.Height.SI() - n.Cut().SI()/2; !found || at < m {
				m, found = at, true
			}
		}
		return m, found
	case len(all) == 0 || p.Form != ShellCourse && p.Form != FlatBottom && p.Form != HeadPart && p.Form != Cone:
		return 0, false
	case len(below) == 0 && p.Form != ShellCourse:
		rise, ok := p.Rise()
		if p.Form == FlatBottom {
			return 0, true
		}
		return -rise, ok
	case p.Form != ShellCourse && len(below) < len(all):
		return 0, false
	}
	for _, q := range below {
		if !q.Length.Given() {
			return 0, false
		}
		m += q.Length.SI()
	}
	return m, true
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
		founded, whole, last := false, 0.0, -1
		for i := range j.Parts {
			p := &j.Parts[i]
			founded = founded || p.Form == FlatBottom && p.Supported.Or(true)
			if p.Form == ShellCourse {
				last = i
				if whole += p.Length.SI(); !p.Length.Given() {
					whole = math.NaN()
				}
			}
		}
		if a.Founded != founded {
			t.Fatalf("founded: %v", a.Founded)
		}
		for range 2 * len(j.Parts) {
			i := rapid.IntRange(0, len(j.Parts)-1).Draw(t, "asked")
			p := &j.Parts[i]
			m, ok := bottom(j, i, nil)
			if got, known := a.Elevation(i); known != ok || ok && got != m {
				t.Fatalf("part %d stands at %v (%v), not %v (%v)", i, got, known, m, ok)
			}
			depth, covered := math.Max(0, j.Vessel.LiquidHeight.SI()-m), ok && j.Vessel.LiquidHeight.Given()
			level := quantity.Length{}
			if unit := j.Units.Long(); p.LiquidHeight.Given() {
				depth, covered, level = p.LiquidHeight.SI(), true, p.LiquidHeight
			} else if covered {
				level = quantity.New(depth/quantity.New(1, unit).SI(), unit).Spelled(unit)
			}
			if got, known := a.Covered(i, 0); known != covered || covered && got != depth {
				t.Fatalf("part %d is %v under (%v), not %v (%v)", i, got, known, depth, covered)
			}
			top := last >= 0 && i > last && (p.Form == HeadPart || p.Form == Cone || p.Form == Cover || p.Form == FlatBottom)
			place := Place{Top: top}
			if p.Form == ShellCourse && !math.IsNaN(whole) {
				place.Shell = quantity.New(whole, quantity.Meter)
			}
			w := a.Wall(i)
			if w.Part.Place != place || w.Part.LiquidHeight != level || a.OnTop(i) != top {
				t.Fatalf("the wall of part %d is %+v, not at %+v under %v", i, w.Part, place, level)
			}
			if !reflect.DeepEqual(w, j.Wall(i)) {
				t.Fatalf("alone the wall is %+v, not %+v", j.Wall(i), w)
			}
		}
	})
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
