package form

import (
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"frp/veilwright/tui/internal/keyin"
	"frp/veilwright/tui/internal/theme"
	"frp/veilwright/tui/internal/tuitest"
	"frp/veilwright/tui/internal/widget"
	"frp/veilwright/tui/internal/widget/input"
)

func fields() []Field {
	length := func(s string) string {
		if s != "" && !strings.ContainsAny(s, "0123456789") {
			return "“" + s + "” is no length: in, ft, mm or m, like 24 in"
		}
		return ""
	}
	options := func(names ...string) []Option {
		out := make([]Option, len(names))
		for i, n := range names {
			out[i] = Option{Value: n, Name: n}
		}
		return out
	}
	traits := options("fluorides", "hypochlorite", "chlorine-dioxide", "strong-base", "strong-acid", "pulping-liquor", "plating-solution", "lithium", "solvent", "oxidizer", "brine", "solids")
	return []Field{
		{ID: "title", Group: "Schedule", Label: "title", Kind: Text, Value: "Scrubber drain header", Check: func(s string) string {
			if s == "" {
				return "a schedule needs a title"
			}
			return ""
		}},
		{ID: "form", Group: "Part", Label: "form", Kind: Choice, Value: "pipe", Options: options("pipe", "duct", "tank", "panel")},
		{ID: "diameter", Group: "Part", Label: "inside diameter", Kind: Number, Value: "24 in", Unit: "in", Hint: "inside the barrier", Check: length},
		{ID: "flanged", Group: "Part", Label: "flanged", Kind: Truth},
		{ID: "carries", Group: "Service", Label: "carries", Kind: Many, Values: []string{"fluorides"}, Options: traits, Empty: "nothing said"},
		{ID: "ends", Group: "Service", Label: "wall carries", Kind: Many, Options: options("hoop", "thrust")},
		{ID: "family", Group: "Resin", Label: "family", Kind: Choice, Options: append(options("isophthalic-polyester", "terephthalic-polyester", "bisphenol-fumarate-polyester", "chlorendic-polyester", "vinyl-ester", "brominated-vinyl-ester", "novolac-vinyl-ester", "brominated-novolac-vinyl-ester"), Option{Value: "x", Name: "other", Note: "defined by the shop"}, Option{Value: "y", Name: "none"})},
		{ID: "basis", Group: "Resin", Label: "basis", Kind: Text, Value: "strain-limit", Why: "wound parts are judged by strain"},
	}
}

func open(focus string) *Form {
	f := New(theme.New(theme.Mono), fields()...)
	f.Focus(focus)
	return f
}

func (f *Form) value(id string) string {
	for i := range f.fields {
		if f.fields[i].ID == id {
			if f.fields[i].Kind == Many {
				return strings.Join(f.fields[i].Values, ",")
			}
			return f.fields[i].Value
		}
	}
	return "no such field"
}

