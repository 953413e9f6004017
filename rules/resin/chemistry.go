package resin

import (
	"strings"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/catalog"
	"frp/veilwright/laminate/edit"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/rules"
)

// mild is 120 °F in K, up to which a middling resin in strong acid is only
// worth a note (common practice, no source).
var mild = quantity.New(120, quantity.Fahrenheit).SI()

// ResinForAcid points at novolacs for strong acid.
var ResinForAcid = &rules.Rule{
	ID:       "resin-for-acid",
	Overlays: rules.WettedOverlay,
	Family:   family,
	Title:    "Barrier resin weak in strong acid",
	Why: "Strong and oxidizing acids penetrate a loosely cross-linked resin, char or soften its surface and go on to the glass behind it. " +
		"Novolac vinyl esters are cross-linked more tightly and are the usual choice for strong acids. " +
		"At mild temperature a plain vinyl ester or polyester often serves; hot, or with an oxidizer or fluorides beside the acid, the barrier may fail early; " +
		"hydrofluoric acid is fluorides and strong acid at once.",
	Severity: []rules.Severity{rules.Incomplete, rules.Warning, rules.Note},
	When: "the service contains strong-acid or goes below pH 2, and a barrier resin is iso- or terephthalic polyester, vinyl ester or brominated vinyl ester: note up to 120 °F (itself included) " +
		"at the higher of operating and upset temperature, warning above or where the service contains oxidizer or fluorides too. No temperature, no resin family, " +
		"or a pH below 2 in a service that does not say what it contains: incomplete",
	Basis: rules.CommonPractice,
	ByUse: true,
	Run:   resinForAcid,
}

func resinForAcid(p *rules.Pass) {
	s := &p.Schedule.Service
	because := strongAcid(s)
	if because == "" {
		return
	}
	at, worse := s.Hottest(), p.Carried(laminate.Oxidizer, laminate.Fluorides)
	for i, use := range p.Facts.Uses {
		r := &p.Schedule.Resins[i]
		if use&rules.InBarrier == 0 || !middling(r.Family) {
			continue
		}
		f := rules.Finding{
			Severity: rules.Warning, Rows: p.RowsOfResin(i, rules.InBarrier), At: laminate.ResinRef(i, "family"),
			Message: because + " and the barrier resin is " + named(r) + "; novolac vinyl ester is usual",
		}
		reached, bound := p.Hottest(mild)
		switch {
		case !s.Contains.Given:
			f.Severity, f.At = rules.Incomplete, laminate.ServiceRef("contains")
			f.Message += "; whether the service contains oxidizer or fluorides too is not stated"
		case worse != "":
			f.Message += ", all the more with " + worse
		case !at.Given():
			f.Severity = rules.Incomplete
			f.Message += " above " + p.Units.Temperature(mild) + "; the service temperature is not stated"
		case quantity.Above(at.SI(), mild):
			f.Message += ", all the more at " + reached + ", above " + bound
		default:
			f.Severity = rules.Note
			f.Message += "; at " + reached + ", not above " + bound + ", this resin serves too"
		}
		p.Report(f)
	}
	unresined(p, because)
}

// strongAcid says why a service is strong acid, "" where it is none.
func strongAcid(s *laminate.Service) string {
	switch {
	case s.Contains.Has(laminate.StrongAcid):
		return "the service contains strong-acid"
	case !catalog.StrongAcid(s):
		return ""
	case s.Contains.Given:
		return "the service goes below pH 2, which is strong acid though it does not list strong-acid,"
	}
	return "the service goes below pH 2 and does not state what it contains"
}

// alkaline is the pH above which a service counts as strongly alkaline though
// nobody said so; it is the pH at which glass veils end.
const alkaline = 12.0

// ResinInAlkali keeps esters out of alkali.
var ResinInAlkali = &rules.Rule{
	ID:       "resin-in-alkali",
	Overlays: rules.WettedOverlay,
	Family:   family,
	Title:    "Alkali attacks the barrier resin",
	Why: "Strong bases and hypochlorite saponify the ester links that hold iso-, terephthalic and chlorendic polyesters together: the resin breaks down from the surface inward. " +
		"It softens, turns cloudy and washes off, and the glass follows. Vinyl esters have few ester links, and shielded ones, and resist it. " +
		"A thicker barrier does not make up for the wrong resin.",
	Severity: []rules.Severity{rules.Break, rules.Incomplete},
	When: "the service contains strong-base or hypochlorite and a barrier resin is iso- or terephthalic or chlorendic polyester: break; so it is at a pH above 12, whatever else the service contains. " +
		"A barrier ply whose resin family is not given: incomplete; at a pH above 12 such a resin is incomplete where the service does not say what it contains",
	Basis: rules.CommonPractice,
	ByUse: true,
	Run:   resinInAlkali,
}

