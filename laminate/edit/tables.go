package edit

import (
	"fmt"
	"slices"

	"frp/veilwright/laminate"
)

// SetPart changes a key of the part by f; what says it for the label: "length
// 20 ft" gives "part: length 20 ft".
func SetPart(key, what string, f func(*laminate.Part)) Edit {
	return Edit{
		Label: "part: " + what,
		At:    laminate.PartRef(key),
		Do: func(s *laminate.Schedule) (*laminate.Schedule, error) {
			n := *s
			f(&n.Part)
			if n.Part == s.Part {
				return s, nil
			}
			return judged(s, &n, nil)
		},
	}
}

// SetService changes a key of the service, as SetPart does of the part.
func SetService(key, what string, f func(*laminate.Service)) Edit {
	return Edit{
		Label: "service: " + what,
		At:    laminate.ServiceRef(key),
		Do: func(s *laminate.Schedule) (*laminate.Schedule, error) {
			n := *s
			f(&n.Service)
			if n.Service == s.Service {
				return s, nil
			}
			return judged(s, &n, nil)
		},
	}
}

// SetHeader changes title, job, revision, author, notes or units. What f does
// to part, service, resins, materials and plies is dropped.
func SetHeader(key, what string, f func(*laminate.Schedule)) Edit {
	return Edit{
		Label: "schedule: " + what,
		At:    laminate.Ref{Kind: laminate.RefSchedule, Key: key},
		Do: func(s *laminate.Schedule) (*laminate.Schedule, error) {
			c := s.Clone()
			f(c)
			if c.Head == s.Head {
				return s, nil
			}
			n := *s
			n.Head = c.Head
			return judged(s, &n, nil)
		},
	}
}

// SetCondition puts a condition in the place of condition i, adds it where there
// is none, or takes it out where c is nil.
func SetCondition(i int, c *laminate.Condition) Edit {
	label := fmt.Sprintf("condition %d not stated", i+1)
	if c != nil {
		label = "condition " + c.Name
	}
	return Edit{
		Label: label,
		At:    laminate.Ref{Kind: laminate.RefCondition, Index: i},
		Do: func(s *laminate.Schedule) (*laminate.Schedule, error) {
			n := *s
			n.Conditions = slices.Clone(s.Conditions)
			switch {
			case c == nil && i >= len(s.Conditions):
				return s, nil
			case c == nil:
				n.Conditions = slices.Delete(n.Conditions, i, i+1)
			case i >= len(s.Conditions):
				n.Conditions = append(n.Conditions, *c)
			case s.Conditions[i] == *c:
				return s, nil
			default:
				n.Conditions[i] = *c
			}
			return judged(s, &n, nil)
		},
	}
}

// AddResin defines one more resin.
func AddResin(s *laminate.Schedule, r laminate.Resin) Edit {
	return Edit{
		Label: "added resin " + r.ID,
		At:    laminate.ResinRef(len(s.Resins), ""),
		Do: func(s *laminate.Schedule) (*laminate.Schedule, error) {
			n := *s
			n.Resins = append(slices.Clone(s.Resins), r)
			return judged(s, &n, nil)
		},
	}
}

// SetResin changes resin i by f; what says it for the label. Plies follow a
// change of its id.
func SetResin(s *laminate.Schedule, i int, key, what string, f func(*laminate.Resin)) Edit {
	return Edit{
		Label: fmt.Sprintf("resin %s: %s", resinName(s, i), what),
		At:    laminate.ResinRef(i, key),
		Do: func(s *laminate.Schedule) (*laminate.Schedule, error) {
			if i < 0 || i >= len(s.Resins) {
				return nil, fmt.Errorf("there is no resin %d", i+1)
			}
			r := s.Resins[i]
			f(&r)
			if r == s.Resins[i] {
				return s, nil
			}
			n := *s
			n.Resins = slices.Clone(s.Resins)
			n.Resins[i] = r
			if old := s.Resins[i].ID; old != r.ID {
				n.Plies = slices.Clone(s.Plies)
				for row := range n.Plies {
					if n.Plies[row].Resin == old {
						n.Plies[row].Resin = r.ID
					}
				}
			}
			return judged(s, &n, nil)
		},
	}
}

// RemoveResin takes a resin out that no ply uses.
func RemoveResin(s *laminate.Schedule, i int) Edit {
	return Edit{
		Label: "removed resin " + resinName(s, i),
		At:    laminate.ResinRef(max(0, min(i, len(s.Resins)-2)), ""),
		Do: func(s *laminate.Schedule) (*laminate.Schedule, error) {
			if i < 0 || i >= len(s.Resins) {
				return nil, fmt.Errorf("there is no resin %d", i+1)
			}
			for row := range s.Plies {
				if s.Plies[row].Resin == s.Resins[i].ID {
					return nil, fmt.Errorf("%s is laid in it; give the ply another resin first", PlyLabel(s, row))
				}
			}
			n := *s
			n.Resins = slices.Delete(slices.Clone(s.Resins), i, i+1)
			return &n, nil
		},
	}
}

func resinName(s *laminate.Schedule, i int) string {
	if i < 0 || i >= len(s.Resins) {
		return fmt.Sprint(i + 1)
	}
	return s.Resins[i].ID
}
