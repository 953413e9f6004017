package equipment_test

import (
	"reflect"
	"slices"
	"strings"
	"testing"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/catalog"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/wall"
	"frp/veilwright/rules"
	"frp/veilwright/rules/advice"
	"frp/veilwright/rules/advice/equipment"
	"frp/veilwright/rules/all"
)

func in(v float64) quantity.Length    { return quantity.New(v, quantity.Inch) }
func psi(v float64) quantity.Pressure { return quantity.New(v, quantity.PSI) }

// bare is a brine tank of three courses whose facts are stated, without one
// laminate, joint or size that follows from them.
func bare() *laminate.Job {
	j := &laminate.Job{Head: laminate.Head{Title: "Brine day tank"}, Service: laminate.Service{
		Fluid: "brine", Concentration: laminate.Some(0.24), Temperature: quantity.New(90, quantity.Fahrenheit), PH: laminate.PHRange{Lowest: 6, Highest: 8, Given: true},
		Contains: laminate.TraitSet(laminate.Brine), Pressure: psi(0), Vacuum: psi(0), SpecificGravity: laminate.Some(1.2),
		Conductive: laminate.Some(false), Abrasive: laminate.Some(false),
	}}
	j.Vessel.LiquidHeight = in(14 * 12)
	part := func(id string, form laminate.PartForm) *laminate.JobPart {
		p := laminate.JobPart{ID: id}
		p.Form, p.Process, p.InsideDiameter = form, laminate.ContactMolded, in(120)
		j.Parts = append(j.Parts, p)
		return &j.Parts[len(j.Parts)-1]
	}
	part("bottom", laminate.FlatBottom).Supported = laminate.Some(true)
	for _, id := range []string{"shell-1", "shell-2", "shell-3"} {
		part(id, laminate.ShellCourse).Length = in(60)
	}
	head := part("head", laminate.HeadPart)
	head.Head, head.CrownRadius, head.KnuckleRadius = laminate.Torispherical, in(120), in(8)
	j.Nozzles = []laminate.Nozzle{{ID: "N1", On: "shell-1", Height: in(15), Size: in(3), PressureClass: psi(50), Projection: in(6), SealedEdge: laminate.Some(true), PipingLoad: laminate.Some(false)}}
	return j
}

func propose(t *testing.T, j *laminate.Job, o advice.Options) *equipment.Proposal {
	t.Helper()
	p, err := equipment.Propose(j, catalog.Library(), equipment.Options{Options: o})
	if err != nil {
		t.Fatal(err)
	}
	if faults := laminate.ValidateJob(p.Job, catalog.Library()); len(faults) > 0 {
		t.Fatal(faults)
	}
	return p
}

func laid(t *testing.T, j *laminate.Job, id string) []laminate.Ply {
	t.Helper()
	i := j.Laminate(id)
	if i < 0 || len(j.Laminates[i].Plies) == 0 {
		t.Fatalf("there is no laminate %q with plies", id)
	}
	return j.Laminates[i].Plies
}

func says(lines []equipment.Line, text string) bool {
	return slices.ContainsFunc(lines, func(l equipment.Line) bool { return strings.Contains(l.Text, text) })
}

