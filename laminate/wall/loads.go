package wall

import (
	"math"
	"strings"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/wall/form"
	"frp/veilwright/laminate/wall/service"
)

const (
	gravity = 9.80665 // m/s², standard
	water   = 1000.0  // kg/m³, to which specific gravity refers; 0.4335 psi a foot
)

// The names of the load cases. Where nobody says whether the wall carries the
// end thrust there are two of a kind, and the name says which.
const (
	CasePressure     = "pressure"
	CaseHead         = "head"
	CasePressureHead = "pressure and head"
	CaseVacuum       = "vacuum"
	CaseTest         = "test pressure"
	CaseAxial        = "axial load"

	endsClosed = ", ends closed"
	endsOpen   = ", ends open"
)

// HeadPressure is the pressure in Pa at a depth in m below the surface of a
// liquid of the given specific gravity: 0.4335 psi for a foot of water.
func HeadPressure(specificGravity, depth float64) float64 {
	return specificGravity * water * gravity * depth
}

// round is the part as a round shell.
type round struct {
	open   string  // why it is none, or cannot be told
	inside float64 // radius, m
	middle float64 // radius of the middle of the plies that count, m
	out    float64 // radius outside, m
}

// measure finds the radii, or why there are none.
func (e *evaluation) measure() {
	e.r.Whole = e.a.Total.Thickness
	if e.wholeOpen == "" && !(e.r.Whole > 0 && sound(e.r.Whole)) {
		e.wholeOpen = "the wall has no thickness"
	}
	if e.wholeOpen != "" {
		e.r.Whole = 0
	}
	if form.Answers(e.s.Part.Form) != form.ByMembrane {
		return
	}
	d, ok := positive(e.s.Part.InsideDiameter)
	switch {
	case !ok:
		e.round.open = "the inside diameter is not given (inside_diameter)"
		return
	case e.wholeOpen != "":
		e.round.open = e.wholeOpen
		return
	case e.r.Whole >= d/2:
		e.round.open = "the wall, " + e.units.Thickness(e.r.Whole) + ", is as thick as its inside radius or thicker: the formulas of a thin shell do not hold"
		return
	case e.r.Whole > thickWall*d/2:
		e.note("The wall is more than a tenth of its inside radius: hoop strains are judged at the inside face, of an isotropic ring (Lamé; Roark, second-hand), in full from a fifth on; a ring stiffer round than through sees more there. Strengths are judged as a membrane's.")
	}
	e.round.inside, e.round.out = d/2, d/2+e.r.Whole
	e.round.middle = e.round.inside + e.r.Whole/2
	if n := len(e.rows); n > 0 {
		first, last := &e.rows[0], &e.rows[n-1]
		middle := (first.figures.ToHere - first.thick + last.figures.ToHere) / 2
		if sound(middle) && middle >= 0 && middle <= e.r.Whole {
			e.round.middle = e.round.inside + middle
		}
	}
}

// load lists the load cases.
func (e *evaluation) load() {
	p, sv := &e.s.Part, &e.s.Service
	pressure, pressed := positive(sv.Pressure)
	vacuum, sucked := positive(sv.Vacuum)
	test, tested := positive(sv.TestPressure)
	_, filled := positive(p.LiquidHeight)
	e.r.Loaded = pressed || sucked || tested || filled
	e.unstated()
	head, depth, headed := e.head()
	e.r.Loaded = e.r.Loaded || headed
	if form.Answers(p.Form) != form.ByMembrane || e.r.Rests != "" {
		e.press(pressure, head)
		return
	}
	if e.round.open != "" {
		for _, c := range [...]struct {
			name string
			on   bool
		}{{CasePressure, pressed}, {CaseHead, headed}, {CaseVacuum, sucked}, {CaseTest, tested}} {
			if c.on {
				e.r.Unknown = append(e.r.Unknown, UnknownLoad{c.name, e.round.open})
			}
		}
		return
	}
	e.loads = make([]applied, 0, 8)
	if pressed {
		e.inside(CasePressure, pressure, pressure, true)
	}
	if headed {
		// A liquid at rest presses on the wall and the bottom, and leaves the
		// wall's own axial load to the weight that is not figured.
		for _, held := range form.Held(p) {
			thrust, open := form.Pull(e.s, CaseHead+held, head, HeadPressure)
			if open != "" {
				e.r.Unknown = append(e.r.Unknown, UnknownLoad{CaseHead, open})
			}
			e.headed(held, head, depth, thrust)
		}
		e.r.Notes = append(e.r.Notes, form.Pulls(p)...)
	}
	if sucked && !e.form.Apart {
		e.ends(CaseVacuum, func(closed float64, name string) {
			e.apply(name, -vacuum*e.round.out, 0-closed*vacuum*e.round.out*e.round.out/(2*e.round.middle), 0, true)
		})
	}
	if tested {
		fill := 0.0
		if headed {
			fill = HeadPressure(1, depth)
		}
		round, along := e.narrowed(test, fill, depth, 0)
		e.inside(CaseTest, round, along, false)
		e.note("The test pressure, with a water fill where there is a liquid height, is a case of its own: it is shown, and the criteria look at service alone.")
	}
	e.loaded()
	if (pressed || sucked || tested) && p.Ends == laminate.NoEnds && !e.form.Apart {
		e.note("Ends not given (ends): the wall is figured both with and without the end thrust, and the worse counts.")
	}
	if up := e.s.Service.Upset; up.Given() && len(e.loads) > 0 && up.SI() == e.s.Service.Hottest().SI() {
		e.note("No conditions are given ([[condition]]): the upset temperature, " + e.units.Temperature(up.SI()) + ", is taken with the highest load.")
	}
	if e.form.How != "" && len(e.loads) > 0 {
		e.note("Loads are those of the form: " + e.form.How + ".")
	}
	if p.Form == laminate.NoPartForm && len(e.loads) > 0 {
		e.note("Part form not given (form): taken as a round shell.")
	}
}

