package entry

import "frp/veilwright/laminate"

// Explained lists the keys of a kind of row that are explained.
func Explained(kind laminate.RefKind) (keys []string) {
	of := map[laminate.RefKind]meanings{laminate.RefService: ofService, laminate.RefVessel: ofVessel, laminate.RefTest: ofTest, laminate.RefBond: ofBond,
		laminate.RefJobPart: ofPart, laminate.RefNozzle: ofNozzle, laminate.RefJoint: ofJoint}
	for _, m := range of[kind] {
		keys = append(keys, m.key)
	}
	return keys
}
