//go:build unix

package e2e

import (
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
)

// read gives the text of a PDF as an independent reader finds it, false where
// none is installed.
func pdfText(t *testing.T, path string) (string, bool) {
	t.Helper()
	reader, err := exec.LookPath("pdftotext")
	if err != nil {
		t.Log("pdftotext of poppler is not installed: the PDF is not read")
		return "", false
	}
	text, err := exec.Command(reader, "-layout", path, "-").CombinedOutput()
	if err != nil {
		t.Fatalf("pdftotext: %v\n%s", err, text)
	}
	return string(text), true
}

func TestPrint_writesAPDFThatOthersRead(t *testing.T) {
	h := newHome(t)
	h.example(t, "a.toml")
	if out, problems, code := h.run(t, "print", "calculation", "a.toml", "-o", "a.pdf"); out != "" || problems != "" || code == 2 {
		t.Fatalf("%q, %q, %d", out, problems, code)
	}
	text, ok := pdfText(t, filepath.Join(h.dir, "a.pdf"))
	if !ok {
		return
	}
	for _, want := range []string{"Calculation", "Scrubber drain header, north stack", "DRAFT, not released", "page 1 of ", "Design aid: the governing code", "Not checked: wind, seismic", "R = D/2", "fingerprint "} {
		if !strings.Contains(text, want) {
			t.Errorf("%q is not in\n%.4000s", want, text)
		}
	}
}

func TestPrint_everyPaperIsReadByOthers(t *testing.T) {
	h := newHome(t)
	h.example(t, "a.toml")
	for paper, want := range map[string][]string{
		"laminate-schedule": {"PROCESS SIDE", "gel stop: let it gel and cool", "scale ", "RULE BREAK, do not build:"},
		"lay-up-sheet":      {"NEVER mix peroxide", "Plies, in the order of laying", "GEL STOP and HOLD"},
		"route-sheet":       {"Text for the plate", "drawings, laminate schedule"},
		"inspection-plan":   {"characteristic", "purchaser's inspector: name"},
	} {
		name := paper + ".pdf"
		if out, problems, _ := h.run(t, "print", paper, "a.toml", "-o", name, "--paper", "a4"); out+problems != "" {
			t.Errorf("%s: %q, %q", paper, out, problems)
		}
		text, ok := pdfText(t, filepath.Join(h.dir, name))
		if !ok {
			return
		}
		for _, w := range append(want, "Scrubber drain header, north stack", "page 1 of ", "Design aid: ", "fingerprint ") {
			if !strings.Contains(text, w) {
				t.Errorf("%s: %q is not in\n%.4000s", paper, w, text)
			}
		}
	}
}

// A file size limit of zero is a disk that is full.
func TestPrint_toAFullDiskSaysItOnceAndLeavesTheOldPaper(t *testing.T) {
	h := newHome(t)
	h.example(t, "a.toml")
	if err := os.WriteFile(filepath.Join(h.dir, "a.pdf"), []byte("the old paper"), 0o600); err != nil {
		t.Fatal(err)
	}
	cmd := exec.Command("sh", "-c", `ulimit -f 0; exec "$0" print calculation a.toml -o a.pdf --replace`, program)
	cmd.Dir, cmd.Env = h.dir, h.env
	said, err := cmd.CombinedOutput()
	if err == nil || cmd.ProcessState.ExitCode() != 2 || strings.Count(string(said), "\n") != 1 || !strings.Contains(string(said), "a.pdf: not saved") {
		t.Errorf("%v: %q", err, said)
	}
	if h.read(t, "a.pdf") != "the old paper" {
		t.Error("the old paper is torn")
	}
	entries, err := os.ReadDir(h.dir)
	if err != nil || len(entries) != 2 {
		t.Errorf("something was left beside it: %v, %v", entries, err)
	}
}
