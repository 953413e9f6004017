package wall

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/stiffness"
)

// hoopFrom is the angle in degrees from which a band is hoop winding, one layer
// instead of a cover of two that cross.
const hoopFrom = 85.0

// The usual woven roving: five yarns along to four across, and what its
// waviness leaves of the stiffness (from memory).
const (
	usualWarpShare = 5.0 / 9
	usualCrimp     = 0.9
)

// How a ply's moduli were had.
const (
	byConstituents = "micromechanics"
	byTypical      = "micromechanics, typical figures"
	byTest         = "test values"
	byResin        = "resin alone"
)

// counted is a ply row that counts.
type counted struct {
	row     int
	figures *laminate.RowFigures
	ply     *laminate.Ply
	law     stiffness.Ply // with what warmth has left of it
	basis   string
	angle   float64 // degrees
	cover   bool    // of two layers, +angle inside and −angle outside
	thick   float64 // m, all plies of the row
	layer   int     // index of its first layer in the laminate
}

// recipe is what a ply's moduli follow from; equal recipes are figured once.
type recipe struct {
	material *laminate.Material
	resin    *laminate.Resin
	vf       float64
}

type figured struct {
	recipe
	law   stiffness.Ply
	basis string
}

// remembered bounds the search for an equal recipe.
const remembered = 16

// collect finds the rows that count, their thickness and their moduli, and
// stacks them.
func (e *evaluation) collect() {
	e.rows = make([]counted, 0, len(e.a.Rows))
	layers := 0
	for i := range e.a.Rows {
		f := &e.a.Rows[i]
		n := e.s.Plies[i].Count
		if !thick(f) && n > 0 && e.wholeOpen == "" {
			e.wholeOpen = plyName(f) + ": its thickness is not known" + lacking(f, &e.s.Plies[i])
		}
		if !e.counts(f.Zone) || n < 1 {
			continue
		}
		if f.Material == nil {
			e.trouble(f, "its material is not known")
			continue
		}
		c := counted{row: i, figures: f, ply: &e.s.Plies[i], thick: f.Thickness * float64(n)}
		if !thick(f) || !sound(c.thick) {
			e.trouble(f, "its thickness is not known"+lacking(f, &e.s.Plies[i]))
			continue
		}
		e.r.Thickness += c.thick
		c.angle = c.ply.Angle.Or(0)
		form := f.Material.Form
		if (form == laminate.Unidirectional || form == laminate.RovingBand) && !c.ply.Angle.Given {
			e.trouble(f, "its fibers have no angle (angle)")
		}
		if c.cover = form == laminate.RovingBand && c.angle > 0 && c.angle < hoopFrom; c.cover {
			layers += 2 * n
		} else {
			layers++
		}
		c.law, c.basis = e.law(f)
		e.rows = append(e.rows, c)
	}
	if len(e.rows) == 0 && e.r.Problem == "" {
		e.r.Problem = "no structural ply: every ply is barrier or outer surface"
		if len(e.a.Rows) == 0 {
			e.r.Problem = "no structural ply: the schedule has no plies"
		}
	}
	if e.r.Problem == "" {
		e.stack(layers)
	}
}

// thick tells whether a row's thickness is known.
func thick(f *laminate.RowFigures) bool {
	return f.ThicknessKnown && f.Thickness > 0 && sound(f.Thickness)
}

// lacking names the keys that a row's thickness waits for.
func lacking(f *laminate.RowFigures, p *laminate.Ply) string {
	if f.Material == nil {
		return ", nor its material"
	}
	keys := append(f.Material.Lacks(), p.Lacks(f.Material)...)
	if len(keys) == 0 && f.Resin == nil {
		keys = []string{"resin"}
	}
	if len(keys) == 0 {
		return ""
	}
	return " (" + strings.Join(keys, ", ") + ")"
}

func (e *evaluation) counts(z laminate.Zone) bool {
	return z == laminate.StructuralLayer || e.o.CountBarrier && z.InBarrier()
}

// trouble keeps the first reason why there is no laminate.
func (e *evaluation) trouble(f *laminate.RowFigures, why string) {
	if e.r.Problem == "" {
		e.r.Problem = plyName(f) + ": " + why
	}
}

