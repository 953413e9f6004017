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
	"frp/veilwright/rules/joint"
	"frp/veilwright/rules/joint/proof"
	"frp/veilwright/rules/ruletest"
)

func inches(v float64) quantity.Length { return quantity.New(v, quantity.Inch) }

func line(text string) (q quantity.LineForce) {
	if err := quantity.Read(&q, text); err != nil {
		panic(err)
	}
	return q
}

func psi(v float64) quantity.Pressure { return quantity.New(v, quantity.PSI) }

// sound is two pipes of the sound laminate, joined, with a nozzle on the first
// and a test in water: nothing of the family is to be said of it but the wax.
func sound() *laminate.Job {
	j := ruletest.Job(ruletest.Sound())
	ply := func(material, resin string, zone laminate.Zone, count int) laminate.Ply {
		return laminate.Ply{Material: material, Resin: resin, Zone: zone, Count: count}
	}
	wall := slices.Clone(j.Laminates[0].Plies[:ruletest.CoatRow]) // the coat comes after the strap
	wall = append(wall, ply(catalog.VeilC10, ruletest.Wall, laminate.OuterSurface, 1))
	j.Laminates = []laminate.Laminate{
		{ID: "wall", Plies: wall},
		{ID: "strap", Plies: []laminate.Ply{ply(catalog.Mat15, ruletest.Wall, laminate.StructuralLayer, 5)}},
		{ID: "seal", Plies: []laminate.Ply{ply(catalog.Mat15, ruletest.Liner, laminate.InteriorLayer, 2), ply(catalog.VeilC15, ruletest.Liner, laminate.InnerSurface, 1)}},
	}
	j.Parts[0].ID, j.Parts[0].Laminate = "a", "wall"
	j.Parts = append(j.Parts, j.Parts[0])
	j.Parts[1].ID, j.Parts[1].Length = "b", inches(24) // a hand reaches its joint from its end
	j.Joints = []laminate.Joint{{
		ID: "J", Between: [2]string{"a", "b"}, Outside: "strap", Inside: "seal", Width: inches(6), FirstWidth: inches(2), InsideWidth: inches(4), Gap: inches(0.125),
		AxialLoad: line("0 kN/m"), Qualification: "procedure 3", Widths: laminate.NarrowFirst,
	}}
	j.Nozzles = []laminate.Nozzle{{
		ID: "N", On: "a", Height: quantity.New(4, quantity.Foot), Size: inches(2), Kind: laminate.SetOn, Projection: inches(6), PressureClass: psi(50), Pad: "strap", PadDiameter: inches(8),
		InstallationOutside: "strap", InstallationInside: "seal", Neck: "wall", NeckBond: inches(3), Gussets: laminate.Some(4), SealedEdge: laminate.Some(true), PipingLoad: laminate.Some(false),
	}}
	j.Test = laminate.Test{Medium: laminate.TestWater, Pressure: psi(30)}
	return j
}

// pulledFlange makes the second part a flange of so many mats on the pipe, which something
// pulls at, and nothing else of the job of it.
func pulledFlange(j *laminate.Job, mats int, pull string) {
	ring := laminate.Laminate{ID: "ring", Plies: slices.Clone(j.Laminates[0].Plies[:2])}
	ring.Plies = append(ring.Plies, laminate.Ply{Material: catalog.Mat15, Resin: ruletest.Wall, Zone: laminate.StructuralLayer, Count: mats})
	j.Laminates = append(j.Laminates, ring)
	p := &j.Parts[1]
	*p = laminate.JobPart{ID: "b", Laminate: "ring", Part: laminate.Part{Form: laminate.Flange, Process: laminate.ContactMolded}}
	p.Size, p.PressureClass, p.Thickness = inches(8), psi(50), inches(0.1)
	j.Joints[0].AxialLoad, j.Nozzles, j.Test = line(pull), nil, laminate.Test{}
}

// flanged gives the nozzle a flange of its own, part f.
func flanged(j *laminate.Job) {
	flange := laminate.Part{Form: laminate.Flange, Process: laminate.ContactMolded}
	flange.Size, flange.PressureClass, flange.Thickness = inches(2), psi(50), inches(0.5)
	j.Parts = append(j.Parts, laminate.JobPart{ID: "f", Laminate: "wall", Part: flange})
	j.Nozzles[0].Flange, j.Nozzles[0].Projection = "f", inches(6)
}

// upright makes courses of the two parts: what stands on another has its joint there.
func upright(j *laminate.Job) {
	j.Vessel.LiquidHeight = inches(0)
	for i := range j.Parts {
		j.Parts[i].Form = laminate.ShellCourse
	}
}

// waxed ends the wall in a waxed coat.
func waxed(j *laminate.Job) {
	p := j.Laminates[0].Plies
	p[len(p)-1] = laminate.Ply{Material: catalog.Topcoat, Resin: ruletest.Wall, Zone: laminate.OuterSurface, Count: 1}
}

// filed makes the first wall, waxed, a document of its own.
func filed(j *laminate.Job) {
	waxed(j)
	j.Schedules = map[string]*laminate.Schedule{"a.toml": j.Wall(0)}
	j.Parts[0].Schedule, j.Parts[0].Laminate = "a.toml", ""
}

// headed has the two pipes be open courses on a flat bottom, under a head.
func headed(j *laminate.Job) {
	upright(j)
	j.Nozzles, j.Test = nil, laminate.Test{}
	for i := range j.Parts {
		j.Parts[i].Ends = laminate.OpenEnds
	}
	h, b := j.Parts[0], j.Parts[0]
	h.ID, h.Form, h.Head, h.Length = "h", laminate.HeadPart, laminate.Hemispherical, quantity.Length{}
	b.ID, b.Form, b.Length, b.Supported = "f", laminate.FlatBottom, quantity.Length{}, laminate.Some(true)
	j.Parts = append(j.Parts, h)
	j.Parts = slices.Insert(j.Parts, 0, b)
}

// covered adds a cover of a class.
func covered(j *laminate.Job, class float64) {
	c := laminate.JobPart{ID: "c", Laminate: "wall"}
	c.Form, c.Process, c.PressureClass = laminate.Cover, laminate.ContactMolded, psi(class)
	j.Parts = append(j.Parts, c)
}

// stocked adds a resin of another family and gives its id.
func stocked(j *laminate.Job) string {
	j.Resins = append(j.Resins, laminate.Resin{ID: "stocked", Family: laminate.Isophthalic, Cure: laminate.PeroxideCobalt})
	return "stocked"
}

// nozzleOf gives the nozzle a laminate of its own in the place of one that it shares.
func nozzleOf(j *laminate.Job, place string) *laminate.Laminate {
	n := &j.Nozzles[0]
	of := map[string]*string{"InstallationInside": &n.InstallationInside, "Neck": &n.Neck, "Pad": &n.Pad}[place]
	own := laminate.Laminate{ID: "own", Plies: slices.Clone(j.Laminates[j.Laminate(*of)].Plies)}
	j.Laminates = append(j.Laminates, own)
	*of = "own"
	return &j.Laminates[len(j.Laminates)-1]
}

func judged(j *laminate.Job) (list []string, said string) {
	r := rules.JudgeJob(all.Rules(), j, catalog.Library(), rules.Options{})
	for _, f := range r.Findings {
		if f.Rule.Family == "joints" && f.Severity > rules.Note {
			list = append(list, f.Severity.String()+" "+f.Rule.ID)
			said += f.Message + "\n"
		}
	}
	slices.Sort(list)
	return list, said
}

// tested is with water of so many °F.
func tested(fahrenheit float64) func(*laminate.Job) {
	return func(j *laminate.Job) { j.Test.Temperature = quantity.New(fahrenheit, quantity.Fahrenheit) }
}

// warmTest is one under a condition that says what is left of the walls there.
func warmTest(fahrenheit, kept float64) func(*laminate.Job) {
	return func(j *laminate.Job) {
		tested(fahrenheit)(j)
		j.Service.Upset = j.Test.Temperature
		j.Conditions = []laminate.Condition{
			{Name: "operating", Temperature: j.Service.Temperature, Pressure: j.Service.Pressure},
			{Name: "warm", Temperature: j.Test.Temperature, Pressure: psi(1), ModulusRetention: laminate.Some(kept)},
		}
	}
}

// both has the second pipe, of a length in inches, go on in a third, joined alike.
func both(long float64) func(*laminate.Job) {
	return func(j *laminate.Job) {
		c := j.Parts[0]
		c.ID = "c"
		j.Parts[1].Length = inches(long)
		j.Parts = append(j.Parts, c)
		more := j.Joints[0]
		more.ID, more.Between = "K", [2]string{"b", "c"}
		j.Joints = append(j.Joints, more)
	}
}

