package inspection

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"frp/veilwright/laminate/quantity"
)

// ErrTooFew says that there are not enough readings to tell anything.
var ErrTooFew = errors.New("too few readings")

// BarcolReadings is the usual number of Barcol readings; two highest and two
// lowest of them are dropped (from memory, after ASTM D2583 practice in the
// trade's tank standards).
const (
	BarcolReadings = 10
	barcolDropped  = 2 // at each end
	// BarcolShare is the share of the resin manufacturer's figure that is required (from memory).
	BarcolShare = 0.90
	// BarcolGauge is the gauge's tolerance on the reference plate, ± points (EN 59:2016).
	BarcolGauge = 2.0
)

// TooFewBarcol says why fewer readings than ten make no average.
func TooFewBarcol(n int) string {
	return fmt.Sprintf("%s no average: the two highest and the two lowest are left out of it, and ASTM D2583 asks for %d or more (from memory);",
		quantity.Counted(n, "reading makes", "readings make"), BarcolReadings)
}

// BarcolAverage drops the two highest and the two lowest of ten or more
// readings and averages the rest. Fewer than ten give ErrTooFew.
func BarcolAverage(readings []float64) (float64, error) {
	if len(readings) < BarcolReadings {
		return 0, fmt.Errorf("%d of %d Barcol readings: %w", len(readings), BarcolReadings, ErrTooFew)
	}
	sorted := slices.Sorted(slices.Values(readings))
	kept := sorted[barcolDropped : len(sorted)-barcolDropped]
	return mean(kept), nil
}

// Statistics of a set of readings, in the readings' unit.
type Statistics struct {
	Count                 int
	Mean, Lowest, Highest float64
	Deviation             float64 // sample standard deviation, 0 for a single reading
}

// Summarize gives the statistics of one or more readings.
func Summarize(readings []float64) (Statistics, error) {
	if len(readings) == 0 {
		return Statistics{}, fmt.Errorf("no reading: %w", ErrTooFew)
	}
	s := Statistics{Count: len(readings), Mean: mean(readings), Lowest: slices.Min(readings), Highest: slices.Max(readings)}
	if s.Count > 1 {
		sum := 0.0
		for _, r := range readings {
			sum += (r - s.Mean) * (r - s.Mean)
		}
		s.Deviation = math.Sqrt(sum / float64(s.Count-1))
	}
	return s, nil
}

func mean(list []float64) float64 {
	sum := 0.0
	for _, v := range list {
		sum += v
	}
	return sum / float64(len(list))
}

// Loss is the ignition loss as a share of the mass before (ASTM D2584):
// (before − after)/before, both in one unit.
func Loss(before, after float64) (float64, error) {
	switch {
	case !(before > 0) || math.IsInf(before, 0):
		return 0, errors.New("the mass before ignition must be above zero")
	case !(after >= 0):
		return 0, errors.New("the mass after ignition must not be negative")
	case after > before:
		return 0, errors.New("the mass after ignition is above the mass before")
	}
	return (before - after) / before, nil
}

// Burned is what is known of a specimen beside glass and resin.
type Burned struct {
	Filler  float64 // mineral filler, share of the resin mix by mass; it stays with the glass
	Organic float64 // organic veil, share of the specimen by mass; it burns with the resin
}

// GlassFromResidue gives the glass share by mass from the share left after
// ignition: residue R = g + φ(1−g−o), so g = (R − φ(1−o))/(1−φ). A residue too
// small for the filler is an error: the filler is not as stated. Carbon fiber
// or carbon powder neither stays whole nor burns whole at 565 °C: with them the
// glass share cannot be told this way and the caller must not ask.
func GlassFromResidue(residue float64, b Burned) (float64, error) {
	switch {
	case !(residue >= 0 && residue <= 1):
		return 0, fmt.Errorf("residue %.3g is no share of 1", residue)
	case !(b.Filler >= 0 && b.Filler < 1):
		return 0, fmt.Errorf("filler %.3g is no share of the mix", b.Filler)
	case !(b.Organic >= 0 && b.Organic < 1):
		return 0, fmt.Errorf("organic veil %.3g is no share of the specimen", b.Organic)
	}
	g := (residue - b.Filler*(1-b.Organic)) / (1 - b.Filler)
	if g < -1e-12 {
		return 0, fmt.Errorf("the residue %.3f is less than the filler stated would leave", residue)
	}
	return max(g, 0), nil
}

// DewPoint is the temperature in °C at which air of the temperature in °C and
// relative humidity (share, above 0 up to 1) begins to wet a surface: Magnus
// formula with the WMO's coefficients over water, within 0.1 K from −45 to 60 °C.
func DewPoint(celsius, humidity float64) (float64, error) {
	if !(humidity > 0 && humidity <= 1) {
		return 0, fmt.Errorf("relative humidity %.3g is not above 0 and at most 1", humidity)
	}
	if !(celsius >= -45 && celsius <= 60) {
		return 0, fmt.Errorf("air at %.4g °C lies outside the formula's −45 to 60 °C", celsius)
	}
	const a, b = 17.62, 243.12
	gamma := math.Log(humidity) + a*celsius/(b+celsius)
	return b * gamma / (a - gamma), nil
}

// Limits of the ambient conditions at lay-up.
const (
	DewPointMargin  = 3.0  // K, surface above dew point, [ByDewPoint]
	LowestAir       = 15.0 // °C, [ByPractice]
	HighestHumidity = 0.80 // [ByPractice]
)

// What the limits rest on.
const (
	ByDewPoint = "ISO 8502-4, ISO 12944-7, second-hand"
	ByPractice = "common practice, no source"
)
