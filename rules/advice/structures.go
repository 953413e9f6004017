package advice

import (
	"cmp"
	"slices"
	"strings"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/catalog"
	"frp/veilwright/laminate/edit"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/wall"
	"frp/veilwright/laminate/wall/form"
	"frp/veilwright/laminate/wall/repeat"
	"frp/veilwright/laminate/wall/service"
	"frp/veilwright/laminate/wall/shell"
	"frp/veilwright/rules"
	"frp/veilwright/rules/structure"
)

// seed is the least structure of one kind, which the wall's inverse adds to.
type seed struct {
	unit     repeat.Unit
	plies    []laminate.Ply
	standard bool // of what shops keep as their usual structure
}

// standard materials of structural units (common practice, no source).
var standard = map[string]bool{catalog.Mat15: true, catalog.Woven24: true, catalog.BandHelical: true, catalog.BandHoop: true, catalog.Chop15: true}

func newSeed(unit repeat.Unit, plies ...laminate.Ply) seed {
	return seed{unit, plies, !slices.ContainsFunc(plies, func(p laminate.Ply) bool { return !standard[p.Material] })}
}

// seeds are the structures to try: those of the unit that is asked for, else by
// hand where the part is contact-molded or does not say, by winding where it is
// wound.
func (f *finder) seeds() []seed {
	list := f.allSeeds()
	if f.o.Unit != repeat.NoUnit {
		list = slices.DeleteFunc(list, func(s seed) bool { return s.unit != f.o.Unit })
	}
	like := slices.DeleteFunc(slices.Clone(list), func(s seed) bool {
		return slices.ContainsFunc(s.plies, func(p laminate.Ply) bool {
			return !slices.ContainsFunc(f.o.Structure, func(q laminate.Ply) bool { return q.Material == p.Material && q.Angle == p.Angle })
		})
	})
	if len(like) > 0 {
		return like
	}
	return list
}

// byHand tells whether structures are laid by hand, else they are wound.
func (f *finder) byHand() bool {
	switch f.o.Unit {
	case repeat.Mat, repeat.MatAndWoven:
		return true
	case repeat.WoundCover, repeat.HoopAndChop:
		return false
	case repeat.NoUnit:
	}
	return f.s.Part.Process != laminate.Wound
}

func (f *finder) allSeeds() []seed {
	form := func(want laminate.Form) []*laminate.Material {
		return catalog.Materials(f.lib, f.s, func(m *laminate.Material) bool { return m.Form == want && m.Fiber.Glass() })
	}
	ply := func(m *laminate.Material) laminate.Ply { return laminate.Ply{Material: m.ID, Count: 1} }
	var list []seed
	if f.byHand() {
		for _, m := range form(laminate.ChoppedMat) {
			list = append(list, newSeed(repeat.Mat, ply(m)))
			for _, w := range form(laminate.WovenRoving) {
				list = append(list, newSeed(repeat.MatAndWoven, ply(m), ply(w), ply(m)))
			}
		}
		return list
	}
	for _, band := range form(laminate.RovingBand) {
		for _, deg := range angles(band) {
			b := ply(band)
			b.Angle = laminate.Some(deg)
			if deg < laminate.HoopFrom {
				for _, m := range form(laminate.ChoppedMat) {
					list = append(list, newSeed(repeat.WoundCover, ply(m), b))
				}
				continue
			}
			for _, c := range form(laminate.SprayedChop) {
				list = append(list, newSeed(repeat.HoopAndChop, ply(c), b, ply(c)))
			}
		}
	}
	return list
}

// angles are those a band is tried at: its usual one, else helical at the usual
// angle and hoop.
func angles(m *laminate.Material) []float64 {
	if deg, ok := catalog.UsualAngle(m.ID); ok {
		return []float64{deg}
	}
	helical, _ := catalog.UsualAngle(catalog.BandHelical)
	hoop, _ := catalog.UsualAngle(catalog.BandHoop)
	return []float64{helical, hoop}
}

