package cli

import (
	"errors"
	"fmt"
	"strings"

	"frp/veilwright/laminate/source"
	"frp/veilwright/laminate/word"
	"frp/veilwright/rules"
	"frp/veilwright/rules/all"
	"frp/veilwright/schedules/paper"
)

type rulesCommand struct {
	IDs     []string `arg:"" optional:"" name:"id" help:"Rules to print in full; all in short if left out." complete:"rules"`
	Sources bool     `help:"Print the register of publications that rules and figures rest on, and how each was read."`
}

// Help is shown under the command's flags.
func (rulesCommand) Help() string {
	return `The rules that check runs, printed from what runs: what each looks for, why, its severity, and its source.

    veilwright rules
    veilwright rules veil-missing
    veilwright rules --sources
    veilwright rules --json | jq -r '.rules[].id'`
}

// ruleJSON is one rule as JSON.
type ruleJSON struct {
	ID         string       `json:"id"`
	Family     string       `json:"family"`
	Title      string       `json:"title"`
	Severities []string     `json:"severities"`
	When       string       `json:"when"`
	Why        string       `json:"why"`
	Basis      string       `json:"basis"`
	Sources    []sourceJSON `json:"sources"`
}

// sourceJSON is a publication as JSON.
type sourceJSON struct {
	Name  string `json:"name"`
	Title string `json:"title"`
	Read  string `json:"read"`
	For   string `json:"for"`
}

func sourcesJSON(list []source.Entry) []sourceJSON {
	out := []sourceJSON{}
	for _, e := range list {
		out = append(out, sourceJSON{e.Name, e.Title, e.Read.String(), e.For})
	}
	return out
}

// Run prints the catalog of rules, or some of it in full.
func (k rulesCommand) Run(c *call) error {
	if k.Sources {
		if len(k.IDs) > 0 {
			return errors.New("--sources prints the whole register; a rule in full prints its own")
		}
		return c.either(struct {
			Sources []sourceJSON `json:"sources"`
		}{sourcesJSON(source.Register())}, paper.Sources(source.Register()))
	}
	chosen := all.Rules()
	if len(k.IDs) > 0 {
		chosen = nil
		for _, id := range k.IDs {
			r, ok := all.Find(id)
			if !ok {
				return fmt.Errorf("there is no rule %q%s; veilwright rules lists them", id, didYouMean(strings.ToLower(id), ruleIDs()))
			}
			chosen = append(chosen, r)
		}
	}
	if c.JSON {
		printed := struct {
			Rules []ruleJSON `json:"rules"`
		}{[]ruleJSON{}}
		for _, r := range chosen {
			printed.Rules = append(printed.Rules, ruleJSON{r.ID, r.Family, r.Title, severities(r), r.When, r.Why, r.Basis, sourcesJSON(source.Of(r.Basis))})
		}
		return c.out.JSON(printed)
	}
	if len(k.IDs) > 0 {
		for i, r := range chosen {
			if i > 0 {
				c.out.Line("")
			}
			c.print(paper.Rule(r))
		}
		return nil
	}
	c.print(paper.Rules(chosen))
	return nil
}

func severities(r *rules.Rule) []string {
	words := make([]string, len(r.Severity))
	for i, s := range r.Severity {
		words[i] = s.String()
	}
	return words
}

func ruleIDs() []string {
	var ids []string
	for _, r := range all.Rules() {
		ids = append(ids, r.ID)
	}
	return ids
}

func didYouMean(typed string, candidates []string) string {
	if near := word.Nearest(typed, candidates); near != "" {
		return ", did you mean " + near + "?"
	}
	return ""
}
