package exercise

import (
	"strconv"
	"strings"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/overlay"
	"frp/veilwright/laminate/quantity"
)

// Fact is one line of what an exercise states of part and service.
type Fact struct{ Name, Value string }

// Facts lists what is stated, in the reader's units; what is not stated is
// left out but for what decides about a barrier, which is said to be unknown.
func (e *Exercise) Facts(units quantity.System) []Fact {
	var list []Fact
	say := func(name, value string) {
		if value != "" {
			list = append(list, Fact{name, value})
		}
	}
	p, s := &e.Given.Part, &e.Given.Service
	if e.Overlay != overlay.None {
		wall := "wall of both parts"
		switch {
		case !atNozzle(e.Overlay) && e.Overlay.Inside():
			say("laid", "as a seal inside joint "+jointID+" of the parts "+partID+" and "+otherID)
		case !atNozzle(e.Overlay):
			say("laid", "as a strap over joint "+jointID+" of the parts "+partID+" and "+otherID)
		case e.Overlay.Inside():
			say("laid", "inside at nozzle "+nozzleID+" of part "+partID+", over the cut edge")
		default:
			say("laid", "as a pad round nozzle "+nozzleID+" of part "+partID)
		}
		if atNozzle(e.Overlay) {
			wall = "wall of the part"
		}
		say(wall, wallText(e.Wall))
		e.factsOfPlace(say, units)
	}
	say("part", strings.TrimSpace(p.Process.String()+" "+p.Form.String()))
	if p.InsideDiameter.Given() {
		say("inside diameter", units.Stated(p.InsideDiameter.SI(), quantity.Size))
	}
	say("flanged", answered(p.Flanged))
	say("grounding", p.Grounding)
	say("fluid", orUnknown(s.Fluid))
	if s.Concentration.Given {
		say("concentration", quantity.Share(s.Concentration.Value))
	}
	say("temperature", heat(s.Temperature, units, "unknown"))
	say("upset", heat(s.Upset, units, ""))
	if s.PH.Given {
		say("pH", quantity.Number(s.PH.Lowest, 1)+" to "+quantity.Number(s.PH.Highest, 1))
	} else {
		say("pH", "unknown")
	}
	say("contact", s.Contact.String())
	var traits []string
	for _, t := range s.Contains.List() {
		traits = append(traits, t.String())
	}
	switch {
	case len(traits) > 0:
		say("contains", strings.Join(traits, ", "))
	case s.Contains.Given:
		say("contains", "nothing of note")
	default:
		say("contains", "unknown")
	}
	if s.Pressure.Given() {
		say("pressure", units.Pressure(s.Pressure.SI()))
	}
	if s.FlameSpread.Given {
		say("flame spread", "at most "+strconv.Itoa(s.FlameSpread.Value))
	}
	say("conductive", asked(s.Conductive))
	say("abrasive", asked(s.Abrasive))
	return list
}

// factsOfPlace says what is stated of the joint or nozzle that an overlay is laid at.
func (e *Exercise) factsOfPlace(say func(name, value string), units quantity.System) {
	x, n := &e.Joint, &e.Nozzle
	size := func(name string, l quantity.Length) {
		if l.Given() {
			say(name, units.Stated(l.SI(), quantity.Size))
		}
	}
	if atNozzle(e.Overlay) {
		size("opening", n.Cut())
		say("cut edge", edge(n.SealedEdge))
		if !e.Overlay.Inside() {
			size("diameter of the pad", n.PadDiameter)
		}
		return
	}
	size("gap", x.Gap)
	if e.Overlay.Inside() {
		size("width of the seal", x.InsideWidth)
	} else {
		size("width of the strap", x.Width)
		size("width of its first ply", x.FirstWidth)
		if x.AxialLoad.Given() {
			say("load along the axis", units.Figure(x.AxialLoad.SI(), quantity.LineLoad))
		}
	}
	say("bonded by", x.Qualification)
}

// wallText lists the plies of a wall from the process side: "veil-c-15 / 2 mat-1.5".
func wallText(plies []laminate.Ply) string {
	var list []string
	for i := range plies {
		s := plies[i].Material
		if n := plies[i].Count; n > 1 {
			s = strconv.Itoa(n) + " " + s
		}
		if plies[i].GelAfter {
			s += " (gel stop)"
		}
		list = append(list, s)
	}
	return strings.Join(list, " / ")
}

func heat(t quantity.Temperature, units quantity.System, otherwise string) string {
	if !t.Given() {
		return otherwise
	}
	return units.Temperature(t.SI())
}

// edge is what somebody sees who looks at the cut edge of an opening: what that
// means is for the trainee to say.
func edge(sealed laminate.Optional[bool]) string {
	switch {
	case !sealed.Given:
		return "not recorded"
	case sealed.Value:
		return "brushed with resin"
	}
	return "as the saw left it"
}

func answered(o laminate.Optional[bool]) string {
	switch {
	case !o.Given:
		return "unknown"
	case o.Value:
		return "yes"
	}
	return "no"
}

// asked is "yes" for what is asked for, and nothing else: most services do not.
func asked(o laminate.Optional[bool]) string {
	if o.Given && o.Value {
		return "yes"
	}
	return ""
}

func orUnknown(s string) string {
	if s == "" {
		return "unknown"
	}
	return s
}
