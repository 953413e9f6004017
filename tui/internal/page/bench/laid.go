package bench

import (
	"frp/veilwright/laminate/overlay"
	"frp/veilwright/rules"
	"frp/veilwright/tui/internal/page"
)

// laid is what the plies are laid as, where they are not the wall of a part; nil of
// a wall. A neck is built as one.
func (b *Bench) laid() *rules.Overlaid {
	if o := b.Desk.Report().Overlay; o != nil && o.Kind != overlay.Neck {
		return o
	}
	return nil
}

// face is what the first ply is laid on.
func (b *Bench) face() string {
	if b.laid() != nil {
		return "the face it is laid on"
	}
	return "the process face"
}

// begins is what the first ply is, as a rule.
func (b *Bench) begins() string {
	if b.laid() != nil {
		return "a mat"
	}
	return "a veil"
}

// inward is what lies before the first ply.
func (b *Bench) inward() string {
	if b.laid() != nil {
		return "no ply lies before it"
	}
	return "inward of it is the fluid"
}

// sides are what lies before the first ply and behind the last one.
func (b *Bench) sides() (first, last string) {
	switch o := b.laid(); {
	case o == nil:
		return "fluid", "air"
	case o.Kind == overlay.None:
		return "", ""
	default:
		return page.Sides(o.Kind)
	}
}
