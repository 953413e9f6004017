package others_test

import (
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/catalog"
	proved "frp/veilwright/laminate/others"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/rules"
	"frp/veilwright/rules/all"
	"frp/veilwright/rules/others"
	"frp/veilwright/rules/ruletest"
)

func in(v float64) quantity.Length    { return quantity.New(v, quantity.Inch) }
func psi(v float64) quantity.Pressure { return quantity.New(v, quantity.PSI) }

// line is two pipes of the sound laminate, joined, with a nozzle on the first and a test.
func line() *laminate.Job {
	j := ruletest.Job(ruletest.Sound())
	ply := func(material, resin string, zone laminate.Zone, count int) laminate.Ply {
		return laminate.Ply{Material: material, Resin: resin, Zone: zone, Count: count}
	}
	j.Laminates = []laminate.Laminate{
		{ID: "wall", Plies: j.Laminates[0].Plies},
		{ID: "strap", Plies: []laminate.Ply{ply(catalog.Mat15, ruletest.Wall, laminate.StructuralLayer, 5)}},
		{ID: "seal", Plies: []laminate.Ply{ply(catalog.Mat15, ruletest.Liner, laminate.InteriorLayer, 2), ply(catalog.VeilC15, ruletest.Liner, laminate.InnerSurface, 1)}},
		{ID: "wound", Plies: []laminate.Ply{ply(catalog.Mat15, ruletest.Wall, laminate.StructuralLayer, 4), {Material: catalog.Uni13, Resin: ruletest.Wall, Zone: laminate.StructuralLayer, Count: 2, Angle: laminate.Some(0.0)}}},
	}
	j.Parts[0].ID, j.Parts[0].Laminate = "a", "wall"
	j.Parts = append(j.Parts, j.Parts[0])
	j.Parts[1].ID, j.Parts[1].Length = "b", in(24)
	j.Joints = []laminate.Joint{{ID: "J", Between: [2]string{"a", "b"}, Outside: "strap", Inside: "seal", Width: in(6), FirstWidth: in(2), InsideWidth: in(4), Gap: in(0.125),
		AxialLoad: quantity.New(0, quantity.PoundPerInch), Qualification: "procedure 3", Widths: laminate.NarrowFirst}}
	j.Nozzles = []laminate.Nozzle{{
		ID: "N", On: "a", Height: in(48), Bearing: laminate.Some(0.0), Size: in(2), Kind: laminate.SetOn, Projection: in(6), PressureClass: psi(50), Pad: "strap", PadDiameter: in(8),
		InstallationOutside: "strap", InstallationInside: "seal", Neck: "wall", NeckBond: in(3), Gussets: laminate.Some(4), SealedEdge: laminate.Some(true), PipingLoad: laminate.Some(false),
	}}
	j.Service.SpecificGravity = laminate.Some(1.0)
	j.Test = laminate.Test{Medium: laminate.TestWater, Pressure: psi(30)}
	return j
}

// with adds a part of a form.
func with(form laminate.PartForm, shape func(p *laminate.Part)) func(*laminate.Job) {
	return func(j *laminate.Job) {
		p := laminate.JobPart{ID: "x", Laminate: "wall"}
		p.Form, p.Process, p.InsideDiameter, p.LiquidHeight = form, laminate.ContactMolded, in(12), in(0)
		shape(&p.Part)
		j.Parts = append(j.Parts, p)
	}
}

// onto has the nozzle stand on an added part.
func onto(change func(*laminate.Job), offset float64) func(*laminate.Job) {
	return func(j *laminate.Job) {
		change(j)
		j.Nozzles[0].On, j.Nozzles[0].Height, j.Nozzles[0].Offset = "x", quantity.Length{}, in(offset)
	}
}

func steep(p *laminate.Part) { p.HalfAngle, p.SmallDiameter = laminate.Some(45.0), in(2) }

// unfigured is what no formula here figures: what is found of it without a proof, and
// where a proof of it stands.
type unfigured struct {
	name   string
	change func(*laminate.Job)
	at     func(*laminate.Job) []*proved.Proof
	found  []string // incomplete; among others that a proof does not answer for
}

