// Package forms is the papers of the trade: each is one function from a judged
// schedule or job to a sheet. What a document does not say is a box to write in,
// never a figure of the program's own.
package forms

import (
	"errors"
	"path/filepath"
	"slices"
	"strconv"
	"strings"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/ground"
	"frp/veilwright/laminate/overlay"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/record"
	"frp/veilwright/laminate/spec"
	"frp/veilwright/laminate/stock"
	"frp/veilwright/laminate/takeoff"
	"frp/veilwright/laminate/wall"
	"frp/veilwright/rules"
	"frp/veilwright/rules/acceptance"
	"frp/veilwright/rules/joint/proof"
	"frp/veilwright/rules/joint/workings"
	"frp/veilwright/rules/others"
	"frp/veilwright/schedules"
	"frp/veilwright/schedules/paper"
	"frp/veilwright/schedules/paper/whole"
	"frp/veilwright/schedules/recorder"
	"frp/veilwright/schedules/shop"
)

// Kind is a paper of a schedule or a job.
type Kind struct {
	Name  string // on the command line
	Title string
	Says  string // in a few words
	Make  func(*Subject) paper.Sheet
}

// Kinds are the papers, in the order in which a part meets them.
var Kinds = []Kind{
	{"laminate-schedule", "Laminate schedule", "the drawing table: section to scale, plies, zones", LaminateSchedule},
	{"lay-up-sheet", "Lay-up sheet", "ply by ply in the order of laying, with boxes", LayUpSheet},
	{"route-sheet", "Route sheet", "operations, hold and witness points, sign-offs", RouteSheet},
	{"inspection-plan", "Inspection plan", "what is inspected, how, to which limit", InspectionPlan},
	{"calculation", "Calculation", "the structure worked out step by step", Calculation},
	{"takeoff", "Takeoff", "areas, glass, resin, strips and rolls, cost", Takeoff},
}

// Named finds a paper by its name.
func Named(name string) *Kind {
	for i := range Kinds {
		if Kinds[i].Name == name {
			return &Kinds[i]
		}
	}
	return nil
}

// Form is the paper of a subject.
func (k *Kind) Form(of *Subject) *paper.Form {
	f := &paper.Form{Frame: of.Frame(k.Title), Sheet: append(warnings("", of.Whole), k.Make(of)...)}
	f.Part = of.Name()
	if f.State == paper.Released && of.Verdict() == rules.Break {
		f.State = paper.Disputed
	}
	switch {
	case of.judged != nil:
		f.NotChecked = of.judged.NotChecked()
		if k.Name == "calculation" && of.Only.Kind == laminate.RefJobPart {
			f.NotChecked = append(f.NotChecked, "joints, nozzles and pads of this part (print it of the whole job)")
		}
	case of.Parts[0].Report.Wall != nil:
		f.NotChecked = of.Parts[0].Report.Wall.NotChecked
	default:
		f.NotChecked = wall.NotChecked()
	}
	return f
}

// Subject is what a paper is of: a judged schedule, or a job with its parts.
type Subject struct {
	paper.Of
	Parts []Part
	Job   *laminate.Job // nil of a schedule
	// judged is the report of the job, nil of a schedule.
	judged *rules.JobReport
	// Whole is what the rules say of the whole job: of parts as they stand on each other,
	// joints, nozzles and the test.
	Whole []rules.Finding
	// Only is the part, joint or nozzle of the job that the paper is of, the zero Ref
	// where it is of all; see Narrow.
	Only laminate.Ref
	// Required are the lines of a specification, as far as they go without a
	// record; Specification names it, empty where there is none.
	Required      []acceptance.Line
	Specification string
	Holds         []spec.Hold          // its hold points
	Unheld        string               // why it is not known which there are, where some may be
	Levels        []spec.LevelLimit    // of acceptance, as the shop's book states them
	Stock         stock.Stock          // how the shop buys and works
	At            quantity.Temperature // of shop and resin, where it is stated
}

// Part is one part and what was judged of it. A schedule is of one, without an
// id.
type Part struct {
	ID     string
	Laid   laminate.LaidOrder
	Coat   *overlay.Coat // what of it is laid last; nil where nothing waits
	Report *rules.Report
}

