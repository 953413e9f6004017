// Package equipment fills in what is missing of a job: walls of parts, each for
// its own load and all with one barrier, and what is laid over joints and round
// nozzles, figured by the rules that judge them. What stands in the job stays.
package equipment

import (
	"cmp"
	"errors"
	"slices"
	"strconv"
	"strings"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/edit"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/wall"
	"frp/veilwright/laminate/wall/form"
	"frp/veilwright/laminate/wall/service"
	"frp/veilwright/rules"
	"frp/veilwright/rules/advice"
	"frp/veilwright/rules/all"
)

// Options say how to propose.
type Options struct {
	advice.Options // of walls; Barrier and Structure come from what stands in the job
}

// Proposal is a job with what was missing filled in.
type Proposal struct {
	Job     *laminate.Job // the one that was given where nothing was filled in
	Report  *rules.JobReport
	Filled  []Line // what was filled in
	Assumed []Line // what was taken for granted for it
	Left    []Line // what could not be filled in, and why
	Broken  []Line // what stands and breaks a rule
	Asked   []Line // facts that nobody stated and that matter

	Unsuited bool // that nothing suits a part, whatever anybody stated

	laminates []string // those that were filled in
}

// Line is one thing to say of a place of the job.
type Line struct {
	At   laminate.Ref
	Text string
}

// Said is one list of lines, and the word that they go by.
type Said struct {
	Word  string
	Lines []Line
}

// Said is all that there is to say of it, in the order in which it is read.
func (p *Proposal) Said() []Said {
	return []Said{{"filled in", p.Filled}, {"assumed", p.Assumed}, {"not filled in", p.Left}, {"rule break", p.Broken}, {"asked for", p.Asked}}
}

// Noted gives the job with what has to be known of it in its notes: what was
// filled in, and what was assumed for it.
func (p *Proposal) Noted() *laminate.Job {
	if len(p.Filled) == 0 {
		return p.Job
	}
	lines := []string{"Proposed: " + strings.Join(p.laminates, ", ") + "."}
	if len(p.laminates) == 0 {
		lines[0] = "Proposed: sizes of joints, nozzles and parts."
	}
	n := *p.Job
	n.Notes = Standing(p.Job, n.Notes)
	for _, l := range p.Assumed {
		if line := assumption + l.Text + "."; !strings.Contains(n.Notes, line+"\n") {
			lines = append(lines, line)
		}
	}
	if !strings.Contains(n.Notes, wall.DesignAid) {
		lines = append(lines, wall.DesignAid)
	}
	n.Notes = advice.Note(n.Notes, lines)
	return &n
}

// Propose fills in what is missing of a job: laminates of parts that name none,
// or one without plies; joints between parts of the shell that meet; straps,
// seals, pads, necks and what is laid at them; knuckle, tapers and the widths
// that follow from the laminates. With Replace all laminates that parts, joints
// and nozzles name are proposed anew, but for one that then cannot be: that
// stays. No fact is made up: what a laminate depends on and nobody stated leaves
// it out, and is asked for. The same input gives the same proposal, and a
// proposal for what was proposed changes nothing.
//
// Errors: an option that there is none of.
func Propose(j *laminate.Job, lib *laminate.Library, o Options) (*Proposal, error) {
	if lib == nil {
		lib = &laminate.Library{}
	}
	w := &work{lib: lib, o: o, j: j.Clone(), said: map[string]int{}, made: map[string][]int{}}
	emptied := w.empty()
	if err := w.walls(); err != nil {
		return nil, err
	}
	w.overlays()
	w.tapers()
	w.coats()
	for i, plies := range emptied {
		if len(w.j.Laminates[i].Plies) == 0 && len(plies) > 0 {
			w.j.Laminates[i].Plies = plies
			w.left(laminate.Ref{Kind: laminate.RefLaminate, Index: i}, "laminate "+w.j.Laminates[i].ID+" stays as it is: nothing could be proposed in its place")
		}
	}
	if len(w.p.Filled) == 0 {
		w.j = j
	}
	w.p.Job = w.j
	w.p.Report = rules.JudgeJob(all.Rules(), w.j, lib, rules.Options{Units: o.Units})
	w.open()
	for _, list := range []([]Line){w.p.Filled, w.p.Assumed, w.p.Left, w.p.Broken, w.p.Asked} {
		slices.SortStableFunc(list, func(a, b Line) int {
			return cmp.Or(cmp.Compare(a.At.Kind, b.At.Kind), cmp.Compare(a.At.Index, b.At.Index))
		})
	}
	return &w.p, nil
}

