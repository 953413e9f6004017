package equipment

import (
	"fmt"
	"math"
	"slices"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/catalog"
	"frp/veilwright/laminate/edit"
	"frp/veilwright/laminate/joining"
	"frp/veilwright/laminate/overlay"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/vessel"
	"frp/veilwright/laminate/wall/repeat"
	"frp/veilwright/rules/advice"
	"frp/veilwright/rules/joint/statics"
)

// overlays fills in what is laid onto the walls: the knuckle, joints, nozzles.
func (w *work) overlays() {
	w.knuckles()
	w.join()
	for i := range w.j.Joints {
		if !statics.Bolted(w.pass(), i) { // nothing is laid over those
			w.strap(i)
			w.seal(i)
		}
	}
	for i := range w.j.Nozzles {
		w.nozzle(i)
	}
}

// resin is what an overlay on a part is laid in: that of its structure; "" where
// the job has none.
func (w *work) resin(part int) string {
	s, a := w.pass().Parts[part].Schedule, w.pass().Parts[part].Analysis
	for k := len(a.Rows) - 1; k >= 0; k-- {
		if a.Rows[k].Zone != laminate.StructuralLayer || a.Rows[k].Resin == nil {
			continue
		}
		if w.has(s, s.Plies[k].Resin) {
			return s.Plies[k].Resin
		}
	}
	return w.mix
}

// has tells whether a resin of a wall is the job's own: a part with a file of
// its own may call another by that id.
func (w *work) has(s *laminate.Schedule, id string) bool {
	own, ok := (&laminate.Schedule{Resins: w.j.Resins}).Resin(id)
	of, known := s.Resin(id)
	return ok && known && own.Family == of.Family && own.Filler == of.Filler
}

// overlay is the least laminate of mat and woven roving that is enough: a mat to
// bond, woven roving and mat in turn, a mat last, and a coat where it stays bare.
func (w *work) overlay(resin string, coated bool, enough func(*laminate.Analysis) bool) (plies []laminate.Ply, a *laminate.Analysis, why string) {
	s := &laminate.Schedule{Resins: w.j.Resins, Materials: w.j.Materials}
	of := func(usual string, form laminate.Form) string {
		id, _ := catalog.Pick(w.lib, s, usual, func(m *laminate.Material) bool { return m.Form == form && m.Fiber.Glass() })
		return id
	}
	mat, woven := of(catalog.Mat15, laminate.ChoppedMat), of(catalog.Woven24, laminate.WovenRoving)
	mix, ok := s.Resin(resin)
	switch {
	case !ok:
		return nil, nil, "the job has no resin of a structure to lay it in"
	case mat == "":
		return nil, nil, "no mat is known to lay it of"
	}
	r := edit.Recipe{Wall: *mix}
	if coated {
		r.Coat, _ = catalog.Pick(w.lib, s, catalog.Topcoat, func(m *laminate.Material) bool { return m.Form == laminate.ResinCoat })
	}
	r.Structure = []laminate.Ply{{Material: mat, Count: 1}}
	for n := 0; ; n++ {
		built := r.Build(s, w.lib)
		a = laminate.Analyze(built, w.lib)
		if n > 0 && enough(a) {
			return built.Plies, a, ""
		}
		if n == repeat.Most {
			return nil, nil, fmt.Sprintf("%d repeats of mat and woven roving are not enough", repeat.Most)
		}
		if woven != "" {
			r.Structure = append(r.Structure, laminate.Ply{Material: woven, Count: 1})
		}
		r.Structure = append(r.Structure, laminate.Ply{Material: mat, Count: 1})
	}
}

// bears is an overlay whose structure bears a load, round or along, and is as thick as that.
func bears(load, structure float64) func(*laminate.Analysis) bool {
	return func(a *laminate.Analysis) bool {
		h, t, known := statics.Carries(a)
		return known && !quantity.Below(h, load) && !quantity.Below(t, structure)
	}
}