func lastPart(j *laminate.Job) []*proved.Proof {
	return []*proved.Proof{&j.Parts[len(j.Parts)-1].Proof}
}
func theNozzle(j *laminate.Job) []*proved.Proof { return []*proved.Proof{&j.Nozzles[0].Proof} }
func theJoint(j *laminate.Job) []*proved.Proof  { return []*proved.Proof{&j.Joints[0].Proof} }

var list = []unfigured{
	{"a steep cone", with(laminate.Cone, steep), lastPart, []string{"form-not-figured", "course-overstrained-at-test"}},
	{"a steep cone, tested by a vacuum", func(j *laminate.Job) {
		with(laminate.Cone, steep)(j)
		j.Test.Vacuum = psi(0.1)
	}, lastPart, []string{"form-not-figured", "course-overstrained-at-test", "collapse-at-test"}},
	{"a mitered elbow", with(laminate.Elbow, func(p *laminate.Part) {
		p.Miters, p.Turn, p.BendRadius, p.LiquidHeight = laminate.Some(3), laminate.Some(90.0), in(18), quantity.Length{}
	}), lastPart, []string{"form-not-figured", "course-overstrained-at-test", "miter-seams-unstated"}},
	{"a tight elbow", with(laminate.Elbow, func(p *laminate.Part) {
		p.Miters, p.Turn, p.BendRadius, p.LiquidHeight = laminate.Some(0), laminate.Some(90.0), in(9), quantity.Length{}
	}), lastPart, []string{"form-not-figured", "course-overstrained-at-test"}},
	{"a shallow head", with(laminate.HeadPart, func(p *laminate.Part) { p.Head, p.Depth = laminate.Ellipsoidal, in(2) }), lastPart, []string{"form-not-figured", "course-overstrained-at-test"}},
	{"a bottom on legs", with(laminate.FlatBottom, func(p *laminate.Part) { p.Supported = laminate.Some(false) }), lastPart, []string{"form-not-figured", "course-overstrained-at-test"}},
	{"a pipe of 160 psi", func(j *laminate.Job) { j.Parts[1].Pressure = psi(160) }, func(j *laminate.Job) []*proved.Proof { return []*proved.Proof{&j.Parts[1].Proof} }, []string{"pressure-above-scope"}},

	{"an opening in a cover", onto(with(laminate.Cover, func(p *laminate.Part) {
		p.Size, p.Drilling, p.InsideDiameter = in(12), laminate.Class150, quantity.Length{}
	}), 0), theNozzle, []string{"pad-thin"}},
	{"an opening in a bottom", onto(with(laminate.FlatBottom, func(p *laminate.Part) { p.Supported = laminate.Some(true) }), 0), theNozzle, []string{"pad-thin"}},
	{"an opening in a steep cone", onto(with(laminate.Cone, steep), 4), theNozzle, []string{"pad-thin"}},
	{"an opening in a knuckle", onto(with(laminate.HeadPart, func(p *laminate.Part) {
		p.Head, p.CrownRadius, p.KnuckleRadius = laminate.Torispherical, in(12), in(1)
	}), 4.5), theNozzle, []string{"opening-in-knuckle"}},
	{"an opening of more than half", func(j *laminate.Job) { j.Nozzles[0].Opening, j.Nozzles[0].PadDiameter = in(6.5), in(13) }, theNozzle, []string{"opening-large"}},
	{"an opening that a vacuum finds bare", func(j *laminate.Job) {
		j.Parts[0].Vacuum, j.Nozzles[0].Pad, j.Nozzles[0].PadDiameter = psi(0.1), "seal", in(8)
	}, theNozzle, []string{"opening-under-vacuum"}},
	{"piping that pulls", func(j *laminate.Job) { j.Nozzles[0].PipingLoad = laminate.Some(true) }, theNozzle, []string{"nozzle-loads-unknown"}},
	{"a pad that no table knows", func(j *laminate.Job) {
		j.Nozzles[0].Pad, j.Nozzles[0].Opening, j.Nozzles[0].PadDiameter = "wound", in(5), in(11)
		j.Parts[0].Pressure = psi(40)
	}, theNozzle, []string{"pad-thin"}},
	{"two openings close together", func(j *laminate.Job) {
		n := j.Nozzles[0]
		n.ID, n.Height = "M", in(51)
		j.Nozzles = append(j.Nozzles, n)
	}, func(j *laminate.Job) []*proved.Proof {
		return []*proved.Proof{&j.Nozzles[0].Proof, &j.Nozzles[1].Proof}
	}, []string{"openings-close"}},

	{"a class that no standard goes to", func(j *laminate.Job) { j.Nozzles[0].PressureClass = psi(160) }, theNozzle, []string{"class-above-scope"}},
	{"a pull at the edge of a plate", func(j *laminate.Job) {
		with(laminate.FlatBottom, func(p *laminate.Part) { p.Supported = laminate.Some(true) })(j)
		j.Joints[0].Between[1], j.Joints[0].AxialLoad = "x", quantity.New(25, quantity.PoundPerInch)
	}, theJoint, []string{"joint-wall-weak"}},
	{"a corner between plates", func(j *laminate.Job) {
		with(laminate.Panel, func(p *laminate.Part) {
			p.Width, p.Length, p.InsideDiameter, p.LiquidHeight = in(20), in(30), quantity.Length{}, quantity.Length{}
		})(j)
		j.Joints[0].Between[1] = "x"
	}, theJoint, []string{"plate-corner"}},
	{"a strap that no table knows", func(j *laminate.Job) { j.Joints[0].Outside = "wound" }, theJoint, []string{"joint-hoop-thin"}},
	{"a bond that softens", func(j *laminate.Job) {
		for i := range j.Resins {
			j.Resins[i].HeatDeflection = quantity.New(140, quantity.Fahrenheit)
		}
	}, theJoint, []string{"bond-too-warm"}},
}