// work is a proposal in the making.
type work struct {
	lib  *laminate.Library
	o    Options
	j    *laminate.Job
	p    Proposal
	said map[string]int // assumption by its text: where it stands in Assumed

	barrier    []laminate.Ply          // of the walls, once there is one
	structures map[bool][]laminate.Ply // structural rows by whether they are laid by hand
	mix        string                  // resin of the first structure
	made       map[string][]int        // laminates of this proposal by what they are for: those may be shared
	parts      []*rules.Report         // once the walls are there
	warm       map[int]float64         // what of them is taken to keep how much of its strength
}

func (w *work) filled(at laminate.Ref, text string) {
	w.p.Filled = append(w.p.Filled, Line{at, text})
}

func (w *work) left(at laminate.Ref, text string) {
	w.p.Left = append(w.p.Left, Line{at, text})
}

// assumed notes an assumption once, for all it is made for.
func (w *work) assumed(at laminate.Ref, whose, text string) {
	i, ok := w.said[text]
	if !ok {
		i = len(w.p.Assumed)
		w.said[text] = i
		w.p.Assumed = append(w.p.Assumed, Line{at, whose + ": " + text})
		return
	}
	before := strings.TrimSuffix(w.p.Assumed[i].Text, ": "+text)
	if slices.Contains(strings.Split(before, ", "), whose) {
		return
	}
	w.p.Assumed[i].Text = before + ", " + whose + ": " + text
}

// empty takes the plies out of the laminates that are to be proposed anew, and
// gives what they were.
func (w *work) empty() map[int][]laminate.Ply {
	was := map[int][]laminate.Ply{}
	if !w.o.Replace {
		return was
	}
	edit.LaminateNames(w.j, func(id *string, _ laminate.Ref) {
		if i := w.j.Laminate(*id); *id != "" && i >= 0 && len(w.j.Laminates[i].Plies) > 0 {
			was[i], w.j.Laminates[i].Plies = w.j.Laminates[i].Plies, nil
		}
	})
	return was
}

// bare tells whether a laminate is to be filled in: none is named, or one
// without plies.
func (w *work) bare(id string) bool {
	i := w.j.Laminate(id)
	return i < 0 || len(w.j.Laminates[i].Plies) == 0
}

// unstated names the facts that a wall's structure depends on and that nobody
// stated.
func (w *work) unstated(part int) []string {
	s := w.j.Wall(part)
	var keys []string
	need := func(given bool, key string) {
		if !given {
			keys = append(keys, key)
		}
	}
	need(s.Part.Form != laminate.NoPartForm, "form")
	need(s.Service.Pressure.Given() || len(s.Conditions) > 0, "pressure")
	need(s.Service.Vacuum.Given() || len(s.Conditions) > 0, "vacuum")
	if s.Part.LiquidHeight.Given() || form.Asks(s) {
		need(s.Part.LiquidHeight.Given(), "liquid_height")
		need(s.Service.SpecificGravity.Given || s.Part.LiquidHeight.Given() && s.Part.LiquidHeight.SI() == 0, "specific_gravity")
	}
	return keys
}

// open lists what the report of the whole still has.
func (w *work) open() {
	said := map[string]bool{}
	note := func(f *rules.Finding, at laminate.Ref, whose string) {
		text := whose + f.Message
		if said[text] || w.why(at) {
			return
		}
		said[text] = true
		switch f.Severity {
		case rules.Break:
			w.p.Broken = append(w.p.Broken, Line{at, text + " (" + f.Rule.ID + ")"})
		case rules.Incomplete:
			w.p.Asked = append(w.p.Asked, Line{at, text})
		case rules.Clear, rules.Note, rules.Warning, rules.Unusable:
		}
	}
	for i, part := range w.p.Report.Parts {
		for k := range part.Findings {
			f := &part.Findings[k]
			whose := "part " + w.j.Parts[i].ID + ": "
			if f.At.Kind == laminate.RefService || f.At.Kind == laminate.RefResin {
				whose = "" // said once of them all
			}
			if w.j.Parts[i].Schedule == "" && w.bare(w.j.Parts[i].Laminate) {
				continue // why it has no plies is said
			}
			note(f, f.At, whose)
		}
	}
	for k := range w.p.Report.Findings {
		f := &w.p.Report.Findings[k]
		note(f, f.At, "")
	}
}

