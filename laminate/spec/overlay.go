package spec

import (
	"slices"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/inspection"
	"frp/veilwright/laminate/overlay"
)

// ForOverlay is what a specification demands of what is laid at a joint or nozzle.
// Its thicknesses, glass contents and order are those of walls, and its dimensions,
// tests and hold points of a finished part; what an overlay has to be, the rules of
// joints and nozzles say. The barrier is demanded of what the fluid touches, the
// resin and forms of the structure of the others and of a neck.
func (d *Specification) ForOverlay(k overlay.Kind) *Specification {
	n := *d
	n.OuterSurface, n.Total, n.Sequence = laminate.Optional[bool]{}, Thickness{}, nil
	n.Structure = Structure{Resin: d.Structure.Resin, Forms: d.Structure.Forms}
	if k.Inside() {
		n.Structure = Structure{}
	}
	if n.Barrier.Thickness, n.Barrier.GlassContent = (Thickness{}), (Range{}); !k.Wets() {
		n.Barrier = Barrier{}
	}
	i := &d.Inspection
	n.Inspection = Inspection{Barcol: i.Barcol, BarcolReadings: i.BarcolReadings, Acetone: i.Acetone, LayupRecord: i.LayupRecord, Calibrated: i.Calibrated,
		AcceptanceLevel: i.AcceptanceLevel, PostCure: i.PostCure}
	for _, l := range i.Defects {
		if l.facing(k) {
			n.Inspection.Defects = append(n.Inspection.Defects, l)
		}
	}
	n.Inspection.Plans = slices.DeleteFunc(slices.Clone(i.Plans), func(p Plan) bool {
		return p.Places != "" || p.Of != inspection.Barcol && p.Of != inspection.Acetone && p.Of != inspection.Visual
	})
	return &n
}

// NotOfOverlays says what ForOverlay leaves out.
const NotOfOverlays = "thickness, glass content, order of plies, dimensions, readings at places of the part, hydrotest and hold points are required of parts and not held against what is laid at a joint or nozzle"

// LevelsForOverlay are the limits of levels for the face that an overlay has.
func LevelsForOverlay(list []LevelLimit, k overlay.Kind) (kept []LevelLimit) {
	for _, l := range list {
		if l.facing(k) {
			kept = append(kept, l)
		}
	}
	return kept
}

// facing makes a limit of both sides one of the face that an overlay has: the other
// lies on a part. A limit of that other side is none.
func (l *DefectLimit) facing(k overlay.Kind) bool {
	if !k.Bonds() {
		return true
	}
	face := OutsideFace
	if k.Wets() {
		face = ProcessSide
	}
	if l.Side == EitherSide {
		l.Side = face
	}
	return l.Side == face
}
