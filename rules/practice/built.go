package practice

import (
	"slices"
	"strings"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/exercise"
	"frp/veilwright/laminate/overlay"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/rules"
	"frp/veilwright/rules/acceptance"
)

// own is the practice's word for what nobody but the exercise asks.
const own = "what the exercise requires"

// taken gives the trainee's schedule with what is not the trainee's to change
// as the exercise has it: part, service and materials. Where the exercise does
// not say how a wall is grounded the trainee may. Nil where there is no schedule
// or it cannot be one; then the reason is noted.
func (g *grader) taken(s *laminate.Schedule) *laminate.Schedule {
	if s == nil || len(s.Plies) == 0 {
		g.mark.Notes = append(g.mark.Notes, "the schedule has no plies")
		return nil
	}
	given := &g.exercise.Given
	earth := s.Part.Grounding
	s = s.Clone()
	if s.Service != given.Service {
		g.mark.Notes = append(g.mark.Notes, "the service was changed; it is marked as the exercise has it")
	}
	s.Part, s.Service, s.Materials = given.Part, given.Service, slices.Clone(given.Materials)
	if s.Part.Grounding == "" {
		s.Part.Grounding = earth
	}
	if faults := laminate.Validate(s, g.library); len(faults) > 0 {
		g.mark.Notes = append(g.mark.Notes, "the schedule cannot be checked: "+faults[0].Ref.Key+": "+faults[0].Message)
		return nil
	}
	return s
}

// misses are the findings of a report, from the severity on, that are worse
// than what the other report has of the same rule, worst first.
func misses(r, other *rules.Report, from rules.Severity) []rules.Finding {
	var list []rules.Finding
	for i := range r.Findings {
		f := &r.Findings[i]
		if f.Severity >= from && f.Severity > worstOf(other, f.Rule) {
			list = append(list, *f)
		}
	}
	return list
}

func worstOf(r *rules.Report, rule *rules.Rule) rules.Severity {
	worst := rules.Clear
	if r != nil {
		for i := range r.Findings {
			if r.Findings[i].Rule == rule {
				worst = max(worst, r.Findings[i].Severity)
			}
		}
	}
	return worst
}

// kept is the share of a line's points that a finding leaves.
func kept(s rules.Severity) float64 {
	switch s {
	case rules.Note:
		return 0.75
	case rules.Warning:
		return 0.5
	case rules.Incomplete:
		return 0.25
	case rules.Break, rules.Unusable:
		return 0
	case rules.Clear:
	}
	return 1
}

// groups of rules by what they teach, the demand each makes, and why an answer
// that meets it does.
var groups = []struct {
	family, demand string
	least          rules.Severity
	why            string
}{
	{
		"veil", "the veil resists the fluid", rules.Note,
		"The veil is the one fiber that the fluid is sure to reach, so it is chosen for the fluid. No other veil has fewer objections here.",
	},
	{
		"resin", "the resin resists the fluid", rules.Note,
		"The fluid meets the resin nearly everywhere. What the fluid contains, its temperature and its pH decide. No other family has fewer objections here; the resin manufacturer's data govern.",
	},
	{
		"barrier", "the barrier has enough thickness, resin and chopped glass", rules.Warning,
		"A barrier needs depth against diffusion, enough resin between the strands, and no long fiber for the fluid to wick along. All three are as good as in the best answer.",
	},
	{
		"sequence", "the plies are in order", rules.Warning,
		"Each ply protects or bonds the next: the veil to the fluid, chopped glass behind it, a gel stop where the barrier has to gel first, mat between plies of woven roving, the topcoat last.",
	},
	{
		"special", "the barrier conducts or resists wear where required", rules.Warning,
		"Conducting charge and resisting wear are tasks of the surface that the fluid meets: of its veil and of the filler in its resin.",
	},
	{
		"joints", "it is laid so that it bonds, and continues what it joins", rules.Warning,
		"What is laid onto a cured face holds by its first ply, a mat. A strap carries what the walls carry; what is laid inside continues their barrier, and its last ply, the veil, meets the fluid; nothing is laid on wax. It is as good as the best answer.",
	},
	{
		"structure", "the structure carries load", rules.Warning,
		"The plies outside the barrier carry the load, as far as they are structural glass. They are as good as in the best answer.",
	},
}

// basisOfGroups is where the answer to a whole family of rules comes from.
const basisOfGroups = "the rules that check runs"

// nothingToJudge is why demands on a barrier cannot be met where none is.
const nothingToJudge = "No ply counts as barrier. A barrier begins at the process side, with a veil or chopped glass; see the findings on the plies that are there."

const pointsOfGroup = 2

