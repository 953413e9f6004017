package workings_test

import (
	"encoding/json"
	"math"
	"slices"
	"strconv"
	"strings"
	"testing"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/catalog"
	"frp/veilwright/laminate/published"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/wall"
	"frp/veilwright/laminate/wall/walltest"
	"frp/veilwright/laminate/wall/worked"
	"frp/veilwright/rules"
	"frp/veilwright/rules/all"
	"frp/veilwright/rules/joint"
	"frp/veilwright/rules/joint/statics"
	"frp/veilwright/rules/joint/workings"
	"frp/veilwright/rules/ruletest"
)

func inches(v float64) quantity.Length { return quantity.New(v, quantity.Inch) }
func psi(v float64) quantity.Pressure  { return quantity.New(v, quantity.PSI) }

// pipes are two pipes joined, of an inside diameter under a pressure, with a nozzle of
// an opening on the first and a pad of a diameter.
func pipes(inside, pressure, opening, pad, neckBond float64) *laminate.Job {
	j := ruletest.Job(ruletest.Sound())
	mats := func(id string, n int) laminate.Laminate {
		return laminate.Laminate{ID: id, Plies: []laminate.Ply{{Material: catalog.Mat15, Resin: ruletest.Wall, Zone: laminate.StructuralLayer, Count: n}}}
	}
	j.Laminates = []laminate.Laminate{{ID: "wall", Plies: j.Laminates[0].Plies[:ruletest.CoatRow]}, mats("strap", 5)}
	j.Service.Pressure = psi(pressure)
	j.Parts[0].ID, j.Parts[0].Laminate, j.Parts[0].InsideDiameter = "a", "wall", inches(inside)
	j.Parts = append(j.Parts, j.Parts[0])
	j.Parts[1].ID = "b"
	j.Joints = []laminate.Joint{{ID: "J", Between: [2]string{"a", "b"}, Outside: "strap", Width: inches(6), FirstWidth: inches(2), Gap: inches(0.125), AxialLoad: quantity.New(0, quantity.PoundPerInch)}}
	j.Nozzles = []laminate.Nozzle{{ID: "N", On: "a", Height: quantity.New(4, quantity.Foot), Opening: inches(opening), Pad: "strap", PadDiameter: inches(pad), NeckBond: inches(neckBond), Projection: inches(24)}}
	return j
}

func of(j *laminate.Job, u quantity.System) (*rules.JobReport, []workings.Check) {
	r := rules.JudgeJob(all.Rules(), j, catalog.Library(), rules.Options{Units: u})
	return r, workings.Of(r, catalog.Library(), u)
}

func step(t *testing.T, list []workings.Check, check, symbol string) float64 {
	t.Helper()
	for i := range list {
		for _, s := range list[i].Steps {
			if list[i].Name == check && s.Symbol == symbol {
				return s.Value
			}
		}
	}
	t.Fatalf("%s has no step %s: %+v", check, symbol, list)
	return 0
}