func TestForm_enters(t *testing.T) {
	for _, tc := range []struct {
		name, field string
		keys        []string
		result      widget.Result
		value       string
		focus       string
	}{
		{"text edited", "title", []string{"enter", "!", "enter"}, widget.Taken, "Scrubber drain header!", "title"},
		{"taken as it was", "title", []string{"enter", "enter"}, widget.Going, "Scrubber drain header", "title"},
		{"wrong", "title", []string{"enter", "ctrl+u", "enter"}, widget.Refused, "Scrubber drain header", "title"},
		{"number begun by a digit", "diameter", []string{"30", "enter"}, widget.Taken, "30", "diameter"},
		{"number edited", "diameter", []string{"enter", "home", "1", "enter"}, widget.Taken, "124 in", "diameter"},
		{"number wrong", "diameter", []string{"enter", "ctrl+u", "wide", "enter"}, widget.Refused, "24 in", "diameter"},
		{"down takes and goes on", "diameter", []string{"36", "down"}, widget.Taken, "36", "flanged"},
		{"tab too", "diameter", []string{"36", "tab"}, widget.Taken, "36", "flanged"},
		{"up takes and goes back", "diameter", []string{"36", "up"}, widget.Taken, "36", "form"},
		{"but not what is wrong", "diameter", []string{"enter", "ctrl+u", "x", "down"}, widget.Refused, "24 in", "diameter"},
		{"esc with nothing changed", "diameter", []string{"enter", "esc"}, widget.Going, "24 in", "diameter"},
		{"esc with something typed stays", "diameter", []string{"3", "esc"}, widget.Going, "24 in", "diameter"},
		{"and it can be taken", "diameter", []string{"3", "esc", "enter"}, widget.Taken, "3", "diameter"},
		{"or dropped", "diameter", []string{"3", "esc", "esc"}, widget.Going, "24 in", "diameter"},
		{"and then left", "diameter", []string{"3", "esc", "esc", "esc"}, widget.Left, "24 in", "diameter"},
		{"emptied", "diameter", []string{"delete"}, widget.Taken, "", "diameter"},
		{"not emptied where a value is needed", "title", []string{"delete"}, widget.Refused, "Scrubber drain header", "title"},
		{"choice by digit", "form", []string{"3"}, widget.Taken, "tank", "form"},
		{"same choice", "form", []string{"1"}, widget.Going, "pipe", "form"},
		{"no such option", "form", []string{"5"}, widget.Refused, "pipe", "form"},
		{"choice from the list", "form", []string{"enter", "down", "enter"}, widget.Taken, "duct", "form"},
		{"choice by letters", "family", []string{"enter", "novol", "enter"}, widget.Taken, "novolac-vinyl-ester", "family"},
		{"choice left", "form", []string{"enter", "down", "esc"}, widget.Going, "pipe", "form"},
		{"long choice wants its list", "family", []string{"3"}, widget.Refused, "", "family"},
		{"yes", "flanged", []string{"1"}, widget.Taken, "yes", "flanged"},
		{"no", "flanged", []string{"2"}, widget.Taken, "no", "flanged"},
		{"unknown again", "flanged", []string{"1", "3"}, widget.Taken, "", "flanged"},
		{"ticked by digit in the row", "ends", []string{"2"}, widget.Taken, "thrust", "ends"},
		{"ticks keep the options' order", "ends", []string{"2", "1"}, widget.Taken, "hoop,thrust", "ends"},
		{"ticked in the list", "carries", []string{"enter", "2"}, widget.Taken, "fluorides,hypochlorite", "carries"},
		{"tick taken away", "carries", []string{"enter", "1"}, widget.Taken, "", "carries"},
		{"ticked at the end", "carries", []string{"enter", "end", "space", "enter"}, widget.Going, "fluorides,solids", "carries"},
		{"all ticks away", "carries", []string{"delete"}, widget.Taken, "", "carries"},
		{"cannot be changed", "basis", []string{"enter"}, widget.Refused, "strain-limit", "basis"},
		{"nor begun", "basis", []string{"4"}, widget.Refused, "strain-limit", "basis"},
		{"nor emptied", "basis", []string{"delete"}, widget.Refused, "strain-limit", "basis"},
		{"moved", "title", []string{"down", "down", "tab", "shift+tab", "up"}, widget.Going, "Scrubber drain header", "form"},
		{"ends", "form", []string{"end", "down", "home", "up"}, widget.Going, "pipe", "title"},
	} {
		t.Run(tc.name, func(t *testing.T) {
			f := open(tc.field)
			var got widget.Result
			for _, e := range tuitest.Events(tc.keys...) {
				var ours bool
				if got, ours = f.Handle(e); !ours {
					t.Errorf("%v is left to the page", e)
				}
			}
			if got != tc.result || f.value(tc.field) != tc.value || f.Focused() != tc.focus {
				t.Errorf("got %d, %q, at %s; want %d, %q, at %s", got, f.value(tc.field), f.Focused(), tc.result, tc.value, tc.focus)
			}
			if got == widget.Taken && f.Changed().ID != tc.field {
				t.Errorf("reports %s", f.Changed().ID)
			}
			if (f.Reason() != "") != (tc.result == widget.Refused) {
				t.Errorf("reason %q", f.Reason())
			}
		})
	}
}

func TestForm_leavesLettersToThePage(t *testing.T) {
	f := open("title")
	for _, k := range []string{"u", "?", "+", "f1"} {
		if _, ours := f.Handle(keyin.Key(k)); ours {
			t.Errorf("%s is taken while nothing is typed", k)
		}
	}
	f.Handle(keyin.Key("enter"))
	if _, ours := f.Handle(keyin.Key("u")); !ours || !f.Typing() {
		t.Error("u is not taken while something is typed")
	}
}

func TestForm_paste(t *testing.T) {
	f := open("diameter")
	if r, _ := f.Handle(keyin.Event{Paste: "600 mm"}); r != widget.Going || !f.Typing() {
		t.Errorf("a paste gives %d", r)
	}
	if r, _ := f.Handle(keyin.Key("enter")); r != widget.Taken || f.value("diameter") != "600 mm" {
		t.Errorf("got %d, %q", r, f.value("diameter"))
	}
	f.Focus("form")
	if r, _ := f.Handle(keyin.Event{Paste: "tank"}); r != widget.Refused {
		t.Errorf("a choice takes a paste: %d", r)
	}
}

