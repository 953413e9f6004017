package shell

// Bore gives how many times the membrane's hoop strain at the middle of a ring
// that of its inside face is. a and b are its inside and outside radius, nu is
// Poisson's ratio, closed the share of the end thrust that it carries (0 to 1),
// and outside tells that the pressure acts from there. It is of an isotropic
// ring: one that is stiffer round than through sees more.
//
// Source: Lamé's thick cylinder, as in Roark, Formulas for stress and strain
// (second-hand).
func Bore(a, b, nu, closed float64, outside bool) float64 {
	k := b / a
	square, middle, thick := k*k-1, (a+b)/2, b-a
	// Of a pressure of 1: round, through and along at the inside face; then of the membrane.
	round, through, along := (k*k+1)/square, -1.0, closed/square
	membrane, membraneAlong := a/thick, closed*a*a/(2*middle*thick)
	if outside {
		round, through, along = -2*k*k/square, 0, -closed*k*k/square
		membrane, membraneAlong = -b/thick, -closed*b*b/(2*middle*thick)
	}
	return (round - nu*(through+along)) / (membrane - nu*membraneAlong)
}
