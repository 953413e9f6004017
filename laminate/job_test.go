package laminate

import (
	"math"
	"reflect"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"frp/veilwright/laminate/quantity"
)

// someJob draws a job whose parts share laminates, have none, or name a file.
func someJob(t *rapid.T) *Job {
	j := &Job{Head: Head{Title: "t"}, Resins: []Resin{{ID: "barrier"}, {ID: "structure", Family: VinylEster}}, Schedules: map[string]*Schedule{}}
	pressure := func(label string) quantity.Pressure {
		if rapid.Bool().Draw(t, label) {
			return quantity.New(float64(rapid.IntRange(0, 3).Draw(t, label+" psi")), quantity.PSI)
		}
		return quantity.Pressure{}
	}
	j.Service = Service{Fluid: "brine", Pressure: pressure("pressure"), Vacuum: pressure("vacuum"), SpecificGravity: Some(1.2)}
	for i := range rapid.IntRange(0, 3).Draw(t, "laminates") {
		l := Laminate{ID: string(rune('a' + i))}
		for range rapid.IntRange(0, 3).Draw(t, "plies") {
			l.Plies = append(l.Plies, Ply{Material: rapid.SampledFrom([]string{"mat-1.5", "woven-24"}).Draw(t, "material"),
				Resin: rapid.SampledFrom([]string{"barrier", "structure"}).Draw(t, "resin"), Count: 1})
		}
		j.Laminates = append(j.Laminates, l)
	}
	for i := range rapid.IntRange(1, 4).Draw(t, "parts") {
		p := JobPart{ID: string(rune('p' + i)), Laminate: rapid.SampledFrom([]string{"a", "b", "c", "none"}).Draw(t, "laminate"), Pressure: pressure("own pressure"), Vacuum: pressure("own vacuum")}
		p.Form = rapid.SampledFrom(JobForms.All()).Draw(t, "form")
		if rapid.IntRange(0, 5).Draw(t, "file") == 0 {
			p.Laminate, p.Schedule = "", "x.toml"
			j.Schedules["x.toml"] = &Schedule{Plies: []Ply{{Material: "mat-1.5", Count: 1}}}
		}
		j.Parts = append(j.Parts, p)
	}
	return j
}

func TestJob_withItsOwnWallIsTheJobItself(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		j := someJob(t)
		part := rapid.IntRange(0, len(j.Parts)-1).Draw(t, "part")
		if got := j.With(part, j.Wall(part)); got != j {
			t.Fatalf("part %d: another job, %+v", part, got)
		}
	})
}

func TestJob_aWallPutInIsTheWallThatComesOut(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		j := someJob(t)
		before := reflect.ValueOf(*j).Interface().(Job)
		part := rapid.IntRange(0, len(j.Parts)-1).Draw(t, "part")
		s := j.Wall(part).Clone()
		switch rapid.IntRange(0, 5).Draw(t, "what") {
		case 0:
			s.Title += "x"
		case 1:
			s.Plies = append(s.Plies, Ply{Material: "mat-2.0", Count: 2})
		case 2:
			s.Service.Pressure = quantity.New(9, quantity.PSI)
		case 3:
			s.Part.Grounding = "strap"
		case 4:
			s.Service.Fluid = "acid"
		case 5:
			s.Resins = append(s.Resins, Resin{ID: "new"})
		}
		n := j.With(part, s)
		if got := n.Wall(part); !reflect.DeepEqual(got.Clone(), s.Clone()) {
			t.Fatalf("came out as\n%+v\nnot\n%+v", got, s)
		}
		if !reflect.DeepEqual(*j, before) {
			t.Fatal("the job it was made of changed")
		}
	})
}

func TestJob_ofAScheduleHasThatScheduleForItsWall(t *testing.T) {
	s := &Schedule{Head: Head{Title: "x"}, Part: Part{Form: Tank}, Resins: []Resin{{ID: "r"}}, Plies: []Ply{{Material: "m", Count: 1}}}
	j := &Job{Head: s.Head, Resins: s.Resins, Laminates: []Laminate{{Plies: s.Plies}}, Parts: []JobPart{{Part: s.Part}}}
	if got := j.Wall(0); !reflect.DeepEqual(got, s) {
		t.Errorf("%+v", got)
	}
	n := s.Clone()
	n.Plies[0].Count = 2
	if got := j.With(0, n).Wall(0); !reflect.DeepEqual(got, n) {
		t.Errorf("%+v", got)
	}
}

