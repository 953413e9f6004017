package rules_test

import (
	"errors"
	"slices"
	"strings"
	"testing"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/catalog"
	"frp/veilwright/laminate/edit"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/rules"
	"frp/veilwright/rules/ruletest"
)

const why = "A reason that is long enough to teach somebody something. It says what happens to those who pay no heed to it, in a second sentence."

func rule(id string, run func(*rules.Pass)) *rules.Rule {
	return &rules.Rule{
		ID: id, Family: "sequence", Title: "A title", Why: why, When: "always", Basis: rules.CommonPractice,
		Severity: []rules.Severity{rules.Break, rules.Incomplete, rules.Warning, rules.Note}, Run: run,
	}
}

func says(id string, severity rules.Severity, at laminate.Ref) *rules.Rule {
	return rule(id, func(p *rules.Pass) {
		p.Report(rules.Finding{Severity: severity, At: at, Message: id})
	})
}

func ids(r *rules.Report) []string {
	var list []string
	for _, f := range r.Findings {
		list = append(list, f.Rule.ID)
	}
	return list
}

func TestFindingsStandWorstFirstThenByPlaceThenByRule(t *testing.T) {
	list := []*rules.Rule{
		says("note", rules.Note, laminate.Ref{}), says("later", rules.Warning, laminate.PlyRef(4, "")), says("resin", rules.Warning, laminate.ResinRef(9, "")),
		says("b", rules.Warning, laminate.PlyRef(2, "")), says("a", rules.Warning, laminate.PlyRef(2, "")), says("incomplete", rules.Incomplete, laminate.PlyRef(5, "")),
		says("break", rules.Break, laminate.PlyRef(5, "")),
	}
	r := rules.Judge(list, ruletest.Sound(), catalog.Library(), rules.Options{})
	want := []string{"break", "incomplete", "resin", "a", "b", "later", "note"}
	if got := ids(r); !slices.Equal(got, want) {
		t.Errorf("got %v, want %v", got, want)
	}
	if b, o, c, n := r.Counts(); b != 1 || o != 1 || c != 4 || n != 1 {
		t.Errorf("counts %d %d %d %d", b, o, c, n)
	}
}

func TestVerdictIsTheWorst(t *testing.T) {
	for severity, want := range map[rules.Severity]string{
		rules.Note: "clear", rules.Warning: "warning", rules.Incomplete: "incomplete", rules.Break: "break",
	} {
		r := rules.Judge([]*rules.Rule{says("a", severity, laminate.Ref{})}, ruletest.Sound(), catalog.Library(), rules.Options{})
		if got := r.Verdict.String(); got != want {
			t.Errorf("%v: verdict %s, want %s", severity, got, want)
		}
	}
	if r := rules.Judge(nil, ruletest.Sound(), nil, rules.Options{}); r.Verdict != rules.Clear {
		t.Errorf("no rule: verdict %v", r.Verdict)
	}
}

func TestRuleThatFailsIsAnOpenFinding(t *testing.T) {
	list := []*rules.Rule{
		rule("bad", func(p *rules.Pass) {
			p.Report(rules.Finding{Severity: rules.Break, Message: "half a thought"})
			panic("no such ply")
		}),
		says("good", rules.Warning, laminate.Ref{}),
	}
	r := rules.Judge(list, ruletest.Sound(), catalog.Library(), rules.Options{Fixes: true})
	if got := ids(r); !slices.Equal(got, []string{"internal-error", "good"}) {
		t.Fatalf("got %v", got)
	}
	f := r.Findings[0]
	if f.Severity != rules.Incomplete || !strings.Contains(f.Message, "rule bad failed") || !strings.Contains(f.Message, "no such ply") {
		t.Errorf("finding %+v", f)
	}
}

// sound is a sound schedule whose first resin is the product "old".
func sound() *laminate.Schedule {
	s := ruletest.Sound()
	s.Resins[0].Product = "old"
	return s
}