// reaching is a proof that reaches whatever these jobs bear: of all that is laid where
// it stands in a job, at is its place there.
func reaching(j *laminate.Job, at *proved.Proof) proved.Proof {
	p := proved.Proof{By: "calculation 45, revision 2", Pressure: psi(200), Vacuum: psi(1), Temperature: quantity.New(200, quantity.Fahrenheit), Structure: in(0.01)}
	laid := 0.0
	for i := range j.Parts {
		if &j.Parts[i].Proof == at {
			laid = structure(j, j.Parts[i].Laminate)
		}
	}
	for i := range j.Joints {
		if &j.Joints[i].Proof == at {
			laid = structure(j, j.Joints[i].Outside)
		}
	}
	for i := range j.Nozzles {
		if n := &j.Nozzles[i]; &n.Proof == at {
			k := slices.IndexFunc(j.Parts, func(p laminate.JobPart) bool { return p.ID == n.On })
			laid = structure(j, j.Parts[k].Laminate) + structure(j, n.Pad)
		}
	}
	if laid > 0 {
		p.Structure = quantity.New(laid*0.9, quantity.Meter)
	}
	return p
}

// structure is that of a laminate of a job, m; 0 without one.
func structure(j *laminate.Job, id string) float64 {
	l := j.Laminate(id)
	if l < 0 {
		return 0
	}
	return laminate.Analyze(j.Schedule(l), catalog.Library()).Zones[laminate.StructuralLayer].Thickness
}

// found are the findings of a job, those of its parts too: "break rule-id".
func found(t *testing.T, j *laminate.Job) (list []string, r *rules.JobReport) {
	t.Helper()
	lib := catalog.Library()
	if faults := laminate.ValidateJob(j, lib); len(faults) > 0 {
		t.Fatal(faults)
	}
	r = rules.JudgeJob(all.Rules(), j, lib, rules.Options{})
	for _, p := range r.Parts {
		for _, f := range p.Findings {
			list = append(list, f.Severity.String()+" "+f.Rule.ID)
		}
	}
	for _, f := range r.Findings {
		list = append(list, f.Severity.String()+" "+f.Rule.ID)
		if f.Message == "" || f.Basis == "" || !slices.Contains(f.Rule.Severity, f.Severity) {
			t.Errorf("%+v", f)
		}
	}
	return list, r
}