// headed applies the head of a liquid of a depth, of which thrust pulls along the axis.
func (e *evaluation) headed(held string, head, depth, thrust float64) {
	round, along := e.narrowed(0, head, depth, thrust)
	if e.form.Apart {
		e.inside(CaseHead, head, head, true)
	} else {
		e.apply(CaseHead+held, e.form.Hoop*round*e.round.inside, e.form.Axial*along*e.round.inside*e.round.inside/(2*e.round.middle), round, true)
	}
	if pressure, pressed := positive(e.s.Service.Pressure); pressed {
		round, along = e.narrowed(pressure, head, depth, thrust)
		e.inside(CasePressureHead+held, round, along, true)
	}
}

// loaded adds what a joint states along the axis to each case from inside, beside the
// case, and is one of its own where there is none.
func (e *evaluation) loaded() {
	n := e.s.Part.Place.Axial
	if !(n > 0) {
		return
	}
	e.r.Loaded = true
	e.note(form.LoadedAlong)
	before := len(e.loads)
	for i := range before {
		if l := e.loads[i]; l.judged && l.hoop >= 0 && !(e.form.Apart && l.axial == 0) {
			e.apply(e.r.Cases[i].Name+form.Loaded, l.hoop, l.axial+n, l.inside, true)
		}
	}
	if len(e.loads) == before {
		e.apply(CaseAxial, 0, n, 0, true)
	}
}

// narrowed gives the pressures that load a part round and along: gas and the head of
// a liquid of a depth, of which thrust pulls. Of a cone that stands on its small end
// the greatest pressure and the greatest diameter are not at one place, and the
// pressures are those at its large end that load it as its worst place is loaded.
func (e *evaluation) narrowed(gas, head, depth, thrust float64) (round, along float64) {
	if n, ok := e.facts().Narrow(gas, head, depth); ok {
		return n.Round, n.Along
	}
	return gas + head, gas + thrust
}

// unstated opens the loads that nobody stated: silence is no statement that
// there is none.
func (e *evaluation) unstated() {
	for _, l := range [...]struct {
		name string
		on   bool
	}{{CasePressure, e.beyond.Pressure}, {CaseHead, e.beyond.Head}, {CaseVacuum, e.beyond.Vacuum}} {
		if l.on {
			e.r.Unknown = append(e.r.Unknown, UnknownLoad{l.name, e.beyond.Why})
		}
	}
	if !e.s.Service.Pressure.Given() {
		e.r.Unknown = append(e.r.Unknown, UnknownLoad{CasePressure, "the pressure is not stated (pressure; zero says that there is none)"})
	}
	if !e.s.Service.Vacuum.Given() {
		e.r.Unknown = append(e.r.Unknown, UnknownLoad{CaseVacuum, "the vacuum is not stated (vacuum; zero says that there is none)"})
	}
}

