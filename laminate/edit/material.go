package edit

import (
	"slices"

	"frp/veilwright/laminate"
)

// SetMaterial gives the schedule a material of its own, or changes the one of
// that id it has. Plies that name the id follow, since a schedule's own
// materials win over the shop book's and the built-in ones.
func SetMaterial(s *laminate.Schedule, m laminate.Material, what string) Edit {
	at := slices.IndexFunc(s.Materials, func(x laminate.Material) bool { return x.ID == m.ID })
	index := at
	if at < 0 {
		index = len(s.Materials)
	}
	return Edit{
		Label: "material " + m.ID + ": " + what,
		At:    laminate.Ref{Kind: laminate.RefMaterial, Index: index},
		Do: func(s *laminate.Schedule) (*laminate.Schedule, error) {
			n := *s
			n.Materials = slices.Clone(s.Materials)
			if at >= 0 && at < len(n.Materials) && n.Materials[at].ID == m.ID {
				own := m
				own.Origin = n.Materials[at].Origin
				if own == n.Materials[at] {
					return s, nil
				}
				n.Materials[at] = own
			} else {
				own := m
				own.Origin = 0
				n.Materials = append(n.Materials, own)
			}
			return judged(s, &n, nil)
		},
	}
}
