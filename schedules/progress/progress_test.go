package progress

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"frp/veilwright/rules/practice"
)

func home(t *testing.T) string {
	t.Helper()
	dir := t.TempDir()
	t.Setenv("XDG_STATE_HOME", dir)
	return dir
}

func TestAdd_keepsEachPersonsProgressApart(t *testing.T) {
	home(t)
	for i := range 3 {
		if err := Add("Night shift", practice.Entry{Day: practice.Day(20_000 + i), Exercise: "a1-cool-brine", Step: 1, Score: 0.5}); err != nil {
			t.Fatal(err)
		}
	}
	p, err := Load("Night shift")
	if err != nil || len(p.Entries) != 3 || p.Entries[2].Day != 20_002 {
		t.Fatalf("%+v, %v", p, err)
	}
	if p, err := Load("Day shift"); err != nil || len(p.Entries) != 0 {
		t.Errorf("%+v, %v", p, err)
	}
	path, err := File("Night shift")
	if err != nil {
		t.Fatal(err)
	}
	b, err := os.ReadFile(path)
	if err != nil || !strings.HasPrefix(string(b), "# veilwright practice") || strings.Count(string(b), "\n") != 4 {
		t.Errorf("%q, %v", b, err)
	}
}

func TestAdd_putsACutLineAside(t *testing.T) {
	home(t)
	if err := Add("x", practice.Entry{Exercise: "a", Score: 1}); err != nil {
		t.Fatal(err)
	}
	path, err := File("x")
	if err != nil {
		t.Fatal(err)
	}
	b, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(path, append(b, "2026-03-02 b step=1 sc"...), 0o600); err != nil {
		t.Fatal(err)
	}
	if p, err := Load("x"); err == nil || len(p.Entries) != 1 || !strings.Contains(err.Error(), path+":3: ") {
		t.Errorf("%+v, %v", p, err)
	}
	if err := Add("x", practice.Entry{Exercise: "c", Score: 1}); err != nil {
		t.Fatal(err)
	}
	if p, err := Load("x"); err != nil || len(p.Entries) != 2 || p.Entries[1].Exercise != "c" {
		t.Errorf("%+v, %v", p, err)
	}
	if aside, err := filepath.Glob(path + ".torn-*"); err != nil || len(aside) != 1 {
		t.Errorf("%v, %v", aside, err)
	}
}

func TestLoad_tellsTheLineAndKeepsTheRest(t *testing.T) {
	home(t)
	if err := Add("x", practice.Entry{Exercise: "a", Score: 1}); err != nil {
		t.Fatal(err)
	}
	path, err := File("x")
	if err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(path, []byte(head+"nonsense\n\n1970-01-01 a step=1 score=1 hints=0\n\x1b[2J\n"), 0o600); err != nil {
		t.Fatal(err)
	}
	p, err := Load("x")
	if len(p.Entries) != 1 || err == nil || !strings.Contains(err.Error(), path+":2: ") || strings.ContainsRune(err.Error(), 0x1b) {
		t.Errorf("%+v, %v", p, err)
	}
}

func TestFile_takesNoNameThatLeavesTheFolder(t *testing.T) {
	dir := home(t)
	for _, name := range []string{"", " ", "../x", "a/b", ".x", "-x", "a\x1b", "a\x00b", strings.Repeat("a", 41)} {
		if path, err := File(name); err == nil {
			t.Errorf("%q is kept in %s", name, path)
		}
	}
	for _, name := range []string{"Ana", "José María", "crew 2", "a..b"} {
		path, err := File(name)
		if err != nil || filepath.Dir(path) != filepath.Join(dir, "veilwright", "practice") {
			t.Errorf("%q: %s, %v", name, path, err)
		}
	}
}
