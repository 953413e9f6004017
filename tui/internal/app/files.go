package app

import (
	"errors"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"time"

	tea "github.com/charmbracelet/bubbletea"
)

const extension = ".toml"

// ago says when, in words a person uses.
func (r *Root) ago(when time.Time) string {
	now := time.Now
	if r.o.Clock != nil {
		now = r.o.Clock
	}
	d := now().Sub(when)
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

func (r *Root) save() { r.saveThen(func() {}) }

// saveThen saves, asking what it must, and goes on when it is saved.
func (r *Root) saveThen(then func()) {
	d := r.desk.Doc
	if ro, why := d.ReadOnly(); ro {
		r.desk.Refuse("a saves under another name; here is read only: " + why)
		return
	}
	if d.Path() == "" {
		// A name given on the command line is where it goes, unasked.
		if name := d.Name(); strings.HasSuffix(name, extension) {
			if err := r.saveUnder(name, then); err != nil {
				r.desk.Refuse(err.Error())
			}
			return
		}
		r.askName(then)
		return
	}
	if changed, err := d.ChangedOnDisk(); err == nil && changed {
		r.askConflict(then)
		return
	}
	if err := d.Save(); err != nil {
		r.desk.Refuse(err.Error())
		return
	}
	r.saved(then)
}

func (r *Root) saved(then func()) {
	r.kept = r.desk.Doc.Revision()
	r.told, r.fault = false, ""
	r.desk.Say("saved " + r.desk.Doc.Path())
	then()
}

func (r *Root) saveAs() { r.askName(func() {}) }

// askName asks for a file name; then goes on when it is saved there.
func (r *Root) askName(then func()) {
	p := &prompt{
		Title: "save as", Label: "file", Desk: r.desk,
		Text: "Save under which name? A name without a folder goes to " + r.folderWord() + "; " + extension + " is added where it is missing.",
	}
	p.Do = func(name string) error { return r.saveUnder(name, then) }
	p.Set(r.suggestion())
	r.push(p)
}

func (r *Root) folder() string {
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
	if f := r.folder(); f != "." {
		return f
	}
	return "this folder"
}

// suggestion makes a file name of the title.
func (r *Root) suggestion() string {
	if p := r.desk.Doc.Path(); p != "" {
		return p
	}
	if name := r.desk.Doc.Name(); strings.HasSuffix(name, extension) {
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
	return name + extension
}

func (r *Root) saveUnder(name string, then func()) error {
	name = strings.TrimSpace(name)
	if name == "" {
		return errors.New("a file name is needed; Esc leaves without saving")
	}
	if !strings.HasSuffix(name, extension) {
		name += extension
	}
	if !filepath.IsAbs(name) && filepath.Base(name) == name {
		name = filepath.Join(r.folder(), name)
	}
	d := r.desk.Doc
	if _, err := os.Lstat(name); err == nil && name != d.Path() {
		r.push(&question{
			Title: "save as", Desk: r.desk, Text: "There is a file " + name + " already.", At: 1,
			Answers: []answer{
				{Text: "replace it", Do: func() {
					if err := d.SaveAs(name, true); err != nil {
						r.desk.Refuse(err.Error())
						return
					}
					r.saved(then)
				}},
				{Text: "another name", Do: func() { r.askName(then) }},
			},
		})
		return nil
	}
	if err := d.SaveAs(name, name == d.Path()); err != nil {
		return err
	}
	r.saved(then)
	return nil
}

// askConflict asks what to do where the file changed behind the program's back.
func (r *Root) askConflict(then func()) {
	d := r.desk.Doc
	r.push(&question{
		Title: "changed on disk", Desk: r.desk,
		Text: d.Name() + " was changed on disk since it was opened here. What was changed there is not in what you see.",
		Answers: []answer{
			{Text: "save under another name: both stay", Do: func() { r.askName(then) }},
			{Text: "replace what is on disk by what you see", Do: func() {
				if err := d.SaveAs(d.Path(), true); err != nil {
					r.desk.Refuse(err.Error())
					return
				}
				r.saved(then)
			}},
			{Text: "read the file again: what you changed here goes", Do: func() {
				if err := d.Reload(); err != nil {
					r.desk.Refuse(err.Error())
					return
				}
				r.kept = d.Revision()
				r.replaced()
				r.desk.Say("read " + d.Path() + " again")
			}},
		},
	})
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
	for _, p := range r.stack {
		if q, ok := p.(*question); ok && q.Title == notSaved {
			r.desk.Refuse("1 saves, 2 drops the changes, Esc goes on working")
			return
		}
	}
	r.push(&question{
		Title: notSaved, Desk: r.desk, Text: r.desk.Doc.Name() + " has changes that are not saved.",
		Answers: []answer{
			{Text: "save, then " + what, Do: func() { r.saveThen(then) }},
			{Text: what + " without saving: the changes go", Do: func() {
				if err := r.desk.Doc.Discard(); err != nil {
					r.desk.Refuse(err.Error())
					return
				}
				then()
			}},
		},
	})
}

const notSaved = "not saved"
