package worked

import (
	"math"

	"frp/veilwright/laminate/stiffness"
	"frp/veilwright/laminate/wall/shell"
)

// Collapse writes what outside pressure, Pa, a wall may bear over a free length in m,
// infinite of an endless tube: by the formula that decides, of the wall's moduli m in
// its plane and flex in bending and the radius of its middle in m. The outside
// diameter Do and the free length L are written before it.
func (w *List) Collapse(f *shell.Collapsing, m *stiffness.Moduli, flex stiffness.Moduli, length, middle, capacity float64, basis string) {
	one := 1 - f.Bent.NuProduct
	t, d, l := w.Length(f.T), w.Length(f.D), w.Length(length)
	hf, at, af := w.Stress(f.Bent.HoopFlexural), w.Stress(f.Bent.AxialTensile), w.Stress(f.Bent.AxialFlexural)
	switch _, which := f.Allowable(length); which {
	case "isotropic formula":
		w.Lowest(*m, flex)
		w.Add("Poisson's ratio of the isotropic formula", "ν", "sqrt(νxy·νyx), both from the inverse of A", Put("sqrt(#·#)", m.Nuxy, m.Nuyx), f.Nu, "", "")
		w.Add("allowable outside pressure, isotropic", "pa", "2.42·E/(1 − ν²)^0.75·(t/Do)^2.5/(L/Do − 0.45·sqrt(t/Do))/5",
			Put("2.42·#/(1 - #^2)^0.75·(#/#)^2.5/(#/# - 0.45·sqrt(#/#))/5", w.Stress(f.Modulus), f.Nu, t, d, l, d, t, d), w.Stress(capacity), w.StressUnit(), basis)
	case "orthotropic formula":
		zp := math.Pow(f.Bent.HoopFlexural, 1.5) / (f.Bent.AxialTensile * math.Sqrt(f.Bent.AxialFlexural)) * math.Sqrt(one) * length * length / (f.D / 2 * f.T)
		w.Add("shape of the shell", "Zp", "Ehf^1.5/(Eat·Eaf^0.5)·(1 − νxνy)^0.5·L²/(Do/2·t)", Put("#^1.5/(#·#^0.5)·#^0.5·#^2/(#/2·#)", hf, at, af, one, l, d, t), zp, "", basis)
		gamma, numbers := 0.9, "0.9"
		if zp <= 100 {
			gamma, numbers = 1-0.001*zp, Put("1 - 0.001·#", zp)
		}
		w.Add("reduction", "γ", "1 − 0.001·Zp up to Zp = 100, 0.9 beyond", numbers, gamma, "", "")
		w.Add("allowable outside pressure, orthotropic", "pa", "0.84·0.8531·γ·Ehf^0.75·Eat^0.25·t^2.5/((1 − νxνy)^0.75·L·(Do/2)^1.5·5)",
			Put("0.84·0.8531·#·#^0.75·#^0.25·#^2.5/(#^0.75·#·(#/2)^1.5·5)", gamma, hf, at, t, one, l, d), w.Stress(capacity), w.StressUnit(), basis)
	default:
		w.Add("allowable outside pressure, endless tube", "pa", "Ehf/(1 − νxνy)·(t/Rm)^3/4/5", Put("#/#·(#/#)^3/4/5", hf, one, t, w.Length(middle)), w.Stress(capacity), w.StressUnit(), basis)
	}
}

// Rings writes the stiffeners that a wall wants under an outside pressure in Pa, where
// it does not hold without: their spacing in m, second moment of area in m⁴, and the
// width of wall in m that acts with each.
func (w *List) Rings(f *shell.Collapsing, spacing, inertia, width, pressure float64) {
	d, one := w.Length(f.D), w.Length(1)
	w.Add("spacing of rings at which the wall between them holds", "L", "by trying: the longest at which the lowest formula allows the vacuum", "", w.Length(spacing), w.LengthUnit(), "")
	w.Add("second moment of area of each ring with its wall", "I", "p·L·Do³·5/(24·Eht)", Put("#·#·#^3·5/(24·#)", w.Stress(pressure), w.Length(spacing), d, w.Stress(f.Membrane)), one*one*one*one*inertia, Pick(w.US, "in⁴", "mm⁴"), "ASME Section X, from memory")
	w.Add("width of wall that acts with it", "w", "1.1·sqrt(Do·t)", Put("1.1·sqrt(#·#)", d, w.Length(f.T)), w.Length(width), w.LengthUnit(), "ASME Section X, from memory")
}