// titled fires as long as the first resin is the product named; its fix names
// another.
func titled(id, title string, severity rules.Severity, to string) *rules.Rule {
	return rule(id, func(p *rules.Pass) {
		if p.Schedule.Resins[0].Product != title {
			return
		}
		p.Report(rules.Finding{Severity: severity, Message: id, Fix: p.Fix("retitle", "retitled", laminate.Ref{}, func(d *edit.Draft) error {
			if to == "" {
				return errors.New("cannot be done")
			}
			if to == "panic" {
				panic("cannot be done")
			}
			d.Resin(0).Product = to
			return nil
		})})
	})
}

func TestFixIsOfferedOnlyWhereTheReportAfterItIsBetter(t *testing.T) {
	old := sound().Resins[0].Product
	for name, c := range map[string]struct {
		list []*rules.Rule
		want bool
	}{
		"fixes":                               {[]*rules.Rule{titled("a", old, rules.Warning, "new")}, true},
		"changes nothing":                     {[]*rules.Rule{titled("a", old, rules.Warning, old)}, false},
		"trades a break for a break":          {[]*rules.Rule{titled("a", old, rules.Break, "new"), titled("b", "new", rules.Break, "")}, false},
		"trades a break for an open":          {[]*rules.Rule{titled("a", old, rules.Break, "new"), titled("b", "new", rules.Incomplete, "")}, false},
		"trades a break for a warning":        {[]*rules.Rule{titled("a", old, rules.Break, "new"), titled("b", "new", rules.Warning, "")}, true},
		"trades a warning for a warning":      {[]*rules.Rule{titled("a", old, rules.Warning, "new"), titled("b", "new", rules.Warning, "")}, false},
		"fixes a note only":                   {[]*rules.Rule{titled("a", old, rules.Note, "new")}, false},
		"trades two breaks for another one":   {[]*rules.Rule{titled("a", old, rules.Break, "new"), titled("c", old, rules.Break, ""), titled("b", "new", rules.Break, "")}, false},
		"cannot be done":                      {[]*rules.Rule{titled("a", old, rules.Break, "")}, false},
		"fails while it is tried":             {[]*rules.Rule{titled("a", old, rules.Break, "panic")}, false},
		"makes a rule fail that did not fail": {[]*rules.Rule{titled("a", old, rules.Break, "new"), rule("b", func(p *rules.Pass) { _ = map[bool][]int{p.Schedule.Resins[0].Product == old: {1}}[true][0] })}, false},
	} {
		t.Run(name, func(t *testing.T) {
			s := sound()
			r := rules.Judge(c.list, s, catalog.Library(), rules.Options{Fixes: true})
			if r.Findings[0].Rule.ID != "a" && r.Findings[0].Rule.ID != "c" {
				t.Fatalf("findings %v", ids(r))
			}
			got := false
			for _, f := range r.Findings {
				got = got || f.Rule.ID == "a" && f.Fix != nil
			}
			if got != c.want {
				t.Errorf("offered %v, want %v", got, c.want)
			}
			if s.Resins[0].Product != old {
				t.Error("trying a fix changed the schedule")
			}
			later := rules.Judge(c.list, s, catalog.Library(), rules.Options{})
			for i, f := range later.Findings {
				if f.Fix != nil {
					t.Error("a fix that nobody asked for")
				}
				if f.Rule.ID != "a" {
					continue
				}
				if first, again := later.Fix(i), later.Fix(i); (first != nil) != c.want || first != again || first != later.Findings[i].Fix {
					t.Errorf("asked for later: %v, then %v, want one: %v", first, again, c.want)
				}
			}
		})
	}
}

func TestFixOfAnotherScheduleIsRefused(t *testing.T) {
	s := sound()
	list := []*rules.Rule{titled("a", s.Resins[0].Product, rules.Break, "new")}
	r := rules.Judge(list, s, catalog.Library(), rules.Options{Fixes: true})
	do := r.Findings[0].Fix.Edit.Do
	if next, err := do(s.Clone()); err != nil || next.Resins[0].Product != "new" {
		t.Errorf("an equal schedule: %v", err)
	}
	other := s.Clone()
	other.Plies = other.Plies[:3]
	if _, err := do(other); err == nil {
		t.Error("a schedule with other plies was fixed")
	}
}

