package app

import (
	"path/filepath"
	"slices"

	"frp/veilwright/laminate/overlay"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/schedules/settings"
	"frp/veilwright/tui/internal/keys"
)

// everywhere are the keys of everywhere, where nothing is open.
func (r *Root) everywhere() keys.Table {
	const g = "Everywhere"
	return keys.Table{
		{Keys: []string{"u"}, Short: "undo", Long: "undo the last change", Group: g, Rank: 11, Can: func() string {
			if !r.here().Doc.CanUndo() {
				return "nothing to undo: this is the document as it was opened"
			}
			return ""
		}, Do: keys.Do(func() { r.here().Undo() }), Edits: true},
		{Keys: []string{"y"}, Long: "do it again", Group: g, Rank: 40, Can: func() string {
			if !r.here().Doc.CanRedo() {
				return "nothing to do again: nothing was undone since the last change"
			}
			return ""
		}, Do: keys.Do(func() { r.here().Redo() }), Edits: true},
		{Keys: []string{"j"}, Short: "job data", Long: "job data: the part, its service, its resins, in a form", Group: g, Rank: 12, Do: keys.Do(r.jobData)},
		{Keys: []string{"h"}, Long: "the start page: new, recent, not saved, templates", Group: g, Rank: 46, Can: r.elsewhere, Do: keys.Do(r.begin)},
		{Keys: []string{"e"}, Long: "what differs from the file, from how it was opened", Group: g, Rank: 47, Can: r.elsewhere, Do: keys.Do(r.differs)},
		{Keys: []string{"l"}, Long: "the next set of colors; it is kept", Group: g, Rank: 48, Do: keys.Do(r.nextTheme)},
		{Keys: []string{"i"}, Long: "inch or mm; it is kept", Group: g, Rank: 41, Do: keys.Do(r.units)},
		{Keys: []string{"s"}, Short: "save", Long: "save; asks for a name once", Group: g, Rank: 13, Can: r.elsewhere, Do: keys.Do(r.save)},
		{Keys: []string{"a"}, Long: "save under another name", Group: g, Rank: 42, Can: r.elsewhere, Do: keys.Do(r.saveAs)},
		{Keys: []string{"k"}, Long: "write the paper of the page as a PDF beside the document; again: lay-up sheet, calculation and the others", Group: g, Rank: 46, Can: r.elsewhere, Do: keys.Do(r.paper)},
		{Keys: []string{"o"}, Short: "open file", Long: "open another schedule, from a list with verdicts", Group: g, Rank: 43, Can: r.elsewhere, Do: keys.Do(r.open)},
		{Keys: []string{keys.Tab}, Long: "the pages, numbered", Group: g, Rank: 44, Can: r.elsewhere, Do: keys.Do(r.menu)},
		{Keys: []string{"/"}, Long: "what has a letter for its key, by digit: undo, fix, save and so on from the number pad", Group: g, Rank: 49, Do: keys.Do(r.pad)},
		{Keys: []string{"q"}, Short: "quit", Long: "quit; asks where something is not saved", Group: g, Rank: 45, Do: keys.Do(r.quit)},
	}
}

// elsewhere says why what is about the document that is open does not act while
// the page has one of its own.
func (r *Root) elsewhere() string {
	if r.here() != r.desk {
		return "an exercise is open: c hands it in, Esc leaves it and keeps the answer"
	}
	return ""
}

// anywhere are the keys that act whatever is open.
func (r *Root) anywhere() keys.Table {
	const g = "Everywhere"
	return keys.Table{
		{Keys: []string{"?", "f1"}, Show: "?", Short: "all", Long: "all keys that act here; once something is typed in a line, F1", Group: g, Do: func(keys.Event) { r.showKeys() }},
		{Keys: []string{"ctrl+c"}, Long: "quit; asks where something is not saved", Group: g, Rank: 90, Rare: true, Do: func(keys.Event) { r.quit() }},
		{Keys: []string{"ctrl+z"}, Long: "back to the shell; fg comes back here", Group: g, Rank: 91, Rare: true, Can: func() string {
			if r.o.CanStop == nil {
				return "this terminal has no shell to come back from: q quits"
			}
			return r.o.CanStop()
		}, Do: func(keys.Event) { r.stop() }},
	}
}

