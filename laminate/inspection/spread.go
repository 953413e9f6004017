package inspection

import (
	"errors"
	"math"

	"frp/veilwright/laminate"
)

// Tolerance is how far single plies stray, as the half-width of the range that
// holds 95 of 100.
type Tolerance struct {
	ArealMass    float64 // share of the areal mass: 0.10 is ±10 %
	ResinContent float64 // resin share by mass, absolute: 0.03 is ±3 points
}

// Expected is a mean and the half-width of its 95 % range.
type Expected struct{ Mean, Half float64 }

// Spread is what readings of a group of plies should be expected in.
type Spread struct {
	Thickness    Expected // m
	GlassContent Expected // share by mass; zero where there is no mass
}

const ninetyFive = 1.959963984540054 // standard deviations that hold 95 % (normal distribution)

// Predict gives the expected thickness and glass content of the rows that in
// selects, by first-order propagation with every ply straying by itself:
// t = W/ρf + W(1−g)/(gρb), so ∂t/∂W = t/W and ∂t/∂g = −W/(g²ρb). A crew that
// runs wet on every ply strays more than this. Coats without fiber are taken
// as exact. A lamina without mass cannot be predicted.
func Predict(a *laminate.Analysis, in func(laminate.Zone) bool, tol Tolerance) (Spread, error) {
	if !(tol.ArealMass >= 0 && tol.ArealMass < 1) || !(tol.ResinContent >= 0 && tol.ResinContent < 1) {
		return Spread{}, errors.New("a tolerance must lie between 0 and 1")
	}
	var thick, mass, glass float64
	for i := range a.Rows {
		r := &a.Rows[i]
		if !in(r.Zone) {
			continue
		}
		if !r.MassKnown {
			return Spread{}, errors.New("a ply's mass is not known")
		}
		n := float64(r.Last - r.First + 1)
		thick += n * r.Thickness
		mass += n * r.Mass
		glass += n * r.GlassMass
	}
	var varT, varG float64
	sigmaW, sigmaG := tol.ArealMass/ninetyFive, tol.ResinContent/ninetyFive
	for i := range a.Rows {
		r := &a.Rows[i]
		if !in(r.Zone) || r.FiberMass <= 0 {
			continue
		}
		n := float64(r.Last - r.First + 1)
		w, g := r.FiberMass, r.FiberMass/r.Mass
		binder := (r.Mass - w) / (r.Thickness - r.FiberVolume) // kg/m³, voids spread in it
		dtw, dtg := r.Thickness/w, -w/(g*g*binder)
		varT += n * (sq(dtw*w*sigmaW) + sq(dtg*sigmaG))
		// Glass share G = ΣWglass/Σm with m = W/g.
		own := 0.0
		if r.GlassMass > 0 {
			own = 1 / mass
		}
		dgw := own - glass/(mass*mass)/g
		dgg := glass / (mass * mass) * w / (g * g)
		varG += n * (sq(dgw*w*sigmaW) + sq(dgg*sigmaG))
	}
	s := Spread{Thickness: Expected{Mean: thick, Half: ninetyFive * math.Sqrt(varT)}}
	if mass > 0 {
		s.GlassContent = Expected{Mean: glass / mass, Half: ninetyFive * math.Sqrt(varG)}
	}
	return s, nil
}

func sq(x float64) float64 { return x * x }
