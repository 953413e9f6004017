package overlay

import (
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
	if waxed(a) == 0 {
		return nil
	}
	return LastCoats(j, AllLaid(j.Assemble()), func(i int) *laminate.Analysis {
		if i == part {
			return a
		}
		return nil
	})[part]
}

// LastCoats are those of the parts of a job, by part: laid is all that is laid over them,
// wall gives the analysis of a wall, nil of a part that nobody asks about.
func LastCoats(j *laminate.Job, laid []Laid, wall func(part int) *laminate.Analysis) []*Coat {
	coats, corners := make([]*Coat, len(j.Parts)), make([][]string, len(j.Parts))
	for i := range j.Parts {
		if a := wall(i); a != nil && j.Parts[i].Laid != laminate.OutsideIn && waxed(a) > 0 {
			coats[i] = &Coat{First: waxed(a)}
		}
	}
	type bond struct {
		part int
		of   string
	}
	told := map[bond]bool{} // what has several laminates on a part is one of those it comes after
	for k := range laid {
		o := &laid[k]
		for _, i := range o.On {
			switch b := (bond{i, o.Of}); {
			case coats[i] == nil || o.Kind.Face() != "outside" || told[b]:
			case o.Kind == Knuckle:
				corners[i] = append(corners[i], "the knuckle of "+o.Part)
			default:
				told[b] = true
				coats[i].After = append(coats[i].After, o.Of)
			}
		}
	}
	for i, c := range coats {
		if c == nil {
			continue
		}
		if c.After = append(c.After, corners[i]...); c.After == nil { // corners come when the wall stands
			coats[i] = nil
		}
	}
	return coats
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
