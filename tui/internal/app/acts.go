package app

import (
	"path/filepath"

	"frp/veilwright/laminate/quantity"
	"frp/veilwright/tui/internal/keys"
	"frp/veilwright/tui/internal/page"
)

// acts are the keys of everywhere.
func acts() page.Acts[*Root] {
	row := func(id keys.ID, k []string, show, short, long string, rank int, can func(*Root) string, do func(*Root)) page.Act[*Root] {
		return page.Act[*Root]{
			Binding: keys.Binding{ID: id, Scope: keys.Global, Keys: k, Show: show, Short: short, Long: long, Group: "Everywhere", Rank: rank, Rare: id == "suspend"},
			Can:     can, Do: func(r *Root, _ keys.Event) { do(r) },
		}
	}
	return page.Acts[*Root]{
		row("help", []string{"?"}, "", "all", "all keys of this page", 0, nil, (*Root).showKeys),
		row("undo", []string{"u"}, "", "undo", "take the last change back", 11, canUndo, func(r *Root) { r.here().Undo() }),
		row("redo", []string{"y"}, "", "", "do it again", 40, canRedo, func(r *Root) { r.here().Redo() }),
		row("facts", []string{"f"}, "", "facts", "the part and its service: a form", 12, nil, (*Root).facts),
		row("units", []string{"i"}, "", "", "inch or mm", 41, nil, (*Root).units),
		row("save", []string{"s"}, "", "save", "save; asks for a name once", 13, elsewhere, (*Root).save),
		row("save as", []string{"a"}, "", "", "save under another name", 42, elsewhere, (*Root).saveAs),
		row("open", []string{"o"}, "", "open file", "open another schedule, from a list with verdicts", 43, elsewhere, (*Root).open),
		row("pages", []string{keys.Tab}, "", "", "the pages, numbered", 44, elsewhere, (*Root).menu),
		row("quit", []string{"q", "ctrl+c"}, "q", "quit", "quit; asks where something is not saved", 45, nil, (*Root).quit),
		row("suspend", []string{"ctrl+z"}, "", "", "back to the shell; fg comes back here", 46, func(r *Root) string {
			if r.o.CanStop == nil {
				return "this terminal has no shell to come back from: q quits"
			}
			return r.o.CanStop()
		}, (*Root).stop),
	}
}

// elsewhere says why what is about the document that is open does not act
// while the page has one of its own.
func elsewhere(r *Root) string {
	if r.here() != r.desk {
		return "an exercise is open: c hands it in, Esc leaves it and keeps the answer"
	}
	return ""
}

func canUndo(r *Root) string {
	if !r.here().Doc.CanUndo() {
		return "nothing to take back: this is the document as it was opened"
	}
	return ""
}

func canRedo(r *Root) string {
	if !r.here().Doc.CanRedo() {
		return "nothing to do again: nothing was taken back since the last change"
	}
	return ""
}

func (r *Root) showKeys() {
	top := r.top()
	can := func(id keys.ID) string {
		if why := r.acts.Why(r, keys.Global, id); why != "" {
			return why
		}
		return top.Can(id)
	}
	scopes := []keys.Scope{top.Scope()}
	if !top.Busy() {
		scopes = append(scopes, keys.Global)
	}
	r.push(newManual(r.here(), r.table.Sections(can, scopes...)))
}

func (r *Root) units() {
	d := r.here().Doc
	if d.Units() == quantity.US {
		d.SetUnits(quantity.Metric)
		r.here().Say("figures in mm, °C, kPa; what is stated in the document keeps its spelling")
	} else {
		d.SetUnits(quantity.US)
		r.here().Say("figures in mil, inch, °F, psi; what is stated in the document keeps its spelling")
	}
	r.here().Notice.Tail = "i changes it back"
}

func (r *Root) menu() {
	q := &question{Title: "pages", Text: "Which page?", Desk: r.desk, At: (r.at + 1) % len(r.pages), Tabs: true}
	for i, p := range r.pages {
		q.Answers = append(q.Answers, answer{Text: p.Name(), Do: func() { r.at = i }})
	}
	r.push(q)
}

// offer asks what to do with unsaved work that was found, if some was.
func (r *Root) offer() {
	d := r.desk.Doc
	left := d.Pending()
	if left == nil {
		return
	}
	of, take := d.Name(), "take it up: it is the document then, not saved yet"
	switch {
	case d.Path() != "":
		of, take = "changes to "+of, "take them up: they are the document then, not saved yet"
	case left.Path == "":
		of, take = "“"+left.Title+"”, which has no file yet", "open it: it is not saved yet"
	case filepath.Base(left.Path) != filepath.Base(of):
		of, take = left.Path+" (“"+left.Title+"”), which was never saved", "open it: it is not saved yet"
	default:
		of += ", which was never saved"
	}
	q := &question{
		Title: "unsaved work", Desk: r.desk,
		Text: "A program that ended without saving left " + of + ", made " + r.ago(left.When) + ".",
		Answers: []answer{
			{Text: take, Do: r.takeUp},
			{Text: "drop it for good", Do: func() {
				if err := d.DropRecovered(); err != nil {
					r.desk.Refuse(err.Error())
					return
				}
				r.desk.Say("dropped the unsaved work")
				r.offer()
			}},
		},
	}
	if left.Overtaken {
		q.Text += " The file was saved since: what was saved then is not in it."
		q.At = 1
	}
	r.push(q)
}

func (r *Root) takeUp() {
	d, err := r.desk.Doc.TakeRecovered()
	if err != nil {
		r.desk.Refuse(err.Error())
		return
	}
	r.become(d)
	r.desk.Say("took up the unsaved work: s saves it")
	if lost := d.Unread(); len(lost) > 0 {
		r.desk.Refuse("took up what could be read of the unsaved work, which stays where it is; not read: " + lost[0].String())
	}
}

// replaced tells every page that the document is another one.
func (r *Root) replaced() {
	r.desk.Replaced()
	for _, p := range r.pages {
		p.Reset()
	}
	r.told, r.stale = false, true
	r.handed = r.desk.Doc.Revision()
	r.lookKept()
}
