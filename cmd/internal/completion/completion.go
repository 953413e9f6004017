// Package completion finishes command lines in bash, zsh and fish. The shells'
// scripts only hand over the words typed so far; what may follow is worked out
// here, from the grammar that also reads the call, so the three never differ
// from it or from each other.
package completion

import (
	_ "embed"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"unicode"

	"github.com/alecthomas/kong"
)

//go:embed bash.txt
var bash string

//go:embed zsh.txt
var zsh string

//go:embed fish.txt
var fish string

// Shell is a shell that a script is there for.
type Shell string

// The shells.
const (
	Bash Shell = "bash"
	Zsh  Shell = "zsh"
	Fish Shell = "fish"
)

// Shells lists them.
func Shells() []Shell { return []Shell{Bash, Zsh, Fish} }

// Script is what the shell has to read once; "" for a shell not listed.
func Script(s Shell) string {
	switch s {
	case Bash:
		return bash
	case Zsh:
		return zsh
	case Fish:
		return fish
	}
	return ""
}

// Choice is a flag's or an argument's value out of a closed set.
type Choice interface{ Words() []string }

// Kind is what the `complete` tag of an argument or flag asks for.
type Kind string

// The kinds that need more than the grammar.
const (
	Documents Kind = "documents" // *.toml files, and folders on the way to them
	Folders   Kind = "folders"
)

// Sources gives the words of further kinds by name, such as rule ids.
type Sources map[Kind]func() []string

// Words lists what the last of the words typed so far can become. The words
// are those after the program's name.
func Words(app *kong.Application, typed []string, from Sources) []string {
	if len(typed) == 0 {
		typed = []string{""}
	}
	s := &state{app: app, node: app.Node, from: from}
	for _, w := range rejoin(typed[:len(typed)-1]) {
		s.pass(w)
	}
	last := typed[len(typed)-1]
	if last == "=" && s.pending != nil {
		last = ""
	}
	found := s.candidates(last)
	slices.Sort(found)
	return slices.Compact(found)
}

// rejoin drops the lone "=" that bash makes of --flag=value, so that the flag
// is followed by its value.
func rejoin(words []string) []string {
	return slices.DeleteFunc(slices.Clone(words), func(w string) bool { return w == "=" })
}

type state struct {
	app     *kong.Application
	node    *kong.Node
	from    Sources
	pending *kong.Flag // a flag that waits for its value
	given   int        // positional arguments passed
	rest    bool       // after "--"
}

// pass takes a word that stands before the cursor.
func (s *state) pass(w string) {
	switch {
	case s.pending != nil:
		s.pending = nil
	case w == "--" && !s.rest:
		s.rest = true
	case strings.HasPrefix(w, "-") && len(w) > 1 && !s.rest:
		if f := s.flag(w); f != nil && !f.IsBool() {
			s.pending = f
		}
	case s.node == s.app.Node:
		for _, n := range s.app.Children {
			if n.Name == w && !n.Hidden {
				s.node = n
				return
			}
		}
		s.given++
	default:
		s.given++
	}
}

func (s *state) flag(w string) *kong.Flag {
	for _, group := range s.node.AllFlags(false) {
		for _, f := range group {
			if w == "--"+f.Name || f.Short != 0 && w == "-"+string(f.Short) {
				return f
			}
		}
	}
	return nil
}

func (s *state) candidates(last string) []string {
	if s.pending != nil {
		return s.values(s.pending.Value, last)
	}
	if !s.rest && strings.HasPrefix(last, "-") {
		return s.flags(last)
	}
	if s.node == s.app.Node {
		if s.given > 0 {
			return nil
		}
		return append(s.commands(last), files(last, true)...)
	}
	at := s.given
	if n := len(s.node.Positional); at >= n {
		if n == 0 || !s.node.Positional[n-1].IsCumulative() {
			return nil
		}
		at = n - 1
	}
	return s.values(s.node.Positional[at], last)
}

func (s *state) commands(prefix string) []string {
	var found []string
	for _, n := range s.app.Children {
		if !n.Hidden && strings.HasPrefix(n.Name, prefix) {
			found = append(found, n.Name)
		}
	}
	return found
}

// flags completes a flag's name, or the value behind --flag=.
func (s *state) flags(last string) []string {
	if name, value, ok := strings.Cut(last, "="); ok {
		f := s.flag(name)
		if f == nil || f.IsBool() {
			return nil
		}
		found := s.values(f.Value, value)
		for i := range found {
			found[i] = name + "=" + found[i]
		}
		return found
	}
	var found []string
	for _, group := range s.node.AllFlags(true) {
		for _, f := range group {
			if strings.HasPrefix("--"+f.Name, last) {
				found = append(found, "--"+f.Name)
			}
		}
	}
	return found
}

func (s *state) values(v *kong.Value, prefix string) []string {
	if c, ok := v.Target.Interface().(Choice); ok {
		return filter(c.Words(), prefix)
	}
	kind := Kind(v.Tag.Get("complete"))
	switch kind {
	case Documents:
		return files(prefix, true)
	case Folders:
		return files(prefix, false)
	}
	if words, ok := s.from[kind]; ok {
		return filter(words(), prefix)
	}
	return nil
}

func filter(words []string, prefix string) []string {
	var found []string
	for _, w := range words {
		if strings.HasPrefix(w, prefix) {
			found = append(found, w)
		}
	}
	return found
}

// files lists what begins with the prefix: folders with a "/" behind them and,
// where documents are asked for, *.toml files. Names that a shell or terminal
// would stumble over are left out.
func files(prefix string, documents bool) []string {
	folder, start := filepath.Split(prefix)
	where := folder
	if where == "" {
		where = "."
	}
	entries, err := os.ReadDir(where)
	if err != nil {
		return nil
	}
	var found []string
	for _, e := range entries {
		name := e.Name()
		if !strings.HasPrefix(name, start) || strings.HasPrefix(name, ".") && start == "" || strings.ContainsFunc(name, unicode.IsControl) {
			continue
		}
		info, err := os.Stat(filepath.Join(where, name))
		switch {
		case err != nil:
		case info.IsDir():
			found = append(found, folder+name+"/")
		case documents && filepath.Ext(name) == ".toml":
			found = append(found, folder+name)
		}
	}
	return found
}
