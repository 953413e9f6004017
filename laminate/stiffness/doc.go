// Package stiffness takes fiber and resin to a ply, plies to a laminate, and a
// laminate to the strains and stresses of every ply and the load at which the
// first one fails.
//
// Everything here is plain float64 in SI: pascals, meters, newtons a meter of
// width for line loads, newtons for moments a meter of width. Angles alone are
// in degrees, because that is what a schedule says; shear strain is the
// engineering one, twice the tensor's.
//
// Axes: x runs along the pipe, y round it, z outward from the middle of the
// layers given, the first layer having the lowest z. Axis 1 of a ply is its
// fiber (the warp of a cloth), turned from x toward y by the layer's angle.
//
// A deformation is plane stress, small strain and linear, by classical
// lamination theory (Jones, Mechanics of Composite Materials; Kaw, Mechanics of
// Composite Materials). Left out: thermal strain, the shrink of cure, moisture,
// creep, what a ply still carries after it has failed, and everything through
// the thickness, delamination among it.
//
// Numbers from outside are judged where they enter, each against a stated
// domain wide enough for any material and narrow enough that nothing computed
// from them can overflow: no function here returns NaN or an infinity.
//
// The package imports nothing of the module. A Laminate is immutable and safe
// for use by several goroutines.
package stiffness
