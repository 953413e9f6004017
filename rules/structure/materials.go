package structure

import (
	"math"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/rules"
)

// eachMaterial calls f once for each material that plies of the schedule are laid of, with
// the first row of it. report says something of it, at a key of the material where it stands
// in the schedule.
func eachMaterial(p *rules.Pass, f func(m *laminate.Material, row *laminate.RowFigures, report func(severity rules.Severity, key, message string))) {
	var seen []*laminate.Material
	last := (*laminate.Material)(nil)
	for i := range p.Analysis.Rows {
		row := &p.Analysis.Rows[i]
		m := row.Material
		known := m == last || m == nil
		for k := 0; k < len(seen) && !known; k++ {
			known = seen[k] == m
		}
		if last = m; known {
			continue
		}
		seen = append(seen, m)
		f(m, row, func(severity rules.Severity, key, message string) {
			at := laminate.PlyRef(i, "material")
			for k := range p.Schedule.Materials {
				if p.Schedule.Materials[k].ID == m.ID {
					at = laminate.Ref{Kind: laminate.RefMaterial, Index: k, Key: key}
					break
				}
			}
			p.Report(rules.Finding{Severity: severity, At: at, Rows: p.Rows(func(o *laminate.RowFigures) bool { return o.Material == m }), Message: m.ID + ": " + message})
		})
	}
}

// fiberApart is how far a stated figure of a fiber lies from the typical one, as a share of
// it. Common practice, no source: glass of one kind differs by a few percent.
const fiberApart = 0.25

// fiberRange is a typical figure of the fiber named, and what is told from it; of all fibers
// there are where none is named.
func fiberRange(p *rules.Pass, m *laminate.Material, of func(*laminate.FiberData) float64) (typical, usual quantity.Range, whose string) {
	typical, whose = quantity.Range{Low: math.Inf(1)}, m.Fiber.String()
	for i := range p.Library.Fibers {
		if v := of(&p.Library.Fibers[i]); v > 0 && (m.Fiber == laminate.NoFiber || int(m.Fiber) == i) {
			typical.Low, typical.High = min(typical.Low, v), max(typical.High, v)
		}
	}
	if m.Fiber == laminate.NoFiber {
		whose = "any fiber here"
	}
	return typical, quantity.Range{Low: (1 - fiberApart) * typical.Low, High: (1 + fiberApart) * typical.High}, whose
}

func modulusOf(f *laminate.FiberData) float64 { return f.Modulus.SI() }

// FiberUnusual holds what a material states of its fiber against the fiber it names.
var FiberUnusual = &rules.Rule{
	ID:       "fiber-figures-unusual",
	Overlays: rules.EveryOverlay,
	Family:   family,
	Title:    "Fiber modulus or density unlike the fiber's",
	Why: "The moduli of a ply rest on the modulus of its fiber and its thickness on the density. Glass of one kind differs by a few percent; " +
		"a figure ten times off, or in another unit, stiffens every ply of it, and a wall holds on paper that buckles or cracks.",
	Severity: []rules.Severity{rules.Incomplete, rules.Warning},
	When: "a material that is laid states a fiber_modulus more than 25 % above what is typical of its fiber, or a fiber_density more than 25 % below it, without a source: incomplete; " +
		"with one, or a modulus as far below or a density as far above: warning (25 % itself is within; of a material that names no fiber: of every fiber of the catalog)",
	Basis: "typical figures of the catalog, from memory; 25 % common practice, no source",
	Run: func(p *rules.Pass) {
		eachMaterial(p, func(m *laminate.Material, _ *laminate.RowFigures, report func(rules.Severity, string, string)) {
			hold := func(key, what string, v float64, k quantity.Kind, of func(*laminate.FiberData) float64, weakens func(v float64, usual quantity.Range) bool, meant func(usual quantity.Range) string) {
				typical, usual, whose := fiberRange(p, m, of)
				if typical.High == 0 || usual.Spans(v) {
					return
				}
				severity, ask := rules.Unusual(m.Source)
				if weakens(v, usual) {
					severity, ask = rules.Harmless()
				}
				stated, is := p.Units.Pair(v, typical.High, k)
				if typical.Low < typical.High {
					is = p.Units.Figure(typical.Low, k) + " to " + is
				}
				report(severity, key, what+" of "+stated+" is more than 25 % from the "+is+" of "+whose+meant(usual)+ask)
			}
			if q := m.FiberModulus; q.Given() {
				hold("fiber_modulus", "a fiber modulus", q.SI(), quantity.Stress, modulusOf, func(v float64, usual quantity.Range) bool { return v < usual.Low },
					func(usual quantity.Range) string { return rules.LooksLike(q, usual.Spans) })
			}
			if q := m.FiberDensity; q.Given() {
				hold("fiber_density", "a fiber density", q.SI(), quantity.Bulk, func(f *laminate.FiberData) float64 { return f.Density.SI() }, func(v float64, usual quantity.Range) bool { return v > usual.High },
					func(usual quantity.Range) string { return rules.LooksLike(q, usual.Spans) })
			}
		})
	},
}

