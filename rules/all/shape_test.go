package all_test

import (
	"fmt"
	"reflect"
	"strings"
	"testing"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/catalog"
	"frp/veilwright/laminate/others"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/takeoff"
	"frp/veilwright/rules"
	"frp/veilwright/rules/all"
	"frp/veilwright/rules/ruletest"
)

func inch(v float64) quantity.Length { return quantity.New(v, quantity.Inch) }

// shapeKeys state each key of a shape, in two ways.
var shapeKeys = map[string]func(s *laminate.Shape, second bool){
	"shape": func(s *laminate.Shape, b bool) {
		s.Head = []laminate.HeadShape{laminate.Hemispherical, laminate.Torispherical}[one(b)]
		if !b {
			s.CrownRadius, s.KnuckleRadius = quantity.Length{}, quantity.Length{}
		}
	},
	"crown_radius": func(s *laminate.Shape, b bool) {
		s.Head, s.CrownRadius = laminate.Torispherical, inch(either(b, 96, 80))
	},
	"knuckle_radius": func(s *laminate.Shape, b bool) { s.KnuckleRadius = inch(either(b, 1, 8)) },
	"depth": func(s *laminate.Shape, b bool) {
		s.Head, s.CrownRadius, s.KnuckleRadius, s.Depth = laminate.Ellipsoidal, quantity.Length{}, quantity.Length{}, inch(either(b, 24, 30))
	},
	"half_angle":     func(s *laminate.Shape, b bool) { s.HalfAngle = laminate.Some(either(b, 20, 29)) },
	"small_diameter": func(s *laminate.Shape, b bool) { s.SmallDiameter = inch(either(b, 10, 40)) },
	"bend_radius":    func(s *laminate.Shape, b bool) { s.BendRadius = inch(either(b, 100, 140)) },
	"turn":           func(s *laminate.Shape, b bool) { s.Turn = laminate.Some(either(b, 90, 45)) },
	"miters":         func(s *laminate.Shape, b bool) { s.Miters = laminate.Some(one(b) * 2) },
	"supported":      func(s *laminate.Shape, b bool) { s.Supported = laminate.Some(b) },
	"hold_down":      func(s *laminate.Shape, b bool) { s.HoldDown = quantity.New(either(b, 0.01, 5), quantity.PSI) },
	"knuckle_height": func(s *laminate.Shape, b bool) { s.KnuckleHeight = inch(either(b, 2, 12)) },
	"taper":          func(s *laminate.Shape, b bool) { s.Taper = inch(either(b, 0.1, 9)) },
	"width":          func(s *laminate.Shape, b bool) { s.Width = inch(either(b, 30, 60)) },
	"edge": func(s *laminate.Shape, b bool) {
		s.Edge = []laminate.EdgeSupport{laminate.Clamped, laminate.SimplySupported}[one(b)]
	},
	"bolt_circle": func(s *laminate.Shape, b bool) {
		s.BoltCircle, s.Drilling = inch(either(b, 100, 120)), laminate.NoDrilling
	},
	"deflection_limit": func(s *laminate.Shape, b bool) { s.DeflectionLimit = laminate.Some(either(b, 0.001, 0.1)) },
	"size":             func(s *laminate.Shape, b bool) { s.Size = inch(either(b, 6, 12)) },
	"drilling": func(s *laminate.Shape, b bool) {
		s.Size, s.Drilling = inch(12), []laminate.Drilling{laminate.Class150, laminate.Class125}[one(b)]
	},
	"thickness":      func(s *laminate.Shape, b bool) { s.Thickness = inch(either(b, 0.1, 3)) },
	"pressure_class": func(s *laminate.Shape, b bool) { s.PressureClass = quantity.New(either(b, 1, 150), quantity.PSI) },
	"bolts": func(s *laminate.Shape, b bool) {
		s.Drilling, s.BoltCircle, s.BoltSize, s.Bolts = laminate.NoDrilling, inch(100), inch(1), laminate.Some(8+8*one(b))
	},
	"bolt_size": func(s *laminate.Shape, b bool) {
		s.Drilling, s.BoltCircle, s.Bolts, s.BoltSize = laminate.NoDrilling, inch(100), laminate.Some(8), inch(either(b, 0.5, 1))
	},
	"outside_diameter": func(s *laminate.Shape, b bool) { s.Outside = inch(either(b, 130, 140)) },
	"torque":           func(s *laminate.Shape, b bool) { s.Torque = quantity.New(either(b, 1, 900), quantity.FootPound) },
	"mate_face": func(s *laminate.Shape, b bool) {
		s.MateFace = []laminate.FlangeFace{laminate.RaisedFace, laminate.FlatFace}[one(b)]
	},
	"washers": func(s *laminate.Shape, b bool) { s.Washers = laminate.Some(b) },
	"count":   func(s *laminate.Shape, b bool) { s.Count = laminate.Some(2 + one(b)) },
	"laid":    func(s *laminate.Shape, _ bool) { s.Laid = laminate.OutsideIn },

	"proved_by":       func(s *laminate.Shape, _ bool) { s.Proof.By = "calculation 45, revision 2" },
	"proved_pressure": func(s *laminate.Shape, b bool) { s.Proof.Pressure = quantity.New(either(b, 1, 50), quantity.PSI) },
	"proved_vacuum":   func(s *laminate.Shape, b bool) { s.Proof.Vacuum = quantity.New(either(b, 0, 5), quantity.PSI) },
	"proved_temperature": func(s *laminate.Shape, b bool) {
		s.Proof.Temperature = quantity.New(either(b, 70, 180), quantity.Fahrenheit)
	},
	"proved_structure": func(s *laminate.Shape, b bool) { s.Proof.Structure = inch(either(b, 0.1, 2)) },
}

