package revision

import (
	"slices"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/overlay"
	"frp/veilwright/rules"
)

// PartDifference is what differs in one part of a job, or in a laminate that no
// part names.
type PartDifference struct {
	ID string // "" of the job itself: its findings
	*Difference
	Old, New *rules.Report
}

// Jobs compares two judged jobs part by part, by their ids, and then the
// overlays; what does not differ is left out. A part that only one of them has
// is compared with none.
func Jobs(older, newer *rules.JobReport, lib *laminate.Library) (list []PartDifference) {
	add := func(id string, a, b *rules.Report) {
		d := Compare(a, b)
		if len(d.Gone)+len(d.New) > 0 || slices.ContainsFunc(d.Rows, func(r RowChange) bool { return r.Change != Same }) ||
			slices.ContainsFunc(d.Figures, func(f FigureChange) bool { return f.OldKnown != f.NewKnown || f.Old != f.New }) {
			list = append(list, PartDifference{id, d, a, b})
		}
	}
	each := func(was, is []string, a, b func(id string) *rules.Report) {
		for _, id := range was {
			add(id, a(id), b(id))
		}
		for _, id := range is {
			if !slices.Contains(was, id) {
				add(id, a(id), b(id))
			}
		}
	}
	whole := func(r *rules.JobReport) *rules.Report {
		x := rules.Unjudged(nil, lib)
		x.Findings = r.Findings
		return x
	}
	add("", whole(older), whole(newer))
	part := func(r *rules.JobReport) func(string) *rules.Report {
		return func(id string) *rules.Report {
			if i := r.Job.Part(id); i >= 0 {
				return r.Parts[i]
			}
			return rules.Unjudged(nil, lib)
		}
	}
	lap := func(r *rules.JobReport) func(string) *rules.Report {
		return func(id string) *rules.Report {
			if r.Job.Laminate(id) >= 0 {
				o := overlay.Named(r.Job, id)
				return rules.Unjudged(o.Schedule(r.Job), lib)
			}
			return rules.Unjudged(nil, lib)
		}
	}
	ids := func(j *laminate.Job) (parts, overlays []string) {
		used := map[string]bool{}
		for i := range j.Parts {
			parts = append(parts, j.Parts[i].ID)
			used[j.Parts[i].Laminate] = true
		}
		for i := range j.Laminates {
			if id := j.Laminates[i].ID; !used[id] {
				overlays = append(overlays, id)
			}
		}
		return parts, overlays
	}
	partsA, overlaysA := ids(older.Job)
	partsB, overlaysB := ids(newer.Job)
	each(partsA, partsB, part(older), part(newer))
	each(overlaysA, overlaysB, lap(older), lap(newer))
	return list
}