func TestPropose_aWholeTank(t *testing.T) {
	j := bare()
	p := propose(t, j, advice.Options{})
	for _, l := range p.Left {
		t.Errorf("left: %s", l.Text)
	}
	// What only people know is asked for, and nothing else is open.
	var asked []string
	for _, l := range p.Asked {
		what := l.Text[strings.LastIndex(l.Text, "(")+1:]
		if !slices.Contains(asked, what) {
			asked = append(asked, what)
		}
	}
	if want := []string{"gap; 0 where the ends touch)", "qualification)", "[[nozzle]], size)"}; !reflect.DeepEqual(asked, want) {
		t.Errorf("asked %q, want %q", asked, want)
	}
	// Each course for its own head, and none thicker than the one under it. The
	// figures are those of the example, which was laid out by hand.
	var thick []float64
	for i := 1; i <= 3; i++ {
		thick = append(thick, p.Report.Parts[i].Wall.Whole/0.0254*1000)
	}
	if thick[0] < thick[1] || thick[1] < thick[2] || thick[0] == thick[2] {
		t.Errorf("courses from below: %.1f mil", thick)
	}
	for i, want := range []float64{402.5, 323.8, 245.2} {
		if d := thick[i] - want; d > 0.1 || d < -0.1 {
			t.Errorf("course %d is %.1f mil, by hand %.1f", i+1, thick[i], want)
		}
	}
	// One barrier throughout.
	for i := range p.Report.Parts {
		if a, b := p.Report.Parts[i].Analysis.Barrier.Thickness, p.Report.Parts[0].Analysis.Barrier.Thickness; a != b {
			t.Errorf("the barrier of %s is %v, that of the bottom %v", p.Job.Parts[i].ID, a, b)
		}
	}
	// A joint between each two that meet, sealed from the inside with the veil
	// before a waxed coat.
	if len(p.Job.Joints) != 4 {
		t.Fatalf("%d joints", len(p.Job.Joints))
	}
	for _, x := range p.Job.Joints {
		seal := laid(t, p.Job, x.Inside)
		if n := len(seal); n < 3 || seal[0].Zone != laminate.InteriorLayer || seal[n-2].Material != catalog.VeilC15 || seal[n-1].Material != catalog.Topcoat {
			t.Errorf("seal of %s: %v", x.ID, seal)
		}
		if x.Widths != laminate.NarrowFirst || x.FirstWidth.Cmp(in(2)) != 0 || !x.Width.Given() || x.Gap.Given() || x.AxialLoad.Given() || x.Qualification != "" {
			t.Errorf("joint %+v", x)
		}
		if first := laid(t, p.Job, x.Outside)[0]; first.Material != catalog.Mat15 {
			t.Errorf("the strap of %s begins with %s", x.ID, first.Material)
		}
	}
	bottom := p.Job.Parts[0]
	if laid(t, p.Job, bottom.Knuckle); bottom.KnuckleRadius.Cmp(in(1.5)) != 0 || bottom.KnuckleHeight.Cmp(in(12)) != 0 {
		t.Errorf("knuckle %v, %v up", bottom.KnuckleRadius, bottom.KnuckleHeight)
	}
	n := p.Job.Nozzles[0]
	for _, id := range []string{n.Pad, n.Neck, n.InstallationOutside, n.InstallationInside} {
		laid(t, p.Job, id)
	}
	// Its neck of 3 in goes through the wall with 3.45 in, and 3 in stand on either side.
	if n.PadDiameter.Cmp(in(9.5)) != 0 || n.NeckBond.Cmp(in(3)) != 0 || n.Gussets.Value != 3 {
		t.Errorf("nozzle %+v", n)
	}
	if !says(p.Assumed, "laid apart and joined") || !says(p.Assumed, "room for a gap") || !says(p.Assumed, "no load along the axis") {
		t.Errorf("assumed %v", p.Assumed)
	}
	if !reflect.DeepEqual(j, bare()) {
		t.Error("the job that was asked about has changed")
	}
}

// A strap or pad is the least of its kind: a repeat fewer breaks the rule it was
// laid for.
func TestPropose_overlaysAreNoThickerThanTheyHaveToBe(t *testing.T) {
	j := bare()
	j.Service.Pressure = psi(5)
	p := propose(t, j, advice.Options{})
	for id, rule := range map[string]string{p.Job.Joints[1].Outside: "joint-hoop-thin", p.Job.Nozzles[0].Pad: "pad-thin"} {
		n := p.Job.Clone()
		plies := laid(t, n, id)
		n.Laminates[n.Laminate(id)].Plies = slices.Concat(plies[:1], plies[3:])
		r := rules.JudgeJob(all.Rules(), n, catalog.Library(), rules.Options{})
		if !slices.ContainsFunc(r.Findings, func(f rules.Finding) bool { return f.Rule.ID == rule && f.Severity == rules.Break }) {
			t.Errorf("laminate %s with a repeat fewer still holds by %s", id, rule)
		}
	}
}