func one(b bool) int {
	if b {
		return 1
	}
	return 0
}

func either(b bool, x, y float64) float64 {
	if b {
		return y
	}
	return x
}

// shaped is a tank with one part of a form in it that states what it needs.
func shaped(form laminate.PartForm) (*laminate.Job, int) {
	j := ruletest.Job(ruletest.Sound())
	plies := j.Laminates[0].Plies
	thin := append(append([]laminate.Ply{}, plies[:ruletest.BondRow]...), plies[ruletest.OverRow:]...)
	j.Laminates = []laminate.Laminate{{ID: "wall", Plies: plies}, {ID: "thin", Plies: thin}}
	j.Service.Pressure, j.Service.Vacuum = quantity.New(2, quantity.PSI), quantity.New(0.1, quantity.PSI)
	j.Service.SpecificGravity = laminate.Some(1.1)
	j.Vessel.LiquidHeight = inch(100)
	course := func(id, lam string) laminate.JobPart {
		p := laminate.JobPart{ID: id, Laminate: lam}
		p.Form, p.Process, p.InsideDiameter, p.Length, p.Ends = laminate.ShellCourse, laminate.ContactMolded, inch(96), inch(72), laminate.OpenEnds
		return p
	}
	x := course("x", "wall")
	x.Form = form
	switch form {
	case laminate.HeadPart:
		x.Head, x.CrownRadius, x.KnuckleRadius = laminate.Torispherical, inch(96), inch(7)
	case laminate.Cone:
		x.HalfAngle, x.SmallDiameter = laminate.Some(25.0), inch(20)
	case laminate.Elbow:
		x.BendRadius, x.Turn, x.Miters = inch(120), laminate.Some(60.0), laminate.Some(0)
	case laminate.FlatBottom:
		x.Supported = laminate.Some(true)
	case laminate.Flange:
		x.Size, x.Drilling, x.Thickness, x.Torque, x.InsideDiameter = inch(12), laminate.Class150, inch(0.2), quantity.New(50, quantity.FootPound), inch(12)
		x.Length = quantity.Length{}
		x.PressureClass = quantity.New(50, quantity.PSI)
	case laminate.Cover:
		x.Size, x.Drilling, x.InsideDiameter, x.Length = inch(12), laminate.Class150, quantity.Length{}, quantity.Length{}
	case laminate.Panel:
		x.Width, x.InsideDiameter = inch(40), quantity.Length{}
	default:
	}
	j.Test = laminate.Test{Medium: laminate.TestWater, LiquidHeight: inch(144), Pressure: quantity.New(3, quantity.PSI)}
	j.Parts = []laminate.JobPart{x, course("over", "thin")}
	j.Nozzles = []laminate.Nozzle{{ID: "N", On: "over", Height: inch(20), Size: inch(12), Flange: "x"}}
	if form == laminate.Cover {
		j.Nozzles[0].Flange, j.Nozzles[0].Cover = "", "x"
	}
	if form != laminate.Cover && form != laminate.Flange {
		j.Nozzles[0].Flange = ""
	}
	if form == laminate.HeadPart || form == laminate.Cone { // over the shell
		j.Parts[0], j.Parts[1] = j.Parts[1], j.Parts[0]
		return j, 1
	}
	return j, 0
}

