package parts_test

import (
	"fmt"
	"slices"
	"testing"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/catalog"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/rules"
	"frp/veilwright/rules/all"
	"frp/veilwright/rules/ruletest"
)

func in(v float64) quantity.Length { return quantity.New(v, quantity.Inch) }

// tank stands whole: bottom, two courses of which the lower is thicker, a head.
func tank() *laminate.Job {
	s := ruletest.Sound()
	plies := func(woven int) []laminate.Ply {
		list := slices.Clone(s.Plies)
		list[ruletest.WovenRow].Count = woven
		return list
	}
	part := func(id string, form laminate.PartForm, laminateID string) laminate.JobPart {
		p := laminate.JobPart{ID: id, Laminate: laminateID}
		p.Form, p.Process, p.InsideDiameter = form, laminate.ContactMolded, in(96)
		return p
	}
	j := ruletest.Job(s)
	j.Laminates = []laminate.Laminate{{ID: "thick", Plies: plies(4)}, {ID: "thin", Plies: plies(2)}}
	bottom, low, high, head := part("bottom", laminate.FlatBottom, "thin"), part("low", laminate.ShellCourse, "thick"), part("high", laminate.ShellCourse, "thin"), part("head", laminate.HeadPart, "thin")
	bottom.Supported, bottom.KnuckleRadius, bottom.KnuckleHeight, bottom.Knuckle = laminate.Some(true), in(1.5), in(12), "thick"
	low.Length, high.Length, low.Taper = in(60), in(60), in(4)
	head.Head, head.CrownRadius, head.KnuckleRadius = laminate.Torispherical, in(96), in(6)
	j.Parts = []laminate.JobPart{bottom, low, high, head}
	return j
}

// coneOver puts a cone from 96 in to 24 in on the courses, and the head, as wide as
// said, on it.
func coneOver(j *laminate.Job, head quantity.Length) {
	c := j.Parts[2]
	c.ID, c.Form, c.Shape = "cone", laminate.Cone, laminate.Shape{}
	c.InsideDiameter, c.SmallDiameter, c.HalfAngle = in(96), in(24), laminate.Some(30.0)
	j.Parts = slices.Insert(j.Parts, 3, c)
	j.Parts[4].InsideDiameter, j.Parts[4].CrownRadius, j.Parts[4].KnuckleRadius = head, head, quantity.New(head.SI()/16, quantity.Meter)
}

func elbow(miters int) func(*laminate.Job) {
	return func(j *laminate.Job) {
		p := laminate.JobPart{ID: "e", Laminate: "thin"}
		p.Form, p.Turn, p.Miters = laminate.Elbow, laminate.Some(90.0), laminate.Some(miters)
		j.Parts = append(j.Parts, p)
	}
}

func flange(face laminate.FlangeFace, washers laminate.Optional[bool]) func(*laminate.Job) {
	return func(j *laminate.Job) {
		p := laminate.JobPart{ID: "f", Laminate: "thin"}
		p.Form, p.MateFace, p.Washers = laminate.Flange, face, washers
		j.Parts = append(j.Parts, p)
	}
}

// sized adds a flange of a size in inches, a class in psi and a thickness in inches.
func sized(size, class, thick float64) func(*laminate.Job) {
	return func(j *laminate.Job) {
		flange(laminate.FlatFace, laminate.Some(true))(j)
		p := &j.Parts[len(j.Parts)-1]
		p.Size, p.PressureClass, p.Thickness = in(size), quantity.New(class, quantity.PSI), in(thick)
	}
}

// bolted adds a flange of 24 in with so many bolts.
func bolted(bolts int) func(*laminate.Job) {
	return func(j *laminate.Job) {
		sized(24, 50, 1.125)(j)
		p := &j.Parts[len(j.Parts)-1]
		p.BoltCircle, p.Bolts, p.BoltSize = in(29.5), laminate.Some(bolts), in(1.25)
	}
}

