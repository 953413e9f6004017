package advice

import (
	"regexp"
	"slices"
	"strings"
	"sync"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/catalog"
	"frp/veilwright/laminate/edit"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/rules"
	"frp/veilwright/rules/all"
	"frp/veilwright/rules/resin"
)

// NoVeil is the id of leaving the veil out.
const NoVeil = "none"

// advisor asks the rules about one service and part.
type advisor struct {
	s     *laminate.Schedule
	lib   *laminate.Library
	units quantity.System
	mat   string // the mat of the probes, "" when there is none

	veilRules, resinRules, buildRules []*rules.Rule
	inner                             []*rules.Rule // of the inner surface's thickness
}

// Rules that say nothing about the choice itself: cure, thixotrope, grounding
// and the writing of zones can be put right whatever is chosen, and the resin
// is to be confirmed whatever it is.
var notTheChoice = []string{
	"hypochlorite-cure", "barrier-resins-differ", "confirm-resin", "service-incomplete",
	"conductive-path", "zones-inferred", "no-outer-surface",
}

func newAdvisor(s *laminate.Schedule, lib *laminate.Library, units quantity.System) *advisor {
	a := &advisor{s: s, lib: lib, units: units}
	a.mat, _ = catalog.Pick(a.lib, a.s, usualMat, func(m *laminate.Material) bool {
		return m.Form == laminate.ChoppedMat && m.Fiber.Glass() && m.ArealMass.Given()
	})
	for _, r := range all.Rules() {
		if r.ID == "service-incomplete" {
			a.veilRules = append(a.veilRules, r)
			a.resinRules = append(a.resinRules, r)
		}
		if slices.Contains(notTheChoice, r.ID) {
			continue
		}
		switch r.Family {
		case "veil":
			a.veilRules = append(a.veilRules, r)
		case "resin":
			a.resinRules = append(a.resinRules, r)
		case "barrier", "sequence", "special":
			a.buildRules = append(a.buildRules, r)
		}
		switch r.ID {
		case "conductive-barrier":
			a.veilRules = append(a.veilRules, r)
		case "inner-surface-thickness", "inner-surface-rich":
			a.veilRules = append(a.veilRules, r)
			if r.ID == "inner-surface-thickness" {
				a.inner = append(a.inner, r)
			}
		}
	}
	return a
}

func isVeil(m *laminate.Material) bool { return m.Form == laminate.Veil }

// asks tells what the service asks of the barrier beyond standing the fluid.
func (a *advisor) asks() (hard, conductive bool) {
	return a.s.Service.Abrasive.Or(false), a.s.Service.Conductive.Or(false)
}

// probe lays one choice in a wall that is otherwise sound.
func (a *advisor) probe(veil string, f laminate.Family, b build) *laminate.Schedule {
	bare := *a.s
	bare.Resins = nil
	r := edit.Recipe{
		Veil: veil, Veils: a.veilPlies(veil, f, b.veils), Mat: a.mat, Mats: b.mats,
		Barrier: mixed(laminate.Resin{ID: probeResin, Family: f}, &a.s.Service, b),
		Wall:    laminate.Resin{ID: probeWall, Family: f},
	}
	if b.hard && b.conductive {
		r.Surface = conducting(r.Barrier, probeSurface)
	}
	r.Structure = []laminate.Ply{{Material: a.mat, Count: 2}}
	r.Coat, _ = catalog.Pick(a.lib, a.s, usualCoat, isCoat)
	return r.Build(&bare, a.lib)
}

// veilPlies is how many plies of a veil make an inner surface, no fewer than a
// build has: of a thin veil one is too little. The rule about the inner surface
// says when it is enough.
func (a *advisor) veilPlies(veil string, f laminate.Family, least int) int {
	if a.inner == nil || veil == "" {
		return least
	}
	const most = 4
	resin := laminate.Resin{ID: probeResin, Family: f}
	for n := least; n <= most; n++ {
		bare := *a.s
		bare.Resins = nil
		r := edit.Recipe{Veil: veil, Veils: n, Barrier: resin, Wall: resin}
		if rules.Judge(a.inner, r.Build(&bare, a.lib), a.lib, rules.Options{}).Verdict != rules.Break {
			return n
		}
	}
	return least
}

// The ids of the probes' resins; messages are rid of them.
const (
	probeResin   = "probe"
	probeSurface = "probe-surface"
	probeWall    = "probe-wall"
)

// opinion is what one rule says about an option.
type opinion struct {
	rule   *rules.Rule
	answer Suits
	reason Reason
}

