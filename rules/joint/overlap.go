package joint

import (
	"frp/veilwright/laminate"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/rules"
	"frp/veilwright/rules/joint/statics"
)

// StrapsOverlap asks that straps at both ends of a short part have room on it.
var StrapsOverlap = &rules.Rule{
	ID: "straps-overlap", Family: family, Title: "The straps at both ends of a part lie over each other",
	Why: "A strap bonds to the ground wall under it. On a part that is shorter than what the straps at its ends ask for, the second lies on the first, which nobody planned, ground or figured, " +
		"and each of them counts with what it has of the part alone. Most often the length of the part is a slip.",
	Severity: []rules.Severity{rules.Warning},
	When:     "half of the widths, less the gaps, of all straps on a course, pipe or duct are together more than its length",
	Basis:    "the program's own check",
	Job: func(p *rules.JobPass) {
		for i := range p.Job.Parts {
			switch p.Stated(i).Form {
			case laminate.ShellCourse, laminate.Pipe, laminate.Duct:
			default:
				continue
			}
			var at []laminate.Ref
			all := 0.0
			for _, k := range p.Joints(i) {
				x := statics.Joined{Joint: &p.Job.Joints[k], Index: k}
				if m := x.Shared(p, i); m > 0 {
					at, all = append(at, x.At("width")), m
				}
			}
			if long := p.Stated(i).Length; len(at) > 0 && long.Given() {
				m, n := p.Units.Pair(all, long.SI(), quantity.Size)
				p.ReportAt(rules.Warning, at, "", "part %s: the straps on it ask for %s of it together, and it is %s long: they lie over each other (length, width)", p.Job.Parts[i].ID, m, n)
			}
		}
	},
}
