package app

import (
	"flag"
	"os"
	"strings"
	"testing"

	"frp/veilwright/schedules"
)

// The picture in README.md is the bench on the built-in example, drawn by the
// program that runs; -update draws it anew.
func TestReadme_pictureIsTheBench(t *testing.T) {
	const path, begin, end = "../../../README.md", "```text\n", "```\n"
	text, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	before, rest, found := strings.Cut(string(text), begin)
	old, after, closed := strings.Cut(rest, end)
	if !found || !closed {
		t.Fatal("README.md has no picture")
	}
	var lines []string
	for line := range strings.Lines(fresh(t, string(schedules.Example()), 80, 24).screen()) {
		lines = append(lines, strings.TrimRight(line, " \n"))
	}
	screen := strings.Join(lines, "\n") + "\n"
	if flag.Lookup("update").Value.String() == "true" {
		if err := os.WriteFile(path, []byte(before+begin+screen+end+after), 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	if old != screen {
		t.Errorf("README.md shows\n%s\nthe bench is\n%s", old, screen)
	}
}