// less is a list without what another has, each as often.
func less(list, other []string) []string {
	left := slices.Clone(list)
	for _, x := range other {
		if i := slices.Index(left, x); i >= 0 {
			left = slices.Delete(left, i, i+1)
		}
	}
	slices.Sort(left)
	return left
}

func incomplete(ids []string) (list []string) {
	for _, id := range ids {
		list = append(list, "incomplete "+id)
	}
	slices.Sort(list)
	return list
}

// A proof that reaches takes away what it answers for, and nothing else; any figure of
// it that does not reach, or is not stated, brings all of that back.
func TestProof_answersForWhatNoFormulaFiguresAlone(t *testing.T) {
	for _, x := range list {
		t.Run(x.name, func(t *testing.T) {
			state := func(change func(*proved.Proof)) []string {
				j := line()
				x.change(j)
				for _, p := range x.at(j) {
					*p = reaching(j, p)
					change(p)
				}
				got, _ := found(t, j)
				return got
			}
			bare := line()
			x.change(bare)
			without, _ := found(t, bare)
			n := len(x.at(bare))
			notes := slices.Repeat([]string{"note rests-on-others"}, n)
			with := state(func(*proved.Proof) {})
			if gone := less(without, with); !slices.Equal(gone, incomplete(x.found)) {
				t.Errorf("it takes away %q, not %q", gone, x.found)
			}
			if come := less(with, without); !slices.Equal(come, notes) {
				t.Errorf("it brings %q", come)
			}
			for name, change := range map[string]func(*proved.Proof){
				"break pressure":        func(p *proved.Proof) { p.Pressure = psi(20) },
				"break temperature":     func(p *proved.Proof) { p.Temperature = quantity.New(100, quantity.Fahrenheit) },
				"break structure":       func(p *proved.Proof) { p.Structure = in(5) },
				"incomplete pressure":   func(p *proved.Proof) { p.Pressure = quantity.Pressure{} },
				"incomplete heat":       func(p *proved.Proof) { p.Temperature = quantity.Temperature{} },
				"incomplete structure":  func(p *proved.Proof) { p.Structure = quantity.Length{} },
				"incomplete by nobody":  func(p *proved.Proof) { p.By = "" },
				"incomplete as pending": func(p *proved.Proof) { p.By = "Pending." },
				"incomplete as none":    func(p *proved.Proof) { p.By = "none" },
				"incomplete as a word":  func(p *proved.Proof) { p.By = "the engineer" },
				"incomplete as mil":     func(p *proved.Proof) { p.Structure = quantity.New(p.Structure.In(quantity.Inch), quantity.Mil) },
				"incomplete as ksi":     func(p *proved.Proof) { p.Pressure = psi(20_000) },
				"incomplete as degC":    func(p *proved.Proof) { p.Temperature = quantity.New(200, quantity.Celsius) },
				"incomplete no figure":  func(p *proved.Proof) { *p = proved.Proof{By: "none"} },
			} {
				severity, _, _ := strings.Cut(name, " ")
				got := state(change)
				if gone := less(without, got); len(gone) > 0 {
					t.Errorf("%s: it takes away %q", name, gone)
				}
				if come := less(got, without); !slices.Equal(come, slices.Repeat([]string{severity + " proof-short"}, n)) {
					t.Errorf("%s: it brings %q", name, come)
				}
			}
		})
	}
}