// The figures of a reviewer are those that the forms give by hand.
func TestOf_givesTheFiguresOfThePublishedForms(t *testing.T) {
	var f struct {
		published.Head
		Bonds []struct {
			Diameter float64 `json:"diameter_in"`
			Pressure float64 `json:"pressure_psi"`
			Load     float64 `json:"load_lb_in"`
			Shear    float64 `json:"shear_psi"`
			Length   float64 `json:"length_in"`
		} `json:"bonds_us"`
		PadShear []struct {
			Load    float64 `json:"load_lb_in"`
			Opening float64 `json:"opening"`
			Pad     float64 `json:"pad"`
			Shear   float64 `json:"shear"`
		} `json:"pad_shear_psi"`
		BlowOut []struct {
			Pressure float64 `json:"pressure"`
			Diameter float64 `json:"diameter"`
			Bonded   float64 `json:"bonded"`
			Shear    float64 `json:"shear"`
		} `json:"blow_out_psi"`
		// What package joining itself is held to.
		Metric    json.RawMessage `json:"bonds_si"`
		Widths    json.RawMessage `json:"widths_in"`
		Plies     json.RawMessage `json:"plies_in"`
		Stagger   json.RawMessage `json:"stagger_in"`
		Peaks     json.RawMessage `json:"peaks"`
		Pads      json.RawMessage `json:"pads_in"`
		Diameters json.RawMessage `json:"pad_diameter_in"`
	}
	published.Load(t, "joining/bonds.json", &f)
	thick := laminate.Analyze(pipes(24, 1, 2, 8, 3).Wall(0), catalog.Library()).Total.Thickness / 0.0254
	for _, c := range f.Bonds {
		_, list := of(pipes(c.Diameter-2*thick, c.Pressure, 2, 8, 3), quantity.US)
		published.Near(t, "load along the axis", step(t, list, workings.BondLength, "N"), c.Load, 0.01)
		published.Near(t, "bond needed", step(t, list, workings.BondLength, "L"), c.Length, 0.001)
		published.Near(t, "load round", step(t, list, workings.StrapLoad, "N"), 2*c.Load, 0.02) // p D/2 is twice p D/4
	}
	for _, c := range f.PadShear {
		_, list := of(pipes(60, 2*c.Load/60, c.Opening, c.Pad, 3), quantity.US)
		published.Near(t, "load round", step(t, list, workings.PadBond, "N"), c.Load, 0.01)
		published.Near(t, "shear of the pad's bond", step(t, list, workings.PadBond, "τp"), c.Shear, 0.05)
	}
	for _, c := range f.BlowOut {
		_, list := of(pipes(60, c.Pressure, c.Diameter, 2*c.Diameter, c.Bonded), quantity.US)
		published.Near(t, "shear of the neck's bond", step(t, list, workings.NeckBond, "τn"), c.Shear, 0.001)
	}
	// By hand: what the wall may bear beyond 375 lb/in counts; without any it is N d/r, and
	// with a pad of 9 in round 3 in the ring counts to twice the opening.
	_, list := of(pipes(60, 12.5, 3, 9, 3), quantity.US)
	n, u := step(t, list, workings.PadLoad, "N"), step(t, list, workings.PadLoad, "U")
	published.Near(t, "pad load", step(t, list, workings.PadLoad, "Np"), math.Max(0, n*3/3-math.Max(0, u-n)), 0.001)
	published.Near(t, "ring", step(t, list, workings.PadLoad, "r"), 3, 1e-9)
}

// Statics: at a flange on a pipe the strap lies on the pipe's wall, on a flange at the
// small end of a cone on the cone's there: D is 8 in and two walls, and the load round
// p·D/2, however thick the ring of the flange is.
func TestOf_figuresTheStrapOfAFlangeOnTheWallThatItIsOn(t *testing.T) {
	for name, change := range map[string]func(*laminate.Job){
		"a pipe": func(*laminate.Job) {},
		"a cone": func(j *laminate.Job) {
			p := &j.Parts[0]
			p.Form, p.InsideDiameter, p.SmallDiameter, p.HalfAngle, p.Length = laminate.Cone, inches(60), inches(8), laminate.Some(30.0), quantity.Length{}
			p.LiquidHeight = inches(0)
		},
	} {
		j := pipes(8, 100, 2, 8, 3)
		j.Nozzles = nil
		ring := j.Laminates[1]
		ring.ID, ring.Plies = "ring", slices.Clone(ring.Plies)
		ring.Plies[0].Count = 25
		j.Laminates = append(j.Laminates, ring)
		j.Parts[1].Form, j.Parts[1].Laminate, j.Parts[1].InsideDiameter, j.Parts[1].Size = laminate.Flange, "ring", quantity.Length{}, inches(8)
		change(j)
		d := 8 + 2*laminate.Analyze(j.Wall(0), catalog.Library()).Total.Thickness/0.0254
		_, list := of(j, quantity.US)
		published.Near(t, name+": diameter", step(t, list, workings.BondLength, "D"), d, 1e-6)
		published.Near(t, name+": load along the axis", step(t, list, workings.BondLength, "N"), 100*d/4, 1e-3)
		published.Near(t, name+": load round", step(t, list, workings.StrapLoad, "N"), 100*d/2, 1e-3)
		walls := laminate.Analyze(j.Wall(0), catalog.Library()).Zones[laminate.StructuralLayer].Thickness / 0.0254
		published.Near(t, name+": the thinner wall", step(t, list, workings.StrapThickness, "tw"), walls, 1e-6)
	}
}