func TestPropose_goesOnWithWhatStands(t *testing.T) {
	whole := propose(t, bare(), advice.Options{})
	j := whole.Job.Clone()
	stands := laid(t, j, "shell-1")
	for i := range stands {
		stands[i].Resin = "own"
	}
	stands[0].Count = 2 // another barrier than anybody would propose
	j.Resins = []laminate.Resin{{ID: "own", Family: laminate.NovolacVinylEster, Cure: laminate.PeroxideAmine}}
	j.Laminates = []laminate.Laminate{{ID: "shell-1", Plies: stands}}
	j.Joints, j.Nozzles = nil, nil
	for i := range j.Parts {
		if j.Parts[i].ID != "shell-1" {
			j.Parts[i].Laminate, j.Parts[i].Knuckle = "", ""
		}
	}
	p := propose(t, j, advice.Options{})
	if !reflect.DeepEqual(laid(t, p.Job, "shell-1"), stands) || !reflect.DeepEqual(p.Job.Resins, j.Resins) {
		t.Errorf("what stood changed: %v, resins %v", p.Job.Laminates[0].Plies, p.Job.Resins)
	}
	for i := range p.Job.Parts {
		for _, ply := range laid(t, p.Job, p.Job.Parts[i].Laminate) {
			if ply.Resin != "own" {
				t.Errorf("part %s is laid in %q", p.Job.Parts[i].ID, ply.Resin)
			}
		}
		if first := laid(t, p.Job, p.Job.Parts[i].Laminate)[0]; first.Count != 2 {
			t.Errorf("part %s begins with %d veils", p.Job.Parts[i].ID, first.Count)
		}
	}
	if p := propose(t, j, advice.Options{Veil: catalog.VeilPolyester15}); !says(p.Left, "the barrier stays the one that other parts have") {
		t.Errorf("a veil that is not taken is not spoken of: %v", p.Left)
	}
	// Proposed anew the barrier is the one that suits.
	if anew := propose(t, j, advice.Options{Replace: true}); laid(t, anew.Job, "shell-1")[0].Count != 1 {
		t.Errorf("anew: %v", laid(t, anew.Job, "shell-1"))
	}
}

func TestPropose_oneMarkedLaminateForTwoIsAsTheThickerWantsIt(t *testing.T) {
	j := bare()
	j.Laminates = []laminate.Laminate{{ID: "wall"}}
	j.Parts[1].Laminate, j.Parts[3].Laminate = "wall", "wall"
	p := propose(t, j, advice.Options{})
	if a, b := p.Report.Parts[1], p.Report.Parts[3]; a.Wall.Whole != b.Wall.Whole || a.Verdict >= rules.Incomplete {
		t.Errorf("%v and %v, %s", a.Wall.Whole, b.Wall.Whole, a.Verdict)
	}
	if !says(p.Filled, "laminate wall, as thick as another part wants it") {
		t.Errorf("filled %v", p.Filled)
	}
}

