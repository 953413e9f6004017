package edit

import (
	"fmt"
	"slices"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/quantity"
)

// AddPly adds one ply of a material outward of the row after; -1 puts it on the
// process side. It takes the zone that its form has in that place, the resin
// last used in that zone, and the material's last angle.
//
// The zone: a leading veil is inner surface, a veil or coat with nothing but
// such outside it outer surface, anything woven, unidirectional, wound or
// tested structure; chopped glass continues the barrier until its gel stop, or
// two plies after one veil and four after two. What is laid from the process side
// goes by laminate.LiningZone. The resin: the nearest of the
// zone, else of the barrier or the structure as a whole, else of a first ply the one
// with their id, else the first one that no ply uses yet, else that of the row it is laid on. Where no resin of the
// schedule has a family yet, barrier and structure get one each whose family is
// not stated: which resin it is decides too much to be taken for granted, and
// the rules report that it is missing.
func AddPly(s *laminate.Schedule, lib *laminate.Library, after int, material string) Edit {
	number := 1
	for i := 0; i <= after && i < len(s.Plies); i++ {
		number += s.Plies[i].Count
	}
	return insertion(lib, after, fmt.Sprintf("added ply %d %s", number, material), []laminate.Ply{{Material: material, Count: 1}})
}

// InsertPlies puts rows outward of the row after; -1 on the process side. A
// ply without a zone, a resin or, of a band, an angle gets them as AddPly says.
func InsertPlies(s *laminate.Schedule, lib *laminate.Library, after int, plies []laminate.Ply) Edit {
	count := 0
	for _, p := range plies {
		count += p.Count
	}
	label := "added " + quantity.Counted(count, "ply", "plies")
	if after >= 0 && after < len(s.Plies) {
		label += " after " + PlyLabel(s, after)
	}
	return insertion(lib, after, label, slices.Clone(plies))
}

// Duplicate adds the same row once more outward of it, in the same zone.
func Duplicate(s *laminate.Schedule, lib *laminate.Library, row int) Edit {
	return Edit{
		Label: "duplicated " + PlyLabel(s, row),
		At:    laminate.PlyRef(row+1, ""),
		Do: func(s *laminate.Schedule) (*laminate.Schedule, error) {
			if err := checkRow(s, row); err != nil {
				return nil, err
			}
			return repeat(s, lib, row, row, 1)
		},
	}
}

func insertion(lib *laminate.Library, after int, label string, plies []laminate.Ply) Edit {
	return Edit{
		Label: label,
		At:    laminate.PlyRef(after+1, ""),
		Do: func(s *laminate.Schedule) (*laminate.Schedule, error) {
			switch {
			case after < -1 || after >= len(s.Plies):
				return nil, fmt.Errorf("there is no row %d to add to; the schedule has %d", after+1, len(s.Plies))
			case len(plies) == 0:
				return s, nil
			case len(s.Plies)+len(plies) > laminate.MostRows:
				return nil, fmt.Errorf("a schedule has at most %d rows", laminate.MostRows)
			}
			d := Begin(s, lib)
			for i, p := range plies {
				if err := d.add(after+1+i, p); err != nil {
					return nil, err
				}
			}
			return d.Finish()
		},
	}
}

// add inserts a ply with the zone, the resin and the angle that it does not
// state.
func (d *Draft) add(at int, p laminate.Ply) error {
	m, ok := d.lib.Material(d.s, p.Material)
	if !ok {
		return fmt.Errorf("there is no material %q", p.Material)
	}
	fitAngle(d.s, m, &p)
	zone := p.Zone
	if zone == laminate.NoZone {
		zone = d.zoneAt(at, m.Form)
	}
	if p.Resin == "" {
		p.Resin = d.resinAt(at, zone)
	}
	if p.Resin == "" && m.Form != laminate.Lamina {
		p.Resin = d.unstatedResin(zone)
	}
	if err := checkFacts(m, &p); err != nil {
		return err
	}
	d.Insert(at, p)
	d.zones[at] = zone
	return nil
}

// zoneAt is the zone that a ply laid before row at belongs to.
func (d *Draft) zoneAt(at int, form laminate.Form) laminate.Zone {
	inside, outside := laminate.NoZone, laminate.NoZone
	if at > 0 {
		inside = d.zones[at-1]
	}
	if at < len(d.zones) {
		outside = d.zones[at]
	}
	switch {
	case d.s.Part.Place.Lined:
		return laminate.LiningZone(form)
	case form == laminate.Veil && d.onlyVeilsInside(at):
		return laminate.InnerSurface
	case (form == laminate.Veil || form == laminate.ResinCoat) && d.onlySurfaceOutside(at):
		return laminate.OuterSurface
	case form == laminate.Veil || form == laminate.ResinCoat:
		if inside == laminate.NoZone {
			return outside
		}
		return inside
	case form.Chopped():
		return d.choppedZone(at, inside, outside)
	}
	return laminate.StructuralLayer
}

