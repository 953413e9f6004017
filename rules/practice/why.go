package practice

// whyOf says why something is demanded of a wall, by the demand's key. What
// rules say of it themselves is not repeated here.
func whyOf(key string) string {
	switch key {
	case "barrier.veil_fiber":
		return "The veil is the one fiber that the fluid is sure to find, so the fiber is chosen for the fluid and nothing else: glass where it is not attacked, synthetic where it is, carbon where the wall must conduct."
	case "barrier.veil_plies":
		return "One veil ply holds a skin of resin at the surface. A second is asked for where that skin is eaten slowly, or where one crew in ten leaves a dry spot in the first."
	case "barrier.mat_plies", "barrier.mat_areal_mass":
		return "The mats behind the veil are the depth of the barrier: short chopped strands in plenty of resin, so that nothing wicks along a fiber and a crack has no way through. Fewer or lighter mats are less depth."
	case "barrier.thickness":
		return "What the fluid takes, it takes from the thickness, and diffusion needs longer through a thicker barrier. A barrier is made no thicker than it has to be either, for it cracks more easily and carries no load."
	case "barrier.glass_content":
		return "Too little glass and the barrier shrinks and crazes; too much and there is too little resin to keep the fluid from the glass."
	case "barrier.resin", "structure.resin":
		return "The resin is what the fluid meets nearly everywhere. A family is demanded because it has stood in this service, and another one has to be shown to do so first."
	case "barrier.filler", "barrier.filler_content":
		return "A filler has a task: hard grains carry the wear, carbon powder leads charge. Too little does not do it and too much starves the mats of resin."
	case "barrier.conductive":
		return "Where vapors may burn, charge that the fluid rubs off has to be led away before it sparks; resin and glass do not lead it."
	case "structure.thickness", "total.thickness":
		return "The structure carries the load, and it carries it by its thickness and its glass. The barrier is not counted."
	case "structure.glass_content":
		return "Strength and stiffness come from the glass. Below the demanded content the wall is thick but weak; above it strands lie dry."
	case "structure.forms", "structure.angle", "structure.process":
		return "Form, process and angle of the structure decide which way it is strong. The design figures hold for what was demanded and for nothing else."
	case "outer_surface.required":
		return "Without a sealed outside weather and splashes get at the structural glass, and the air keeps the last resin tacky."
	case "sequence":
		return "The order is the build: each ply protects or bonds the next, and the demanded order is the one that was designed and proved."
	}
	return "It is demanded, and a wall is bought to what is demanded."
}
