package cli

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// The schedule that README.md prints has no finding but notes.
func TestReadme_scheduleIsClear(t *testing.T) {
	text, err := os.ReadFile("../../../README.md")
	if err != nil {
		t.Fatal(err)
	}
	_, rest, found := strings.Cut(string(text), "```toml\n")
	schedule, _, closed := strings.Cut(rest, "```\n")
	if !found || !closed {
		t.Fatal("README.md has no schedule")
	}
	path := filepath.Join(t.TempDir(), "readme.toml")
	if err := os.WriteFile(path, []byte(schedule), 0o644); err != nil {
		t.Fatal(err)
	}
	out, problems, code := run("check", path)
	if code != 0 || problems != "" || !strings.Contains(out, ": clear (") {
		t.Errorf("check ends with %d: %s%s", code, out, problems)
	}
}
