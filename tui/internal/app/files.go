package app

import (
	"errors"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"time"

	tea "github.com/charmbracelet/bubbletea"

	"frp/veilwright/schedules/editor"
	"frp/veilwright/schedules/store"
	"frp/veilwright/tui/internal/page"
)

// now is the time of the program's clock.
func (r *Root) now() time.Time {
	if r.o.Clock != nil {
		return r.o.Clock()
	}
	return time.Now()
}

// ago says when, in words a person uses.
func (r *Root) ago(when time.Time) string {
	d := r.now().Sub(when)
	switch {
	case d < time.Minute:
		return "less than a minute ago"
	case d < 2*time.Minute:
		return "a minute ago"
	case d < time.Hour:
		return strconv.Itoa(int(d.Minutes())) + " minutes ago"
	}
	return "on " + when.Local().Format("2 Jan 2006 at 15:04")
}

// age says how old something is, in as few characters as a column has.
func (r *Root) age(when time.Time) string {
	d := r.now().Sub(when)
	switch {
	case d < time.Minute:
		return "just now"
	case d < time.Hour:
		return strconv.Itoa(int(d.Minutes())) + " min ago"
	case d < 48*time.Hour:
		return strconv.Itoa(int(d.Hours())) + " h ago"
	}
	return strconv.Itoa(int(d.Hours()/24)) + " days ago"
}

func (r *Root) save() { r.saveThen(func() {}) }

// saveThen saves, asking what it must, and goes on when it is saved.
func (r *Root) saveThen(then func()) {
	switch said, err := r.reread(); {
	case err != nil:
		r.ask("not as on disk", err.Error()+". What you see is not what is on disk, and a job without the schedules of its parts cannot be opened.", 0,
			answer{text: "do not save yet", do: func() {}}, answer{text: "save all the same", do: func() { r.saveFresh(then) }})
	case said != "":
		r.saveFresh(func() {
			r.desk.Refuse(r.desk.Notice.Text + "; " + said)
			then()
		})
	default:
		r.saveFresh(then)
	}
}

func (r *Root) saveFresh(then func()) {
	d := r.desk.Doc
	path := d.Path()
	if path == "" {
		// A name given on the command line is where it goes, unasked.
		if !strings.HasSuffix(d.Name(), store.Extension) {
			r.askName("", then)
			return
		}
		path = d.Name()
	}
	if d.Refresh(); path == d.Path() {
		if ro, why := d.ReadOnly(); ro {
			other := func() { r.askName("Here is read only: "+why+". ", then) }
			if how, err := d.Since(); err != nil || how != store.Edited {
				other()
				return
			}
			r.ask("changed on disk", d.Name()+" was changed on disk since it was opened here, and is read only: "+why+".", 0,
				answer{text: "save under another name: both stay", do: other}, answer{text: "read the file again: what you changed here goes", do: r.reload, drops: true})
			return
		}
	}
	if err := r.saveAt(path, then); err != nil {
		r.desk.Refuse(err.Error())
	}
}

// saveAt saves into the file at path, whichever way that was asked for, and asks
// first where something would be lost there.
func (r *Root) saveAt(path string, then func()) error {
	d := r.desk.Doc
	target, err := d.Look(path)
	if err != nil {
		return err
	}
	if ro, why := d.ReadOnly(); ro && target.Path == d.Path() {
		return errors.New("another name is needed: " + why)
	}
	if target.Change != store.Unchanged {
		r.wouldLose(target, then)
		return nil
	}
	return r.saveOver(target, then)
}

// saveOver saves into a file that nothing, or what is known, is lost of.
func (r *Root) saveOver(target editor.Target, then func()) error {
	err := r.desk.Doc.Overwrite(target)
	var changed *editor.ConflictError
	if errors.As(err, &changed) { // once more, between the question and the answer
		return r.saveAt(target.Path, then)
	}
	if err != nil {
		return err
	}
	r.saved(then)
	return nil
}

// wouldLose asks what to do where the file is not what saving would replace.
func (r *Root) wouldLose(target editor.Target, then func()) {
	d := r.desk.Doc
	over := func() {
		if err := r.saveOver(target, then); err != nil {
			r.desk.Refuse(err.Error())
		}
	}
	other := func() { r.askName("", then) }
	switch target.Change {
	case store.Removed:
		r.ask("removed from disk", d.Name()+" was removed from disk since it was opened here, or has another name now.", 0,
			answer{text: "save it under its name again", do: over}, answer{text: "save under another name", do: other})
	case store.Created:
		r.ask("save as", "There is a file "+target.Path+" already.", 1, answer{text: "replace it: what it holds goes", do: over, drops: true}, answer{text: "another name", do: other})
	default: // its own, edited
		r.ask("changed on disk", d.Name()+" was changed on disk since it was opened here. What was changed there is not in what you see.", 0,
			answer{text: "save under another name: both stay", do: other}, answer{text: "replace what is on disk by what you see", do: over, drops: true},
			answer{text: "read the file again: what you changed here goes", do: r.reload, drops: true})
	}
}

