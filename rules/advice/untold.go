package advice

import (
	"fmt"
	"regexp"
	"slices"
	"strings"
	"sync"

	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/wall"
	"frp/veilwright/rules"
)

// What is only said of candidates that did not compete, or of whose service or
// load too little is known to call one of them best.
const (
	forTheFacts = "for the facts given"
	theOnlyOne  = "the only one found"
)

// entitle names what each candidate is best at, where several competed and the
// facts they were weighed by are known; a superlative over unknown facts would
// be read as a judgment.
func entitle(list []Candidate, competed int, u quantity.System) {
	name(list, u)
	for i := range list {
		c := &list[i]
		switch {
		case c.Unfinished != "":
			c.Titles, c.GivesUp = []string{notFigured(c.Unfinished)}, nil
			c.Notes = append([]string{c.Titles[0]}, c.Notes...)
		case !stated(c.Report):
			c.Titles = []string{forTheFacts}
			if len(list) > 1 {
				c.Titles[0] += fmt.Sprintf(", %d of %d", i+1, len(list))
			}
		case competed < 2:
			c.Titles = []string{theOnlyOne}
		}
		c.Notes = append(slices.Clone(c.Notes), untold(c)...)
	}
}

// stated tells whether service and load are stated.
func stated(r *rules.Report) bool {
	return !slices.ContainsFunc(r.Findings, func(f rules.Finding) bool { return f.Rule.ID == serviceIncomplete || f.Rule.ID == structureIncomplete })
}

const (
	serviceIncomplete   = "service-incomplete"
	structureIncomplete = "structure-incomplete"
)

// key finds the names of facts in a reason: they stand in parentheses.
var key = sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(`\(([a-z]+(?:_[a-z0-9]+)*)\)`) })

// notFigured is the title of a candidate whose structure is the least that is
// built.
func notFigured(reason string) string {
	title := "least structure, not figured"
	var keys []string
	for _, m := range key().FindAllStringSubmatch(reason, -1) {
		if !slices.Contains(keys, m[1]) {
			keys = append(keys, m[1])
		}
	}
	if len(keys) > 0 {
		return title + "; state " + rules.Join(keys, "and")
	}
	return title + "; " + reason
}

// untold lists what the report of a candidate leaves open, and what of its wall
// is shown and does not decide though it fails.
func untold(c *Candidate) []string {
	var notes []string
	w := c.Report.Wall
	decided := false // whether an open wall is told by its criteria
	if w != nil && c.Unfinished == "" {
		notes, decided = openCriteria(w)
	}
	for i := range c.Report.Findings {
		f := &c.Report.Findings[i]
		switch {
		case f.Rule.ID == serviceIncomplete:
			notes = append(notes, "not checked: veil and resin; "+strings.TrimSuffix(f.Message, "; veil and resin are not checked"))
		case f.Severity != rules.Incomplete:
		case f.Rule.ID == structureIncomplete && (decided || c.Unfinished != ""):
		default:
			notes = append(notes, "not checked: "+f.Rule.ID+" ("+f.Rule.Title+"); "+f.Message)
		}
	}
	if w == nil || c.Unfinished != "" {
		return notes
	}
	for i := range w.Criteria {
		x := &w.Criteria[i]
		if x.Governs || x.Answer != wall.Fails {
			continue
		}
		by := "no design basis is stated"
		if basis := c.Schedule.Part.Basis().String(); basis != "" {
			by = "the design basis is " + basis
		}
		notes = append(notes, "shown only: "+x.Title()+" has a utilization of "+quantity.Utilization(x.Ratio)+"; "+by)
	}
	return notes
}

// openCriteria gathers criteria that cannot be told by their reason, those that
// decide first, and says whether any of those is among them.
func openCriteria(w *wall.Result) (notes []string, decided bool) {
	for _, decides := range []bool{true, false} {
		var reasons []string
		names := map[string][]string{}
		for i := range w.Criteria {
			x := &w.Criteria[i]
			if x.Answer != wall.Incomplete || x.Governs != decides {
				continue
			}
			decided = decided || decides
			if names[x.Reason] == nil {
				reasons = append(reasons, x.Reason)
			}
			if !slices.Contains(names[x.Reason], x.Name) {
				names[x.Reason] = append(names[x.Reason], x.Name)
			}
		}
		for _, reason := range reasons {
			what := rules.Join(names[reason], "and")
			if !decides {
				what += " (not governing)"
			}
			notes = append(notes, strings.TrimSuffix("not checked: "+what+"; "+reason, "; "))
		}
	}
	return notes, decided
}
