package catalog

import (
	"fmt"
	"slices"
	"strings"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/quantity"
)

// refusals are grades by which a row says that the resin is not to be used.
var refusals = []string{"not recommended", "not suitable", "unsuitable", "nr", "no"}

// Ratings are the rows of the shop books that are about a service, in
// the library's order: the same fluid (case and blanks at the ends apart), a
// range that holds the concentration, and a highest temperature that is not
// below the service's highest. Nothing is interpolated. A concentration or
// temperature that the service does not give rules no row out, as in the rule
// about the barrier's thickness.
func Ratings(lib *laminate.Library, s *laminate.Service) []laminate.Rating {
	if lib == nil || strings.TrimSpace(s.Fluid) == "" {
		return nil
	}
	var list []laminate.Rating
	hot := s.Hottest()
	for _, r := range lib.Ratings {
		c := s.Concentration
		switch {
		case !strings.EqualFold(strings.TrimSpace(r.Fluid), strings.TrimSpace(s.Fluid)):
		case c.Given && (quantity.Below(c.Value, r.Concentration[0]) || quantity.Above(c.Value, r.Concentration[1])):
		case hot.Given() && r.MaxTemperature.Given() && hot.Cmp(r.MaxTemperature) > 0:
		default:
			list = append(list, r)
		}
	}
	return list
}

// Refuses tells whether a row's grade says that the resin is not to be used.
func Refuses(r *laminate.Rating) bool {
	return slices.Contains(refusals, strings.ToLower(strings.TrimSpace(r.Grade)))
}

// RatingName names a rating: "book.toml:12, maker's guide, 2024".
func RatingName(r *laminate.Rating) string {
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