// wallResins are what the structure behind a barrier may be laid in: the
// barrier's own resin without filler, and, where prices decide, every product
// that would stand the fluid too.
func (f *finder) wallResins(b *barrier) []laminate.Resin {
	if r, ok := f.s.Resin(f.o.mix()); ok {
		return []laminate.Resin{*r}
	}
	unfilled := func(r *laminate.Resin) bool { return r.Filler == laminate.NoFiller }
	products := f.products(unfilled)
	own := b.recipe.Barrier
	own.Filler, own.FillerContent, own.FillerDensity = laminate.NoFiller, laminate.Optional[float64]{}, quantity.Density{}
	var list []laminate.Resin
	for _, p := range products {
		if p.Family == own.Family || p.Price.Given() {
			if _, there := f.s.Resin(p.ID); !there {
				p.Origin = 0
			}
			list = append(list, p)
		}
	}
	if len(list) > 0 {
		if _, there := f.s.Resin(list[0].ID); there {
			slices.Reverse(list) // where prices do not decide, the last that is named, as of repeats
		}
		return list
	}
	own.ID, own.Origin, own.Cure = edit.FreeID(f.s, "structure"), 0, laminate.NoCure
	return []laminate.Resin{own}
}

// structures puts walls on the barriers.
func (f *finder) structures(barriers []barrier) []Candidate {
	var list, bare []Candidate
	coat, _ := catalog.Pick(f.lib, f.s, usualCoat, isCoat)
	for i := range barriers {
		b := &barriers[i]
		for _, resin := range f.wallResins(b) {
			header, assumed := f.assume(&resin)
			for _, seed := range f.seeds() {
				r := b.recipe
				r.Wall, r.Coat, r.Structure = resin, coat, seed.plies
				if f.o.VeilOutside {
					r.Outside = r.Veil
				}
				for k, held := range f.held(header, seed.standard) {
					start := r.Build(held.header, f.lib)
					need, err := repeat.Need(start, f.lib, seed.unit, f.reading())
					if err != nil {
						f.trouble = cmp.Or(f.trouble, err.Error())
						if reason := cannotTell(start, f.lib, f.reading()); k == 0 && len(bare) == 0 && reason != "" {
							if c, ok := f.least(r, seed, b.notes, reason); ok {
								bare = append(bare, c)
							}
						}
						continue
					}
					c := f.enough(r, seed, &need, &held, slices.Concat(b.notes, assumed, held.notes(&need, f.o.Units)))
					if held.ends && standsEndless(&c) {
						c.Notes = slices.DeleteFunc(slices.Clone(c.Notes), func(n string) bool { return n == held.atEnds(f.o.Units) })
					}
					c.Figures.Standard, c.Figures.Rings = seed.standard, held.rings
					if c.Figures.Breaks == 0 {
						list = append(list, c)
					}
					if k == 0 && need.Governing.Name != wall.ExternalPressure {
						break // rings would save nothing
					}
				}
			}
		}
	}
	if len(list) > 0 {
		return list
	}
	return bare
}

// mostExtra is how many repeats more than the design basis asks for are tried to
// be rid of a warning.
const mostExtra = 8

// enough judges the structure that holds, and where a rule warns that it is
// strained too much or holds on typical moduli only, the least that it does not
// warn of.
func (f *finder) enough(r edit.Recipe, like seed, need *repeat.Needed, as *held, notes []string) Candidate {
	plies := slices.Concat(like.plies, bared(need.Plies))
	unit := like.plies
	if len(unit) > 1 {
		unit = unit[1:] // what comes first comes once
	}
	r.Structure = plies
	first := f.judge(&r, as, "", notes)
	c := first
	for extra := 0; strained(&c); extra++ {
		if extra == mostExtra {
			return first
		}
		plies = slices.Concat(plies, unit)
		r.Structure = plies
		c = f.judge(&r, as, "", notes)
	}
	return c
}

func strained(c *Candidate) bool {
	return slices.ContainsFunc(c.assumed.Findings, func(f rules.Finding) bool {
		return f.Rule == structure.WallOverstrained || f.Rule == structure.TypicalModuliOnly
	})
}

// held is a way to hold a wall round against outside pressure.
type held struct {
	header  *laminate.Schedule
	spacing quantity.Length // as the proposal states it
	rings   float64         // m apart, 0 for none
	ends    bool            // that the ends hold it is assumed
}

// ringsOf divides the length of a part into bays.
var ringsOf = [...]float64{2, 3, 4, 6, 8, 12}

