package joint_test

import (
	"slices"
	"strings"
	"testing"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/catalog"
	"frp/veilwright/laminate/overlay"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/rules"
	"frp/veilwright/rules/all"
	"frp/veilwright/rules/joint/statics"
	"frp/veilwright/rules/ruletest"
)

// bonded gives the job figures of its own for the bond; 0 is not stated.
func bonded(shear, factor float64, source string) func(*laminate.Job) {
	return func(j *laminate.Job) {
		j.Bond.Source = source
		if shear > 0 {
			j.Bond.ShearStrength = psi(shear)
		}
		if factor > 0 {
			j.Bond.Factor = laminate.Some(factor)
		}
	}
}

// other lays what is named with another resin, in a laminate of its own.
func other(j *laminate.Job, id string) string {
	own := laminate.Laminate{ID: "other", Plies: slices.Clone(j.Laminates[j.Laminate(id)].Plies)}
	own.Plies[0].Resin = stocked(j)
	j.Laminates = append(j.Laminates, own)
	return own.ID
}

// cornered stands a bottom with a knuckle under part a, whose laminate is as is said.
func cornered(laminateID string) func(*laminate.Job) {
	return func(j *laminate.Job) {
		overCorner(48)(j)
		j.Parts[0].Knuckle = laminateID
		j.Nozzles, j.Test, j.Joints = nil, laminate.Test{}, nil
	}
}

// plates makes flat plates of the parts of the joint.
func plates(j *laminate.Job) {
	j.Nozzles, j.Test, j.Service.Pressure = nil, laminate.Test{}, psi(0)
	for i := range j.Parts {
		p := &j.Parts[i]
		p.Form, p.InsideDiameter, p.Length, p.Width, p.Edge, p.LiquidHeight = laminate.Panel, quantity.Length{}, inches(72), inches(60), laminate.Clamped, inches(48)
	}
}

// lidded joins a cover of a size to part a.
func lidded(size float64) func(*laminate.Job) {
	return func(j *laminate.Job) {
		covered(j, 50)
		j.Test, j.Nozzles = laminate.Test{}, nil
		if size > 0 {
			j.Parts[2].Size = inches(size)
		}
		j.Joints[0].Between = [2]string{"b", "c"}
	}
}

// manway puts a flange and a cover on the nozzle, 4 ft up a course under 12 ft of liquid;
// each states a liquid height in inches, below 0 none.
func manway(flange, cover float64) func(*laminate.Job) {
	return func(j *laminate.Job) {
		upright(j)
		flanged(j)
		j.Service.SpecificGravity, j.Vessel.LiquidHeight, j.Test = laminate.Some(1.0), inches(144), laminate.Test{}
		c := j.Parts[2]
		c.ID, c.Form, c.Laminate, c.Thickness = "c", laminate.Cover, "wall", quantity.Length{}
		j.Parts, j.Nozzles[0].Cover = append(j.Parts, c), "c"
		for i, v := range []float64{flange, cover} {
			if v >= 0 {
				j.Parts[2+i].LiquidHeight = inches(v)
			}
		}
	}
}

