package widget

import (
	"testing"

	"pgregory.net/rapid"

	"frp/veilwright/tui/internal/draw"
	"frp/veilwright/tui/internal/tuitest"
)

func folder() []PickerEntry {
	return []PickerEntry{
		{Name: "archive", Folder: true},
		{Name: "drain-header.toml", Note: "Scrubber drain header", Word: "break"},
		{Name: "fan-duct.toml", Note: "Fan inlet duct", Word: "clear"},
		{Name: "tank-7.toml", Note: "Brine day tank"},
		{Name: "torn.toml", Why: "line 3: a value is missing", Word: "unusable"},
	}
}

func pickerPress(p *Picker, keys ...string) Result {
	r := Going
	for _, e := range tuitest.Events(keys...) {
		r = p.Handle(e)
	}
	return r
}

func TestPicker_opens(t *testing.T) {
	for _, tc := range []struct {
		name   string
		keys   []string
		result Result
		choice string
		up     bool
	}{
		{"digit", []string{"3"}, Taken, "fan-duct.toml", false},
		{"letters", []string{"drain", "enter"}, Taken, "drain-header.toml", false},
		{"folder", []string{"enter"}, Taken, "archive", false},
		{"unusable", []string{"torn", "enter"}, Refused, "torn.toml", false},
		{"up", []string{"left"}, Going, "archive", true},
		{"up by backspace", []string{"backspace"}, Going, "archive", true},
		{"not while letters are typed", []string{"f", "backspace"}, Going, "archive", false},
		{"left", []string{"esc"}, Left, "archive", false},
	} {
		t.Run(tc.name, func(t *testing.T) {
			p := NewPicker(draw.New(draw.Mono), "jobs", folder())
			got := pickerPress(p, tc.keys...)
			e, _ := p.Choice()
			if got != tc.result || e.Name != tc.choice || p.Up() != tc.up {
				t.Errorf("got %d %q up %v, want %d %q up %v", got, e.Name, p.Up(), tc.result, tc.choice, tc.up)
			}
			if (p.Reason() != "") != (tc.result == Refused) {
				t.Errorf("reason %q", p.Reason())
			}
		})
	}
}

func TestSet_keepsTheMarkByName(t *testing.T) {
	p := NewPicker(draw.New(draw.Mono), "jobs", folder())
	pickerPress(p, "down", "down", "down")
	rows := append([]PickerEntry{{Name: "a-new-one.toml"}}, folder()...)
	rows[4].Word = "warning"
	p.Set(rows)
	if e, _ := p.Choice(); e.Name != "tank-7.toml" || e.Word != "warning" {
		t.Errorf("now at %+v", e)
	}
	p.Set(nil)
	if _, ok := p.Choice(); ok {
		t.Error("an empty folder has a choice")
	}
}

func TestPickerView_golden(t *testing.T) {
	p := NewPicker(draw.New(draw.Mono), "a/rather/long/path/to/the/folder/of/all/jobs/of/this/year/jobs", folder())
	tuitest.Golden(t, "60x8", tuitest.Box(t, p.View(60, 8), 60, 8))
	pickerPress(p, "t")
	tuitest.Golden(t, "typed 60x5", tuitest.Box(t, p.View(60, 5), 60, 5))
}

func TestPickerView_anySize(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := NewPicker(draw.New(rapid.SampledFrom(draw.Kinds()).Draw(t, "theme")), rapid.String().Draw(t, "folder"), folder()[:rapid.IntRange(0, 5).Draw(t, "n")])
		w, h := rapid.IntRange(1, 250).Draw(t, "w"), rapid.IntRange(1, 80).Draw(t, "h")
		tuitest.Box(t, p.View(w, h), w, h)
	})
}