// turned adds a flange of 3 in, whose bolts of 5/8 in are turned with a torque.
func turned(footPounds float64) func(*laminate.Job) {
	return func(j *laminate.Job) {
		flange(laminate.FlatFace, laminate.Some(true))(j)
		p := &j.Parts[len(j.Parts)-1]
		p.Size, p.Drilling, p.Torque = in(3), laminate.Class150, quantity.New(footPounds, quantity.FootPound)
	}
}

func pressed(psi float64) func(*laminate.Job) {
	return func(j *laminate.Job) {
		p := laminate.JobPart{ID: "line", Laminate: "thin", Pressure: quantity.New(psi, quantity.PSI)}
		p.Form, p.Process = laminate.Pipe, laminate.ContactMolded
		j.Parts = append(j.Parts, p)
	}
}

// filed gives the lower course a schedule of its own that says what the job does,
// then changed.
func filed(change func(*laminate.JobPart, *laminate.Schedule)) func(*laminate.Job) {
	return func(j *laminate.Job) {
		j.Service.Fluid, j.Service.Temperature = "brine", quantity.New(90, quantity.Fahrenheit)
		j.Service.Pressure, j.Service.Vacuum, j.Service.SpecificGravity = quantity.New(0, quantity.PSI), quantity.New(0, quantity.PSI), laminate.Some(1.2)
		j.Vessel.LiquidHeight = in(110)
		s := *j.Wall(1)
		s.Part.Place = laminate.Place{}
		p := &j.Parts[1]
		p.Laminate, p.Schedule = "", "course.toml"
		if change != nil {
			change(p, &s)
		}
		j.Schedules = map[string]*laminate.Schedule{"course.toml": &s}
	}
}

// level has a part state a liquid height under a level of 110 in.
func level(part int, inches float64) func(*laminate.Job) {
	return func(j *laminate.Job) {
		j.Vessel.LiquidHeight, j.Parts[part].LiquidHeight = in(110), in(inches)
	}
}

// openBelow takes the bottom away.
func openBelow(j *laminate.Job) { j.Parts = j.Parts[1:] }

// manway has a cover of 24 in, written after the open top, on an opening of the low
// course.
func manway(j *laminate.Job) {
	c := laminate.JobPart{ID: "c", Laminate: "thin"}
	c.Form, c.Size = laminate.Cover, in(24)
	j.Parts = append(j.Parts[:3:3], c)
	j.Nozzles = []laminate.Nozzle{{ID: "M", On: "low", Height: in(30), Size: in(24), Cover: "c"}}
}

// onLow puts a flange on a nozzle of the low course.
func onLow(j *laminate.Job) {
	flange(laminate.FlatFace, laminate.Some(true))(j)
	j.Nozzles = []laminate.Nozzle{{ID: "N", On: "low", Height: in(20), Size: in(3), Flange: "f"}}
}

// leg leads on from that flange in a pipe.
func leg(j *laminate.Job) {
	onLow(j)
	p := laminate.JobPart{ID: "leg", Laminate: j.Parts[4].Laminate}
	p.Form, p.Process, p.InsideDiameter, p.Length = laminate.Pipe, laminate.ContactMolded, in(3), in(40)
	j.Parts = append(j.Parts, p)
	j.Joints = append(j.Joints, laminate.Joint{ID: "L", Between: [2]string{"f", "leg"}})
}

// drilled bolts that flange, and a cover on it, by circles in inches; 0 for none.
func drilled(circle float64, bolts int, cover float64) func(*laminate.Job) {
	return func(j *laminate.Job) {
		onLow(j)
		put := func(p *laminate.JobPart, circle float64, bolts int) {
			p.Drilling, p.BoltCircle, p.Bolts, p.BoltSize = laminate.NoDrilling, in(circle), laminate.Some(bolts), in(0.625)
		}
		if circle > 0 {
			put(&j.Parts[4], circle, bolts)
		}
		if cover > 0 {
			c := laminate.JobPart{ID: "c", Laminate: j.Parts[4].Laminate}
			c.Form, c.Process = laminate.Cover, laminate.ContactMolded
			put(&c, cover, 4)
			j.Parts, j.Nozzles[0].Cover = append(j.Parts, c), "c"
		}
	}
}

