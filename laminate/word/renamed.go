package word

import "slices"

// renamed are the keys and words of documents that were retired, and what stands
// now. A key that meant two things stands once for each.
var renamed = []struct{ Old, New string }{
	{"contents", "fluid"},
	{"carries", "contains"},
	{"stiffness_kept", "modulus_retention"},
	{"earth", "grounding"},
	{"catalyst", "initiator"},
	{"resistance_to_earth_max", "resistance_to_ground_max"},
	{"mend", "fix"},
	{"burn-off", "ignition"},
}

// Renamed gives what a retired key or word is called now, "" where it is none,
// or its new name is not one of those that may stand there.
func Renamed(old string, may []string) string {
	for _, r := range renamed {
		if r.Old == old && slices.Contains(may, r.New) {
			return r.New
		}
	}
	return ""
}
