package edit

import (
	"errors"
	"fmt"
	"slices"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/quantity"
)

// RemoveRows takes the rows from one to another, the last one included.
func RemoveRows(s *laminate.Schedule, lib *laminate.Library, from, to int) Edit {
	label := PlyLabel(s, from)
	if to > from {
		label += " to " + PlyLabel(s, to)
	}
	return Edit{
		Label: "removed " + label,
		At:    laminate.PlyRef(max(0, min(from, len(s.Plies)-2-to+from)), ""),
		Do: func(s *laminate.Schedule) (*laminate.Schedule, error) {
			if err := errors.Join(checkRow(s, from), checkRow(s, to)); err != nil {
				return nil, err
			}
			d := Begin(s, lib)
			d.Remove(from, to+1)
			return d.Finish()
		},
	}
}

// Remove takes a row out, all its plies. The others keep their zones.
func Remove(s *laminate.Schedule, lib *laminate.Library, row int) Edit {
	return RemoveRows(s, lib, row, row)
}

// Move carries a row to another place; to is its index afterwards. It keeps its
// zone where one of its new neighbors is in it, else it takes that of the
// neighbor inside, or on the process side of the one outside.
func Move(s *laminate.Schedule, lib *laminate.Library, row, to int) Edit {
	inward, direction := "inward", "outward"
	if s.Part.Place.Lined {
		inward, direction = "toward the part", "toward the fluid"
	}
	if to < row {
		direction = inward
	}
	return Edit{
		Label: fmt.Sprintf("moved %s %s", PlyLabel(s, row), direction),
		At:    laminate.PlyRef(to, ""),
		Do: func(s *laminate.Schedule) (*laminate.Schedule, error) {
			if err := checkRow(s, row); err != nil {
				return nil, err
			}
			if err := checkRow(s, to); err != nil {
				return nil, fmt.Errorf("it cannot go there: %w", err)
			}
			if row == to {
				return s, nil
			}
			d := Begin(s, lib)
			p, own := d.Plies[row], d.Zone(row)
			d.Remove(row, row+1)
			d.Insert(to, p)
			d.zones[to] = d.between(to, own)
			return d.Finish()
		},
	}
}

// between is the zone for row at, that comes from own: that one where a
// neighbor is in it, else the inner neighbor's, else the outer one's.
func (d *Draft) between(at int, own laminate.Zone) laminate.Zone {
	inside, outside := laminate.NoZone, laminate.NoZone
	if at > 0 {
		inside = d.zones[at-1]
	}
	if at+1 < len(d.zones) {
		outside = d.zones[at+1]
	}
	switch {
	case own == inside || own == outside:
		return own
	case inside != laminate.NoZone:
		return inside
	}
	return outside
}

// SwapMaterial changes what a row is made of. Count, zone and resin stay; a
// glass content that was given for the old material as laid goes where the new
// one has its own, and a band without an angle gets its usual one.
func SwapMaterial(s *laminate.Schedule, lib *laminate.Library, row int, material string) Edit {
	return Edit{
		Label: fmt.Sprintf("swapped %s for %s", PlyLabel(s, row), material),
		At:    laminate.PlyRef(row, "material"),
		Do: func(s *laminate.Schedule) (*laminate.Schedule, error) {
			if err := checkRow(s, row); err != nil {
				return nil, err
			}
			return swap(s, lib, []int{row}, material)
		},
	}
}

// SwapEverywhere changes every row of a material to another, as SwapMaterial
// does one.
func SwapEverywhere(s *laminate.Schedule, lib *laminate.Library, old, material string) Edit {
	at := slices.IndexFunc(s.Plies, func(p laminate.Ply) bool { return p.Material == old })
	return Edit{
		Label: fmt.Sprintf("swapped %s for %s everywhere", old, material),
		At:    laminate.PlyRef(max(at, 0), "material"),
		Do: func(s *laminate.Schedule) (*laminate.Schedule, error) {
			var rows []int
			for i := range s.Plies {
				if s.Plies[i].Material == old {
					rows = append(rows, i)
				}
			}
			if len(rows) == 0 {
				return nil, fmt.Errorf("no ply is of %q", old)
			}
			return swap(s, lib, rows, material)
		},
	}
}

func swap(s *laminate.Schedule, lib *laminate.Library, rows []int, material string) (*laminate.Schedule, error) {
	m, ok := lib.Material(s, material)
	if !ok {
		return nil, fmt.Errorf("there is no material %q", material)
	}
	d := Begin(s, lib)
	changed := false
	for _, row := range rows {
		p := &d.Plies[row]
		if p.Material == material {
			continue
		}
		changed = true
		p.Material = material
		if m.GlassContent.Given || m.Form.Chopped() || m.Form == laminate.ResinCoat {
			p.GlassContent = laminate.Optional[float64]{}
		}
		fitAngle(s, m, p)
	}
	if !changed {
		return s, nil
	}
	return d.Finish()
}

