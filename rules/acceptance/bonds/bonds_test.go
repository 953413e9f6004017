package bonds_test

import (
	"regexp"
	"testing"
	"time"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/catalog"
	"frp/veilwright/laminate/overlay"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/record"
	"frp/veilwright/rules"
	"frp/veilwright/rules/acceptance/bonds"
	"frp/veilwright/rules/all"
	"frp/veilwright/rules/ruletest"
)

var monday = time.Date(2026, 3, 2, 8, 0, 0, 0, time.UTC)

func hours(n float64) record.Entry {
	return record.Entry{At: monday.Add(time.Duration(n * float64(time.Hour))), Who: "N. N."}
}

// scheduled is a sound schedule whose resins state a window, none for 0.
func scheduled(window float64) *rules.Report {
	s := ruletest.Sound()
	for i := range s.Resins {
		if window > 0 {
			s.Resins[i].BondWindow = quantity.New(window, quantity.Hour)
		}
	}
	return all.Judge(s, catalog.Library(), rules.Options{})
}

func ground(at float64, of string, abraded bool) record.Preparation {
	return record.Preparation{Entry: hours(at), Onto: of, Abraded: laminate.Some(abraded)}
}

// A bond 30 hours after the face gelled, unless a case says otherwise.
func TestJudge_bonds(t *testing.T) {
	for name, c := range map[string]struct {
		window float64
		do     func(*record.Record)
		want   rules.Severity
		key    string
		says   string
	}{
		"within the window": {48, nil, rules.Clear, bonds.WindowPassed, "^1 bond within the window$"},
		"at its very end":   {30, nil, rules.Clear, bonds.WindowPassed, ""},
		"past it":           {24, nil, rules.Break, bonds.WindowPassed, "no abrading recorded; laid 30.0 h after the face gelled, the window of resin"},
		"past it and abraded": {24, func(r *record.Record) {
			r.Preparations = []record.Preparation{ground(29, "J1", true)}
			r.Preparations[0].Finish = "36 grit"
		}, rules.Clear, bonds.WindowPassed, "^1 bond onto an abraded face$"},
		"abraded, to what finish": {24, func(r *record.Record) { r.Preparations = []record.Preparation{ground(29, "J1", true)} }, rules.Clear, bonds.WindowPassed,
			"^1 bond onto an abraded face; to what finish it was abraded is not recorded$"},
		"abraded, gelled when": {24, func(r *record.Record) {
			r.Preparations = []record.Preparation{ground(29, "J1", true)}
			r.Preparations[0].Finish, r.Bonds[0].Gelled = "36 grit", time.Time{}
		}, rules.Clear, bonds.WindowPassed, "^1 bond onto an abraded face; when the face had gelled is not recorded$"},
		"abraded, and no more": {24, func(r *record.Record) {
			r.Preparations = []record.Preparation{ground(29, "J1", true)}
			r.Bonds[0].Gelled = time.Time{}
		}, rules.Clear, bonds.WindowPassed, "^1 bond onto an abraded face; when the face had gelled and to what finish it was abraded are not recorded$"},
		"one of each": {48, func(r *record.Record) {
			r.Preparations = []record.Preparation{ground(29, "J1", true)}
			r.Preparations[0].Finish = "36 grit"
			r.Bonds = append(r.Bonds, r.Bonds[0])
			r.Bonds[1].Onto = "J2"
		}, rules.Clear, bonds.WindowPassed, "^1 bond onto an abraded face, 1 bond within the window$"},
		"abraded, then found not to be": {24, func(r *record.Record) {
			r.Preparations = []record.Preparation{ground(28, "J1", true), ground(29, "J1", false)}
		}, rules.Break, bonds.WindowPassed, "bond onto J1: NOT abraded, as the last entry says; laid 30.0 h after the face gelled, the window of resin"},
		"the same, gelled nobody knows when": {24, func(r *record.Record) {
			r.Preparations = []record.Preparation{ground(28, "J1", true), ground(29, "J1", false)}
			r.Bonds[0].Gelled = time.Time{}
		}, rules.Incomplete, bonds.WindowPassed, "bond onto J1: NOT abraded, as the last entry before it says"},
		"the same at one moment": {24, func(r *record.Record) {
			r.Preparations = []record.Preparation{ground(29, "J1", true), ground(29, "J1", false)}
		}, rules.Break, bonds.WindowPassed, ""},
		"the denial struck": {24, func(r *record.Record) {
			r.Preparations = []record.Preparation{ground(28, "J1", true), ground(29, "J1", false)}
			r.Preparations[1].Struck = true
		}, rules.Clear, bonds.WindowPassed, "^1 bond onto an abraded face"},
		"not abraded, then it is": {24, func(r *record.Record) {
			r.Preparations = []record.Preparation{ground(28, "J1", false), ground(29, "J1", true)}
			r.Preparations[1].Finish = "36 grit"
		}, rules.Clear, bonds.WindowPassed, "^1 bond onto an abraded face"},
		"not abraded, then it is, to no finish": {24, func(r *record.Record) {
			r.Preparations = []record.Preparation{ground(29, "J1", true), ground(28, "J1", false)}
		}, rules.Incomplete, bonds.WindowPassed, "says that the face was abraded, .* before it that it was not, and to what finish it was since is not recorded$"},
		"written down in another order": {24, func(r *record.Record) {
			r.Preparations = []record.Preparation{ground(29, "J1", true), ground(28, "J1", false)}
			r.Preparations[0].Finish = "36 grit"
		}, rules.Clear, bonds.WindowPassed, "^1 bond onto an abraded face"},
		"denied after the bond": {24, func(r *record.Record) {
			r.Preparations = []record.Preparation{ground(29, "J1", true), ground(31, "J1", false)}
		}, rules.Clear, bonds.WindowPassed, "^1 bond onto an abraded face"},
		"prepared, not abraded":    {24, func(r *record.Record) { r.Preparations = []record.Preparation{ground(29, "J1", false)} }, rules.Break, bonds.WindowPassed, ""},
		"another face abraded":     {24, func(r *record.Record) { r.Preparations = []record.Preparation{ground(29, "J2", true)} }, rules.Break, bonds.WindowPassed, ""},
		"abraded after the bond":   {24, func(r *record.Record) { r.Preparations = []record.Preparation{ground(31, "J1", true)} }, rules.Break, bonds.WindowPassed, ""},
		"abraded before it gelled": {24, func(r *record.Record) { r.Preparations = []record.Preparation{ground(-1, "J1", true)} }, rules.Break, bonds.WindowPassed, ""},
		"the abrading struck": {24, func(r *record.Record) {
			r.Preparations = []record.Preparation{ground(29, "J1", true)}
			r.Preparations[0].Struck = true
		}, rules.Break, bonds.WindowPassed, ""},
		"no window stated":       {0, nil, rules.Incomplete, bonds.WindowPassed, `is not stated \(bond_window\)`},
		"no window, but abraded": {0, func(r *record.Record) { r.Preparations = []record.Preparation{ground(29, "J1", true)} }, rules.Clear, bonds.WindowPassed, ""},
		"gelled when":            {24, func(r *record.Record) { r.Bonds[0].Gelled = time.Time{} }, rules.Incomplete, bonds.WindowPassed, `when the face gelled is not recorded \(gelled\)`},
		"laid when":              {24, func(r *record.Record) { r.Bonds[0].At = time.Time{} }, rules.Incomplete, bonds.WindowPassed, `\(at\)`},
		"nobody":                 {48, func(r *record.Record) { r.Bonds[0].Bonder = " " }, rules.Incomplete, bonds.Unqualified, `who bonded \(bonder\)`},
		"by no list":             {48, func(r *record.Record) { r.Bonds[0].Qualification = "" }, rules.Incomplete, bonds.Unqualified, `\(qualification\)`},
		"by none":                {48, func(r *record.Record) { r.Bonds[0].Qualification = "none" }, rules.Incomplete, bonds.Unqualified, `\(qualification\)`},
		"the bond struck":        {24, func(r *record.Record) { r.Bonds[0].Struck = true }, rules.Clear, "", ""},
	} {
		r := &record.Record{Bonds: []record.Bond{{Entry: hours(30), Onto: "J1", Gelled: monday, Bonder: "B. One", Qualification: "list 4"}}}
		if c.do != nil {
			c.do(r)
		}
		list := bonds.Judge(r, scheduled(c.window))
		if c.key == "" {
			if len(list) > 0 {
				t.Errorf("%s: %+v", name, list)
			}
			continue
		}
		found := bonds.Finding{Key: "nothing"}
		for _, f := range list {
			if f.Key == c.key {
				found = f
			}
		}
		if found.Key != c.key || found.Severity != c.want || !regexp.MustCompile(c.says).MatchString(found.Found) || found.Demand == "" || found.Basis == "" {
			t.Errorf("%s: %+v, want %s that says %q", name, list, c.want, c.says)
		}
	}
}