func (d *Draft) choppedZone(at int, inside, outside laminate.Zone) laminate.Zone {
	switch {
	case outside == laminate.InteriorLayer, inside == laminate.InnerSurface:
		return laminate.InteriorLayer
	case inside == laminate.InteriorLayer && !d.Plies[at-1].GelAfter && d.roomInBarrier(at):
		return laminate.InteriorLayer
	}
	return laminate.StructuralLayer
}

func (d *Draft) onlyVeilsInside(at int) bool {
	for i := range at {
		if d.form(i) != laminate.Veil || d.zones[i] != laminate.InnerSurface {
			return false
		}
	}
	return true
}

func (d *Draft) onlySurfaceOutside(at int) bool {
	for i := at; i < len(d.Plies); i++ {
		if d.form(i) != laminate.Veil && d.form(i) != laminate.ResinCoat {
			return false
		}
	}
	return true
}

// roomInBarrier tells whether one more chopped ply before row at is still the
// usual barrier.
func (d *Draft) roomInBarrier(at int) bool {
	veils, mats := 0, 0
	for i := range at {
		switch {
		case d.zones[i] == laminate.InnerSurface && d.form(i) == laminate.Veil:
			veils += d.Plies[i].Count
		case d.zones[i] == laminate.InteriorLayer:
			mats += d.Plies[i].Count
		}
	}
	return mats < laminate.MatsBehind(veils)
}

// resinAt is the resin for a ply laid before row at in a zone; "" where the
// schedule has none of a stated family but what lies in the other part.
func (d *Draft) resinAt(at int, zone laminate.Zone) string {
	same := func(z laminate.Zone) bool { return z == zone }
	alike := func(z laminate.Zone) bool { return z.InBarrier() == zone.InBarrier() }
	for _, fits := range []func(laminate.Zone) bool{same, alike} {
		if r := d.nearestResin(at, fits); r != "" {
			return r
		}
	}
	if len(d.Plies) == 0 && slices.ContainsFunc(d.resins(), func(r laminate.Resin) bool { return r.ID == usualResin(zone) }) {
		return usualResin(zone)
	}
	if r := d.unusedResin(); r != "" {
		return r
	}
	if r := d.nearestResin(at, func(laminate.Zone) bool { return true }); r != "" && d.knowsFamily(r) {
		return r
	}
	if i := slices.IndexFunc(d.resins(), func(r laminate.Resin) bool { return r.Family != laminate.NoFamily }); i >= 0 {
		return d.resins()[i].ID
	}
	return ""
}

// resins are those of the draft as it stands.
func (d *Draft) resins() []laminate.Resin {
	if d.own != nil {
		return d.own
	}
	return d.s.Resins
}

func (d *Draft) knowsFamily(id string) bool {
	return slices.ContainsFunc(d.resins(), func(r laminate.Resin) bool { return r.ID == id && r.Family != laminate.NoFamily })
}

// nearestResin looks inward first.
func (d *Draft) nearestResin(at int, fits func(laminate.Zone) bool) string {
	for i := at - 1; i >= 0; i-- {
		if fits(d.zones[i]) && d.Plies[i].Resin != "" {
			return d.Plies[i].Resin
		}
	}
	for i := at; i < len(d.Plies); i++ {
		if fits(d.zones[i]) && d.Plies[i].Resin != "" {
			return d.Plies[i].Resin
		}
	}
	return ""
}

func (d *Draft) unusedResin() string {
	used := map[string]bool{}
	for i := range d.Plies {
		used[d.Plies[i].Resin] = true
	}
	for _, r := range d.resins() {
		if !used[r.ID] {
			return r.ID
		}
	}
	return ""
}

// The ids of the resins that a wall begun from nothing is laid in.
const (
	BarrierResin   = "barrier"
	StructureResin = "structure"
)

// usualResin is the id of the resin of the barrier or the structure in a wall begun
// from nothing.
func usualResin(zone laminate.Zone) string {
	if zone.InBarrier() {
		return BarrierResin
	}
	return StructureResin
}

// unstatedResin is the resin of the barrier or the structure, added without its
// family where the schedule does not have it.
func (d *Draft) unstatedResin(zone laminate.Zone) string {
	id, resins := usualResin(zone), d.resins()
	if !slices.ContainsFunc(resins, func(r laminate.Resin) bool { return r.ID == id }) {
		d.own = append(slices.Clone(resins), laminate.Resin{ID: id})
	}
	return id
}