func TestPliesAreNamedAsTheScheduleNumbersThem(t *testing.T) {
	s := ruletest.Sound()
	for range 12 {
		s.Plies = append(s.Plies, s.Plies[ruletest.OverRow])
	}
	var got []string
	rules.Judge([]*rules.Rule{rule("a", func(p *rules.Pass) {
		for _, rows := range [][]int{{0}, {1}, {0, 1}, {0, 2}, {2, 3, 5}, {0, 2, 4, 6, 8, 10, 12, 14}} {
			got = append(got, p.Plies(rows)+" "+p.Are(rows))
		}
	})}, s, catalog.Library(), rules.Options{})
	want := []string{"ply 1 is", "plies 2–3 are", "plies 1–3 are", "plies 1, 4 are", "plies 4–5, 7 are", "plies 1, 4, 6, 8, 10, 12 and more are"}
	if !slices.Equal(got, want) {
		t.Errorf("got %q, want %q", got, want)
	}
}

// 180 °F is 82.2 °C; 10 mil is 0.254 mm.
func TestFiguresInTheReadersUnits(t *testing.T) {
	var got []string
	list := []*rules.Rule{rule("a", func(p *rules.Pass) {
		got = append(got, p.Units.Temperature(quantity.New(180, quantity.Fahrenheit).SI()))
		measured, bound := p.Thickness(quantity.New(9.999, quantity.Mil).SI(), quantity.New(10, quantity.Mil).SI())
		got = append(got, measured, bound)
	})}
	rules.Judge(list, ruletest.Sound(), catalog.Library(), rules.Options{})
	rules.Judge(list, ruletest.Sound(), catalog.Library(), rules.Options{Units: quantity.Metric})
	want := []string{"180 °F", "9.999 mil", "10.000 mil", "82.2 °C", "0.25397 mm", "0.25400 mm"}
	if !slices.Equal(got, want) {
		t.Errorf("got %q, want %q", got, want)
	}
}

func TestValidateTellsWhatIsWrong(t *testing.T) {
	good := func() *rules.Rule { return rule("fine-rule", func(*rules.Pass) {}) }
	if errs := rules.Validate([]*rules.Rule{good()}); errs != nil {
		t.Fatalf("a sound rule: %v", errs)
	}
	for want, spoil := range map[string]func(*rules.Rule){
		"kebab":         func(r *rules.Rule) { r.ID = "Fine_Rule" },
		"no family":     func(r *rules.Rule) { r.Family = "other" },
		"missing":       func(r *rules.Rule) { r.Title = "" },
		"characters":    func(r *rules.Rule) { r.Title = strings.Repeat("x", 61) },
		"full stop":     func(r *rules.Rule) { r.Title = "A title." },
		"teach":         func(r *rules.Rule) { r.Why = "Because." },
		"no severity":   func(r *rules.Rule) { r.Severity = nil },
		"invalid":       func(r *rules.Rule) { r.Severity = []rules.Severity{rules.Clear} },
		"worst first":   func(r *rules.Rule) { r.Severity = []rules.Severity{rules.Note, rules.Break} },
		"when it fires": func(r *rules.Rule) { r.When = "" },
		"basis":         func(r *rules.Rule) { r.Basis = "" },
		"no function":   func(r *rules.Rule) { r.Run = nil },
	} {
		r := good()
		spoil(r)
		errs := rules.Validate([]*rules.Rule{r})
		if len(errs) != 1 || !strings.Contains(errs[0].Error(), want) {
			t.Errorf("%s: %v", want, errs)
		}
	}
	if errs := rules.Validate([]*rules.Rule{good(), good(), nil}); len(errs) != 2 {
		t.Errorf("twice the same and nil: %v", errs)
	}
}
