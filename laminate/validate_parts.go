package laminate

import (
	"slices"

	"frp/veilwright/laminate/others"
	"frp/veilwright/laminate/quantity"
)

// equipment judges what is stated of the equipment as a whole.
func (c *checker) equipment(j *Job) {
	c.ref = Ref{Kind: RefVessel}
	orZero(c, "liquid_height", j.Vessel.LiquidHeight, lengths) // 0: it holds no liquid
	c.text("rim", j.Vessel.Rim)
	c.ref = Ref{Kind: RefTest}
	within(c, "liquid_height", j.Test.LiquidHeight, lengths)
	within(c, "pressure", j.Test.Pressure, pressures)
	within(c, "vacuum", j.Test.Vacuum, pressures)
	within(c, "temperature", j.Test.Temperature, heats)
	within(c, "held", j.Test.Held, durations)
	c.ref = Ref{Kind: RefBond}
	within(c, "shear_strength", j.Bond.ShearStrength, strengths)
	c.number("factor", j.Bond.Factor, 1, 100, false, false)
	c.text("source", j.Bond.Source)
}

// What is reasonable of a job's parts, SI units.
var (
	durations = quantity.Limits{Low: 1, High: 86400 * 365}
	lineLoads = quantity.Limits{High: 1e8, Zero: true}
	torques   = quantity.Limits{Low: 1e-3, High: 1e5}
)

// shapeKeys are the keys that only parts of some forms have.
var shapeKeys = []struct {
	key   string
	given func(*Shape) bool
	forms []PartForm
}{
	{"shape", func(s *Shape) bool { return s.Head != NoHeadShape }, []PartForm{HeadPart}},
	{"crown_radius", func(s *Shape) bool { return s.CrownRadius.Given() }, []PartForm{HeadPart}},
	{"knuckle_radius", func(s *Shape) bool { return s.KnuckleRadius.Given() }, []PartForm{HeadPart, FlatBottom}},
	{"depth", func(s *Shape) bool { return s.Depth.Given() }, []PartForm{HeadPart}},
	{"half_angle", func(s *Shape) bool { return s.HalfAngle.Given }, []PartForm{Cone}},
	{"small_diameter", func(s *Shape) bool { return s.SmallDiameter.Given() }, []PartForm{Cone}},
	{"bend_radius", func(s *Shape) bool { return s.BendRadius.Given() }, []PartForm{Elbow}},
	{"turn", func(s *Shape) bool { return s.Turn.Given }, []PartForm{Elbow}},
	{"miters", func(s *Shape) bool { return s.Miters.Given }, []PartForm{Elbow}},
	{"supported", func(s *Shape) bool { return s.Supported.Given }, []PartForm{FlatBottom}},
	{"hold_down", func(s *Shape) bool { return s.HoldDown.Given() }, []PartForm{FlatBottom}},
	{"knuckle_height", func(s *Shape) bool { return s.KnuckleHeight.Given() }, []PartForm{FlatBottom}},
	{"taper", func(s *Shape) bool { return s.Taper.Given() }, []PartForm{ShellCourse}},
	{"width", func(s *Shape) bool { return s.Width.Given() }, []PartForm{Panel, Cover}},
	{"edge", func(s *Shape) bool { return s.Edge != NoEdgeSupport }, []PartForm{Panel, Cover}},
	{"deflection_limit", func(s *Shape) bool { return s.DeflectionLimit.Given }, []PartForm{Panel, Cover}},
	{"bolt_circle", func(s *Shape) bool { return s.BoltCircle.Given() }, []PartForm{Flange, Cover}},
	{"size", func(s *Shape) bool { return s.Size.Given() }, []PartForm{Flange, Cover}},
	{"drilling", func(s *Shape) bool { return s.Drilling != NoDrilling }, []PartForm{Flange, Cover}},
	{"bolts", func(s *Shape) bool { return s.Bolts.Given }, []PartForm{Flange, Cover}},
	{"bolt_size", func(s *Shape) bool { return s.BoltSize.Given() }, []PartForm{Flange, Cover}},
	{"outside_diameter", func(s *Shape) bool { return s.Outside.Given() }, []PartForm{Flange, Cover}},
	{"thickness", func(s *Shape) bool { return s.Thickness.Given() }, []PartForm{Flange}},
	{"pressure_class", func(s *Shape) bool { return s.PressureClass.Given() }, []PartForm{Flange, Cover}},
	{"torque", func(s *Shape) bool { return s.Torque.Given() }, []PartForm{Flange}},
	{"mate_face", func(s *Shape) bool { return s.MateFace != NoFlangeFace }, []PartForm{Flange}},
	{"washers", func(s *Shape) bool { return s.Washers.Given }, []PartForm{Flange}},
}