// SubjectOf judges a document that can be used, a schedule or a job.
func SubjectOf(o *shop.Opened, own stock.Stock, options rules.Options) *Subject {
	if o.Job == nil {
		of := OfSchedule(o.Name, o.Library, own, o.Judge(options), options.Units)
		of.Levels = o.Levels
		return of
	}
	return OfJob(o.Name, o.Job, o.Library, own, o.JudgeJob(options), options.Units)
}

// OfJob is a job that was judged.
func OfJob(file string, j *laminate.Job, lib *laminate.Library, own stock.Stock, r *rules.JobReport, u quantity.System) *Subject {
	of := &Subject{Of: paper.Of{File: file, Fingerprint: schedules.JobFingerprint(j, lib), Head: j.Head, Library: lib, Units: u}, Job: j, judged: r, Stock: own, Whole: r.Findings}
	for i, p := range r.Parts {
		part := &j.Parts[i]
		of.Parts = append(of.Parts, Part{ID: part.ID, Laid: part.Laid, Coat: r.LastCoat(i), Report: p})
	}
	return of
}

// Structure is the structure of a part, judged, with what the job says of its test.
func (of *Subject) Structure(p *Part) *wall.Result {
	r := wall.Evaluate(p.Report.Schedule, of.Library, p.Report.Analysis, wall.Options{Units: laminate.Some(of.Units)})
	for _, f := range of.Whole {
		if f.At.Kind == laminate.RefJobPart && f.Rule == proof.TestProvesLess && of.Job.Parts[f.At.Index].ID == p.ID {
			r.Notes = append(r.Notes, f.Message)
		}
	}
	if of.Job != nil {
		r = others.Held(r, of.Job.Part(p.ID), of.Whole)
	}
	return r
}

// Require holds the subject against a specification as far as that goes without
// a record: each requirement is a line.
func (of *Subject) Require(o *shop.Opened) error {
	r := of.Parts[0].Report
	switch {
	case of.Job == nil:
	case of.Only.Kind != laminate.RefJobPart:
		return errors.New("a specification is held against one wall: say of which part of the job (--part)")
	default:
		r = of.Parts[of.Only.Index].Report
	}
	of.Hold(o.Specification, o.Name)
	prints := schedules.Fingerprint(r.Schedule, r.Analysis, of.Library)
	of.Required = recorder.Compare(acceptance.Input{Report: r, Library: of.Library, Specification: o.Specification, Levels: of.Levels, Record: &record.Record{}, Units: of.Units}, &prints).Lines
	return nil
}

// Hold has lay-up sheets of one wall stop at the hold points of a specification, which
// was read from a file.
func (of *Subject) Hold(d *spec.Specification, file string) {
	if of.Job == nil || of.Only.Kind == laminate.RefJobPart {
		of.Specification = strings.TrimSpace(d.Number + " " + d.Title + " (" + filepath.Base(file) + ")")
		of.Holds = d.Inspection.Holds
	}
}

// Verdict is the worst of all that the paper is of.
func (of *Subject) Verdict() rules.Severity {
	v := rules.Clear
	for _, p := range of.Shown() {
		v = max(v, p.Report.Verdict)
	}
	for i := range of.Whole {
		v = max(v, of.Whole[i].Severity)
	}
	return v
}

// OfSchedule is a schedule that was judged.
func OfSchedule(file string, lib *laminate.Library, own stock.Stock, r *rules.Report, u quantity.System) *Subject {
	return &Subject{Of: paper.Of{File: file, Fingerprint: schedules.Fingerprint(r.Schedule, r.Analysis, lib).Schedule, Head: r.Schedule.Head, Library: lib, Units: u}, Parts: []Part{{Report: r}}, Stock: own}
}

// each makes the blocks of every part, under its id where there are several.
func (of *Subject) each(blocks func(*Part) paper.Sheet) (sheet paper.Sheet) {
	for _, p := range of.Shown() {
		if p.ID != "" {
			sheet = append(sheet, paper.Heading{Level: 1, Text: "Part " + p.ID, Page: true})
		}
		sheet = append(sheet, blocks(p)...)
	}
	return sheet
}

// whole begins what is said of all of a job, after its parts.
func (of *Subject) whole() paper.Sheet {
	if of.Job == nil || of.Only != (laminate.Ref{}) {
		return nil
	}
	return paper.Sheet{paper.Heading{Level: 1, Text: "Whole job", Page: true}}
}