func resinInAlkali(p *rules.Pass) {
	s := &p.Schedule.Service
	because := "the service contains " // completed below
	severity := rules.Break
	switch {
	case s.Contains.Has(laminate.StrongBase, laminate.Hypochlorite):
		because += p.Carried(laminate.StrongBase, laminate.Hypochlorite)
	case !s.Contains.Given && s.PH.Given && s.PH.Highest > alkaline:
		because = "the service goes above pH 12 and does not state what it contains"
		severity = rules.Incomplete
	case s.PH.Given && s.PH.Highest > alkaline:
		because = "the service goes above pH 12, which is strong alkali though it does not list strong-base,"
	default:
		return
	}
	for i, use := range p.Facts.Uses {
		r := &p.Schedule.Resins[i]
		if use&rules.InBarrier == 0 || !r.Family.PlainEster() && r.Family != laminate.Chlorendic {
			continue
		}
		f := rules.Finding{
			Severity: severity, Rows: p.RowsOfResin(i, rules.InBarrier), At: laminate.ResinRef(i, "family"),
			Message: because + " and the barrier resin is " + named(r) + ", which strong alkali attacks",
		}
		if severity == rules.Incomplete {
			f.At = laminate.ServiceRef("contains")
		}
		p.Report(f)
	}
	unresined(p, because)
}

// HypochloriteCure wants a cure without cobalt.
var HypochloriteCure = &rules.Rule{
	ID:       "hypochlorite-cure",
	Overlays: rules.WettedOverlay,
	Family:   family,
	Title:    "Cure or thixotrope wrong for hypochlorite",
	Why: "Cobalt left in the resin speeds up the decay of hypochlorite at the wall, and the oxygen and heat released attack the surface; alkali dissolves fumed silica and leaves pores. " +
		"For hypochlorite the barrier is cured with peroxide and amine, without fumed silica. " +
		"A barrier cured with cobalt looks the same when new, and fails years early.",
	Severity: []rules.Severity{rules.Warning},
	When: "the service contains hypochlorite and the cure of a barrier resin is not peroxide-amine (a cure not stated counts as another), or its thixotrope names silica " +
		"other than to say there is none; a thixotrope left out is taken as none",
	Basis: rules.CommonPractice,
	ByUse: true,
	Run:   hypochloriteCure,
}

func hypochloriteCure(p *rules.Pass) {
	if !p.Schedule.Service.Contains.Has(laminate.Hypochlorite) {
		return
	}
	for i, use := range p.Facts.Uses {
		r := &p.Schedule.Resins[i]
		if use&rules.InBarrier == 0 {
			continue
		}
		var wrong []string
		switch r.Cure {
		case laminate.PeroxideAmine:
		case laminate.NoCure:
			wrong = append(wrong, "its cure is not stated, peroxide-amine is usual")
		default:
			wrong = append(wrong, "its cure is "+r.Cure.String()+", peroxide-amine is usual")
		}
		if silica(r.Thixotrope) {
			wrong = append(wrong, "its thixotrope is silica, which alkali dissolves")
		}
		if wrong == nil {
			continue
		}
		f := rules.Finding{
			Severity: rules.Warning, Rows: p.RowsOfResin(i, rules.InBarrier), At: laminate.ResinRef(i, "cure"),
			Message: "the service contains hypochlorite and the barrier resin is " + named(r) + ": " + rules.Join(wrong, "and"),
		}
		if r.Cure == laminate.PeroxideAmine {
			f.At = laminate.ResinRef(i, "thixotrope")
		} else {
			f.Fix = p.Fix("cure resin "+r.ID+" with peroxide-amine", "set the cure of "+r.ID+" to peroxide-amine", f.At,
				func(d *edit.Draft) error {
					d.Resin(i).Cure = laminate.PeroxideAmine
					return nil
				})
		}
		p.Report(f)
	}
}

// silica tells whether a shop's free text names silica other than to say that
// there is none.
func silica(text string) bool {
	text = strings.ToLower(text)
	at := strings.Index(text, "silica")
	if at < 0 {
		return false
	}
	for _, no := range []string{"no silica", "no fumed silica", "without silica", "without fumed silica", "silica-free", "silica free"} {
		if strings.Contains(text, no) {
			return false
		}
	}
	return true
}
