package task

import (
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"frp/veilwright/tui/internal/draw"
	"frp/veilwright/tui/internal/keys"
	"frp/veilwright/tui/internal/page"
	"frp/veilwright/tui/internal/tuitest"
	"frp/veilwright/tui/internal/widget"
)

func desk() *page.Desk { return &page.Desk{Theme: draw.New(draw.Mono)} }

// press types keys and returns the task that goes on.
func press(d *page.Desk, t Task, names ...string) Task {
	for _, e := range tuitest.Events(names...) {
		if t == nil {
			return nil
		}
		t = t.Press(d, e)
	}
	return t
}

// log is a sheet of two needed fields and one that is kept.
func log() (*Sheet, *[]string) {
	var taken []string
	a, b, kept := &page.Field{Label: "a"}, &page.Field{Label: "b"}, &page.Field{Label: "kept"}
	s := &Sheet{Fields: []*page.Field{a, b, kept}, Needs: 2, EmptyEnds: true}
	s.Check = func(i int) error {
		if s.Fields[i].Text == "bad" {
			return errors.New(s.Fields[i].Label + " is bad")
		}
		return nil
	}
	s.Take = func() (Task, error) {
		if b.Text == "full" {
			return nil, errors.New("no room")
		}
		taken = append(taken, a.Text+" "+b.Text+" "+kept.Text)
		return s, nil
	}
	return s, &taken
}

func TestSheet_valueEnterValueEnter(t *testing.T) {
	d := desk()
	s, taken := log()
	press(d, s, "1", keys.Enter, "2", keys.Enter)
	press(d, s, keys.Down, keys.Down, "k", keys.Enter, "3", keys.Enter, "4", keys.Enter)
	if got := strings.Join(*taken, ", "); got != "1 2 , 3 4 k" {
		t.Errorf("taken: %s", got)
	}
	if press(d, s, keys.Enter) != nil {
		t.Error("Enter in an empty first field goes on")
	}
}

func TestSheet_staysWhereSomethingIsWrong(t *testing.T) {
	d := desk()
	s, taken := log()
	press(d, s, "bad", keys.Enter)
	if s.at != 0 || d.Notice.Text != "a is bad" {
		t.Errorf("at field %d: %q", s.at, d.Notice.Text)
	}
	// Gone past by the arrows it is found when the sheet is taken.
	press(d, s, keys.Down, "2", keys.Enter)
	if s.at != 0 || len(*taken) != 0 {
		t.Errorf("at field %d, taken %q", s.at, *taken)
	}
	press(d, s, "1", keys.Enter, "full", keys.Enter)
	if s.at != 1 || s.Fields[1].Text != "full" || d.Notice.Text != "no room" {
		t.Errorf("at field %d: %q", s.at, d.Notice.Text)
	}
}

func TestSheet_escDropsWhatIsTypedOnlyTheSecondTime(t *testing.T) {
	d := desk()
	s, _ := log()
	if press(d, s, "1", keys.Esc) == nil {
		t.Error("dropped at once")
	}
	if press(d, s, "2", keys.Esc) == nil || press(d, s, keys.Esc) != nil {
		t.Error("not dropped by two in a row")
	}
	s, _ = log()
	if press(d, s, keys.Esc) != nil {
		t.Error("nothing was typed and it stays")
	}
}

func TestSheet_everyFieldCanBeSeen(t *testing.T) {
	s := &Sheet{}
	for _, c := range "abcdefgh" {
		s.Fields = append(s.Fields, &page.Field{Label: "field " + string(c)})
	}
	d := desk()
	for i := range s.Fields {
		for _, h := range []int{1, 2, 5, 20} {
			lines := s.Lines(d.Theme, 40, h)
			tuitest.Box(t, lines, 40, h)
			if !strings.Contains(draw.Join(lines), s.Fields[i].Label) {
				t.Errorf("%s is not on %d lines", s.Fields[i].Label, h)
			}
		}
		press(d, s, keys.Down)
	}
}

func TestMenu_leadsOn(t *testing.T) {
	d := desk()
	s, _ := log()
	m := NewMenu(d, "which?", func(i int) Task {
		if i == 1 {
			return s
		}
		return nil
	}, widget.MenuItem{Name: "one"}, widget.MenuItem{Name: "two"})
	if press(d, m, "9") != Task(m) || !d.Notice.Refusal {
		t.Error("a digit without a row is taken")
	}
	if press(d, m, "2") != Task(s) || press(d, m, keys.Esc) != nil {
		t.Error("the choice leads nowhere")
	}
}

func TestFiles_goThroughFoldersAndTakeOne(t *testing.T) {
	dir := t.TempDir()
	if err := os.MkdirAll(filepath.Join(dir, "demands"), 0o755); err != nil {
		t.Fatal(err)
	}
	for name, b := range map[string]string{"other.toml": "no", "demands/good.toml": "yes"} {
		if err := os.WriteFile(filepath.Join(dir, name), []byte(b), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	look := func(_ string, b []byte) (widget.PickerEntry, bool) {
		return widget.PickerEntry{Note: "good"}, string(b) == "yes"
	}
	var taken string
	d := desk()
	f := NewFiles(d, "which?", dir, nil, look, func(path string, first int) (Task, error) {
		if taken == "" {
			taken = path
			return nil, errors.New("not that one")
		}
		return nil, nil
	})
	screen := draw.Join(f.Lines(d.Theme, 60, 8))
	if strings.Contains(screen, "other") || !strings.Contains(screen, "demands") {
		t.Errorf("listed:\n%s", screen)
	}
	if press(d, f, "1", "1") != Task(f) || taken != filepath.Join(dir, "demands", "good.toml") || d.Notice.Text != "not that one" {
		t.Errorf("taken %q: %q", taken, d.Notice.Text)
	}
	if press(d, f, "1") != nil {
		t.Error("taken and it goes on")
	}
	press(d, f, keys.Left)
	if f.folder != dir {
		t.Errorf("up leads to %s", f.folder)
	}
	empty := NewFiles(d, "which?", t.TempDir(), nil, look, nil)
	if s := draw.Join(empty.Lines(d.Theme, 70, 5)); !strings.Contains(s, "folder above") {
		t.Errorf("an empty folder says:\n%s", s)
	}
}

func TestBindings_ofTwoPagesStandSideBySide(t *testing.T) {
	if _, err := keys.New(append(Bindings("a"), Bindings("b")...)...); err != nil {
		t.Error(err)
	}
}