// panelOf adds a panel of 4 by 3 ft and an area in square feet.
func panelOf(feet2 float64) func(*laminate.Job) {
	return func(j *laminate.Job) {
		p := laminate.JobPart{ID: "p", Laminate: j.Parts[1].Laminate}
		p.Form, p.Process, p.Length, p.Width, p.Area = laminate.Panel, laminate.ContactMolded, in(48), in(36), quantity.New(feet2, quantity.SquareFoot)
		j.Parts = append(j.Parts, p)
	}
}

// openTo leaves the top open, at 120 in, and fills to a level.
func openTo(inches float64) func(*laminate.Job) {
	return func(j *laminate.Job) {
		j.Parts, j.Vessel = j.Parts[:3], laminate.Vessel{LiquidHeight: in(inches), Rim: "angle ring"}
	}
}

// weighs has a part state a specific gravity under a level of 110 in of 1.2.
func weighs(part int, sg float64) func(*laminate.Job) {
	return func(j *laminate.Job) {
		j.Vessel.LiquidHeight, j.Service.SpecificGravity, j.Parts[part].SpecificGravity = in(110), laminate.Some(1.2), laminate.Some(sg)
	}
}

// each changes every part of a tank that holds 110 in of liquid at 10 psi and a vacuum.
func each(change func(*laminate.JobPart)) func(*laminate.Job) {
	return func(j *laminate.Job) {
		j.Service.Pressure, j.Service.Vacuum = quantity.New(10, quantity.PSI), quantity.New(2, quantity.PSI)
		j.Service.Temperature, j.Service.SpecificGravity = quantity.New(100, quantity.Fahrenheit), laminate.Some(1.2)
		j.Vessel.LiquidHeight = in(110)
		for i := range j.Parts {
			change(&j.Parts[i])
		}
	}
}

func says(severity string, times int) []string {
	return slices.Repeat([]string{severity + " schedule-says-otherwise"}, times)
}

