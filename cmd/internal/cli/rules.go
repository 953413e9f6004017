package cli

import (
	"errors"
	"fmt"
	"strings"

	"frp/veilwright/cmd/internal/report"
	"frp/veilwright/laminate/source"
	"frp/veilwright/laminate/word"
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

// Run prints the catalog of rules, or some of it in full.
func (k rulesCommand) Run(c *call) error {
	if k.Sources {
		if len(k.IDs) > 0 {
			return errors.New("--sources prints the whole register; a rule in full prints its own")
		}
		return c.either(report.SourcesOf(source.Register()), paper.Sources(source.Register()))
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
		return c.out.JSON(report.RulesOf(chosen))
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