// usualMass is the areal mass that a form of reinforcement comes in, kg/m²; ok is false of
// what has none. Of a band it is that of one layer. Common practice, no source.
func usualMass(f laminate.Form) (usual quantity.Range, ok bool) {
	switch f {
	case laminate.Veil:
		return quantity.Range{Low: 0.020, High: 0.070}, true
	case laminate.ChoppedMat, laminate.SprayedChop:
		return quantity.Range{Low: 0.200, High: 1.000}, true
	case laminate.WovenRoving, laminate.Unidirectional, laminate.RovingBand:
		return quantity.Range{Low: 0.200, High: 1.300}, true
	case laminate.NoForm, laminate.ResinCoat, laminate.Lamina:
	}
	return usual, false
}

// ArealMassUnusual holds the mass of a reinforcement against what its form comes in.
var ArealMassUnusual = &rules.Rule{
	ID:       "areal-mass-unusual",
	Overlays: rules.EveryOverlay,
	Family:   family,
	Title:    "Areal mass that no such reinforcement has",
	Why: "Mat goes by oz/ft², woven roving by oz/yd², which is a ninth of it: the one unit for the other makes a ply nine times as thick on paper. " +
		"The wall then holds with a ninth of the glass that it needs, and takes nine times too little resin or nine times too much.",
	Severity: []rules.Severity{rules.Incomplete, rules.Warning},
	When: "a material that is laid has an areal mass outside what is usual of its form: of a veil 20 to 70, of chopped mat and sprayed chop 200 to 1,000, of woven roving, unidirectional and a layer of a roving band 200 to 1,300 g/m² " +
		"(the bounds themselves are within); above it without a source: incomplete; with one, or below it: warning",
	Basis: rules.CommonPractice,
	Run: func(p *rules.Pass) {
		eachMaterial(p, func(m *laminate.Material, _ *laminate.RowFigures, report func(rules.Severity, string, string)) {
			usual, ok := usualMass(m.Form)
			mass, known := m.PlyFiber(laminate.Some(90.0))
			if !ok || !known || usual.Spans(mass) {
				return
			}
			key := "areal_mass"
			if !m.ArealMass.Given() {
				key = "tows"
			}
			severity, ask := rules.Harmless()
			if mass > usual.High {
				severity, ask = rules.Unusual(m.Source)
			}
			k := m.Form.MassKind()
			stated, bound := p.Units.Pair(mass, usual.High, k)
			report(severity, key, "an areal mass of "+stated+" is outside the "+p.Units.Figure(usual.Low, k)+" to "+bound+" that "+m.Form.String()+" comes in"+rules.LooksLike(m.ArealMass, usual.Spans)+ask)
		})
	},
}

// blend is the volume share of fiber in a lamina and what is known of its two parts, SI; not
// ok where its glass content is not.
type blend struct {
	fiber, resin   float64 // kg/m³
	share, content float64 // of fiber, by volume and by mass
	stiff, soft    float64 // Pa, of fiber and resin
}

