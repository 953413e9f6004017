package rules

import (
	"frp/veilwright/laminate"
	"frp/veilwright/laminate/overlay"
	"frp/veilwright/laminate/wall"
)

// judged is a laminate as it is laid somewhere: two of the same are judged once.
type judged struct {
	laminate    string
	lined, wets bool
	service     laminate.Service
}

// judgeOverlays runs the rules of walls that hold of what is laid at joints, at nozzles
// and in corners: what nobody lays wet over wax, or into a fluid that eats it, is no
// better for being a strap or a seal. Findings stand at what names the laminate.
// What is about no ply is about the service, and told of the part.
func (p *JobPass) judgeOverlays(list []*Rule) {
	known := map[judged][]Finding{}
	for _, o := range p.Overlays() {
		if n := p.Laminate(o.Laminate); n < 0 || len(p.Job.Laminates[n].Plies) == 0 {
			continue // told by the rules of jobs
		}
		said := map[*Rule]bool{} // of both parts of a joint once
		for _, id := range []string{o.Part, o.Other} {
			i := p.Part(id)
			if i < 0 {
				continue
			}
			key := judged{o.Laminate, o.Kind.Inside(), o.Kind.Wets(), p.Parts[i].Schedule.Service}
			found, ok := known[key]
			if !ok {
				found = p.judgeOverlay(list, &o.Overlay, &key)
				known[key] = found
			}
			for k := range found {
				f := found[k]
				if !said[f.Rule] {
					f.plain = &found[k]
					f.Rows, f.offer = nil, nil // of a laminate that others may name too
					f.At = laminate.Ref{Kind: o.At.Kind, Index: o.At.Index, Key: o.Kind.Key()}
					f.Message = o.Name() + ": " + f.Message
					*p.findings = append(*p.findings, f)
				}
			}
			for _, f := range found {
				said[f.Rule] = true
			}
		}
	}
}

// judgeOverlay judges a laminate as it is laid somewhere.
func (p *JobPass) judgeOverlay(list []*Rule, o *overlay.Overlay, as *judged) (found []Finding) {
	s := o.Schedule(p.Job)
	s.Service = as.service
	a := p.Analysis(o.Laminate)
	if as.lined {
		a = p.Lining(o.Laminate)
	}
	pass := &Pass{Schedule: s, Library: p.Library, Analysis: a, Units: p.Units, Facts: gather(s, a, nil), fix: true, findings: &found}
	pass.Wall = func() *wall.Result {
		return p.Evaluate(s, a)
	}
	for _, rule := range list {
		if rule.Run != nil && (rule.Overlays == EveryOverlay || rule.Overlays == WettedOverlay && as.wets || rule.Overlays == NeckOverlay && as.wets && !as.lined) {
			run(rule, pass)
		}
	}
	kept := found[:0]
	for _, f := range found {
		if f.Severity >= Warning && (f.Rows != nil || f.Rule == InternalError) {
			kept = append(kept, f)
		}
	}
	return kept
}
