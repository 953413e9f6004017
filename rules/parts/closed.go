package parts

import (
	"math"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/catalog"
	"frp/veilwright/laminate/ground"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/rules"
	"frp/veilwright/rules/joint/statics"
)

// manway is the least clear bore that a person gets through, m: 18 in. Common practice,
// no source.
var manway = quantity.New(18, quantity.Inch).SI()

// SealShutIn asks who lays the last seal of a closed vessel, and gets out of it.
var SealShutIn = &rules.Rule{
	ID:     "seal-shut-in",
	Family: family,
	Title:  "The last seal of a closed vessel cannot be laid",
	Why: "A seal is laid, rolled and looked at from the inside, its veil last. Once a shell is closed at both ends whoever lays the last one is in it, and needs an opening to get in and out by, with air and resin through it: a manway. " +
		"Without one the seal that closes the vessel is laid by nobody, and cut edges face the fluid behind a paper that says otherwise. " +
		"A vessel is a confined space, of styrene too: nobody enters it without an entry permit, a gas test, and an attendant outside.",
	Severity: []rules.Severity{rules.Incomplete},
	When: "a bottom, head or cone closes a shell of 20 in inside diameter or more at both ends, all that joins its parts has a seal inside, and neither a nozzle nor what a joint ties to it has a clear bore of 18 in or more, by its size, else its opening; " +
		"nor is an opening of 6 in or more in what the last joint joins, so that an arm through it reaches all of that seal, 24 in. Silent where no size of a nozzle is stated, where something is bolted, and where parts that meet have no joint",
	Basis: rules.CommonPractice + ": 18 in is the least that a person gets through",
	Job: func(p *rules.JobPass) {
		list := divided(p, p.Stack)
		for k, space := range list {
			shutIn(p, space, k+1 == len(list))
		}
	},
}

// shutIn looks at one space of the shell.
func shutIn(p *rules.JobPass, space []int, highest bool) {
	inner := append([]int(nil), space...)
	if lid := lidOver(p, space, highest); lid < 0 || p.Job.Parts[space[0]].Form == laminate.ShellCourse {
		return // not closed at both ends, as far as this goes
	} else if inner[len(inner)-1] != lid {
		inner = append(inner, lid)
	}
	for k := 1; k < len(inner); k++ {
		if _, _, bolted := p.Facing(inner[k-1], inner[k]); bolted {
			return
		}
	}
	in := map[int]bool{}
	for _, i := range inner {
		in[i] = true
	}
	var last *statics.Joined
	out, tied := false, map[[2]int]bool{}
	statics.EachJoint(func(p *rules.JobPass, x *statics.Joined) {
		a, b := x.Parts[0], x.Parts[1]
		switch {
		case in[a] && in[b]:
			out = out || x.Inside == "" || x.Bolted(p) || !statics.Reachable(p, a) && !statics.Reachable(p, b)
			last, tied[[2]int{min(a, b), max(a, b)}] = x, true
		case in[a] || in[b]:
			if in[a] {
				a = b
			}
			for _, m := range ground.Bores(p.Stated(a)) {
				out = out || !p.InShell(a) && !quantity.Below(m, manway)
			}
		}
	})(p)
	if out || len(tied) < len(inner)-1 { // what no joint ties parts-not-joined says
		return
	}
	widest := 0.0
	for i := range p.Job.Nozzles {
		x := &p.Job.Nozzles[i]
		on := p.Part(x.On)
		if !in[on] {
			continue
		}
		m := bore(x)
		if m == 0 || !quantity.Below(m, manway) || reaches(p, last, x, m) {
			return
		}
		widest = math.Max(widest, m)
	}
	has := "it has no opening"
	if widest > 0 {
		m, n := p.Units.Pair(widest, manway, quantity.Size)
		has = "its widest opening is " + m + ", below " + n
	}
	p.Report(rules.Incomplete, last.At("inside"), "", "joint %s closes the vessel, and its seal is laid from inside: %s, and who lays it neither gets in nor out; have it joined where the seal is reached from outside, or state a manway ([[nozzle]], size)", last.ID, has)
}

// lidOver is what closes a space at its top, −1 where nothing of laminate does for good.
func lidOver(p *rules.JobPass, space []int, highest bool) (lid int) {
	if !highest {
		return closing(p, space, false)
	}
	lid = -1
	for i := range p.Job.Parts {
		if p.OnTop(i) && p.Job.Parts[i].Form != laminate.Cover {
			lid = i
		}
	}
	return lid
}

// reaches tells whether an arm through a nozzle reaches all of the seal of a joint.
func reaches(p *rules.JobPass, x *statics.Joined, n *laminate.Nozzle, bore float64) bool {
	on := p.Part(n.On)
	if on != x.Parts[0] && on != x.Parts[1] || p.Job.Parts[on].Form == laminate.ShellCourse || !n.Offset.Given() || quantity.Below(bore, catalog.ArmBore.SI()) {
		return false
	}
	return !quantity.Above(n.Offset.SI()+p.Stated(on).InsideDiameter.SI()/2, catalog.ArmReach.SI())
}
