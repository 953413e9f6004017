package maker

import (
	"slices"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/catalog"
	"frp/veilwright/laminate/exercise"
	"frp/veilwright/laminate/overlay"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/rules/advice"
	"frp/veilwright/rules/advice/equipment"
	"frp/veilwright/rules/practice"
)

// joints is the step that is about what joins parts.
const joints = 6

// Inside diameters of pipe that is sealed by hand from the inside.
var sealed = []float64{20, 24, 30}

// joint makes an exercise about the strap or the seal of two pipes of a sound wall, or
// about what is laid at a nozzle of one, nil where it does not work out: what is laid
// is what the program proposes.
func (m *maker) joint(e *exercise.Exercise, wall *laminate.Schedule) *exercise.Exercise {
	e.KeepStructure = false
	e.Kind, e.Overlay = pick(m.rand, kindsOf[joints-1]), pick(m.rand, []overlay.Kind{overlay.Strap, overlay.Seal, overlay.Pad, overlay.LaidInside})
	wall = wall.Clone()
	wall.Part.Flanged = laminate.Some(false)
	if e.Overlay.Inside() {
		wall.Part.InsideDiameter = quantity.New(pick(m.rand, sealed), quantity.Inch)
	}
	for _, p := range wall.Plies {
		if p.Zone != laminate.OuterSurface { // the coat comes after the strap
			e.Wall = append(e.Wall, p)
		}
	}
	if nozzle := e.Overlay == overlay.Pad || e.Overlay == overlay.LaidInside; nozzle {
		wall.Part.InsideDiameter = quantity.New(pick(m.rand, sealed), quantity.Inch)
		wall.Service.Pressure = quantity.New(m.between(5, 15, 5), quantity.PSI) // without any a pad has no task
		e.Nozzle = laminate.Nozzle{
			Height: quantity.New(4, quantity.Foot), Size: quantity.New(pick(m.rand, []float64{3, 4, 6}), quantity.Inch), Kind: laminate.Penetrating, Projection: quantity.New(6, quantity.Inch),
			PressureClass: quantity.New(50, quantity.PSI), Gussets: laminate.Some(4), SealedEdge: laminate.Some(true), PipingLoad: laminate.Some(false),
		}
	} else {
		e.Joint = laminate.Joint{Gap: quantity.New(m.between(0.0625, 0.25, 0.0625), quantity.Inch), Qualification: "the shop's procedure, two bonders"}
		if quantity.Read(&e.Joint.AxialLoad, "0 lb/in") != nil {
			return nil
		}
	}
	if !m.sound(&exercise.Exercise{}, wall) {
		return nil
	}
	e.Given = *wall
	e.Given.Plies = nil
	j, over := e.Job(&e.Given)
	p, err := equipment.Propose(j, m.library, equipment.Options{Options: advice.Options{Units: quantity.US}})
	if err != nil {
		return nil
	}
	for _, x := range p.Job.Joints {
		e.Joint.Width, e.Joint.FirstWidth, e.Joint.Widths, e.Joint.InsideWidth = x.Width, x.FirstWidth, x.Widths, x.InsideWidth
	}
	for _, n := range p.Job.Nozzles {
		e.Nozzle.PadDiameter, e.Nozzle.NeckBond = n.PadDiameter, n.NeckBond
	}
	laid := e.Given.Clone()
	laid.Plies = p.Job.Laminates[p.Job.Laminate(over.Laminate)].Plies
	laid.Part.Place.Lined = e.Overlay.Inside()
	if len(laid.Plies) == 0 || !m.sound(e, laid) {
		return nil
	}
	if e.Kind == exercise.Order {
		e.Task = "Put the plies of the " + called(e.Overlay) + " in the order in which they are laid, beginning at the cured face."
		e.Hints = []exercise.Hint{{Text: "What bonds to a ground face, and which ply is the last?"}, {Text: asLaid(e.Overlay)}}
		return m.shuffle(e, laid)
	}
	if e.Kind == exercise.Fix {
		return m.slipped(e, laid)
	}
	e.Task = "The " + called(e.Overlay) + " was laid as it stands here, from the cured face on. Say what check finds in it, and what is the worst of it."
	e.Hints = []exercise.Hint{{Text: "Compare it with the wall that it is laid on: what has to go on, and how thick?"}, {Text: asLaid(e.Overlay)}}
	e.Questions = []exercise.Question{{Ask: exercise.Verdict}, {Ask: exercise.Worst}}
	for i := range laid.Plies {
		laid.Plies[i].Zone = laminate.NoZone
	}
	if e.Nozzle.SealedEdge.Given && m.rand.IntN(6) == 0 {
		e.Nozzle.SealedEdge.Value = false
	} else {
		pick(m.rand, slips(e.Overlay))(m, laid)
	}
	e.Given = *laid
	for i := range e.Questions {
		if _, err := practice.TruthOf(e, i, m.library, quantity.US); err != nil {
			return nil
		}
	}
	return e
}

// slipped asks to put right what one or two slips leave of something sound, nil where
// the rules mind nothing of it, or it cannot be put right.
func (m *maker) slipped(e *exercise.Exercise, laid *laminate.Schedule) *exercise.Exercise {
	e.Task = "Put the " + called(e.Overlay) + " right on the bench, so that no rule breaks and none warns. Change no more than you have to."
	e.Hints = []exercise.Hint{{Text: "Compare it with the wall that it is laid on: what has to go on, and how thick?"}, {Text: asLaid(e.Overlay)}}
	for i := range laid.Plies {
		laid.Plies[i].Zone = laminate.NoZone
	}
	if !m.sound(e, laid) {
		return nil // without its zones written out it reads otherwise
	}
	for range 1 + m.rand.IntN(2) {
		pick(m.rand, slips(e.Overlay)[1:])(m, laid)
	}
	e.Given = *laid
	if len(laid.Plies) == 0 || m.full(e, laid) || !m.sound(e, practice.Solve(e, m.library, quantity.US).Schedule) {
		return nil
	}
	return e
}

