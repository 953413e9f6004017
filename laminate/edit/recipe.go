package edit

import (
	"fmt"
	"slices"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/catalog"
	"frp/veilwright/laminate/quantity"
)

// Recipe is a wall by its parts: barrier, structure and coat.
type Recipe struct {
	Veil    string
	Veils   int
	Mat     string
	Mats    int
	Barrier laminate.Resin
	Surface laminate.Resin // of the veil, where it is another mix than the mats'
	// Given is a barrier row by row, resins included, in the place of veil and
	// mats: that of another part of the same equipment.
	Given []laminate.Ply

	Wall      laminate.Resin
	Structure []laminate.Ply // material, count and what else a ply states, but for resin and zone
	Outside   string         // veil under the coat, "" for none
	Coat      string
}

// Build makes the schedule of a recipe with part, service and materials of s:
// rows of equal plies, gel stops after the barrier and where more would be laid
// in one go than heat allows, every zone stated. Resins of s stay, and those of
// the recipe whose ids it has not join them. The wall is as the recipe says,
// whatever it says: nothing of it is judged.
func (r *Recipe) Build(s *laminate.Schedule, lib *laminate.Library) *laminate.Schedule {
	d := r.begin(s, lib)
	var rows []laminate.Ply
	for _, p := range r.Structure {
		rows = add(rows, p, r.Wall.ID, laminate.StructuralLayer)
	}
	rows = add(rows, laminate.Ply{Material: r.Outside, Count: 1}, r.Wall.ID, laminate.OuterSurface)
	rows = add(rows, laminate.Ply{Material: r.Coat, Count: 1}, r.Wall.ID, laminate.OuterSurface)
	d.Remove(0, len(d.Plies))
	d.Insert(0, r.barrier(len(rows) > 0)...)
	d.Insert(len(d.Plies), rows...)
	d.AddGelStops()
	return d.Schedule()
}

// Line makes the schedule that has the recipe's barrier in the place of the one
// s has, if any. What stands outside of it stays as it is, its zones stated.
func (r *Recipe) Line(s *laminate.Schedule, lib *laminate.Library) *laminate.Schedule {
	d := r.begin(s, lib)
	var outer []laminate.Ply
	for i, p := range d.Plies {
		if p.Zone = d.Zone(i); !p.Zone.InBarrier() {
			outer = append(outer, p)
		}
	}
	d.Remove(0, len(d.Plies))
	d.Insert(0, r.barrier(len(outer) > 0)...)
	d.AddGelStops()
	d.Insert(len(d.Plies), outer...)
	return d.Schedule()
}

// begin makes a draft that has the recipe's resins.
func (r *Recipe) begin(s *laminate.Schedule, lib *laminate.Library) *Draft {
	n := *s
	n.Resins = append(make([]laminate.Resin, 0, len(s.Resins)+3), s.Resins...)
	for _, x := range []laminate.Resin{r.surface(), r.Barrier, r.Wall} {
		if _, there := n.Resin(x.ID); !there && x.ID != "" {
			n.Resins = append(n.Resins, x)
		}
	}
	return Begin(&n, lib)
}

// surface is the resin of the veil.
func (r *Recipe) surface() laminate.Resin {
	if r.Surface.ID != "" {
		return r.Surface
	}
	return r.Barrier
}

// barrier gives the rows of the barrier, gelled where something follows.
func (r *Recipe) barrier(followed bool) []laminate.Ply {
	rows := slices.Clone(r.Given)
	if len(rows) == 0 {
		rows = add(nil, laminate.Ply{Material: r.Veil, Count: r.Veils}, r.surface().ID, laminate.InnerSurface)
		rows = add(rows, laminate.Ply{Material: r.Mat, Count: r.Mats}, r.Barrier.ID, laminate.InteriorLayer)
	}
	if len(rows) > 0 && followed {
		rows[len(rows)-1].GelAfter = true
	}
	return rows
}

// add lays plies; equal ones that follow one another in one go are a row.
func add(rows []laminate.Ply, p laminate.Ply, resin string, zone laminate.Zone) []laminate.Ply {
	p.Resin, p.Zone = resin, zone
	if p.Material == "" || p.Count < 1 {
		return rows
	}
	if k := len(rows) - 1; k >= 0 {
		like := rows[k]
		like.Count, like.GelAfter = p.Count, p.GelAfter
		if like == p && !rows[k].GelAfter && rows[k].Count+p.Count <= laminate.MostCount {
			rows[k].Count += p.Count
			rows[k].GelAfter = p.GelAfter
			return rows
		}
	}
	return append(rows, p)
}

// Fill gives a resin mix the filler that a special barrier asks for, at the
// usual share. One that holds such a filler already keeps it, and its share
// where that is given.
func Fill(r *laminate.Resin, f laminate.Filler) {
	if r.Filler != f && !(r.Filler.Hard() && f.Hard()) {
		r.Filler, r.FillerContent, r.FillerDensity = f, laminate.Optional[float64]{}, quantity.Density{}
	}
	switch {
	case r.FillerContent.Given:
	case f.Hard():
		r.FillerContent = laminate.Some(catalog.HardFillerShare)
	default:
		r.FillerContent = laminate.Some(catalog.CarbonPowderShare)
	}
}

// FreeID is the id, or one like it that no resin of the schedule has yet:
// "wall", "wall-2", "wall-3".
func FreeID(s *laminate.Schedule, id string) string {
	name := id
	for n := 2; ; n++ {
		if _, taken := s.Resin(name); !taken {
			return name
		}
		name = fmt.Sprintf("%s-%d", id, n)
	}
}
