// Package layup lays walls: from what a wall is made of to a schedule whose
// zones are written and whose gel stops stand where heat asks for them.
package layup

import (
	"frp/veilwright/laminate"
	"frp/veilwright/laminate/catalog"
	"frp/veilwright/laminate/quantity"
)

// Recipe is a wall by its parts.
type Recipe struct {
	Veil      string
	Veils     int
	Mat       string
	Mats      int
	Barrier   laminate.Resin
	Surface   laminate.Resin // of the veil, where it is another mix than the mats'
	Wall      laminate.Resin
	Structure []laminate.Ply // material, count and angle
	Outside   string         // veil under the coat, "" for none
	Coat      string
}

// Lay makes the schedule of a recipe with part, service and materials of s:
// single plies, gel stops where a barrier or a thickness asks for them, equal
// neighbors joined, every zone written.
func (r *Recipe) Lay(s *laminate.Schedule, lib *laminate.Library) *laminate.Schedule {
	n := s.Clone()
	n.Plies = nil
	surface := r.Barrier
	if r.Surface.ID != "" {
		surface = r.Surface
	}
	add := func(p laminate.Ply, resin string, zone laminate.Zone) {
		if p.Material == "" {
			return
		}
		p.Resin, p.Zone = resin, zone
		count := p.Count
		p.Count = 1
		for range count {
			n.Plies = append(n.Plies, p)
		}
	}
	add(laminate.Ply{Material: r.Veil, Count: r.Veils}, surface.ID, laminate.InnerSurface)
	add(laminate.Ply{Material: r.Mat, Count: r.Mats}, r.Barrier.ID, laminate.InteriorLayer)
	barrier := len(n.Plies)
	for _, p := range r.Structure {
		add(p, r.Wall.ID, laminate.StructuralLayer)
	}
	add(laminate.Ply{Material: r.Outside, Count: 1}, r.Wall.ID, laminate.OuterSurface)
	add(laminate.Ply{Material: r.Coat, Count: 1}, r.Wall.ID, laminate.OuterSurface)
	for _, x := range []laminate.Resin{surface, r.Barrier, r.Wall} {
		if _, there := n.Resin(x.ID); !there && x.ID != "" {
			n.Resins = append(n.Resins, x)
		}
	}
	stop(n, lib, barrier)
	n.Plies = joined(n.Plies)
	return n
}

// stop sets gel stops on single plies: on the last of the barrier, and where
// more would be laid in one go than exotherm allows. A wound ply ends the count
// until the next stop.
func stop(n *laminate.Schedule, lib *laminate.Library, barrier int) {
	a := laminate.Analyze(n, lib)
	mats, thick, wound := 0, 0.0, false
	for i := range n.Plies {
		row := &a.Rows[i]
		form := laminate.NoForm
		if row.Material != nil {
			form = row.Material.Form
		}
		wound = wound || form == laminate.RovingBand
		if !wound && form != laminate.Lamina {
			if thick > 0 && (form.Chopped() && mats == catalog.MatsInOneGo || quantity.Above(thick+row.Thickness, catalog.ThickestInOneGo.SI())) {
				n.Plies[i-1].GelAfter = true
				mats, thick = 0, 0
			}
			thick += row.Thickness
			if form.Chopped() {
				mats++
			}
		}
		if i == barrier-1 && i+1 < len(n.Plies) {
			n.Plies[i].GelAfter = true
			mats, thick, wound = 0, 0, false
		}
	}
}

// joined makes rows of equal plies that follow one another in one go.
func joined(plies []laminate.Ply) []laminate.Ply {
	var rows []laminate.Ply
	for _, p := range plies {
		if k := len(rows) - 1; k >= 0 && !rows[k].GelAfter && rows[k].Count < laminate.MostCount {
			same := p
			same.Count, same.GelAfter = rows[k].Count, false
			if same == rows[k] {
				rows[k].Count++
				rows[k].GelAfter = p.GelAfter
				continue
			}
		}
		rows = append(rows, p)
	}
	return rows
}