func TestPropose_asksForTheFactAndFillsInTheRest(t *testing.T) {
	for name, c := range map[string]struct {
		do    func(*laminate.Job)
		left  string
		stays func(*laminate.Job) bool // what is not filled in
	}{
		"pressure": {func(j *laminate.Job) { j.Service.Pressure = quantity.Pressure{} }, "part shell-1 has no wall: state pressure", func(j *laminate.Job) bool { return len(j.Laminates) == 0 && len(j.Resins) == 0 }},
		"vacuum":   {func(j *laminate.Job) { j.Service.Vacuum = quantity.Pressure{} }, "state vacuum", func(j *laminate.Job) bool { return len(j.Laminates) == 0 }},
		"level":    {func(j *laminate.Job) { j.Vessel.LiquidHeight = quantity.Length{} }, "state liquid_height", func(j *laminate.Job) bool { return len(j.Laminates) == 0 }},
		"gravity":  {func(j *laminate.Job) { j.Service.SpecificGravity = laminate.Optional[float64]{} }, "part shell-1 has no wall: state specific_gravity", func(j *laminate.Job) bool { return j.Parts[1].Laminate == "" }},
		"support":  {func(j *laminate.Job) { j.Parts[0].Supported = laminate.Optional[bool]{} }, "stands on its foundation is not stated (supported)", func(j *laminate.Job) bool { return j.Parts[0].Laminate == "" && j.Parts[1].Laminate != "" }},
		"shape":    {func(j *laminate.Job) { j.Parts[4].Head = laminate.NoHeadShape }, "the shape of the head is not given (shape)", func(j *laminate.Job) bool { return j.Parts[4].Laminate == "" && j.Parts[1].Laminate != "" }},
		"size":     {func(j *laminate.Job) { j.Nozzles[0].Size = quantity.Length{} }, "nozzle N1 has no neck: its size is not stated (size)", func(j *laminate.Job) bool { return j.Nozzles[0].Neck == "" && j.Parts[1].Laminate != "" }},
		"class":    {func(j *laminate.Job) { j.Nozzles[0].PressureClass = quantity.Pressure{} }, "its pressure class is not stated (pressure_class)", func(j *laminate.Job) bool { return j.Nozzles[0].Neck == "" && j.Nozzles[0].Pad != "" }},
		"a flange": {func(j *laminate.Job) {
			f := laminate.JobPart{ID: "f"}
			f.Form, f.Process = laminate.Flange, laminate.ContactMolded
			j.Parts, j.Nozzles[0].Flange = append(j.Parts, f), "f"
		}, "the flange's thickness is not stated", func(j *laminate.Job) bool { return j.Parts[5].Laminate == "" }},
	} {
		j := bare()
		c.do(j)
		p := propose(t, j, advice.Options{})
		if !says(p.Left, c.left) || !c.stays(p.Job) {
			t.Errorf("%s: left %v", name, p.Left)
		}
		if p.Report.Verdict < rules.Incomplete {
			t.Errorf("%s: the verdict is %s", name, p.Report.Verdict)
		}
	}
}

// Anew means: not at the price of what stands.
func TestPropose_anewKeepsWhatCannotBeProposed(t *testing.T) {
	j := propose(t, bare(), advice.Options{}).Job.Clone()
	j.Service.Pressure = quantity.Pressure{}
	p := propose(t, j, advice.Options{Replace: true})
	if !reflect.DeepEqual(laid(t, p.Job, "shell-1"), laid(t, j, "shell-1")) || !says(p.Left, "laminate shell-1 stays as it is") {
		t.Errorf("left %v", p.Left)
	}
}

func TestPropose_twice(t *testing.T) {
	p := propose(t, bare(), advice.Options{})
	if again := propose(t, p.Job, advice.Options{}); again.Job != p.Job || len(again.Filled)+len(again.Assumed) > 0 {
		t.Errorf("filled again: %v", again.Filled)
	}
}

// By the words of the options what there is none of is an error.
func TestPropose_refusesAnOptionThatThereIsNoneOf(t *testing.T) {
	if _, err := equipment.Propose(bare(), catalog.Library(), equipment.Options{Options: advice.Options{Veil: "veil-tin"}}); err == nil || !strings.Contains(err.Error(), "veil-tin") {
		t.Error(err)
	}
}