// TimesRow makes a row n times as many plies.
func TimesRow(s *laminate.Schedule, lib *laminate.Library, row, n int) Edit {
	return Edit{
		Label: fmt.Sprintf("made %s %d times as many", PlyLabel(s, row), n),
		At:    laminate.PlyRef(row, "count"),
		Do: func(s *laminate.Schedule) (*laminate.Schedule, error) {
			if err := errors.Join(checkRow(s, row), checkTimes(n)); err != nil {
				return nil, err
			}
			return multiply(s, lib, []int{row}, n)
		},
	}
}

// TimesLast has the sequence of rows that ends with row, rows long, n times:
// n-1 more copies of the whole sequence follow it.
func TimesLast(s *laminate.Schedule, lib *laminate.Library, row, rows, n int) Edit {
	return Edit{
		Label: fmt.Sprintf("made the last %s %d times", quantity.Counted(rows, "row", "rows"), n),
		At:    laminate.PlyRef(repeated(row, rows, n), ""),
		Do: func(s *laminate.Schedule) (*laminate.Schedule, error) {
			if err := errors.Join(checkRow(s, row), checkTimes(n)); err != nil {
				return nil, err
			}
			if rows < 1 || rows > row+1 {
				return nil, fmt.Errorf("only %s up to this one, not %d", quantity.Counted(row+1, "row", "rows"), rows)
			}
			return repeat(s, lib, row-rows+1, row, n-1)
		},
	}
}

// TimesBarrier makes every row of the barrier n times as many plies: two veils,
// then four mats, not veil and mats over again.
func TimesBarrier(s *laminate.Schedule, lib *laminate.Library, n int) Edit {
	return Edit{
		Label: fmt.Sprintf("made the barrier %d times as many plies", n),
		At:    laminate.PlyRef(0, "count"),
		Do: func(s *laminate.Schedule) (*laminate.Schedule, error) {
			if err := checkTimes(n); err != nil {
				return nil, err
			}
			var rows []int
			for i, z := range laminate.InferZones(s, lib) {
				if z.InBarrier() {
					rows = append(rows, i)
				}
			}
			if len(rows) == 0 {
				return nil, errors.New("there is no barrier")
			}
			return multiply(s, lib, rows, n)
		},
	}
}

// TimesStructure repeats the sequence of the structural layer n times.
func TimesStructure(s *laminate.Schedule, lib *laminate.Library, n int) Edit {
	first, last, _ := structure(s, lib)
	return Edit{
		Label: fmt.Sprintf("made the structure %d times", n),
		At:    laminate.PlyRef(repeated(last, last-first+1, n), ""),
		Do: func(s *laminate.Schedule) (*laminate.Schedule, error) {
			if err := checkTimes(n); err != nil {
				return nil, err
			}
			first, last, err := structure(s, lib)
			if err != nil {
				return nil, err
			}
			return repeat(s, lib, first, last, n-1)
		},
	}
}

// structure finds the first and last row of the structural layer.
func structure(s *laminate.Schedule, lib *laminate.Library) (first, last int, err error) {
	zones := laminate.InferZones(s, lib)
	first = slices.Index(zones, laminate.StructuralLayer)
	if first < 0 {
		return 0, 0, errors.New("there is no structural layer")
	}
	for i := first; i < len(zones); i++ {
		if zones[i] == laminate.StructuralLayer {
			last = i
		}
	}
	if i := slices.IndexFunc(zones[first:last], func(z laminate.Zone) bool { return z != laminate.StructuralLayer }); i >= 0 {
		return 0, 0, fmt.Errorf("the structural layer is not in one piece: row %d between its rows is %v", first+i+1, zones[first+i])
	}
	return first, last, nil
}

// repeated is the last row of a sequence laid n times, at least the last of one.
func repeated(row, rows, n int) int {
	if n < 1 || n > laminate.MostRows || rows < 0 || rows > laminate.MostRows {
		return max(row, 0)
	}
	return max(row, 0) + rows*(n-1)
}

func checkTimes(n int) error {
	switch {
	case n < 2:
		return errors.New("times means two times or more")
	case n > laminate.MostCount:
		return fmt.Errorf("at most %d times", laminate.MostCount)
	}
	return nil
}

func multiply(s *laminate.Schedule, lib *laminate.Library, rows []int, n int) (*laminate.Schedule, error) {
	d := Begin(s, lib)
	for _, row := range rows {
		d.Plies[row].Count *= n
	}
	return d.Finish()
}

// repeat inserts copies of the rows first to last after them, in their zones.
func repeat(s *laminate.Schedule, lib *laminate.Library, first, last, copies int) (*laminate.Schedule, error) {
	rows := last - first + 1
	if len(s.Plies)+rows*copies > laminate.MostRows {
		return nil, fmt.Errorf("a schedule has at most %d rows", laminate.MostRows)
	}
	d := Begin(s, lib)
	plies, zones := d.Plies[first:last+1], slices.Clone(d.zones[first:last+1])
	d.Insert(last+1, slices.Repeat(plies, copies)...)
	copy(d.zones[last+1:], slices.Repeat(zones, copies))
	return d.Finish()
}
