package entry

import "frp/veilwright/laminate"

// says is what each key of a row means to whoever fills in a form: few words, as
// the line of a form has no more room at 80 columns.
func says(kind laminate.RefKind, key string) string {
	switch kind {
	case laminate.RefService:
		return ofService.of(key)
	case laminate.RefVessel:
		return ofVessel.of(key)
	case laminate.RefTest:
		return ofTest.of(key)
	case laminate.RefBond:
		return ofBond.of(key)
	case laminate.RefJobPart:
		return ofPart.of(key)
	case laminate.RefNozzle:
		return ofNozzle.of(key)
	case laminate.RefJoint:
		return ofJoint.of(key)
	case laminate.RefLaminate:
		return "by which parts, joints and nozzles name it"
	default:
	}
	return ""
}

// meanings are those of the keys of a row, one by one: a map would be built at
// every start.
type meanings []struct{ key, says string }

func (m meanings) of(key string) string {
	for i := range m {
		if m[i].key == key {
			return m[i].says
		}
	}
	return ""
}

var ofService = meanings{
	{"fluid", "as the shop book or the purchaser names it"},
	{"concentration", "by mass: 15 %, or 0.15"},
	{"temperature", "design, of the fluid at the wall"},
	{"upset", "hottest excursion, short"},
	{"ph", "lowest and highest: 3.5 to 6, or 3.5-6"},
	{"contact", "how the fluid meets the wall"},
	{"contains", "what in it attacks glass, resin or cure"},
	{"pressure", "gauge, at the top; 0 says there is none"},
	{"vacuum", "outside over inside; 0 says there is none"},
	{"test_pressure", "gauge; the test of the whole is its own row"},
	{"specific_gravity", "of the liquid, water is 1"},
	{"flame_spread", "highest index allowed"},
	{"conductive", "whether the barrier has to conduct"},
	{"abrasive", "whether solids scour the wall"},
}

var ofVessel = meanings{
	{"liquid_height", "highest, above bottom of the lowest course"},
	{"rim", "what stiffens the rim of an open top"},
}

var ofTest = meanings{
	{"medium", "what fills it; gas under pressure can kill"},
	{"liquid_height", "of fill, above bottom of the lowest course"},
	{"pressure", "gauge, at the top of the fill"},
	{"vacuum", "outside above inside"},
	{"temperature", "of fill and wall at the test"},
	{"held", "how long it stands"},
}

var ofBond = meanings{
	{"shear_strength", "at rupture, cold, measured by the shop"},
	{"factor", "by which the strength is divided"},
	{"source", "of the strength: which tests, by whom"},
}

