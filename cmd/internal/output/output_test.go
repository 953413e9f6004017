package output_test

import (
	"bytes"
	"encoding/json"
	"errors"
	"math"
	"os"
	"strings"
	"testing"
	"unicode"

	"pgregory.net/rapid"

	"frp/veilwright/cmd/internal/output"
)

func TestJSON_isReadBackAndShowsNoControl(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		in := rapid.String().Draw(t, "text")
		var b bytes.Buffer
		sink := output.NewSink(&b, os.Getenv)
		if err := sink.JSON(in); err != nil {
			t.Fatal(err)
		}
		if err := sink.Close(); err != nil {
			t.Fatal(err)
		}
		text := strings.TrimSuffix(b.String(), "\n")
		for _, r := range text {
			if unicode.IsControl(r) {
				t.Fatalf("%q lets %U through", text, r)
			}
		}
		var out string
		if err := json.Unmarshal([]byte(text), &out); err != nil || out != in {
			t.Fatalf("%q came back as %q: %v", in, out, err)
		}
	})
}

func TestJSON_refusesWhatIsNotANumber(t *testing.T) {
	var b bytes.Buffer
	sink := output.NewSink(&b, os.Getenv)
	if err := sink.JSON(map[string]float64{"thickness_mm": math.NaN()}); err == nil {
		t.Error("NaN was written")
	}
	if err := sink.Close(); err != nil || b.Len() != 0 {
		t.Errorf("something was printed all the same: %q, %v", b.String(), err)
	}
}

type failing struct{ after int }

var errFull = errors.New("no space left on device")

func (f *failing) Write(p []byte) (int, error) {
	if f.after--; f.after < 0 {
		return 0, errFull
	}
	return len(p), nil
}

func TestSink_tellsTheFirstErrorAtTheEnd(t *testing.T) {
	sink := output.NewSink(&failing{after: 1}, os.Getenv)
	for range 10_000 {
		sink.Line("%s", "a line that fills the buffer in the end")
	}
	if err := sink.Close(); !errors.Is(err, errFull) {
		t.Errorf("got %v, want %v", err, errFull)
	}
}

func TestMessages_areOneCleanLine(t *testing.T) {
	var b bytes.Buffer
	output.NewMessages(&b, os.Getenv).Say("reading %s: %v", "a\x1b[2Jb.toml", errors.New("two\nlines"))
	if got, want := b.String(), "veilwright: reading a\\u001b[2Jb.toml: two lines\n"; got != want {
		t.Errorf("got %q, want %q", got, want)
	}
}

func TestList_isTheSliceAsJSON(t *testing.T) {
	for _, values := range [][]any{{}, {1.5}, {map[string]any{"a": []int{1, 2}, "b": nil}, "\x7f\u202e", []any{}}} {
		var whole, parts bytes.Buffer
		a, b := output.NewSink(&whole, os.Getenv), output.NewSink(&parts, os.Getenv)
		list := output.NewList(b)
		if err := a.JSON(values); err != nil {
			t.Fatal(err)
		}
		for _, v := range values {
			list.Add(output.ItemOf(v))
		}
		if err := errors.Join(list.Close(), a.Close(), b.Close()); err != nil {
			t.Fatal(err)
		}
		if whole.String() != parts.String() {
			t.Errorf("one by one\n%s\ninstead of\n%s", &parts, &whole)
		}
	}
}

func TestList_staysJSONWhereAValueCannotBePrinted(t *testing.T) {
	var b bytes.Buffer
	sink := output.NewSink(&b, os.Getenv)
	list := output.NewList(sink)
	for _, v := range []any{1, math.NaN(), 2} {
		list.Add(output.ItemOf(v))
	}
	err := list.Close()
	if sink.Close() != nil || err == nil || b.String() != "[\n  1,\n  2\n]\n" {
		t.Errorf("%v, %q", err, &b)
	}
}