func blendOf(p *rules.Pass, m *laminate.Material, row *laminate.RowFigures) (b blend, ok bool) {
	typical := &p.Library.Fibers[m.Fiber]
	b.fiber, b.stiff = typical.Density.SI(), typical.Modulus.SI()
	if m.FiberDensity.Given() {
		b.fiber = m.FiberDensity.SI()
	}
	if m.FiberModulus.Given() {
		b.stiff = m.FiberModulus.SI()
	}
	if b.stiff == 0 { // of no fiber that is named: of the stiffest there is
		for i := range p.Library.Fibers {
			b.stiff = max(b.stiff, p.Library.Fibers[i].Modulus.SI())
		}
	}
	resin := p.Library.Families[laminate.NoFamily]
	if row.Resin != nil {
		resin = p.Library.Families[row.Resin.Family]
		if row.Resin.Density.Given() {
			resin.Density = row.Resin.Density
		}
		if row.Resin.Modulus.Given() {
			resin.Modulus = row.Resin.Modulus
		}
	}
	b.resin, b.soft = resin.Density.SI(), resin.Modulus.SI()
	if b.soft == 0 { // a resin that nobody names: as stiff as any
		for i := range p.Library.Families {
			b.soft = max(b.soft, p.Library.Families[i].Modulus.SI())
		}
	}
	b.content, ok = m.GlassContentIn(row.Zone)
	if !ok || b.fiber <= 0 || b.resin <= 0 {
		return b, false
	}
	b.share = b.content / b.fiber / (b.content/b.fiber + (1-b.content)/b.resin)
	return b, true
}

// Above what the rule of mixtures gives by laminaApart no test lies, its thickness and its
// glass content measured with the usual care; and a thickness by thicknessApart times from
// its own mass is no measurement. Common practice, no source.
const (
	laminaApart    = 1.25
	thicknessApart = 1.5
)

// LaminaTooStiff holds the moduli of a tested lamina against those of its fiber.
var LaminaTooStiff = &rules.Rule{
	ID:       "lamina-too-stiff",
	Overlays: rules.EveryOverlay,
	Family:   family,
	Title:    "A tested lamina stiffer than its fiber allows",
	Why: "A lamina is fiber in resin: along its fiber it is as stiff as the two by their volumes, the rule of mixtures, and in no direction stiffer; never is it stiffer than the fiber alone. " +
		"A modulus above that is one place or one unit off. With it a wall holds on paper that buckles.",
	Severity: []rules.Severity{rules.Break, rules.Incomplete, rules.Warning},
	When: "e1 or e2 of a lamina that is laid is above the modulus of its fiber, or g12 above half of that: break; e1 or e2 more than 25 % above the rule of mixtures by its glass content, or g12 above half of that, " +
		"without a source: incomplete; with one: warning (the bounds themselves are within; of a fiber that is not named the stiffest counts, of a resin without a modulus the typical one of its family)",
	Basis: "rule of mixtures as the upper bound of a modulus (Jones, Mechanics of Composite Materials, 3.3; from memory); 25 % common practice, no source",
	Run: func(p *rules.Pass) {
		eachMaterial(p, func(m *laminate.Material, row *laminate.RowFigures, report func(rules.Severity, string, string)) {
			if m.Form != laminate.Lamina {
				return
			}
			b, known := blendOf(p, m, row)
			mixed := b.share*b.stiff + (1-b.share)*b.soft
			for _, x := range []struct {
				key  string
				q    quantity.Pressure
				part float64 // a shear modulus is at most half of the stiffest direction's
				of   string
			}{{"e1", m.E1, 1, ""}, {"e2", m.E2, 1, ""}, {"g12", m.G12, 0.5, "half of "}} {
				v, severity, bound, of, ask := x.q.SI(), rules.Break, x.part*b.stiff, "the modulus of its fiber", ": no laminate can have that"
				switch {
				case b.stiff > 0 && quantity.Above(v, bound):
				case known && quantity.Above(v, laminaApart*x.part*mixed):
					bound, of = x.part*mixed, "what "+quantity.Percent(b.content)+" of fiber in resin come to by the rule of mixtures"
					severity, ask = rules.Unusual(m.Source)
				default:
					continue
				}
				stated, most := p.Units.Pair(v, bound, quantity.Stress)
				usual := quantity.Range{Low: x.part * b.soft / 2, High: bound}
				report(severity, x.key, x.key+" of "+stated+" is above "+most+", "+x.of+of+rules.LooksLike(x.q, usual.Spans)+ask)
			}
		})
	},
}

