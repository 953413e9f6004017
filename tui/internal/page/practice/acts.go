package practice

import (
	"slices"

	"frp/veilwright/tui/internal/keys"
	"frp/veilwright/tui/internal/page"
)

const (
	scopeHome   keys.Scope = "practice"
	scopeWho    keys.Scope = "practice, who"
	scopeStep   keys.Scope = "practice, a step"
	scopeRead   keys.Scope = "practice, reading"
	scopeResume keys.Scope = "practice, an answer kept"
	scopeBench  keys.Scope = "practice, at the bench"
	scopeFind   keys.Scope = "practice, finding"
	scopeChoose keys.Scope = "practice, choosing"
	scopeAsk    keys.Scope = "practice, questions"
	scopeTell   keys.Scope = "practice, an answer"
	scopeOrder  keys.Scope = "practice, order"
	scopeMark   keys.Scope = "practice, marked"
)

func digits() []string { return []string{"1", "2", "3", "4", "5", "6", "7", "8", "9"} }

func act(scope keys.Scope, id keys.ID, group string, k []string, show, short, long string, rank int, why func(*Practice) string, do func(*Practice, keys.Event)) page.Act[*Practice] {
	return page.Act[*Practice]{Binding: keys.Binding{ID: id, Scope: scope, Keys: k, Show: show, Short: short, Long: long, Group: group, Rank: rank}, Can: why, Do: do}
}

func arrows() []string { return []string{keys.Up, keys.Down, "k", "j"} }

func acts() page.Acts[*Practice] {
	return slices.Concat(homeActs(), whoActs(), stepActs(), readActs(), resumeActs(), findActs(), chooseActs(), askActs(), tellActs(), orderActs(), markActs())
}

// inward tells the arrows apart.
func inward(e keys.Event) bool { return e.Key == keys.Up || e.Key == "k" || e.Key == keys.Left }

// moved is where an arrow leads from a place in a list of n.
func moved(at int, e keys.Event, n int) int {
	if inward(e) {
		return max(0, at-1)
	}
	return max(0, min(n-1, at+1))
}

// in makes what a key does to a screen of one kind.
func in[S screen](do func(S, *Practice, keys.Event)) func(*Practice, keys.Event) {
	return func(p *Practice, e keys.Event) {
		if s, ok := p.now.(S); ok {
			do(s, p, e)
		}
	}
}

// can makes why a key cannot act on a screen of one kind.
func can[S screen](why func(S, *Practice) string) func(*Practice) string {
	return func(p *Practice) string {
		if s, ok := p.now.(S); ok {
			return why(s, p)
		}
		return "not here"
	}
}