// called is what an overlay is called in a sentence.
func called(k overlay.Kind) string {
	if k == overlay.LaidInside {
		return "overlay inside a nozzle"
	}
	return k.Said()
}

func asLaid(k overlay.Kind) string {
	if k.Inside() {
		return "What continues a barrier is laid from the inside: mats, which fill a ground face, then the veil, which meets the fluid, and over it nothing but a waxed coat: nothing bonds to wax."
	}
	last := "The coat with wax comes last: nothing bonds to it."
	if k == overlay.Pad {
		last = "A coat with wax comes over what is laid over neck and pad: nothing bonds to it."
	}
	return "What carries load begins with a mat, which fills a ground face, and ends with one, since a weave prints through. Woven roving lies between mats: on one another there is resin alone to carry the shear. " + last
}

// slips are what goes wrong with what is laid soundly, nothing first among it.
func slips(k overlay.Kind) []func(*maker, *laminate.Schedule) {
	if k.Inside() {
		list := []func(*maker, *laminate.Schedule){asItIs, veilFirst, coatUnderVeil, oneMat, coatInside}
		if k == overlay.Seal {
			list = append(list, otherVeil) // no rule compares the veil at a nozzle
		}
		return list
	}
	if k == overlay.Pad {
		return []func(*maker, *laminate.Schedule){asItIs, faceWoven, matsOut, oneRepeat, coatOver, mostMats}
	}
	return []func(*maker, *laminate.Schedule){asItIs, faceWoven, matsOut, oneRepeat, coatInside, mostMats}
}

func asItIs(_ *maker, _ *laminate.Schedule) {}

// form is that of a row.
func (m *maker) form(s *laminate.Schedule, row int) laminate.Form {
	if x, ok := m.library.Material(s, s.Plies[row].Material); ok {
		return x.Form
	}
	return laminate.NoForm
}

// rowOf is the first row of a form, −1 where there is none.
func (m *maker) rowOf(s *laminate.Schedule, form laminate.Form) int {
	for i := range s.Plies {
		if m.form(s, i) == form {
			return i
		}
	}
	return -1
}

// move takes a row to another place among those that are left.
func move(s *laminate.Schedule, from, to int) {
	if from < 0 || to < 0 || to >= len(s.Plies) {
		return
	}
	p := s.Plies[from]
	s.Plies = slices.Insert(slices.Delete(s.Plies, from, from+1), to, p)
}

func veilFirst(m *maker, s *laminate.Schedule) { move(s, m.rowOf(s, laminate.Veil), 0) }

// faceWoven leaves out the mat that bonds.
func faceWoven(m *maker, s *laminate.Schedule) {
	if len(s.Plies) > 1 && m.form(s, 1) == laminate.WovenRoving {
		s.Plies = s.Plies[1:]
	}
}

// matsOut leaves out the last mat, over the last woven roving.
func matsOut(m *maker, s *laminate.Schedule) {
	for i := len(s.Plies) - 1; i > 0; i-- {
		if m.form(s, i) == laminate.ChoppedMat && m.form(s, i-1) == laminate.WovenRoving {
			s.Plies = slices.Delete(s.Plies, i, i+1)
			return
		}
	}
}

// oneRepeat leaves out woven roving and the mat over it.
func oneRepeat(m *maker, s *laminate.Schedule) {
	if i := m.rowOf(s, laminate.WovenRoving); i >= 0 && i+1 < len(s.Plies) {
		s.Plies = slices.Delete(s.Plies, i, i+2)
	}
}

// coatInside brings the coat under the ply before it.
func coatInside(m *maker, s *laminate.Schedule) {
	if i := m.rowOf(s, laminate.ResinCoat); i > 0 {
		move(s, i, 1)
	}
}

// coatOver ends what is laid over later in a waxed coat.
func coatOver(_ *maker, s *laminate.Schedule) {
	last := s.Plies[len(s.Plies)-1]
	s.Plies = append(s.Plies, laminate.Ply{Material: catalog.Topcoat, Resin: last.Resin, Count: 1})
}

func coatUnderVeil(m *maker, s *laminate.Schedule) {
	if i := m.rowOf(s, laminate.ResinCoat); i > 0 {
		move(s, i, i-1)
	}
}

func oneMat(m *maker, s *laminate.Schedule) {
	if i := m.rowOf(s, laminate.ChoppedMat); i >= 0 {
		s.Plies[i].Count = max(1, s.Plies[i].Count-1)
	}
}

// mostMats lays more mats at once than may gel at once.
func mostMats(m *maker, s *laminate.Schedule) {
	if i := m.rowOf(s, laminate.ChoppedMat); i >= 0 {
		s.Plies[i].Count = catalog.MatsInOneGo + 2
	}
}

func otherVeil(m *maker, s *laminate.Schedule) {
	i := m.rowOf(s, laminate.Veil)
	if i < 0 {
		return
	}
	if s.Plies[i].Material == catalog.VeilC15 {
		s.Plies[i].Material = catalog.VeilPolyester15
	} else {
		s.Plies[i].Material = catalog.VeilC15
	}
}
