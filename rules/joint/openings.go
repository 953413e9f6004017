package joint

import (
	"math"
	"slices"
	"strings"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/surface"
	"frp/veilwright/rules"
	"frp/veilwright/rules/joint/statics"
)

// bends is what a proof has to cover of an opening there.
const bends = "the bending of what its opening reaches into"

// OpeningInKnuckle says where a wall is bent and replaced load is no answer.
var OpeningInKnuckle = &rules.Rule{
	ID: "opening-in-knuckle", Family: family, Title: "An opening reaches into a knuckle",
	Why: "The knuckle of a head and the corner of a flat bottom are bent as well as pulled, and are laid up for that. A pad answers for the pull that an opening takes away and for nothing else: " +
		"there the opening goes where the wall is a plain shell, or it is analyzed by itself.",
	Severity: []rules.Severity{rules.Incomplete},
	When: "an opening or its pad reaches past the crown of a torispherical head, or past 80 % of the diameter of an ellipsoidal one; " +
		"an opening cuts into the reinforcement of a flat bottom's corner, up the wall to knuckle_height, in over the bottom as far",
	Basis: "ASME VIII UG-37, from memory: inside the crown, or inside 80 % of the diameter, an opening is in a sphere",
	Job: func(p *rules.JobPass) {
		corner := -1 // the flat bottom that the shell stands on
		for i := range p.Job.Parts {
			if x := &p.Job.Parts[i]; x.Form == laminate.FlatBottom && !p.OnTop(i) && x.KnuckleHeight.Given() {
				corner = i
				break
			}
		}
		statics.EachNozzle(func(p *rules.JobPass, x *statics.Opening) {
			if !x.Cut().Given() {
				return // opening-large says so
			}
			cut := x.Edge(p)
			switch part := &p.Job.Parts[x.Part]; part.Form {
			case laminate.HeadPart:
				pastCrown(x, p, &p.Parts[x.Part].Schedule.Part, cut)
			case laminate.FlatBottom:
				if d, h := part.InsideDiameter, part.KnuckleHeight; x.Offset.Given() && d.Given() && h.Given() && !p.OnTop(x.Part) && statics.Thinner(d.SI()/2-h.SI(), x.Offset.SI()+cut) {
					m, n := p.Units.Pair(x.Offset.SI()+cut, d.SI()/2-h.SI(), quantity.Size)
					p.Unfigured(bends, []laminate.Ref{x.At("offset")}, "nozzle %s: its opening reaches %s from the axis, and from %s on part %s has the reinforcement of its corner, taken to run in as far as up the wall: what that loses is not figured", x.ID, m, n, x.On)
				}
			case laminate.ShellCourse:
				if corner < 0 || !x.Height.Given() {
					return
				}
				bottom := &p.Job.Parts[corner]
				up, known := p.Elevation(x.Part)
				if from := up + x.Height.SI() - cut; known && statics.Thinner(from, bottom.KnuckleHeight.SI()) {
					m, n := p.Units.Pair(from, bottom.KnuckleHeight.SI(), quantity.Size)
					p.Unfigured(bends, []laminate.Ref{x.At("height")}, "nozzle %s: its opening begins %s above the bottom, and the reinforcement of the corner, part %s, runs up to %s: what that loses is not figured", x.ID, m, bottom.ID, n)
				}
			default:
			}
		})(p)
	},
}

// OpeningLarge says where replaced load is no answer.
var OpeningLarge = &rules.Rule{
	ID: "opening-large", Family: family, Title: "An opening is too large for its shell",
	Why: "Replacing the load beside an opening takes it that the shell round it stays a shell. " +
		"Beyond half the diameter the rest bends as a whole, and only an analysis of its own says what holds.",
	Severity: []rules.Severity{rules.Incomplete},
	When:     "the opening is above half the inside diameter of its part, or a figure of it is not stated",
	Basis:    "ADR 6.9.2.11 keeps openings few and small; the half diameter from memory",
	Job: statics.EachNozzle(func(p *rules.JobPass, x *statics.Opening) {
		d, missing := x.Hole(p)
		shell := p.Parts[x.Part].Schedule.Part.InsideDiameter
		switch {
		case missing != "":
			p.Report(rules.Incomplete, x.At("size"), "", "nozzle %s: %s", x.ID, missing)
		case shell.Given() && statics.Thinner(shell.SI()/2, d):
			h, n := p.Units.Pair(d, shell.SI()/2, quantity.Size)
			p.Unfigured("what its opening leaves of part "+x.On, []laminate.Ref{x.At("size")}, "nozzle %s: its opening of %s is above half the diameter of its part, %s; it needs an analysis of its own", x.ID, h, n)
		}
	}),
}