func (w *work) says(a *laminate.Analysis) string {
	plies := 0
	for i := range a.Rows {
		plies += a.Rows[i].Last - a.Rows[i].First + 1
	}
	return quantity.Counted(plies, "ply", "plies") + ", " + w.o.Units.Thickness(a.Total.Thickness)
}

// knuckles fills in the corners of flat bottoms.
func (w *work) knuckles() {
	list := w.shellParts()
	for k, i := range list {
		p := &w.j.Parts[i]
		if p.Form != laminate.FlatBottom || p.Schedule != "" || k+1 == len(list) || !p.InsideDiameter.Given() {
			continue
		}
		radius, height, _ := vessel.Knuckle(p.InsideDiameter.SI())
		for _, x := range []struct {
			key   string
			value *quantity.Length
			least float64
		}{{"knuckle_radius", &p.KnuckleRadius, radius}, {"knuckle_height", &p.KnuckleHeight, height}} {
			if !x.value.Given() {
				*x.value = w.up(x.least)
				w.filled(laminate.JobPartRef(i, x.key), "part "+p.ID+": "+x.key+" "+x.value.Text()+", the least for its diameter (ASTM D3299, ASTM D4097, from memory)")
			}
		}
		if !w.bare(p.Knuckle) {
			continue
		}
		above := list[k+1]
		want := w.pass().Parts[above].Analysis.Total.Thickness
		if want == 0 {
			w.left(laminate.JobPartRef(i, "knuckle"), "part "+p.ID+" has no knuckle laminate: "+w.j.Parts[above].ID+" on it has no wall yet")
			continue
		}
		plies, a, why := w.overlay(w.resin(i), false, func(a *laminate.Analysis) bool { return !quantity.Below(a.Total.Thickness, want) })
		if why != "" {
			w.left(laminate.JobPartRef(i, "knuckle"), "part "+p.ID+" has no knuckle laminate: "+why)
			continue
		}
		p.Knuckle = w.share(p.Knuckle, "knuckle", "knuckle", plies)
		w.filled(laminate.JobPartRef(i, "knuckle"), "part "+p.ID+": knuckle, laminate "+p.Knuckle+", "+w.says(a)+", as thick as the wall on it, so that the corner is as thick as wall and bottom together (ASTM D3299, ASTM D4097, from memory)")
	}
}

// join adds the joints between parts of the shell that meet.
func (w *work) join() {
	list, p := w.shellParts(), w.pass()
	for k := 1; k < len(list); k++ {
		a, b := w.j.Parts[list[k-1]].ID, w.j.Parts[list[k]].ID
		if slices.ContainsFunc(w.j.Joints, func(x laminate.Joint) bool {
			return x.Between == [2]string{a, b} || x.Between == [2]string{b, a}
		}) || p.Bolted(list[k-1], list[k]) {
			continue
		}
		id := ""
		for n := 1; id == "" || slices.ContainsFunc(w.j.Joints, func(x laminate.Joint) bool { return x.ID == id }); n++ {
			id = fmt.Sprintf("J%d", n)
		}
		at := laminate.Ref{Kind: laminate.RefJoint, Index: len(w.j.Joints)}
		w.j.Joints = append(w.j.Joints, laminate.Joint{ID: id, Between: [2]string{a, b}})
		w.filled(at, "joint "+id+" between "+a+" and "+b)
		w.assumed(at, "joint "+id, "the two parts are laid apart and joined; take the joint out where they are laid in one")
	}
}