func TestJob_withSharesWhatItLeavesAlone(t *testing.T) {
	j := &Job{Laminates: []Laminate{{ID: "a", Plies: []Ply{{Material: "m", Count: 1}}}, {ID: "b", Plies: []Ply{{Material: "n", Count: 1}}}},
		Parts: []JobPart{{ID: "p", Laminate: "a"}, {ID: "q", Laminate: "b"}}}
	s := j.Wall(0).Clone()
	s.Plies[0].Count = 2
	n := j.With(0, s)
	if &n.Laminates[1].Plies[0] != &j.Laminates[1].Plies[0] || &n.Parts[0] != &j.Parts[0] || j.Laminates[0].Plies[0].Count != 1 {
		t.Errorf("%+v", n)
	}
}

func TestJob_pliesOfOtherPartsFollowANewIDOfAResin(t *testing.T) {
	j := &Job{Resins: []Resin{{ID: "r"}}, Laminates: []Laminate{{ID: "a", Plies: []Ply{{Resin: "r", Count: 1}}}, {ID: "b", Plies: []Ply{{Resin: "r", Count: 1}}}},
		Parts: []JobPart{{ID: "p", Laminate: "a"}, {ID: "q", Laminate: "b"}}}
	s := j.Wall(0).Clone()
	s.Resins[0].ID, s.Plies[0].Resin = "x", "x"
	n := j.With(0, s)
	if n.Laminates[0].Plies[0].Resin != "x" || n.Laminates[1].Plies[0].Resin != "x" || j.Laminates[1].Plies[0].Resin != "r" {
		t.Errorf("%+v", n.Laminates)
	}
}

