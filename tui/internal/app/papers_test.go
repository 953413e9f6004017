package app

import (
	"os"
	"strings"
	"testing"
)

func TestPapers_areWrittenBesideTheDocumentAndNeverOverOneUnasked(t *testing.T) {
	g := header(t, 80, 24)
	path := g.r.Document().Path()
	paper := strings.TrimSuffix(path, ".toml") + "-lay-up-sheet.pdf"
	g.press("k").shows("Which paper?", "1 Laminate schedule", "2 Lay-up sheet", "Calculation")
	g.press("2").shows("wrote header-lay-up-sheet.pdf, beside the document")
	if !contains(t, paper, "%PDF-1") {
		t.Error("no PDF")
	}
	if err := os.WriteFile(paper, []byte("another"), 0o600); err != nil {
		t.Fatal(err)
	}
	g.press("k 2").shows("already", "1 write this one over it", "2 leave it as it is")
	g.press("enter").shows("left ")
	if !contains(t, paper, "another") {
		t.Error("it was written over by Enter")
	}
	g.press("k 2 1").shows("wrote ")
	if !contains(t, paper, "%PDF-1") {
		t.Error("it was not written over when that was said")
	}
}

func TestPapers_thatCannotBeWrittenSayWhy(t *testing.T) {
	g := header(t, 80, 24)
	path := strings.TrimSuffix(g.r.Document().Path(), ".toml") + "-calculation.pdf"
	if err := os.Mkdir(path, 0o755); err != nil {
		t.Fatal(err)
	}
	g.press("k 5")
	if !g.r.desk.Notice.Refusal || !strings.Contains(g.r.desk.Notice.Text, "-calculation.pdf") {
		t.Errorf("said %+v", g.r.desk.Notice)
	}
}