// Statics: p·D/4 pulls at a bond, and at 200 psi, of which the walls leave 0.8 warm, it asks
// for p·D/640 of length; where nobody says what a wall keeps, strap and bonds are open.
func TestOf_holdsNothingOnFiguresThatAreMissing(t *testing.T) {
	j := pipes(8, 100, 2, 8, 3)
	j.Service.Temperature = ruletest.Fahrenheit(150)
	j.Parts[0].ModulusRetention, j.Parts[1].ModulusRetention = laminate.Some(0.8), laminate.Some(0.9)
	_, list := of(j, quantity.US)
	d := step(t, list, workings.BondLength, "D")
	published.Near(t, "diameter", d, 8+2*laminate.Analyze(j.Wall(0), catalog.Library()).Total.Thickness/0.0254, 1e-6)
	published.Near(t, "pressure inside", step(t, list, workings.BondLength, "p"), 100, 1e-6)
	published.Near(t, "bond needed", step(t, list, workings.BondLength, "L"), 100*d/640, 1e-6)
	published.Near(t, "shear of the pad's bond", step(t, list, workings.PadBond, "τ"), 160, 1e-6)
	published.Near(t, "shear of the neck's bond", step(t, list, workings.NeckBond, "τ"), 160, 1e-6)
	for i := range list {
		pocket(t, list[i].Name, list[i].Steps)
	}
	j.Parts[0].ModulusRetention, j.Parts[1].ModulusRetention = laminate.Optional[float64]{}, laminate.Optional[float64]{}
	_, list = of(j, quantity.US)
	for i := range list {
		if c := &list[i]; c.Answer != wall.Incomplete {
			t.Errorf("%s: %s", c.Name, c.Answer)
		}
	}
}

