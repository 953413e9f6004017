// Package inspection is the arithmetic of what an inspector reads: Barcol
// averages, glass content from an ignition test, the dew point at lay-up,
// thickness statistics, and the spread a reading should be expected in.
//
// It judges nothing; figures are bare float64 in the units each comment names.
package inspection
