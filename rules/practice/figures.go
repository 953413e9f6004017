package practice

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/exercise"
	"frp/veilwright/laminate/inspection"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/spec"
	"frp/veilwright/rules"
	"frp/veilwright/rules/joint"
	"frp/veilwright/rules/sequence"
)

// Truth is the answer to a question: a figure in m or as a share of 1, or a
// word; and how it comes about.
type Truth struct {
	Figure     float64
	Word       string
	Why, Basis string
	// Others is what is there beside the worst, each in the word for it.
	Others []string
}

const (
	addsUp    = "t = W/ρf + b/ρb for each ply, added up; typical densities where none is given"
	massBasis = "Σ glass mass / Σ ply mass; API 12P 5.4.3 has it for the barrier"
)

// TruthOf computes the answer to question i. The error says which fact is
// missing, or that the method does not answer it.
func TruthOf(e *exercise.Exercise, i int, lib *laminate.Library, units quantity.System) (Truth, error) {
	a := laminate.Analyze(&e.Given, lib)
	ask := e.Questions[i].Ask
	structure := a.Zones[laminate.StructuralLayer]
	switch ask {
	case exercise.BarrierThickness:
		return thickness(a.Barrier)
	case exercise.StructureThickness:
		return thickness(structure)
	case exercise.WallThickness:
		return thickness(a.Total)
	case exercise.BarrierGlass:
		return glass(a.Barrier)
	case exercise.StructureGlass:
		return glass(structure)
	case exercise.WallGlass:
		return glass(a.Total)
	case exercise.Verdict:
		r := Judge(e, &e.Given, lib, units)
		t := Truth{Word: r.Verdict.String(), Why: "No finding is worse than a note.", Basis: "the rules that check runs"}
		if len(r.Findings) > 0 && r.Verdict.String() != "clear" {
			f := &r.Findings[0]
			t.Why, t.Basis = said(f), f.Basis
		}
		return t, nil
	case exercise.Worst:
		return worstFound(Judge(e, &e.Given, lib, units))
	case exercise.Loss, exercise.GlassLeft, exercise.Acceptance:
		return burned(e, a, ask)
	case exercise.NoAsk:
	}
	return Truth{}, errors.New("no question")
}

// wordOf is the word for what a rule finds, "" where there is none.
func wordOf(r *rules.Rule) string {
	switch r {
	case joint.SealVeilNotLast:
		return exercise.VeilBuried
	case joint.BondPlyNotMat:
		return exercise.NoBondMat
	case joint.EdgeUnsealed:
		return exercise.EdgeOpen
	case joint.SealThin, joint.JointHoopThin, joint.PadThin, joint.InsideOverlayThin:
		return exercise.TooThin
	case joint.SealDiffers:
		return exercise.AnotherBarrier
	case sequence.WaxBetweenPlies:
		return exercise.WaxBetween
	case sequence.WovenOnWoven, sequence.WovenOutermost:
		return exercise.WovenMisplaced
	case sequence.GelStopLate:
		return exercise.TooMuchAtOnce
	}
	return ""
}

// worstFound names what is worst of a report. The error says that no word does, or
// more than one.
func worstFound(r *rules.Report) (Truth, error) {
	if len(r.Findings) == 0 || r.Findings[0].Severity < rules.Warning {
		return Truth{Word: exercise.NothingWrong, Why: "No finding is worse than a note.", Basis: basisOfGroups}, nil
	}
	f := &r.Findings[0] // the worst stand first
	for i := range r.Findings {
		if other := &r.Findings[i]; other.Severity == f.Severity && wordOf(other.Rule) != wordOf(f.Rule) {
			return Truth{}, errors.New("two things are equally bad")
		}
	}
	t := Truth{Word: wordOf(f.Rule), Why: said(f), Basis: f.Basis}
	if t.Word == "" {
		return Truth{}, errors.New("none of the words names it: " + f.Message)
	}
	for i := range r.Findings {
		other := &r.Findings[i]
		if word := wordOf(other.Rule); other.Severity >= rules.Warning && word != "" && word != t.Word && !slices.Contains(t.Others, word) {
			t.Others = append(t.Others, word)
		}
	}
	return t, nil
}