// judged marks families of rules: a schedule is as good as its worst finding
// that the best answer does not have.
func (g *grader) judged(s *laminate.Schedule, families ...string) {
	var report, best *rules.Report
	if s != nil {
		report = g.judge(s)
		g.mark.Report = report
	}
	if sol := g.solution(); sol != nil {
		best = g.judge(sol)
	}
	for _, group := range groups {
		if !slices.Contains(families, group.family) {
			continue
		}
		l := Line{Demand: group.demand, Of: pointsOfGroup, Points: pointsOfGroup, Found: "yes", Why: group.why, Basis: basisOfGroups}
		laid := g.exercise.Overlay != overlay.None
		if report == nil || report.Analysis.Barrier.Plies == 0 && group.family != "structure" && !laid {
			l.Points, l.Found, l.Basis = 0, "no barrier", own
			l.Why = nothingToJudge
			if laid {
				l.Found, l.Why = "no plies", "Nothing is laid: nothing bonds, and nothing keeps the fluid from the joint."
			}
			g.mark.add(l)
			continue
		}
		var found []rules.Finding
		for _, f := range misses(report, best, group.least) {
			if f.Rule.Family == group.family || laid && f.Rule.Family == "sequence" {
				found = append(found, f)
			}
		}
		if len(found) == 0 {
			g.mark.add(l)
			continue
		}
		l.Points = pointsOfGroup * kept(found[0].Severity)
		for i := range found {
			f := &found[i]
			l.Found, l.Why, l.Basis, l.Plies = f.Severity.String()+": "+f.Message, f.Rule.Why, f.Basis, singles(report.Analysis, f.Rows)
			l.Missed = true
			g.mark.add(l)
			l.Demand, l.Points, l.Of = "also: "+strings.ToLower(f.Rule.Family)+" rules", 0, 0
		}
	}
}

// singles numbers the plies of rows.
func singles(a *laminate.Analysis, rows []int) []int {
	var list []int
	for _, row := range rows {
		for n := a.Rows[row].First; n <= a.Rows[row].Last; n++ {
			list = append(list, n)
		}
	}
	return list
}

func (g *grader) solution() *laminate.Schedule {
	sol := g.mark.Solution
	if g.exercise.Kind == exercise.Choose {
		return Chosen(g.exercise, g.library, sol.Veil, sol.Family)
	}
	return sol.Schedule
}

// demanded marks what the exercise's own demands ask, as an inspection would.
func (g *grader) demanded(s *laminate.Schedule) {
	if s == nil {
		empty := g.exercise.Given.Clone()
		empty.Plies = nil
		s = empty
	}
	for _, l := range demands(g.exercise, s, g.library, g.units) {
		line := Line{Demand: l.Demand, Found: l.Found, Of: pointsOfGroup, Plies: l.Plies, Basis: l.Basis, Why: whyOf(l.Key)}
		if l.Basis == "the specification" {
			line.Basis = own
		}
		if l.Verdict == acceptance.Meets {
			line.Points = pointsOfGroup
		}
		if len(s.Plies) == 0 {
			line.Points, line.Found = 0, "the schedule has no plies"
		}
		g.mark.add(line)
	}
}

// demands compares a schedule with what an exercise demands; readings, which a
// wall on paper has none of, are left out.
func demands(e *exercise.Exercise, s *laminate.Schedule, lib *laminate.Library, units quantity.System) []acceptance.Line {
	result := acceptance.Compare(acceptance.Input{
		Report: &rules.Report{Schedule: s, Analysis: laminate.Analyze(s, lib)}, Library: lib, Specification: &e.Demands, Units: units,
	})
	return slices.DeleteFunc(result.Lines, func(l acceptance.Line) bool { return strings.HasPrefix(l.Key, "inspection.") })
}

func (g *grader) build(a Answer) {
	s := g.taken(a.Schedule)
	g.demanded(s)
	families := []string{"veil", "resin", "barrier", "sequence"}
	service := &g.exercise.Given.Service
	if service.Conductive.Value || service.Abrasive.Value {
		families = append(families, "special")
	}
	if !g.exercise.KeepStructure {
		families = append(families, "structure")
	}
	g.judged(s, families...)
	g.spares(s)
	g.keeps(s)
}

// spares marks that nothing dear was taken which neither the service asks for
// nor the answer takes: carbon veil and bromine cost a multiple of what does
// the same without.
func (g *grader) spares(s *laminate.Schedule) {
	l := Line{
		Demand: "no material that the service does not require", Of: 1, Points: 1, Found: "none", Basis: rules.CommonPractice,
		Why: "Carbon veil is for walls that must conduct, and for some alkalis; brominated resin is for walls that must resist fire. " +
			"Elsewhere they resist no better than cheaper materials, and a carbon veil makes an ungrounded wall conduct.",
	}
	service, best := &g.exercise.Given.Service, g.solution()
	var taken []string
	switch {
	case s == nil || laminate.Analyze(s, g.library).Barrier.Plies == 0:
		l.Points, l.Found, l.Basis, l.Why = 0, "no barrier", own, nothingToJudge
		g.mark.add(l)
		return
	case !service.Conductive.Value && carbonIn(s, g.library) && !carbonIn(best, g.library):
		taken = append(taken, "carbon veil")
	}
	if !service.FlameSpread.Given && bromineIn(s, g.library) && !bromineIn(best, g.library) {
		taken = append(taken, "brominated resin")
	}
	if len(taken) > 0 {
		l.Points, l.Found = 1-0.5*float64(len(taken)), strings.Join(taken, " and ")
	}
	g.mark.add(l)
}

