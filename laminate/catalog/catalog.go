// Package catalog holds the built-in materials, the typical figures of fibers,
// fillers and resin families, and the figures of practice, as data with the
// source of each. It lays shop books over them and finds their ratings.
//
// The materials are generic: figures for a schedule that is being thought
// about, to be replaced by those of the shop and its makers. Nothing here is
// anybody's product, guide or rating.
package catalog

import "frp/veilwright/laminate"

// Ids of the built-in materials.
const (
	VeilC10         = "veil-c-10"
	VeilC15         = "veil-c-15"
	VeilPolyester15 = "veil-polyester-15"
	VeilCarbon11    = "veil-carbon-11"
	Mat075          = "mat-0.75"
	Mat10           = "mat-1.0"
	Mat15           = "mat-1.5"
	Mat20           = "mat-2.0"
	Chop15          = "chop-1.5"
	Woven18         = "woven-18"
	Woven24         = "woven-24"
	Uni13           = "uni-13"
	BandHoop        = "band-hoop"
	BandHelical     = "band-helical"
	Topcoat         = "topcoat"
)

// fromMemory marks a figure that no published source stands behind.
const fromMemory = "typical, from memory"

// Library returns the built-in library, indexed: a new one at each call, which
// the caller may change before use.
func Library() *laminate.Library {
	fibers := fibers() // figures take a while to spell
	l := &laminate.Library{
		Materials: materials(fibers),
		Families:  families(),
		Fibers:    fibers,
		Fillers:   fillers(),
		Rack:      Rack(),
	}
	l.Index()
	return l
}

// Rack is the order in which digits lay the materials most used where no shop
// book orders another: barrier first, then wall, as they are laid.
func Rack() []string {
	return []string{VeilC15, VeilPolyester15, Mat15, Mat075, Woven24, Uni13, BandHoop, BandHelical, Topcoat}
}

// UsualAngle is the angle in degrees from the axis at which a built-in band is
// taken to be wound until somebody says another: 90 for hoop winding, 55 for
// helical, near the netting angle of a closed cylinder (54.7; Grove 1999). ok
// is false for every other id.
func UsualAngle(id string) (deg float64, ok bool) {
	switch id {
	case BandHoop:
		return 90, true
	case BandHelical:
		return 55, true
	}
	return 0, false
}