// said is a finding and why it matters, as sentences.
func said(f *rules.Finding) string {
	return strings.ToUpper(f.Message[:1]) + f.Message[1:] + ". " + f.Rule.Why
}

func thickness(s laminate.Sum) (Truth, error) {
	if !s.ThicknessKnown {
		return Truth{}, errors.New("the thickness of a ply is not known")
	}
	return Truth{Figure: s.Thickness, Basis: addsUp, Why: "Each ply is as thick as its fiber and its resin mix: areal mass over fiber density, plus mass of resin mix over its density. " +
		"A veil holds about nine parts of resin to one of fiber, a mat in the barrier about three to one, so the mats make most of the barrier, and the resin most of each mat."}, nil
}

func glass(s laminate.Sum) (Truth, error) {
	share, ok := s.GlassMassFraction()
	if !ok {
		return Truth{}, errors.New("the mass of a ply is not known")
	}
	return Truth{Figure: share, Basis: massBasis, Why: "Add the glass of the plies and divide by their mass; averaging the shares of the plies is wrong, because a thick ply weighs more than a thin one. " +
		"Organic and carbon veils are reinforcement, but not glass."}, nil
}

// burned reads the ignition test: D2584 gives the loss; what is left is glass
// only after filler and organic veil are accounted for.
func burned(e *exercise.Exercise, a *laminate.Analysis, ask exercise.Ask) (Truth, error) {
	if len(e.Specimens) == 0 {
		return Truth{}, errors.New("there is no specimen")
	}
	group := e.Specimens[0].Group
	known, err := Burned(a, group)
	if err != nil && ask != exercise.Loss {
		return Truth{}, err
	}
	loss, left := 0.0, 0.0
	for _, s := range e.Specimens {
		l, err := inspection.Loss(s.Before.SI(), s.After.SI())
		if err != nil {
			return Truth{}, err
		}
		loss += l / float64(len(e.Specimens))
		if ask == exercise.Loss {
			continue
		}
		g, err := inspection.GlassFromResidue(1-l, known)
		if err != nil {
			return Truth{}, err
		}
		left += g / float64(len(e.Specimens))
	}
	if ask == exercise.Loss {
		return Truth{Figure: loss, Basis: "ASTM D2584", Why: "Loss of each specimen is (mass before − mass after) / mass before; the mean of the specimens is reported."}, nil
	}
	why := "The residue of each specimen is glass, because nothing else in it stays."
	if known.Filler > 0 || known.Organic > 0 {
		why = fmt.Sprintf("The residue holds more or less than the glass: with filler φ = %s of the mix and organic veil o = %s of the specimen, glass g = (R − φ(1 − o))/(1 − φ).",
			quantity.Number(known.Filler, 3), quantity.Number(known.Organic, 3))
	}
	t := Truth{Figure: left, Basis: "ASTM D2584; the correction is arithmetic", Why: why}
	if ask == exercise.Acceptance {
		want := wanted(e, group)
		t.Word = "accept"
		if quantity.Below(left, want.Lowest) || quantity.Above(left, want.Highest) {
			t.Word = "reject"
		}
		t.Figure = 0
		t.Why += fmt.Sprintf(" The mean is %s, required: %s to %s.", quantity.Share(left), quantity.Share(want.Lowest), quantity.Share(want.Highest))
	}
	return t, nil
}

// wanted is the demanded glass content of what the specimens hold.
func wanted(e *exercise.Exercise, g inspection.Group) spec.Range {
	if g == inspection.StructuralLayer && e.Demands.Structure.GlassContent.Given || !e.Demands.Barrier.GlassContent.Given {
		return e.Demands.Structure.GlassContent
	}
	return e.Demands.Barrier.GlassContent
}

