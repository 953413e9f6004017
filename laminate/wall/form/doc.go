// Package form says what the form of a part makes of a load on it: the factors
// of heads, cones and elbows on the load of a straight shell, and what is asked
// of flat plates, flanges and flat bottoms. It knows the part and a few figures of
// its wall, and nothing of plies; package wall asks it.
package form

import (
	"frp/veilwright/laminate"
	"frp/veilwright/laminate/quantity"
)

// Facts are what is known of a part and its wall, in SI.
type Facts struct {
	Part      *laminate.Part
	Units     quantity.System // the reader's
	Whole     float64         // m, thickness of the whole wall
	Structure float64         // m, of the plies that count
	Modulus   float64         // Pa, the lowest of membrane and bending moduli
	Kept      float64         // share of cold strength that is left
	AllMat    bool            // whether nothing of the structure is woven
	Untabled  string          // why the strength table does not know the structure, "" where it does
	Pressure  float64         // Pa, from inside, with what liquid adds
	Vacuum    float64         // Pa, from outside
	OneDepth  bool            // one depth of the liquid is looked at, not the whole part
}

// Weighing is a demand on a part and what it can bear, or why there are no such
// figures.
type Weighing struct {
	Kind             quantity.Kind
	Demand, Capacity float64
	Reason, Basis    string
	Skip, Open       string // why it is not asked; why it cannot be told

	// What it rests on beside the part: the moduli, the thickness of the whole
	// wall, the loads from inside, those from both sides, the vacuum alone.
	Moduli, Wall, Inside, Loads, Lift bool
}

const noLoad = "no load that is given asks for it"

// positive gives the figure of a size that is stated and above zero.
func positive(l quantity.Length) (m float64, ok bool) { return l.SI(), l.SI() > 0 }
