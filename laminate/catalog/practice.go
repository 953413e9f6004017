package catalog

import (
	"cmp"
	"slices"
	"time"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/quantity"
)

// Figures of practice that rules, advice, fixes and exercises share. Nobody
// else writes them down; a test of the tree looks for a second one.

// Filler shares by mass of the resin mix of a special barrier.
const (
	// HardFillerShare of silicon carbide or aluminum oxide stands abrasion:
	// about 35 %. Common practice, no source.
	HardFillerShare = 0.35
	// CarbonPowderShare makes a mix conductive behind a carbon veil. From
	// memory: conductive powder carries a charge from a few percent on, and at
	// twice this share the mix is too thick to wet a mat. The resistance
	// measured on the wall decides.
	CarbonPowderShare = 0.05
)

// MatsInOneGo is how many chopped plies are laid by hand before heat asks for
// a gel stop. Common practice, no source; wound plies go by the shop's limit.
const MatsInOneGo = 4

var (
	// ThickestInOneGo is the hand-laid thickness that goes with MatsInOneGo: a
	// quarter inch. Common practice, no source.
	ThickestInOneGo = quantity.New(0.25, quantity.Inch)
	// ThickestLid is the most that a flat lid is laid as a plain plate: 3/4 in.
	// Common practice, no source; ribs or a dished head stand in its place.
	ThickestLid = quantity.New(0.75, quantity.Inch)
	// HeaviestBarrier is what fabrication bears, flanges first. Common
	// practice, no source.
	HeaviestBarrier = quantity.New(250, quantity.Mil)
	// ThinnestBarrier is the least inner surface and interior layer together:
	// API 12P 5.4.3.
	ThinnestBarrier = quantity.New(0.080, quantity.Inch)
	// ThinnestInnerSurface is the least inner surface: API 12P 5.4.2.
	ThinnestInnerSurface = quantity.New(0.010, quantity.Inch)
	// ThickestVeilPly is the most inner surface that one veil ply holds: API
	// 12P 5.4.2.
	ThickestVeilPly = quantity.New(0.020, quantity.Inch)
)

// Shares and sizes of a takeoff where the shop book states none. Common
// practice, no source.
const (
	ResinWasteContact = 0.08 // of resin laid by hand
	ResinWasteSprayed = 0.15
	DartingMat        = 0.10 // of mat and veil cut to lie on a head
	DartingWoven      = 0.15 // of woven roving
)

// StripLap is how far neighboring strips of a ply lie over one another. Common
// practice, no source.
var StripLap = quantity.New(1, quantity.Inch)

// BondShear over BondFactor is what one square of a bond onto a cured face is
// taken to carry where the job states nothing of its own. From memory of three
// standards that agree in form.
var BondShear = quantity.New(2000, quantity.PSI)

// MostBondShear is what no bond of laminate is taken to carry at rupture: 3,000 psi
// (21 N/mm²). Laminates of mat tear between their own plies at 3,000 to 4,500 psi in
// short beams, and an overlap onto a cured face, whose ends are sheared most, before
// that: three standards take it at 1,000 to 2,000 psi. From memory.
var MostBondShear = quantity.New(3000, quantity.PSI)

// BondFactor divides BondShear, and LeastBondFactor is the least that a standard known
// here divides a strength by (ADR 6.9.2.3.5, K). From memory.
const (
	BondFactor      = 10.0
	LeastBondFactor = 4.0
)

// UsualBondWindow is how long after a face gelled a ply is commonly laid onto it
// without abrading; the resin manufacturer's word governs. Common practice, no
// source.
const UsualBondWindow = 24 * time.Hour

var (
	// LeastReach is the inside diameter from which a joint is sealed by hand
	// from the inside: 20 in. From memory.
	LeastReach = quantity.New(20, quantity.Inch)
	// ArmReach is how deep in a bore narrower than that, from ArmBore on, a seal is still
	// laid and rolled from its end, and FingerReach in one narrower yet. Common practice,
	// no source.
	ArmReach    = quantity.New(24, quantity.Inch)
	ArmBore     = quantity.New(6, quantity.Inch)
	FingerReach = quantity.New(6, quantity.Inch)
	// LeastSeal is the least width of a seal inside: 3 in. From memory, and common
	// practice, no source.
	LeastSeal = quantity.New(3, quantity.Inch)
	// LeastNeckBond is the least bonded length of a neck: 3 in. From memory.
	LeastNeckBond = quantity.New(3, quantity.Inch)
	// LeastNeckClass is the least pressure class of a nozzle: 25 psi. From
	// memory.
	LeastNeckClass = quantity.New(25, quantity.PSI)
	// GussetedSize is the nominal size up to which a nozzle wants gussets or a
	// conical neck: 4 in. From memory.
	GussetedSize = quantity.New(4, quantity.Inch)
)