// strap fills in the outside of a joint.
func (w *work) strap(i int) {
	x := &w.j.Joints[i]
	at := func(key string) laminate.Ref {
		return laminate.Ref{Kind: laminate.RefJoint, Index: i, Key: key}
	}
	name := "joint " + x.ID
	fresh := w.bare(x.Outside)
	if !fresh && x.Width.Given() && x.FirstWidth.Given() && !w.o.Replace {
		return
	}
	need, missing := statics.Strap(w.pass(), i)
	for _, id := range x.Between {
		if k := w.j.Part(id); k >= 0 && len(w.pass().Parts[k].Analysis.Rows) == 0 {
			missing = "part " + id + " has no wall yet"
		}
	}
	if missing != "" {
		if fresh {
			w.left(at("outside"), name+" has no strap: "+missing)
		} else {
			w.left(at("width"), name+" has no widths: "+missing)
		}
		return
	}
	if fresh {
		plies, a, why := w.overlay(w.resin(w.j.Part(x.Between[0])), true, bears(math.Max(need.Hoop, need.Along), need.Structure))
		if why != "" {
			w.left(at("outside"), name+" has no strap: "+why)
			return
		}
		x.Outside = w.share(x.Outside, "strap", "strap", plies)
		w.warmed(w.j.Part(x.Between[0]), w.j.Part(x.Between[1]))
		w.filled(at("outside"), name+": strap, laminate "+x.Outside+", "+w.says(a))
	}
	gap := x.Gap
	if !gap.Given() {
		gap = catalog.RoomForGap
	}
	if !x.FirstWidth.Given() {
		x.FirstWidth = w.least(catalog.FirstStrapWidth)
		w.filled(at("first_width"), name+": first_width "+x.FirstWidth.Text()+", the least of NBS PS 15-69 (from memory)")
	}
	if x.Widths == laminate.NoWidthOrder {
		x.Widths = laminate.NarrowFirst
		w.filled(at("widths"), name+": widths narrow-first, so that each ply bonds to the wall at its edge (NBS PS 15-69, from memory)")
	}
	thickness := w.pass().Analysis(x.Outside).Total.Thickness
	least := joining.StrapWidth(thickness, max(need.Bond, need.Reach), gap.SI(), x.FirstWidth.SI())
	if x.Width.Given() && !(w.o.Replace && quantity.Below(x.Width.SI(), least)) {
		return
	}
	x.Width = w.up(least)
	w.filled(at("width"), name+": width "+x.Width.Text()+", the largest of 16 thicknesses of strap or thinner wall beside the gap, two bonds and the gap, and the taper of 6 to 1")
	if !x.Gap.Given() {
		w.assumed(at("gap"), name, "room for a gap of "+w.least(catalog.RoomForGap).Text()+" in the width; state the gap (gap)")
	}
	if !x.AxialLoad.Given() {
		w.assumed(at("axial_load"), name, "no load along the axis but that of the pressure; state what pulls (axial_load; 0 where nothing does)")
	}
}

// seal fills in the inside of a joint that a hand reaches.
func (w *work) seal(i int) {
	x := &w.j.Joints[i]
	at := laminate.Ref{Kind: laminate.RefJoint, Index: i, Key: "inside"}
	a, b := w.j.Part(x.Between[0]), w.j.Part(x.Between[1])
	if a < 0 || b < 0 || !statics.Reachable(w.pass(), a) && !statics.Reachable(w.pass(), b) {
		return // the rule says what that means
	}
	if w.bare(x.Inside) {
		thick := func(part int) float64 { return w.pass().Parts[part].Analysis.Barrier.Thickness }
		if thick(b) > thick(a) {
			a = b
		}
		id, why := w.sealOf(x.Inside, a)
		if why != "" {
			w.left(at, "joint "+x.ID+" has no seal: "+why)
			return
		}
		x.Inside = id
		w.filled(at, "joint "+x.ID+": seal, laminate "+id+", the barrier of part "+w.j.Parts[a].ID+" laid from the inside, "+w.says(w.pass().Lining(id)))
	}
	if !x.InsideWidth.Given() {
		x.InsideWidth = w.least(catalog.SealWidth)
		at.Key = "inside_width"
		w.filled(at, "joint "+x.ID+": inside_width "+x.InsideWidth.Text()+" (common practice, no source)")
	}
}

