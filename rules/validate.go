package rules

import (
	"fmt"
	"regexp"
	"slices"
	"strings"
	"unicode/utf8"
)

const (
	mostTitle = 60
	leastWhy  = 120 // characters; less teaches nobody
)

// Families are the families a rule may belong to, in the order they are shown.
func Families() []string {
	return []string{"veil", "resin", "barrier", "sequence", "special", "structure", "parts", "joints", "others"}
}

// Validate tells everything that is wrong with a list of rules; nil when it
// may run.
func Validate(list []*Rule) []error {
	var errs []error
	kebab := regexp.MustCompile(`^[a-z]+(-[a-z]+)*$`)
	seen := map[string]bool{}
	for i, r := range list {
		if r == nil {
			errs = append(errs, fmt.Errorf("rule %d: it is nil", i))
			continue
		}
		fail := func(format string, args ...any) {
			errs = append(errs, fmt.Errorf("rule %d %q: "+format, append([]any{i, r.ID}, args...)...))
		}
		if !kebab.MatchString(r.ID) {
			fail("the id is not in kebab case")
		}
		if seen[r.ID] {
			fail("the id is used twice")
		}
		seen[r.ID] = true
		if !slices.Contains(Families(), r.Family) {
			fail("no family is called %q", r.Family)
		}
		switch n := utf8.RuneCountInString(r.Title); {
		case n == 0:
			fail("the title is missing")
		case n > mostTitle:
			fail("the title has %d characters, more than %d", n, mostTitle)
		case strings.HasSuffix(r.Title, "."):
			fail("the title ends in a full stop")
		}
		if len(r.Why) < leastWhy || strings.Count(r.Why, ". ")+1 < 2 || !strings.HasSuffix(r.Why, ".") {
			fail("the why does not teach: several whole sentences are wanted")
		}
		if len(r.Severity) == 0 {
			fail("it has no severity")
		}
		for j, s := range r.Severity {
			if s <= Clear || s > Break {
				fail("severity %d is invalid", s)
			}
			if j > 0 && s >= r.Severity[j-1] {
				fail("severities do not stand worst first, each once")
			}
		}
		if r.When == "" {
			fail("it does not say when it fires")
		}
		if r.Basis == "" {
			fail("the basis is missing")
		}
		if (r.Run == nil) == (r.Job == nil) {
			fail("it has no function, or two")
		}
	}
	return errs
}