// AtmosphericPressure is the most gas pressure of a tank that is called atmospheric,
// and breathes by an open vent: 0.5 psi. 29 CFR 1910.106(a), from memory.
var AtmosphericPressure = quantity.New(0.5, quantity.PSI)

// Sizes of an overlay that a proposal states.
var (
	// FirstStrapWidth is the least width of the first ply of a strap: 2 in. NBS
	// PS 15-69, from memory.
	FirstStrapWidth = quantity.New(2, quantity.Inch)
	// SealWidth is that of a seal inside: 4 in. Common practice, no source.
	SealWidth = quantity.New(4, quantity.Inch)
	// RoomForGap is what a strap leaves room for where nobody states the gap:
	// ¼ in. Common practice, no source.
	RoomForGap = quantity.New(0.25, quantity.Inch)
)

// Strengths of bolting, and what a thread leaves of a bolt. From memory.
var (
	// PlainBoltYield is where bolts of plain carbon and of soft austenitic steel
	// begin to stretch for good: 36 ksi at most (ASTM A307; A193 B8 class 1 lies
	// below). From memory.
	PlainBoltYield = quantity.New(36_000, quantity.PSI)
	// StrongestBolt is what the strongest usual bolts tear at: 125 ksi (ASTM A193
	// B7). From memory.
	StrongestBolt = quantity.New(125_000, quantity.PSI)
)

// BoltCore is the share of a bolt's nominal area that its thread leaves, at most:
// 0.75 of a coarse one of 5/8 in, 0.84 of one of 1-1/2 in with eight threads an
// inch (ASME B1.1, stress areas from memory).
const BoltCore = 0.85

// LeastGussets is how many stand evenly round a nozzle. From memory.
const LeastGussets = 3

// StrongAcidPH is the pH below which a service is judged as strong acid though
// its contents do not say so: about 0.01 mol/l of a strong acid. Common
// practice, no source.
const StrongAcidPH = 2.0

// StrongAcid tells whether a service is strong acid, by what it contains or by
// its pH.
func StrongAcid(s *laminate.Service) bool {
	return s.Contains.Has(laminate.StrongAcid) || s.PH.Given && s.PH.Lowest < StrongAcidPH
}

// The two usual builds. Common practice, no source.
var (
	SingleBuild = laminate.BarrierBuild{ID: "100-mil", Name: "100 mil", Veils: 1, Mats: laminate.MatsBehind(1), Nominal: quantity.New(100, quantity.Mil)}
	DoubleBuild = laminate.BarrierBuild{ID: "200-mil", Name: "200 mil", Veils: 2, Mats: laminate.MatsBehind(2), Nominal: quantity.New(200, quantity.Mil)}
)

// Builds are the two usual ones and the library's own, leanest first; of those
// with as many plies the usual one first.
func Builds(lib *laminate.Library) []laminate.BarrierBuild {
	list := []laminate.BarrierBuild{SingleBuild, DoubleBuild}
	if lib != nil {
		list = append(list, lib.Builds...)
	}
	slices.SortStableFunc(list, func(x, y laminate.BarrierBuild) int {
		return cmp.Or(cmp.Compare(x.Mats, y.Mats), cmp.Compare(x.Veils, y.Veils))
	})
	return list
}

// KnownBuild tells whether a rating's build is a usual one or one of a list.
func KnownBuild(text string, own []laminate.BarrierBuild) bool {
	return slices.ContainsFunc(Builds(&laminate.Library{Builds: own}), func(b laminate.BarrierBuild) bool { return b.Is(text) })
}

// UsualBuild is the build that practice takes for a service: the double one
// where hypochlorite or chlorine dioxide wears the surface down, else the
// single one. Common practice, no source.
func UsualBuild(s *laminate.Service) laminate.BarrierBuild {
	if s.Contains.Has(laminate.Hypochlorite, laminate.ChlorineDioxide) {
		return DoubleBuild
	}
	return SingleBuild
}

// UsualVeil is the id of the built-in veil of a fiber that practice takes, ""
// where there is none.
func UsualVeil(fiber laminate.Fiber) string {
	switch fiber {
	case laminate.CGlass:
		return VeilC15
	case laminate.Polyester:
		return VeilPolyester15
	case laminate.Carbon:
		return VeilCarbon11
	default: // no veil is made of the others
	}
	return ""
}