// head gives the pressure of the liquid that stands in the part at the depth
// asked for, and that depth. Where there is a liquid but no figure, the case is
// open; only of a tank is it known that there is one.
func (e *evaluation) head() (pressure, depth float64, ok bool) {
	p := &e.s.Part
	height, given := positive(p.LiquidHeight)
	switch dry := p.LiquidHeight.Given() && p.LiquidHeight.SI() == 0; {
	case dry && form.PulledDry(p): // nothing presses on it, and what hangs below pulls
	case dry:
		return 0, 0, false
	case !given && p.Place.Unplaced:
		e.r.Unknown = append(e.r.Unknown, UnknownLoad{CaseHead, "how deep the liquid of the equipment stands over it is not known (liquid_height)"})
		return 0, 0, false
	case !given && !form.Asks(e.s):
		if form.Holds(p.Form) && !p.Place.Line {
			e.note("It meets vapor alone (contact), and no liquid height is given: no liquid is taken to stand in it.")
		}
		return 0, 0, false
	case !given && p.Form == laminate.NoPartForm:
		e.r.Unknown = append(e.r.Unknown, UnknownLoad{CaseHead, "what the part is, is not stated (form), and so not whether a liquid stands in it (liquid_height; 0 where none does)"})
		return 0, 0, false
	case !given:
		e.r.Unknown = append(e.r.Unknown, UnknownLoad{CaseHead, "the " + strings.ReplaceAll(p.Form.String(), "-", " ") + "'s liquid height is not given (liquid_height)"})
		return 0, 0, false
	}
	depth = height
	if e.o.Depth > 0 {
		if e.o.Depth > height && sound(e.o.Depth) {
			e.note("The depth asked for is below the bottom: figured at the bottom.")
		}
		depth = min(e.o.Depth, height)
	}
	sg := e.s.Service.SpecificGravity
	if !sg.Given || !(sg.Value > 0 && sound(sg.Value)) {
		e.r.Unknown = append(e.r.Unknown, UnknownLoad{CaseHead, "the specific gravity of the liquid is not given (specific_gravity)"})
		return 0, 0, false
	}
	pressure = HeadPressure(sg.Value, depth)
	if n, ok := e.facts().Narrow(e.s.Service.Pressure.SI(), pressure, depth); ok && sound(pressure) {
		e.note("It stands on its small end: loads are those " + e.units.Figure(n.Above, quantity.Size) + " above that, where pressure times diameter is greatest, " +
			e.units.Figure(n.Pressure, quantity.Stress) + " on " + e.units.Figure(n.Diameter, quantity.Size) + ".")
	}
	if !sound(pressure) {
		e.r.Unknown = append(e.r.Unknown, UnknownLoad{CaseHead, "the head is beyond what can be computed"})
		return 0, 0, false
	}
	if proved := HeadPressure(1, depth); !p.Place.Tested && quantity.Above(pressure, proved) {
		water, head := e.units.Pair(proved, pressure, quantity.Stress)
		e.note("A water fill proves " + water + " of the " + head + " that the liquid exerts: it proves specific gravity 1 only.")
	}
	return pressure, depth, true
}

// inside applies a pressure to the wall and thrust of it to the ends. The hoop
// load is exact for any wall, p times the inside radius; the axial one spreads
// the thrust over the middle of the plies that count.
func (e *evaluation) inside(name string, pressure, thrust float64, judged bool) {
	r := e.round.inside
	if e.form.Apart {
		// The greatest load round it and along its meridian, each by itself.
		n := e.form.Hoop * pressure * r
		e.apply(name+", round", n, 0, pressure, judged)
		e.apply(name+", along the meridian", 0, n, pressure, judged)
		return
	}
	e.ends(name, func(closed float64, name string) {
		e.apply(name, e.form.Hoop*pressure*r, closed*e.form.Axial*thrust*r*r/(2*e.round.middle), pressure, judged)
	})
}

// ends calls apply with the share of the end thrust that the wall carries, for
// each possibility that the part leaves open.
func (e *evaluation) ends(name string, apply func(closed float64, name string)) {
	switch e.s.Part.Ends {
	case laminate.ClosedEnds:
		apply(1, name)
	case laminate.OpenEnds:
		apply(0, name)
	default:
		apply(1, name+endsClosed)
		apply(0, name+endsOpen)
	}
}

// applied is a load case before anything answers it.
type applied struct {
	inside      float64 // pressure inside at the place looked at, Pa
	hoop, axial float64 // N/m
	judged      bool
}

// largestLine bounds line loads in N/m, as package stiffness does.
const largestLine = 1e15

func (e *evaluation) apply(name string, hoop, axial, inside float64, judged bool) {
	if !(hoop >= -largestLine && hoop <= largestLine && axial >= -largestLine && axial <= largestLine) {
		e.r.Unknown = append(e.r.Unknown, UnknownLoad{name, "the load is beyond what can be computed"})
		return
	}
	e.loads = append(e.loads, applied{inside: inside, hoop: hoop, axial: axial, judged: judged})
	e.r.Cases = append(e.r.Cases, Case{Name: name, NAxial: axial, NHoop: hoop, Judged: judged})
}

// warm says what warmth does to the moduli: the share that is left, or why
// nothing that rests on them can be told.
func (e *evaluation) warm() {
	e.kept, e.warmOpen = service.Warm(e.s, e.units)
	switch {
	case e.warmOpen != "":
		e.note("A, B, D and membrane moduli are those of a cold wall.")
	case e.kept < 1:
		e.note("All moduli are " + quantity.Share(e.kept) + " of those of a cold wall (modulus_retention), for every case, and strength is taken to keep the same share.")
	case !e.s.Part.ModulusRetention.Given && !e.s.Service.Hottest().Given():
		e.note("No temperature given: moduli are those of a cold wall.")
	}
	if e.beyond.Hot {
		e.warmOpen = e.beyond.Why
	}
}

// sound tells whether v can be computed with.
func sound(v float64) bool { return !math.IsNaN(v) && !math.IsInf(v, 0) }

// positive gives the figure of a stated quantity that is a finite number above
// zero.
func positive[D quantity.Dimension](q quantity.Quantity[D]) (float64, bool) {
	v := q.SI()
	return v, q.Given() && v > 0 && sound(v)
}