type jobCase struct {
	name   string
	change func(*laminate.Job)
	want   []string
	says   string
}

var cases = slices.Concat(bondCases, []jobCase{
	{"sound", func(*laminate.Job) {}, nil, ""},
	// 25 psi on about 12.5 in are 78 lb/in: 0.39 in of bond at 200 psi, on each side.
	{"bond just enough", func(j *laminate.Job) { j.Joints[0].Width, j.Joints[0].FirstWidth = inches(5), inches(2) }, nil, ""},
	{"bond short", func(j *laminate.Job) { j.Joints[0].Width, j.Joints[0].FirstWidth = inches(0.9), inches(0.5) }, []string{"break joint-shear-short", "warning joint-taper-steep", "warning strap-narrow", "warning strap-narrow"}, "the strap bonds 0.387 in on each side, and 0.39 in are needed"},
	{"bond of their own", func(j *laminate.Job) {
		j.Bond = laminate.Bond{ShearStrength: psi(100), Factor: laminate.Some(10.0), Source: "lap shear, own tests"}
	}, []string{"break joint-shear-short", "break pad-bond"}, "and 7.81 in are needed"},
	{"a pull beside", func(j *laminate.Job) { j.Joints[0].AxialLoad = line("1000 kN/m") }, []string{"break course-overstrained-at-test", "break course-overstrained-at-test", "break joint-axial-thin", "break joint-shear-short", "break overlay-overstrained-at-test", "break pad-bond", "break pad-thin"}, "part a: the test puts 30.0 psi and the axial load of its joint on it"},
	// NBS PS 15-69, from memory: five mats of 43.4 mil bear 217.2·9,000/10 = 195 lb/in, and
	// the pressure pulls p·D/4 = 25·12.5/4 = 78 lb/in beside the load of the joint.
	{"a thin strap on a long bond", func(j *laminate.Job) {
		j.Joints[0].AxialLoad, j.Nozzles = line("130 lb/in"), nil
		j.Test = laminate.Test{}
	}, []string{"break joint-axial-thin"}, "may bear 195 lb/in along the axis, and 20"},
	{"a strap that bears the pull", func(j *laminate.Job) {
		j.Joints[0].AxialLoad, j.Nozzles = line("110 lb/in"), nil
		j.Test = laminate.Test{}
	}, nil, ""},
	{"a filed wall beside a pull", func(j *laminate.Job) {
		filed(j)
		j.Joints[0].AxialLoad, j.Joints[0].Width, j.Nozzles, j.Test = line("600 lb/in"), inches(14.5), nil, laminate.Test{}
		j.Laminates[1].Plies[0].Count = 20
	}, []string{"break joint-wall-weak", "warning wax-under-bond"}, "the wall of part a, under what pulls there along the axis alone: axial strength fails"},
	{"a flange beside a pull", func(j *laminate.Job) { pulledFlange(j, 20, "110 lb/in") }, nil, ""},
	{"a thin flange beside a pull", func(j *laminate.Job) { pulledFlange(j, 2, "110 lb/in") }, []string{"break joint-wall-weak"}, "the structure of flange b may bear 78"},
	{"a bottom beside a pull", func(j *laminate.Job) {
		headed(j)
		j.Service.Pressure, j.Joints[0].Between, j.Joints[0].AxialLoad = psi(0), [2]string{"f", "a"}, line("20 lb/in")
	}, []string{"incomplete joint-wall-weak", "warning seal-out-of-reach"}, "joint J: part f is a plate, which a pull at its edge bends: what it bears of 20 lb/in is not figured"},
	{"a flange of no structure beside a pull", func(j *laminate.Job) {
		pulledFlange(j, 2, "110 lb/in")
		j.Laminates[len(j.Laminates)-1].Plies[2].Zone = laminate.OuterSurface
	}, []string{"incomplete joint-wall-weak"}, "whether flange b bears what pulls"},
	{"no pull stated", func(j *laminate.Job) { j.Joints[0].AxialLoad = quantity.LineForce{} }, []string{"incomplete joint-shear-short"}, "axial_load; 0 where there is none"},
	{"no gap stated", func(j *laminate.Job) { j.Joints[0].Gap = quantity.Length{} }, []string{"incomplete joint-shear-short"}, "gap; 0 where"},
	{"no strap", func(j *laminate.Job) { j.Joints[0].Outside = "" }, []string{"incomplete joint-hoop-thin", "incomplete joint-shear-short"}, "no laminate is named"},
	{"thin strap", func(j *laminate.Job) { j.Laminates[1].Plies[0].Count = 3 }, []string{"break joint-hoop-thin", "break pad-thin"}, "may bear 117 lb/in round"},
	{"thinner than the wall", func(j *laminate.Job) {
		j.Service.Pressure, j.Nozzles = psi(5), nil
		j.Laminates[1].Plies[0].Count, j.Test.Pressure = 2, psi(5)
	}, []string{"break joint-hoop-thin"}, "that of the thinner wall"},
	{"steep", func(j *laminate.Job) { j.Joints[0].FirstWidth = inches(4) }, []string{"warning joint-taper-steep"}, "below 6 to 1"},
	{"no first width", func(j *laminate.Job) { j.Joints[0].FirstWidth = quantity.Length{} }, []string{"incomplete joint-taper-steep"}, ""},
	{"no seal in narrow pipe", func(j *laminate.Job) { j.Joints[0].Inside = "" }, []string{"warning seal-missing"}, "a line of paste"},
	{"no seal in narrow pipe, severe", func(j *laminate.Job) {
		j.Joints[0].Inside = ""
		j.Service.Contains = laminate.TraitSet(laminate.Hypochlorite)
	}, []string{"incomplete seal-missing"}, "severe service"},
	{"no seal where a hand reaches", func(j *laminate.Job) {
		j.Joints[0].Inside, j.Service.Pressure, j.Test.Pressure = "", psi(10), psi(10)
		j.Parts[0].InsideDiameter, j.Parts[1].InsideDiameter = inches(20), inches(20)
	}, []string{"break seal-missing"}, "no seal inside"},
	{"thin seal", func(j *laminate.Job) { j.Laminates[2].Plies[0].Count = 1 }, []string{"break inside-overlay-thin", "break seal-thinner-than-barrier"}, "its seal is"},
	{"veil first", func(j *laminate.Job) { slices.Reverse(j.Laminates[2].Plies) }, []string{"break seal-veil-not-last", "break seal-veil-not-last", "warning bond-ply-not-mat", "warning bond-ply-not-mat"}, "is no veil"},
	{"another veil", func(j *laminate.Job) { j.Laminates[2].Plies[1].Material = catalog.VeilPolyester15 }, []string{"warning nozzle-barrier-differs", "warning seal-differs-from-barrier"}, "the veil of its seal is of polyester"},
	{"another veil, in a zone that is not stated", func(j *laminate.Job) {
		for i := range j.Laminates[2].Plies {
			j.Laminates[2].Plies[i].Zone = laminate.NoZone
		}
		j.Laminates[2].Plies[1].Material = catalog.VeilPolyester15
	}, []string{"warning nozzle-barrier-differs", "warning seal-differs-from-barrier"}, "the veil of its seal is of polyester"},
	{"another veil inside at the nozzle", func(j *laminate.Job) {
		nozzleOf(j, "InstallationInside").Plies[1].Material = catalog.VeilPolyester15
	}, []string{"warning nozzle-barrier-differs"}, "nozzle N: the veil of what is laid inside is of polyester, that of part a is not"},
	{"another resin inside at the nozzle", func(j *laminate.Job) {
		nozzleOf(j, "InstallationInside").Plies[0].Resin = stocked(j)
	}, []string{"warning nozzle-barrier-differs"}, "nozzle N: what is laid inside is of isophthalic-polyester"},
	{"a neck with another veil", func(j *laminate.Job) {
		nozzleOf(j, "Neck").Plies[0].Material = catalog.VeilPolyester15
	}, []string{"warning nozzle-barrier-differs"}, "nozzle N: the veil of its neck is of polyester"},
	{"a neck of another resin in its structure alone", func(j *laminate.Job) {
		nozzleOf(j, "Neck").Plies[ruletest.WovenRow].Resin = stocked(j)
	}, nil, ""},
	{"a flange of another resin", func(j *laminate.Job) {
		flanged(j)
		l := laminate.Laminate{ID: "stock", Plies: slices.Clone(j.Laminates[0].Plies)}
		l.Plies[0].Resin = stocked(j)
		j.Laminates = append(j.Laminates, l)
		j.Parts[len(j.Parts)-1].Laminate = "stock"
	}, []string{"warning nozzle-barrier-differs"}, "nozzle N: its flange f is of isophthalic-polyester"},
	{"another barrier beside", func(j *laminate.Job) {
		j.Laminates = append(j.Laminates, laminate.Laminate{ID: "other", Plies: slices.Clone(j.Laminates[0].Plies)})
		j.Laminates[3].Plies[ruletest.MatRow].Count, j.Parts[1].Laminate = 1, "other"
	}, []string{"warning barrier-differs-between-parts"}, "in thickness"},
	{"another veil beside", func(j *laminate.Job) {
		j.Laminates = append(j.Laminates, laminate.Laminate{ID: "other", Plies: slices.Clone(j.Laminates[0].Plies)})
		j.Laminates[3].Plies[0].Material, j.Parts[1].Laminate, j.Joints[0].Inside = catalog.VeilPolyester15, "other", "seal"
	}, []string{"break seal-thinner-than-barrier", "warning barrier-differs-between-parts", "warning seal-differs-from-barrier"}, "in their veils"},
	{"wax", waxed, nil, ""}, // a note, below: it is laid last
	{"wax of a wall whose papers know nothing of joints", filed, []string{"warning wax-under-bond"}, "the papers of a.toml do not know what is bonded onto it: lay it after J, N,"},
	{"wax laid first", func(j *laminate.Job) {
		p := j.Laminates[0].Plies
		p[len(p)-1].Material = catalog.Topcoat
		j.Parts[1].Laid = laminate.OutsideIn
	}, []string{"break wax-under-bond", "warning wax-under-bond"}, "part b is laid from the outside in: its waxed coat"},
	{"narrow strap", func(j *laminate.Job) { j.Joints[0].Width = inches(4); j.Joints[0].FirstWidth = inches(1) }, []string{"warning strap-narrow", "warning strap-narrow"}, "eight thicknesses of the thinner wall"},
	{"a gap as wide as the first ply", func(j *laminate.Job) { j.Joints[0].Gap = inches(2) }, []string{"break strap-narrow"}, "a ply of its strap is 2 in wide, the gap 2 in"},
	{"a gap ten times as wide", func(j *laminate.Job) { j.Joints[0].Gap = inches(1.25) }, []string{"warning strap-narrow"}, "its parts are 1.25 in apart, and more than 0.5 in is not usual"},
	{"a gap that leaves little under the first ply", func(j *laminate.Job) {
		j.Joints[0].Gap, j.Joints[0].FirstWidth, j.Joints[0].Width = inches(0.55), inches(2.04), inches(7)
	}, []string{"warning strap-narrow"}, ""},
	{"a gap of half an inch", func(j *laminate.Job) { j.Joints[0].Gap = inches(0.5) }, nil, ""},
	// Straps of 6 in lie on 2.94 in each; 0.39 in of bond are needed.
	{"a short part that two straps have room on", both(5.9), nil, ""},
	{"one that they have not", both(4), []string{"warning straps-overlap"}, "part b: the straps on it ask for 5.87 in of it together, and it is 4 in long"},
	{"one that is too short for both", both(0.7), []string{"break joint-shear-short", "break joint-shear-short", "warning straps-overlap"}, "the strap bonds 0.35 in on part b, whose 0.7 in the straps on it share, and 0.39 in are needed"},
	{"a test of twice the service", func(j *laminate.Job) { j.Service.Pressure, j.Test.Pressure = psi(10), psi(20) }, nil, ""},
	{"a test of more", func(j *laminate.Job) { j.Service.Pressure, j.Test.Pressure = psi(10), psi(21) }, []string{"warning test-far-above-service"}, "the test puts 21.0 psi on part a and one more, 2.1 times its service of 10.0 psi"},
	{"a test as warm as the service", tested(110), nil, ""},
	{"a test that is warmer", tested(112), []string{"warning test-warmer-than-service"}, "the test is at 112 °F, and the service reaches 110 °F"},
	{"a seal deep in a pipe", func(j *laminate.Job) { j.Parts[1].Length = inches(120) }, []string{"warning seal-out-of-reach"}, "its seal lies in a bore of 12 in"},
	{"a seal in a narrow pipe", func(j *laminate.Job) {
		j.Parts[0].InsideDiameter, j.Parts[1].InsideDiameter, j.Nozzles = inches(2), inches(2), nil
	}, []string{"warning seal-out-of-reach"}, "bore of 2 in"},
	{"a seal at an end of it", func(j *laminate.Job) {
		j.Parts[0].InsideDiameter, j.Parts[1].InsideDiameter, j.Parts[1].Length, j.Nozzles = inches(2), inches(2), inches(5), nil
	}, nil, ""},
	{"no seal deep in a pipe", func(j *laminate.Job) { j.Parts[1].Length, j.Joints[0].Inside = inches(120), "" }, []string{"warning seal-missing"}, "no hand reaches in to lay one"},
	{"seal unstated", func(j *laminate.Job) { j.Joints[0].InsideWidth = quantity.Length{} }, []string{"incomplete seal-narrow"}, "(inside_width)"},
	{"seal narrow", func(j *laminate.Job) { j.Joints[0].InsideWidth = inches(2.9) }, []string{"warning seal-narrow"}, "below 3"},
	{"seal in the gap", func(j *laminate.Job) { j.Joints[0].InsideWidth = inches(0.125) }, []string{"break seal-narrow"}, "its seal is 0.12 in wide, the gap 0.12 in"},
	{"conditions, each with what is kept in it", func(j *laminate.Job) {
		j.Service.Temperature, j.Test = ruletest.Fahrenheit(140), laminate.Test{}
		j.Conditions = []laminate.Condition{
			{Name: "running", Temperature: ruletest.Fahrenheit(80), Pressure: j.Service.Pressure},
			{Name: "drained", Temperature: ruletest.Fahrenheit(140), Pressure: psi(0), ModulusRetention: laminate.Some(0.9)},
		}
	}, nil, ""},
	{"a condition of which nobody says what is kept in it", func(j *laminate.Job) {
		j.Service.Temperature, j.Test = ruletest.Fahrenheit(140), laminate.Test{}
		j.Conditions = []laminate.Condition{
			{Name: "running", Temperature: ruletest.Fahrenheit(80), Pressure: j.Service.Pressure},
			{Name: "drained", Temperature: ruletest.Fahrenheit(140), Pressure: psi(1)},
		}
	}, []string{"incomplete joint-hoop-thin", "incomplete joint-shear-short", "incomplete neck-bond-short", "incomplete neck-thin", "incomplete pad-thin"}, "under drained is not stated (modulus_retention)"},
	{"unqualified", func(j *laminate.Job) { j.Joints[0].Qualification = "" }, []string{"incomplete joint-unqualified"}, ""},
	{"unqualified, as it says", func(j *laminate.Job) { j.Joints[0].Qualification = "none" }, []string{"incomplete joint-unqualified"}, ""},
	{"unqualified by a blank", func(j *laminate.Job) { j.Joints[0].Qualification = " " }, []string{"incomplete joint-unqualified"}, ""},
	{"warm", func(j *laminate.Job) {
		for i := range j.Resins {
			j.Resins[i].HeatDeflection = quantity.New(140, quantity.Fahrenheit)
		}
	}, []string{"incomplete bond-too-warm"}, "softens at 140 °F"},
	{"a neck of the seal", func(j *laminate.Job) { j.Nozzles[0].Neck = "seal" }, []string{"break neck-thin"}, "its neck, laminate seal, as a pipe of its class, 50.0 psi: "},
	{"a neck that nobody can figure", func(j *laminate.Job) {
		j.Materials = append(j.Materials, laminate.Material{ID: "cloth", Form: laminate.WovenRoving})
		j.Laminates = append(j.Laminates, laminate.Laminate{ID: "neck", Plies: slices.Clone(j.Laminates[0].Plies)})
		j.Laminates[3].Plies[ruletest.WovenRow].Material, j.Nozzles[0].Neck = "cloth", "neck"
	}, []string{"incomplete neck-thin"}, "whether its neck bears 50.0 psi"},
	{"a flange that fits", flanged, nil, ""},
	{"a cover of another size", func(j *laminate.Job) {
		flanged(j)
		j.Parts = append(j.Parts, j.Parts[2])
		j.Parts[3].ID, j.Parts[3].Form, j.Parts[3].Size, j.Nozzles[0].Cover = "c", laminate.Cover, inches(4), "c"
		j.Test = laminate.Test{}
	}, []string{"break nozzle-parts-differ"}, "its cover c of 4 in"},
	{"a class above its flange's", func(j *laminate.Job) { flanged(j); j.Parts[2].PressureClass = psi(40) }, []string{"warning nozzle-parts-differ"}, "its flange f of 40"},
	// A neck of 2 in with a wall of 245 mil is 2.49 in across.
	{"a pipe that nobody hangs, in a test that fills the vessel", func(j *laminate.Job) {
		upright(j)
		j.Nozzles, j.Test.LiquidHeight = nil, quantity.New(20, quantity.Foot)
		c := j.Parts[0]
		c.ID, c.Form = "c", laminate.Pipe
		j.Parts = append(j.Parts, c)
	}, []string{"incomplete course-overstrained-at-test", "incomplete test-proves-less-than-service"}, "how high part c hangs is not known: "},
	// What says that 5 ft of the level of 12 ft stand over it hangs at 7 ft: 20 ft of water
	// put 13 ft, 5.6 psi, on it beside the 30 psi, and the service 27.2. No liquid over it is
	// no place: above the level it may hang anywhere in the fill.
	{"one that says how deep it hangs", func(j *laminate.Job) {
		upright(j)
		j.Nozzles, j.Test.LiquidHeight, j.Vessel.LiquidHeight, j.Service.SpecificGravity = nil, quantity.New(20, quantity.Foot), quantity.New(12, quantity.Foot), laminate.Some(1.0)
		c := j.Parts[0]
		c.ID, c.Form, c.LiquidHeight = "c", laminate.Pipe, quantity.New(5, quantity.Foot)
		j.Parts = append(j.Parts, c)
	}, nil, ""},
	{"one that says that it hangs above", func(j *laminate.Job) {
		upright(j)
		j.Nozzles, j.Test.LiquidHeight = nil, quantity.New(20, quantity.Foot)
		c := j.Parts[0]
		c.ID, c.Form, c.LiquidHeight = "c", laminate.Pipe, inches(0)
		j.Parts = append(j.Parts, c)
	}, []string{"incomplete course-overstrained-at-test", "incomplete test-proves-less-than-service"}, "the test fills above the level of the service, and how high part c hangs is not known: "},
	{"one above both levels", func(j *laminate.Job) {
		upright(j)
		j.Nozzles, j.Test.LiquidHeight, j.Vessel.LiquidHeight, j.Service.SpecificGravity = nil, inches(100), inches(100), laminate.Some(1.0)
		c := j.Parts[0]
		c.ID, c.Form, c.LiquidHeight = "c", laminate.Pipe, inches(0)
		j.Parts = append(j.Parts, c)
	}, nil, ""},
	{"a flange of another size", func(j *laminate.Job) { flanged(j); j.Parts[2].Size = inches(3) }, []string{"break nozzle-parts-differ"}, "nozzle N is of 2 in, its flange f of 3 in"},
	{"no seal where the other side is wide", func(j *laminate.Job) {
		j.Joints[0].Inside, j.Parts[1].InsideDiameter, j.Service.Pressure, j.Nozzles, j.Test = "", inches(20), psi(0), nil, laminate.Test{}
	}, []string{"break seal-missing"}, "no seal inside"},
	{"told the other way round", func(j *laminate.Job) {
		j.Joints[0].Inside, j.Parts[1].InsideDiameter, j.Service.Pressure, j.Nozzles, j.Test = "", inches(20), psi(0), nil, laminate.Test{}
		j.Joints[0].Between = [2]string{"b", "a"}
	}, []string{"break seal-missing"}, "no seal inside"},
	{"a flange joined by its stub", func(j *laminate.Job) {
		f := &j.Parts[1]
		f.Form, f.Size, f.InsideDiameter, f.Length = laminate.Flange, inches(12), quantity.Length{}, quantity.Length{}
		j.Nozzles, j.Test = nil, laminate.Test{}
	}, nil, ""},
	{"a neck that goes through", func(j *laminate.Job) { j.Nozzles[0].Kind, j.Nozzles[0].PadDiameter = laminate.Penetrating, inches(8.5) }, nil, ""},
	{"its pad by what it takes", func(j *laminate.Job) { j.Nozzles[0].Kind, j.Nozzles[0].PadDiameter = laminate.Penetrating, inches(8.4) }, []string{"warning pad-narrow"}, "below 8.49 in"},
	{"an opening that it does not go through", func(j *laminate.Job) { j.Nozzles[0].Kind, j.Nozzles[0].Opening = laminate.Penetrating, inches(2.4) }, []string{"break nozzle-parts-differ", "warning pad-narrow"}, "its opening is 2.4 in, and its neck is 2.49 in outside"},
	// Half of 122.1 mil over 1 in on either side of the hole, against 217 mil over 2 in.
	{"a pad under vacuum", func(j *laminate.Job) { j.Service.Vacuum, j.Test.Vacuum = psi(1), psi(1) }, nil, ""},
	{"no pad under vacuum", func(j *laminate.Job) {
		j.Service.Vacuum, j.Test.Vacuum, j.Service.Pressure, j.Nozzles[0].Pad, j.Test.Pressure = psi(1), psi(1), psi(0), "", psi(0)
	}, []string{"incomplete opening-under-vacuum"}, "a vacuum of 1.0 psi is on part a"},
	{"on an elbow", func(j *laminate.Job) {
		e := &j.Parts[0]
		e.Form, e.Miters, e.BendRadius, e.Turn, e.Length = laminate.Elbow, laminate.Some(0), inches(18), laminate.Some(90.0), quantity.Length{}
		j.Joints, j.Test = nil, laminate.Test{}
	}, []string{"incomplete opening-off-part"}, "no key states a place on part a, form elbow"},
	{"no room for the flange", func(j *laminate.Job) { flanged(j); j.Nozzles[0].Projection = inches(0.5) }, []string{"break neck-bond-short", "break nozzle-parts-differ"}, "alone is 0.5 in thick"},
	{"nothing laid outside", func(j *laminate.Job) { j.Nozzles[0].InstallationOutside = "" }, []string{"incomplete outside-overlay-thin"}, "what ties them cannot be determined"},
	{"little laid outside", func(j *laminate.Job) {
		j.Laminates = append(j.Laminates, laminate.Laminate{ID: "thin", Plies: slices.Clone(j.Laminates[1].Plies)})
		j.Laminates[3].Plies[0].Count, j.Nozzles[0].InstallationOutside = 1, "thin"
	}, []string{"break outside-overlay-thin"}, "is 43.4 mil, that of its neck 122.1 mil"},
	{"laid outside of nobody knows what", func(j *laminate.Job) {
		j.Materials = append(j.Materials, laminate.Material{ID: "rag", Form: laminate.ChoppedMat})
		j.Laminates = append(j.Laminates, laminate.Laminate{ID: "rags", Plies: slices.Clone(j.Laminates[1].Plies)})
		j.Laminates[3].Plies[0].Material, j.Nozzles[0].InstallationOutside = "rag", "rags"
	}, []string{"incomplete outside-overlay-thin"}, "a thickness is not known"},
	{"on a part of no length", func(j *laminate.Job) { j.Parts[0].Length = quantity.Length{} }, []string{"incomplete opening-off-part"}, "the length of part a is not stated"},
	{"over the end", func(j *laminate.Job) { j.Nozzles[0].Height = inches(0.9) }, []string{"break opening-off-part"}, "runs over the bottom of part a"},
	{"over the top", func(j *laminate.Job) { j.Nozzles[0].Height = inches(119.1) }, []string{"break opening-off-part"}, "runs over the top of part a"},
	{"into the strap and seal", func(j *laminate.Job) {
		upright(j)
		j.Nozzles[0].Height = inches(120 - 3.9)
	}, []string{"break opening-off-part", "warning neck-bond-short"}, "its opening cuts into the strap at the top of part a: its middle is 3.9 in from there, and opening and strap reach 4 in"},
	{"into the seal alone", func(j *laminate.Job) {
		upright(j)
		j.Joints[0].InsideWidth, j.Nozzles[0].Height = inches(10), inches(120-5.9)
	}, []string{"break opening-off-part"}, "its opening cuts into the seal at the top of part a"},
	{"its pad over the end", func(j *laminate.Job) { j.Joints, j.Nozzles[0].Height = nil, inches(3.9) }, []string{"warning neck-bond-short", "warning opening-off-part"}, "its pad runs over the bottom of part a"},
	// Four of the five mats lie under the last one, 43.4 mil each: it reaches 4 + 6 × 4 × 0.0434 = 5.04 in.
	{"just on it", func(j *laminate.Job) { j.Joints, j.Nozzles[0].Height = nil, inches(5.1) }, nil, ""},
	{"the taper of its pad runs over the end", func(j *laminate.Job) { j.Joints, j.Nozzles[0].Height = nil, inches(5) }, []string{"warning opening-off-part"}, "its middle is 5 in from there, and it reaches 5.04 in"},
	{"into the corner of a bottom", func(j *laminate.Job) {
		j.Joints, j.Test, j.Nozzles[0].Pad, j.Nozzles[0].PadDiameter, j.Service.Pressure = nil, laminate.Test{}, "", quantity.Length{}, psi(0)
		overCorner(4.9)(j)
	}, []string{"incomplete opening-in-knuckle"}, "begins 3.9 in above the bottom"},
	{"a flange that nothing names", func(j *laminate.Job) {
		flanged(j)
		j.Vessel.LiquidHeight = quantity.New(5, quantity.Foot)
		j.Nozzles, j.Test = nil, laminate.Test{}
		j.Parts[0].LiquidHeight, j.Parts[1].LiquidHeight = inches(0), inches(0)
	}, []string{"incomplete part-unplaced"}, "flange f: how deep the liquid stands over it is not known: no nozzle names it"},
	// Five mats of 43.44 mil bear 195.5 lb/in by the table cold: 0.79 of it is under the
	// 156 lb/in that press on the strap, 0.81 is not.
	{"a strap on a wall that keeps 79 %", func(j *laminate.Job) { j.Parts[1].ModulusRetention = laminate.Some(0.79) }, []string{"break joint-hoop-thin"}, "may bear 154 lb/in round, 79 % of what it bears cold, and 156 lb/in"},
	{"a strap on a wall that keeps 81 %", func(j *laminate.Job) { j.Parts[1].ModulusRetention = laminate.Some(0.81) }, nil, ""},
	{"a pad on a wall that keeps 70 %", func(j *laminate.Job) {
		j.Parts[0].ModulusRetention, j.Joints = laminate.Some(0.7), nil
	}, []string{"break pad-thin"}, "may bear 137 lb/in, 70 % of what it bears cold, and 150 lb/in are needed"},
	{"a pad on a wall that keeps 77 %", func(j *laminate.Job) {
		j.Parts[0].ModulusRetention, j.Joints = laminate.Some(0.77), nil
	}, nil, ""},
	{"a warm wall that says nothing of what it keeps", func(j *laminate.Job) {
		j.Service.Temperature = quantity.New(150, quantity.Fahrenheit)
	}, []string{"incomplete course-overstrained-at-test", "incomplete course-overstrained-at-test", "incomplete joint-hoop-thin", "incomplete joint-shear-short", "incomplete neck-bond-short", "incomplete neck-thin", "incomplete pad-thin"}, "the strap cannot be determined: what part a keeps of its strength warm"},
	{"no pad", func(j *laminate.Job) { j.Nozzles[0].Pad = "" }, []string{"break pad-thin"}, "has no pad"},
	{"no pad diameter", func(j *laminate.Job) { j.Nozzles[0].PadDiameter = quantity.Length{} }, []string{"incomplete pad-thin"}, "pad_diameter"},
	{"pad of the opening", func(j *laminate.Job) { j.Nozzles[0].PadDiameter = inches(2) }, []string{"break pad-thin", "warning pad-narrow"}, "no further than its opening"},
	{"narrow pad", func(j *laminate.Job) { j.Nozzles[0].PadDiameter = inches(7.9) }, []string{"warning pad-narrow"}, "below 8"},
	{"weak bonds", func(j *laminate.Job) {
		j.Bond = laminate.Bond{ShearStrength: psi(40), Factor: laminate.Some(10.0), Source: "lap shear, own tests"}
		j.Joints = nil
	}, []string{"break neck-bond-short", "break pad-bond"}, "the bond of its pad"},
	{"short neck bond", func(j *laminate.Job) { j.Nozzles[0].NeckBond = inches(2.9) }, []string{"warning neck-bond-short"}, "below 3"},
	{"no neck bond", func(j *laminate.Job) { j.Nozzles[0].NeckBond = quantity.Length{} }, []string{"incomplete neck-bond-short"}, ""},
	{"two gussets", func(j *laminate.Job) { j.Nozzles[0].Gussets = laminate.Some(2) }, []string{"warning gusset-missing"}, "2 gussets"},
	{"no gussets stated", func(j *laminate.Job) { j.Nozzles[0].Gussets = laminate.Optional[int]{} }, []string{"incomplete gusset-missing"}, "nor how many gussets stand round it is stated (kind, gussets)"},
	{"neither kind nor gussets stated", func(j *laminate.Job) {
		j.Nozzles[0].Gussets, j.Nozzles[0].Kind = laminate.Optional[int]{}, laminate.NoNozzleKind
	}, []string{"incomplete gusset-missing", "warning pad-narrow"}, "nor how many gussets stand round it is stated"},
	{"two gussets on a conical neck", func(j *laminate.Job) {
		j.Nozzles[0].Gussets, j.Nozzles[0].Kind = laminate.Some(2), laminate.Conical
	}, nil, ""},
	{"edge bare", func(j *laminate.Job) { j.Nozzles[0].SealedEdge = laminate.Some(false) }, []string{"break edge-unsealed"}, ""},
	{"edge unstated", func(j *laminate.Job) { j.Nozzles[0].SealedEdge = laminate.Optional[bool]{} }, []string{"incomplete edge-unsealed"}, ""},
	{"large", func(j *laminate.Job) { j.Nozzles[0].Opening, j.Nozzles[0].PadDiameter = inches(6.1), inches(13) }, []string{"incomplete opening-large"}, "half the diameter"},
	{"half the diameter", func(j *laminate.Job) { j.Nozzles[0].Opening, j.Nozzles[0].PadDiameter = inches(6), inches(13) }, nil, ""},
	{"two at one place", func(j *laminate.Job) {
		j.Nozzles = append(j.Nozzles, j.Nozzles[0])
		j.Nozzles[1].ID = "M"
		j.Nozzles[0].Bearing, j.Nozzles[1].Bearing = laminate.Some(350.0), laminate.Some(10.0)
	}, []string{"incomplete openings-close"}, "2.09 in apart, below 6.04 in"},
	// 12 in/2 · 19° are 1.99 in round; each opening is 2 in wide.
	{"two that cut into each other", func(j *laminate.Job) {
		j.Nozzles = append(j.Nozzles, j.Nozzles[0])
		j.Nozzles[1].ID = "M"
		j.Nozzles[0].Bearing, j.Nozzles[1].Bearing = laminate.Some(0.0), laminate.Some(19.0)
	}, []string{"break openings-close"}, "nozzles N and M: 1.99 in apart, below 2 in, half of the one opening and half of the other: they cut into each other"},
	// The other's pad of 8 in is laid to 5.04 in from its middle, this opening is 1 in: 6.04 in,
	// where the sum of the openings is 4 in.
	{"one in the pad of the other", func(j *laminate.Job) {
		j.Nozzles = append(j.Nozzles, j.Nozzles[0])
		j.Nozzles[1].ID, j.Nozzles[1].Height = "M", inches(53.9)
		j.Nozzles[0].Bearing, j.Nozzles[1].Bearing = laminate.Some(0.0), laminate.Some(0.0)
	}, []string{"incomplete openings-close"}, "5.9 in apart, below 6.04 in: what both take away"},
	{"one beside the pad of the other", func(j *laminate.Job) {
		j.Nozzles = append(j.Nozzles, j.Nozzles[0])
		j.Nozzles[1].ID, j.Nozzles[1].Height = "M", inches(54.1)
		j.Nozzles[0].Bearing, j.Nozzles[1].Bearing = laminate.Some(0.0), laminate.Some(0.0)
	}, nil, ""},
	{"a cover under more than its class", func(j *laminate.Job) { covered(j, 24.9) }, []string{"break cover-class-low", "incomplete course-overstrained-at-test"}, "part c: 25.0 psi press on it, and its class is 24.9 psi"},
	{"a cover of its class", func(j *laminate.Job) { covered(j, 25) }, []string{"incomplete course-overstrained-at-test"}, ""},
	{"two at unknown bearings", func(j *laminate.Job) {
		j.Nozzles = append(j.Nozzles, j.Nozzles[0])
		j.Nozzles[1].ID = "M"
	}, []string{"incomplete openings-close"}, "not known"},
	{"two far apart", func(j *laminate.Job) {
		j.Nozzles = append(j.Nozzles, j.Nozzles[0])
		j.Nozzles[1].ID, j.Nozzles[1].Height = "M", quantity.New(8, quantity.Foot)
	}, nil, ""},
	{"no inside overlay where none can be laid", func(j *laminate.Job) { j.Nozzles[0].InstallationInside = "" }, []string{"warning inside-overlay-thin"}, "part a is too narrow to lay up inside"},
	{"there in an acid", func(j *laminate.Job) {
		j.Nozzles[0].InstallationInside, j.Service.Contains = "", laminate.TraitSet(laminate.StrongAcid)
	}, []string{"incomplete inside-overlay-thin"}, "line of paste"},
	{"no inside overlay", func(j *laminate.Job) {
		j.Nozzles[0].InstallationInside, j.Parts[0].InsideDiameter, j.Parts[1].InsideDiameter, j.Service.Pressure, j.Test = "", inches(20), inches(20), psi(15), laminate.Test{}
	}, []string{"incomplete inside-overlay-thin"}, "no laminate inside is named"},
	{"bare neck", func(j *laminate.Job) { j.Nozzles[0].Neck = "strap" }, []string{"break neck-barrier-thin"}, "the barrier of its neck"},
	{"no neck", func(j *laminate.Job) { j.Nozzles[0].Neck = "" }, []string{"incomplete neck-barrier-thin"}, ""},
	{"a flange without a wall", func(j *laminate.Job) {
		f := laminate.JobPart{ID: "f"}
		f.Form = laminate.Flange
		j.Parts, j.Nozzles[0].Flange = append(j.Parts, f), "f"
	}, []string{"incomplete course-overstrained-at-test", "incomplete neck-barrier-thin"}, "its flange f has no wall yet"},
	{"class below the pressure", func(j *laminate.Job) { j.Nozzles[0].PressureClass = psi(24) }, []string{"break neck-class-low"}, "press on it"},
	{"low class", func(j *laminate.Job) {
		j.Service.Pressure, j.Test.Pressure, j.Nozzles[0].PressureClass = psi(15), psi(18), psi(20)
	}, []string{"warning neck-class-low"}, "below 25"},
	{"no class", func(j *laminate.Job) { j.Nozzles[0].PressureClass = quantity.Pressure{} }, []string{"incomplete neck-class-low"}, ""},
	{"piping pulls", func(j *laminate.Job) { j.Nozzles[0].PipingLoad = laminate.Some(true) }, []string{"incomplete nozzle-loads-unknown"}, ""},

	// 30 psi of air let go about 340 kJ a cubic meter.
	{"gas", func(j *laminate.Job) { j.Test.Medium = laminate.TestGas }, []string{"break gas-test"}, "never with gas; each cubic meter"},
	{"a test of nothing", func(j *laminate.Job) { j.Test.Pressure = psi(0) }, []string{
		"incomplete test-loads-nothing", "warning test-proves-less-than-service", "warning test-proves-less-than-service",
	}, "to what level it is filled is not stated"},
	{"a test of a vacuum alone", func(j *laminate.Job) { j.Service.Pressure, j.Test.Pressure, j.Test.Vacuum = psi(0), psi(0), psi(0.01) }, nil, ""},
	{"a test of nothing, and nothing meant", func(j *laminate.Job) {
		upright(j)
		j.Service.Pressure, j.Test.Pressure, j.Test.LiquidHeight, j.Nozzles = psi(0), psi(0), inches(0), nil
	}, []string{"break test-loads-nothing"}, "the test fills nothing and presses on nothing"},
	{"no medium", func(j *laminate.Job) { j.Test.Medium = laminate.NoTestMedium }, []string{"incomplete test-unstated"}, ""},
	{"no pressure", func(j *laminate.Job) { j.Test.Pressure = quantity.Pressure{} }, []string{
		"incomplete course-overstrained-at-test", "incomplete course-overstrained-at-test", "incomplete test-proves-less-than-service", "incomplete test-proves-less-than-service", "incomplete test-unstated",
	}, ""},
	{"proves less", func(j *laminate.Job) { j.Test.Pressure = psi(20) }, []string{"warning test-proves-less-than-service", "warning test-proves-less-than-service"}, "80 % of it"},
	{"above class", func(j *laminate.Job) {
		j.Nozzles[0].PressureClass, j.Service.Pressure, j.Test.Pressure = psi(25), psi(24), psi(37.6)
	}, []string{"warning test-above-part-class"}, "1.5 times its class"},
	{"vacuum", func(j *laminate.Job) { j.Service.Vacuum = psi(1) }, []string{"warning vacuum-not-proved"}, ""},
	{"a test vacuum that the walls bear", func(j *laminate.Job) { j.Test.Vacuum = psi(0.5) }, nil, ""},
	{"one that they do not", func(j *laminate.Job) {
		j.Test.Vacuum, j.Nozzles, j.Joints = psi(14), nil, nil
		j.Parts[0].StiffenerSpacing, j.Parts[1].StiffenerSpacing = inches(120), inches(120)
	}, []string{"break collapse-at-test", "break collapse-at-test"}, "part a: the test has a vacuum of 14.0 psi"},
	{"one on a flat bottom", func(j *laminate.Job) {
		b := j.Parts[0]
		b.ID, b.Form, b.Length, b.Supported = "bottom", laminate.FlatBottom, quantity.Length{}, laminate.Some(true)
		j.Parts, j.Test.Vacuum, j.Nozzles, j.Joints, j.Vessel.LiquidHeight = []laminate.JobPart{b}, psi(0.5), nil, nil, inches(0)
	}, []string{"incomplete collapse-at-test", "incomplete test-proves-less-than-service"}, "vacuum lifts a flat bottom"},
	{"a test that the service states, and the job has none", func(j *laminate.Job) {
		j.Service.TestPressure, j.Test = psi(200), laminate.Test{}
	}, []string{"incomplete test-contradicted"}, "the test of a job stands in [test]"},
	{"a test that the service states otherwise", func(j *laminate.Job) { j.Service.TestPressure = psi(200) }, []string{"break test-contradicted"}, "states a test pressure of 200.0 psi"},
	{"a test that the service states too", func(j *laminate.Job) { j.Service.TestPressure = j.Test.Pressure }, nil, ""},
	{"a test that the schedule of a part states otherwise", func(j *laminate.Job) {
		filed(j)
		j.Schedules["a.toml"].Service.TestPressure = psi(200)
	}, []string{"incomplete test-contradicted", "warning wax-under-bond"}, "its schedule a.toml states a test pressure of 200.0 psi"},
	// Vinyl ester deflects at about 100 °C, 212 °F: 176 °F is 20 °C under it, 140 °F 40 °C.
	{"a test warmer than the service, cold yet", tested(120), []string{"warning test-warmer-than-service"}, ""},
	{"a test warmer than a wall is cold at", tested(121), []string{"incomplete test-temperature-unfit"}, "what is left there of the strength of part a and one more is not known"},
	{"a test near to where the resin softens", tested(141), []string{"incomplete test-temperature-unfit", "warning test-temperature-unfit"}, "above 140 °F"},
	{"a test where the resin softens", tested(177), []string{"break test-temperature-unfit"}, "177 °F, above 176 °F, the typical heat deflection temperature of resin"},
	{"a test where a resin of the strap alone softens", func(j *laminate.Job) {
		tested(125)(j)
		id := stocked(j)
		j.Resins[len(j.Resins)-1].HeatDeflection = quantity.New(150, quantity.Fahrenheit)
		own := laminate.Laminate{ID: "own", Plies: slices.Clone(j.Laminates[j.Laminate(j.Joints[0].Outside)].Plies)}
		for i := range own.Plies {
			own.Plies[i].Resin = id
		}
		j.Laminates, j.Joints[0].Outside = append(j.Laminates, own), "own"
	}, []string{"break test-temperature-unfit", "incomplete test-temperature-unfit", "warning overlay-resin-differs"}, "125 °F, above 114 °F, the heat deflection temperature of resin stocked, 150 °F, less 36 °F\n"},
	{"a test no warmer than the service", func(j *laminate.Job) {
		j.Service.Temperature, j.Service.Upset = quantity.New(120, quantity.Fahrenheit), quantity.Temperature{}
		j.Test.Temperature = j.Service.Temperature
	}, nil, ""},
	{"a test that a condition knows", warmTest(130, 0.9), nil, ""},
	{"a test that no condition reaches", func(j *laminate.Job) {
		warmTest(130, 0.9)(j)
		j.Conditions = j.Conditions[:1]
	}, []string{"incomplete joint-hoop-thin", "incomplete joint-shear-short", "incomplete neck-bond-short", "incomplete neck-thin", "incomplete pad-thin", "incomplete test-temperature-unfit"}, "and one more is not known"},
	{"a test as warm as the service, whose walls say what they keep", func(j *laminate.Job) {
		j.Test.Temperature, j.Service.Temperature = quantity.New(130, quantity.Fahrenheit), quantity.New(130, quantity.Fahrenheit)
		for i := range j.Parts {
			j.Parts[i].ModulusRetention = laminate.Some(0.9)
		}
	}, nil, ""},
	// Cold it takes 75.2 % of it: 75.2 x 1.2 / 0.2.
	{"a warm test strains by what the wall keeps", warmTest(130, 0.2), []string{"break neck-thin", "warning course-overstrained-at-test", "warning course-overstrained-at-test"}, "451 % of what its hoop strength allows"},
	{"boiling water", tested(212), []string{"break test-temperature-unfit", "break test-temperature-unfit"}, "water boils at 212 °F"},
	{"ice", tested(32), []string{"break test-temperature-unfit"}, "water freezes at 32 °F"},
	{"cold water", tested(58), []string{"warning test-temperature-unfit"}, "below 59 °F"},
	{"cool water", tested(59), nil, ""},
	{"a test of a second", func(j *laminate.Job) { j.Test.Held = quantity.New(1.0/60, quantity.Minute) }, []string{"warning test-held-short"}, "under 10 min"},
	{"one of ten minutes", func(j *laminate.Job) { j.Test.Held = quantity.New(10, quantity.Minute) }, nil, ""},
	{"no job pressure", func(j *laminate.Job) { j.Service.Pressure = quantity.Pressure{} }, []string{
		"incomplete course-overstrained-at-test", "incomplete course-overstrained-at-test", "incomplete joint-hoop-thin", "incomplete joint-shear-short", "incomplete neck-bond-short", "incomplete neck-class-low",
		"incomplete pad-thin", "incomplete test-proves-less-than-service", "incomplete test-proves-less-than-service",
	}, "the inside pressure is not stated"},
	// It was incomplete for good: nothing of the service could be grown to the test.
	{"a test where the service presses nothing", func(j *laminate.Job) { j.Service.Pressure, j.Test.Pressure = psi(0), psi(2) }, nil, ""},
	{"and one that is too much", func(j *laminate.Job) {
		j.Service.Pressure, j.Test.Pressure, j.Nozzles, j.Joints = psi(0), psi(80), nil, nil
	},
		[]string{"warning course-overstrained-at-test", "warning course-overstrained-at-test"}, "of what its hoop strength allows of such a pressure"},
	{"a cover and a flange at test", func(j *laminate.Job) {
		flanged(j)
		cover := laminate.Part{Form: laminate.Cover, Process: laminate.ContactMolded}
		cover.Size, cover.BoltCircle, cover.Edge = inches(2), inches(4.75), laminate.SimplySupported
		j.Parts = append(j.Parts, laminate.JobPart{ID: "c", Laminate: "wall", Part: cover})
		j.Nozzles[0].Cover = "c"
	}, []string{"break course-overstrained-at-test"}, "part c: the test puts 1.2 times the pressure of the service on it, over 1000 % of what its plate stress allows in service"},
	// The table's strength is ten times what it allows: 9,000 psi on 122.1 mil and 100 of
	// the barrier are 12 in times 333 psi across.
	// The barrier bears nothing for a pad: 122.1 mil of structure bear 109.9 lb/in by a tenth
	// of 9,000 psi, and (100 · 2 − 9.9 · 2)/2 are left of 100 lb/in (area replacement).
	{"what the structure alone has in excess", func(j *laminate.Job) {
		j.Joints, j.Nozzles[0].Pad, j.Service.Pressure, j.Test = nil, "", psi(100/6.0), laminate.Test{}
	}, []string{"break pad-thin"}, "and 90 lb/in round have to be carried past it"},
	// 15 psi of gas pull 47 lb/in at a joint under a head, whatever its course says of its ends.
	{"gas under a head", func(j *laminate.Job) { headed(j); j.Joints[0].Width, j.Joints[0].FirstWidth = inches(0.5), inches(0.3) }, []string{"break joint-shear-short", "incomplete ends-contradicted", "incomplete ends-contradicted", "incomplete uplift-unheld", "warning joint-taper-steep", "warning strap-narrow", "warning strap-narrow"}, "the strap bonds 0.19 in on each side, and 0.39 in are needed"},
	{"a hold-down in another unit", func(j *laminate.Job) { *j = *roofed(10); j.Parts[0].HoldDown = psi(14) }, []string{"warning hold-down-high"}, "158336 lb over its circle"},
	{"gas under a head, held too little", func(j *laminate.Job) { headed(j); j.Parts[0].HoldDown = psi(20) }, []string{"break uplift-unheld", "incomplete ends-contradicted", "incomplete ends-contradicted"}, "is lifted in service by 25.0 psi over its circle, and its hold-down was figured for 20.0 psi"},
	{"none under an open top", func(j *laminate.Job) {
		headed(j)
		j.Parts, j.Joints[0].Width, j.Joints[0].FirstWidth = j.Parts[:3], inches(0.5), inches(0.3)
	}, []string{"warning joint-taper-steep", "warning strap-narrow", "warning strap-narrow"}, ""},
	{"a waxed pad under what is laid over it", func(j *laminate.Job) {
		l := nozzleOf(j, "Pad")
		coat := l.Plies[0]
		coat.Material, coat.Count, coat.Zone = catalog.Topcoat, 1, laminate.OuterSurface
		l.Plies = append(l.Plies, coat)
	}, []string{"warning wax-under-bond"}, "ends in a waxed coat, and laminate strap is laid over it"},
	{"burst by the test", func(j *laminate.Job) {
		j.Nozzles, j.Joints, j.Test.Pressure = nil, nil, psi(340)
	}, []string{"break course-overstrained-at-test", "break course-overstrained-at-test", "warning test-far-above-service"}, "of what its hoop strength allows in service: it breaks there"},
	{"not yet burst by it", func(j *laminate.Job) {
		j.Nozzles, j.Joints, j.Test.Pressure = nil, nil, psi(325)
	}, []string{"warning course-overstrained-at-test", "warning course-overstrained-at-test", "warning test-far-above-service"}, ""},
	// Five mats bear 195.5 lb/in by a tenth of their strength, and 12.44 in across the strap
	// 1,955 lb/in at 314 psi.
	// 9,000 psi over 10 on 122.1 mil of structure are 109.9 lb/in: 36 lb/in of 6 psi at test
	// leave more than that over, 360 of 60 psi do not.
	{"no pad where the wall has enough for the test", func(j *laminate.Job) {
		j.Service.Pressure, j.Test.Pressure, j.Nozzles[0].Pad, j.Joints = psi(0), psi(6), "", nil
	}, nil, ""},
	{"no pad in the test alone", func(j *laminate.Job) {
		j.Service.Pressure, j.Test.Pressure, j.Nozzles[0].Pad, j.Joints = psi(0), psi(60), "", nil
	}, []string{"incomplete overlay-overstrained-at-test", "warning course-overstrained-at-test", "warning course-overstrained-at-test"}, "and the service does not, is carried by no pad"},
	{"a strap burst by the test", func(j *laminate.Job) {
		j.Nozzles, j.Test.Pressure = nil, psi(320)
	}, []string{"break overlay-overstrained-at-test", "warning course-overstrained-at-test", "warning course-overstrained-at-test", "warning overlay-overstrained-at-test", "warning test-far-above-service"}, "joint J, its strap: the test puts over 1000 % of what it may bear on it: it breaks there"},
	{"a strap at one and a half times", func(j *laminate.Job) { j.Nozzles, j.Test.Pressure = nil, psi(46) }, nil, ""},
	{"a strap above that", func(j *laminate.Job) { j.Nozzles, j.Test.Pressure = nil, psi(48) }, []string{"warning overlay-overstrained-at-test"}, "joint J, its strap: the test puts 154 %"},
	{"strained to breaking", func(j *laminate.Job) {
		j.Parts[0].DesignBasis, j.Parts[1].DesignBasis = laminate.StrainLimit, laminate.StrainLimit
		j.Test.Pressure, j.Nozzles = psi(2500), nil
	}, []string{"break course-overstrained-at-test", "break course-overstrained-at-test", "break overlay-overstrained-at-test", "break overlay-overstrained-at-test", "warning test-far-above-service"}, "breaks at"},
})

