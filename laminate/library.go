package laminate

import (
	"strings"

	"frp/veilwright/laminate/quantity"
)

// Library is what is known beyond the schedule: built-in materials, fibers
// and resin families, and the shop's own. It is read-only once made.
type Library struct {
	Materials  []Material    // in the order racks show them; earlier ids win
	Resins     []Resin       // the shop's own resins, to copy into schedules
	Families   [9]FamilyData // by Family
	Fibers     [6]FiberData  // by Fiber
	Fillers    [4]FillerData // by Filler
	Ratings    []Rating
	Builds     []BarrierBuild // the shop's own, beside the two usual ones of package catalog
	Letterhead Letterhead
	Rack       []string // the shop's order of the rack, material ids
	Books      []string // the shop books used, as reports name them

	byID map[string]int
}

// FamilyData are typical figures of a resin family, cured and unfilled.
type FamilyData struct {
	Density       quantity.Density
	Modulus       quantity.Pressure
	Poisson       float64
	FailureStrain float64
	// HeatDeflection is typical of an unfilled casting, for a resin that states
	// none of its own; not given where nothing is known.
	HeatDeflection quantity.Temperature
	Source         string
}

// FiberData are typical figures of a fiber.
type FiberData struct {
	Density quantity.Density
	Modulus quantity.Pressure
	Poisson float64
	Source  string
}

// FillerData are typical figures of a filler.
type FillerData struct {
	Density quantity.Density
	Source  string
}

// BarrierBuild is a barrier by its plies and the thickness it goes by in the
// trade.
type BarrierBuild struct {
	Origin
	ID          string // of advice
	Name        string // as the trade says it and shop books may, "" for none
	Veils, Mats int
	Nominal     quantity.Length // not given for a shop's own
	Book        string          // of a shop's own: the file it stands in
}

// Is tells whether a rating's build is this one, by id or name; case and what
// parts its words do not matter.
func (b *BarrierBuild) Is(text string) bool {
	text = strings.Join(strings.Fields(text), "-")
	return strings.EqualFold(text, b.ID)
}

// Rating is one row of a shop book: what the resin maker or the shop's own
// coupons (ASTM C581) gave for a service.
type Rating struct {
	Fluid          string
	Concentration  [2]float64 // lowest, highest share by mass
	MaxTemperature quantity.Temperature
	Family         Family
	Build          string // the id of a build, or "100 mil" or "200 mil"
	Grade          string
	Source, Date   string
	Book           string // file it stands in
	Line           int
}

// Letterhead is the shop as its papers name it; nothing by default.
type Letterhead struct{ Name, Address string }

// Index prepares look-ups; call it once after filling Materials. Earlier
// entries win over later ones of the same id.
func (l *Library) Index() {
	l.byID = make(map[string]int, len(l.Materials))
	for i := range l.Materials {
		if _, taken := l.byID[l.Materials[i].ID]; !taken {
			l.byID[l.Materials[i].ID] = i
		}
	}
}

// Material finds a material by id: the schedule's own first, then the
// library's. s may be nil.
func (l *Library) Material(s *Schedule, id string) (*Material, bool) {
	if s != nil {
		for i := range s.Materials {
			if s.Materials[i].ID == id {
				return &s.Materials[i], true
			}
		}
	}
	if i, ok := l.byID[id]; ok {
		return &l.Materials[i], true
	}
	return nil, false
}