// Statics: 20 ft of water, 8.67 psi, press at the rim of a hemisphere of 48 in that hangs
// below a course, and what that holds, 2/3·π·24³ in³, weighs 1,045 lb beside. Both pull on
// the circle of the bond line, pt = p + W/(π/4·D²), and ask for more than p·D/2 of the
// strap: nothing of it is left out of what is printed.
func TestOf_showsWhatAHangingBottomPulls(t *testing.T) {
	j := pipes(48, 0, 2, 8, 3)
	j.Service.SpecificGravity, j.Vessel.LiquidHeight, j.Nozzles = laminate.Some(1.0), quantity.New(20, quantity.Foot), nil
	for i := range j.Parts {
		j.Parts[i].Form, j.Parts[i].Length = laminate.ShellCourse, quantity.New(20, quantity.Foot)
	}
	bottom := j.Parts[0]
	bottom.ID, bottom.Form, bottom.Head, bottom.Length = "h", laminate.HeadPart, laminate.Hemispherical, quantity.Length{}
	j.Parts = append([]laminate.JobPart{bottom}, j.Parts...)
	below := j.Joints[0]
	below.ID, below.Between = "K", [2]string{"h", "a"}
	j.Joints = append([]laminate.Joint{below}, j.Joints...)
	_, list := of(j, quantity.US)
	d := step(t, list, workings.BondLength, "D")
	published.Near(t, "pressure", step(t, list, workings.BondLength, "pc"), 20*0.43353, 0.01)
	published.Near(t, "liquid", step(t, list, workings.BondLength, "W"), 2.0/3*math.Pi*24*24*24*0.0361273, 2)
	published.Near(t, "pull", step(t, list, workings.BondLength, "pt"), 20*0.43353+2.0/3*math.Pi*24*24*24*0.0361273/(math.Pi/4*d*d), 0.01)
	for i := range list {
		pocket(t, list[i].Name, list[i].Steps)
	}
	// An opening in the dry course above takes what pulls along from the wall, where nothing
	// presses round: p·D/4 and W over the circle of the wall.
	j.Nozzles = []laminate.Nozzle{{ID: "N", On: "b", Height: quantity.New(10, quantity.Foot), Opening: inches(4), Pad: "strap", PadDiameter: inches(8), NeckBond: inches(3), Projection: inches(24)}}
	_, at := of(j, quantity.US)
	n := 20*0.43353*48/4 + 1045/(math.Pi*48)
	published.Near(t, "load at an opening", step(t, at, workings.PadLoad, "N"), n, 0.02*n)
	published.Near(t, "load of its pad's bond", step(t, at, workings.PadBond, "N"), n, 0.02*n)
	for i := range at {
		pocket(t, at[i].Name, at[i].Steps)
	}
	j.Nozzles[0].Pad, j.Nozzles[0].PadDiameter = "", quantity.Length{}
	if r, _ := of(j, quantity.US); !slices.ContainsFunc(r.Findings, func(f rules.Finding) bool {
		return f.Rule == joint.PadThin && f.Severity == rules.Break && strings.Contains(f.Message, "along the axis have to be carried past it")
	}) {
		t.Errorf("an opening without a pad where only the pull loads it: %+v", r.Findings)
	}
	// The joint above it is dry, and all of that hangs from it.
	dry := slices.IndexFunc(list, func(c workings.Check) bool { return c.Name == workings.StrapAlong && c.Case == "joint J" })
	if dry < 0 || math.Abs(list[dry].Demand*0.0254/4.4482216152605-(20*0.43353*d/4+1045/math.Pi/d)) > 3 {
		t.Errorf("%+v", list)
	}
}

// ASME VIII UG-37(d), from memory: a pad brings back half of the wall that is cut out,
// t·d/2 over the ring min(dr, 2·d) − d; nothing presses from inside, and that is not all.
func TestOf_worksOutAPadUnderVacuum(t *testing.T) {
	j := pipes(24, 0, 4, 7, 3)
	j.Service.Vacuum = psi(0.2)
	_, list := of(j, quantity.US)
	thick := laminate.Analyze(j.Wall(0), catalog.Library()).Zones[laminate.StructuralLayer].Thickness / 0.0254
	published.Near(t, "half of the wall over the ring", step(t, list, workings.PadVacuum, "tw"), thick*4/2/3, 1e-6)
	for i := range list {
		pocket(t, list[i].Name, list[i].Steps)
		if c := &list[i]; c.Name == workings.PadLoad && !strings.Contains(c.Reason, "the vacuum") {
			t.Errorf("%s: %s", c.Name, c.Reason)
		}
	}
	j.Laminates[1].Plies[0].Count = 1
	if _, list = of(j, quantity.US); !slices.ContainsFunc(list, func(c workings.Check) bool {
		return c.Name == workings.PadVacuum && c.Answer == wall.Incomplete && strings.Contains(c.Reason, "does not bring back half")
	}) {
		t.Errorf("%+v", list)
	}
}