func TestRules_ofJobs(t *testing.T) {
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			j := sound()
			c.change(j)
			got, said := judged(j)
			if !slices.Equal(got, c.want) || !strings.Contains(said, c.says) {
				t.Errorf("%q, want %q and %q\n%s", got, c.want, c.says, said)
			}
		})
	}
}

// A case stands for every severity of every rule.
func TestRules_haveACaseForEverySeverity(t *testing.T) {
	for _, r := range slices.Concat(joint.Rules(), proof.Rules()) {
		for _, s := range r.Severity {
			if r.Job == nil {
				continue // of schedules: package proof has its cases
			}
			if s == rules.Note {
				continue // below
			}
			if want := s.String() + " " + r.ID; !slices.ContainsFunc(cases, func(c jobCase) bool { return slices.Contains(c.want, want) }) {
				t.Errorf("no case has %q", want)
			}
		}
	}
}

// A part of which the whole job says something is not clear, though its wall is.
func TestPartVerdict_hasWhatTheWholeJobSaysOfThePart(t *testing.T) {
	j := sound()
	filed(j) // wax, under the strap
	r := rules.JudgeJob(all.Rules(), j, catalog.Library(), rules.Options{})
	said := slices.ContainsFunc(r.Findings, func(f rules.Finding) bool {
		return f.At.Kind == laminate.RefJobPart && f.At.Index == 0 && f.Severity == rules.Warning
	})
	if !said || r.Parts[0].Verdict >= rules.Warning {
		t.Fatalf("the wall is %v, findings %+v", r.Parts[0].Verdict, r.Findings)
	}
	if v := r.PartVerdict(0); v < rules.Warning {
		t.Errorf("the part is %v", v)
	}
}