func TestPartsRules(t *testing.T) {
	fired := map[string]bool{}
	for _, c := range []struct {
		name   string
		change func(*laminate.Job)
		want   []string
	}{
		{"as it should be", nil, nil},
		{"a cone by its wide end on both sides", func(j *laminate.Job) { coneOver(j, in(96)) }, []string{"break parts-do-not-meet"}},
		{"a cone by both ends", func(j *laminate.Job) { coneOver(j, in(24)) }, nil},
		{"a head too wide", func(j *laminate.Job) { j.Parts[3].InsideDiameter = in(97) }, []string{"break parts-do-not-meet"}},
		{"a head off by less than a gauge tells", func(j *laminate.Job) { j.Parts[3].InsideDiameter = in(96.05) }, nil},
		{"a cone meets with its narrow end", func(j *laminate.Job) {
			p := &j.Parts[3]
			p.Form, p.Shape, p.InsideDiameter, p.SmallDiameter = laminate.Cone, laminate.Shape{}, in(120), in(96)
		}, nil},
		{"a low course", func(j *laminate.Job) { j.Parts[1].Length = in(9) }, []string{"warning knuckle-weak", "warning course-ends-near-knuckle"}},
		{"no taper stated", func(j *laminate.Job) { j.Parts[1].Taper = quantity.Length{} }, []string{"incomplete taper-steep"}},
		{"a steep taper", func(j *laminate.Job) { j.Parts[1].Taper = in(0.3) }, []string{"warning taper-steep"}},
		{"no step, no taper", func(j *laminate.Job) { j.Parts[1].Laminate, j.Parts[1].Taper = "thin", quantity.Length{} }, nil},
		{"no knuckle stated", func(j *laminate.Job) {
			b := &j.Parts[0]
			b.KnuckleRadius, b.KnuckleHeight, b.Knuckle = quantity.Length{}, quantity.Length{}, ""
		}, []string{"incomplete knuckle-weak", "incomplete knuckle-weak", "incomplete knuckle-weak"}},
		{"a sharp, low, thin knuckle", func(j *laminate.Job) {
			b := &j.Parts[0]
			b.KnuckleRadius, b.KnuckleHeight, b.Knuckle = in(1.4), in(11), "thin"
		}, []string{"warning knuckle-weak", "warning knuckle-weak", "warning knuckle-weak"}},
		{"a knuckle that curves higher than its reinforcement", func(j *laminate.Job) { j.Parts[0].KnuckleRadius = in(15) }, []string{"break knuckle-weak"}},
		{"one that curves as high", func(j *laminate.Job) { j.Parts[0].KnuckleRadius = in(12) }, nil},
		// A 12 in flange of the remembered table: 3/4 in at 50 psi, 1 in at 75.
		{"a flange as the table has it", sized(12, 60, 0.75), nil},
		{"a thin flange", sized(12, 75, 0.75), []string{"warning flange-thin"}},
		{"a flange of a class of ten times", sized(12, 1500, 0.75), []string{"incomplete class-above-scope", "warning flange-thin"}},
		{"a small flange, of no table", sized(1, 50, 0.4), nil},
		{"a flange thinner than the neck in it", func(j *laminate.Job) {
			onLow(j)
			j.Parts[4].Thickness, j.Nozzles[0].Neck = in(0.125), "thick"
		}, []string{"break flange-thin"}},
		{"a flange thinner than the pipe on it", func(j *laminate.Job) {
			leg(j)
			j.Parts[4].Thickness = in(0.125)
		}, []string{"break flange-thin"}},
		{"a nozzle of a class of ten times", func(j *laminate.Job) {
			onLow(j)
			j.Nozzles[0].PressureClass = quantity.New(250, quantity.PSI)
		}, []string{"incomplete class-above-scope"}},
		// 29.5 in · π/20 is 4.6 in, /15 6.2 in.
		{"bolts as the table has them", bolted(20), nil},
		{"few bolts", bolted(15), []string{"warning bolts-far-apart"}},
		{"three bolts on a small circle", drilled(5, 3, 0), []string{"warning bolts-far-apart"}},
		{"a level below half", func(j *laminate.Job) { j.Vessel.LiquidHeight = in(59) }, []string{"note level-low"}},
		{"a level at half", func(j *laminate.Job) { j.Vessel.LiquidHeight = in(60) }, nil},
		{"a knuckle as high as the course", func(j *laminate.Job) { j.Parts[0].KnuckleHeight = in(60) }, nil},
		{"one higher", func(j *laminate.Job) { j.Parts[0].KnuckleHeight = in(80) }, []string{"warning knuckle-weak"}},
		{"a bottom by itself", func(j *laminate.Job) { j.Parts = j.Parts[:1]; j.Parts[0].Knuckle = "" }, nil},
		{"a part of no form", func(j *laminate.Job) { j.Parts = append(j.Parts, laminate.JobPart{ID: "p", Laminate: "thin"}) }, []string{"incomplete part-form-unstated"}},
		{"no bottom", func(j *laminate.Job) { openBelow(j) }, []string{"incomplete shell-unclosed"}},
		{"no bottom, and nothing in it", func(j *laminate.Job) {
			openBelow(j)
			j.Service.Contact = laminate.Vapor
		}, nil},
		{"a flange below", func(j *laminate.Job) {
			openBelow(j)
			flange(laminate.FlatFace, laminate.Some(true))(j)
			j.Parts[3].Size = in(96)
			j.Joints = []laminate.Joint{{ID: "J", Between: [2]string{"low", "f"}}}
		}, nil},
		{"a bottom between courses", func(j *laminate.Job) { j.Parts[0], j.Parts[1] = j.Parts[1], j.Parts[0] }, []string{"incomplete shell-unclosed", "incomplete shell-unclosed"}},
		{"an open top", func(j *laminate.Job) { j.Parts = j.Parts[:3] }, []string{"incomplete rim-unstated"}},
		{"an open top and a cover on a manway", manway, []string{"incomplete rim-unstated"}},
		{"an open top and a manway's cover that nothing names", func(j *laminate.Job) {
			manway(j)
			j.Nozzles = nil
		}, []string{"incomplete rim-unstated"}},
		{"a lid", func(j *laminate.Job) {
			manway(j)
			j.Nozzles, j.Parts[3].Size = nil, quantity.Length{}
			j.Parts[3].InsideDiameter = j.Parts[1].InsideDiameter
		}, nil},
		{"an open top with a ring", func(j *laminate.Job) { j.Parts, j.Vessel.Rim = j.Parts[:3], "angle ring" }, nil},
		{"an open top without one, as it says", func(j *laminate.Job) { j.Parts, j.Vessel.Rim = j.Parts[:3], "None" }, []string{"incomplete rim-unstated"}},
		{"an open top and a blank", func(j *laminate.Job) { j.Parts, j.Vessel.Rim = j.Parts[:3], " " }, []string{"incomplete rim-unstated"}},
		{"an elbow of 45° a joint", elbow(2), []string{"incomplete miter-seams-unstated", "warning miter-angle-large"}},
		{"an elbow of 30° a joint", elbow(3), []string{"incomplete miter-seams-unstated"}},
		{"a smooth elbow", elbow(0), nil},
		{"151 psi", pressed(151), []string{"incomplete pressure-above-scope"}},
		{"150 psi", pressed(150), nil},
		{"a flange on a raised face without washers", flange(laminate.RaisedFace, laminate.Some(false)), []string{"warning flange-assembly", "warning flange-assembly"}},
		{"a flange of which nobody says how it is bolted", flange(laminate.NoFlangeFace, laminate.Optional[bool]{}), []string{"incomplete flange-assembly", "incomplete flange-assembly"}},
		// 5/8 in: 0.2 x 0.625 in x 36,000 psi x 0.85 x 0.3068 in2 is 1173 in-lb, 97.8 ft-lb;
		// at 125,000 psi 4075 in-lb, 339.6 ft-lb.
		{"a torque that a bolt of plain steel bears", turned(97.7), nil},
		{"one at which it yields", turned(97.9), []string{"warning torque-high"}},
		{"one that a strong bolt bears", turned(339), []string{"warning torque-high"}},
		{"inch-pounds stated as foot-pounds", turned(340), []string{"break torque-high"}},
		{"bolts of another size than the drilling's", func(j *laminate.Job) {
			turned(340)(j)
			j.Parts[4].BoltSize = in(1)
		}, nil},
		{"bolts of no known size", func(j *laminate.Job) {
			turned(2000)(j)
			j.Parts[4].Drilling = laminate.NoDrilling
		}, nil},
		{"a schedule that says the same", filed(nil), nil},
		{"a schedule of another form, process, width and length", filed(func(p *laminate.JobPart, s *laminate.Schedule) {
			s.Part.Form, s.Part.Process, s.Part.InsideDiameter, s.Part.Length = laminate.Pipe, laminate.Wound, in(24), in(240)
		}), says("break", 4)},
		{"a schedule for another service", filed(func(p *laminate.JobPart, s *laminate.Schedule) {
			s.Service.Fluid, s.Service.Temperature, s.Service.Pressure = "acid", quantity.New(180, quantity.Fahrenheit), quantity.New(7, quantity.PSI)
			s.Service.Vacuum, s.Service.SpecificGravity = quantity.New(2, quantity.PSI), laminate.Some(1.9)
		}), says("break", 5)},
		{"what stands on the part counts against its schedule", filed(func(p *laminate.JobPart, s *laminate.Schedule) {
			p.Pressure, s.Service.Pressure = quantity.New(9, quantity.PSI), quantity.New(9, quantity.PSI)
		}), nil},
		{"a schedule silent on what stands on the part", filed(func(p *laminate.JobPart, s *laminate.Schedule) {
			s.Part.Length, p.Pressure, s.Service.Pressure = quantity.Length{}, quantity.New(9, quantity.PSI), quantity.Pressure{}
		}), says("incomplete", 2)},
		{"a schedule silent on the service of the job", filed(func(p *laminate.JobPart, s *laminate.Schedule) { s.Service = laminate.Service{} }), nil},
		{"a schedule without the liquid of the job", filed(func(p *laminate.JobPart, s *laminate.Schedule) { s.Part.LiquidHeight = quantity.Length{} }), says("incomplete", 1)},
		{"a schedule with less liquid than the job", filed(func(p *laminate.JobPart, s *laminate.Schedule) { s.Part.LiquidHeight = in(20) }), says("break", 1)},
		// 110 in of liquid leave 110 in over the lower course and 50 in over the one on its 60 in.
		{"a course with less liquid than the level leaves", level(2, 12), []string{"break level-contradicted"}},
		{"a course with as much", level(2, 50), nil},
		{"a course with more", level(2, 60), []string{"incomplete level-contradicted"}},
		{"a head that the liquid does not reach", level(3, 0), nil},
		{"bolts in its bore", drilled(2.9, 4, 0), []string{"break bolts-misfit"}},
		{"bolts in one another", drilled(6, 30, 0), []string{"break bolts-misfit"}},
		{"bolts of their own", drilled(6, 4, 0), nil},
		{"a cover of another circle", drilled(6, 4, 6.5), []string{"break bolts-misfit"}},
		{"a cover of a circle in the nozzle", drilled(0, 0, 3.2), []string{"break bolts-misfit"}},
		{"a panel of another area", panelOf(2), []string{"break area-contradicted"}},
		{"a panel of its area", panelOf(12), nil},
		{"a leg behind a valve", func(j *laminate.Job) {
			leg(j)
			level(5, 0)(j)
		}, []string{"warning level-contradicted"}},
		{"a flange that a nozzle ends in", func(j *laminate.Job) { onLow(j); level(4, 0)(j) }, nil}, // nozzle-end-contradicted
		// A course of 60 in under 80 in of its own, and 30 in stated over the one on it: 20 in are left there.
		{"courses that state one level", func(j *laminate.Job) { j.Parts[1].LiquidHeight, j.Parts[2].LiquidHeight = in(80), in(20) }, nil},
		{"courses that state two levels", func(j *laminate.Job) { j.Parts[1].LiquidHeight, j.Parts[2].LiquidHeight = in(80), in(30) }, []string{"break level-contradicted"}},
		{"a hanging head and courses that say that they are empty", func(j *laminate.Job) {
			j.Parts[0] = j.Parts[3]
			j.Parts[0].ID = "below"
			for i := range j.Parts {
				j.Parts[i].LiquidHeight = in(0)
			}
		}, nil},
		{"two vessels of two levels", func(j *laminate.Job) {
			j.Parts = slices.Insert(j.Parts, 2, j.Parts[3])
			j.Parts[2].ID = "middle"
			j.Parts[1].LiquidHeight, j.Parts[3].LiquidHeight = in(50), in(40)
		}, nil},
		{"a level above an open rim", openTo(121), []string{"break level-over-rim"}},
		{"a level at an open rim", openTo(120), nil},
		{"a test above an open rim", func(j *laminate.Job) { openTo(100)(j); j.Test.LiquidHeight = in(130) }, []string{"break level-over-rim"}},
		{"a level above a head's rim", func(j *laminate.Job) { j.Vessel.LiquidHeight = in(121) }, nil},
		// The head of 96 in with a crown of 96 in and a knuckle of 6 in rises 16.4 in above 120 in.
		{"a level in the head", func(j *laminate.Job) { j.Vessel.LiquidHeight = in(136) }, nil},
		{"a level above the head", func(j *laminate.Job) { j.Vessel.LiquidHeight = in(137) }, []string{"warning level-over-rim"}},
		{"a test above the head, through a standpipe", func(j *laminate.Job) { j.Vessel.LiquidHeight, j.Test.LiquidHeight = in(110), in(600) }, nil},
		{"a level above the head, in a pipe on it", func(j *laminate.Job) {
			j.Vessel.LiquidHeight = in(200)
			pipe := laminate.JobPart{ID: "p", Laminate: "thin"}
			pipe.Form, pipe.Process, pipe.InsideDiameter, pipe.Length = laminate.Pipe, laminate.ContactMolded, in(6), in(90)
			j.Parts = append(j.Parts, pipe)
			j.Joints = []laminate.Joint{{ID: "J", Between: [2]string{"head", "p"}}}
		}, nil},
		{"a course of a lighter liquid", weighs(1, 0.6), []string{"break gravities-differ"}},
		{"a course of a heavier one", weighs(1, 1.3), []string{"incomplete gravities-differ"}},
		{"a course of the same", weighs(1, 1.2), nil},
		{"a lighter one where none stands", func(j *laminate.Job) { weighs(1, 0.6)(j); j.Vessel.LiquidHeight = in(0) }, nil},
		{"each part of its own", func(j *laminate.Job) {
			for i := range j.Parts {
				weighs(i, 1.5)(j)
			}
			j.Parts[2].SpecificGravity = laminate.Some(1.4)
		}, []string{"break gravities-differ"}},
		{"a flange of a lighter liquid", func(j *laminate.Job) { onLow(j); weighs(4, 1)(j) }, []string{"warning gravities-differ"}},
		{"a flange of a heavier one", func(j *laminate.Job) { onLow(j); weighs(4, 1.3)(j) }, nil},
		{"a leg of no pressure", func(j *laminate.Job) {
			leg(j)
			j.Service.Pressure, j.Parts[5].Pressure = quantity.New(10, quantity.PSI), quantity.New(0, quantity.PSI)
		}, []string{"break pressures-differ"}},
		{"a leg of no vacuum", func(j *laminate.Job) {
			leg(j)
			j.Service.Vacuum, j.Parts[5].Vacuum = quantity.New(1, quantity.PSI), quantity.New(0, quantity.PSI)
		}, []string{"break pressures-differ"}},
		{"a flange of less pressure that nothing ties", func(j *laminate.Job) {
			onLow(j)
			j.Service.Pressure, j.Parts[4].Pressure, j.Nozzles = quantity.New(10, quantity.PSI), quantity.New(0, quantity.PSI), nil
		}, []string{"warning pressures-differ"}},
		{"a flange of more pressure", func(j *laminate.Job) {
			onLow(j)
			j.Service.Pressure, j.Parts[4].Pressure = quantity.New(10, quantity.PSI), quantity.New(12, quantity.PSI)
		}, nil},
		{"one course of more pressure", func(j *laminate.Job) {
			j.Service.Pressure, j.Parts[1].Pressure = quantity.New(0, quantity.PSI), quantity.New(15, quantity.PSI)
		}, slices.Repeat([]string{"break pressures-differ"}, 3)},
		{"a head of less vacuum", func(j *laminate.Job) {
			j.Service.Vacuum, j.Parts[3].Vacuum = quantity.New(2, quantity.PSI), quantity.New(0, quantity.PSI)
		}, []string{"break pressures-differ"}},
		{"two vessels on each other", func(j *laminate.Job) {
			j.Parts = slices.Insert(j.Parts, 2, j.Parts[3])
			j.Parts[2].ID = "middle"
			j.Service.Pressure = quantity.New(0, quantity.PSI)
			for _, i := range []int{0, 1} {
				j.Parts[i].Pressure = quantity.New(5, quantity.PSI)
			}
		}, nil},
		{"less than the service states on every part", each(func(x *laminate.JobPart) {
			x.Pressure, x.Vacuum, x.Temperature, x.SpecificGravity = quantity.New(9, quantity.PSI), quantity.New(1, quantity.PSI), quantity.New(90, quantity.Fahrenheit), laminate.Some(1.1)
		}), slices.Repeat([]string{"incomplete service-unreached"}, 4)},
		{"less than the service states on every part but one", func(j *laminate.Job) {
			each(func(x *laminate.JobPart) { x.Temperature = quantity.New(90, quantity.Fahrenheit) })(j)
			j.Parts[3].Temperature = quantity.Temperature{}
		}, nil},
		{"less than the service states on every part but a flange", func(j *laminate.Job) {
			onLow(j)
			each(func(x *laminate.JobPart) { x.Temperature = quantity.New(90, quantity.Fahrenheit) })(j)
			j.Parts[4].Temperature = quantity.Temperature{}
		}, []string{"incomplete service-unreached"}},
		{"an upset that counts for every part all the same", func(j *laminate.Job) {
			each(func(x *laminate.JobPart) { x.Temperature = quantity.New(90, quantity.Fahrenheit) })(j)
			j.Service.Upset = quantity.New(101, quantity.Fahrenheit)
		}, nil},
		{"a lighter liquid on every part, and none stands", func(j *laminate.Job) {
			each(func(x *laminate.JobPart) { x.SpecificGravity = laminate.Some(1.1) })(j)
			j.Vessel.LiquidHeight = in(0)
		}, nil},
		{"conditions that hold for no part", func(j *laminate.Job) {
			each(func(x *laminate.JobPart) { x.Pressure = quantity.New(10, quantity.PSI) })(j)
			j.Conditions = []laminate.Condition{{Name: "steam", Temperature: quantity.New(120, quantity.Fahrenheit)}}
		}, []string{"incomplete service-unreached"}},
		{"conditions that hold for one part", func(j *laminate.Job) {
			each(func(x *laminate.JobPart) { x.Pressure = quantity.New(10, quantity.PSI) })(j)
			j.Parts[2].Pressure = quantity.Pressure{}
			j.Conditions = []laminate.Condition{{Name: "operating", Temperature: quantity.New(100, quantity.Fahrenheit)}}
		}, nil},
		{"a course that counts two", func(j *laminate.Job) { j.Parts[1].Count = laminate.Some(2) }, []string{"break course-counted"}},
		{"a flange too many", func(j *laminate.Job) {
			onLow(j)
			j.Parts[4].Count = laminate.Some(2)
		}, []string{"warning count-unused"}},
		{"two flanges on two nozzles", func(j *laminate.Job) {
			onLow(j)
			j.Parts[4].Count = laminate.Some(2)
			j.Nozzles = append(j.Nozzles, laminate.Nozzle{ID: "M", On: "low", Height: in(40), Size: in(3), Flange: "f"})
		}, nil},
		{"two flanges alike", func(j *laminate.Job) {
			flange(laminate.FlatFace, laminate.Some(true))(j)
			j.Parts[4].Count = laminate.Some(2)
		}, nil},
		{"a flange as it should be", flange(laminate.FlatFace, laminate.Some(true)), nil},
	} {
		t.Run(c.name, func(t *testing.T) {
			j := tank()
			if c.change != nil {
				c.change(j)
			}
			var got []string
			for _, f := range rules.JudgeJob(all.Rules(), j, catalog.Library(), rules.Options{}).Findings {
				if f.Rule.Family != "parts" || ofJoints[f.Rule.ID] {
					continue
				}
				got = append(got, fmt.Sprint(f.Severity, " ", f.Rule.ID))
				fired[got[len(got)-1]] = true
				if f.Message == "" || f.Basis == "" || !slices.Contains(f.Rule.Severity, f.Severity) {
					t.Errorf("%+v", f)
				}
			}
			if !slices.Equal(got, c.want) {
				t.Errorf("findings %q, want %q", got, c.want)
			}
		})
	}
	for _, r := range all.Rules() {
		if r.Family != "parts" || ofJoints[r.ID] {
			continue
		}
		for _, s := range r.Severity {
			if id := fmt.Sprint(s, " ", r.ID); !fired[id] {
				t.Errorf("no case of %s", id)
			}
		}
	}
}
