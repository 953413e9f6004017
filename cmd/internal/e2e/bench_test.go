//go:build unix

package e2e

import (
	"encoding/json"
	"fmt"
	"os"
	"strings"
	"testing"
)

// reported is what these tests read of check --json.
type reported struct {
	Plies []struct {
		Material string `json:"material"`
		Zone     string `json:"zone"`
	} `json:"plies"`
	Zones map[string]struct {
		ThicknessMM float64 `json:"thickness_mm"`
	} `json:"zones"`
	Findings []struct {
		Rule     string `json:"rule"`
		Severity string `json:"severity"`
	} `json:"findings"`
	Verdict string `json:"verdict"`
}

func (h home) check(t *testing.T, file string) reported {
	t.Helper()
	stdout, stderr, _ := h.run(t, "check", "--json", file)
	var all []reported
	if err := json.Unmarshal([]byte(stdout), &all); err != nil || len(all) != 1 {
		t.Fatalf("check --json %s: %v\n%s%s", file, err, stdout, stderr)
	}
	return all[0]
}

func mil(mm float64) string { return fmt.Sprintf("%.0f mil", mm/0.0254) }

// readmeKeys are the keys that README.md gives for a wall from nothing.
func readmeKeys(t *testing.T) []string {
	t.Helper()
	text, err := os.ReadFile("../../../README.md")
	if err != nil {
		t.Fatal(err)
	}
	_, rest, found := strings.Cut(string(text), "On an empty schedule `")
	given, _, closed := strings.Cut(rest, "`")
	if !found || !closed {
		t.Fatal("README.md gives no keys for a wall from nothing")
	}
	keys := strings.Fields(given)
	if len(keys) > 9 {
		t.Errorf("README.md needs %d keys for a wall from nothing, 9 are the goal", len(keys))
	}
	return keys
}

// One veil, two mats, five plies of mat and woven roving, from nothing but the
// keys of a number pad that README.md gives, then saved, reopened and held
// against the command line. What the resins are is asked by a key of its own.
func TestBench_buildsAWallFromNothing(t *testing.T) {
	h := newHome(t)
	s := h.open(t, "fresh.toml")
	s.see("BENCH", "no file yet")
	s.press(readmeKeys(t)...)
	s.see("gel stop", "ply 8")
	s.press("f").see("f asks the resin families") // the outer surface first
	s.press("f").see("WHICH RESIN FAMILY", "vinyl-ester")
	s.press("5", "enter").see("BENCH", "veil-c-15")
	s.gone("has no family")
	shown := s.see("gel stop", "ply 9")
	// The file was named when the program was called: no name is asked for.
	s.press("s").see("saved fresh.toml")
	s.press("q")
	if code := s.end(); code != 0 {
		t.Errorf("ended with %d", code)
	}

	r := h.check(t, "fresh.toml")
	var materials []string
	for _, p := range r.Plies {
		materials = append(materials, p.Material)
	}
	want := "veil-c-15 mat-1.5 mat-1.5 mat-1.5 woven-24 mat-1.5 woven-24 mat-1.5 topcoat"
	if got := strings.Join(materials, " "); got != want {
		t.Errorf("built %s, want %s", got, want)
	}
	for zone, word := range map[string]string{"barrier": "barrier ", "structural-layer": "structure ", "total": "total "} {
		if figure := word + mil(r.Zones[zone].ThicknessMM); !strings.Contains(shown, figure) {
			t.Errorf("the command line has %s, the bench had\n%s", figure, shown)
		}
	}

	again := h.open(t, "fresh.toml")
	again.see("BENCH", "saved", "barrier "+mil(r.Zones["barrier"].ThicknessMM))
	again.press("q")
	if code := again.end(); code != 0 {
		t.Errorf("reopened, ended with %d", code)
	}
}