// A part whose resin softens in the test is not clear, though what it keeps is no longer asked.
func TestPartVerdict_ofAPartThatATestSoftens(t *testing.T) {
	j := sound()
	tested(177)(j)
	r := rules.JudgeJob(all.Rules(), j, catalog.Library(), rules.Options{})
	for i := range j.Parts {
		if v := r.PartVerdict(i); v != rules.Break {
			t.Errorf("part %s is %v", j.Parts[i].ID, v)
		}
	}
}

// Notes, which the sound job has too.
func TestRules_notes(t *testing.T) {
	coated := func(j *laminate.Job) {
		j.Laminates[2].Plies = append(j.Laminates[2].Plies, laminate.Ply{Material: catalog.Topcoat, Resin: ruletest.Liner, Zone: laminate.InnerSurface, Count: 1})
	}
	for _, c := range []struct {
		change func(*laminate.Job)
		want   []string
	}{
		{func(*laminate.Job) {}, []string{"nozzle-end-unstated N flange", "seal-uncoated J inside"}},
		{flanged, []string{"seal-uncoated J inside"}},
		{coated, []string{"nozzle-end-unstated N flange"}},
		{func(j *laminate.Job) { coated(j); flanged(j); waxed(j) }, []string{"wax-under-bond J laminate", "wax-under-bond J laminate", "wax-under-bond N neck"}},
		{func(j *laminate.Job) {
			coated(j)
			flanged(j)
			tested(75)(j)
			j.Service.Temperature = ruletest.Fahrenheit(45)
		}, []string{"test-warmer-than-service J temperature"}},
		{func(j *laminate.Job) { coated(j); flanged(j); j.Test.Pressure = psi(37) }, []string{"course-overstrained-at-test J ", "course-overstrained-at-test J "}},
	} {
		j := sound()
		c.change(j)
		var got []string
		for _, f := range rules.JudgeJob(all.Rules(), j, catalog.Library(), rules.Options{}).Findings {
			if f.Severity != rules.Note {
				continue
			}
			of := "J"
			if f.At.Kind == laminate.RefNozzle {
				of = "N"
			}
			got = append(got, f.Rule.ID+" "+of+" "+f.At.Key)
		}
		slices.Sort(got)
		if !slices.Equal(got, c.want) {
			t.Errorf("%q, want %q", got, c.want)
		}
	}
}

