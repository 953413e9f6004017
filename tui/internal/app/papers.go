package app

import (
	"errors"
	"path/filepath"
	"strings"

	"frp/veilwright/rules"
	"frp/veilwright/schedules"
	"frp/veilwright/schedules/paper"
	sheets "frp/veilwright/schedules/paper/forms"
	"frp/veilwright/schedules/paper/layout"
	"frp/veilwright/schedules/paper/press"
	"frp/veilwright/schedules/recorder"
	"frp/veilwright/schedules/shop"
	"frp/veilwright/tui/internal/page"
)

// printed is a paper that can be written: the file is named after the document
// that it is of.
type printed struct {
	of, name string // "header", "lay-up-sheet"
	form     func() (*paper.Form, error)
}

// papers asks which paper to write: of the schedule or the whole job, and of the
// part that a record lies open of.
func (r *Root) papers() {
	l := &page.List{Head: "papers", Text: "Which paper? It is written as a PDF beside the document, in " + r.folderWord() + ".", Verb: "write"}
	var list []printed
	if built := r.records.Record(); built != nil {
		of := stem(built.Path())
		l.Items = append(l.Items, page.Item{Name: "Inspection report", Note: "of " + filepath.Base(built.Path()) + ": what was asked, what was found, by whom"})
		list = append(list, printed{of, "inspection-report", r.inspectionReport})
	}
	for i := range sheets.Kinds {
		kind := &sheets.Kinds[i]
		l.Items = append(l.Items, page.Item{Name: kind.Title, Note: kind.Says})
		list = append(list, printed{stem(r.suggestion()), kind.Name, func() (*paper.Form, error) { return r.form(kind), nil }})
	}
	l.Take = func(i int) error {
		r.writePaper(list[i], false)
		return nil
	}
	r.push(l)
}

func stem(path string) string {
	return strings.TrimSuffix(filepath.Base(path), filepath.Ext(path))
}

// form is a paper of the schedule that is open, or of the whole job.
func (r *Root) form(kind *sheets.Kind) *paper.Form {
	d := r.desk.Doc
	own := r.o.Shop.Stock(r.dir())
	of := sheets.OfSchedule(d.Name(), d.Library(), own, d.Report(), d.Units())
	if j := d.Job(); j != nil {
		of = sheets.OfJob(d.Name(), j, d.Library(), own, d.JobReport(), d.Units())
	}
	f := kind.Form(of)
	if d.Dirty() || d.Path() == "" {
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
	for _, want := range []struct {
		path string
		kind schedules.Kind
	}{{d.Path(), schedules.Schedule}, {asked, schedules.Specification}, {r.records.Record().Path(), schedules.Record}} {
		o := r.o.Shop.Read(want.path)
		if !o.Want(want.kind, "the report") {
			return nil, errors.New(filepath.Base(want.path) + ": " + o.Why())
		}
		docs = append(docs, o)
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
			answer{text: "leave it as it is", do: func() { r.desk.Say("left " + filepath.Base(path) + " as it is") }})
	case err != nil:
		r.desk.Refuse(err.Error())
	case lacks != "":
		r.desk.Say("wrote " + filepath.Base(path) + "; " + lacks)
	default:
		r.desk.Say("wrote " + filepath.Base(path) + ", beside the document")
	}
}