// why tells whether it was said already why something is missing at a place.
func (w *work) why(at laminate.Ref) bool {
	return slices.ContainsFunc(w.p.Left, func(l Line) bool {
		return l.At.Kind == at.Kind && l.At.Index == at.Index && (at.Key == "" || at.Key == l.At.Key)
	})
}

// pass lets the rules about overlays figure with the job as it stands.
func (w *work) pass() *rules.JobPass {
	if w.parts == nil {
		w.parts = rules.JudgeJob(nil, w.j, w.lib, rules.Options{Units: w.o.Units}).Parts
		w.warm = map[int]float64{}
		for i, part := range w.parts {
			w.keeps(i, part)
		}
	}
	return &rules.JobPass{Assembly: w.j.Assemble(), Library: w.lib, Units: w.o.Units, Parts: w.parts}
}

// keeps has a warm part of which nobody says what it keeps of its strength keep what
// its wall was proposed with, so that what is laid onto it goes by the same.
func (w *work) keeps(i int, part *rules.Report) {
	if w.j.Parts[i].Schedule != "" || part.Schedule.Part.ModulusRetention.Given {
		return // a file says so itself
	}
	least := 1.0
	for k := range part.Analysis.Rows {
		if r := part.Analysis.Rows[k].Resin; r != nil && part.Analysis.Rows[k].Zone == laminate.StructuralLayer {
			if kept, warm := service.Typical(&part.Schedule.Service, r, w.lib); warm {
				least = min(least, kept)
			}
		}
	}
	if least < 1 {
		w.warm[i] = least
		part.Schedule.Part.ModulusRetention = laminate.Some(least)
	}
}

// warmed notes what was assumed of warm parts for what is laid onto them.
func (w *work) warmed(parts ...int) {
	for _, i := range parts {
		if kept, ok := w.warm[i]; ok {
			w.assumed(laminate.JobPartRef(i, "modulus_retention"), "part "+w.j.Parts[i].ID, advice.RetentionAssumed(kept))
		}
	}
}

// nothing tells whether an error says that no wall suits, and why; the proposal
// notes that.
func (w *work) nothing(err error) (why string, is bool) {
	var suits *advice.NothingSuitsError
	if errors.As(err, &suits) {
		w.p.Unsuited = true
		return suits.Why, true
	}
	return "", false
}

// up rounds a length up to what is marked out: half an inch, or 10 mm.
func (w *work) up(m float64) quantity.Length {
	if w.j.Units == quantity.Metric {
		return quantity.New(stepped(m*1000, 10), quantity.Millimetre).Spelled(quantity.Millimetre)
	}
	return quantity.New(stepped(m/0.0254, 0.5), quantity.Inch).Spelled(quantity.Inch)
}

// least is a length of the trade, in the units of the job.
func (w *work) least(l quantity.Length) quantity.Length {
	if w.j.Units == quantity.Metric {
		return w.up(l.SI())
	}
	return l.Spelled(quantity.Inch)
}

// share gives the id of a laminate of these plies: one that this proposal made
// for the like already, the one that is named and has none, or a new one.
func (w *work) share(id, use, fresh string, plies []laminate.Ply) string {
	if id == "" {
		for _, i := range w.made[use] {
			if slices.Equal(w.j.Laminates[i].Plies, plies) {
				return w.j.Laminates[i].ID
			}
		}
		id = fresh
		for n := 2; w.j.Laminate(id) >= 0; n++ {
			id = fresh + "-" + strconv.Itoa(n)
		}
		w.j.Laminates = append(w.j.Laminates, laminate.Laminate{ID: id})
	}
	i := w.j.Laminate(id)
	w.j.Laminates[i].Plies = plies
	w.made[use] = append(w.made[use], i)
	if !slices.Contains(w.p.laminates, "laminate "+id) {
		w.p.laminates = append(w.p.laminates, "laminate "+id)
	}
	return id
}