var ofPart = meanings{
	{"id", "by which joints and nozzles name it"},
	{"form", "what the part is"},
	{"laminate", "of its wall"},
	{"schedule", "file of its wall, in place of a laminate"},
	{"knuckle", "laid outside round a flat bottom's corner"},
	{"process", "how the structure is made"},
	{"inside_diameter", "of a cone: of its large end"},
	{"length", "straight side; long side of a rectangle"},
	{"liquid_height", "above its bottom, instead of the vessel's"},
	{"area", "of a flat panel"},
	{"flanged", "whether it ends in flanges"},
	{"ends", "closed: the wall carries the end thrust"},
	{"design_basis", "strength table or strain; else by process"},
	{"stiffener_spacing", "free length between stiffeners, for vacuum"},
	{"modulus_retention", "kept when warm, tested: 80 %, or 0.8"},
	{"k_factors", "five of the unit-load basis, 1 or more each"},
	{"grounding", "how a conductive barrier is grounded"},
	{"shape", "of a head"},
	{"crown_radius", "inside, of a torispherical head"},
	{"knuckle_radius", "inside; torispherical head or flat bottom"},
	{"depth", "inside, of an ellipsoidal head"},
	{"half_angle", "degrees, at the apex of a cone"},
	{"small_diameter", "inside, of a cone's small end; 0 for a point"},
	{"bend_radius", "of the center line"},
	{"turn", "degrees that the elbow turns"},
	{"miters", "joints in the elbow, 0 for a smooth one"},
	{"supported", "whether the whole bottom stands on its base"},
	{"hold_down", "vacuum or lift that its hold-down bears"},
	{"knuckle_height", "how far the knuckle runs up the wall"},
	{"taper", "over which it thins to the next course"},
	{"width", "short side of a rectangle"},
	{"edge", "how its edge is held"},
	{"bolt_circle", "diameter"},
	{"deflection_limit", "of diameter or short side: 0.5 %, or 0.005"},
	{"size", "nominal, of the bore"},
	{"drilling", "table of bolts and circle"},
	{"outside_diameter", "of the ring, where no drilling says so"},
	{"thickness", "the shop's own figure: never computed"},
	{"pressure_class", "for which the shop proved that thickness"},
	{"bolts", "how many, where no drilling says so"},
	{"bolt_size", "nominal diameter, where no drilling says so"},
	{"torque", "of a bolt, the most that the shop allows"},
	{"mate_face", "of what it is bolted to"},
	{"washers", "under every head and nut"},
	{"count", "how many alike"},
	{"laid", "inside-out: on a mandrel; else in a mold"},
	{"proved_by", "whose calculation or test, number, revision"},
	{"proved_pressure", "inside, at its lowest, liquid included"},
	{"proved_vacuum", "outside above inside, of that proof"},
	{"proved_temperature", "highest, of that proof"},
	{"proved_structure", "structure that was proved, barrier apart"},
	{"temperature", "instead of the service's"},
	{"pressure", "gauge, instead of the service's"},
	{"vacuum", "outside over inside, instead of service"},
	{"specific_gravity", "instead of the service's"},
}

var ofNozzle = meanings{
	{"id", "by which papers and records name it"},
	{"on", "the part that it stands on"},
	{"height", "of its center above the bottom of the part"},
	{"offset", "on bottom, head, cone, cover: from the axis"},
	{"bearing", "degrees round the axis"},
	{"size", "nominal, of the bore"},
	{"opening", "diameter that is cut; else the size counts"},
	{"kind", "how it meets the wall"},
	{"flange", "the part that its flange is"},
	{"cover", "the part that closes it: a manway's"},
	{"projection", "from the wall to the face of the flange"},
	{"pressure_class", "that it has to have"},
	{"pad", "laminate laid round the opening"},
	{"pad_diameter", "of its first ply; its taper runs beyond"},
	{"installation_outside", "laminate over neck and wall, outside"},
	{"installation_inside", "laminate over neck and wall, inside"},
	{"neck", "laminate of the neck"},
	{"neck_bond", "bonded along neck and wall, each"},
	{"gussets", "how many, 0 for none"},
	{"sealed_edge", "whether the cut edge is sealed with resin"},
	{"piping_load", "whether what is connected pulls or bends"},
	{"proved_by", "whose calculation or test, number, revision"},
	{"proved_pressure", "inside, at its foot, liquid included"},
	{"proved_vacuum", "outside above inside, of that proof"},
	{"proved_temperature", "highest, of that proof"},
	{"proved_structure", "structure of part and pad together"},
}

var ofJoint = meanings{
	{"id", "by which papers and records name it"},
	{"between", "two parts, a comma between them"},
	{"outside", "laminate of the strap"},
	{"inside", "laminate of the inside seal"},
	{"width", "of the strap's widest ply under its coat"},
	{"first_width", "of the strap's first ply, whole"},
	{"inside_width", "of the inside seal, whole"},
	{"widths", "which ply of the strap lies first"},
	{"gap", "between the parts, at most; 0 for none"},
	{"axial_load", "pulling, beside the pressure's; 0 for none"},
	{"qualification", "of the bonding procedure, and who bonds"},
	{"proved_by", "whose calculation or test, number, revision"},
	{"proved_pressure", "inside, at the joint, liquid included"},
	{"proved_vacuum", "outside above inside, of that proof"},
	{"proved_temperature", "highest, of that proof"},
	{"proved_structure", "of the strap, that was proved"},
}