// OpeningUnderVacuum asks what is left round an opening under pressure from outside.
var OpeningUnderVacuum = &rules.Rule{
	ID: "opening-under-vacuum", Family: family, Title: "What an opening takes away under vacuum is not known",
	Why: "Pressure from outside is held by the stiffness of the wall, and a hole takes that away where it is cut. " +
		"A pad that brings half of the wall back that is cut out answers for it; what less does only an analysis or a test says.",
	Severity: []rules.Severity{rules.Incomplete},
	When:     "a vacuum is stated, of the service or of the test, and the structure of the pad over its ring is less than half of the structure that is cut out: tp r < t d/2, r = min(dr, 2 d) − d",
	Basis:    "ASME VIII UG-37(d), from memory, the wall that is there taken for what it needs",
	Job: statics.EachNozzle(func(p *rules.JobPass, x *statics.Opening) {
		vacuum, need := x.UnderVacuum(p)
		if vacuum <= 0 {
			return
		}
		has, known := 0.0, true
		if a := p.Analysis(x.Pad); a != nil {
			has, known = statics.StackOf(a).Structure, statics.StackOf(a).Known
		}
		const said = "nozzle %s: a vacuum of %s is on part %s, and its pad does not bring back half of the structure that its opening takes away: whether the wall bears it is not known"
		switch on := p.Units.Figure(vacuum, quantity.Stress); {
		case !known || math.IsNaN(need): // a thickness that is missing
			p.Report(rules.Incomplete, x.At("pad"), "", said, x.ID, on, x.On)
		case statics.Thinner(has, need):
			p.Unfigured("what its opening takes from part "+x.On+" under vacuum", []laminate.Ref{x.At("pad")}, said, x.ID, on, x.On)
		}
	}),
}

// OpeningsClose says where the rings of two pads overlap.
var OpeningsClose = &rules.Rule{
	ID: "openings-close", Family: family, Title: "Two openings are close together",
	Why: "Each opening sends its load through the ring around it. Where two rings overlap the same laminate is asked twice, " +
		"and neither pad by itself says what the two need.",
	Severity: []rules.Severity{rules.Break, rules.Incomplete},
	When: "the middles of two openings of a part are nearer than the sum of their radii: break; " +
		"those of two openings of a part, or of two parts of a shell, are nearer than the sum of their diameters, or one is cut into the pad of the other; or they may be, since a bearing, an offset or a height is not stated: incomplete; said once, at all that are named",
	Basis: memory + "; what cuts into each other: arithmetic",
	Job: func(p *rules.JobPass) {
		var list []*ring
		statics.EachNozzle(func(p *rules.JobPass, x *statics.Opening) { list = append(list, ringOf(x, p)) })(p)
		cut, near := crowd{told: make([]bool, len(p.Job.Nozzles))}, crowd{told: make([]bool, len(p.Job.Nozzles))}
		for i, x := range list {
			for _, y := range list[i+1:] {
				text, cuts := "", false
				if x.Part == y.Part {
					text, cuts = closeTo(x, p, y)
				} else {
					text = closeAcross(x, p, y)
				}
				switch {
				case text == "":
				case cuts:
					cut.add(x.Opening, y.Opening, text)
				default:
					near.add(x.Opening, y.Opening, text)
				}
			}
			cut.report(p, rules.Break, x.Opening)
			near.report(p, rules.Incomplete, x.Opening)
		}
	},
}

// together is what is not done of two openings whose rings overlap.
const together = ": what both take away has to be figured together, which is not done here"

// crowd gathers what is close to one opening.
type crowd struct {
	said   string
	others []string
	proofs []*statics.Opening // two that name different proofs, or one that names any
	at     []laminate.Ref
	told   []bool // of each nozzle: in some finding

	unknown bool // it is not known how far one of them is apart, or one is not among at
}