// sealOf is the laminate that goes on with the barrier of a part from the inside:
// its plies in the reverse order, the veil last, and a waxed coat, since air
// keeps the last face from curing.
func (w *work) sealOf(named string, part int) (id, why string) {
	r := w.pass().Parts[part]
	rows := barrierRows(r.Schedule, r.Analysis)
	slices.Reverse(rows)
	if len(rows) == 0 || rows[len(rows)-1].Zone != laminate.InnerSurface {
		return "", "part " + w.j.Parts[part].ID + " has no barrier to go on with"
	}
	s := &laminate.Schedule{Resins: w.j.Resins, Materials: w.j.Materials}
	for k := range rows {
		rows[k].GelAfter = false
		if !w.has(r.Schedule, rows[k].Resin) {
			return "", "the job has no resin as that of part " + w.j.Parts[part].ID
		}
		if _, known := w.lib.Material(s, rows[k].Material); !known {
			return "", "the job has no material " + rows[k].Material + ", of part " + w.j.Parts[part].ID
		}
	}
	face := rows[len(rows)-1]
	veil, _ := w.lib.Material(s, face.Material)
	coat, coated := catalog.Pick(w.lib, s, catalog.Topcoat, func(m *laminate.Material) bool { return m.Form == laminate.ResinCoat && m.Waxed })
	whose := "part " + w.j.Parts[part].ID
	if veil.Fiber == laminate.Carbon {
		w.assumed(laminate.JobPartRef(part, ""), whose, "no waxed coat on a seal whose veil conducts: it would insulate; keep the air off with film until it has cured")
		coated = false
	}
	for {
		d := edit.Begin(s, w.lib)
		d.Insert(0, rows...)
		d.AddGelStops()
		if coated {
			d.Insert(len(d.Plies), laminate.Ply{Material: coat, Resin: face.Resin, Count: 1, Zone: laminate.InnerSurface})
		}
		built := d.Schedule()
		if !quantity.Below(statics.Sealing(laminate.Analyze(built, w.lib)), r.Analysis.Barrier.Thickness) {
			return w.share(named, "seal", "seal", built.Plies), ""
		}
		if rows[0].Count++; rows[0].Count > laminate.MostCount {
			return "", "no seal of its plies is as thick as the barrier of " + whose
		}
	}
}

// nozzle fills in what is laid round one.
func (w *work) nozzle(i int) {
	n := &w.j.Nozzles[i]
	at := func(key string) laminate.Ref {
		return laminate.Ref{Kind: laminate.RefNozzle, Index: i, Key: key}
	}
	name := "nozzle " + n.ID
	on := w.j.Part(n.On)
	if on < 0 {
		return
	}
	if n.Size.Given() && n.Size.SI() <= catalog.GussetedSize.SI()*(1+1e-9) && n.Kind != laminate.Conical && !n.Gussets.Given {
		n.Gussets = laminate.Some(catalog.LeastGussets)
		w.filled(at("gussets"), fmt.Sprintf("%s: gussets %d, the least (ASTM D3299, from memory)", name, catalog.LeastGussets))
	}
	wide := w.j.Parts[on].InsideDiameter
	if w.bare(n.InstallationInside) && (!wide.Given() || statics.Reachable(w.pass(), on)) { // of what no hand reaches the rule says what that means
		if id, why := w.sealOf(n.InstallationInside, on); why != "" {
			w.left(at("installation_inside"), name+": nothing is laid inside: "+why)
		} else {
			n.InstallationInside = id
			w.filled(at("installation_inside"), name+": installation_inside, laminate "+id+", the barrier of part "+n.On+" over the cut edge")
		}
	}
	w.neck(i, on)
	w.pad(i, on)
}