// judged is what rules say about a probe, worst first.
func (a *advisor) judged(list []*rules.Rule, probe *laminate.Schedule) []opinion {
	var said []opinion
	report := rules.Judge(list, probe, a.lib, rules.Options{Units: a.units})
	for _, f := range report.Findings {
		if f.Rule.ID == notPreferred && report.Verdict == rules.Break {
			continue // what must not be built is not worth comparing
		}
		answer := severe(f.Severity)
		if f.Rule.ID == outsidePH {
			answer = max(answer, Conditional) // a note in the double build, and a decision all the same
		}
		said = append(said, opinion{f.Rule, answer, Reason{worded(&f, plain(f.Message, probe)), f.Basis}})
	}
	return said
}

const (
	notPreferred = "veil-not-preferred"
	outsidePH    = "veil-outside-ph"
)

// worded says a finding as a reason. Rules speak of a wall that is there, and
// of a choice their words would mislead: a veil or resin that serves though
// another is usual is told to do so, and no mat of the probe is named where no
// veil is the question.
func worded(f *rules.Finding, message string) string {
	switch f.Rule.ID {
	case "veil-missing":
		return "without a veil the mat is exposed to the fluid"
	case notPreferred:
		if _, usual, ok := strings.Cut(message, "; "); ok {
			return "serves; the usual veil here is " + strings.ReplaceAll(usual, " is the usual veil for ", " for ")
		}
	}
	_, usual, ok := strings.Cut(message, "; ")
	if ok && f.Severity == rules.Note && (f.Rule == resin.ResinForAcid || f.Rule == resin.ResinForBrine) {
		return "serves; " + usual
	}
	if f.Severity == rules.Note && f.Rule.ID != outsidePH { // a title that names trouble would argue against the answer
		return message
	}
	return f.Rule.Title + ": " + message
}

// option gathers opinions, worst first: the worst is the answer, and each is
// told once.
func option(id string, said []opinion) Option {
	slices.SortStableFunc(said, func(x, y opinion) int { return int(y.answer) - int(x.answer) })
	o := Option{ID: id, Suits: Suitable}
	for _, x := range said {
		o.Suits = max(o.Suits, x.answer)
		o.Reasons = appendNew(o.Reasons, x.reason)
	}
	return o
}

func severe(s rules.Severity) Suits {
	switch s {
	case rules.Break:
		return Unsuitable
	case rules.Incomplete:
		return Unknown
	case rules.Warning:
		return Conditional
	default: // nothing of the others
	}
	return Suitable
}

// appendNew leaves out what is said already.
func appendNew(list []Reason, more ...Reason) []Reason {
	for _, r := range more {
		if !slices.Contains(list, r) {
			list = append(list, r)
		}
	}
	return list
}

const numbered = `\b(?:ply|plies) [0-9]+(?:–[0-9]+)?(?:, [0-9]+(?:–[0-9]+)?)*`

var (
	thisIs  = sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(numbered + ` is `) })
	thisAre = sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(numbered + ` are `) })
	ofThis  = sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(` of ` + numbered) })
)

// plain takes the probe's own ply numbers and resin ids out of a message.
func plain(message string, probe *laminate.Schedule) string {
	for i := range probe.Resins {
		r := &probe.Resins[i]
		if !strings.HasPrefix(r.ID, probeResin) {
			continue // the schedule's own
		}
		message = strings.ReplaceAll(message, r.ID+" ("+r.Family.String()+")", r.Family.String())
	}
	message = strings.ReplaceAll(message, "resin "+probeSurface+" ", "the veil's resin ")
	message = strings.ReplaceAll(message, "resin "+probeResin+" ", "the barrier resin ")
	message = thisAre().ReplaceAllString(thisIs().ReplaceAllString(message, "this is "), "these are ")
	return ofThis().ReplaceAllString(message, " of the barrier")
}

// notes are what for every choice.
func (a *advisor) notes() []Reason {
	var notes []Reason
	probe := a.probe("", laminate.NoFamily, planned(catalog.SingleBuild))
	for _, f := range rules.Judge(all.Rules(), probe, a.lib, rules.Options{Units: a.units}).Findings {
		switch f.Rule.ID {
		case "service-incomplete", "confirm-resin", "conductive-path":
			notes = appendNew(notes, Reason{Text: plain(f.Message, probe), Basis: f.Basis})
		}
	}
	if a.s.Service.Contains.Has(laminate.Hypochlorite) {
		notes = append(notes, Reason{
			Text:  "for hypochlorite the barrier is cured with peroxide and amine, not cobalt, and without fumed silica, whatever the resin",
			Basis: rules.CommonPractice,
		})
	}
	return notes
}