// Plies of one schedule are a bond too where one was laid onto a face that had
// cured; those of a shift or two are one laminate.
func TestJudge_layUp(t *testing.T) {
	for name, c := range map[string]struct {
		window, later float64
		abraded       bool
		want          rules.Severity
		none          bool
	}{
		"the same day":                  {0, 6, false, rules.Clear, true},
		"the next day, nothing stated":  {0, 24, false, rules.Clear, true},
		"two days on, nothing stated":   {0, 48, false, rules.Incomplete, false},
		"past a window of a shift":      {8, 9, false, rules.Break, false},
		"past it, ground":               {8, 9, true, rules.Clear, false},
		"within a window of three days": {72, 48, false, rules.Clear, true},
	} {
		r := &record.Record{Laid: []record.Laid{{Entry: hours(0), Ply: 3}, {Entry: hours(c.later), Ply: 4}}}
		if c.abraded {
			r.Preparations = []record.Preparation{ground(c.later-0.5, "", true)}
		}
		list := bonds.Judge(r, scheduled(c.window))
		switch {
		case c.none != (len(list) == 0), !c.none && (list[0].Severity != c.want || list[0].Key != bonds.WindowPassed):
			t.Errorf("%s: %+v", name, list)
		case !c.none && c.want != rules.Clear && (len(list[0].Plies) != 1 || list[0].Plies[0] != 4):
			t.Errorf("%s: plies %v", name, list[0].Plies)
		}
	}
}