// FormsWith are the forms that alone have a key of a part, nil of one that all have.
func FormsWith(key string) []PartForm {
	for i := range shapeKeys {
		if shapeKeys[i].key == key {
			return shapeKeys[i].forms
		}
	}
	return nil
}

// headKeys are those of one shape of a head.
var headKeys = map[string]HeadShape{"crown_radius": Torispherical, "knuckle_radius": Torispherical, "depth": Ellipsoidal}

func (c *checker) shape(p *Part) {
	s := &p.Shape
	for i := range shapeKeys {
		k := &shapeKeys[i]
		switch {
		case p.Form == NoPartForm || !k.given(s):
		case !slices.Contains(k.forms, p.Form):
			c.fail(k.key, "a part of the form %s has none: it is a key of %s", p.Form, JobForms.Names(k.forms))
			return
		case p.Form == HeadPart && s.Head != NoHeadShape && headKeys[k.key] != NoHeadShape && headKeys[k.key] != s.Head:
			c.fail(k.key, "it belongs to a head of the shape %s, not %s", headKeys[k.key], s.Head)
			return
		}
	}
	for _, l := range []struct {
		key string
		q   quantity.Length
	}{{"crown_radius", s.CrownRadius}, {"knuckle_radius", s.KnuckleRadius}, {"depth", s.Depth}, {"bend_radius", s.BendRadius}, {"knuckle_height", s.KnuckleHeight},
		{"taper", s.Taper}, {"width", s.Width}, {"bolt_circle", s.BoltCircle}, {"size", s.Size}, {"bolt_size", s.BoltSize}, {"outside_diameter", s.Outside}} {
		within(c, l.key, l.q, diameters)
	}
	orZero(c, "small_diameter", s.SmallDiameter, diameters)
	c.number("half_angle", s.HalfAngle, 0, 90, true, true)
	c.number("turn", s.Turn, 0, 180, true, false)
	c.whole("miters", s.Miters, 0, 100)
	c.number("deflection_limit", s.DeflectionLimit, 0, 0.5, true, false)
	c.whole("bolts", s.Bolts, 3, 500)
	within(c, "thickness", s.Thickness, thicknesses)
	within(c, "pressure_class", s.PressureClass, pressures)
	within(c, "hold_down", s.HoldDown, pressures)
	within(c, "torque", s.Torque, torques)
	c.whole("count", s.Count, 1, 10_000)
	c.proof(&s.Proof)
	c.fits(p)
}

// proof judges the figures of a proof; whether they reach the rules say.
func (c *checker) proof(p *others.Proof) {
	p.Outside(c.note)
	c.text("proved_by", p.By)
}

// orZero judges a length that may be none at all too.
func orZero(c *checker, key string, q quantity.Length, l quantity.Limits) {
	if q.SI() != 0 {
		within(c, key, q, l)
	}
}