// NBS PS 15-69, from memory: a neck of 4 in and 100 psi of mat wants t = p·D/(2·900) =
// 0.222 in of structure and of the barrier's first 0.1 in, and is shown as it is judged.
func TestOf_worksOutTheWallOfANeck(t *testing.T) {
	for count, fails := range map[int]bool{2: true, 5: false} {
		j := pipes(24, 10, 4, 8, 3)
		n := &j.Nozzles[0]
		n.Size, n.PressureClass, n.Neck = inches(4), psi(100), "neck"
		neck := laminate.Laminate{ID: "neck", Plies: slices.Clone(j.Wall(0).Plies[:2])}
		neck.Plies = append(neck.Plies, laminate.Ply{Material: catalog.Mat15, Resin: ruletest.Wall, Zone: laminate.StructuralLayer, Count: count})
		j.Laminates = append(j.Laminates, neck)
		r, list := of(j, quantity.US)
		published.Near(t, "wanted", step(t, list, workings.NeckWall, "tw"), 100*4/1800.0, 1e-6)
		k := slices.IndexFunc(list, func(c workings.Check) bool { return c.Name == workings.NeckWall })
		broken := slices.ContainsFunc(r.Findings, func(f rules.Finding) bool { return f.Rule == joint.NeckThin && f.Severity == rules.Break })
		if (list[k].Answer == wall.Fails) != fails || broken != fails || !strings.Contains(list[k].Reason, "as a pipe of its class, 100.0 psi") {
			t.Errorf("%d mats: %s, rule breaks %t: %s", count, list[k].Answer, broken, list[k].Reason)
		}
		for _, s := range list[k].Steps {
			if s.What == "hoop strain" || s.What == "resin strain" {
				t.Errorf("%s does not govern", s.What)
			}
		}
	}
}

// What a corner between plates carries nothing figures, and nothing holds there.
func TestOf_leavesACornerBetweenPlatesOpen(t *testing.T) {
	j := pipes(24, 10, 2, 8, 3)
	j.Nozzles = nil
	for i := range j.Parts {
		p := &j.Parts[i]
		p.Form, p.Length, p.Width, p.InsideDiameter = laminate.Panel, inches(72), inches(60), quantity.Length{}
	}
	_, list := of(j, quantity.US)
	if len(list) != 3 {
		t.Fatalf("%+v", list)
	}
	for i := range list {
		if c := &list[i]; c.Answer != wall.Incomplete || !strings.Contains(c.Reason, "panel a is a plate") {
			t.Errorf("%s: %s %q", c.Name, c.Answer, c.Reason)
		}
	}
}

// Of flanges that are bolted to each other nothing of a strap is figured.
func TestOf_asksForNoStrapOverWhatIsBolted(t *testing.T) {
	j := pipes(24, 10, 2, 8, 3)
	j.Nozzles = nil
	for i := range j.Parts {
		p := &j.Parts[i]
		p.Form, p.Length, p.Size, p.InsideDiameter = laminate.Flange, quantity.Length{}, inches(24), quantity.Length{}
	}
	_, list := of(j, quantity.US)
	if len(list) != 3 {
		t.Fatalf("%+v", list)
	}
	for i := range list {
		if c := &list[i]; c.Answer != wall.NotApplicable || !strings.Contains(c.Reason, "bolted") {
			t.Errorf("%s: %s %q", c.Name, c.Answer, c.Reason)
		}
	}
}