func TestValidateJob(t *testing.T) {
	sound := func() *Job {
		return &Job{Laminates: []Laminate{{ID: "a", Plies: []Ply{{Material: "mat-1.5", Count: 1}}}, {ID: "b", Plies: []Ply{{Material: "mat-1.5", Count: 1}}}},
			Parts:   []JobPart{{ID: "p", Laminate: "a"}, {ID: "q", Schedule: "q.toml"}},
			Joints:  []Joint{{ID: "j", Between: [2]string{"p", "q"}, Outside: "b"}},
			Nozzles: []Nozzle{{ID: "n", On: "p", Height: quantity.New(0, quantity.Inch)}}}
	}
	if faults := ValidateJob(sound(), nil); len(faults) > 0 {
		t.Fatal(faults)
	}
	file := func(name string) func(*Job) { return func(j *Job) { j.Parts[1].Schedule = name } }
	for name, c := range map[string]struct {
		do   func(*Job)
		at   Ref
		says string
	}{
		"laminate twice":      {func(j *Job) { j.Laminates[1].ID = "a"; j.Joints[0].Outside = "a" }, Ref{Kind: RefLaminate, Index: 1, Key: "id"}, "another laminate"},
		"a ply's count":       {func(j *Job) { j.Laminates[1].Plies[0].Count = 0 }, Ref{Kind: RefLaminatePly, Index: 1, Key: "count"}, "at least 1"},
		"a resin not there":   {func(j *Job) { j.Laminates[1].Plies[0].Resin = "r" }, Ref{Kind: RefLaminatePly, Index: 1, Key: "resin"}, "no [[resin]]"},
		"part twice":          {func(j *Job) { j.Parts[1].ID = "p"; j.Joints = nil }, Ref{Kind: RefJobPart, Index: 1, Key: "id"}, "another part"},
		"laminate not there":  {func(j *Job) { j.Parts[0].Laminate = "x" }, Ref{Kind: RefJobPart, Key: "laminate"}, "no [[laminate]]"},
		"both":                {func(j *Job) { j.Parts[0].Schedule = "x.toml" }, Ref{Kind: RefJobPart, Key: "schedule"}, "one or the other"},
		"path upward":         {file("../q.toml"), Ref{Kind: RefJobPart, Index: 1, Key: "schedule"}, "folder"},
		"path up by way of":   {file("a/../../q.toml"), Ref{Kind: RefJobPart, Index: 1, Key: "schedule"}, "folder"},
		"path absolute":       {file("/q.toml"), Ref{Kind: RefJobPart, Index: 1, Key: "schedule"}, "folder"},
		"path with a drive":   {file("c:q.toml"), Ref{Kind: RefJobPart, Index: 1, Key: "schedule"}, "folder"},
		"path with backslash": {file(`..\q.toml`), Ref{Kind: RefJobPart, Index: 1, Key: "schedule"}, "folder"},
		"no TOML":             {file("q.txt"), Ref{Kind: RefJobPart, Index: 1, Key: "schedule"}, ".toml"},
		"joint of one":        {func(j *Job) { j.Joints[0].Between[1] = "p" }, Ref{Kind: RefJoint, Key: "between"}, "two parts"},
		"joint of unknown":    {func(j *Job) { j.Joints[0].Between[1] = "z" }, Ref{Kind: RefJoint, Key: "between"}, "no [[part]]"},
		"joint of none":       {func(j *Job) { j.Joints[0].Between = [2]string{} }, Ref{Kind: RefJoint, Key: "between"}, "missing"},
		"strap not there":     {func(j *Job) { j.Joints[0].Outside = "x" }, Ref{Kind: RefJoint, Key: "outside"}, "no [[laminate]]"},
		"nozzle on unknown":   {func(j *Job) { j.Nozzles[0].On = "z" }, Ref{Kind: RefNozzle, Key: "on"}, "no [[part]]"},
		"pad not there":       {func(j *Job) { j.Nozzles[0].Pad = "x" }, Ref{Kind: RefNozzle, Key: "pad"}, "no [[laminate]]"},
		"a diameter":          {func(j *Job) { j.Parts[0].InsideDiameter = quantity.New(1000, quantity.Meter) }, Ref{Kind: RefJobPart, Key: "inside_diameter"}, "reason"},
		"a cone's diameters": {func(j *Job) {
			j.Parts[0].Form, j.Parts[0].InsideDiameter, j.Parts[0].SmallDiameter = Cone, inches(20), inches(20)
		}, Ref{Kind: RefJobPart, Key: "small_diameter"}, "not less"},
		"a pipe's knuckle": {func(j *Job) { j.Parts[0].Form, j.Parts[0].KnuckleRadius = Pipe, inches(2) }, Ref{Kind: RefJobPart, Key: "knuckle_radius"}, "key of head, flat-bottom"},
		"a round head's knuckle": {func(j *Job) {
			j.Parts[0].Form, j.Parts[0].Head, j.Parts[0].KnuckleRadius = HeadPart, Hemispherical, inches(2)
		}, Ref{Kind: RefJobPart, Key: "knuckle_radius"}, "torispherical"},
		"a crown too small": {func(j *Job) {
			j.Parts[0].Form, j.Parts[0].InsideDiameter, j.Parts[0].CrownRadius = HeadPart, inches(20), inches(9)
		}, Ref{Kind: RefJobPart, Key: "crown_radius"}, "half the inside diameter"},
		"a knuckle over its crown": {func(j *Job) {
			j.Parts[0].Form, j.Parts[0].KnuckleRadius, j.Parts[0].CrownRadius = HeadPart, inches(20), inches(9)
		}, Ref{Kind: RefJobPart, Key: "knuckle_radius"}, "crown radius"},
		"an elbow that closes": {func(j *Job) {
			j.Parts[0].Form, j.Parts[0].InsideDiameter, j.Parts[0].BendRadius = Elbow, inches(20), inches(10)
		}, Ref{Kind: RefJobPart, Key: "bend_radius"}, "close"},
		"a bolt circle within": {func(j *Job) {
			j.Parts[0].Form, j.Parts[0].InsideDiameter, j.Parts[0].BoltCircle = Cover, inches(20), inches(20)
		}, Ref{Kind: RefJobPart, Key: "bolt_circle"}, "not more"},
		"a flange within its bolts": {func(j *Job) {
			j.Parts[0].Form, j.Parts[0].BoltCircle, j.Parts[0].BoltSize, j.Parts[0].Outside = Flange, inches(200), inches(1), inches(201)
		}, Ref{Kind: RefJobPart, Key: "outside_diameter"}, "leaves nothing round the bolts"},
		"a flange within its bore": {func(j *Job) {
			j.Parts[0].Form, j.Parts[0].Size, j.Parts[0].Outside = Flange, inches(20), inches(20)
		}, Ref{Kind: RefJobPart, Key: "outside_diameter"}, "not more than the size"},
		"a cover with rings":    {func(j *Job) { j.Parts[0].Form, j.Parts[0].StiffenerSpacing = Cover, inches(20) }, Ref{Kind: RefJobPart, Key: "stiffener_spacing"}, "a cover is not held round"},
		"a head with rings":     {func(j *Job) { j.Parts[0].Form, j.Parts[0].StiffenerSpacing = HeadPart, inches(20) }, Ref{Kind: RefJobPart, Key: "stiffener_spacing"}, "a head is not held round"},
		"a pipe with a ring":    {func(j *Job) { j.Parts[0].Form, j.Parts[0].Outside = Pipe, inches(300) }, Ref{Kind: RefJobPart, Key: "outside_diameter"}, "it is a key of flange, cover"},
		"a knuckle's laminate":  {func(j *Job) { j.Parts[0].Knuckle = "x" }, Ref{Kind: RefJobPart, Key: "knuckle"}, "no [[laminate]]"},
		"nozzle over its shell": {func(j *Job) { j.Parts[0].InsideDiameter, j.Nozzles[0].Size = inches(20), inches(20) }, Ref{Kind: RefNozzle, Key: "size"}, "leaves no part"},
		"nozzle over a pipe of a file": {func(j *Job) {
			j.Nozzles[0].On, j.Nozzles[0].Opening = "q", inches(7)
			j.Schedules = map[string]*Schedule{"q.toml": {Part: Part{InsideDiameter: inches(6)}}}
		}, Ref{Kind: RefNozzle, Key: "opening"}, "leaves no part"},
		"nozzle above its course": {func(j *Job) {
			j.Parts[0].Form, j.Parts[0].Length, j.Nozzles[0].Height = ShellCourse, inches(60), inches(61)
		}, Ref{Kind: RefNozzle, Key: "height"}, "above the end"},
		"a pad in its hole":      {func(j *Job) { j.Nozzles[0].Size, j.Nozzles[0].PadDiameter = inches(6), inches(6) }, Ref{Kind: RefNozzle, Key: "pad_diameter"}, "not more"},
		"a flange that is none":  {func(j *Job) { j.Nozzles[0].Flange = "q" }, Ref{Kind: RefNozzle, Key: "flange"}, "no flange"},
		"a flange not there":     {func(j *Job) { j.Nozzles[0].Flange = "x" }, Ref{Kind: RefNozzle, Key: "flange"}, "no [[part]]"},
		"one flange for two":     {func(j *Job) { flanged(j); j.Nozzles = append(j.Nozzles, Nozzle{ID: "m", On: "p", Flange: "f"}) }, Ref{Kind: RefNozzle, Index: 1, Key: "flange"}, "count"},
		"a nozzle on its flange": {func(j *Job) { flanged(j); j.Nozzles[0].On = "f" }, Ref{Kind: RefNozzle, Key: "on"}, "circle"},
		"nozzles on each other":  {func(j *Job) { flanged(j); j.Parts[3].Form = Cover; ring(j) }, Ref{Kind: RefNozzle, Key: "on"}, "circle"},
		"a gap over its strap":   {func(j *Job) { j.Joints[0].Width, j.Joints[0].Gap = inches(2), inches(2) }, Ref{Kind: RefJoint, Key: "gap"}, "spans"},
		"a factor below 1":       {func(j *Job) { j.Bond.Factor = Some(0.5) }, Ref{Part: -1, Kind: RefBond, Key: "factor"}, "1"},
		"a test held for ages":   {func(j *Job) { j.Test.Held = quantity.New(9e9, quantity.Hour) }, Ref{Part: -1, Kind: RefTest, Key: "held"}, "reason"},
		"a level beyond reason":  {func(j *Job) { j.Vessel.LiquidHeight = quantity.New(1e6, quantity.Foot) }, Ref{Part: -1, Kind: RefVessel, Key: "liquid_height"}, "reason"},
		"a cone":                 {func(j *Job) { j.Parts[0].HalfAngle = Some(90.0) }, Ref{Kind: RefJobPart, Key: "half_angle"}, "below 90"},
	} {
		j := sound()
		c.do(j)
		faults := ValidateJob(j, nil)
		if len(faults) != 1 || faults[0].Ref != c.at || !strings.Contains(faults[0].Message, c.says) {
			t.Errorf("%s: %+v, want %+v that says %q", name, faults, c.at, c.says)
		}
	}
}

