package cli

import (
	"bytes"
	"encoding/json"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// Documents are looked at several at a time; what is said and printed of each is
// what is said and printed of it alone, in the order of their names.
func TestCheck_ofManyIsCheckOfEach(t *testing.T) {
	found, err := filepath.Glob("../../../testdata/schedules/*.toml")
	if err != nil || len(found) == 0 {
		t.Fatalf("no schedules: %v", err)
	}
	var names []string
	for i := range 120 {
		text, err := os.ReadFile(found[i%len(found)])
		if err != nil {
			t.Fatal(err)
		}
		if i%5 == 3 {
			text = bytes.Replace(text, []byte("[part]"), []byte("[part]\nforms = 1"), 1)
		}
		name := filepath.Join(t.TempDir(), fmt.Sprintf("%03d.toml", i))
		if err := os.WriteFile(name, text, 0o600); err != nil {
			t.Fatal(err)
		}
		names = append(names, name)
	}
	run := func(names ...string) (items []json.RawMessage, said string, code Code) {
		var out, messages bytes.Buffer
		code = Run(append([]string{"check", "--no-book", "--json"}, names...),
			Process{In: strings.NewReader(""), Out: &out, Err: &messages, Getenv: func(string) string { return "" }})
		d := json.NewDecoder(&out)
		if err := d.Decode(&items); err != nil {
			t.Fatal(err)
		}
		if rest, _ := io.ReadAll(io.MultiReader(d.Buffered(), &out)); string(rest) != "\n" {
			t.Fatalf("after the list stands %q", rest)
		}
		return items, messages.String(), code
	}
	items, said, code := run(names...)
	if len(items) != len(names) {
		t.Fatalf("%d reports of %d documents", len(items), len(names))
	}
	var saidOfEach strings.Builder
	worst := Code(0)
	for i, name := range names {
		alone, message, code := run(name)
		saidOfEach.WriteString(message)
		worst = worst.worse(code)
		if !bytes.Equal(items[i], alone[0]) {
			t.Errorf("%s among others:\n%s\nalone:\n%s", name, items[i], alone[0])
		}
	}
	if said != saidOfEach.String() || said == "" || code != worst {
		t.Errorf("exit %v, said of all\n%s\nexit %v, of each\n%s", code, said, worst, &saidOfEach)
	}
}

// What is wrong with the user's own folder is wrong wherever documents lie, and said once.
func TestCheck_ofManyFoldersSaysOnceWhereNoShopBookCanBeLookedFor(t *testing.T) {
	top := t.TempDir()
	t.Chdir(top)
	example, _, _ := run("new", "--example")
	for i := range 20 {
		folder := filepath.Join(top, "jobs", fmt.Sprint(i))
		if err := os.MkdirAll(folder, 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(filepath.Join(folder, "a.toml"), []byte(example), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	if err := os.Symlink("loop", filepath.Join(top, "loop")); err != nil {
		t.Fatal(err)
	}
	t.Setenv("XDG_CONFIG_HOME", filepath.Join(top, "loop"))
	_, said, code := run("check", "jobs")
	if code != Unusable || strings.Count(said, "\n") != 1 || !strings.Contains(said, "circle") {
		t.Errorf("code %d, said:\n%s", code, said)
	}
}