func (r *Root) reload() {
	d := r.desk.Doc
	was := d.WorkedAt()
	if err := d.Reload(); err != nil {
		r.desk.Refuse(err.Error())
		return
	}
	r.replaced()
	r.desk.Say(r.desk.Turned(was) + "read " + d.Path() + " again")
}

func (r *Root) saved(then func()) {
	r.told = false
	r.handed = r.desk.Doc.Revision()
	r.lookKept()
	r.desk.Say("saved " + r.desk.Doc.Path())
	r.remember()
	then()
}

func (r *Root) saveAs() { r.askName("", func() {}) }

// askName asks for a file name, after why it has to be another one; then goes on when
// it is saved there.
func (r *Root) askName(why string, then func()) {
	name := &page.Field{Label: "file", Text: r.suggestion(), Ending: store.Extension}
	r.push(&page.Form{
		Head: "save as", Fields: []*page.Field{name}, Take: func() error { return r.saveUnder(name.Text, then) },
		Text: why + "Save under which name? A name without a folder goes to " + r.folderWord() + "; " + store.Extension + " is added where it is missing.",
	})
}

func (r *Root) dir() string {
	if p := r.desk.Doc.Path(); p != "" {
		return filepath.Dir(p)
	}
	if r.o.Folder != "" {
		return r.o.Folder
	}
	return "."
}

// folderWord is the folder as a sentence names it.
func (r *Root) folderWord() string {
	if f := r.dir(); f != "." {
		return f
	}
	return "this folder"
}

// suggestion makes a file name of the title.
func (r *Root) suggestion() string {
	if p := r.desk.Doc.Path(); p != "" {
		return p
	}
	if name := r.desk.Doc.Name(); strings.HasSuffix(name, store.Extension) {
		return name
	}
	var b strings.Builder
	for _, c := range strings.ToLower(r.desk.Doc.Now().Title) {
		switch {
		case c >= 'a' && c <= 'z', c >= '0' && c <= '9':
			b.WriteRune(c)
		case b.Len() > 0 && !strings.HasSuffix(b.String(), "-"):
			b.WriteByte('-')
		}
	}
	name := strings.Trim(b.String(), "-")
	if name == "" {
		name = "schedule"
	}
	return name + store.Extension
}

func (r *Root) saveUnder(typed string, then func()) error {
	path, err := r.pathOf(typed)
	if err != nil {
		return err
	}
	return r.saveAt(path, then)
}

// pathOf is the file that somebody means by what is typed.
func (r *Root) pathOf(typed string) (string, error) {
	name := strings.TrimSpace(typed)
	if name == "" {
		return "", errors.New("a file name is needed; Esc leaves without saving")
	}
	path := name
	if !filepath.IsAbs(path) && filepath.Base(path) == path {
		path = filepath.Join(r.dir(), path)
	}
	if info, err := os.Stat(path); err == nil && info.IsDir() || strings.HasSuffix(name, "/") {
		return "", errors.New(name + " is a folder: a file name is needed behind it")
	} else if err == nil && strings.EqualFold(filepath.Ext(path), store.Extension) {
		return path, nil // as it is spelled on disk
	}
	// Typed before the ending that is there already, it comes twice.
	stem := path
	for ext := filepath.Ext(stem); strings.EqualFold(ext, store.Extension); ext = filepath.Ext(stem) {
		stem = strings.TrimSuffix(stem, ext)
	}
	if base := filepath.Base(stem); strings.HasSuffix(stem, "/") || base == "." || base == ".." {
		return "", errors.New(name + " names no file: a name is needed before " + store.Extension)
	}
	return stem + store.Extension, nil
}

func (r *Root) quit() {
	r.unsaved("quit", func() {
		r.end.Quit = true
		r.do(tea.Quit)
	})
}

// unsaved asks about unsaved work before something that would drop it.
func (r *Root) unsaved(what string, then func()) {
	if !r.desk.Doc.Dirty() {
		then()
		return
	}
	if r.asked(notSaved) {
		r.desk.Refuse("Enter saves, 2 and x drop the changes, Esc goes on working")
		return
	}
	r.ask(notSaved, r.desk.Doc.Name()+" has changes that are not saved.", 0,
		answer{text: "save, then " + what, do: func() { r.saveThen(then) }},
		answer{text: what + " without saving: the changes go", drops: true, do: func() {
			if err := r.desk.Doc.Discard(); err != nil {
				r.desk.Refuse(err.Error())
				return
			}
			then()
		}})
}

const notSaved = "not saved"