// Calculation is the structure of each part worked out step by step, and of a job
// what is laid at its joints and nozzles, for a reviewer with a pocket calculator.
func Calculation(of *Subject) paper.Sheet {
	before := paper.Worked{}
	sheet := of.each(func(p *Part) paper.Sheet {
		worked := wall.Calculate(p.Report.Schedule, of.Library, p.Report.Analysis, wall.Options{Units: laminate.Some(of.Units)})
		of.statedByPart(p, &worked)
		name := p.ID
		if name == "" {
			name = of.File
		}
		return append(paper.Calculation(name, &worked, of.Structure(p), before), serves(p, of.Units)...)
	})
	if of.judged == nil {
		return sheet
	}
	list := workings.Of(of.judged, of.Library, of.Units)
	var answers []wall.Answer
	add := func(at laminate.Ref, title string) {
		var here []workings.Check
		for i := range list {
			if list[i].At == at && of.covers(at) {
				here = append(here, list[i])
				if list[i].Answer == wall.Holds { // of one that does not a rule says so
					answers = append(answers, wall.Holds)
				}
			}
		}
		if here != nil {
			sheet = append(append(sheet, paper.Heading{Level: 1, Text: title, Page: true}), whole.Calculation(here, of.Units)...)
		}
	}
	for i := range of.Job.Joints {
		add(laminate.Ref{Kind: laminate.RefJoint, Index: i}, jointTitle(&of.Job.Joints[i]))
	}
	for i := range of.Job.Nozzles {
		add(laminate.Ref{Kind: laminate.RefNozzle, Index: i}, nozzleTitle(&of.Job.Nozzles[i]))
	}
	name := of.Name()
	if name == "" {
		name = of.File
	}
	for _, p := range of.Shown() {
		answers = append(answers, of.Structure(p).Answer())
	}
	if head := of.whole(); head != nil {
		sheet = append(append(append(sheet, head...), of.testFacts()), whole.Lifts(workings.Uplifts(of.judged, of.Library, of.Units), of.Units)...)
	}
	sheet = append(sheet, of.proofFacts()...)
	return append(sheet, whole.Stands(name, answers, of.Whole))
}

// testFacts are how a job is tested, or that nobody says so, and what lifts its shell.
func (of *Subject) testFacts() paper.Facts {
	how := of.test()
	if how == "" {
		how = "not stated"
	}
	return append(paper.Facts{{Name: "test", Value: how}}, of.liftFacts()...)
}

func jointTitle(x *laminate.Joint) string {
	return "Joint " + x.ID + ", " + x.Between[0] + " to " + x.Between[1]
}

func nozzleTitle(x *laminate.Nozzle) string { return "Nozzle " + x.ID + " on " + x.On }

// Takeoff is what it takes to build the schedule, or the pieces of the job.
func Takeoff(of *Subject) paper.Sheet {
	t := of.Count()
	sheet := paper.Takeoff(t, of.Units)
	if t.Incomplete() {
		not := paper.Note{Mark: "INCOMPLETE: ", Text: "some pieces are not in these figures, or not whole; what is missing stands beside each", Framed: true}
		sheet = append(paper.Sheet{not}, sheet...)
	}
	return sheet
}

// Count takes the pieces off.
func (of *Subject) Count() *takeoff.Takeoff {
	var pieces []takeoff.Piece
	if of.Job != nil {
		pieces = slices.DeleteFunc(takeoff.OfJob(of.Job, of.Library), func(p takeoff.Piece) bool { return !of.covers(p.At) })
	} else {
		pieces = []takeoff.Piece{takeoff.Of(of.Parts[0].Report.Schedule)}
	}
	return takeoff.Count(pieces, of.Library, of.Stock, takeoff.Options{At: of.At, Units: of.Units})
}

// warned is what speaks against building a part, for everybody who holds the
// paper.
func warned(p *Part) paper.Sheet { return warnings(p.ID, p.Report.Findings) }

// warnings are the breaks and what cannot be determined among findings, about
// the part with the id.
func warnings(id string, findings []rules.Finding) (sheet paper.Sheet) {
	for _, severity := range []rules.Severity{rules.Break, rules.Incomplete} {
		for i := range findings {
			f := &findings[i]
			if f.Severity != severity {
				continue
			}
			mark := "RULE BREAK, do not build"
			if severity == rules.Incomplete {
				mark = "INCOMPLETE"
			}
			if id != "" {
				mark += ", " + id
			}
			sheet = append(sheet, paper.Note{Mark: mark + ": ", Text: f.Message + " (" + f.Rule.ID + ")", Framed: severity == rules.Break})
		}
	}
	return sheet
}

