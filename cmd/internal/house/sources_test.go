package house

import (
	"regexp"
	"slices"
	"strings"
	"testing"

	"frp/veilwright/laminate/source"
)

// Publications as texts write them.
var publication = regexp.MustCompile(`\b(ASTM [A-Z]\d+|ASME Section [IVX]+|BS \d{4}|EN (?:ISO )?\d{2,}|ISO \d+(?:-\d+)?|API \d\w*|AWWA \w+|NBS PS [\d-]+|USACE EM [\d-]+|ADR \d+|NFPA \d+|IBC \d+|NIOSH|OSHA)`)

// Whatever text a person can read, the publications that it names are in the
// register, where it says how each was read.
func TestSources_everyPublicationNamedIsInTheRegister(t *testing.T) {
	for _, f := range tree(t) {
		if !readable(f.path) || !within(f.path, worded) || within(f.path, []string{"laminate/source/", "schedules/exercises/"}) {
			continue
		}
		for line, text := range texts(t, f) {
			known := source.Of(text)
			for _, name := range publication.FindAllString(text, -1) {
				if !slices.ContainsFunc(known, func(e source.Entry) bool { return strings.HasPrefix(name, e.Name) || strings.HasPrefix(e.Name, name) }) {
					t.Errorf("%s:%d: %s is not in the register of sources: %.100q", f.path, line, name, text)
				}
			}
		}
	}
}