// The test is borne too, and each condition.
func TestProof_reachesTheTestAndEveryCondition(t *testing.T) {
	for name, c := range map[string]struct {
		change func(*laminate.Job)
		says   string
	}{
		"a pressure":  {func(j *laminate.Job) { j.Test.Pressure = psi(210) }, "210.0 psi inside in the test"},
		"a vacuum":    {func(j *laminate.Job) { j.Test.Vacuum = psi(2) }, "a vacuum of 2.0 psi in the test"},
		"a warm test": {func(j *laminate.Job) { j.Test.Temperature = quantity.New(205, quantity.Fahrenheit) }, "205 °F in the test"},
		"a condition": {func(j *laminate.Job) {
			j.Service.Pressure = psi(220)
			conditions(j, psi(220), quantity.Pressure{}, 100)
		}, "220.0 psi inside under steam-out"},
		"a warm condition": {func(j *laminate.Job) {
			j.Service.Upset = quantity.New(240, quantity.Fahrenheit)
			conditions(j, psi(1), quantity.Pressure{}, 240)
		}, "240 °F under steam-out"},
		"a condition sucked": {func(j *laminate.Job) { j.Service.Vacuum = psi(3); conditions(j, psi(1), psi(3), 100) }, "a vacuum of 3.0 psi under steam-out"},
	} {
		for _, x := range list {
			if x.name == "a pipe of 160 psi" || strings.Contains(x.name, "no table") || x.name == "an opening that a vacuum finds bare" {
				continue // which state loads of their own, or have none that is unfigured then
			}
			j := line()
			x.change(j)
			c.change(j)
			for _, p := range x.at(j) {
				*p = reaching(j, p)
			}
			got, r := found(t, j)
			said := ""
			for _, f := range r.Findings {
				if f.Rule == others.ProofShort {
					said += f.Message
				}
			}
			if !slices.Contains(got, "break proof-short") || !strings.Contains(said, c.says) || slices.Contains(got, "note rests-on-others") {
				t.Errorf("%s, %s: %q", x.name, name, said)
			}
		}
	}
}

func conditions(j *laminate.Job, pressure, vacuum quantity.Pressure, heat float64) {
	j.Conditions = []laminate.Condition{
		{Name: "operating", Temperature: quantity.New(110, quantity.Fahrenheit), Pressure: psi(10), Vacuum: psi(0)},
		{Name: "steam-out", Temperature: quantity.New(heat, quantity.Fahrenheit), Pressure: pressure, Vacuum: vacuum, ModulusRetention: laminate.Some(0.5)},
	}
}

// What is missing of the loads no proof replaces: it stays incomplete, as it would be
// without one, and nothing rests on others.
func TestProof_replacesNoFact(t *testing.T) {
	for name, change := range map[string]func(*laminate.Job){
		"pressure":    func(j *laminate.Job) { j.Service.Pressure = quantity.Pressure{} },
		"vacuum":      func(j *laminate.Job) { j.Service.Vacuum = quantity.Pressure{} },
		"temperature": func(j *laminate.Job) { j.Service.Temperature = quantity.Temperature{} },
		"the test":    func(j *laminate.Job) { j.Test.Pressure = quantity.Pressure{} },
	} {
		for _, x := range list {
			if x.name == "a pipe of 160 psi" || x.name == "a bond that softens" && name == "temperature" || x.name == "an opening that a vacuum finds bare" && name == "vacuum" || strings.Contains(x.name, "no table") {
				continue // which state a pressure of their own, or are not found then
			}
			j := line()
			x.change(j)
			change(j)
			for _, p := range x.at(j) {
				*p = reaching(j, p)
			}
			if got, r := found(t, j); slices.Contains(got, "note rests-on-others") || r.Verdict != rules.Incomplete && r.Verdict != rules.Break {
				t.Errorf("%s without %s: %q", x.name, name, got)
			}
		}
	}
}