func inches(v float64) quantity.Length { return quantity.New(v, quantity.Inch) }

// flanged gives a job a flange, on its nozzle, and one more part.
func flanged(j *Job) {
	j.Parts = append(j.Parts, JobPart{ID: "f", Laminate: "a", Part: Part{Form: Flange}}, JobPart{ID: "c", Laminate: "a", Part: Part{Form: Flange}})
	j.Nozzles[0].Flange = "f"
}

// ring puts two nozzles on each other's ends.
func ring(j *Job) {
	j.Nozzles[0].On = "c"
	j.Nozzles = append(j.Nozzles, Nozzle{ID: "m", On: "f", Cover: "c"})
}

// One slip is one message: what is refused by itself is held against nothing.
func TestValidateJob_tellsOneSlipOnce(t *testing.T) {
	for name, j := range map[string]*Job{
		"no flange at all": {Parts: []JobPart{{ID: "p"}, {ID: "f", Part: Part{Form: Flange, Shape: Shape{Count: Some(0)}}}},
			Nozzles: []Nozzle{{ID: "m", On: "p", Flange: "f"}, {ID: "n", On: "p", Flange: "f"}}},
		"a width of none": {Parts: []JobPart{{ID: "p"}, {ID: "q"}},
			Joints: []Joint{{ID: "j", Between: [2]string{"p", "q"}, Width: inches(0), FirstWidth: inches(2), Gap: inches(0.25)}}},
		"a diameter below zero": {Parts: []JobPart{{ID: "b", Part: Part{Form: FlatBottom, InsideDiameter: inches(-5), Shape: Shape{KnuckleRadius: inches(1.5)}}}},
			Nozzles: []Nozzle{{ID: "n", On: "b", Size: inches(3)}}},
		"a crown of none": {Parts: []JobPart{{ID: "h", Part: Part{Form: HeadPart, InsideDiameter: inches(60), Shape: Shape{Head: Torispherical, CrownRadius: inches(0), KnuckleRadius: inches(4)}}}}},
	} {
		if faults := ValidateJob(j, nil); len(faults) != 1 {
			t.Errorf("%s: %v", name, faults)
		}
	}
}