// fits refuses a shape that cannot be on a part of its diameter; what is refused by
// itself is held against nothing.
func (c *checker) fits(p *Part) {
	s, d := &p.Shape, p.InsideDiameter
	over := func(a quantity.Length, share float64) bool {
		return a.Given() && d.SI() > 0 && quantity.Above(a.SI(), share*d.SI())
	}
	switch {
	case s.CrownRadius.SI() > 0 && s.KnuckleRadius.Given() && s.KnuckleRadius.Cmp(s.CrownRadius) > 0:
		c.fail("knuckle_radius", "%s is more than the crown radius, %s", quoted(s.KnuckleRadius.Text()), s.CrownRadius.Text())
	case s.CrownRadius.SI() > 0 && d.SI() > 0 && quantity.Below(s.CrownRadius.SI(), d.SI()/2):
		c.fail("crown_radius", "%s is less than half the inside diameter, %s: it spans no such head", quoted(s.CrownRadius.Text()), d.Text())
	case over(s.KnuckleRadius, 0.5):
		c.fail("knuckle_radius", "%s is more than half the inside diameter, %s", quoted(s.KnuckleRadius.Text()), d.Text())
	case over(s.Depth, 1):
		c.fail("depth", "%s is more than the inside diameter, %s", quoted(s.Depth.Text()), d.Text())
	case s.SmallDiameter.SI() > 0 && d.SI() > 0 && s.SmallDiameter.Cmp(d) >= 0:
		c.fail("small_diameter", "%s is not less than that of the large end, %s (inside_diameter)", quoted(s.SmallDiameter.Text()), d.Text())
	case s.BendRadius.SI() > 0 && d.SI() > 0 && !quantity.Above(s.BendRadius.SI(), d.SI()/2):
		c.fail("bend_radius", "%s is not more than half the inside diameter, %s: the elbow would close at its inside", quoted(s.BendRadius.Text()), d.Text())
	case s.Outside.SI() > 0 && s.Size.SI() > 0 && s.Outside.Cmp(s.Size) <= 0:
		c.fail("outside_diameter", "%s is not more than the size, %s", quoted(s.Outside.Text()), s.Size.Text())
	case s.Outside.SI() > 0 && d.SI() > 0 && p.Form == Flange && s.Outside.Cmp(d) <= 0:
		c.fail("outside_diameter", "%s is not more than the inside diameter, %s", quoted(s.Outside.Text()), d.Text())
	case s.Outside.SI() > 0 && s.BoltCircle.SI() > 0 && !quantity.Above(s.Outside.SI(), s.BoltCircle.SI()+s.BoltSize.SI()):
		c.fail("outside_diameter", "%s leaves nothing round the bolts on their circle, %s", quoted(s.Outside.Text()), s.BoltCircle.Text())
	case s.BoltCircle.SI() > 0 && d.SI() > 0 && s.BoltCircle.Cmp(d) <= 0:
		c.fail("bolt_circle", "%s is not more than the inside diameter, %s", quoted(s.BoltCircle.Text()), d.Text())
	}
}

func (c *checker) joints(a *Assembly) {
	seen := map[string]int{}
	for i := range a.Job.Joints {
		n := &a.Job.Joints[i]
		c.ref = Ref{Kind: RefJoint, Index: i}
		c.named(seen, n.ID, i, "joint")
		switch {
		case n.Between == [2]string{}:
			c.fail("between", "it is missing: a joint names the two parts that it joins")
		case n.Between[0] == n.Between[1]:
			c.fail("between", "%s is named twice: a joint joins two parts", quoted(n.Between[0]))
		default:
			c.partNamed(a, "between", n.Between[0])
			c.partNamed(a, "between", n.Between[1])
		}
		c.laminate(a, "outside", n.Outside)
		c.laminate(a, "inside", n.Inside)
		within(c, "width", n.Width, widths)
		within(c, "first_width", n.FirstWidth, widths)
		within(c, "inside_width", n.InsideWidth, widths)
		orZero(c, "gap", n.Gap, widths)
		within(c, "axial_load", n.AxialLoad, lineLoads)
		c.text("qualification", n.Qualification)
		c.proof(&n.Proof)
		if n.Width.SI() > 0 && n.FirstWidth.Given() && n.FirstWidth.Cmp(n.Width) > 0 {
			c.fail("first_width", "%s is more than the whole width, %s", quoted(n.FirstWidth.Text()), n.Width.Text())
		}
		if n.Width.SI() > 0 && n.Gap.Given() && n.Gap.Cmp(n.Width) >= 0 {
			c.fail("gap", "%s is not less than the width that spans it, %s", quoted(n.Gap.Text()), n.Width.Text())
		}
	}
}

