package form

import (
	"math"

	"frp/veilwright/laminate"
)

// Free is how far apart a part is held round under outside pressure.
type Free struct {
	Length float64 // m, infinite where nothing holds it
	Given  bool
	From   string // what it goes by, for the step of a calculation; "" of a cone by itself
	Note   string // what is taken to hold it, for the notes; "" of what is stated
	Why    string // it is not given
}

const fromUG28 = " (ASME VIII UG-28, from memory)"

// FreeLength is the length between places that hold a part round: the stiffener spacing
// that it states, else what the joints of the job leave between them, else, of a part by
// itself, its straight side or what is between its flanges.
//
// Source: ASTM D3299-18 6.2.1 says what to measure on a tank.
func FreeLength(p *laminate.Part) Free {
	if p.StiffenerSpacing.Given() {
		l := p.StiffenerSpacing.SI()
		return Free{Length: l, Given: l > 0, From: "stiffener spacing"}
	}
	l, given := positive(p.Length)
	switch x := &p.Place.Free; {
	case x.Open != "":
		return Free{Why: x.Open}
	case x.Between != "":
		return Free{Length: x.Length, Given: true, From: "between " + x.Between + ", elbows on the outside of their bend",
			Note: "No stiffener spacing given: the free length is that between " + x.Between + ", with all that joints tie together there, elbows on the outside of their bend; straps and cones hold nothing round" + fromUG28 + "."}
	case x.Length > 0:
		return Free{Length: x.Length, Given: true, From: "straight side of the whole shell, a third of the depth of each head and the whole length of a cone",
			Note: "No stiffener spacing given: the free length is the straight side of the whole shell, a third of the depth of each head" + fromUG28 + ", and the whole length of a cone, whose end nobody has shown to hold it."}
	case !given || math.IsInf(l, 0):
	case p.Form == laminate.Tank:
		return Free{Length: l, Given: true, From: "straight side",
			Note: "No stiffener spacing given: the straight side is the free length; a dished head adds to it (ASTM D3299-18 6.2.1)."}
	case p.Flanged.Value && p.Form != laminate.ShellCourse:
		return Free{Length: l, Given: true, From: "length between flanges", Note: "No stiffener spacing given: the length between flanges is the free length."}
	}
	return Free{Why: "no free length is given (stiffener_spacing)"}
}

// Cylinder is the wall and the free length, both in m, of the cylinder that stands for a
// part under outside pressure, t the thickness that counts; open says why there is none.
// A cone is one as wide as its large end: held round at both of its ends it is as long as
// half of it and less, else as what it is of is free.
func (x *Facts) Cylinder(t float64) (wall float64, free Free, open string) {
	p := x.Part
	free = FreeLength(p)
	if p.Form != laminate.Cone {
		return t, free, ""
	}
	wall, own, open := x.Cone(t)
	long, _ := p.Rise()
	alone := p.Place.Free.Length <= long*(1+1e-9)
	switch {
	case open != "":
	case p.StiffenerSpacing.Given():
		if free.Given && free.Length <= long && own < free.Length {
			free.Length, free.From = own, ""
		}
	case p.Place.Free.Open == "" && alone:
		free = Free{Length: own, Given: true, Note: "The cone is taken to be held round at both of its ends (ASME VIII UG-33(f), from memory)."}
		if p.Place.Free.Between != "" {
			free.Note = "The cone is held round between " + p.Place.Free.Between + " (ASME VIII UG-33(f), from memory)."
		}
	}
	return wall, free, open
}