func TestJob_partsStandOnEachOtherAndUnderTheLiquid(t *testing.T) {
	course := func(id string, feet float64) JobPart {
		return JobPart{ID: id, Laminate: "a", Part: Part{Form: ShellCourse, InsideDiameter: inches(120), Length: quantity.New(feet, quantity.Foot)}}
	}
	head := JobPart{ID: "dish", Laminate: "a", Part: Part{Form: HeadPart, InsideDiameter: inches(120), Shape: Shape{Head: Torispherical, CrownRadius: inches(120), KnuckleRadius: inches(7.2)}}}
	top := head
	top.ID = "top"
	j := &Job{Vessel: Vessel{LiquidHeight: quantity.New(9, quantity.Foot)},
		Parts:   []JobPart{head, course("low", 5), course("high", 5), top, {ID: "m", Part: Part{Form: Cover}}, {ID: "line", Part: Part{Form: Pipe}}},
		Nozzles: []Nozzle{{On: "low", Height: inches(30), Size: inches(24), Cover: "m"}}}
	// A 6 % torisphere rises 0.16934 of its diameter (geometry, and handbooks of heads).
	for part, want := range []struct {
		feet, depth float64
		ok          bool
	}{{-1.6934, 10.6934, true}, {0, 9, true}, {5, 4, true}, {10, 0, true}, {1.5, 7.5, true}, {0, 0, false}} {
		a := j.Assemble()
		m, ok := a.Elevation(part)
		depth, known := a.Covered(part, 0)
		if ok != want.ok || known != want.ok || math.Abs(m/0.3048-want.feet) > 1e-4 || math.Abs(depth/0.3048-want.depth) > 1e-4 {
			t.Errorf("%s stands at %v ft under %v ft (%v, %v), want %+v", j.Parts[part].ID, m/0.3048, depth/0.3048, ok, known, want)
		}
		if level := j.Wall(part).Part.LiquidHeight; level.Given() != want.ok || math.Abs(level.SI()-depth) > 1e-9 {
			t.Errorf("the wall of %s stands under %v", j.Parts[part].ID, level)
		}
		if a.OnTop(part) != (part == 3) { // the cover is a nozzle's
			t.Errorf("%s closes the top: %v", j.Parts[part].ID, a.OnTop(part))
		}
	}
	if got := j.With(1, j.Wall(1)); got != j {
		t.Error("a level that is the vessel's became the part's own")
	}
	own := j.Wall(1).Clone()
	own.Part.LiquidHeight = quantity.New(2, quantity.Foot)
	n := j.With(1, own)
	if depth, _ := n.Assemble().Covered(1, 0); math.Abs(depth-2*0.3048) > 1e-12 {
		t.Errorf("a part's own level is %v m", depth)
	}
}