var bondCases = []jobCase{
	{"a bond by tests", bonded(1800, 10, "lap shear, own tests"), nil, ""},
	{"a bond of nobody", bonded(1800, 10, ""), []string{"incomplete bond-unsourced"}, "where the figures of the bond come from is not stated"},
	{"a strength alone", bonded(1800, 0, "own tests"), []string{"incomplete bond-unsourced"}, "states a shear strength and no factor that it is divided by: 10 is taken, from memory"},
	{"a factor alone", bonded(0, 12, "own tests"), []string{"incomplete bond-unsourced"}, "a factor and no shear strength that it divides: 2000 psi is taken"},
	// 4 is the least K of ADR 6.9.2.3.5, from memory.
	{"the least factor of a standard", bonded(1800, 4, "own tests"), []string{"warning bond-unsourced"}, "is divided by 4, below 10"},
	{"a factor below any", bonded(1800, 3.9, "own tests"), []string{"incomplete bond-unsourced"}, "is divided by 3.9: below 4 no standard"},
	{"as strong as between plies", bonded(3000, 10, "own tests"), nil, ""},
	{"stronger than that", bonded(3010, 10, "own tests"), []string{"incomplete bond-unsourced"}, "is stated as 3010 psi: above 3000 psi no bond"},

	{"a strap wider than its pipe is long", func(j *laminate.Job) { j.Parts[1].Length = inches(0.38) }, []string{"break joint-shear-short"}, "the strap bonds 0.38 in on part b, which is no longer, and 0.39 in are needed"},
	{"a strap on a pipe just long enough", func(j *laminate.Job) { j.Parts[1].Length = inches(0.4) }, nil, ""},

	{"a strap of another resin", func(j *laminate.Job) { j.Joints[0].Outside = other(j, "strap") }, []string{"warning overlay-resin-differs"}, "joint J, strap, laminate other, is of isophthalic-polyester, which the structure of part a is not"},
	{"a pad of another resin", func(j *laminate.Job) { j.Nozzles[0].Pad = other(j, "strap") }, []string{"warning overlay-resin-differs"}, "nozzle N, pad, laminate other"},
	{"an overlay of another resin", func(j *laminate.Job) { j.Nozzles[0].InstallationOutside = other(j, "strap") }, []string{"warning overlay-resin-differs"}, "nozzle N, laid outside, laminate other"},
	{"a knuckle of another resin", func(j *laminate.Job) { cornered(other(j, "strap"))(j) }, []string{"warning overlay-resin-differs"}, "part bottom, knuckle, laminate other, is of isophthalic-polyester, which the structure of part a is not"},
	{"a strap with another coat", func(j *laminate.Job) {
		l := &j.Laminates[1]
		l.Plies = append(slices.Clone(l.Plies), laminate.Ply{Material: catalog.VeilC10, Resin: stocked(j), Zone: laminate.OuterSurface, Count: 1})
	}, nil, ""},
	{"a knuckle that begins with roving", func(j *laminate.Job) {
		cornered("own")(j)
		j.Laminates = append(j.Laminates, laminate.Laminate{ID: "own", Plies: []laminate.Ply{{Material: catalog.Woven24, Resin: ruletest.Wall, Zone: laminate.StructuralLayer, Count: 1}, j.Laminates[1].Plies[0]}})
	}, []string{"warning bond-ply-not-mat"}, "part bottom, knuckle, laminate own, begins with woven-24 on a cured face"},
	{"a knuckle on a waxed wall of other papers", func(j *laminate.Job) {
		filed(j)
		cornered("strap")(j)
		j.Schedules["a.toml"].Part = j.Parts[1].Part
	}, []string{"warning wax-under-bond"}, "the papers of a.toml do not know what is bonded onto it: lay it after the knuckle,"},

	// At 150 psi and 2 in, τ = 150 · 2/(4 h) reaches 200 psi at h = 0.375 in (statics).
	{"a neck as long as its bond", func(j *laminate.Job) { j.Nozzles[0].Projection = inches(3) }, nil, ""},
	{"a neck shorter than its bond", func(j *laminate.Job) { j.Nozzles[0].NeckBond, j.Nozzles[0].Projection = inches(20), inches(8) }, []string{"break nozzle-parts-differ"}, "its neck is bonded over 20 in, and 8 in of it lie free"},
	{"a flange that leaves too little of it", func(j *laminate.Job) { flanged(j); j.Nozzles[0].Projection = inches(3.4) }, []string{"break nozzle-parts-differ", "warning neck-bond-short"}, "its neck is bonded over 2.9 in, all of it that lies free (projection, less its flange), below 3"},
	{"little of it, and much pressure", func(j *laminate.Job) {
		flanged(j)
		j.Joints, j.Nozzles[0].Projection, j.Service.Pressure, j.Nozzles[0].PressureClass, j.Parts[2].PressureClass, j.Test = nil, inches(0.8), psi(150), psi(150), psi(150), laminate.Test{}
	}, []string{"break neck-bond-short", "break nozzle-parts-differ", "break pad-thin"}, "the bond of its neck, 0.3 in long, all of it that lies free (projection, less its flange), is sheared by 250.0 psi, and it may by 200.0 psi"},
	{"nothing of it", func(j *laminate.Job) { flanged(j); j.Nozzles[0].Projection = inches(0.5) }, []string{"break neck-bond-short", "break nozzle-parts-differ"}, "nothing of its neck lies free for a bond"},
	{"a neck of no length", func(j *laminate.Job) { j.Nozzles[0].Projection = quantity.Length{} }, []string{"incomplete neck-bond-short"}, "how long its neck is, and what of that can be bonded, is not stated (projection)"},
	{"a bond over the end of its part", func(j *laminate.Job) {
		j.Joints, j.Nozzles[0].NeckBond, j.Nozzles[0].Height, j.Nozzles[0].Projection = nil, inches(5), inches(5.9), inches(6)
	}, []string{"warning neck-bond-short"}, "what is laid outside runs 5 in out from its opening, and part a ends 4.9 in from there"},

	{"an opening below the bore", func(j *laminate.Job) { j.Nozzles[0].Opening = inches(1.9) }, []string{"break nozzle-parts-differ"}, "its opening is 1.9 in, and its bore, by its size, 2 in"},
	{"an opening of the same nominal size", func(j *laminate.Job) { j.Nozzles[0].Opening = quantity.New(0.05, quantity.Meter) }, nil, ""},

	{"a cover of another veil", func(j *laminate.Job) {
		manway(-1, -1)(j)
		own := laminate.Laminate{ID: "stock", Plies: slices.Clone(j.Laminates[0].Plies)}
		own.Plies[0].Material = catalog.VeilPolyester15
		j.Laminates, j.Parts[3].Laminate = append(j.Laminates, own), "stock"
	}, []string{"warning nozzle-barrier-differs"}, "nozzle N: the veil of its cover c is of polyester"},
	{"a cover of a thin barrier", func(j *laminate.Job) {
		manway(-1, -1)(j)
		own := laminate.Laminate{ID: "stock", Plies: slices.Clone(j.Laminates[0].Plies)}
		own.Plies[ruletest.MatRow].Count = 1
		j.Laminates, j.Parts[3].Laminate = append(j.Laminates, own), "stock"
	}, []string{"break neck-barrier-thin"}, "the barrier of its cover c is"},
	// The lower edge of its opening is 47 in above the bottom: 97 in stand over it.
	{"a cover of as much liquid as stands there", manway(-1, 97), nil, ""},
	{"a cover of none", manway(-1, 0), []string{"break nozzle-end-contradicted"}, "cover c, on nozzle N, is figured for a liquid height of 0 in, and 97 in stand over it there, and nothing keeps that from it: what it states is less (liquid_height)"},
	{"a flange of less", manway(96, -1), []string{"break nozzle-end-contradicted"}, "flange f, on nozzle N"},

	{"a cover of less gas", func(j *laminate.Job) {
		manway(-1, -1)(j)
		j.Parts[3].Pressure = psi(24)
	}, []string{"break nozzle-end-contradicted"}, "cover c, on nozzle N, is figured for a pressure of 24.0 psi, and 25.0 psi press there"},
	{"a cover of less vacuum", func(j *laminate.Job) {
		manway(-1, -1)(j)
		j.Service.Vacuum, j.Parts[3].Vacuum = psi(1), psi(0)
	}, []string{"break nozzle-end-contradicted"}, "is figured for a vacuum of 0.0 psi, and 1.0 psi pull there"},

	{"a corner of plates", plates, []string{"incomplete plate-corner"}, "joint J: what it carries is not figured: panel a is a plate, and its edge, stated as clamped, hands its load and its moment on"},
	{"a corner of plates that turn at their edges", func(j *laminate.Job) { plates(j); j.Parts[0].Edge = laminate.SimplySupported }, []string{"incomplete plate-corner"}, "panel a is a plate, and its edge, stated as simply supported, hands its load on into the joint, and a moment too unless that lets it turn"},
	{"plates with a diameter", func(j *laminate.Job) { plates(j); j.Parts[0].InsideDiameter = inches(60) }, []string{"break plate-corner", "incomplete plate-corner"}, "panel a states an inside diameter of 60 in, and a plate has none"},
	{"a corner without a seal", func(j *laminate.Job) { plates(j); j.Joints[0].Inside = "" }, []string{"incomplete plate-corner", "incomplete seal-missing"}, "the cut edges of its plates face the fluid"},

	{"a cover as wide as its pipe", lidded(12), nil, ""},
	{"a cover that is not", lidded(11), []string{"break cover-strapped"}, "cover c is 11 in wide, part b 12 in inside: they do not meet"},
	{"a cover of no size", lidded(0), []string{"incomplete cover-strapped"}, "whether cover c fits part b is not known"},
	{"a cover strapped to a flange", func(j *laminate.Job) {
		lidded(12)(j)
		f := &j.Parts[1]
		f.Form, f.Size, f.InsideDiameter, f.Length = laminate.Flange, inches(12), quantity.Length{}, quantity.Length{}
		j.Joints[0].Between = [2]string{"c", "b"}
	}, []string{"break cover-strapped"}, "cover c is bolted to flange b: nothing is laid over them"},
	{"the cover of a nozzle strapped to a shell", func(j *laminate.Job) {
		manway(-1, -1)(j)
		j.Joints[0].Between = [2]string{"b", "c"}
	}, []string{"break cover-strapped"}, "cover c is bolted onto nozzle N"},
	{"one flange strapped to another", boltedUp, []string{"break cover-strapped"}, "flanges a and b are bolted to each other, and nothing is laid over them: leave the joint out"},
	{"two flanges and a joint that says nothing", func(j *laminate.Job) { boltedUp(j); j.Joints[0] = bareJoint(j) }, []string{"break cover-strapped"}, "leave the joint out"},
	{"a cover and a flange that a joint ties, nothing laid over them", func(j *laminate.Job) {
		boltedUp(j)
		j.Parts[0].Form = laminate.Cover
		j.Joints[0] = bareJoint(j)
	}, nil, ""},
	{"flanges under a shell, one hung from the other", func(j *laminate.Job) { hungFlanges(j); j.Joints[0] = bareJoint(j) }, nil, ""},
	{"those strapped", hungFlanges, []string{"break cover-strapped"}, "flanges f and g are bolted to each other: nothing is laid over them (outside, inside)"},

	{"a nozzle on a cover that states its size", onCover(0.9), []string{"incomplete pad-thin"}, "is a plate, which pressure bends"},
	{"one that runs over the bore", onCover(1.1), []string{"break opening-off-part", "incomplete pad-thin"}, "its opening reaches 2.1 in from the axis, and part c ends at 2 in"},

	{"a first ply of 2 in", func(j *laminate.Job) { j.Joints[0].FirstWidth = inches(2) }, nil, ""},
	{"a narrow first ply", func(j *laminate.Job) { j.Joints[0].FirstWidth = inches(1.9) }, []string{"warning strap-narrow"}, "the first ply of its strap is 1.9 in wide, below 2 in"},
}

