package overlay

import (
	"slices"
	"strings"

	"frp/veilwright/laminate"
)

// Coat is the waxed coat that a wall of a job ends in and that others are bonded
// onto. Nothing bonds to wax, so it is laid when all that is bonded onto the wall is:
// so lay-up and route sheets have it.
type Coat struct {
	First int      // its first ply, from the process side; it is the last of the wall
	After []string // ids of the joints and nozzles that are laid before it, and knuckles
}

// LastCoat is that of a part whose wall has the analysis a; nil where the wall ends
// otherwise, where nothing is bonded onto it, and where it is laid from the outside
// in: there the coat comes first.
func LastCoat(j *laminate.Job, part int, a *laminate.Analysis) *Coat {
	c := &Coat{}
	for i := len(a.Rows) - 1; i >= 0; i-- {
		if m := a.Rows[i].Material; m == nil || !m.Waxed {
			break
		}
		c.First = a.Rows[i].First
	}
	if c.First == 0 || j.Parts[part].Laid == laminate.OutsideIn {
		return nil
	}
	var corners []string
	for _, o := range All(j) {
		switch {
		case o.Kind.Face() != "outside" || !slices.Contains(o.Faces(j), part) || slices.Contains(c.After, o.Of):
		case o.Kind == Knuckle:
			corners = append(corners, "the knuckle of "+o.Part)
		default:
			c.After = append(c.After, o.Of)
		}
	}
	c.After = append(c.After, corners...) // they come when the wall stands
	if c.After == nil {
		return nil
	}
	return c
}

// Before is what it comes after: "J1, N1".
func (c *Coat) Before() string { return strings.Join(c.After, ", ") }