// LaminaThicknessUnlike holds the thickness of a tested lamina against its own mass.
var LaminaThicknessUnlike = &rules.Rule{
	ID:       "lamina-thickness-unlike-mass",
	Overlays: rules.EveryOverlay,
	Family:   family,
	Title:    "A tested lamina whose thickness its mass denies",
	Why: "The thickness of a ply follows from its fiber's mass, its glass content and two densities. A tested lamina states it beside them; where the two disagree by half, " +
		"one is wrong, and a thickness in mm for mil makes a wall forty times as thick as its glass.",
	Severity: []rules.Severity{rules.Incomplete, rules.Warning},
	When: "a lamina that is laid states areal_mass, glass_content and its fiber, and its thickness is more than 1.5 times what they come to, without a source: incomplete; with one, or less than that divided by 1.5: warning " +
		"(the bounds themselves are within)",
	Basis: "arithmetic of mass and density, without voids; 1.5 times common practice, no source",
	Run: func(p *rules.Pass) {
		eachMaterial(p, func(m *laminate.Material, row *laminate.RowFigures, report func(rules.Severity, string, string)) {
			b, known := blendOf(p, m, row)
			if m.Form != laminate.Lamina || !known || !m.ArealMass.Given() || !m.Thickness.Given() {
				return
			}
			mass := m.ArealMass.SI()
			comes := mass/b.fiber + mass*(1-b.content)/b.content/b.resin
			usual := quantity.Range{Low: comes / thicknessApart, High: comes * thicknessApart}
			if usual.Spans(m.Thickness.SI()) {
				return
			}
			severity, ask := rules.Harmless()
			if m.Thickness.SI() > usual.High {
				severity, ask = rules.Unusual(m.Source)
			}
			stated, is := p.Thickness(m.Thickness.SI(), comes)
			report(severity, "thickness", "a thickness of "+stated+" is more than 1.5 times off the "+is+" that "+p.Units.Figure(mass, quantity.ClothMass)+" of fiber at "+quantity.Percent(b.content)+" come to"+
				rules.LooksLike(m.Thickness, usual.Spans)+ask)
		})
	},
}

// mostStrainAtBreak is the strain at which nothing that is reinforced is whole any more: glass
// fiber itself breaks at less than 5 %. From memory.
const mostStrainAtBreak = 0.05

// LaminaTooStrong holds the strengths of a tested lamina against its moduli.
var LaminaTooStrong = &rules.Rule{
	ID:       "lamina-too-strong",
	Overlays: rules.EveryOverlay,
	Family:   family,
	Title:    "A tested lamina that breaks beyond any strain",
	Why: "A lamina breaks where its strain reaches what its fiber or resin bears, at 1 to 3 %. Strength over modulus is that strain, or less: " +
		"where it comes to more than glass itself bears, the strength is one place or one unit off, and a wall holds that breaks.",
	Severity: []rules.Severity{rules.Incomplete, rules.Warning},
	When: "a strength of a lamina that is laid is more than 5 % of its modulus in the same direction (5 % itself is within), without a source: incomplete; with one: warning; " +
		"tension and compression of e1 and e2, shear of g12",
	Basis: "glass fiber breaks at less than 5 %, and a shear strength is read at 5 % of shear at most, both from memory",
	Run: func(p *rules.Pass) {
		eachMaterial(p, func(m *laminate.Material, _ *laminate.RowFigures, report func(rules.Severity, string, string)) {
			for _, x := range []struct {
				key, modulus string
				q, over      quantity.Pressure
			}{
				{"strength_tension_1", "e1", m.StrengthTension1, m.E1}, {"strength_compression_1", "e1", m.StrengthCompression1, m.E1},
				{"strength_tension_2", "e2", m.StrengthTension2, m.E2}, {"strength_compression_2", "e2", m.StrengthCompression2, m.E2}, {"strength_shear", "g12", m.StrengthShear, m.G12},
			} {
				v, most := x.q.SI(), mostStrainAtBreak*x.over.SI()
				if m.Form != laminate.Lamina || most <= 0 || !quantity.Above(v, most) {
					continue
				}
				severity, ask := rules.Unusual(m.Source)
				stated, bound := p.Units.Pair(v, most, quantity.Stress)
				usual := quantity.Range{Low: most / 50, High: most}
				report(severity, x.key, x.key+" of "+stated+" is above "+bound+", at which "+x.modulus+" strains by 5 %"+rules.LooksLike(x.q, usual.Spans)+ask)
			}
		})
	},
}
