package house

import (
	"regexp"
	"strings"
	"testing"
)

// A document comes in through schedules/shop: whoever reads one otherwise says
// something else of the same file sooner or later.
func TestDocuments_comeInThroughTheShop(t *testing.T) {
	otherwise := regexp.MustCompile(`schedules\.(Decode|Sniff)[A-Za-z]*\(`)
	for _, f := range tree(t) {
		above := strings.HasPrefix(f.path, "cmd/") || strings.HasPrefix(f.path, "tui/")
		if !above || !strings.HasSuffix(f.path, ".go") || strings.HasSuffix(f.path, "_test.go") {
			continue
		}
		if found := otherwise.Find(f.text); found != nil {
			t.Errorf("%s reads a document by %s)", f.path, found)
		}
	}
}
