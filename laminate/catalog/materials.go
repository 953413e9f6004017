package catalog

import (
	"frp/veilwright/laminate"
	"frp/veilwright/laminate/quantity"
)

// Fiber shares by mass.
const (
	veilShare  = 0.10 // common practice, no source: about 90 % resin
	wovenShare = 0.55 // from memory
	uniShare   = 0.55 // from memory
	bandShare  = 0.70 // from memory
)

const (
	veilSource  = "the figure of the id is the thickness of a ply in mil, computed from the areal mass at 90 % resin; " + fromMemory
	matSource   = "glass content in the barrier API 12P 5.4.3; in the structure common practice, no source; density " + fromMemory
	wovenSource = "density of E-glass (2540 to 2580 kg/m3) and glass content " + fromMemory
	bandSource  = "tow of 2200 tex; number of tows, band width and glass content " + fromMemory + ", for the shop to replace"
	coatSource  = "thickness common practice, no source"
)

func materials(of [6]laminate.FiberData) []laminate.Material {
	gsm := func(v float64) quantity.ArealMass { return spelled(v, quantity.GramPerSquareMeter) }
	veil := func(id, name string, fiber laminate.Fiber, mass float64) laminate.Material {
		return laminate.Material{ID: id, Name: name, Form: laminate.Veil, Fiber: fiber, ArealMass: gsm(mass),
			FiberDensity: of[fiber].Density, GlassContent: laminate.Some(veilShare), Source: veilSource}
	}
	return []laminate.Material{
		veil(VeilC10, "C-glass veil, 30 g/m²", laminate.CGlass, 30),
		veil(VeilC15, "C-glass veil, 45 g/m²", laminate.CGlass, 45),
		veil(VeilPolyester15, "polyester veil, 45 g/m²", laminate.Polyester, 45),
		veil(VeilCarbon11, "carbon veil, 34 g/m²", laminate.Carbon, 34),
		chopped(of, Mat075, "mat, 0.75 oz/ft²", laminate.ChoppedMat, 0.75),
		chopped(of, Mat10, "mat, 1 oz/ft²", laminate.ChoppedMat, 1),
		chopped(of, Mat15, "mat, 1.5 oz/ft²", laminate.ChoppedMat, 1.5),
		chopped(of, Mat20, "mat, 2 oz/ft²", laminate.ChoppedMat, 2),
		chopped(of, Chop15, "sprayed chop, 1.5 oz/ft²", laminate.SprayedChop, 1.5),
		cloth(of, Woven18, "woven roving, 18 oz/yd²", laminate.WovenRoving, 18, wovenShare),
		cloth(of, Woven24, "woven roving, 24 oz/yd²", laminate.WovenRoving, 24, wovenShare),
		cloth(of, Uni13, "unidirectional, 13 oz/yd²", laminate.Unidirectional, 13, uniShare),
		band(of, BandHoop, "hoop band", 12),
		band(of, BandHelical, "helical band", 8),
		{ID: Topcoat, Name: "topcoat, waxed, 10 mil", Form: laminate.ResinCoat,
			Thickness: spelled(10, quantity.Mil), Waxed: true, Source: coatSource},
	}
}

func chopped(of [6]laminate.FiberData, id, name string, form laminate.Form, ouncesPerFt2 float64) laminate.Material {
	return laminate.Material{ID: id, Name: name, Form: form, Fiber: laminate.ECRGlass,
		ArealMass: spelled(ouncesPerFt2, quantity.OuncePerSquareFoot), FiberDensity: of[laminate.ECRGlass].Density,
		GlassContent: laminate.Some(laminate.ChoppedGlassContent), BarrierGlassContent: laminate.Some(laminate.ChoppedBarrierGlassContent), Source: matSource}
}

func cloth(of [6]laminate.FiberData, id, name string, form laminate.Form, ouncesPerYd2, share float64) laminate.Material {
	return laminate.Material{ID: id, Name: name, Form: form, Fiber: laminate.EGlass,
		ArealMass: spelled(ouncesPerYd2, quantity.OuncePerSquareYard), FiberDensity: of[laminate.EGlass].Density,
		GlassContent: laminate.Some(share), Source: wovenSource}
}

func band(of [6]laminate.FiberData, id, name string, tows int) laminate.Material {
	return laminate.Material{ID: id, Name: name, Form: laminate.RovingBand, Fiber: laminate.ECRGlass,
		Tow: spelled(2200, quantity.Tex), Tows: laminate.Some(tows),
		BandWidth:    spelled(60, quantity.Millimetre),
		FiberDensity: of[laminate.ECRGlass].Density, GlassContent: laminate.Some(bandShare), Source: bandSource}
}