// held lists the ways to try: as the part says and as its joints have it, and where
// neither tells and there is outside pressure held at its ends, or at those of its line,
// and by rings, which a standard structure alone is tried with: that keeps the search
// short.
func (f *finder) held(header *laminate.Schedule, rings bool) []held {
	p := &header.Part
	list := []held{{header: header, spacing: p.StiffenerSpacing}}
	if !p.Form.HeldRound() || p.StiffenerSpacing.Given() || !(header.Service.Vacuum.SI() > 0) {
		return list
	}
	with := func(length float64) held {
		s := *header
		s.Part.StiffenerSpacing = quantity.New(length, quantity.Meter)
		if f.o.Units == quantity.US {
			s.Part.StiffenerSpacing = s.Part.StiffenerSpacing.Spelled(quantity.Foot)
		}
		return held{header: &s, spacing: s.Part.StiffenerSpacing}
	}
	long := p.Length.SI()
	if to := cmp.Or(p.Place.Free.Length, long); to > 0 && p.Form != laminate.ShellCourse && !form.FreeLength(p).Given {
		list[0] = with(to)
		list[0].ends, list[0].spacing = true, quantity.Length{}
	}
	if rings && long > 0 && p.Form != laminate.Cone && p.Form != laminate.Elbow {
		for _, n := range ringsOf {
			h := with(long / n)
			h.rings = h.spacing.SI()
			list = append(list, h)
		}
	}
	return list
}

// standsEndless tells of a wall that holds its outside pressure as it is proposed, with
// nothing stated that holds it round: then nothing is assumed to.
func standsEndless(c *Candidate) bool {
	return c.Report.Wall != nil && slices.ContainsFunc(c.Report.Wall.Criteria, func(k wall.Criterion) bool {
		return k.Name == wall.ExternalPressure && k.Answer == wall.Holds
	})
}

// atEnds says that the ends are taken to hold it.
func (h *held) atEnds(u quantity.System) string {
	whose := "the part is held round at its ends, "
	if h.header.Part.Place.Free.Open != "" {
		whose = "the line that joints make of the part is held round at its ends, "
	}
	return "assumed for the structure: " + whose + u.AtMost(h.header.Part.StiffenerSpacing.SI(), quantity.Distance) + " apart; state what holds it (stiffener_spacing)"
}

// notes say what was taken for the wall to be held by.
func (h *held) notes(need *repeat.Needed, u quantity.System) []string {
	apart := u.AtMost(h.header.Part.StiffenerSpacing.SI(), quantity.Distance)
	switch {
	case h.ends:
		return []string{h.atEnds(u)}
	case h.rings > 0:
		section := ""
		if i, ok := shell.StiffenerInertia(h.header.Service.Vacuum.SI(), h.rings, h.header.Part.InsideDiameter.SI()+2*need.Result.Whole, need.Result.Membrane.Ey); ok {
			section = ", each of a second moment of area of at least " + u.AtLeast(i, quantity.SecondMoment) + " with the wall (ASME Section X, from memory)"
		}
		return []string{"rings in the place of glass: at most " + apart + " apart (stiffener_spacing)" + section}
	}
	return nil
}

// reading is how the wall is evaluated: as it stands, in the reader's units.
func (f *finder) reading() wall.Options { return wall.Options{Units: laminate.Some(f.o.Units)} }

// cannotTell says what of the wall cannot be determined for want of a fact, not for want of
// plies, each reason once; empty where nothing is.
func cannotTell(s *laminate.Schedule, lib *laminate.Library, o wall.Options) string {
	var reasons, said []string
	r := wall.Evaluate(s, lib, laminate.Analyze(s, lib), o)
	for _, c := range r.Criteria {
		if c.Governs && c.Answer == wall.Incomplete && !slices.Contains(reasons, c.Reason) {
			reasons = append(reasons, c.Reason)
			said = append(said, c.Title()+" cannot be determined: "+c.Reason)
		}
	}
	for _, o := range r.Unknown { // a criterion tells one of several reasons, and none where it fails without
		if !slices.Contains(reasons, o.Reason) {
			reasons = append(reasons, o.Reason)
			said = append(said, o.Name+" cannot be determined: "+o.Reason)
		}
	}
	return strings.Join(said, "; ")
}

