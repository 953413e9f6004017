package overlay

import (
	"frp/veilwright/laminate"
	"frp/veilwright/laminate/quantity"
)

// ClassOf is the pressure class that the neck of a nozzle has to have: its own, else
// that of its flange, and whose it is; not given where neither states one.
func ClassOf(j *laminate.Job, n *laminate.Nozzle) (class quantity.Pressure, whose string) {
	if class, whose = n.PressureClass, "its class"; !class.Given() {
		if k := j.Part(n.Flange); n.Flange != "" && k >= 0 {
			return j.Parts[k].PressureClass, "the class of flange " + n.Flange
		}
	}
	return class, whose
}

// NeckWall is the neck of a nozzle as the wall of a pipe of a class, without plies:
// on is the wall that the nozzle stands on, whose service it has.
func NeckWall(j *laminate.Job, n *laminate.Nozzle, class quantity.Pressure, on *laminate.Schedule) *laminate.Schedule {
	s := &laminate.Schedule{Head: j.Head, Service: on.Service, Resins: j.Resins, Materials: j.Materials}
	s.Part = laminate.Part{Form: laminate.Pipe, Process: laminate.ContactMolded, InsideDiameter: n.Size, Ends: laminate.ClosedEnds, Length: n.Projection,
		Flanged: laminate.Some(n.Projection.Given()), ModulusRetention: on.Part.ModulusRetention, Grounding: on.Part.Grounding}
	s.Service.Pressure, s.Service.TestPressure = class, quantity.Pressure{}
	return s
}
