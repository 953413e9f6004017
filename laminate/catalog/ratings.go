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

// RatingsOf are the rows of the shop books about a fluid (case and blanks at
// the ends apart), in the library's order.
func RatingsOf(lib *laminate.Library, fluid string) []laminate.Rating {
	fluid = strings.TrimSpace(fluid)
	if lib == nil || fluid == "" {
		return nil
	}
	var list []laminate.Rating
	for _, r := range lib.Ratings {
		if strings.EqualFold(strings.TrimSpace(r.Fluid), fluid) {
			list = append(list, r)
		}
	}
	return list
}

// Ratings are those of RatingsOf whose range holds the service's concentration
// and whose highest temperature is not below its highest. Nothing is
// interpolated. A concentration or temperature that the service does not give
// rules no row out, as in the rule about the barrier's thickness.
func Ratings(lib *laminate.Library, s *laminate.Service) []laminate.Rating {
	hot := s.Hottest()
	return slices.DeleteFunc(RatingsOf(lib, s.Fluid), func(r laminate.Rating) bool {
		c := s.Concentration
		return c.Given && (quantity.Below(c.Value, r.Concentration[0]) || quantity.Above(c.Value, r.Concentration[1])) ||
			hot.Given() && r.MaxTemperature.Given() && hot.Cmp(r.MaxTemperature) > 0
	})
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