// boltedUp makes flanges of both parts.
func boltedUp(j *laminate.Job) {
	j.Nozzles, j.Test = nil, laminate.Test{}
	for i := range j.Parts {
		f := &j.Parts[i]
		f.Form, f.Size, f.InsideDiameter, f.Length = laminate.Flange, inches(12), quantity.Length{}, quantity.Length{}
	}
}

// bareJoint is the job's first joint with nothing but what it is between.
func bareJoint(j *laminate.Job) laminate.Joint {
	return laminate.Joint{ID: j.Joints[0].ID, Between: j.Joints[0].Between}
}

// hungFlanges has two courses, and the joint between flanges of which the shell holds one.
func hungFlanges(j *laminate.Job) {
	upright(j)
	j.Nozzles, j.Test, j.Service.Pressure = nil, laminate.Test{}, psi(0)
	own := j.Joints[0]
	own.ID, own.Between = "K", [2]string{"f", "a"}
	courses := j.Joints[0]
	courses.ID = "L"
	for _, id := range []string{"f", "g"} {
		f := laminate.JobPart{ID: id, Laminate: "wall"}
		f.Form, f.Process, f.Size = laminate.Flange, laminate.ContactMolded, inches(12)
		j.Parts = append(j.Parts, f)
	}
	j.Joints[0].Between = [2]string{"f", "g"}
	j.Joints = append(j.Joints, own, courses)
}