// A strap lies on each part by eight thicknesses of the thinner wall (NBS PS 15-69,
// from memory), barrier and all, which is thicker than the strap: nothing proposed is
// too narrow for the rule that asks for it.
func TestPropose_strapIsAsWideAsTheWallsWantIt(t *testing.T) {
	ply := func(material, resin string, zone laminate.Zone, count int) laminate.Ply {
		return laminate.Ply{Material: material, Resin: resin, Zone: zone, Count: count}
	}
	j := bare()
	j.Nozzles, j.Parts, j.Vessel = nil, nil, laminate.Vessel{}
	j.Service.Pressure = psi(10)
	j.Resins = []laminate.Resin{{ID: "barrier", Family: laminate.VinylEster}, {ID: "structure", Family: laminate.VinylEster}}
	wall := []laminate.Ply{ply(catalog.VeilC15, "barrier", laminate.InnerSurface, 1), ply(catalog.Mat15, "barrier", laminate.InteriorLayer, 2)}
	for range 2 {
		wall = append(wall, ply(catalog.Mat15, "structure", laminate.StructuralLayer, 1), ply(catalog.Woven24, "structure", laminate.StructuralLayer, 1))
	}
	wall = append(wall, ply(catalog.Mat15, "structure", laminate.StructuralLayer, 1))
	j.Laminates = []laminate.Laminate{{ID: "wall", Plies: wall}}
	for _, id := range []string{"A", "B"} {
		p := laminate.JobPart{ID: id, Laminate: "wall"}
		p.Form, p.Process, p.InsideDiameter, p.Length = laminate.Pipe, laminate.ContactMolded, in(8), in(120)
		j.Parts = append(j.Parts, p)
	}
	j.Joints = []laminate.Joint{{ID: "J", Between: [2]string{"A", "B"}, Gap: in(0.125), AxialLoad: quantity.New(0, quantity.PoundPerInch)}}
	p := propose(t, j, advice.Options{})
	// 0.314 in of wall: 16 t and the gap.
	if w := p.Job.Joints[0].Width; !w.Given() || w.In(quantity.Inch) < 5.14 {
		t.Errorf("%s wide", w.Text())
	}
	for _, f := range p.Report.Findings {
		if f.Rule.ID == "strap-narrow" {
			t.Error(f.Message)
		}
	}
}

// Over what is bolted nothing is laid.
func TestPropose_laysNothingOverWhatIsBolted(t *testing.T) {
	j := bare()
	j.Nozzles = nil
	lid := &j.Parts[len(j.Parts)-1]
	*lid = laminate.JobPart{ID: "lid"}
	lid.Form, lid.Process, lid.Edge = laminate.Cover, laminate.ContactMolded, laminate.SimplySupported
	for _, id := range []string{"f", "g"} {
		f := laminate.JobPart{ID: id}
		f.Form, f.Process, f.InsideDiameter = laminate.Flange, laminate.ContactMolded, j.Parts[0].InsideDiameter
		j.Parts = append(j.Parts, f)
	}
	j.Joints = []laminate.Joint{{ID: "FG", Between: [2]string{"f", "g"}}, {ID: "FL", Between: [2]string{"g", "lid"}}}
	p := propose(t, j, advice.Options{})
	for i, x := range p.Job.Joints {
		if bolted := x.ID == "FG" || x.ID == "FL"; bolted && x != j.Joints[i] {
			t.Errorf("%+v", x)
		}
	}
	for _, l := range slices.Concat(p.Assumed, p.Filled, p.Left) {
		if strings.Contains(l.Text, "joint F") {
			t.Error(l.Text)
		}
	}
}

// What a warm wall is assumed to keep holds for what is laid onto it: walls came, and
// no strap and no pad.
func TestPropose_assumesTheSameOfAWarmWallAndItsStraps(t *testing.T) {
	warm := func(stated bool) *equipment.Proposal {
		j := bare()
		j.Service.Temperature = quantity.New(140, quantity.Fahrenheit)
		for i := range j.Parts {
			if j.Parts[i].ModulusRetention = (laminate.Optional[float64]{}); stated {
				j.Parts[i].ModulusRetention = laminate.Some(0.82)
			}
		}
		return propose(t, j, advice.Options{})
	}
	p, like := warm(false), warm(true)
	if len(p.Left) > 0 || !says(p.Assumed, "keeps 82 % of its cold modulus") {
		t.Errorf("left %v, assumed %v", p.Left, p.Assumed)
	}
	for i := range like.Job.Joints {
		if got, want := laid(t, p.Job, p.Job.Joints[i].Outside), laid(t, like.Job, like.Job.Joints[i].Outside); !reflect.DeepEqual(got, want) {
			t.Errorf("%s: %d plies, where it is stated %d", like.Job.Joints[i].ID, len(got), len(want))
		}
	}
}

