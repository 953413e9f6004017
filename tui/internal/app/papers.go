package app

import (
	"errors"
	"path/filepath"
	"strconv"
	"strings"
	"time"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/edit"
	"frp/veilwright/rules"
	"frp/veilwright/schedules"
	"frp/veilwright/schedules/paper"
	sheets "frp/veilwright/schedules/paper/forms"
	"frp/veilwright/schedules/paper/layout"
	"frp/veilwright/schedules/paper/press"
	"frp/veilwright/schedules/recorder"
	"frp/veilwright/schedules/shop"
	"frp/veilwright/schedules/store"
	"frp/veilwright/tui/internal/page"
)

// printed is a paper that can be written: the file is named after the document
// that it is of.
type printed struct {
	of, name string // "header", "lay-up-sheet"
	form     func() (*paper.Form, error)
}

// belongs is the paper that belongs to a page, by the page's name.
var belongs = map[string]string{"bench": "laminate-schedule", "structure": "calculation", "lay-up": "lay-up-sheet", "inspect": "inspection-plan", "job": "route-sheet"}

// otherPapers is said once a paper is written.
const otherPapers = "k lists the other papers"

// paper writes the paper that belongs to the page that is open, and at once
// again, or where there is none, asks which.
func (r *Root) paper() {
	name := belongs[r.pages[r.at].Name()]
	switch demands, _ := r.records.Specification(); {
	case name == "" || r.desk.Notice.Tail == otherPapers:
		r.papers()
	case name == "inspection-plan" && demands != nil && r.records.Record() != nil:
		r.writePaper(printed{stem(r.records.Record().Path()), "inspection-report", r.inspectionReport}, false)
	default:
		at := r.about()
		if name == "route-sheet" { // it goes with the whole equipment
			at = laminate.Ref{}
		}
		r.writePaper(r.printed(sheets.Named(name), at), false)
	}
}

// about is the part, joint or nozzle of the job that the open page is about; the
// zero Ref stands for the whole document.
func (r *Root) about() (at laminate.Ref) {
	j := r.desk.Doc.Job()
	if j == nil || len(j.Parts) == 0 {
		return at
	}
	at = laminate.Ref{Kind: laminate.RefJobPart, Index: r.desk.Doc.Part()}
	open := r.pages[r.at]
	if p, ok := open.(page.Selector); ok {
		at = p.Selects()
	} else if open.Name() == "lay-up" || open.Name() == "inspect" {
		if o := r.records.Overlay(); o != nil {
			at = o.At
		}
	} else if o := r.desk.Doc.Lent(); o != nil {
		at = o.At
	}
	switch at.Kind {
	case laminate.RefJobPart, laminate.RefJoint, laminate.RefNozzle:
		return laminate.Ref{Kind: at.Kind, Index: at.Index}
	default:
	}
	return laminate.Ref{}
}

// printed is a paper of the schedule or the whole job, or of one part, joint or
// nozzle of it.
func (r *Root) printed(kind *sheets.Kind, at laminate.Ref) printed {
	name := stem(r.suggestion())
	if at != (laminate.Ref{}) {
		name += "-" + page.FileWord(r.narrowed(at).ID())
	}
	return printed{name, kind.Name, func() (*paper.Form, error) { return r.form(kind, at), nil }}
}

// papers asks which paper to write: of what the page is about, of the schedule or
// the whole job, and of the part that a record lies open of.
func (r *Root) papers() {
	l := &page.List{Head: "papers", Text: "Which paper? It is written as a PDF beside the document, in " + r.folderWord() + ".", Verb: "write"}
	var list []printed
	if built := r.records.Record(); built != nil {
		of := stem(built.Path())
		l.Items = append(l.Items, page.Item{Name: "Inspection report", Note: "of " + filepath.Base(built.Path()) + ": what was asked, what was found, by whom"})
		list = append(list, printed{of, "inspection-report", r.inspectionReport})
	}
	if at := r.about(); at != (laminate.Ref{}) {
		of := r.narrowed(at)
		for i := range sheets.Kinds {
			kind := &sheets.Kinds[i]
			l.Items = append(l.Items, page.Item{Name: kind.Title + ", " + of.Name(), Note: kind.Says})
			list = append(list, r.printed(kind, at))
		}
	}
	for i := range sheets.Kinds {
		kind := &sheets.Kinds[i]
		title := kind.Title
		if r.desk.Doc.Job() != nil {
			title += ", whole job"
		}
		l.Items = append(l.Items, page.Item{Name: title, Note: kind.Says})
		list = append(list, r.printed(kind, laminate.Ref{}))
	}
	l.Items = append(l.Items, page.Item{Name: "Release", Note: "as it stands now: papers say RELEASED until something is changed"})
	l.Take = func(i int) error {
		if i == len(list) {
			r.release()
			return nil
		}
		r.writePaper(list[i], false)
		return nil
	}
	r.push(l)
}

