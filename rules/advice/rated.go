package advice

import (
	"slices"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/catalog"
)

// rated says what the matching rows say of a family, and whether they rule it
// out.
func rated(rows []laminate.Rating, f laminate.Family) (Suits, []Reason) {
	var reasons []Reason
	no, any := true, false
	for i := range rows {
		r := &rows[i]
		if r.Family != f {
			continue
		}
		any = true
		no = no && catalog.Refuses(r)
		reasons = append(reasons, Reason{"rated " + grade(r) + " with the " + r.Build + " build", catalog.RatingName(r)})
	}
	if any && no {
		return Unsuitable, reasons
	}
	return Suitable, reasons
}

func grade(r *laminate.Rating) string { return "\"" + r.Grade + "\"" }

// byRatings adds what the rows say about a build with the families that suit
// best: which is the leanest with the best grade, or that only the double build
// has it. A thicker barrier is never rated worse, so of two grades that differ
// the double build's is the better one.
func (a *advisor) byRatings(o *Option, b build, r *Advice, reasons []Reason) []Reason {
	if b.heavy {
		return reasons
	}
	double := b.mats > catalog.SingleBuild.Mats
	for _, w := range suiting(r.Resins) {
		f, _ := laminate.Families.Parse(w)
		if b.own() {
			if rows := ofBuild(r.Ratings, f, &b.of); len(rows) > 0 {
				reasons = appendNew(reasons, Reason{"in " + w + " this build is rated " + grade(&rows[0]), catalog.RatingName(&rows[0])})
			}
			continue
		}
		lean, thick := ofBuild(r.Ratings, f, &catalog.SingleBuild), ofBuild(r.Ratings, f, &catalog.DoubleBuild)
		same := -1
		for i := range thick {
			same = max(same, slices.IndexFunc(lean, func(l laminate.Rating) bool { return l.Grade == thick[i].Grade }))
		}
		about := "in " + w + " the "
		switch {
		case len(thick) == 0 && len(lean) == 0:
		case len(thick) == 0 && !double:
			reasons = appendNew(reasons, Reason{about + catalog.SingleBuild.Name + " build is rated " + grade(&lean[0]), catalog.RatingName(&lean[0])})
		case same >= 0 && !double:
			reasons = appendNew(reasons, Reason{about + catalog.SingleBuild.Name + " build is the thinnest with the best grade, " + grade(&lean[same]), catalog.RatingName(&lean[same])})
		case same >= 0:
			reasons = appendNew(reasons, Reason{about + catalog.DoubleBuild.Name + " build has the same grade as the " + catalog.SingleBuild.Name + " build, " + grade(&thick[0]), catalog.RatingName(&thick[0])})
		case len(thick) > 0:
			text := about + "best grade, " + grade(&thick[0]) + ", is for the " + catalog.DoubleBuild.Name + " build only"
			if len(lean) > 0 {
				text += "; the " + catalog.SingleBuild.Name + " build has " + grade(&lean[0])
			}
			reasons = appendNew(reasons, Reason{text, catalog.RatingName(&thick[0])})
		}
	}
	return reasons
}

func ofBuild(rows []laminate.Rating, f laminate.Family, build *laminate.BarrierBuild) []laminate.Rating {
	var list []laminate.Rating
	for _, r := range rows {
		if r.Family == f && build.Is(r.Build) {
			list = append(list, r)
		}
	}
	return list
}
