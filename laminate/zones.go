package laminate

import "slices"

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
// Leading veils are inner surface. Chopped plies after them are interior layer
// until the first gel stop (that row included), another resin than the row
// before, another form or a stated zone, and at most two plies after one veil,
// four after two. What follows is structural layer; veils and coats with nothing
// but such outside them are outer surface. Without a leading veil no barrier is
// inferred. A material that is not known counts as another form.
//
// What is laid from the process side (Place.Lined) goes the other way, and has no
// structure behind its barrier: each ply is in the zone that LiningZone gives it.
//
// Rows have to be split where the interior layer ends (see SplitRow), as those
// of a document and of an edit are. One that is not is structure as a whole.
func InferZones(s *Schedule, lib *Library) []Zone { return new(Inference).Of(s, lib) }

// LiningZone is the zone of a ply of some form in what is laid from the process
// side: veils and coats meet the fluid, chopped plies lie behind them.
func LiningZone(f Form) Zone {
	switch {
	case f == Veil || f == ResinCoat:
		return InnerSurface
	case f.Chopped():
		return InteriorLayer
	}
	return StructuralLayer
}

// Inference infers the zones of one schedule after another in the same memory.
type Inference struct {
	materials   []*Material // by row, nil where nobody knows the id
	forms       []Form
	zones       []Zone
	row, inside int
}

// Of gives the zone of every ply row as InferZones does; they stand until the next
// schedule.
func (f *Inference) Of(s *Schedule, lib *Library) []Zone {
	n := len(s.Plies)
	f.materials, f.forms, f.zones = slices.Grow(f.materials[:0], n), slices.Grow(f.forms[:0], n), append(f.zones[:0], make([]Zone, n)...)
	find := newFinder(s, lib)
	for i := range s.Plies {
		m, form := find.material(s.Plies[i].Material), NoForm
		if m != nil {
			form = m.Form
		}
		f.materials, f.forms = append(f.materials, m), append(f.forms, form)
	}
	f.row, f.inside = inferZones(s.Plies, f.forms, f.zones)
	for i := 0; i < n && s.Part.Place.Lined; i++ {
		if f.inside = 0; s.Plies[i].Zone == NoZone {
			f.zones[i] = LiningZone(f.forms[i])
		}
	}
	return f.zones
}

// Split tells in which row of the schedule looked at last the inferred interior
// layer ends, and how many plies of it are inside; none where it ends with a row.
func (f *Inference) Split() (row, inside int) { return f.row, f.inside }

// SplitRow gives the plies of s with the row in which the inferred interior layer
// ends taken apart: the first plies of it belong to the barrier, the rest is
// structure, and every row is in one zone. Where no row is in two zones it is
// s.Plies itself; so it is without a library, which says what a veil is.
func SplitRow(s *Schedule, lib *Library) []Ply {
	if lib == nil || !slices.ContainsFunc(s.Plies, func(p Ply) bool { return p.Count > 1 && p.Zone == NoZone }) {
		return s.Plies
	}
	var f Inference
	f.Of(s, lib)
	return f.Apart(s.Plies)
}

// Apart is SplitRow of the plies looked at last.
func (f *Inference) Apart(plies []Ply) []Ply {
	if f.inside == 0 {
		return plies
	}
	plies = append(append(make([]Ply, 0, len(plies)+1), plies[:f.row+1]...), plies[f.row:]...)
	first, rest := &plies[f.row], &plies[f.row+1]
	first.Count, first.GelAfter = f.inside, false
	rest.Count, rest.Rest = rest.Count-f.inside, true
	return plies
}

// JoinRow gives the plies as a document has them: a row that SplitRow took
// apart, and that nobody has changed but for its counts, is one again.
func JoinRow(plies []Ply) []Ply {
	if !slices.ContainsFunc(plies, func(p Ply) bool { return p.Rest }) {
		return plies
	}
	joined := make([]Ply, 0, len(plies))
	for _, p := range plies {
		if !p.Rest {
			joined = append(joined, p)
			continue
		}
		p.Rest = false
		if n := len(joined) - 1; n >= 0 && !joined[n].GelAfter {
			like := p
			like.Count, like.GelAfter = joined[n].Count, false
			if joined[n] == like {
				joined[n].Count += p.Count
				joined[n].GelAfter = p.GelAfter
				continue
			}
		}
		p.Origin = 0
		joined = append(joined, p)
	}
	return joined
}

// RowRead is the row of the document that row i of split plies was read from.
func RowRead(plies []Ply, i int) int {
	for k := 0; k <= i && k < len(plies); k++ {
		if plies[k].Rest {
			return i - 1
		}
	}
	return i
}

// inferZones fills in the zones. Where the interior layer ends within a row it
// says which, and how many of its plies are inside; the row is structure then.
func inferZones(plies []Ply, forms []Form, zones []Zone) (row, inside int) {
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
		if p.Zone != NoZone || !forms[i].Chopped() || p.Resin != plies[i-1].Resin {
			break
		}
		if p.Count > room {
			row, inside = i, room
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
	return row, inside
}
