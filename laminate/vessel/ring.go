package vessel

// remembered is the least thickness of contact-molded flanges, in inches, by nominal
// size in inches and the classes of ringClasses; as many of them as are remembered.
//
// Source: NBS PS 15-69 (from memory, not verified: a bound that finds slips, nothing
// to design by).
var remembered = []struct {
	size  float64
	thick []float64
}{
	{2, []float64{0.5, 0.5, 0.5, 0.5625, 0.625, 0.6875}},
	{3, []float64{0.5, 0.5, 0.5, 0.625, 0.6875, 0.75}},
	{4, []float64{0.5, 0.5, 0.5625, 0.6875, 0.75, 0.8125}},
	{6, []float64{0.5, 0.5, 0.625, 0.75, 0.875, 0.9375}},
	{8, []float64{0.5, 0.5625, 0.75, 0.875, 1, 1.125}},
	{10, []float64{0.5, 0.6875, 0.875, 1.0625, 1.1875, 1.3125}},
	{12, []float64{0.5, 0.75, 1, 1.25, 1.4375, 1.625}},
	{16, []float64{0.5625, 0.875, 1.1875, 1.4375, 1.625, 1.875}},
	{20, []float64{0.6875, 1, 1.3125, 1.625, 1.875, 2.125}},
	{24, []float64{0.75, 1.125, 1.5, 1.875}},
}

// ringClasses are the pressures of the table, psi.
var ringClasses = []float64{25, 50, 75, 100, 125, 150}

// pound is 1 psi in Pa.
const pound = 6894.757293168361

// RememberedFlange is the thickness that a flange of a nominal size and a pressure class
// has at least, in m, by the table above: that of the greatest size and class of it that
// are not above them, which are given too. Not ok below the table.
func RememberedFlange(size, class float64) (thick, ofSize, ofClass float64, ok bool) {
	row, column := -1, -1
	for i := range remembered {
		if d := remembered[i].size * inch; d <= size || SameNominal(d, size) {
			row = i
		}
	}
	for i, c := range ringClasses {
		if c*pound <= class*(1+1e-9) {
			column = i
		}
	}
	if row < 0 || column < 0 {
		return 0, 0, 0, false
	}
	r := remembered[row]
	column = min(column, len(r.thick)-1)
	return r.thick[column] * inch, r.size * inch, ringClasses[column] * pound, true
}