// Under a vacuum a pad brings back half of what its opening takes away: nothing that
// anybody could state would settle a thinner one.
func TestPropose_padsForAVacuum(t *testing.T) {
	j := bare()
	j.Service.Vacuum = quantity.New(0.5, quantity.PSI)
	p := propose(t, j, advice.Options{})
	if p.Job.Nozzles[0].Pad == "" { // of a flat bottom a vacuum is not figured, and the proposal says so
		t.Fatalf("left %v", p.Left)
	}
	if says(p.Asked, "vacuum of") || says(p.Broken, "vacuum of") {
		t.Errorf("asked %v, broken %v", p.Asked, p.Broken)
	}
}

// A bond of 3 in wants 3 in of a neck: none is proposed that the neck has no room for.
func TestPropose_bondsNoFurtherThanANeckIsLong(t *testing.T) {
	for projection, bonds := range map[float64]bool{3: true, 2.9: false} {
		j := bare()
		j.Nozzles[0].Projection = in(projection)
		p := propose(t, j, advice.Options{})
		if got := p.Job.Nozzles[0].NeckBond.Given(); got != bonds || says(p.Left, "nozzle N1: its neck has no room for a bond of 3 in: its projection, less its flange, leaves 2.9 in (projection)") == bonds {
			t.Errorf("%g in: bonded %v, %+v", projection, got, p.Left)
		}
	}
}

// Who follows the proposal and answers what it asks for has a job that is clear: the
// waxed coat that each wall ends in is laid when its joints and nozzles are, which the
// proposal says.
func TestPropose_andAnsweredIsClear(t *testing.T) {
	j := bare()
	n := &j.Nozzles[0] // a manway, which whoever lays the last seal gets out by
	n.On, n.Height, n.Offset, n.Size, n.PressureClass, n.Projection = "head", quantity.Length{}, in(0), in(24), psi(25), in(10)
	p := propose(t, j, advice.Options{})
	if !says(p.Assumed, "its waxed coat is laid last, when its joints and nozzles are") {
		t.Errorf("assumed %v", p.Assumed)
	}
	for i := range p.Job.Joints {
		x := &p.Job.Joints[i]
		x.Gap, x.Qualification = in(0.25), "BP-1"
		if err := quantity.Read(&x.AxialLoad, "0 lb/in"); err != nil {
			t.Fatal(err)
		}
	}
	p.Job.Test = laminate.Test{Medium: laminate.TestWater, LiquidHeight: in(14 * 12 * 1.25), Pressure: psi(0)}
	for i := range p.Job.Parts { // the fill of the test stands in the head and lifts it
		if p.Job.Parts[i].Form == laminate.FlatBottom {
			p.Job.Parts[i].HoldDown = psi(1)
		}
	}
	r := rules.JudgeJob(all.Rules(), p.Job, catalog.Library(), rules.Options{})
	waits := map[laminate.RefKind]int{}
	for _, f := range r.Findings {
		if f.Severity > rules.Note {
			t.Errorf("%s: %s", f.Rule.ID, f.Message)
		}
		if f.Rule.ID == "wax-under-bond" {
			waits[f.At.Kind]++
		}
	}
	// Of the joints the one at the bottom, whose strap the knuckle is laid over.
	if waits[laminate.RefJobPart] != len(p.Job.Parts) || waits[laminate.RefJoint] != 1 || r.Verdict != rules.Clear {
		t.Errorf("%v of %d parts end in a coat that waits; the job is %v", waits, len(p.Job.Parts), r.Verdict)
	}
	for i := range p.Job.Parts {
		if v := r.PartVerdict(i); v != rules.Clear {
			t.Errorf("part %s is %v", p.Job.Parts[i].ID, v)
		}
	}
	if again := propose(t, p.Job, advice.Options{}); len(again.Filled)+len(again.Assumed) > 0 {
		t.Errorf("%v %v", again.Filled, again.Assumed)
	}
}