// Burned says what beside glass and resin the plies of a group hold, as an
// ignition test has to know. The error says which mass is not known, or that
// carbon keeps the test from telling.
func Burned(a *laminate.Analysis, g inspection.Group) (inspection.Burned, error) {
	var mass, organic, filler, binder float64
	for i := range a.Rows {
		r := &a.Rows[i]
		if !g.Holds(r.Zone) {
			continue
		}
		if !r.MassKnown {
			return inspection.Burned{}, errors.New("the mass of a ply is not known")
		}
		if r.Material.Fiber == laminate.Carbon || r.Resin != nil && r.Resin.Filler == laminate.CarbonPowder {
			return inspection.Burned{}, errors.New("carbon burns only in part: the glass content cannot be determined this way")
		}
		n := float64(r.Last - r.First + 1)
		mass += n * r.Mass
		filler += n * r.FillerMass
		binder += n * (r.Mass - r.FiberMass)
		if r.Material.Fiber == laminate.Polyester {
			organic += n * r.FiberMass
		}
	}
	if mass <= 0 || binder <= 0 {
		return inspection.Burned{}, errors.New("the specimens hold no ply")
	}
	return inspection.Burned{Filler: filler / binder, Organic: organic / mass}, nil
}

const pointsOfQuestion = 2

// values marks told figures and words: full within the tolerance, half within
// twice that.
func (g *grader) values(a Answer) {
	for i, q := range g.exercise.Questions {
		l := Line{Demand: q.Ask.Text(), Of: pointsOfQuestion, Found: "not answered"}
		truth, err := TruthOf(g.exercise, i, g.library, g.units)
		if err != nil {
			l.Of, l.Found, l.Why, l.Basis = 0, "cannot be determined", "It is not counted: "+err.Error()+".", own
			g.mark.add(l)
			continue
		}
		l.Right, l.Why, l.Basis = Shown(q, truth, g.units), truth.Why, truth.Basis
		if len(truth.Others) > 0 {
			l.Why += " Less bad, and there too: " + strings.Join(truth.Others, ", ") + "."
		}
		if i < len(a.Values) && a.Values[i] != "" {
			figure, word, err := ReadValue(q, a.Values[i], g.units)
			switch {
			case err != nil:
				l.Found = "not read: " + err.Error()
			case q.Ask.Answer() == exercise.Word:
				l.Found = word
				if word == truth.Word {
					l.Points = l.Of
				} else if q.Ask == exercise.Worst {
					l.Wrong = wrongWord(word, &truth)
				}
			default:
				l.Found = Shown(q, Truth{Figure: figure}, g.units)
				l.Points = l.Of * closeness(q, figure, truth.Figure)
			}
		}
		if q.Ask == exercise.Worst && l.Points < l.Of && truth.Word != exercise.NothingWrong {
			l.Lacks = truth.Word
		}
		g.mark.add(l)
	}
}

// wrongWord says why a word does not name the worst.
func wrongWord(word string, t *Truth) string {
	switch {
	case word == exercise.NothingWrong:
		return "something is wrong with it"
	case slices.Contains(t.Others, word):
		return word + " is there too, and is not the worst"
	}
	return word + ": no rule finds that in it"
}

// closeness is 1 within the tolerance, a half within twice that, else 0.
func closeness(q exercise.Question, said, truth float64) float64 {
	allowed := q.Within()
	if q.Ask.Answer() == exercise.Thickness {
		allowed *= truth
	}
	switch off := math.Abs(said - truth); {
	case !quantity.Above(off, allowed):
		return 1
	case !quantity.Above(off, 2*allowed):
		return 0.5
	}
	return 0
}

// Shown prints an answer in the reader's units.
func Shown(q exercise.Question, t Truth, units quantity.System) string {
	switch q.Ask.Answer() {
	case exercise.Thickness:
		return units.Thickness(t.Figure)
	case exercise.Content:
		return quantity.Percent(t.Figure)
	default: // nothing of the others
	}
	return t.Word
}
