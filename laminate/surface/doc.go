// Package surface gives the areas of the surfaces that laminate is laid on, and
// what heads hold. Everything is plain float64 in SI: meters, square meters,
// cubic meters; angles in radians.
//
// Each formula is that of one smooth surface: whoever wants a ply's own area
// passes the radii of the ply's middle. The formulas are geometry and need no
// source beyond a textbook; tests integrate them numerically.
//
// The package imports nothing of the module. No function returns NaN or an
// infinity for finite sizes: what is no such surface is an error.
package surface
