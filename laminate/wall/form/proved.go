package form

import (
	"frp/veilwright/laminate"
	"frp/veilwright/laminate/others"
	"frp/veilwright/laminate/wall/worked"
)

// Rests tells whether a part rests on what others proved: open says why no formula
// here figures its form, "" where one does, and then a proof changes nothing.
func (x *Facts) Rests(open string) bool { return open != "" && x.Part.Proof.Named() }

// Proved are the figures of the proof of a part against what it has to bear in its
// service, as hot as it gets there, K, with what is missing of its pressure inside and
// its vacuum, "" where they are known. Its structure is that of the plies that carry,
// m, the barrier never counted; softens is of its resins, K: see [Softens].
func (x *Facts) Proved(hottest, softens, structure float64, inside, vacuum string) []others.Check {
	return x.Part.Proof.Checks(others.Borne{Pressure: others.Most{Value: x.Pressure, Missing: inside}, Vacuum: others.Most{Value: x.Vacuum, Missing: vacuum},
		Temperature: others.Most{Value: hottest}, Structure: others.Most{Value: structure}, Softens: softens})
}

// Softens is the highest heat deflection temperature of the resins of laminates, the
// typical one of its family for a resin that states none, K; 0 where none is known.
func Softens(lib *laminate.Library, of ...*laminate.Analysis) (highest float64) {
	for _, a := range of {
		if a == nil || lib == nil {
			continue
		}
		for i := range a.Rows {
			r := a.Rows[i].Resin
			if r == nil {
				continue
			}
			soft := r.HeatDeflection
			if !soft.Given() {
				soft = lib.Families[r.Family].HeatDeflection
			}
			highest = max(highest, soft.SI())
		}
	}
	return highest
}

// Weighed makes a weighing of a figure of the proof.
func (x *Facts) Weighed(c *others.Check) Weighing {
	reason, asked, has := "", "", ""
	if c.Missing == "" {
		asked, has = x.Units.Pair(c.Demand, c.Capacity, c.Kind)
	}
	switch c.Name {
	case others.Temperature:
		reason = "it gets " + asked + " at most, and was proved up to " + has
	case others.Structure:
		reason = "it was proved with " + asked + ", and has " + has
	}
	return Weighing{Kind: c.Kind, Demand: c.Demand, Capacity: c.Capacity, Reason: reason, Open: c.Missing, Basis: x.Part.Proof.Basis(),
		Inside: c.Name == others.Pressure, Lift: c.Name == others.Vacuum, Wall: c.Name == others.Structure}
}

// RestsNote says what a part rests on, open why no formula here figures its form.
func (x *Facts) RestsNote(open string) string {
	note := "No formula here figures the form: " + open + ". What is said of it rests on " + x.Part.Proof.By + ", which nothing here judged"
	if Stepped(x.Part) {
		note += "; that has to cover a person who steps on it"
	}
	return note + "."
}

// WorkProved writes what is borne beside what others proved for it.
func WorkProved(w *worked.List, name string, c *Weighing) {
	what := map[string][2]string{others.Pressure: {"pressure inside, liquid included", "pressure that was proved"}, others.Vacuum: {"vacuum", "vacuum that was proved"}}[name]
	w.Add(what[0], "", "of the service", "", w.Stress(c.Demand), w.StressUnit(), "")
	w.Add(what[1], "", "as the document states", "", w.Stress(c.Capacity), w.StressUnit(), c.Basis)
}
