package laminate

// MatsBehind is how many chopped plies the usual barrier has behind its veils,
// and the most that inference puts into the interior layer: two behind one
// veil, four behind two, none without. Common practice, no source.
func MatsBehind(veils int) int {
	switch {
	case veils >= 2:
		return 4
	case veils == 1:
		return 2
	}
	return 0
}

// InferZones gives the zone of every ply row: the stated one, else the one that
// follows from the sequence, outward from the process side.
//
// Leading veils are inner surface. Chopped rows after them are interior layer
// until the first gel stop (that row included), another resin than the row
// before, another form or a stated zone, and at most two plies after one veil,
// four after two. A row is in one zone: a row that does not fit whole ends the
// interior layer, and is structure. What follows is structural layer; veils and
// coats with nothing but such outside them are outer surface. Without a leading
// veil no barrier is inferred. A material that is not known counts as another
// form.
func InferZones(s *Schedule, lib *Library) []Zone {
	n := len(s.Plies)
	forms, zones := make([]Form, n), make([]Zone, n)
	find := newFinder(s, lib)
	for i := range s.Plies {
		if m := find.material(s.Plies[i].Material); m != nil {
			forms[i] = m.Form
		}
	}
	inferZones(s.Plies, forms, zones)
	return zones
}

func inferZones(plies []Ply, forms []Form, zones []Zone) {
	i, veils := 0, 0
	for i < len(plies) && forms[i] == Veil && (plies[i].Zone == NoZone || plies[i].Zone == InnerSurface) {
		zones[i] = InnerSurface
		veils += plies[i].Count
		i++
	}
	lead := i
	room := MatsBehind(veils)
	for i > 0 && i < len(plies) {
		p := &plies[i]
		if p.Zone != NoZone || !forms[i].Chopped() || p.Resin != plies[i-1].Resin || p.Count > room {
			break
		}
		zones[i] = InteriorLayer
		room -= p.Count
		i++
		if p.GelAfter {
			break
		}
	}
	for ; i < len(plies); i++ {
		zones[i] = plies[i].Zone
		if zones[i] == NoZone {
			zones[i] = StructuralLayer
		}
	}
	for j := len(plies) - 1; j >= lead && (forms[j] == Veil || forms[j] == ResinCoat); j-- {
		if plies[j].Zone == NoZone {
			zones[j] = OuterSurface
		}
	}
}