// release asks for revision and day, and says in the document that its content
// is released.
func (r *Root) release() {
	if _, err := r.reread(); err != nil {
		r.desk.Refuse(err.Error() + "; nothing is released that is not on disk")
		return
	}
	now := r.subject().Head
	revision := &page.Field{Label: "revision", Hint: "a whole number"}
	if now.Revision.Given {
		revision.Text = strconv.Itoa(now.Revision.Value)
	}
	day := &page.Field{Label: "date", Text: r.now().Format(time.DateOnly), Hint: "of this revision"}
	text := "The content as it stands now is released; a change of anything but title and notes makes it a draft again."
	if worst := r.verdict(); worst > rules.Warning {
		text += " check says: " + worst.String() + "."
	}
	r.push(&page.Form{Head: "release", Text: text, Fields: []*page.Field{revision, day}, Check: func(i int) error {
		if n, err := strconv.Atoi(strings.TrimSpace(revision.Text)); i == 0 && (err != nil || n < 0) {
			return errors.New("which revision is released? Write a whole number, such as 3")
		}
		if _, err := time.Parse(time.DateOnly, strings.TrimSpace(day.Text)); i == 1 && err != nil {
			return errors.New("this is no day; write 2026-03-01")
		}
		return nil
	}, Take: func() error {
		n, _ := strconv.Atoi(strings.TrimSpace(revision.Text))
		what := "revision " + strconv.Itoa(n) + " released"
		say := func(h *laminate.Head) {
			h.Revision, h.Date, h.Released, h.Superseded = laminate.Some(n), strings.TrimSpace(day.Text), paper.Printed(r.subject().Fingerprint), false
		}
		if r.desk.Doc.Job() == nil {
			r.desk.Apply(edit.SetHeader("released", what, func(s *laminate.Schedule) { say(&s.Head) }))
			return nil
		}
		return r.desk.ApplyJob(edit.JobEdit{Label: what, Do: func(j *laminate.Job) (*laminate.Job, error) {
			next := *j
			say(&next.Head)
			return &next, nil
		}})
	}})
}

// verdict is that of the schedule or the whole job.
func (r *Root) verdict() rules.Severity {
	if j := r.desk.Doc.JobReport(); j != nil {
		return j.Verdict
	}
	return r.desk.Report().Verdict
}

func stem(path string) string {
	return strings.TrimSuffix(filepath.Base(path), filepath.Ext(path))
}

// subject is the schedule that is open, or the whole job.
func (r *Root) subject() *sheets.Subject {
	d := r.desk.Doc
	own := r.o.Shop.Stock(r.dir())
	if j := d.Job(); j != nil {
		return sheets.OfJob(d.Name(), j, d.Library(), own, d.JobReport(), d.Units())
	}
	return sheets.OfSchedule(d.Name(), d.Library(), own, d.Report(), d.Units())
}

// narrowed is one part, joint or nozzle of the job; of the zero Ref all of it.
func (r *Root) narrowed(at laminate.Ref) *sheets.Subject {
	of := r.subject()
	of.Narrowed(at)
	return of
}

// form is a paper of it.
func (r *Root) form(kind *sheets.Kind, at laminate.Ref) *paper.Form {
	d := r.desk.Doc
	of := r.narrowed(at)
	r.records.Hold(of) // a sheet stops where the page does
	f := kind.Form(of)
	// What somebody else changed in the file is not what the paper says.
	if how, err := d.Since(); d.Dirty() || d.Path() == "" || err != nil || how != store.Unchanged {
		f.State = paper.Unsaved
	}
	return f
}

// inspectionReport is the paper of the part that the record is of, from the
// files as they lie there.
func (r *Root) inspectionReport() (*paper.Form, error) {
	d := r.desk.Doc
	demands, asked := r.records.Specification()
	switch {
	case d.Dirty() || d.Path() == "":
		return nil, errors.New("the report is of what is saved: save the schedule first, with s")
	case demands == nil:
		return nil, errors.New("the report says what was asked: choose the specification on the inspect page, with 5")
	}
	var docs []*shop.Opened
	scheduled := schedules.Schedule
	if d.Job() != nil {
		scheduled = schedules.Job
	}
	for _, want := range []struct {
		path string
		kind schedules.Kind
	}{{d.Path(), scheduled}, {asked, schedules.Specification}, {r.records.Record().Path(), schedules.Record}} {
		o := r.o.Shop.Read(want.path)
		if !o.Want(want.kind, "the report") {
			return nil, errors.New(filepath.Base(want.path) + ": " + o.Why())
		}
		docs = append(docs, o)
	}
	if docs[0] = docs[0].Of(docs[2].Record); !docs[0].Usable() {
		return nil, errors.New(filepath.Base(d.Path()) + ": " + docs[0].Why())
	}
	h := recorder.Hold(docs[0], docs[1], docs[2], rules.Options{Units: d.Units()})
	for _, o := range docs {
		o.Name = filepath.Base(o.Name) // folders are this machine's own
	}
	return sheets.InspectionReport(h), nil
}

// writePaper writes a paper beside the document, over one that is there only
// when that was said.
func (r *Root) writePaper(p printed, over bool) {
	said, err := r.reread()
	if err != nil {
		r.desk.Refuse(err.Error() + "; no paper is written of what is not on disk")
		return
	}
	f, err := p.form()
	if err != nil {
		r.desk.Refuse(err.Error())
		return
	}
	path := filepath.Join(r.dir(), p.of+"-"+p.name+".pdf")
	lacks, err := press.Save(path, f, layout.SizeFor(r.desk.Units()), over)
	switch {
	case errors.Is(err, press.ErrExists):
		r.ask("papers", "There is a file "+filepath.Base(path)+" already.", 1, answer{text: "write this one over it", do: func() { r.writePaper(p, true) }},
			answer{text: "leave it as it is", do: func() { r.desk.Note("left "+filepath.Base(path)+" as it is", otherPapers) }},
			answer{text: "another paper", do: r.papers})
	case err != nil:
		r.desk.Refuse(err.Error())
	default:
		wrote := "wrote " + filepath.Base(path)
		if lacks != "" {
			wrote += "; " + lacks
		}
		if how, _ := r.desk.Doc.Since(); how != store.Unchanged {
			said = strings.TrimPrefix(said+"; it is of what you see: "+r.desk.Doc.Name()+" "+how.String(), "; ")
		}
		if said != "" {
			r.desk.Refuse(wrote + "; " + said) // whole, in as many rows as it takes
			return
		}
		r.desk.Note(wrote, otherPapers)
	}
}