func (c *crowd) add(x, y *statics.Opening, text string) {
	c.unknown = c.unknown || !strings.HasSuffix(text, together) || len(c.others) >= 3
	if c.said == "" {
		c.said, c.at = "nozzles "+x.ID+" and "+y.ID+": "+text, []laminate.Ref{x.At("bearing")}
	} else {
		c.others = append(c.others, y.ID)
	}
	for _, o := range []*statics.Opening{x, y} {
		if len(c.proofs) < 2 && o.Nozzle.Proof.Named() && !slices.ContainsFunc(c.proofs, func(has *statics.Opening) bool { return has.Nozzle.Proof.Same(&o.Nozzle.Proof) }) {
			c.proofs = append(c.proofs, o)
		}
	}
	if len(c.others) <= 3 || !c.told[y.Index] { // who is named, and nobody in no finding
		c.told[y.Index], c.at = true, append(c.at, y.At("bearing"))
	}
}

// report says what was gathered of an opening, and begins anew.
func (c *crowd) report(p *rules.JobPass, severity rules.Severity, x *statics.Opening) {
	if c.said == "" {
		return
	}
	if len(c.others) > 0 {
		more := ""
		if n := len(c.others) - 3; n > 0 {
			c.others, more = c.others[:3], " and "+quantity.Counted(n, "other", "others")
		}
		c.said += "; " + x.ID + " likewise with " + strings.Join(c.others, ", ") + more
	}
	c.told[x.Index] = true
	if severity == rules.Incomplete && !c.unknown {
		if len(c.proofs) > 1 {
			c.said += "; " + c.proofs[0].ID + " and " + c.proofs[1].ID + " name different proofs: one proof has to cover both (proved_by)"
		}
		p.Unfigured("the openings beside it, together with it", c.at, "%s", c.said)
	} else {
		p.ReportAt(severity, c.at, "", "%s", c.said)
	}
	c.said, c.others, c.proofs, c.unknown = "", nil, nil, false
}

// ring is an opening with what lies round it and where it is, once for all others.
type ring struct {
	*statics.Opening
	edge, laid float64 // m: how far it reaches from its middle, and how wide its pad is laid
	shell      bool    // it is on a part of the shell
	up, from   float64 // m, of the shell: above the bottom of the lowest course, and from the axis
	placed     bool    // both are known
}

func ringOf(x *statics.Opening, p *rules.JobPass) *ring {
	r := &ring{Opening: x, edge: x.Edge(p), laid: x.Laid(p), shell: p.InShell(x.Part)}
	if r.shell {
		r.up, r.from, r.placed = inShell(x, p)
	}
	return r
}

// reach is how far apart two openings have to be, m: each with the ring round it, or
// beside the pad of the other.
func (x *ring) reach(y *ring) float64 {
	return max(2*(x.edge+y.edge), x.edge+y.laid/2, y.edge+x.laid/2)
}

// closeTo says what is against two openings of one part, "" where nothing is, and whether
// they cut into each other.
func closeTo(x *ring, p *rules.JobPass, y *ring) (text string, cuts bool) {
	if !x.Cut().Given() || !y.Cut().Given() {
		return "", false // opening-large says so
	}
	reach := x.reach(y)
	apart, up, known := 0.0, 0.0, x.Bearing.Given && y.Bearing.Given
	turn := math.Abs(math.Remainder(x.Bearing.Value-y.Bearing.Value, 360)) * math.Pi / 180
	switch form := p.Job.Parts[x.Part].Form; form {
	case laminate.HeadPart, laminate.FlatBottom, laminate.Cover, laminate.Cone, laminate.Flange, laminate.Panel:
		known = known && x.Offset.Given() && y.Offset.Given()
		m, n := x.Offset.SI(), y.Offset.SI()
		apart = math.Sqrt(math.Max(0, m*m+n*n-2*m*n*math.Cos(turn)))
		if !known {
			apart = math.Abs(m - n)
			known = x.Offset.Given() && y.Offset.Given() && !statics.Thinner(apart, reach)
		}
		if (form == laminate.HeadPart || form == laminate.Cone) && quantity.Compare(m, n) != 0 {
			up = p.Up(x.Part, m) - p.Up(x.Part, n) // the wall may be steep
		}
	default: // round
		rise, d := math.Abs(x.Height.SI()-y.Height.SI()), p.Parts[x.Part].Schedule.Part.InsideDiameter
		if x.Height.Given() && y.Height.Given() && !statics.Thinner(rise, reach) {
			return "", false
		}
		known = known && d.Given() && x.Height.Given() && y.Height.Given()
		apart = math.Hypot(rise, turn*d.SI()/2)
	}
	straight := math.Hypot(apart, up)
	switch {
	case !known:
		return "how far they are apart is not known (height, or offset, and bearing)", false
	case !math.IsNaN(straight) && statics.Thinner(straight, x.edge+y.edge):
		h, n := p.Units.Pair(straight, x.edge+y.edge, quantity.Size)
		return h + " apart, below " + n + ", half of the one opening and half of the other: they cut into each other", true
	case statics.Thinner(apart, reach):
		h, n := p.Units.Pair(apart, reach, quantity.Size)
		return h + " apart, below " + n + together, false
	}
	return "", false
}