// A flat panel is not held round, whatever its length: nobody is asked for what holds
// it. A flat lid that a person's weight makes thick is told of what is laid instead.
func TestPropose_flatParts(t *testing.T) {
	j := bare()
	j.Nozzles, j.Service.Vacuum = nil, psi(0.25)
	for _, f := range []laminate.PartForm{laminate.Panel, laminate.Cover} {
		p := laminate.JobPart{ID: f.String()}
		p.Form, p.Process, p.Length, p.Width, p.Edge, p.DeflectionLimit, p.LiquidHeight = f, laminate.ContactMolded, in(36), in(24), laminate.Clamped, laminate.Some(0.01), in(0)
		j.Parts = append(j.Parts, p)
	}
	p := propose(t, j, advice.Options{})
	for _, l := range slices.Concat(p.Assumed, p.Filled) {
		if strings.Contains(l.Text, "stiffener_spacing") && (strings.Contains(l.Text, "panel") || strings.Contains(l.Text, "cover")) {
			t.Error(l.Text)
		}
	}
	if !says(p.Filled, "part panel: laminate") || !says(p.Filled, "part cover: laminate") {
		t.Errorf("%v", p.Filled)
	}
	lidded := func(diameter float64) *equipment.Proposal {
		j := bare()
		j.Nozzles, j.Service.Vacuum = nil, psi(0)
		lid := &j.Parts[len(j.Parts)-1]
		*lid = laminate.JobPart{ID: "lid"}
		lid.Form, lid.Process, lid.Edge, lid.DeflectionLimit = laminate.Cover, laminate.ContactMolded, laminate.SimplySupported, laminate.Some(0.005)
		for i := range j.Parts {
			j.Parts[i].InsideDiameter = in(diameter)
		}
		j.Joints = []laminate.Joint{{ID: "J1", Between: [2]string{"shell-3", "lid"}}, {ID: "J2", Between: [2]string{"shell-1", "shell-2"}}, {ID: "J3", Between: [2]string{"shell-2", "shell-3"}}, {ID: "J4", Between: [2]string{"bottom", "shell-1"}}}
		return propose(t, j, advice.Options{})
	}
	if p := lidded(96); !says(p.Assumed, "ribs laid under it, or a dished head in its place") {
		t.Errorf("%v %v %v", p.Assumed, p.Filled, p.Left)
	}
	if p := lidded(24); says(p.Assumed, "ribs") {
		t.Errorf("%v", p.Assumed)
	}
}

// Statics and the table of NBS PS 15-69 (from memory): 800 lb/in along the axis want 800/1,500
// = 0.533 in of mat and woven roving from 3/8 in on, in the strap and in both walls, whatever
// presses round them; the bond wants 4 in at 200 psi.
func TestPropose_bearsWhatPullsAlong(t *testing.T) {
	j := bare()
	j.Joints = []laminate.Joint{{ID: "J", Between: [2]string{"shell-2", "shell-3"}, Gap: in(0), AxialLoad: quantity.New(800, quantity.PoundPerInch), Qualification: "BP-1"}}
	p := propose(t, j, advice.Options{})
	for _, l := range p.Broken {
		t.Errorf("broken: %s", l.Text)
	}
	x := p.Job.Joints[slices.IndexFunc(p.Job.Joints, func(x laminate.Joint) bool { return x.ID == "J" })]
	for _, id := range []string{x.Outside, p.Job.Parts[2].Laminate, p.Job.Parts[3].Laminate} {
		a := laminate.Analyze(p.Job.Schedule(p.Job.Laminate(id)), catalog.Library())
		if thick := a.Zones[laminate.StructuralLayer].Thickness / 0.0254; thick < 0.53 || thick > 0.7 {
			t.Errorf("laminate %s has a structure of %.3f in", id, thick)
		}
	}
	if w := x.Width.SI() / 0.0254; w < 8 {
		t.Errorf("the strap is %.2f in wide", w)
	}
	// Without it the same parts are as thin as they were.
	j.Joints[0].AxialLoad = quantity.New(0, quantity.PoundPerInch)
	p = propose(t, j, advice.Options{})
	if a := laminate.Analyze(p.Job.Schedule(p.Job.Laminate(p.Job.Parts[3].Laminate)), catalog.Library()); a.Zones[laminate.StructuralLayer].Thickness > 0.3*0.0254 {
		t.Errorf("a course that nothing pulls at has %.3f in", a.Zones[laminate.StructuralLayer].Thickness/0.0254)
	}
}