// onCover puts the nozzle on a cover of 4 in at an offset.
func onCover(offset float64) func(*laminate.Job) {
	return func(j *laminate.Job) {
		covered(j, 50)
		j.Joints, j.Test, j.Parts[2].Size = nil, laminate.Test{}, inches(4)
		j.Nozzles[0].On, j.Nozzles[0].Offset, j.Nozzles[0].Height = "c", inches(offset), quantity.Length{}
	}
}

// across puts two nozzles on two courses, so far apart over their joint, which has no strap
// here, and looks at nothing but how close they are.
func across(apart float64) func(*laminate.Job) {
	return func(j *laminate.Job) {
		upright(j)
		j.Joints, j.Test, j.Service.Pressure = nil, laminate.Test{}, psi(0)
		j.Parts[0].Length, j.Parts[1].Length = inches(24), inches(24)
		n := j.Nozzles[0]
		n.ID, n.On = "M", "b"
		j.Nozzles = append(j.Nozzles, n)
		for i := range j.Nozzles {
			j.Nozzles[i].Bearing = laminate.Some(0.0)
		}
		j.Nozzles[0].Height, j.Nozzles[1].Height = inches(24-apart/2), inches(apart/2)
		j.Nozzles[0].NeckBond, j.Nozzles[1].NeckBond = inches(3), inches(3)
	}
}

