package form

import (
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/wall/shell"
	"frp/veilwright/laminate/wall/worked"
)

// Loaded is added to the name of a case that what a joint states along the axis pulls
// on as well: a pull takes strain off the hoop, and the case without it stands beside.
const Loaded = " with axial load"

// LoadedAlong says what a wall is figured for that a joint states a load on.
const LoadedAlong = "A joint of it states a load along the axis (axial_load): each load from inside is figured with it and without."

// Along asks the strength along the axis of a wall that the strength table knows: load
// is the most that pulls along it, round the most that presses round it, both N/m.
// Skipped where that load is no more than the thrust of closed ends, half of the load
// round, which the table's own thickness has in it, and of heads, whose factor is that of
// any direction, unless something pulls beside it. What is laid over joints goes on from
// the structure alone, so no barrier counts.
func (x *Facts) Along(load, round float64) Weighing {
	w := Weighing{Kind: quantity.Stress, Wall: true, Inside: true,
		Basis: "N/t against S/10, S the least tensile strength by thickness (NBS PS 15-69; ASTM C582 type I for mat; from memory), the structure alone; the load along by statics"}
	switch {
	case !(load > 0) || !quantity.Above(load, round/2):
		w.Skip = "nothing pulls along its axis but the thrust of closed ends, which the thickness wanted round has in it"
	case x.Untabled != "":
		w.Open = x.Untabled
	case x.Structure <= 0:
		w.Open = "no structural ply of a known thickness"
	default:
		s := shell.TableStrength(x.Structure, x.AllMat)
		w.Demand, w.Capacity = load/x.Structure, s*x.Kept/shell.TableSafety
		w.Reason = "S = " + x.Units.Figure(s, quantity.Stress) + "; " + x.Units.Figure(load, quantity.LineLoad) + " along the axis, the structure alone is counted"
		if x.Kept < 1 {
			w.Reason += ", of which the warm wall keeps " + quantity.Share(x.Kept)
		}
	}
	return w
}

// WorkAlong writes the stress of a load along the axis, N/m, under a case and what the
// wall may bear.
func (x *Facts) WorkAlong(w *worked.List, name string, load float64, c *Weighing) {
	s := w.Stress(shell.TableStrength(x.Structure, x.AllMat))
	w.Add("stress along the axis under "+name, "σx", "Nx/t", worked.Put("#/#", w.Line(load), w.Length(x.Structure)), w.Stress(c.Demand), w.StressUnit(), "statics")
	w.Add("least tensile strength of the table at the thickness t", "S", "by thickness, "+worked.Pick(x.AllMat, "a wall all of mat", "a wall of mat and woven roving"), "", s, w.StressUnit(), c.Basis)
	w.Add("allowable stress", "σd", "S·retention/10", worked.Put("#·#/10", s, x.Kept), w.Stress(c.Capacity), w.StressUnit(), "")
}