// What papers and the lay-up page have wait with its coat, the rule speaks of, and nothing else.
func TestWaxUnderBond_speaksOfEveryCoatThatWaits(t *testing.T) {
	coat := laminate.Ply{Material: catalog.Topcoat, Resin: ruletest.Wall, Zone: laminate.OuterSurface, Count: 1}
	for _, c := range []struct {
		name   string
		change func(*laminate.Job)
		says   string
	}{
		{"a strap under a knuckle", func(j *laminate.Job) {
			joints := j.Joints
			cornered("strap")(j)
			j.Joints = joints
			j.Joints[0].Between, j.Joints[0].Outside = [2]string{"bottom", "a"}, "coated"
		}, "joint J, strap, ends in a waxed coat: lay-up and route sheets have it laid after the knuckle of bottom; laid before, it is ground off where that bonds"},
		{"a strap that nothing is laid over", func(j *laminate.Job) { j.Joints[0].Outside = "coated" }, ""},
		{"a neck", func(j *laminate.Job) { j.Nozzles[0].Neck = "coated" }, "nozzle N, neck, ends in a waxed coat: lay-up and route sheets have it laid after its pad, its overlay outside, its gussets; laid"},
		{"two necks", func(j *laminate.Job) {
			j.Nozzles[0].Neck = "coated"
			j.Nozzles = append(j.Nozzles, j.Nozzles[0])
			j.Nozzles[1].ID, j.Nozzles[1].Height = "M", inches(80)
		}, "nozzle N, neck, and 1 other end in a waxed coat: lay-up and route sheets have it laid after its pad, its overlay outside, its gussets; laid"},
		{"an overlay that bears gussets", func(j *laminate.Job) { j.Nozzles[0].InstallationOutside = "coated" }, "nozzle N, laid outside, ends in a waxed coat: lay-up and route sheets have it laid after its gussets"},
		{"an overlay that bears none", func(j *laminate.Job) {
			j.Nozzles[0].InstallationOutside, j.Nozzles[0].Gussets = "coated", laminate.Some(0)
		}, ""},
	} {
		j := sound()
		j.Laminates = append(j.Laminates, laminate.Laminate{ID: "coated", Plies: append(slices.Clone(j.Laminates[1].Plies), coat)})
		c.change(j)
		var said []string
		r := rules.JudgeJob(all.Rules(), j, catalog.Library(), rules.Options{})
		for _, f := range r.Findings {
			if f.Rule == joint.WaxUnderBond {
				said = append(said, f.Severity.String()+" "+f.Message)
			}
		}
		if (len(said) != 0) != (c.says != "") || len(said) > 1 || len(said) == 1 && !strings.HasPrefix(said[0], "note "+c.says) {
			t.Errorf("%s: %q, want %q", c.name, said, c.says)
		}
		for _, o := range overlay.All(j) {
			x := r.Overlay(o)
			told := slices.ContainsFunc(x.Findings, func(f rules.Finding) bool { return f.Rule == joint.WaxUnderBond })
			if waits := x.Coat != nil; waits && !told {
				t.Errorf("%s: the coat of %s waits, and the rule does not say so", c.name, o.Name())
			}
		}
	}
}

