package wall

import (
	"math"
	"slices"
	"strings"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/wall/shell"
)

// strainLimit is the design strain of a wall (ASME Section X, RD-1171.1).
const strainLimit = 0.001

const (
	basisHoop  = "strain limit 0.001 (ASME Section X RD-1171.1, second-hand)"
	basisAxial = "strain limit 0.001, the same along the axis (common practice, no source)"
	basisResin = "0.1 of the resin's failure strain, at most 0.2 % (BS 4994, second-hand; ADR 2017 6.9.2.3.5)"
)

const noLoad = "no load that is given asks for it"

// strain judges one of the three strain criteria over every service case.
func (e *evaluation) strain(name string) Criterion {
	c := Criterion{Name: name, Kind: quantity.Strain, Governs: governedBy(&e.s.Part, laminate.StrainLimit), Basis: basisHoop}
	capacity, of := strainLimit, func(i int) float64 { return math.Abs(e.atFace(i, false).StrainHoop) }
	reason := e.moduliOpen()
	switch name {
	case AxialStrain:
		c.Basis = basisAxial
		of = func(i int) float64 { return math.Abs(e.r.Cases[i].StrainAxial) }
	case ResinStrain:
		c.Basis = basisResin
		of = func(i int) float64 { return largestPrincipal(e.atFace(i, true)) }
		least, missing := e.failureStrain()
		capacity = math.Min(shell.ResinMost, shell.ResinShare*least)
		if reason == "" {
			reason = missing
		}
	}
	if e.unloaded(&c) {
		return c
	}
	if reason != "" {
		c.open(reason)
		return c
	}
	most, at := 0.0, -1
	for i := range e.r.Cases {
		k := &e.r.Cases[i]
		if !k.Judged || !k.StrainKnown {
			continue
		}
		if v := of(i); at < 0 || v > most {
			most, at = v, i
		}
	}
	if at >= 0 {
		c.Case = e.r.Cases[at].Name
		c.weigh(most, capacity)
		if n := e.timesMembrane(at, name == ResinStrain); n != 1 && name != AxialStrain {
			c.Reason = "at its inside face, " + e.units.Figure(n, quantity.Times) + " times the membrane's strain round"
		}
	}
	e.heed(&c)
	return c
}

// Up to thickWall of its inside radius a wall is judged as a membrane, as the
// standards do, from twice that on as a thick ring, and between in proportion,
// so that no ply more makes a wall worse (common practice, no source).
const thickWall = 0.1

// timesMembrane is how many times the membrane's hoop strain that of a thick
// wall is at the inside face of its structure, or of its barrier, which follows
// the structure; 1 of a thin wall.
func (e *evaluation) timesMembrane(of int, barrier bool) float64 {
	n := len(e.rows)
	if e.r.Whole <= thickWall*e.round.inside || n == 0 {
		return 1
	}
	first, last, l := &e.rows[0], &e.rows[n-1], &e.loads[of]
	a, b := e.round.inside+first.figures.ToHere-first.thick, e.round.inside+last.figures.ToHere
	face := a
	if l.hoop < 0 {
		face = b
	}
	closed := 0.0
	if l.hoop != 0 {
		closed = min(1, max(0, l.axial*(a+b)/(l.hoop*face)))
	}
	m := &e.r.Membrane
	nu := min(0.5, math.Sqrt(math.Max(0, m.Nuxy*m.Nuyx)))
	times := shell.Bore(a, b, nu, closed, l.hoop < 0)
	if barrier {
		times *= a / e.round.inside
	}
	return 1 + (times-1)*min(1, e.r.Whole/e.round.inside/thickWall-1)
}

// atFace is a case with the hoop strain at the inside face.
func (e *evaluation) atFace(i int, barrier bool) *Case {
	k := e.r.Cases[i]
	k.StrainHoop *= e.timesMembrane(i, barrier)
	return &k
}