func plyName(f *laminate.RowFigures) string {
	if f.Last > f.First {
		return "plies " + strconv.Itoa(f.First) + " to " + strconv.Itoa(f.Last)
	}
	return "ply " + strconv.Itoa(f.First)
}

// stack builds the laminate. Equal rows that follow one another become one
// layer, since strain runs straight through them.
func (e *evaluation) stack(most int) {
	layers := make([]stiffness.Layer, 0, most)
	for i := range e.rows {
		c := &e.rows[i]
		if c.cover {
			c.layer = len(layers)
			half := c.thick / float64(2*c.ply.Count)
			for range c.ply.Count {
				layers = append(layers,
					stiffness.Layer{Ply: c.law, Angle: c.angle, Thickness: half},
					stiffness.Layer{Ply: c.law, Angle: -c.angle, Thickness: half})
			}
			continue
		}
		if n := len(layers); n > 0 && layers[n-1].Ply == c.law && layers[n-1].Angle == c.angle {
			layers[n-1].Thickness += c.thick
			c.layer = n - 1
			continue
		}
		c.layer = len(layers)
		layers = append(layers, stiffness.Layer{Ply: c.law, Angle: c.angle, Thickness: c.thick})
	}
	lam, err := stiffness.New(layers)
	if err != nil {
		e.r.Problem = "counted plies from the inside: " + err.Error()
		return
	}
	e.lam = lam
	e.r.A, e.r.B, e.r.D = lam.A(), lam.B(), lam.D()
	e.r.Membrane = lam.Membrane()
}

// law finds the moduli of a row's plies, by test values where the material is
// a lamina and else from fiber, resin and fiber volume fraction.
func (e *evaluation) law(f *laminate.RowFigures) (stiffness.Ply, string) {
	// Not by the share that wants the mass too: a filler of unknown amount
	// hides the mass and not the fiber's volume.
	vf := f.FiberVolume / f.Thickness
	key := recipe{f.Material, f.Resin, vf}
	for i := range e.figured {
		if e.figured[i].recipe == key {
			return e.figured[i].law, e.figured[i].basis
		}
	}
	p, basis, err := e.figure(f, vf)
	if err == "" {
		if bad := p.Check(); bad != nil {
			err = bad.Error()
		}
	}
	if err != "" {
		e.trouble(f, err)
		return stiffness.Ply{}, ""
	}
	p.E1 *= e.kept
	p.E2 *= e.kept
	p.G12 *= e.kept
	if len(e.figured) < remembered {
		e.figured = append(e.figured, figured{key, p, basis})
	}
	return p, basis
}

func (e *evaluation) figure(f *laminate.RowFigures, vf float64) (p stiffness.Ply, basis, trouble string) {
	m := f.Material
	if m.Form == laminate.Lamina {
		return tested(m)
	}
	if f.Resin == nil {
		return p, "", "it names no resin, so its moduli cannot be figured (resin)"
	}
	matrix, typicalResin, trouble := e.matrix(f.Resin)
	if trouble != "" {
		return p, "", trouble
	}
	if m.Form == laminate.ResinCoat {
		return stiffness.Ply{E1: matrix.E, E2: matrix.E, G12: matrix.G(), Nu12: matrix.Nu}, byResin, ""
	}
	fiber, typicalFiber, trouble := e.fiber(m)
	if trouble != "" {
		return p, "", trouble
	}
	if !(vf > 0 && vf <= 1) {
		return p, "", "its fiber volume fraction is not known"
	}
	basis = byConstituents
	if typicalResin || typicalFiber {
		basis = byTypical
	}
	var err error
	switch m.Form {
	case laminate.Veil, laminate.ChoppedMat, laminate.SprayedChop:
		p, err = stiffness.Random(fiber, matrix, vf)
	case laminate.WovenRoving:
		if !m.WarpShare.Given || !m.CrimpFactor.Given {
			e.usualWoven = true
		}
		p, err = stiffness.Woven(fiber, matrix, vf, m.WarpShare.Or(usualWarpShare), m.CrimpFactor.Or(usualCrimp))
	case laminate.Unidirectional, laminate.RovingBand:
		p, err = stiffness.Unidirectional(fiber, matrix, vf)
	default:
		return p, "", "its material has no form (form)"
	}
	if err != nil {
		return p, "", err.Error()
	}
	return p, basis, ""
}