func carbonIn(s *laminate.Schedule, lib *laminate.Library) bool {
	return inBarrier(s, lib, func(r *laminate.RowFigures) bool { return rules.FiberOf(r) == laminate.Carbon })
}

func bromineIn(s *laminate.Schedule, lib *laminate.Library) bool {
	return inBarrier(s, lib, func(r *laminate.RowFigures) bool { return r.Resin != nil && r.Resin.Family.Brominated() })
}

func inBarrier(s *laminate.Schedule, lib *laminate.Library, has func(*laminate.RowFigures) bool) bool {
	if s == nil {
		return false
	}
	a := laminate.Analyze(s, lib)
	for i := range a.Rows {
		if a.Rows[i].Zone.InBarrier() && has(&a.Rows[i]) {
			return true
		}
	}
	return false
}

// keeps marks that what stands outside the barrier was left alone.
func (g *grader) keeps(s *laminate.Schedule) {
	if !g.exercise.KeepStructure {
		return
	}
	l := Line{
		Demand: "the plies outside the barrier are as given", Of: 1, Points: 1, Found: "unchanged", Basis: own,
		Why: "The structure was designed for the loads before the barrier was chosen. Choosing the barrier does not allow changing it, " +
			"and a barrier that only works with another structure does not answer the question.",
	}
	if s == nil {
		l.Points, l.Found = 0, "the schedule has no plies"
	} else if was, is := outside(&g.exercise.Given, g.library), outside(s, g.library); !slices.Equal(was, is) {
		l.Points, l.Found = 0, "changed"
		// Plies laid as barrier beyond what one takes count as structure.
		if more := len(is) - len(was); more > 0 && slices.Equal(was, is[more:]) {
			first := laminate.Analyze(s, g.library).Barrier.Plies + 1
			for n := first; n < first+more; n++ {
				l.Plies = append(l.Plies, n)
			}
			l.Found = "more of it than was given, with " + list(l.Plies)
			l.Why = "Two mats behind one veil, four behind two: what is chopped beyond that counts as structure, unless its zone is stated. " + l.Why
		}
	}
	g.mark.add(l)
}

// outside lists the single plies outside the barrier, with the resin each is
// laid in.
func outside(s *laminate.Schedule, lib *laminate.Library) []string {
	zones := laminate.InferZones(s, lib)
	var list []string
	for i := range s.Plies {
		if zones[i].InBarrier() {
			continue
		}
		p := s.Plies[i]
		p.Zone = zones[i]
		list = append(list, onePlyEach(s, p)...)
	}
	return list
}

func (g *grader) choose(a Answer) {
	_, veil := g.library.Material(&g.exercise.Given, a.Veil)
	families := []string{"veil", "resin"}
	if s := &g.exercise.Given.Service; s.Conductive.Value || s.Abrasive.Value {
		families = append(families, "special")
	}
	switch {
	case a.Veil == "" || a.Family == laminate.NoFamily:
		g.mark.Notes = append(g.mark.Notes, "name both a veil and a resin family")
	case !veil:
		g.mark.Notes = append(g.mark.Notes, "no material has the id named as veil")
	default:
		s := Chosen(g.exercise, g.library, a.Veil, a.Family)
		g.judged(s, families...)
		g.spares(s)
		return
	}
	g.judged(nil, families...)
	g.spares(nil)
}

// order marks a sequence: the same plies, each once, in an order that works.
func (g *grader) order(a Answer) {
	s := g.taken(a.Schedule)
	l := Line{
		Demand: "all the given plies are used, and no others", Of: pointsOfGroup, Points: pointsOfGroup, Found: "yes", Basis: own,
		Why: "The plies are cut and counted before work begins. One left over on the table is missing in the laminate.",
	}
	if s == nil || !slices.Equal(bag(&g.exercise.Given), bag(s)) {
		l.Points, l.Found = 0, "no"
	}
	g.mark.add(l)
	g.demanded(s)
	if g.exercise.Overlay != overlay.None {
		g.judged(s, "joints") // and sequence: in what order such plies are laid is told by both
		return
	}
	g.judged(s, "veil", "resin", "barrier", "sequence", "structure")
}

// bag lists the single plies of a schedule, whatever their order.
func bag(s *laminate.Schedule) []string {
	var list []string
	for i := range s.Plies {
		p := &s.Plies[i]
		for range p.Count {
			family := ""
			if r, ok := s.Resin(p.Resin); ok {
				family = r.Family.String() + r.Filler.String()
			}
			list = append(list, p.Material+"|"+p.Resin+"|"+family)
		}
	}
	slices.Sort(list)
	return list
}