// pad fills in the pad, what is laid outside, and how far both are bonded.
func (w *work) pad(i, on int) {
	n := &w.j.Nozzles[i]
	at := func(key string) laminate.Ref {
		return laminate.Ref{Kind: laminate.RefNozzle, Index: i, Key: key}
	}
	name := "nozzle " + n.ID
	fresh := w.bare(n.Pad)
	if !fresh && n.PadDiameter.Given() && n.NeckBond.Given() && !w.bare(n.InstallationOutside) {
		return
	}
	width, known := statics.PadWidth(w.pass(), i)
	if !n.PadDiameter.Given() && known {
		n.PadDiameter = w.up(width)
		w.filled(at("pad_diameter"), name+": pad_diameter "+n.PadDiameter.Text()+", twice the opening, 3 in on every side at least (ASTM D3299, from memory)")
	}
	need, missing := statics.Nozzle(w.pass(), i)
	resin := w.resin(on)
	thinnest := 0.0
	if a := w.pass().Analysis(n.Neck); a != nil {
		thinnest = a.Zones[laminate.StructuralLayer].Thickness
	}
	lay := func(id *string, key, what string, coated bool, hoop, structure float64) {
		if !w.bare(*id) {
			return
		}
		why := missing
		if why == "" && math.IsInf(hoop, 1) {
			why = "it reaches no further than the opening (pad_diameter)"
		}
		if why == "" {
			var plies []laminate.Ply
			var a *laminate.Analysis
			if plies, a, why = w.overlay(resin, coated, bears(hoop, structure)); why == "" {
				*id = w.share(*id, "pad", "pad", plies)
				w.warmed(on)
				w.filled(at(key), name+": "+key+", laminate "+*id+", "+w.says(a))
				return
			}
		}
		w.left(at(key), name+" has no "+what+": "+why)
	}
	lay(&n.Pad, "pad", "pad", false, need.Pad, need.Structure) // laid over by what is next
	lay(&n.InstallationOutside, "installation_outside", "overlay outside", true, 0, thinnest)
	if !n.NeckBond.Given() {
		if missing != "" {
			w.left(at("neck_bond"), name+": how far its neck is bonded cannot be determined: "+missing)
			return
		}
		bond := w.up(math.Max(need.NeckBond, catalog.LeastNeckBond.SI()))
		if quantity.Below(need.Free, bond.SI()) {
			w.left(at("neck_bond"), name+": its neck has no room for a bond of "+bond.Text()+": its projection, less its flange, leaves "+w.o.Units.Stated(need.Free, quantity.Size)+" (projection)")
			return
		}
		n.NeckBond = bond
		w.filled(at("neck_bond"), name+": neck_bond "+n.NeckBond.Text()+", along neck and part each, 3 in at least (from memory); loads of the piping are not in it")
	}
}

// neck fills in the wall of a neck: a pipe of the nozzle's class.
func (w *work) neck(i, on int) {
	n := &w.j.Nozzles[i]
	if !w.bare(n.Neck) {
		return
	}
	at := laminate.Ref{Kind: laminate.RefNozzle, Index: i, Key: "neck"}
	class, of := overlay.ClassOf(w.j, n)
	part := w.pass().Parts[on]
	barrier := barrierRows(part.Schedule, part.Analysis)
	why := ""
	switch {
	case !n.Size.Given():
		why = "its size is not stated (size)"
	case !class.Given():
		why = "its pressure class is not stated (pressure_class); 25 psi is the least (ASTM D3299, from memory)"
	case len(barrier) == 0:
		why = "part " + n.On + " has no barrier that runs on through it"
	}
	if why != "" {
		w.left(at, "nozzle "+n.ID+" has no neck: "+why)
		return
	}
	s := overlay.NeckWall(w.j, n, class, part.Schedule)
	o := w.o.Options
	o.Replace, o.Unit, o.Veil, o.Resin, o.Build = true, repeat.NoUnit, "", "", ""
	o.Barrier, o.Structure = barrier, w.structures[true]
	if len(o.Structure) == 0 {
		o.Structure = []laminate.Ply{{Resin: w.resin(on)}}
	}
	list, err := advice.Propose(s, w.lib, o)
	switch {
	case err != nil:
		why = err.Error()
		if reason, is := w.nothing(err); is {
			why = reason
		}
	case list[0].Unfinished != "":
		why = list[0].Unfinished
	}
	if why != "" {
		w.left(at, "nozzle "+n.ID+" has no neck: "+why)
		return
	}
	c := &list[0]
	w.j.Resins = c.Schedule.Resins
	n.Neck = w.share(n.Neck, "neck", "neck", slices.Clone(c.Schedule.Plies))
	w.filled(at, "nozzle "+n.ID+": neck, laminate "+n.Neck+", "+w.figures(c.Report)+", a pipe of "+of+", "+class.Text())
}
