package worked

import "frp/veilwright/laminate/wall/shell"

// UnitLoad writes what a wall may bear in a direction by unit loads: k its five partial
// factors, least the failure strain of its resin, kept the share of its strength that it
// keeps warm, glass what carries that way and all that limits the strain, in kg/m², and
// capacity what comes of it, N/m.
func (w *List) UnitLoad(k [5]float64, least, kept float64, direction string, glass, all shell.UnitGlass, capacity float64, basis string) {
	factor, err := shell.DesignFactor(k)
	if err != nil {
		return
	}
	_, strain, err := shell.UnitCapacity(factor, least, all, glass)
	if err != nil {
		return
	}
	w.Add("design factor", "K", "3·k1·k2·k3·k4·k5", Put("3·#·#·#·#·#", k[0], k[1], k[2], k[3], k[4]), factor, "", basis)
	allowed := Put("min(0.1·#, 0.002)", least)
	stiff, sum := shell.UnitStiffness(glass), ""
	for kind, name := range [...]string{shell.UnitMat: "mat", shell.UnitWoven: "woven roving", shell.UnitUnidirectional: "unidirectional glass"} {
		if all[kind] == 0 {
			continue
		}
		strength, modulus := shell.UnitKind(kind).Property()
		strength, modulus = w.Line(strength)/w.OnArea(1), w.Line(modulus)/w.OnArea(1)
		per := w.LineUnit() + " per " + w.OnAreaUnit()
		w.Add(name+": unit strength", "u", "of the standard", "", strength, per, basis)
		w.Add(name+": unit modulus", "X", "of the standard", "", modulus, per, basis)
		w.Add(name+": strain that it allows", "ε", "u/(K·X)", Put("#/(#·#)", strength, factor, modulus), strength/factor/modulus, "", "")
		allowed = "min(" + allowed + ", " + Number(strength/factor/modulus) + ")"
		if glass[kind] > 0 {
			w.Add(name+": glass that carries", "g", "Σ glass of its plies", "", w.OnArea(glass[kind]), w.OnAreaUnit(), "")
			sum += Pick(sum == "", "", " + ") + Put("#·#", modulus, w.OnArea(glass[kind]))
		}
	}
	w.Add("allowable strain", "εd", "lowest of 0.1·failure strain of the resin, 0.002 and ε of each kind of glass", allowed, strain, "", basis)
	w.Add("unit stiffness "+direction, "ΣX", "Σ X·g", sum, w.Line(stiff), w.LineUnit(), basis)
	w.Add("load that the wall may bear", "Na", "εd·ΣX·retention", Put("#·#·#", strain, w.Line(stiff), kept), w.Line(capacity), w.LineUnit(), basis)
}
