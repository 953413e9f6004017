// Package joint owns the rules about what is laid onto cured parts of a job:
// straps and seals of joints, pads and necks of nozzles.
package joint

import (
	"frp/veilwright/rules"
)

const family = "joints"

const memory = "from memory"

// Rules lists the family.
func Rules() []*rules.Rule {
	return []*rules.Rule{
		JointShearShort, JointHoopThin, JointAxialThin, JointWallWeak, JointTaperSteep, SealMissing, SealOutOfReach, SealThin, SealVeilNotLast, SealUncoated, SealDiffers, WaxUnderBond, BondPlyNotMat, JointUnqualified, BondTooWarm, StrapNarrow, StrapOrderUnstated, SealNarrow, BarrierDiffers, BondUnsourced, OverlayResinDiffers, PlateCorner, CoverStrapped,
		PadThin, PadNarrow, PadBond, NeckBondShort, GussetMissing, EdgeUnsealed, OpeningLarge, OpeningInKnuckle, OpeningUnderVacuum, OpeningsClose, InsideOverlayThin, OutsideOverlayThin, NeckBarrierThin, NozzleBarrierDiffers, NeckClassLow, NeckThin, NozzlePartsDiffer, NozzleKindUnstated, OpeningOffPart, PartUnplaced, NozzleEndContradicted, EndsContradicted, UpliftUnheld, CoverClassLow, NozzleEndUnstated, NozzleLoadsUnknown,
		OverlayOverstrainedAtTest, HoldDownHigh, StrapsOverlap,
	}
}