// Statics: each condition loads a strap with its own p·D/2 and a pad with its own N,
// against what is kept at its own temperature. 4 psi on half of the strength are less
// than 10 psi on all of it, and on three tenths more; what nothing loads need keep nothing.
func TestOf_judgesEachConditionByItself(t *testing.T) {
	for name, c := range map[string]struct {
		hot      float64 // psi
		keeps    laminate.Optional[float64]
		pressure float64 // that decides, psi
		share    float64
	}{
		"the cold one decides": {4, laminate.Some(0.5), 10, 1},
		"the warm one decides": {4, laminate.Some(0.3), 4, 0.3},
		"warm without a load":  {0, laminate.Optional[float64]{}, 10, 1},
		"nobody says":          {4, laminate.Optional[float64]{}, 0, 0},
	} {
		j := pipes(24, 10, 2, 8, 3)
		j.Service.Temperature = ruletest.Fahrenheit(150)
		j.Conditions = []laminate.Condition{
			{Name: "running", Temperature: ruletest.Fahrenheit(80), Pressure: psi(10)},
			{Name: "flushed", Temperature: ruletest.Fahrenheit(150), Pressure: psi(c.hot), ModulusRetention: c.keeps},
		}
		_, list := of(j, quantity.US)
		for i := range list {
			if x := &list[i]; (x.Name == workings.StrapLoad || x.Name == workings.PadLoad || x.Name == workings.BondLength || x.Name == workings.NeckBond) && (x.Answer == wall.Incomplete) != (c.share == 0) {
				t.Errorf("%s: %s %s: %s", name, x.Name, x.Answer, x.Reason)
			} else if x.Answer == wall.Incomplete && !strings.Contains(x.Reason, "keeps of its strength warm under flushed is not stated") {
				t.Errorf("%s: %s: %s", name, x.Name, x.Reason)
			}
			pocket(t, name+", "+list[i].Name, list[i].Steps)
		}
		if c.share == 0 {
			continue
		}
		d := step(t, list, workings.BondLength, "D")
		published.Near(t, name+": bond", step(t, list, workings.BondLength, "L"), c.pressure*d/800/c.share, 1e-6)
		strap := laminate.Analyze(&laminate.Schedule{Resins: j.Resins, Plies: j.Laminates[1].Plies}, catalog.Library())
		hoop, _, _ := statics.Carries(strap)
		published.Near(t, name+": load round", step(t, list, workings.StrapLoad, "N"), c.pressure*d/2, 1e-6)
		published.Near(t, name+": load that it may bear", step(t, list, workings.StrapLoad, "Us"), hoop*c.share*0.0254/4.4482216152605, 1e-4)
	}
}

