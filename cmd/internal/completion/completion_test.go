package completion_test

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/alecthomas/kong"
	"github.com/google/go-cmp/cmp"

	"frp/veilwright/cmd/internal/completion"
)

type side string

func (side) Words() []string { return []string{"inside", "outside"} }

type grammar struct {
	Loud bool   `help:"Loud."`
	Side side   `help:"Side."`
	Book string `complete:"documents"`

	Look struct {
		Files []string `arg:"" complete:"documents"`
	} `cmd:""`
	Learn struct {
		Deep bool
		ID   string `arg:"" optional:"" complete:"ids"`
	} `cmd:""`
	Move struct {
		From string `arg:"" complete:"documents"`
		To   string `arg:"" complete:"folders"`
	} `cmd:""`
	Secret struct{} `cmd:"" hidden:""`
}

func TestWords_followTheGrammar(t *testing.T) {
	t.Chdir(t.TempDir())
	for _, f := range []string{"lamp.toml", "letter.txt", "jobs/a.toml", "jobs/old/b.toml", ".dot.toml", "bell\a.toml"} {
		if err := os.MkdirAll(filepath.Dir(f), 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(f, nil, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	parser, err := kong.New(&grammar{})
	if err != nil {
		t.Fatal(err)
	}
	from := completion.Sources{"ids": func() []string { return []string{"veil-missing", "veil-outside-ph", "zones-inferred"} }}
	for line, want := range map[string]string{
		"":                       "jobs/ lamp.toml learn look move",
		"l":                      "lamp.toml learn look",
		"s":                      "",
		"lo":                     "look",
		"--":                     "--book --help --loud --side",
		"--side ":                "inside outside",
		"--side o":               "outside",
		"--side=i":               "--side=inside",
		"--side =":               "inside outside",
		"--side = o":             "outside",
		"--loud=":                "",
		"--book j":               "jobs/",
		"look ":                  "jobs/ lamp.toml",
		"look jobs/":             "jobs/a.toml jobs/old/",
		"look lamp.toml jo":      "jobs/",
		"look .":                 ".dot.toml",
		"look nowhere/":          "",
		"learn veil":             "veil-missing veil-outside-ph",
		"learn --d":              "--deep",
		"learn --deep z":         "zones-inferred",
		"learn zones-inferred v": "",
		"--side inside lea":      "learn",
		"move lamp.toml ":        "jobs/",
		"look -- --":             "",
		"lamp.toml l":            "",
		"-- l":                   "lamp.toml learn look",
	} {
		got := strings.Join(completion.Words(parser.Model, strings.Split(line, " "), from), " ")
		if d := cmp.Diff(want, got); d != "" {
			t.Errorf("after %q: %s", line, d)
		}
	}
}

func TestScript_isThereForEveryShell(t *testing.T) {
	for _, s := range completion.Shells() {
		if text := completion.Script(s); !strings.Contains(text, "complete --") || !strings.Contains(text, "veilwright completion "+string(s)) {
			t.Errorf("%s: the script does not ask the program or does not say how it is read:\n%s", s, text)
		}
	}
}