// Two openings want one proof of both, however its name is spelled; where they name two
// that is said.
func TestProof_ofTwoOpeningsIsOne(t *testing.T) {
	i := slices.IndexFunc(list, func(x unfigured) bool { return x.name == "two openings close together" })
	const apart = "; N and M name different proofs: one proof has to cover both (proved_by)"
	for by, want := range map[string]struct{ open, says bool }{
		"calculation 45":             {false, false},
		" Calculation\u00a045 ":      {false, false},
		"CALCULATION  45":            {false, false},
		"calculation 46":             {true, true},
		"calculation 45, revision 1": {true, true},
		"":                           {true, false},
		"pending":                    {true, false},
	} {
		j := line()
		list[i].change(j)
		for k, p := range list[i].at(j) {
			*p = reaching(j, p)
			p.By = [...]string{"calculation 45", by}[k]
		}
		got, r := found(t, j)
		if open := slices.Contains(got, "incomplete openings-close"); open != want.open {
			t.Errorf("%q: open %v", by, open)
		}
		says := slices.ContainsFunc(r.Findings, func(f rules.Finding) bool {
			return f.Rule.ID == "openings-close" && strings.HasSuffix(f.Message, apart)
		})
		if says != want.says {
			t.Errorf("%q: says %v", by, says)
		}
	}
}

// Of a proof that nobody is named for it is said what stands in the document: no figures
// where there are none, and never that others proved it.
func TestProof_ofNobodySaysWhatIsStated(t *testing.T) {
	const figures, none = "figures of a proof", "what others proved"
	for name, c := range map[string]struct {
		proof         proved.Proof
		short, unused string
		not           []string
	}{
		"none alone":    {proved.Proof{By: "none"}, "says that there is no proof by others", "no proof of others is asked for", []string{"figures of", none}},
		"pending alone": {proved.Proof{By: "pending"}, "is not stated yet (proved_by)", "no proof of others is asked for", []string{"figures of", none}},
		"figures alone": {proved.Proof{Structure: in(0.1)}, "figures of a proof are stated without anybody's name (proved_by)", figures, []string{none}},
		"none, figures": {proved.Proof{By: "none", Structure: in(0.1)}, "figures of a proof are stated without anybody's name (proved_by)", figures, []string{none}},
		"a word":        {proved.Proof{By: "ok", Structure: in(0.1)}, `"ok" names no calculation or test by its number (proved_by)`, figures, []string{none}},
		"a word alone":  {proved.Proof{By: "on file"}, `"on file" names no calculation or test by its number (proved_by)`, "no proof of others is asked for", []string{figures, none}},
	} {
		for needed, want := range map[bool]string{true: c.short, false: c.unused} {
			j := line()
			if needed {
				with(laminate.Cone, steep)(j)
			}
			*lastPart(j)[0] = c.proof
			_, r := found(t, j)
			said := ""
			for _, f := range r.Findings {
				if f.Rule == others.ProofShort || f.Rule == others.ProofUnused {
					said += f.Message
				}
			}
			if !strings.Contains(said, want) {
				t.Errorf("%s, needed %v: %q", name, needed, said)
			}
			for _, not := range c.not {
				if strings.Contains(said, not) {
					t.Errorf("%s, needed %v: %q", name, needed, said)
				}
			}
		}
	}
}

// Where all is figured here a proof changes nothing, however short it is, and that is said.
func TestProof_unusedChangesNothing(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		p := proved.Proof{By: rapid.SampledFrom([]string{"", "pending", "calculation 45"}).Draw(rt, "by"), Pressure: psi(float64(rapid.IntRange(0, 99).Draw(rt, "pressure")))}
		if rapid.Bool().Draw(rt, "structure") {
			p.Structure = in(3)
		}
		without, _ := found(t, line())
		j := line()
		j.Parts[1].Proof, j.Joints[0].Proof, j.Nozzles[0].Proof = p, p, p
		with, r := found(t, j)
		if gone := less(without, with); len(gone) > 0 {
			rt.Errorf("it takes away %q", gone)
		}
		if come := less(with, without); !slices.Equal(come, slices.Repeat([]string{"note proof-unused"}, 3)) {
			rt.Errorf("it brings %q", come)
		}
		if len(r.Answered) > 0 {
			rt.Errorf("answered: %+v", r.Answered)
		}
	})
}