func TestPartForm_wordsOfSchedulesAndJobsAgree(t *testing.T) {
	for _, f := range PartForms.All() {
		if got, ok := PartForms.Parse(f.String()); got != f || !ok {
			t.Errorf("%d is %s", f, f)
		}
	}
	for _, f := range JobForms.All() {
		if got, ok := JobForms.Parse(f.String()); got != f || !ok {
			t.Errorf("%d is %s", f, f)
		}
	}
}

// Statics: what closes a shell or narrows it is pushed up by what presses under it, in
// all the pressure on the circle below less the weight of the liquid between.
func TestJob_liquidLiftsWhatStandsInIt(t *testing.T) {
	feet := func(v float64) quantity.Length { return quantity.New(v, quantity.Foot) }
	course := func(id string, d, long float64) JobPart {
		return JobPart{ID: id, Part: Part{Form: ShellCourse, InsideDiameter: inches(d), Length: feet(long)}}
	}
	bottom := JobPart{ID: "bottom", Part: Part{Form: FlatBottom, InsideDiameter: inches(144), Shape: Shape{Supported: Some(true)}}}
	head := JobPart{ID: "roof", Part: Part{Form: HeadPart, InsideDiameter: inches(144), Shape: Shape{Head: Hemispherical}}}
	cone := JobPart{ID: "cone", Part: Part{Form: Cone, InsideDiameter: inches(144), Shape: Shape{SmallDiameter: inches(72), HalfAngle: Some(45.0)}}}
	lid := JobPart{ID: "lid", Part: Part{Form: Cover, InsideDiameter: inches(144)}}
	ball := 2.0 / 3 * math.Pi * 216
	for _, c := range []struct {
		name  string
		parts []JobPart
		level float64
		feet3 float64 // over the first course
	}{
		{"a roof over the liquid", []JobPart{bottom, course("a", 144, 20), head}, 19, 0},
		{"a hemisphere wholly in it", []JobPart{bottom, course("a", 144, 20), head}, 30, 10*math.Pi*36 - ball},
		{"a hemisphere half in it", []JobPart{bottom, course("a", 144, 20), head}, 23, 2 * math.Pi * (3*9/2.0 - 9)}, // ∫ (3 − √(36 − r²)) 2πr dr from √27 to 6
		{"a lid", []JobPart{bottom, course("a", 144, 20), lid}, 22, 2 * math.Pi * 36},
		{"a cone that narrows", []JobPart{bottom, course("a", 144, 8), cone, course("b", 72, 16)}, 26, 18*math.Pi*36 - math.Pi/3*3*(36+18+9) - 15*math.Pi*9},
		{"open at its top", []JobPart{bottom, course("a", 144, 20), course("b", 144, 5)}, 24, 0},
	} {
		j := &Job{Vessel: Vessel{LiquidHeight: feet(c.level)}, Parts: c.parts}
		a := j.Assemble()
		got := a.Lift(1, c.level*0.3048) * math.Pi / 4 * math.Pow(c.parts[1].InsideDiameter.SI(), 2) / (0.3048 * 0.3048 * 0.3048)
		if math.Abs(got-c.feet3) > 0.01*math.Max(c.feet3, 1) {
			t.Errorf("%s: lifted by %.2f ft³ of liquid, by statics %.2f", c.name, got, c.feet3)
		}
	}
}