// saidOf is everything that is said of a job: findings, criteria, areas, what is
// passed over.
func saidOf(j *laminate.Job, lib *laminate.Library) string {
	var b strings.Builder
	r := rules.JudgeJob(all.Rules(), j, lib, rules.Options{})
	for _, p := range r.Parts {
		for i := range p.Findings {
			fmt.Fprintln(&b, p.Findings[i].Rule.ID, p.Findings[i].Message)
		}
		for i := range p.Wall.Criteria {
			c := &p.Wall.Criteria[i]
			fmt.Fprintln(&b, c.Name, c.Demand, c.Capacity, c.Answer, c.Reason)
		}
		fmt.Fprintln(&b, p.PassedOver)
	}
	for i := range r.Findings {
		fmt.Fprintln(&b, r.Findings[i].Rule.ID, r.Findings[i].Message)
	}
	for _, p := range takeoff.OfJob(j, lib) {
		area := 0.0
		if p.Ground.Area != nil {
			area, _ = p.Ground.Area(0, 0)
		}
		fmt.Fprintln(&b, p.Name, p.Count, area, p.Missing)
	}
	return b.String()
}

// Every key of a shape is, in a part of each form, refused with one message of
// its own, or it makes a difference: none is read and ignored.
func TestShape_everyKeyIsUsedOrRefused(t *testing.T) {
	fields := reflect.TypeFor[laminate.Shape]().NumField() - 2 + reflect.TypeFor[others.Proof]().NumField() // Place is no key, and a proof has several
	if len(shapeKeys) != fields {
		t.Fatalf("%d keys are tried, a shape has %d", len(shapeKeys), fields)
	}
	lib := catalog.Library()
	used := map[string]int{}
	for _, form := range laminate.JobForms.All() {
		if form == laminate.NoPartForm {
			continue
		}
		for key, state := range shapeKeys {
			base, at := shaped(form)
			if faults := laminate.ValidateJob(base, lib); len(faults) > 0 {
				t.Fatalf("%s: %v", form, faults)
			}
			texts := map[string]bool{saidOf(base, lib): true}
			refused := ""
			for _, second := range []bool{false, true} {
				j, _ := shaped(form)
				state(&j.Parts[at].Shape, second)
				if key == "knuckle_radius" && form == laminate.HeadPart && !second {
					j.Parts[at].KnuckleRadius = inch(6)
				}
				faults := laminate.ValidateJob(j, lib)
				switch {
				case len(faults) == 1 && strings.Contains(faults[0].Message, "it is a key of"):
					refused = faults[0].Message
				case len(faults) > 0:
					t.Errorf("%s on %s: %v", key, form, faults)
				default:
					texts[saidOf(j, lib)] = true
				}
			}
			switch {
			case refused == "" && len(texts) < 2:
				t.Errorf("%s of %s: read, and ignored", key, form)
			case refused == "":
				used[key]++
			}
		}
	}
	for key := range shapeKeys {
		if used[key] == 0 {
			t.Errorf("%s is used by no form", key)
		}
	}
}