// closeAcross is closeTo of two parts of one shell, by where both are in it. Over a bend
// of the wall, from a course into a head, they are taken as far apart as the straight
// line, the least that it can be.
func closeAcross(x *ring, p *rules.JobPass, y *ring) string {
	if !x.shell || !y.shell || !x.Cut().Given() || !y.Cut().Given() {
		return ""
	}
	reach, up := x.reach(y), math.Abs(x.up-y.up)
	if !x.placed || !y.placed || !statics.Thinner(math.Hypot(up, x.from-y.from), reach) {
		return "" // opening-off-part says what is not stated
	}
	if !x.Bearing.Given || !y.Bearing.Given {
		return "how far they are apart, on parts " + x.On + " and " + y.On + ", is not known (bearing)"
	}
	turn := math.Abs(math.Remainder(x.Bearing.Value-y.Bearing.Value, 360)) * math.Pi / 180
	apart := math.Sqrt(math.Max(0, up*up+x.from*x.from+y.from*y.from-2*x.from*y.from*math.Cos(turn)))
	if p.Job.Parts[x.Part].Form == laminate.ShellCourse && p.Job.Parts[y.Part].Form == laminate.ShellCourse {
		apart = math.Hypot(up, turn*math.Min(x.from, y.from)) // round the wall
	}
	if !statics.Thinner(apart, reach) {
		return ""
	}
	h, n := p.Units.Pair(apart, reach, quantity.Size)
	return h + " apart, on parts " + x.On + " and " + y.On + ", below " + n + together
}

// inShell is how high above the bottom of the lowest course, and how far from the axis, an
// opening of a part of the shell is, m.
func inShell(x *statics.Opening, p *rules.JobPass) (up, from float64, known bool) {
	bottom, known := p.Elevation(x.Part)
	part := &p.Parts[x.Part].Schedule.Part
	switch p.Job.Parts[x.Part].Form {
	case laminate.ShellCourse:
		return bottom + x.Height.SI(), part.InsideDiameter.SI() / 2, known && x.Height.Given() && part.InsideDiameter.Given()
	case laminate.FlatBottom:
		return bottom, x.Offset.SI(), known && x.Offset.Given()
	default:
		high := p.Up(x.Part, x.Offset.SI())
		return bottom + high, x.Offset.SI(), known && x.Offset.Given() && !math.IsNaN(high)
	}
}

// pastCrown looks at an opening of a head.
func pastCrown(x *statics.Opening, p *rules.JobPass, part *laminate.Part, cut float64) {
	crown, what, known := crownOf(part)
	if !known || !x.Offset.Given() {
		return // the wall, and opening-off-part, say what is missing
	}
	reach, of, key := x.Offset.SI()+cut, "opening", "offset"
	if pad := x.Offset.SI() + x.Laid(p)/2; x.Pad != "" && pad > reach && !statics.Thinner(crown, reach) {
		reach, of, key = pad, "pad", "pad_diameter"
	}
	if statics.Thinner(crown, reach) {
		m, n := p.Units.Pair(reach, crown, quantity.Size)
		p.Unfigured(bends, []laminate.Ref{x.At(key)}, "nozzle %s: its %s reaches %s from the axis of part %s, and %s ends at %s: beyond it the head is bent, and what is needed there is not figured", x.ID, of, m, x.On, what, n)
	}
}

// crownOf is how far the crown of a head reaches from its axis, m; not known of a
// hemisphere, which has no knuckle, or where a size is missing.
func crownOf(part *laminate.Part) (m float64, what string, known bool) {
	d := part.InsideDiameter
	switch part.Head {
	case laminate.Torispherical:
		known = d.Given() && part.CrownRadius.Given() && part.KnuckleRadius.Given()
		return surface.CrownRim(d.SI(), part.CrownRadius.SI(), part.KnuckleRadius.SI()), "its crown", known
	case laminate.Ellipsoidal:
		return 0.4 * d.SI(), "80 % of its diameter", d.Given()
	default:
		return 0, "", false
	}
}
