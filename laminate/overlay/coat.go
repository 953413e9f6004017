package overlay

import (
	"slices"
	"strings"

	"frp/veilwright/laminate"
)

// Coat is the waxed coat that a wall or an overlay of a job ends in and that others are
// bonded onto. Nothing bonds to wax, so it is laid when all that is bonded onto them is:
// so lay-up and route sheets have it.
type Coat struct {
	First int      // its first ply; it is the last of what it is laid on
	After []string // ids of the joints and nozzles that are laid before it, knuckles, gussets
}

// waxed is the first ply of the waxed coat that plies end in, 0 where they end otherwise.
func waxed(a *laminate.Analysis) (first int) {
	for i := len(a.Rows) - 1; i >= 0; i-- {
		if m := a.Rows[i].Material; m == nil || !m.Waxed {
			break
		}
		first = a.Rows[i].First
	}
	return first
}

// LastCoat is that of a part whose wall has the analysis a; nil where the wall ends
// otherwise, where nothing is bonded onto it, and where it is laid from the outside
// in: there the coat comes first.
func LastCoat(j *laminate.Job, part int, a *laminate.Analysis) *Coat {
	c := &Coat{First: waxed(a)}
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

// LastCoat is that of an overlay whose plies have the analysis a: of a strap over whose
// end a knuckle is laid, of a neck that is laid round, of what bears gussets. Nil where
// nothing is bonded onto it, and of a pad that is laid over: that wants no coat.
func (o *Overlay) LastCoat(j *laminate.Job, a *laminate.Analysis) *Coat {
	c := &Coat{First: waxed(a)}
	if c.First == 0 {
		return nil
	}
	switch {
	case o.Kind == Strap:
		for i := range j.Parts {
			if p := &j.Parts[i]; p.Knuckle != "" && (p.ID == o.Part || p.ID == o.Other) {
				c.After = append(c.After, "the knuckle of "+p.ID)
			}
		}
	case o.At.Kind == laminate.RefNozzle:
		n := &j.Nozzles[o.At.Index]
		if o.Kind == Neck && n.Pad != "" {
			c.After = append(c.After, "its pad")
		}
		if o.Kind == Neck && n.InstallationOutside != "" {
			c.After = append(c.After, "its overlay outside")
		}
		if n.Gussets.Value > 0 && (o.Kind == Neck || o.Kind == LaidOutside || o.Kind == Pad && n.InstallationOutside == "") {
			c.After = append(c.After, "its gussets")
		}
	}
	if c.After == nil {
		return nil
	}
	return c
}

// Before is what it comes after: "J1, N1".
func (c *Coat) Before() string { return strings.Join(c.After, ", ") }
