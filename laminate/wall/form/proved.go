package form

import (
	"frp/veilwright/laminate/others"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/wall/worked"
)

// Rests tells whether a part rests on what others proved: open says why no formula
// here figures its form, "" where one does, and then a proof changes nothing.
func (x *Facts) Rests(open string) bool { return open != "" && x.Part.Proof.Named() }

// Proved are the figures of the proof of a part against what it has to bear in its
// service, as hot as it gets there, K. Its structure is that of the plies that carry,
// m, the barrier never counted.
func (x *Facts) Proved(hottest, structure float64) []others.Check {
	return x.Part.Proof.Checks(others.Borne{Pressure: others.Most{Value: x.Pressure}, Vacuum: others.Most{Value: x.Vacuum},
		Temperature: others.Most{Value: hottest}, Structure: others.Most{Value: structure}})
}

// Weighed makes a weighing of a figure of the proof.
func (x *Facts) Weighed(c *others.Check) Weighing {
	reason := ""
	if c.Kind == quantity.Point {
		asked, proved := x.Units.Pair(c.Demand, c.Capacity, c.Kind)
		reason = "it gets " + asked + " at most, and was proved up to " + proved
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

// WorkProved writes what is borne, or laid, beside what others proved.
func WorkProved(w *worked.List, name string, c *Weighing) {
	const proved = "as the document states, proved by others"
	demand, of, capacity, as := "pressure inside, liquid included", "of the service", "pressure that was proved", proved
	switch name {
	case others.Vacuum:
		demand, capacity = "vacuum", "vacuum that was proved"
	case others.Structure:
		demand, of, capacity, as = "thickness of the structure that was proved", proved, "thickness of the structure", "Σ tp of its plies"
	}
	figure, unit := w.Of(c.Demand, c.Kind)
	w.Add(demand, "", of, "", figure, unit, "")
	figure, unit = w.Of(c.Capacity, c.Kind)
	w.Add(capacity, "", as, "", figure, unit, c.Basis)
}