func (c *checker) nozzles(a *Assembly) {
	seen := map[string]int{}
	bolted := map[string]int{} // how many nozzles name a flange or cover
	for i := range a.Job.Nozzles {
		n := &a.Job.Nozzles[i]
		c.ref = Ref{Kind: RefNozzle, Index: i}
		c.named(seen, n.ID, i, "nozzle")
		if n.On == "" {
			c.fail("on", "it is missing: a nozzle names the part that it is on")
		} else {
			c.partNamed(a, "on", n.On)
		}
		c.bolted(a, bolted, "flange", n.Flange, Flange)
		c.bolted(a, bolted, "cover", n.Cover, Cover)
		orZero(c, "height", n.Height, lengths)
		orZero(c, "offset", n.Offset, lengths)
		c.number("bearing", n.Bearing, 0, 360, false, true)
		within(c, "size", n.Size, diameters)
		within(c, "opening", n.Opening, diameters)
		within(c, "projection", n.Projection, diameters)
		within(c, "pad_diameter", n.PadDiameter, diameters)
		within(c, "neck_bond", n.NeckBond, diameters)
		within(c, "pressure_class", n.PressureClass, pressures)
		for _, l := range [...][2]string{{"pad", n.Pad}, {"installation_outside", n.InstallationOutside}, {"installation_inside", n.InstallationInside}, {"neck", n.Neck}} {
			c.laminate(a, l[0], l[1])
		}
		c.proof(&n.Proof)
		c.whole("gussets", n.Gussets, 0, 100)
		c.opens(a, n)
	}
	c.circles(a)
}

// bolted holds what a nozzle ends in to be a part of that form, and one for each.
func (c *checker) bolted(a *Assembly, named map[string]int, key, id string, form PartForm) {
	if id == "" {
		return
	}
	i := a.Part(id)
	if c.partNamed(a, key, id); i < 0 {
		return
	}
	p := &a.Job.Parts[i]
	if p.Form != form {
		c.fail(key, "%s is no %s: its form is %s", quoted(id), form, quoted(p.Form.String()))
		return
	}
	if named[id]++; named[id] > p.Count.Or(1) && p.Count.Or(1) > 0 {
		c.fail(key, "%s is on another nozzle already; where there are several alike its part says so (count)", quoted(id))
	}
}

// opens holds an opening against the part that it is cut into.
func (c *checker) opens(a *Assembly, n *Nozzle) {
	i := a.Part(n.On)
	if i < 0 {
		return
	}
	p := &a.Job.Parts[i].Part
	if a.Job.Parts[i].Schedule != "" {
		p = &a.Wall(i).Part
	}
	key, d := "opening", n.Opening
	if !d.Given() {
		key, d = "size", n.Size
	}
	if p.InsideDiameter.SI() > 0 && d.Given() && d.Cmp(p.InsideDiameter) >= 0 {
		c.fail(key, "%s is not less than the inside diameter of %s, %s: such an opening leaves no part", quoted(d.Text()), quoted(n.On), p.InsideDiameter.Text())
	}
	if (p.Form == ShellCourse || p.Form == Pipe || p.Form == Duct) && p.Length.SI() > 0 && n.Height.Given() && n.Height.Cmp(p.Length) > 0 {
		c.fail("height", "%s is above the end of %s, which is %s long", quoted(n.Height.Text()), quoted(n.On), p.Length.Text())
	}
	if n.PadDiameter.SI() > 0 && d.Given() && n.PadDiameter.Cmp(d) <= 0 {
		c.fail("pad_diameter", "%s is not more than the opening, %s", quoted(n.PadDiameter.Text()), d.Text())
	}
}

// circles refuses nozzles that are, by way of flanges and covers, on themselves.
func (c *checker) circles(a *Assembly) {
	told := map[int]bool{}
	for i := range a.Job.Nozzles {
		path, on := []int{}, []int{i}
		for len(on) > 0 && !told[on[0]] {
			at := on[0]
			if slices.Contains(path, at) {
				c.ref = Ref{Kind: RefNozzle, Index: at}
				c.fail("on", "%s ends in what it stands on itself: a circle", quoted(a.Job.Nozzles[at].ID))
				break
			}
			path = append(path, at)
			on = a.Ending(a.Job.Nozzles[at].On)
		}
		for _, n := range path {
			told[n] = true
		}
	}
}