// largestPrincipal is the largest strain in any direction of the wall's plane.
func largestPrincipal(k *Case) float64 {
	mid, half := (k.StrainAxial+k.StrainHoop)/2, (k.StrainAxial-k.StrainHoop)/2
	return math.Abs(mid) + math.Hypot(half, k.StrainShear/2)
}

// unloaded skips a criterion about loads where the service has none.
func (e *evaluation) unloaded(c *Criterion) bool {
	for i := range e.r.Cases {
		if e.r.Cases[i].Judged {
			return false
		}
	}
	for _, o := range e.r.Unknown {
		if !strings.HasPrefix(o.Name, CaseTest) {
			return false
		}
	}
	c.skip(noLoad)
	return true
}

// heed makes a criterion open where a load that could break it is not known:
// one of the named cases, or any of service where none is named.
func (e *evaluation) heed(c *Criterion, cases ...string) {
	if o, is := e.unknown(cases...); is && c.Answer != Fails {
		*c = Criterion{Name: c.Name, Kind: c.Kind, Case: o.Name, Governs: c.Governs, Basis: c.Basis}
		c.open(o.Reason)
	}
}

// unknown is a load that is not known, of the named cases or of any of service.
func (e *evaluation) unknown(cases ...string) (o UnknownLoad, is bool) {
	for _, o := range e.r.Unknown {
		named := func(c string) bool { return strings.HasPrefix(o.Name, c) } // whatever its ends
		if !strings.HasPrefix(o.Name, CaseTest) && (cases == nil || slices.ContainsFunc(cases, named)) {
			return o, true
		}
	}
	return o, false
}

// heedInside is heed for what pressure from inside decides.
func (e *evaluation) heedInside(c *Criterion) { e.heed(c, CasePressure, CaseHead) }

// insideOpen tells whether a pressure from inside is there but not known.
func (e *evaluation) insideOpen() bool {
	for _, o := range e.r.Unknown {
		if !strings.HasPrefix(o.Name, CaseTest) && !strings.HasPrefix(o.Name, CaseVacuum) {
			return true
		}
	}
	return false
}

// mostInside gives the service case with the highest pressure inside, −1 for
// none.
func (e *evaluation) mostInside() int {
	at := -1
	for i := range e.loads {
		if e.loads[i].judged && e.loads[i].inside > 0 && (at < 0 || e.loads[i].inside > e.loads[at].inside) {
			at = i
		}
	}
	return at
}

// modulus asks for the least modulus that a tank wall may have. It is a figure
// of the laminate as it is tested, cold.
func (e *evaluation) modulus() Criterion {
	c := Criterion{Name: MinimumModulus, Kind: quantity.Stress, Governs: true,
		Basis: "at least 700 000 psi (AWWA D120-09 4.6.4), applied to the lower of axial and hoop tensile modulus"}
	if e.lam == nil {
		c.open(e.r.Problem)
		return c
	}
	m := &e.r.Membrane
	c.Reason = "the hoop modulus is the lower one"
	if m.Ex < m.Ey {
		c.Reason = "the axial modulus is the lower one"
	}
	if e.kept < 1 {
		c.Reason += ", cold"
	}
	c.weigh(quantity.New(700_000, quantity.PSI).SI(), math.Min(m.Ex, m.Ey)/e.kept)
	return c
}

// minimumThickness asks for the least wall that anybody makes.
func (e *evaluation) minimumThickness() Criterion {
	c := Criterion{Name: MinimumThickness, Kind: quantity.Thickness, Governs: true,
		Basis: e.units.Figure(leastWall, quantity.Thickness) + " minimum total thickness (common practice, no source)"}
	if e.wholeOpen != "" {
		c.open(e.wholeOpen)
		return c
	}
	c.weigh(leastWall, e.r.Whole)
	return c
}

const inch = 0.0254

// leastWall in m.
const leastWall = 3.0 / 16 * inch
