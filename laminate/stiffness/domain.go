package stiffness

import (
	"errors"
	"fmt"
)

var (
	// ErrDomain is what errors.Is finds in every error about a number outside
	// its domain.
	ErrDomain = errors.New("out of domain")
	// ErrNoLayers says that a laminate was asked for without any layer.
	ErrNoLayers = errors.New("laminate has no layers")
	// ErrIllConditioned is what errors.Is finds where a laminate is so much
	// softer one way than another that its compliance is not to be trusted.
	ErrIllConditioned = errors.New("ill-conditioned")
)

// DomainError tells which number is outside the domain it has to lie in.
type DomainError struct {
	Quantity string  // what it is, in words, with its place where there is one
	Value    float64 // as given
	Want     string  // the domain, in words, with its unit
}

// Error says the quantity, the value and the domain.
func (e *DomainError) Error() string {
	return fmt.Sprintf("%s is %.6g, must be %s", e.Quantity, e.Value, e.Want)
}

// Is reports whether target is ErrDomain.
func (e *DomainError) Is(target error) bool { return target == ErrDomain }

// The domains. They are no engineering limits: they only keep squares and
// cubes of anything that passes far from overflow and underflow.
const (
	minModulus   = 1.0   // Pa
	maxModulus   = 1e15  // Pa
	minThickness = 1e-9  // m, of a layer
	maxThickness = 100.0 // m, of a laminate
	maxAngle     = 360.0 // degrees either way
	maxLoad      = 1e15  // N/m and N
	maxStrain    = 1e6   // ratio; a curvature likewise in 1/m
	minLimit     = 1e-12 // ratio, an allowable strain
)

// within reports whether lo <= v <= hi, which NaN never is.
func within(v, lo, hi float64) bool { return v >= lo && v <= hi }

func checkModulus(name string, v float64) error {
	if !within(v, minModulus, maxModulus) {
		return &DomainError{name, v, "between 1 Pa and 1e15 Pa"}
	}
	return nil
}

// numbered names a quantity of the layer with index i, counted from one as
// people do.
func numbered(i int, quantity string) string {
	return fmt.Sprintf("layer %d %s", i+1, quantity)
}