// assume takes for granted what the service and the part do not state and a
// structure needs, and says so: the proposal is written without it, and stays
// incomplete until somebody has stated it.
func (f *finder) assume(resin *laminate.Resin) (*laminate.Schedule, []string) {
	s := *f.s
	var notes []string
	none := quantity.New(0, quantity.Pascal)
	if !s.Service.Pressure.Given() {
		s.Service.Pressure = none
		notes = append(notes, "assumed for the structure: no pressure; state it (pressure)")
	}
	if !s.Service.Vacuum.Given() {
		s.Service.Vacuum = none
		notes = append(notes, "assumed for the structure: no vacuum; state it (vacuum)")
	}
	if beyond := service.Beyond(&s, f.o.Units); beyond.Why != "" {
		s.Conditions = nil
		notes = append(notes, "assumed for the structure: the service's highest pressure, vacuum and temperature come together, for "+beyond.Why)
	}
	if s.Part.Basis() == laminate.NoBasis {
		// The limit on strain is the one that asks for more glass.
		s.Part.DesignBasis = laminate.StrainLimit
		notes = append(notes, "assumed for the structure: the strain limit decides; state how it is built or what decides (process, design_basis)")
	}
	if s.Part.Basis() == laminate.StrengthTable && !f.byHand() {
		s.Part.DesignBasis = laminate.StrainLimit
		notes = append(notes, "assumed for the structure: the strain limit, since the strength table is not for wound walls; state another basis (design_basis)")
	}
	if tank := s.Part.Form == laminate.Tank; tank && !s.Part.LiquidHeight.Given() && s.Part.Length.Given() {
		s.Part.LiquidHeight = s.Part.Length
		notes = append(notes, "assumed for the structure: liquid up to the top of the straight side; state its height (liquid_height)")
	}
	if s.Part.LiquidHeight.SI() > 0 && !s.Service.SpecificGravity.Given {
		s.Service.SpecificGravity = laminate.Some(1.0)
		notes = append(notes, "assumed for the structure: a liquid as heavy as water; state its specific gravity (specific_gravity)")
	}
	if kept, warm := service.Typical(&f.s.Service, resin, f.lib); warm && !s.Part.ModulusRetention.Given {
		s.Part.ModulusRetention = laminate.Some(kept)
		notes = append(notes, RetentionAssumed(kept))
	}
	return &s, notes
}

// RetentionAssumed says what a proposal assumes of a warm wall.
func RetentionAssumed(kept float64) string {
	return "assumed for the structure: the warm wall keeps " + quantity.Share(kept) +
		" of its cold modulus, from memory; state what the resin manufacturer or a test says (modulus_retention)"
}

// least is a candidate with the least structure that anybody builds, where a
// fact that nobody can assume is missing: which one is its reason.
func (f *finder) least(r edit.Recipe, like seed, notes []string, reason string) (Candidate, bool) {
	assumed, told := f.assume(&r.Wall)
	none := quantity.New(0, quantity.Pascal)
	var need repeat.Needed
	var err error
	figuredFor := ""
	for _, x := range []struct {
		what string
		drop func(*laminate.Schedule)
	}{
		{"what is stated", func(*laminate.Schedule) {}},
		{"what is stated but for the vacuum", func(s *laminate.Schedule) { s.Service.Vacuum = none }},
		{"no load", func(s *laminate.Schedule) {
			s.Service.Pressure, s.Service.TestPressure, s.Part.ModulusRetention = none, quantity.Pressure{}, laminate.Some(1.0)
			s.Part.Form, s.Part.LiquidHeight = laminate.Pipe, quantity.Length{}
		}},
	} {
		header := *assumed
		if header.Part.Form == laminate.Tank && !header.Part.LiquidHeight.Given() {
			header.Part.LiquidHeight, header.Service.SpecificGravity = quantity.New(1, quantity.Millimetre), laminate.Some(1.0) // next to nothing
		}
		x.drop(&header)
		assumed = &header
		figuredFor = x.what
		if need, err = repeat.Need(r.Build(&header, f.lib), f.lib, like.unit, f.reading()); err == nil {
			break
		}
	}
	if err != nil {
		return Candidate{}, false
	}
	r.Structure = slices.Concat(like.plies, bared(need.Plies))
	notes = slices.Concat(notes, told, []string{"the structure is the least for " + figuredFor + ", and not figured: " + reason})
	c := f.judge(&r, &held{header: f.s, spacing: f.s.Part.StiffenerSpacing}, reason, notes)
	c.Figures.Standard = like.standard
	return c, true
}

// bared takes resin and zone off plies: the recipe gives them.
func bared(plies []laminate.Ply) []laminate.Ply {
	var list []laminate.Ply
	for _, p := range plies {
		p.Resin, p.Zone, p.GelAfter = "", laminate.NoZone, false
		list = append(list, p)
	}
	return list
}