// The coat of what is laid waits too, where something is bonded onto it: a shop that lays
// a neck with its coat bonds its pad to wax.
func TestPropose_saysWhenTheCoatOfWhatIsLaidWaits(t *testing.T) {
	p := propose(t, bare(), advice.Options{})
	if !says(p.Assumed, "nozzle N1") || !says(p.Assumed, "the waxed coat of its neck is laid after its pad, its overlay outside") {
		t.Errorf("assumed %v", p.Assumed)
	}
	for _, l := range p.Assumed {
		if strings.Contains(l.Text, "the waxed coat of its pad") || strings.Contains(l.Text, "the waxed coat of its seal") {
			t.Errorf("nothing is bonded onto it, or it has no coat: %s", l.Text)
		}
	}
	// What was laid out before is not told of.
	if again := propose(t, p.Job, advice.Options{}); len(again.Assumed) > 0 {
		t.Errorf("told again: %v", again.Assumed)
	}
}

// ducts is a line of four ducts of 36 in and 5 ft and a cone, without a wall, under a vacuum.
func ducts() *laminate.Job {
	j := bare()
	j.Nozzles, j.Parts, j.Vessel = nil, nil, laminate.Vessel{}
	j.Service.Contact, j.Service.SpecificGravity, j.Service.Vacuum = laminate.Vapor, laminate.Optional[float64]{}, psi(0.361)
	for _, id := range []string{"A", "B", "C", "D", "T"} {
		p := laminate.JobPart{ID: id}
		p.Form, p.Process, p.Ends, p.InsideDiameter, p.Length = laminate.Duct, laminate.ContactMolded, laminate.ClosedEnds, in(36), in(60)
		if id == "T" {
			p.Form, p.Length, p.SmallDiameter, p.HalfAngle = laminate.Cone, quantity.Length{}, in(24), laminate.Some(15.0)
		}
		if n := len(j.Parts); n > 0 {
			j.Joints = append(j.Joints, laminate.Joint{ID: "J" + id, Between: [2]string{j.Parts[n-1].ID, id}})
		}
		j.Parts = append(j.Parts, p)
	}
	return j
}

// A line is laid for all of its length that straps leave free, its cone too: what is
// proposed holds where it is judged, and says what is taken to hold the ends of the line.
func TestPropose_aLineForAllThatIsFreeOfIt(t *testing.T) {
	for _, stated := range []bool{true, false} {
		j := ducts()
		if stated {
			for _, i := range []int{0, 4} {
				j.Parts[i].Flanged = laminate.Some(true)
			}
		}
		p := propose(t, j, advice.Options{})
		if len(p.Left) > 0 || says(p.Broken, "external pressure") {
			t.Errorf("flanged %v: left %v, broken %v", stated, p.Left, p.Broken)
		}
		open := false
		for i, part := range p.Report.Parts {
			c := part.Wall.Criteria[slices.IndexFunc(part.Wall.Criteria, func(c wall.Criterion) bool { return c.Name == wall.ExternalPressure })]
			if open = open || c.Answer == wall.Incomplete; c.Answer == wall.Fails || stated && c.Answer != wall.Holds {
				t.Errorf("%s: %+v", p.Job.Parts[i].ID, c)
			}
		}
		if a, cone := p.Report.Parts[0].Wall.Whole, p.Report.Parts[4].Wall.Whole; stated && cone < a*(1-1e-9) {
			t.Errorf("the cone is %v, the duct as wide beside it %v", cone, a)
		}
		// What is not held as it stands rests on an assumption, and that is said.
		if says(p.Assumed, "the line that joints make of the part is held round at its ends") != open {
			t.Errorf("flanged %v: assumed %v, open %v", stated, p.Assumed, open)
		}
	}
}
