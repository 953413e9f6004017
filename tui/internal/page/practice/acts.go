package practice

import (
	"frp/veilwright/tui/internal/keys"
	"frp/veilwright/tui/internal/page"
)

const (
	scopeHome   keys.Scope = "practice"
	scopeWho    keys.Scope = "practice, who"
	scopeStep   keys.Scope = "practice, a step"
	scopeTerms  keys.Scope = "practice, glossary"
	scopeBuild  keys.Scope = "practice, building"
	scopeFind   keys.Scope = "practice, finding"
	scopeName   keys.Scope = "practice, by name"
	scopeResin  keys.Scope = "practice, the resin"
	scopeChoose keys.Scope = "practice, choosing"
	scopeAsk    keys.Scope = "practice, questions"
	scopeTell   keys.Scope = "practice, an answer"
	scopeOrder  keys.Scope = "practice, order"
	scopeMark   keys.Scope = "practice, marked"
	scopeBeside keys.Scope = "practice, answers"
)

func digits() []string { return []string{"1", "2", "3", "4", "5", "6", "7", "8", "9"} }

func act(scope keys.Scope, id keys.ID, group string, k []string, show, short, long string, rank int, why func(*Practice) string, do func(*Practice, keys.Event)) page.Act[*Practice] {
	return page.Act[*Practice]{Binding: keys.Binding{ID: id, Scope: scope, Keys: k, Show: show, Short: short, Long: long, Group: group, Rank: rank}, Can: why, Do: do}
}

func arrows() []string { return []string{keys.Up, keys.Down, "k", "j"} }

func acts() page.Acts[*Practice] {
	var all page.Acts[*Practice]
	for _, part := range []page.Acts[*Practice]{
		homeActs(), whoActs(), stepActs(), termActs(),
		buildActs(), findActs(), nameActs(), resinActs(), chooseActs(), askActs(), tellActs(), orderActs(),
		markActs(), besideActs(),
	} {
		all = append(all, part...)
	}
	return all
}

// workActs are the keys that every kind of exercise has.
func workActs(scope keys.Scope, group string, marks bool) page.Acts[*Practice] {
	list := page.Acts[*Practice]{
		act(scope, "hint", group, []string{"h"}, "", "hint", "show the next hint; it costs a share of the mark", 6, func(p *Practice) string {
			if n, _ := p.now.(work).base().session().HintsLeft(); n == 0 {
				return "there is no hint left"
			}
			return ""
		}, func(p *Practice, _ keys.Event) { p.now.(work).base().hint(p) }),
		act(scope, "read", group, []string{keys.PgUp, keys.PgDown}, "PgUp PgDn", "task", "read the scenario and the task on", 7, nil, func(p *Practice, e keys.Event) {
			p.now.(work).base().scroll(e.Key == keys.PgUp)
		}),
		act(scope, "leave", group, []string{keys.Esc}, "", "leave", "leave the exercise; where something was done, the second time", 8, nil, func(p *Practice, _ keys.Event) {
			p.now.(work).base().leave(p)
		}),
	}
	if marks {
		list = append(list, act(scope, "mark", group, []string{"m"}, "", "mark it", "hand the answer in to be marked", 3, func(p *Practice) string {
			return p.now.(work).unready()
		}, func(p *Practice, _ keys.Event) {
			w := p.now.(work)
			w.hand()
			w.base().mark(p)
		}))
	}
	return list
}