func TestDraft_previews(t *testing.T) {
	f := open("diameter")
	if _, ok := f.Draft(); ok {
		t.Error("a draft with nothing open")
	}
	f.Handle(keyin.Key("3"))
	if d, ok := f.Draft(); !ok || d.Value != "3" {
		t.Errorf("draft %+v", d)
	}
	f = open("form")
	f.Handle(keyin.Key("enter"))
	f.Handle(keyin.Key("down"))
	if d, ok := f.Draft(); !ok || d.Value != "duct" || f.value("form") != "pipe" {
		t.Errorf("draft %+v", d)
	}
}

func TestSetFields_keepsWhatIsTyped(t *testing.T) {
	f := open("diameter")
	f.Handle(keyin.Key("3"))
	rows := slices.DeleteFunc(fields(), func(fl Field) bool { return fl.ID == "form" })
	f.SetFields(rows...)
	if d, ok := f.Draft(); !ok || d.ID != "diameter" || d.Value != "3" {
		t.Errorf("draft %+v", d)
	}
	f.SetFields(fields()[:1]...)
	if _, ok := f.Draft(); ok || f.Focused() != "title" {
		t.Errorf("field gone: focus %s", f.Focused())
	}
	f.SetFields()
	if r, _ := f.Handle(keyin.Key("esc")); r != widget.Left || f.Focused() != "" {
		t.Errorf("an empty form gives %d", r)
	}
}

func TestView_golden(t *testing.T) {
	golden := func(name string, f *Form, w, h int) {
		t.Helper()
		tuitest.Golden(t, name, tuitest.Box(t, f.View(w, h), w, h))
	}
	f := open("diameter")
	golden("browsing 64x20", f, 64, 20)
	for _, e := range tuitest.Events("enter", "ctrl+u", "wide", "enter") {
		f.Handle(e)
	}
	golden("wrong 64x20", f, 64, 20)
	f.Handle(keyin.Key("esc"))
	golden("unfinished 64x8", f, 64, 8)
	f = open("form")
	golden("choice 64x9", f, 64, 9)
	f = open("flanged")
	golden("truth 64x9", f, 64, 9)
	f = open("carries")
	f.Handle(keyin.Key("enter"))
	f.Handle(keyin.Key("down"))
	golden("ticking 64x14", f, 64, 14)
	f = open("family")
	f.Handle(keyin.Key("enter"))
	f.Handle(keyin.Key("v"))
	golden("listing 64x14", f, 64, 14)
	f = open("basis")
	f.SetError("title", "another schedule of the folder has this title")
	golden("cannot be changed 44x12", f, 44, 12)
}

func TestView_anySizeAnyKeys(t *testing.T) {
	keys := []string{"up", "down", "enter", "esc", "tab", "3", "1", "x", "space", "delete", "backspace", "end", "home", "left"}
	rapid.Check(t, func(t *rapid.T) {
		f := New(theme.New(rapid.SampledFrom(theme.Kinds()).Draw(t, "theme")), fields()[:rapid.IntRange(0, 8).Draw(t, "n")]...)
		w, h := rapid.IntRange(1, 250).Draw(t, "w"), rapid.IntRange(1, 80).Draw(t, "h")
		for _, k := range rapid.SliceOfN(rapid.SampledFrom(keys), 0, 40).Draw(t, "keys") {
			f.Handle(keyin.Key(k))
			lines := f.View(w, h)
			tuitest.Box(t, lines, w, h)
			if w > 20 && len(f.fields) > 0 && f.Focused() != "" && !strings.Contains(strings.Join(lines, "\n"), theme.Pointer) {
				t.Fatalf("the focused field is out of sight:\n%s", strings.Join(lines, "\n"))
			}
		}
		tuitest.Box(t, f.View(w, h), w, h)
	})
}

func TestEsc_neverDropsSilently(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := open("title")
		f.Handle(keyin.Key("enter"))
		for _, k := range rapid.SliceOfN(rapid.SampledFrom([]string{"a", "b", "left", "backspace"}), 1, 10).Draw(t, "keys") {
			f.Handle(keyin.Key(k))
		}
		d, _ := f.Draft()
		f.Handle(keyin.Key("esc"))
		if d.Value != "Scrubber drain header" && (!f.Typing() || f.wrong["title"] != input.Unfinished) {
			t.Fatalf("%q was dropped unsaid", d.Value)
		}
	})
}