// What is about several rows is told at each of them, and stands in the list once.
func TestFindings_areToldAtEveryRowTheyAreAbout(t *testing.T) {
	j := sound()
	last := &j.Laminates[0].Plies[len(j.Laminates[0].Plies)-1]
	*last = laminate.Ply{Material: catalog.Topcoat, Resin: ruletest.Wall, Zone: laminate.OuterSurface, Count: 1}
	r := rules.JudgeJob(all.Rules(), j, catalog.Library(), rules.Options{})
	told := func(list []rules.Finding, id string) (n int) {
		for i := range list {
			if list[i].Rule.ID == id {
				n++
			}
		}
		return n
	}
	if got := told(r.Findings, "wax-under-bond"); got != 3 { // of part a, of part b and of the neck
		t.Fatalf("wax-under-bond stands %d times in the list", got)
	}
	for _, o := range overlay.All(j) {
		want := map[overlay.Kind][2]int{overlay.Strap: {2, 0}, overlay.Seal: {0, 1}, overlay.Pad: {1, 0}, overlay.LaidInside: {0, 1}, overlay.Neck: {1, 0}}[o.Kind]
		got := [2]int{told(r.Overlay(o).Findings, "wax-under-bond"), told(r.Overlay(o).Findings, "seal-uncoated")}
		if got != want {
			t.Errorf("%s: wax-under-bond and seal-uncoated are told %d times, want %d", o.Name(), got, want)
		}
	}
}