func tested(m *laminate.Material) (p stiffness.Ply, basis, trouble string) {
	for _, k := range [...]struct {
		key   string
		given bool
	}{{"e1", m.E1.Given()}, {"e2", m.E2.Given()}, {"g12", m.G12.Given()}, {"nu12", m.Nu12.Given}} {
		if !k.given {
			return p, "", "its lamina gives no test value for " + k.key
		}
	}
	return stiffness.Ply{E1: m.E1.SI(), E2: m.E2.SI(), G12: m.G12.SI(), Nu12: m.Nu12.Value}, byTest, ""
}

// fiber gives a material's fiber, and whether some figure is only typical.
func (e *evaluation) fiber(m *laminate.Material) (c stiffness.Constituent, typical bool, trouble string) {
	var data laminate.FiberData
	if e.lib != nil && int(m.Fiber) < len(e.lib.Fibers) {
		data = e.lib.Fibers[m.Fiber]
	}
	modulus, given := positive(m.FiberModulus)
	if !given {
		typical = true
		if modulus, given = positive(data.Modulus); !given {
			return c, true, "the modulus of its fiber is not known (fiber_modulus)"
		}
	}
	nu := m.FiberPoisson.Value
	if !m.FiberPoisson.Given {
		typical = true
		if nu = data.Poisson; nu == 0 {
			return c, true, "Poisson's ratio of its fiber is not known (fiber_poisson)"
		}
	}
	if typical && int(m.Fiber) < len(e.typicalFiber) {
		e.typicalFiber[m.Fiber] = true
	}
	e.carbon = e.carbon || m.Fiber == laminate.Carbon
	return stiffness.Constituent{E: modulus, Nu: nu}, typical, ""
}

// matrix gives a cured resin, and whether some figure is only typical.
func (e *evaluation) matrix(r *laminate.Resin) (c stiffness.Constituent, typical bool, trouble string) {
	data := e.family(r)
	modulus, given := positive(r.Modulus)
	if !given {
		typical = true
		if modulus, given = positive(data.Modulus); !given {
			return c, true, "the modulus of its resin is not known (modulus)"
		}
	}
	nu := r.Poisson.Value
	if !r.Poisson.Given {
		typical = true
		if nu = data.Poisson; nu == 0 {
			return c, true, "Poisson's ratio of its resin is not known (poisson)"
		}
	}
	if typical && int(r.Family) < len(e.typicalResin) {
		e.typicalResin[r.Family] = true
	}
	e.filled = e.filled || r.Filler != laminate.NoFiller
	return stiffness.Constituent{E: modulus, Nu: nu}, typical, ""
}

func (e *evaluation) family(r *laminate.Resin) laminate.FamilyData {
	if e.lib == nil || int(r.Family) >= len(e.lib.Families) {
		return laminate.FamilyData{}
	}
	return e.lib.Families[r.Family]
}

// failureStrain gives the least failure strain of the resins that count; the
// reason names the missing key when one is not known.
func (e *evaluation) failureStrain() (least float64, reason string) {
	least = math.Inf(1)
	var last *laminate.Resin
	for i := range e.rows {
		r := e.rows[i].figures.Resin
		if r == nil {
			return 0, plyName(e.rows[i].figures) + " names no resin, so the resin's failure strain is not known"
		}
		if r == last {
			continue
		}
		last = r
		strain := r.FailureStrain.Value
		if !r.FailureStrain.Given {
			strain = e.family(r).FailureStrain
		}
		if !(strain > 0 && strain <= 1) {
			return 0, fmt.Sprintf("the failure strain of resin %q is not known (failure_strain)", r.ID)
		}
		least = math.Min(least, strain)
	}
	if !sound(least) {
		return 0, "no ply counts, so no resin's failure strain does"
	}
	return least, ""
}