// helpKey is the key that shows the keys where one is.
func (r *Root) helpKey() string {
	if row := keys.Find(keys.Key("?"), r.tables()...); row != nil && row.Text {
		return "f1"
	}
	return "?"
}

func (r *Root) units() {
	d := r.here().Doc
	if d.Units() == quantity.US {
		d.SetUnits(quantity.Metric)
		r.set(func(s *settings.Settings) { s.Units = "si" })
		r.here().Note("figures in mm, °C, kPa; the document keeps its spelling", "i changes it back")
	} else {
		d.SetUnits(quantity.US)
		r.set(func(s *settings.Settings) { s.Units = "us" })
		r.here().Note("figures in mil, inch, °F, psi; the document keeps its spelling", "i changes it back")
	}
}

func (r *Root) menu() {
	shown := r.shown()
	r.choosePage((slices.Index(shown, r.at) + 1) % len(shown))
}

// shown are the pages that the document has, by their index: a job has one of
// its own. Of a job lay-up and inspection are about the part worked at, or what is
// laid at a joint or nozzle.
func (r *Root) shown() (list []int) {
	isJob := r.desk.Doc.Job() != nil
	for i, p := range r.pages {
		if p.Name() == "job" && !isJob {
			continue
		}
		list = append(list, i)
	}
	return list
}

// land goes to the page of a job where the document is one, else to the bench.
func (r *Root) land() {
	r.at = 0
	if r.desk.Doc.Job() != nil {
		r.at = len(r.pages) - 1
	}
}

// choosePage opens the list of pages, one of them pointed at.
func (r *Root) choosePage(at int) {
	var answers []answer
	for _, i := range r.shown() {
		name := r.pages[i].Name()
		if why := r.notThere(name); why != "" {
			answers = append(answers, answer{text: name, why: why})
			continue
		}
		answers = append(answers, answer{text: name, note: pageSays[name], do: func() { r.at, r.desk.Visiting = i, "" }})
	}
	r.ask("pages", "Which page?", at, answers...)
}

// notThere says why the page of a name has nothing of what is worked at, "" where it
// has: of what is laid onto parts some would show a wall that it is not.
func (r *Root) notThere(page string) string {
	o := r.desk.Doc.Lent()
	if o == nil {
		return ""
	}
	switch page {
	case "structure", "winding", "service":
		return "of a part's wall alone"
	case "lay-up", "inspect":
		if o.Kind == overlay.None {
			return "nothing names this laminate"
		}
	}
	return ""
}

// pageSays is what somebody does on a page.
var pageSays = map[string]string{
	"bench": "stack plies; findings, why, fixes", "structure": "what the wall has to carry, and what is needed", "winding": "how a band closes a cover",
	"service": "what resists the fluid; whole walls proposed", "lay-up": "the next ply, ticked into the record", "inspect": "readings, defects, the verdict of a part",
	"practice": "lessons and exercises", "job": "parts, joints and nozzles from the side",
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
	text, at := "A program that ended without saving left "+of+", made "+r.ago(left.When)+".", 0
	if left.Overtaken {
		text, at = text+" The file was saved since: what was saved then is not in it.", 2
	}
	// A digit meant for a ply must take up nothing either: here it only points.
	// Enter at once takes up what is newest, or leaves both.
	r.ask("unsaved work", text, at, answer{text: take, do: r.takeUp}, answer{text: "drop it for good", drops: true, do: func() {
		if err := d.DropRecovered(); err != nil {
			r.desk.Refuse(err.Error())
			return
		}
		r.desk.Say("dropped the unsaved work")
		r.offer()
	}}, answer{text: "leave it: you are asked again at the next start", do: func() {}}).Points = true
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
	r.told, r.amiss, r.stale = false, "", true
	r.handed = r.desk.Doc.Revision()
	r.lookKept()
}
