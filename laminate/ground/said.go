package ground

import (
	"strconv"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/quantity"
)

// ShapeSaid is what the keys of a part's form state of its shape beside its diameter and
// length, in words for whoever builds it: "torispherical", "crown radius 10 ft". What is
// not stated is left out.
func ShapeSaid(p *laminate.Part, u quantity.System) (list []string) {
	size := func(what string, q quantity.Length) {
		if q.Given() {
			list = append(list, what+" "+u.Stated(q.SI(), quantity.Size))
		}
	}
	degrees := func(what string, v laminate.Optional[float64]) {
		if v.Given {
			list = append(list, what+" "+u.Figure(v.Value, quantity.Angle))
		}
	}
	switch p.Form {
	case laminate.HeadPart:
		if p.Head != laminate.NoHeadShape {
			list = append(list, p.Head.String())
		}
		size("crown radius", p.CrownRadius)
		size("knuckle radius", p.KnuckleRadius)
		size("depth", p.Depth)
	case laminate.Cone:
		size("small diameter", p.SmallDiameter)
		degrees("half-angle", p.HalfAngle)
	case laminate.Elbow:
		degrees("turn", p.Turn)
		switch {
		case p.Miters.Given && p.Miters.Value == 0:
			list = append(list, "smooth")
		case p.Miters.Given:
			list = append(list, quantity.Counted(p.Miters.Value, "miter", "miters"))
		}
		size("bend radius", p.BendRadius)
	case laminate.FlatBottom:
		size("knuckle radius", p.KnuckleRadius)
	case laminate.ShellCourse:
		size("taper", p.Taper)
	case laminate.Panel:
		size("width", p.Width)
	case laminate.Flange, laminate.Cover:
		size("size", p.Size)
		list = append(list, drilled(p, u)...)
	default:
	}
	return list
}

// drilled is how a flange or cover is drilled, how thick it is and of what class.
func drilled(p *laminate.Part, u quantity.System) (list []string) {
	d := Bolted(p)
	for _, x := range []struct {
		what string
		m    float64
	}{{"outside diameter", d.Outside}, {"bolt circle", d.Circle}} {
		if x.m > 0 {
			list = append(list, x.what+" "+u.Stated(x.m, quantity.Size))
		}
	}
	if d.Bolts > 0 {
		bolts := quantity.Counted(d.Bolts, "bolt", "bolts")
		if d.Bolt > 0 {
			bolts = strconv.Itoa(d.Bolts) + " bolts of " + u.Stated(d.Bolt, quantity.Size)
		}
		list = append(list, bolts)
	}
	if p.Thickness.Given() {
		list = append(list, "thickness "+u.Stated(p.Thickness.SI(), quantity.Size))
	}
	if p.PressureClass.Given() {
		list = append(list, "class "+u.Figure(p.PressureClass.SI(), quantity.Stress))
	}
	return list
}