// Over the joint of two courses openings are as close as on one. The pad of the one is
// laid to 5.04 in from its middle, and the opening of the other reaches 1 in.
func TestOpeningsClose_looksOverJoints(t *testing.T) {
	for _, c := range []jobCase{
		{"on either side", across(6), nil, "nozzles N and M: 6 in apart, on parts a and b, below 6.04 in: what both take away"},
		{"further apart", across(6.1), nil, ""},
		{"at a bearing that nobody states", func(j *laminate.Job) {
			across(6)(j)
			j.Nozzles[0].Bearing = laminate.Optional[float64]{}
		}, nil, "how far they are apart, on parts a and b, is not known (bearing)"},
		// 12 in/2 · 30° are 3.14 in round: √(5² + 3.14²) = 5.91 in, and 6.3 in at 45°.
		{"round the shell", func(j *laminate.Job) { across(5)(j); j.Nozzles[1].Bearing = laminate.Some(30.0) }, nil, "5.91 in apart"},
		{"further round", func(j *laminate.Job) { across(5)(j); j.Nozzles[1].Bearing = laminate.Some(45.0) }, nil, ""},
		// 3 in up the course, and 6 − 3.5 = 2.5 in from the rim on a hemisphere whose wall rises
		// √(36 − 12.25) = 4.87 in there: √(7.87² + 2.5²) = 8.3 in; 5.9 in from its axis, 1.09 in up, 4.09 in.
		{"on the head above", func(j *laminate.Job) { domed(3.5)(j) }, nil, ""},
		// On a hemisphere of 12 in, 4 and 4.9 in from its axis: 0.9 in across, and √20 − √11.99 = 1.01 in
		// up, 1.35 in; 5 and 5.99 in: 0.99 in across and 3.32 − 0.35 in up, 3.13 in.
		{"both on the head", bothOnDome(4, 4.9), nil, "break nozzles N and M: 1.35 in apart"},
		{"both on the head, where it is steep", bothOnDome(5, 5.99), nil, "incomplete nozzles N and M: 0.99 in apart"},
		{"on the head above, at its rim", func(j *laminate.Job) { domed(5.9)(j) }, nil, "4.09 in apart, on parts a and b"},
	} {
		j := sound()
		c.change(j)
		said := ""
		for _, f := range rules.JudgeJob(all.Rules(), j, catalog.Library(), rules.Options{}).Findings {
			if f.Rule.ID == "openings-close" {
				said += f.Severity.String() + " " + f.Message
			}
		}
		if c.says == "" && said != "" || !strings.Contains(said, c.says) {
			t.Errorf("%s: %q", c.name, said)
		}
	}
}

