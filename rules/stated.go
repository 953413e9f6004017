package rules

import (
	"strings"

	"frp/veilwright/laminate/quantity"
)

// Unusual is how grave it is that a document states a figure far from what is usual, on the
// side on which a wall would hold by it that does not: incomplete, and a warning where one of
// sources says whose figure it is. ask ends the message.
func Unusual(sources ...string) (severity Severity, ask string) {
	for _, s := range sources {
		if strings.TrimSpace(s) != "" {
			return Warning, ": make sure that it was copied right, its unit too"
		}
	}
	return Incomplete, ": state whose figure it is (source), or put it right"
}

// Harmless is Unusual on the side on which a wall is only taken for weaker than it is.
func Harmless() (severity Severity, ask string) {
	return Warning, ": make sure that it was copied right, its unit too"
}

// LooksLike is what a message adds of what a figure that is hardly meant probably was to be,
// "" where nothing explains it; usual judges one in SI.
func LooksLike[D quantity.Dimension](q quantity.Quantity[D], usual func(si float64) bool) string {
	if meant := quantity.LooksLike(q, usual); meant != "" {
		return "; it looks like " + meant
	}
	return ""
}