// Onto a wall that ends in a waxed coat nothing bonds however soon: a record of a strap
// has to say that the face was abraded.
func TestJudge_bondOntoWax(t *testing.T) {
	s, bare := ruletest.Sound(), ruletest.Sound()
	for i := range s.Resins {
		s.Resins[i].BondWindow = quantity.New(48, quantity.Hour)
		bare.Resins[i].BondWindow = s.Resins[i].BondWindow
	}
	bare.Plies = bare.Plies[:ruletest.CoatRow]
	a, b := laminate.Analyze(s, catalog.Library()), laminate.Analyze(bare, catalog.Library())
	if last := a.Rows[len(a.Rows)-1].Material; last == nil || !last.Waxed {
		t.Fatal("the sound wall ends in no waxed coat")
	}
	for name, c := range map[string]struct {
		kind    overlay.Kind
		under   []*laminate.Analysis
		abraded bool
		want    rules.Severity
	}{
		"strap":              {overlay.Strap, []*laminate.Analysis{b, a}, false, rules.Incomplete},
		"strap, abraded":     {overlay.Strap, []*laminate.Analysis{b, a}, true, rules.Clear},
		"pad":                {overlay.Pad, []*laminate.Analysis{a}, false, rules.Incomplete},
		"seal, inside":       {overlay.Seal, []*laminate.Analysis{a, a}, false, rules.Clear},
		"strap on no wax":    {overlay.Strap, []*laminate.Analysis{b, b}, false, rules.Clear},
		"strap on wax alone": {overlay.Strap, []*laminate.Analysis{a, a}, false, rules.Incomplete},
	} {
		of := scheduled(48)
		of.Overlay = &rules.Overlaid{Overlay: overlay.Overlay{Kind: c.kind, Of: "J1"}, Under: c.under}
		r := &record.Record{Bonds: []record.Bond{{Entry: hours(30), Onto: "J1", Gelled: monday, Bonder: "B. One", Qualification: "list 4"}}}
		if c.abraded {
			r.Preparations = []record.Preparation{ground(29, "J1", true)}
		}
		found := bonds.Finding{}
		for _, f := range bonds.Judge(r, of) {
			if f.Key == bonds.WindowPassed {
				found = f
			}
		}
		waxed := regexp.MustCompile("waxed coat").MatchString(found.Found)
		if found.Severity != c.want || waxed != (c.want == rules.Incomplete) {
			t.Errorf("%s: %+v", name, found)
		}
	}
}
