package app

import (
	"errors"
	"path/filepath"
	"strings"

	"frp/veilwright/schedules/paper"
	sheets "frp/veilwright/schedules/paper/forms"
	"frp/veilwright/schedules/paper/layout"
	"frp/veilwright/schedules/paper/press"
	"frp/veilwright/tui/internal/page"
)

// papers asks which paper of the document to write.
func (r *Root) papers() {
	l := &page.List{Head: "papers", Text: "Which paper? It is written as a PDF beside the document, in " + r.folderWord() + ".", Verb: "write"}
	for i := range sheets.Kinds {
		l.Items = append(l.Items, page.Item{Name: sheets.Kinds[i].Title, Note: sheets.Kinds[i].Says})
	}
	l.Take = func(i int) error {
		r.writePaper(&sheets.Kinds[i], false)
		return nil
	}
	r.push(l)
}

// writePaper writes a paper beside the document, over one that is there only
// when that was said.
func (r *Root) writePaper(kind *sheets.Kind, over bool) {
	d := r.desk.Doc
	name := strings.TrimSuffix(filepath.Base(r.suggestion()), filepath.Ext(r.suggestion()))
	path := filepath.Join(r.dir(), name+"-"+kind.Name+".pdf")
	f := kind.Form(sheets.OfSchedule(d.Name(), d.Bytes(), d.Library(), r.o.Shop.Stock(r.dir()), d.Report(), d.Units()))
	if d.Dirty() || d.Path() == "" {
		f.State = paper.Unsaved
	}
	lacks, err := press.Save(path, f, layout.SizeFor(d.Units()), over)
	switch {
	case errors.Is(err, press.ErrExists):
		r.ask("papers", "There is a file "+filepath.Base(path)+" already.", 1, answer{text: "write this one over it", do: func() { r.writePaper(kind, true) }},
			answer{text: "leave it as it is", do: func() { r.desk.Say("left " + filepath.Base(path) + " as it is") }})
	case err != nil:
		r.desk.Refuse(err.Error())
	case lacks != "":
		r.desk.Say("wrote " + filepath.Base(path) + "; " + lacks)
	default:
		r.desk.Say("wrote " + filepath.Base(path) + ", beside the document")
	}
}
