// Package sequence owns the rules about the order of plies and the stops
// between them: zones outward, mats where fabrics meet, gel and wax.
package sequence

import (
	"frp/veilwright/laminate"
	"frp/veilwright/rules"
)

const family = "sequence"

// Rules lists the family.
func Rules() []*rules.Rule {
	return []*rules.Rule{
		ZonesOutOfOrder, WovenOnWoven, WovenOutermost, NoBondMat, NoOuterSurface, WaxBetweenPlies,
		GelStopMissing, GelStopLate, ZonesInferred,
	}
}

// mat is a ply of the mat to fix with, in the resin and zone of a neighbor.
func mat(id string, like *laminate.Ply, zone laminate.Zone) laminate.Ply {
	return laminate.Ply{Material: id, Resin: like.Resin, Zone: zone, Count: 1}
}

// single makes a row of a row: one ply, no stop after it.
func single(ply laminate.Ply) laminate.Ply {
	ply.Count, ply.GelAfter = 1, false
	return ply
}