// words are a word of documents as people say it.
func words(w string) string { return strings.ReplaceAll(w, "-", " ") }

// stated gathers what a document states, and leaves out what it does not.
type stated struct{ facts paper.Facts }

func (f *stated) add(name, value string) {
	if value != "" {
		f.facts = append(f.facts, paper.Fact{Name: name, Value: value})
	}
}

// list adds values that stand together, separated by commas.
func (f *stated) list(name string, values ...string) {
	var given []string
	for _, v := range values {
		if v != "" {
			given = append(given, v)
		}
	}
	f.add(name, strings.Join(given, ", "))
}

func size[D quantity.Dimension](before string, q quantity.Quantity[D], k quantity.Kind, u quantity.System) string {
	if !q.Given() {
		return ""
	}
	return before + u.Stated(q.SI(), k)
}

func answer(yes, no string, a laminate.Optional[bool]) string {
	switch {
	case !a.Given:
		return ""
	case a.Value:
		return yes
	}
	return no
}

// partFacts are the part, its service and its resins as they are stated.
func partFacts(s *laminate.Schedule, u quantity.System) paper.Facts {
	var f stated
	p, v := &s.Part, &s.Service
	of := []string{words(p.Form.String()), words(p.Process.String()), size("inside diameter ", p.InsideDiameter, quantity.Size, u), size("length ", p.Length, quantity.Distance, u)}
	of = append(append(of, ground.ShapeSaid(p, u)...), size("liquid height ", p.LiquidHeight, quantity.Distance, u), size("area ", p.Area, quantity.Surface, u), answer("flanged", "", p.Flanged), ends(p.Ends))
	if n := p.Count.Or(1); n > 1 {
		of = append(of, strconv.Itoa(n)+" of them")
	}
	f.list("part", of...)
	f.add("rings", ground.RingsSaid(p, u))
	if b := p.Basis(); b != laminate.NoBasis {
		f.add("design basis", words(b.String()))
	}
	concentration := ""
	if v.Concentration.Given {
		concentration = quantity.Percent(v.Concentration.Value)
	}
	f.list("service", v.Fluid, concentration, v.Contact.String())
	ph := ""
	if v.PH.Given {
		ph = "pH " + strconv.FormatFloat(v.PH.Lowest, 'g', -1, 64) + " to " + strconv.FormatFloat(v.PH.Highest, 'g', -1, 64)
	}
	gravity := ""
	if v.SpecificGravity.Given {
		gravity = "specific gravity " + strconv.FormatFloat(v.SpecificGravity.Value, 'g', -1, 64)
	}
	var traits []string
	for _, t := range v.Contains.List() {
		traits = append(traits, t.String())
	}
	f.list("", ph, gravity, strings.Join(traits, ", "))
	f.list("design", size("temperature ", v.Temperature, quantity.Point, u), size("upset ", v.Upset, quantity.Point, u), size("pressure ", v.Pressure, quantity.Stress, u),
		size("vacuum ", v.Vacuum, quantity.Stress, u), size("test pressure ", v.TestPressure, quantity.Stress, u), answer("conductive", "", v.Conductive), answer("abrasive", "", v.Abrasive))
	for i := range s.Conditions {
		c := &s.Conditions[i]
		f.list("condition "+c.Name, size("temperature ", c.Temperature, quantity.Point, u), size("pressure ", c.Pressure, quantity.Stress, u), size("vacuum ", c.Vacuum, quantity.Stress, u))
	}
	for i := range s.Resins {
		r := &s.Resins[i]
		filler := ""
		if r.Filler != laminate.NoFiller {
			filler = r.Filler.String()
			if r.FillerContent.Given {
				filler += " " + quantity.Percent(r.FillerContent.Value) + " of the mix"
			}
		}
		f.list("resin "+r.ID, r.Family.String(), r.Product, r.Cure.String(), filler, labeled("thixotrope ", r.Thixotrope), labeled("synergist ", r.Synergist))
	}
	return f.facts
}

func labeled(label, text string) string {
	if text == "" {
		return ""
	}
	return label + text
}

func ends(e laminate.Ends) string {
	if e == laminate.NoEnds {
		return ""
	}
	return e.String() + " ends"
}