func TestRules_haveACaseForEverySeverity(t *testing.T) {
	fired := map[string]bool{}
	for _, x := range list {
		for _, by := range []string{"calculation 45", ""} {
			for _, v := range []quantity.Pressure{psi(200), psi(1)} {
				j := line()
				x.change(j)
				j.Parts[0].Proof = reaching(j, &j.Parts[0].Proof)
				for _, p := range x.at(j) {
					*p = reaching(j, p)
					p.By, p.Pressure = by, v
				}
				got, _ := found(t, j)
				for _, f := range got {
					fired[f] = true
				}
			}
		}
	}
	for _, r := range others.Rules() {
		for _, s := range r.Severity {
			if !fired[s.String()+" "+r.ID] {
				t.Errorf("no case of %s %s", s, r.ID)
			}
		}
	}
}

// They settle what the others found: they stand last.
func TestRules_standLast(t *testing.T) {
	own := others.Rules()
	if every := all.Rules(); !slices.Equal(every[len(every)-len(own):], own) {
		t.Error("rules stand behind those that settle what they find")
	}
}

// Something answered is answered once, and the note says all of it.
func TestRests_saysWhatTheProofHasToCover(t *testing.T) {
	j := line()
	with(laminate.Elbow, func(p *laminate.Part) {
		p.Miters, p.Turn, p.BendRadius, p.LiquidHeight = laminate.Some(3), laminate.Some(90.0), in(18), quantity.Length{}
	})(j)
	p := lastPart(j)[0]
	*p = reaching(j, p)
	p.By = "test report 9"
	_, r := found(t, j)
	for _, f := range r.Findings {
		if f.Rule != others.RestsOnOthers {
			continue
		}
		for _, want := range []string{"test report 9", "nothing here judged", "miter", "seams", "the test"} {
			if !strings.Contains(f.Message, want) {
				t.Errorf("%q does not say %q", f.Message, want)
			}
		}
		if at := f.At; at.Kind != laminate.RefJobPart || at.Index != 2 || at.Key != "proved_by" {
			t.Errorf("it points at %+v", at)
		}
		if x, ok := others.Of(r, catalog.Library(), quantity.US, f.At); !ok || !proved.Reach(x.Checks) || x.Proof.By != "test report 9" {
			t.Errorf("%+v", x)
		}
	}
	if _, ok := others.Of(r, catalog.Library(), quantity.US, laminate.JobPartRef(0, "")); ok {
		t.Error("a pipe rests on others")
	}
}

// The structure that counts is a part's own, a joint's strap, and round an opening that of
// its part and its pad together: a hair more than is laid was proved with more.
func TestProof_structureIsWhatCarriesThere(t *testing.T) {
	for name, laid := range map[string]func(j *laminate.Job) float64{
		"a steep cone":             func(j *laminate.Job) float64 { return structure(j, "wall") },
		"an opening in a cover":    func(j *laminate.Job) float64 { return structure(j, "wall") + structure(j, "strap") },
		"a corner between plates":  func(j *laminate.Job) float64 { return structure(j, "strap") },
		"an opening, and no pad":   func(j *laminate.Job) float64 { return structure(j, "wall") },
		"a corner without a strap": nil,
	} {
		from, change := name, func(*laminate.Job) {}
		switch name {
		case "an opening, and no pad":
			from, change = "an opening in a cover", func(j *laminate.Job) { j.Nozzles[0].Pad, j.Nozzles[0].PadDiameter = "", quantity.Length{} }
		case "a corner without a strap":
			from, change = "a corner between plates", func(j *laminate.Job) { j.Joints[0].Outside = "" }
		}
		x := list[slices.IndexFunc(list, func(x unfigured) bool { return x.name == from })]
		for _, times := range []float64{1, 1.001} {
			j := line()
			x.change(j)
			change(j)
			p := x.at(j)[0]
			*p = reaching(j, p)
			if laid != nil {
				p.Structure = quantity.New(laid(j)*times, quantity.Meter)
			}
			got, _ := found(t, j)
			want := "note rests-on-others"
			switch {
			case laid == nil:
				want = "incomplete proof-short"
			case times > 1:
				want = "break proof-short"
			}
			if !slices.Contains(got, want) {
				t.Errorf("%s, proved with %v times what is laid: %q", name, times, got)
			}
		}
	}
}
