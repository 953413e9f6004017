package advice

import (
	"fmt"
	"slices"
	"strings"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/quantity"
)

// How a shop book spells the builds that it rates.
const (
	ratedSingle = "100 mil"
	ratedDouble = "200 mil"
)

// refusals are grades by which a row says that the resin is not to be used.
var refusals = []string{"not recommended", "not suitable", "unsuitable", "nr", "no"}

// MatchingRatings are the rows of the shop books that are about a service, in
// the library's order: the same contents (case and blanks at the ends apart), a
// range that holds the concentration, and a highest temperature that is not
// below the service's highest. Nothing is interpolated. A concentration or
// temperature that the service does not give rules no row out, as in the rule
// about the barrier's thickness.
func MatchingRatings(lib *laminate.Library, s *laminate.Service) []laminate.Rating {
	if lib == nil || strings.TrimSpace(s.Contents) == "" {
		return nil
	}
	var list []laminate.Rating
	hot := s.Hottest()
	for _, r := range lib.Ratings {
		c := s.Concentration
		switch {
		case !strings.EqualFold(strings.TrimSpace(r.Contents), strings.TrimSpace(s.Contents)):
		case c.Given && (quantity.Below(c.Value, r.Concentration[0]) || quantity.Above(c.Value, r.Concentration[1])):
		case hot.Given() && r.MaxTemperature.Given() && hot.Cmp(r.MaxTemperature) > 0:
		default:
			list = append(list, r)
		}
	}
	return list
}

// refused tells whether a row's grade says that the resin is not to be used.
func refused(r *laminate.Rating) bool {
	return slices.Contains(refusals, strings.ToLower(strings.TrimSpace(r.Grade)))
}

// row names a rating: "book.toml:12, maker's guide, 2024".
func row(r *laminate.Rating) string {
	name := r.Book
	if name == "" {
		name = "the shop book"
	}
	if r.Line > 0 {
		name = fmt.Sprintf("%s:%d", name, r.Line)
	}
	for _, more := range []string{r.Source, r.Date} {
		if more != "" {
			name += ", " + more
		}
	}
	return name
}

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
		no = no && refused(r)
		reasons = append(reasons, Reason{"rated " + grade(r) + " with the " + r.Build + " build", row(r)})
	}
	if any && no {
		return No, reasons
	}
	return Yes, reasons
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
	double := b.mats > plainBuilds[0].mats
	for _, w := range withAnswer(r.Resins, best(r.Resins)) {
		f, _ := laminate.ParseFamily(w)
		lean, thick := ofBuild(r.Ratings, f, ratedSingle), ofBuild(r.Ratings, f, ratedDouble)
		same := -1
		for i := range thick {
			same = max(same, slices.IndexFunc(lean, func(l laminate.Rating) bool { return l.Grade == thick[i].Grade }))
		}
		about := "in " + w + " the "
		switch {
		case len(thick) == 0 && len(lean) == 0:
		case len(thick) == 0 && !double:
			reasons = appendNew(reasons, Reason{about + ratedSingle + " build is rated " + grade(&lean[0]), row(&lean[0])})
		case same >= 0 && !double:
			reasons = appendNew(reasons, Reason{about + ratedSingle + " build is the leanest with the best grade, " + grade(&lean[same]), row(&lean[same])})
		case same >= 0:
			reasons = appendNew(reasons, Reason{about + ratedDouble + " build has the grade that the " + ratedSingle + " build has too, " + grade(&thick[0]), row(&thick[0])})
		case len(thick) > 0:
			text := about + "best grade, " + grade(&thick[0]) + ", stands for the " + ratedDouble + " build only"
			if len(lean) > 0 {
				text += "; the " + ratedSingle + " build has " + grade(&lean[0])
			}
			reasons = appendNew(reasons, Reason{text, row(&thick[0])})
		}
	}
	return reasons
}

func ofBuild(rows []laminate.Rating, f laminate.Family, build string) []laminate.Rating {
	var list []laminate.Rating
	for _, r := range rows {
		if r.Family == f && r.Build == build {
			list = append(list, r)
		}
	}
	return list
}
