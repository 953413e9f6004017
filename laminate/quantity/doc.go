// Package quantity holds physical values with their units: what a person
// typed ("3/16 in", "1.5 oz/ft2", "180 degF") and the SI figure it stands for.
//
// Every dimension is a type of its own (Length, Pressure, …), so a length
// cannot be given where a pressure belongs and a bare number cannot become
// either. The zero value of every quantity means "not given".
//
// Conversions are exact from the international pound (0.45359237 kg), the
// foot (0.3048 m) and standard gravity (9.80665 m/s²); inHg is the
// conventional inch of mercury at 0 °C, 3386.389 Pa, inH2O and mmH2O are of
// conventional water, 249.0889 Pa and 9.80665 Pa (NIST SP 811, app. B).
package quantity
