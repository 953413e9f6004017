package house

import (
	"encoding/json"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
)

// systems are those that the program is built for.
var systems = []string{"linux", "darwin", "windows"}

// dependency is what go list says of one.
type dependency struct {
	Path, Version, Dir string
	Main               bool
	Replace            *dependency
}

// builtIn is every module with code in the program on some system, by path.
func builtIn(t *testing.T) map[string]string {
	t.Helper()
	dirs := map[string]string{}
	for _, system := range systems {
		cmd := exec.Command("go", "list", "-deps", "-f", "{{with .Module}}{{if not .Main}}{{.Path}}\t{{.Dir}}{{end}}{{end}}", "./cmd/veilwright")
		cmd.Dir, cmd.Env = root(t), append(os.Environ(), "GOOS="+system)
		out, err := cmd.Output()
		if err != nil {
			t.Fatalf("go list for %s: %v", system, err)
		}
		for line := range strings.Lines(string(out)) {
			if path, dir, ok := strings.Cut(strings.TrimSpace(line), "\t"); ok {
				dirs[path] = dir
			}
		}
	}
	return dirs
}

// Words that only this license has.
var licenses = map[string]*regexp.Regexp{
	"MIT":          regexp.MustCompile(`(?i)permission is hereby granted, free of charge`),
	"BSD-3-Clause": regexp.MustCompile(`(?s)Redistribution and use in source and binary forms.*Neither the name`),
}

func TestLicenses_ofEveryModuleBuiltInAreListed(t *testing.T) {
	text, err := os.ReadFile(filepath.Join(root(t), "DEVELOPERS.md"))
	if err != nil {
		t.Fatal(err)
	}
	_, section, _ := strings.Cut(string(text), "\n## Licenses\n")
	section, _, _ = strings.Cut(section, "\n## ")
	said := map[string]string{}
	for _, m := range regexp.MustCompile(`(?m)^\| (\S+\.\S+) \| ([^|]+) \|$`).FindAllStringSubmatch(section, -1) {
		said[m[1]] = m[2]
	}
	dirs := builtIn(t)
	for path := range said {
		if dirs[path] == "" {
			t.Errorf("%s is listed, and not built in", path)
		}
	}
	for path, dir := range dirs {
		name, from, _ := strings.Cut(said[path], ",")
		words := licenses[name]
		if words == nil {
			t.Errorf("%s is built in, and DEVELOPERS.md says no license that is known: %q", path, said[path])
			continue
		}
		files, err := filepath.Glob(filepath.Join(dir, "[LCR][IOE][CPA]*")) // LICENSE, COPYING, README
		if err != nil {
			t.Fatal(err)
		}
		if !slices.ContainsFunc(files, func(file string) bool {
			readme := strings.HasPrefix(filepath.Base(file), "README")
			b, err := os.ReadFile(file)
			return err == nil && (!readme && words.Match(b) || readme && from != "" && strings.Contains(string(b), name))
		}) {
			t.Errorf("%s is said to be under %s, and no file of it says so: %q", path, said[path], files)
		}
	}
}

// A replacement stands in go.mod as long as something would pull in what it
// keeps out; whether that is still bad is for .ci/run to measure.
func TestReplacements_areNeeded(t *testing.T) {
	cmd := exec.Command("go", "list", "-m", "-json", "github.com/mattn/go-runewidth")
	cmd.Dir = root(t)
	out, err := cmd.Output()
	if err != nil {
		t.Fatal(err)
	}
	var m dependency
	if err := json.Unmarshal(out, &m); err != nil {
		t.Fatal(err)
	}
	if m.Replace == nil || m.Version == m.Replace.Version {
		t.Errorf("%s is asked for at %s, which the replacement says again: take it out of go.mod", m.Path, m.Version)
	}
	text, err := os.ReadFile(filepath.Join(root(t), "go.mod"))
	if err != nil {
		t.Fatal(err)
	}
	if n := strings.Count(string(text), "\nreplace "); n != 1 {
		t.Errorf("go.mod has %d replacements, and one is looked after here", n)
	}
}
