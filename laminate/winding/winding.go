package winding

import (
	"errors"
	"fmt"
	"math"

	"frp/veilwright/laminate"
)

var (
	// ErrDomain is what errors.Is finds in every error about a number outside
	// its domain.
	ErrDomain = errors.New("out of domain")
	// ErrEndless says that a band along the axis never goes round.
	ErrEndless = errors.New("lead is infinite: at 0° the band runs along the axis and never comes round")
	// ErrHoopOnly says that a band straight round carries nothing along.
	ErrHoopOnly = errors.New("hoop to axial ratio is infinite: at 90° the fibers carry nothing along the axis")
	// ErrTooWide says that a band does not fit round the mandrel once.
	ErrTooWide = errors.New("band is wider than the way round the mandrel")
)

// DomainError tells which number is outside the domain it has to lie in.
type DomainError struct {
	Quantity string
	Value    float64 // as given
	Want     string  // the domain, in words, with its unit
}

// Error says the quantity, the value and the domain.
func (e *DomainError) Error() string {
	return fmt.Sprintf("%s is %.6g, must be %s", e.Quantity, e.Value, e.Want)
}

// Is reports whether target is ErrDomain.
func (e *DomainError) Is(target error) bool { return target == ErrDomain }

// within reports whether lo <= v <= hi, which NaN never is.
func within(v, lo, hi float64) bool { return v >= lo && v <= hi }

func checkAngle(deg float64) error {
	if !within(deg, 0, 90) {
		return &DomainError{"winding angle", deg, "from 0 (along the axis) to 90 degrees (round it)"}
	}
	return nil
}

func checkDiameter(d float64) error {
	if !within(d, 1e-4, 1e3) {
		return &DomainError{"diameter", d, "between 1e-4 m and 1000 m"}
	}
	return nil
}

// Band is what the feed eye lays down at once.
type Band struct {
	Tows    int     // rovings side by side, 1 to a million
	TowMass float64 // of one of them, kg/m, 1e-9 to 1
	Width   float64 // of the band on the mandrel, m, 1e-6 to 100
}

func (b Band) check() error {
	if b.Tows < 1 || b.Tows > 1_000_000 {
		return &DomainError{"number of tows", float64(b.Tows), "from 1 to 1000000"}
	}
	if !within(b.TowMass, 1e-9, 1) {
		return &DomainError{"mass of a tow", b.TowMass, "between 1e-9 kg/m and 1 kg/m"}
	}
	if !within(b.Width, 1e-6, 100) {
		return &DomainError{"band width", b.Width, "between 1e-6 m and 100 m"}
	}
	return nil
}

func (b Band) mass() float64 { return float64(b.Tows) * b.TowMass }

// ArealMass returns the fiber of one layer whose bands lie edge to edge, kg/m²:
// tows times tow mass over band width.
func (b Band) ArealMass() (float64, error) {
	if err := b.check(); err != nil {
		return 0, fmt.Errorf("areal mass of a band: %w", err)
	}
	return b.mass() / b.Width, nil
}

// CoverLayers returns of how many layers a cover at the angle consists: two that
// cross, +α and −α, above 0 and below 85 degrees, else one.
func CoverLayers(angleDeg float64) (int, error) {
	if err := checkAngle(angleDeg); err != nil {
		return 0, err
	}
	return coverLayers(angleDeg), nil
}

func coverLayers(deg float64) int {
	if deg > 0 && deg < laminate.HoopFrom {
		return 2
	}
	return 1
}

// Lead returns how far the band advances along the axis in one turn, m: πD/tan α,
// nothing at 90 degrees. At 0 degrees, and so near it that the lead is beyond
// 1e12 m, the error is ErrEndless.
func Lead(diameter, angleDeg float64) (float64, error) {
	if err := checkDiameter(diameter); err != nil {
		return 0, fmt.Errorf("lead: %w", err)
	}
	if err := checkAngle(angleDeg); err != nil {
		return 0, fmt.Errorf("lead: %w", err)
	}
	lead, ok := lead(diameter, angleDeg)
	if !ok {
		return 0, ErrEndless
	}
	return lead, nil
}

func lead(diameter, deg float64) (float64, bool) {
	if deg == 90 {
		return 0, true
	}
	l := math.Pi * diameter / math.Tan(deg*math.Pi/180)
	return l, l <= 1e12
}

// NettingRatio returns the ratio of hoop to axial load that fibers at ±α hold by
// themselves, tan²α; 0 at 0 degrees. At 90 degrees, and so near it that the ratio
// is beyond 1e12, the error is ErrHoopOnly.
//
// Source: netting analysis, Grove 1999.
func NettingRatio(angleDeg float64) (float64, error) {
	if err := checkAngle(angleDeg); err != nil {
		return 0, fmt.Errorf("netting ratio: %w", err)
	}
	ratio, ok := nettingRatio(angleDeg)
	if !ok {
		return 0, ErrHoopOnly
	}
	return ratio, nil
}

func nettingRatio(deg float64) (float64, bool) {
	t := math.Tan(deg * math.Pi / 180)
	if deg == 90 || t*t > 1e12 {
		return 0, false
	}
	return t * t, true
}

// NettingAngle returns the angle in degrees at which fibers hold the given ratio
// of hoop to axial load, at least 0: 54.7 for the 2 of a closed cylinder.
//
// Source: netting analysis, Grove 1999.
func NettingAngle(hoopToAxial float64) (float64, error) {
	if !within(hoopToAxial, 0, 1e12) {
		return 0, fmt.Errorf("netting angle: %w", &DomainError{"hoop to axial ratio", hoopToAxial, "from 0 to 1e12"})
	}
	return math.Atan(math.Sqrt(hoopToAxial)) * 180 / math.Pi, nil
}