// What the calculation says of a joint or nozzle is what the rules say, and a pocket
// calculator gets what is printed.
func TestOf_agreesWithTheRulesAndWithAPocketCalculator(t *testing.T) {
	judges := map[string]*rules.Rule{
		workings.BondLength: joint.JointShearShort, workings.StrapLoad: joint.JointHoopThin, workings.StrapThickness: joint.JointHoopThin,
		workings.StrapAlong: joint.JointAxialThin, workings.PadLoad: joint.PadThin, workings.PadBond: joint.PadBond, workings.NeckBond: joint.NeckBondShort,
	}
	changes := map[string]func(*laminate.Job){
		"holds":            func(*laminate.Job) {},
		"pressed":          func(j *laminate.Job) { j.Service.Pressure = psi(150) },
		"nothing presses":  func(j *laminate.Job) { j.Service.Pressure = psi(0) },
		"no pressure":      func(j *laminate.Job) { j.Service.Pressure = quantity.Pressure{} },
		"no width":         func(j *laminate.Job) { j.Joints[0].Width = quantity.Length{} },
		"narrow":           func(j *laminate.Job) { j.Joints[0].Width = inches(0.2) },
		"pulled":           func(j *laminate.Job) { j.Joints[0].AxialLoad = quantity.New(900, quantity.PoundPerInch) },
		"pushed":           func(j *laminate.Job) { j.Joints[0].AxialLoad = quantity.New(-900, quantity.PoundPerInch) },
		"own bond":         func(j *laminate.Job) { j.Bond = laminate.Bond{ShearStrength: psi(100), Factor: laminate.Some(10.0)} },
		"no strap":         func(j *laminate.Job) { j.Joints[0].Outside = "" },
		"thin strap":       func(j *laminate.Job) { j.Laminates[1].Plies[0].Count = 2 },
		"no pad":           func(j *laminate.Job) { j.Nozzles[0].Pad, j.Nozzles[0].PadDiameter = "", quantity.Length{} },
		"pad not stated":   func(j *laminate.Job) { j.Nozzles[0].PadDiameter = quantity.Length{} },
		"pad as wide":      func(j *laminate.Job) { j.Nozzles[0].PadDiameter = inches(2) },
		"pad hardly wider": func(j *laminate.Job) { j.Nozzles[0].PadDiameter = inches(2.1) },
		"no neck bond":     func(j *laminate.Job) { j.Nozzles[0].NeckBond = quantity.Length{} },
		"a short pipe":     func(j *laminate.Job) { j.Parts[1].Length = inches(0.2) },
		"a pipe of two straps": func(j *laminate.Job) {
			j.Parts[1].Length = inches(0.7)
			c, more := j.Parts[0], j.Joints[0]
			c.ID, more.ID, more.Between = "c", "K", [2]string{j.Parts[1].ID, "c"}
			j.Parts, j.Joints = append(j.Parts, c), append(j.Joints, more)
		},
		"no projection":   func(j *laminate.Job) { j.Nozzles[0].Projection = quantity.Length{} },
		"a short neck":    func(j *laminate.Job) { j.Nozzles[0].Projection = inches(0.02) },
		"short neck bond": func(j *laminate.Job) { j.Nozzles[0].NeckBond = inches(0.01) },
		"warm": func(j *laminate.Job) {
			for i := range j.Parts {
				j.Parts[i].ModulusRetention = laminate.Some(0.6)
			}
			j.Service.Temperature = ruletest.Fahrenheit(150)
		},
		"warm, and nobody says what it keeps": func(j *laminate.Job) { j.Service.Temperature = ruletest.Fahrenheit(150) },
		"under liquid": func(j *laminate.Job) {
			for i := range j.Parts {
				j.Parts[i].LiquidHeight = quantity.New(20, quantity.Foot)
			}
			j.Service.SpecificGravity = laminate.Some(1.3)
		},
		"on a head": func(j *laminate.Job) {
			j.Parts[0].Form, j.Parts[0].Head, j.Parts[0].LiquidHeight = laminate.HeadPart, laminate.Hemispherical, quantity.New(0, quantity.Meter)
		},
		"on a plate": func(j *laminate.Job) { j.Parts[0].Form = laminate.Cover },
	}
	failed, open := map[string]bool{}, map[string]bool{}
	for name, change := range changes {
		for _, units := range []quantity.System{quantity.US, quantity.Metric} {
			j := pipes(24, 10, 2, 8, 3)
			change(j)
			r, list := of(j, units)
			for check, rule := range judges {
				fails, broken := false, slices.ContainsFunc(r.Findings, func(f rules.Finding) bool { return f.Rule == rule && f.Severity == rules.Break })
				for i := range list {
					if c := &list[i]; judges[c.Name] == rule && c.Answer == wall.Fails {
						fails, failed[check] = true, true
					}
				}
				if fails != broken {
					t.Errorf("%s: %s: fails is %t, and rule %s breaks is %t", name, check, fails, rule.ID, broken)
				}
			}
			for i := range list {
				c := &list[i]
				if c.Answer == wall.Incomplete {
					if open[c.Name] = true; c.Reason == "" {
						t.Errorf("%s: %s is incomplete, and nothing says why", name, c.Name)
					}
				}
				pocket(t, name+", "+c.Name, c.Steps)
			}
		}
	}
	for check := range judges {
		if !failed[check] || !open[check] && check != workings.StrapAlong { // the load round says what is missing
			t.Errorf("nothing here has %s fail (%t) and incomplete (%t)", check, failed[check], open[check])
		}
	}
}

// pocket holds the printed results against the printed numbers, to what rounding
// leaves of six digits.
func pocket(t *testing.T, what string, steps []worked.Step) {
	t.Helper()
	for _, s := range steps {
		if unit := worked.Pick(s.Symbol == "utilization", s.In, s.Unit); unit == "" && !math.IsNaN(s.Value) {
			t.Errorf("%s: %s is printed without a unit", what, s.What)
		}
		if s.Numbers == "" {
			continue
		}
		got, err := walltest.Calculator(s.Numbers)
		printed, _ := strconv.ParseFloat(worked.Number(s.Value), 64)
		if err != nil || math.Abs(got-printed) > 1e-4*math.Max(math.Abs(printed), 1e-3) {
			t.Errorf("%s: %s = %s is printed, a calculator gets %g; %v", what, strings.TrimSpace(s.What), s.Result(), got, err)
		}
	}
}