// domed is across with the upper course a hemisphere, its nozzle at an offset.
func domed(offset float64) func(*laminate.Job) {
	return func(j *laminate.Job) {
		across(6)(j)
		h := &j.Parts[1]
		h.Form, h.Head, h.Length = laminate.HeadPart, laminate.Hemispherical, quantity.Length{}
		j.Nozzles[1].Height, j.Nozzles[1].Offset = quantity.Length{}, inches(offset)
	}
}

// bothOnDome puts both nozzles on that head, at one bearing.
func bothOnDome(one, other float64) func(*laminate.Job) {
	return func(j *laminate.Job) {
		domed(other)(j)
		j.Nozzles[0].On, j.Nozzles[0].Height, j.Nozzles[0].Offset = "b", quantity.Length{}, inches(one)
	}
}

// What a figure is said to rest on is what it is made of.
func TestShear_saysWhoseItIs(t *testing.T) {
	for _, c := range []struct {
		shear, factor float64
		source        string
		psi           float64
		says, not     string
	}{
		{0, 0, "", 200, "from memory: a bond of 2,000 psi over 10", "that the job states"},
		{0, 1, "", 2000, "from memory: a bond of 2,000 psi, over the factor that the job states, without a source", "over 10"},
		{9000, 0, "", 900, "the shear strength that the job states, over 10, from memory, without a source", "2,000"},
		{1500, 5, "own tests", 300, "the bond that the job states, common practice, no source for the form: own tests", "memory"},
	} {
		j := sound()
		bonded(c.shear, c.factor, c.source)(j)
		got, basis := statics.Shear(j, 1)
		if quantity.Compare(got, psi(c.psi).SI()) != 0 || !strings.Contains(basis, c.says) || strings.Contains(basis, c.not) {
			t.Errorf("%+v: %g Pa, %q", c, got, basis)
		}
	}
}

// What is taken for a thing that is not stated is said.
func TestRules_noteWhatIsTaken(t *testing.T) {
	j := sound()
	j.Nozzles[0].Kind, j.Joints[0].Widths = laminate.NoNozzleKind, laminate.NoWidthOrder
	var got []string
	for _, f := range rules.JudgeJob(all.Rules(), j, catalog.Library(), rules.Options{}).Findings {
		if f.Rule.ID == "nozzle-kind-unstated" || f.Rule.ID == "strap-order-unstated" {
			got = append(got, f.Severity.String()+" "+f.Message)
		}
	}
	slices.Sort(got)
	if want := []string{
		"note joint J: its strap is taken to be laid narrow first: the order of its widths is not stated (widths)",
		"note nozzle N is taken to be penetrating: how its neck meets part a is not stated (kind)",
	}; !slices.Equal(got, want) {
		t.Errorf("%q", got)
	}
}

// Whoever lays a strap under a knuckle is told that its coat waits.
func TestOverlay_reportsTheCoatThatWaits(t *testing.T) {
	j := roofed(19)
	strap := &j.Laminates[j.Laminate(j.Joints[0].Outside)]
	strap.Plies = append(slices.Clone(strap.Plies), laminate.Ply{Material: catalog.Topcoat, Resin: strap.Plies[0].Resin, Count: 1})
	j.Joints[0].Between, j.Parts[0].Knuckle = [2]string{j.Parts[0].ID, j.Parts[1].ID}, strap.ID
	r := rules.JudgeJob(all.Rules(), j, catalog.Library(), rules.Options{})
	o, err := overlay.Find(j, "", j.Joints[0].ID, overlay.Strap)
	if err != nil {
		t.Fatal(err)
	}
	if c := r.Overlay(o).Coat; c == nil || c.Before() != "the knuckle of f" {
		t.Errorf("%+v", c)
	}
}
