package worked

import (
	"frp/veilwright/laminate"
	"frp/veilwright/laminate/stiffness"
)

// Constituents writes how the moduli of a ply come of its fiber and resin: law is what
// comes, kept the share of it that a warm wall keeps, share and crimp those of a weave.
func (w *List) Constituents(say func(what, symbol, formula, numbers string, v float64, unit string), f *laminate.RowFigures, law stiffness.Ply, fiber, matrix stiffness.Constituent, kept, share, crimp float64) {
	vf := f.FiberVolume / f.Thickness
	ef, em := w.Stress(fiber.E), w.Stress(matrix.E)
	say("fiber volume", "Vf", "volume of fiber on an area / tp", Put("#/#", w.Length(f.FiberVolume), w.Length(f.Thickness)), vf, "")
	e1 := vf*ef + (1-vf)*em
	say("aligned fiber, along", "Eu1", "Vf·Ef + (1 − Vf)·Em", Put("#·# + (1 - #)·#", vf, ef, vf, em), e1, w.StressUnit())
	eta := (ef/em - 1) / (ef/em + 2)
	say("Halpin–Tsai, ξ = 2", "η", "(Ef/Em − 1)/(Ef/Em + 2)", Put("(#/# - 1)/(#/# + 2)", ef, em, ef, em), eta, "")
	e2 := em * (1 + 2*eta*vf) / (1 - eta*vf)
	say("aligned fiber, across", "Eu2", "Em·(1 + 2·η·Vf)/(1 − η·Vf)", Put("#·(1 + 2·#·#)/(1 - #·#)", em, eta, vf, eta, vf), e2, w.StressUnit())
	gf, gm := w.Stress(fiber.G()), w.Stress(matrix.G())
	say("shear of the fiber", "Gf", "Ef/(2·(1 + νf))", Put("#/(2·(1 + #))", ef, fiber.Nu), gf, w.StressUnit())
	say("shear of the resin", "Gm", "Em/(2·(1 + νm))", Put("#/(2·(1 + #))", em, matrix.Nu), gm, w.StressUnit())
	etaG := (gf/gm - 1) / (gf/gm + 1)
	g := gm * (1 + etaG*vf) / (1 - etaG*vf)
	say("aligned fiber, shear", "Gu", "Gm·(1 + η·Vf)/(1 − η·Vf), η = (Gf/Gm − 1)/(Gf/Gm + 1)",
		Put("#·(1 + (#/# - 1)/(#/# + 1)·#)/(1 - (#/# - 1)/(#/# + 1)·#)", gm, gf, gm, gf, gm, vf, gf, gm, gf, gm, vf), g, w.StressUnit())
	nu := vf*fiber.Nu + (1-vf)*matrix.Nu
	say("aligned fiber, Poisson's ratio", "νu", "Vf·νf + (1 − Vf)·νm", Put("#·# + (1 - #)·#", vf, fiber.Nu, vf, matrix.Nu), nu, "")
	keep := func(formula, numbers string) (string, string) {
		if kept == 1 {
			return formula, numbers
		}
		return "(" + formula + ")·retention", "(" + numbers + ")·" + Number(kept)
	}
	end := func(what, symbol, formula, numbers string, v float64) {
		formula, numbers = keep(formula, numbers)
		say(what, symbol, formula, numbers, w.Stress(v), w.StressUnit())
	}
	switch f.Material.Form {
	case laminate.Unidirectional, laminate.RovingBand:
		end("modulus along", "E1", "Eu1", Number(e1), law.E1)
		end("modulus across", "E2", "Eu2", Number(e2), law.E2)
		end("shear modulus", "G12", "Gu", Number(g), law.G12)
		say("Poisson's ratio", "ν12", "νu", Number(nu), law.Nu12, "")
	case laminate.WovenRoving:
		nu21 := nu * e2 / e1
		u11, u22, u12 := e1/(1-nu*nu21), e2/(1-nu*nu21), nu*e2/(1-nu*nu21)
		say("aligned sheet", "u11", "Eu1/(1 − νu²·Eu2/Eu1)", Put("#/(1 - #^2·#/#)", e1, nu, e2, e1), u11, w.StressUnit())
		say("aligned sheet", "u22", "Eu2/(1 − νu²·Eu2/Eu1)", Put("#/(1 - #^2·#/#)", e2, nu, e2, e1), u22, w.StressUnit())
		say("aligned sheet", "u12", "νu·u22", Put("#·#", nu, u22), u12, w.StressUnit())
		q1, q2 := share*u11+(1-share)*u22, share*u22+(1-share)*u11
		say("both sheets, along", "k1", "warp share·u11 + (1 − warp share)·u22", Put("#·# + (1 - #)·#", share, u11, share, u22), q1, w.StressUnit())
		say("both sheets, across", "k2", "warp share·u22 + (1 − warp share)·u11", Put("#·# + (1 - #)·#", share, u22, share, u11), q2, w.StressUnit())
		end("modulus along", "E1", "crimp·(k1 − u12²/k2)", Put("#·(# - #^2/#)", crimp, q1, u12, q2), law.E1)
		end("modulus across", "E2", "crimp·(k2 − u12²/k1)", Put("#·(# - #^2/#)", crimp, q2, u12, q1), law.E2)
		end("shear modulus", "G12", "crimp·Gu", Put("#·#", crimp, g), law.G12)
		say("Poisson's ratio", "ν12", "u12/k2", Put("#/#", u12, q2), law.Nu12, "")
	default: // fiber lying every way
		er, gr := 3.0/8*e1+5.0/8*e2, e1/8+e2/4
		end("modulus, fiber every way", "E1", "3/8·Eu1 + 5/8·Eu2", Put("3/8·# + 5/8·#", e1, e2), law.E1)
		end("the same across", "E2", "3/8·Eu1 + 5/8·Eu2", Put("3/8·# + 5/8·#", e1, e2), law.E2)
		end("shear modulus", "G12", "1/8·Eu1 + 1/4·Eu2", Put("1/8·# + 1/4·#", e1, e2), law.G12)
		say("Poisson's ratio", "ν12", "E/(2·G) − 1, cold", Put("#/(2·#) - 1", er, gr), law.Nu12, "")
	}
}
