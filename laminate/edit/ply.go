package edit

import (
	"errors"
	"fmt"
	"strings"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/catalog"
	"frp/veilwright/laminate/quantity"
)

// PlyLabel names a row by its single plies and material: "ply 8 mat-1.5",
// "plies 2-3 mat-1.5"; a row that is not there by its index.
func PlyLabel(s *laminate.Schedule, row int) string {
	if row < 0 || row >= len(s.Plies) {
		return fmt.Sprintf("row %d", row+1)
	}
	first := 1
	for i := range row {
		first += s.Plies[i].Count
	}
	p := &s.Plies[row]
	if p.Count > 1 {
		return fmt.Sprintf("plies %d-%d %s", first, first+p.Count-1, p.Material)
	}
	return fmt.Sprintf("ply %d %s", first, p.Material)
}

// SetPly changes one row by f; what says it for the label: "glass content 22 %"
// gives "ply 8 mat-1.5: glass content 22 %". Key is the key it is about, which
// the edit points at. The row keeps the zone it was in unless f changes it, and
// so do all others.
func SetPly(s *laminate.Schedule, lib *laminate.Library, row int, key, what string, f func(*laminate.Ply)) Edit {
	return Edit{
		Label: PlyLabel(s, row) + ": " + what,
		At:    laminate.PlyRef(row, key),
		Do: func(s *laminate.Schedule) (*laminate.Schedule, error) {
			if err := checkRow(s, row); err != nil {
				return nil, err
			}
			p := s.Plies[row]
			f(&p)
			if p == s.Plies[row] {
				return s, nil
			}
			d := Begin(s, lib)
			d.Plies[row] = p
			if p.Zone != s.Plies[row].Zone {
				d.SetZone(row, p.Zone)
			}
			return d.Finish()
		},
	}
}

// SetGel sets or takes away the gel stop after a row. A new one may end the
// barrier, as zones are inferred from it; taking one away moves no ply to
// another zone.
func SetGel(s *laminate.Schedule, lib *laminate.Library, row int, on bool) Edit {
	label := "set a gel stop after "
	if !on {
		label = "took away the gel stop after "
	}
	return Edit{
		Label: label + PlyLabel(s, row),
		At:    laminate.PlyRef(row, "gel_after"),
		Do: func(s *laminate.Schedule) (*laminate.Schedule, error) {
			if err := checkRow(s, row); err != nil {
				return nil, err
			}
			if s.Plies[row].GelAfter == on {
				return s, nil
			}
			d := Begin(s, lib)
			d.Plies[row].GelAfter = on
			if on {
				d.Infer(row + 1)
			}
			return d.Finish()
		},
	}
}

// SetCount sets how many equal plies a row has.
func SetCount(s *laminate.Schedule, lib *laminate.Library, row, count int) Edit {
	return Edit{
		Label: fmt.Sprintf("set %s to %s", PlyLabel(s, row), quantity.Counted(count, "ply", "plies")),
		At:    laminate.PlyRef(row, "count"),
		Do: func(s *laminate.Schedule) (*laminate.Schedule, error) {
			if err := checkRow(s, row); err != nil {
				return nil, err
			}
			return setCount(s, lib, row, count)
		},
	}
}

// AddCount adds to how many plies a row has, or takes from it.
func AddCount(s *laminate.Schedule, lib *laminate.Library, row, by int) Edit {
	label := fmt.Sprintf("added %s to %s", quantity.Counted(by, "ply", "plies"), PlyLabel(s, row))
	if by < 0 {
		label = fmt.Sprintf("took %s from %s", quantity.Counted(-by, "ply", "plies"), PlyLabel(s, row))
	}
	return Edit{
		Label: label,
		At:    laminate.PlyRef(row, "count"),
		Do: func(s *laminate.Schedule) (*laminate.Schedule, error) {
			if err := checkRow(s, row); err != nil {
				return nil, err
			}
			if by > laminate.MostCount || by < -laminate.MostCount {
				return nil, fmt.Errorf("a row has at most %d plies", laminate.MostCount)
			}
			return setCount(s, lib, row, s.Plies[row].Count+by)
		},
	}
}

func setCount(s *laminate.Schedule, lib *laminate.Library, row, count int) (*laminate.Schedule, error) {
	switch {
	case count < 1:
		return nil, errors.New("a row has at least one ply; remove the row instead")
	case count == s.Plies[row].Count:
		return s, nil
	}
	d := Begin(s, lib)
	d.Plies[row].Count = count
	return d.Finish()
}

func checkRow(s *laminate.Schedule, row int) error {
	switch {
	case len(s.Plies) == 0:
		return errors.New("there is no ply yet")
	case row < 0 || row >= len(s.Plies):
		return fmt.Errorf("there is no row %d; the schedule has %d", row+1, len(s.Plies))
	}
	return nil
}

// checkFacts refuses a new ply that lacks what its figures need.
func checkFacts(m *laminate.Material, p *laminate.Ply) error {
	lacks := p.Lacks(m)
	switch {
	case len(lacks) == 0:
		return nil
	case lacks[0] == "resin":
		return errors.New("the schedule has no resin to lay it in; add a resin first")
	}
	return fmt.Errorf("%s needs its %s", m.ID, strings.ReplaceAll(lacks[0], "_", " "))
}

// fitAngle makes the ply's angle one that its material can have: a band that
// has none gets the one it was last wound at, else the usual one; other
// directed plies lie along the axis.
func fitAngle(s *laminate.Schedule, m *laminate.Material, p *laminate.Ply) {
	if !m.Form.Directed() {
		p.Angle = laminate.Optional[float64]{}
		return
	}
	if p.Angle.Given && (m.Form != laminate.RovingBand || p.Angle.Value >= 0) {
		return
	}
	p.Angle = laminate.Optional[float64]{}
	if m.Form != laminate.RovingBand && m.Form != laminate.Unidirectional {
		return
	}
	for i := len(s.Plies) - 1; i >= 0; i-- {
		if s.Plies[i].Material == m.ID && s.Plies[i].Angle.Given {
			p.Angle = s.Plies[i].Angle
			return
		}
	}
	usual, known := catalog.UsualAngle(m.ID)
	if !known && m.Form == laminate.RovingBand {
		usual, _ = catalog.UsualAngle(catalog.BandHelical)
	}
	p.Angle = laminate.Some(usual)
}
