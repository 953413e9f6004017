// Package laminate is the model: a schedule of plies with its part, service,
// resins and materials, as plain values, and what follows from them by
// arithmetic alone (zones, thickness, mass, fractions).
//
// It knows no file, no screen and no rule. Values are immutable by
// convention: an edit makes a new Schedule that shares what did not change,
// so a Schedule may be read from several goroutines.
//
// Figures computed here are bare float64 in SI units (m, kg/m², Pa, K); what a
// person states is a quantity that keeps its spelling.
package laminate
