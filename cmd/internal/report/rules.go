package report

import (
	"frp/veilwright/laminate/source"
	"frp/veilwright/rules"
)

// Rules is what rules prints.
type Rules struct {
	Rules []Rule `json:"rules"`
}

// Rule is one rule.
type Rule struct {
	ID         string   `json:"id"`
	Family     string   `json:"family"`
	Title      string   `json:"title"`
	Severities []string `json:"severities"`
	When       string   `json:"when"`
	Why        string   `json:"why"`
	Basis      string   `json:"basis"`
	Sources    []Source `json:"sources"`
}

// Sources is what rules --sources prints.
type Sources struct {
	Sources []Source `json:"sources"`
}

// Source is a publication.
type Source struct {
	Name  string `json:"name"`
	Title string `json:"title"`
	Read  string `json:"read"`
	For   string `json:"for"`
}

// RulesOf are the rules of a list.
func RulesOf(list []*rules.Rule) Rules {
	out := Rules{[]Rule{}}
	for _, r := range list {
		severities := make([]string, len(r.Severity))
		for i, s := range r.Severity {
			severities[i] = s.String()
		}
		out.Rules = append(out.Rules, Rule{r.ID, r.Family, r.Title, severities, r.When, r.Why, r.Basis, SourcesOf(source.Of(r.Basis)).Sources})
	}
	return out
}

// SourcesOf are the publications of a list.
func SourcesOf(list []source.Entry) Sources {
	out := Sources{[]Source{}}
	for _, e := range list {
		out.Sources = append(out.Sources, Source{e.Name, e.Title, e.Read.String(), e.For})
	}
	return out
}