// Keys that arrive in one read do what they do one by one, and so does a key
// whose escape sequence is cut in two.
func TestBench_takesGluedAndSplitKeys(t *testing.T) {
	h := newHome(t)
	h.example(t, "a.toml")
	glued := h.open(t, "a.toml")
	glued.see("BENCH", "saved")
	glued.press("3+++").see("not saved", "×4")
	single := h.open(t, "a.toml")
	single.see("BENCH")
	single.press("3", "+", "+", "+").see("not saved", "×4")
	if a, b := figures(glued.text()), figures(single.text()); a != b || a == "" {
		t.Errorf("glued %q, one by one %q", a, b)
	}

	split := h.open(t, "a.toml")
	split.see("▸10 ")
	split.press("\x1b").press("[", "A")
	split.see("▸5-9 ")
}

// figures is the line of sums.
func figures(screen string) string {
	for line := range strings.Lines(screen) {
		if strings.HasPrefix(line, " barrier ") {
			return line
		}
	}
	return ""
}

func (h home) example(t *testing.T, name string) string {
	t.Helper()
	text, problems, code := h.run(t, "new", "--example")
	if code != 0 {
		t.Fatal(problems)
	}
	h.write(t, name, text)
	return text
}

func TestBench_fixesAndUndoesToTheBytesOnDisk(t *testing.T) {
	h := newHome(t)
	before := h.example(t, "a.toml")
	s := h.open(t, "a.toml")
	s.see("1 break", "saved")
	s.press("n", "f")
	s.gone("1 break")
	s.press("s").see("saved a.toml")
	if r := h.check(t, "a.toml"); r.Plies[0].Material != "veil-polyester-15" || r.Verdict == "break" {
		t.Errorf("after fixing: %+v", r)
	}
	s.press("u").see("not saved", "1 break")
	s.gone("saved a.toml") // a frame may arrive in two parts
	s.press("s").see("saved a.toml")
	if after := h.read(t, "a.toml"); after != before {
		t.Errorf("undone, the file is\n%s", after)
	}
}

func TestBench_survivesATinyTerminal(t *testing.T) {
	h := newHome(t)
	h.example(t, "a.toml")
	s := h.open(t, "a.toml")
	before := s.see("BENCH", "saved", "fluid", "? all") // the last line too
	s.resize(20, 5)
	s.until("a sentence about the size", func(screen string) bool {
		return !strings.Contains(screen, "fluid") && strings.TrimSpace(screen) != ""
	})
	s.press("up", "down")
	for _, size := range [][2]int{{1, 1}, {59, 15}, {60, 16}, {80, 24}, {200, 60}, {cols, rows}} {
		s.resize(size[0], size[1])
	}
	s.until("the screen as it was", func(screen string) bool { return screen == before })
	s.press("q")
	if code := s.end(); code != 0 {
		t.Errorf("ended with %d", code)
	}
}

func TestTerminalProgram_saysWhereItCannotRun(t *testing.T) {
	h := newHome(t)
	h.example(t, "a.toml")
	dumb := h
	dumb.env = append([]string{"TERM=dumb"}, h.env[1:]...)
	s := dumb.open(t, "a.toml")
	if code := s.end(); code != 2 {
		t.Errorf("TERM=dumb ended with %d", code)
	}
	s.see("veilwright check")
	if sent := s.wire(); strings.Contains(sent, "\x1b") {
		t.Errorf("an escape sequence went to a dumb terminal: %q", sent)
	}
	if _, problems, code := h.run(t, "a.toml"); code != 2 || !strings.Contains(problems, "needs a terminal") {
		t.Errorf("without a terminal: %q, %d", problems, code)
	}
}

func TestBench_withoutColorMarksRowAndSeverityAllTheSame(t *testing.T) {
	h := newHome(t)
	h.example(t, "a.toml")
	h.env = append(h.env, "NO_COLOR=1")
	s := h.open(t, "a.toml")
	s.see("▸10 ", "BREAK", "saved")
	if sent := s.wire(); strings.Contains(sent, "\x1b[38") || strings.Contains(sent, "\x1b[31") {
		t.Error("color where none was wanted")
	}
}
