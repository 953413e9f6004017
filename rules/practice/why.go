package practice

// whyOf says why something is demanded of a wall, by the demand's key. What
// rules say of it themselves is not repeated here.
func whyOf(key string) string {
	switch key {
	case "barrier.veil_fiber":
		return "The veil is the one fiber that the fluid is sure to reach, so the fiber is chosen for the fluid: glass where it is not attacked, synthetic where it is, carbon where the wall must conduct."
	case "barrier.veil_plies":
		return "One veil ply holds a skin of resin at the surface. A second is required where the fluid slowly consumes that skin, or to cover a dry spot in the first."
	case "barrier.mat_plies", "barrier.mat_areal_mass":
		return "The mats behind the veil are the depth of the barrier: short chopped strands in plenty of resin, so that fluid cannot wick far and a crack has no straight path. Fewer or lighter mats are less depth."
	case "barrier.thickness":
		return "Diffusion takes longer through a thicker barrier. A barrier is made no thicker than necessary, because a thick one cracks more easily and carries no load."
	case "barrier.glass_content":
		return "Too little glass and the barrier shrinks and crazes; too much and there is too little resin to keep the fluid from the glass."
	case "barrier.resin", "structure.resin":
		return "The fluid meets the resin nearly everywhere. A family is required because it has a record in this service; another one has to be shown to serve first."
	case "barrier.filler", "barrier.filler_content":
		return "A filler has a task: hard grains take the wear, carbon powder conducts charge. Too little is not enough, and too much keeps resin from wetting the mats."
	case "barrier.conductive":
		return "Where vapor can ignite, the charge that a flowing fluid builds up has to be conducted to ground; resin and glass do not conduct it."
	case "structure.thickness", "total.thickness":
		return "The structure carries the load, and it carries it by its thickness and its glass. The barrier is not counted."
	case "structure.glass_content":
		return "Strength and stiffness come from the glass. Below the required content the wall is thick but weak; above it strands are dry."
	case "structure.forms", "structure.angle", "structure.process":
		return "Form, process and angle of the structure decide in which direction it is strong. The design figures hold only for what was specified."
	case "outer_surface.required":
		return "Without a sealed outer surface, weather and splashes reach the structural glass, and the last resin stays tacky in air."
	case "sequence":
		return "Each ply protects or bonds the next, and the required order is the one that was designed."
	}
	return "The specification requires it."
}
