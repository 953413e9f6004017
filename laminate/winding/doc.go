// Package winding figures how a flat band of rovings covers a round mandrel:
// how far it advances in a turn, how many circuits close the cover, how much the
// bands overlap, what that weighs and how thick it is.
//
// Everything is plain float64 in SI: meters, kilograms, kilograms a meter for a
// tow (1 tex = 1e-6 kg/m). Angles are in degrees from the axis of the mandrel, 0
// along it and 90 round it. The diameter is that of the surface which the layer
// is laid on.
//
// The geometry is that of a helix cut open and laid flat. Left out: the domes
// and turnarounds at the ends, slip and the friction that holds a band off its
// geodesic, the growth of the diameter within a layer.
//
// The package imports nothing of the module and no function returns NaN or an
// infinity: where a figure is infinite, a flag or an error says so.
package winding
