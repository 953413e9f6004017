package cli

import (
	"errors"
	"io"

	"github.com/alecthomas/kong"

	"frp/veilwright/cmd/internal/completion"
	"frp/veilwright/cmd/internal/flag"
	"frp/veilwright/laminate/word"
)

// The kinds of words that completion asks the packages below for.
const (
	completeRules     completion.Kind = "rules"
	completeMaterials completion.Kind = "materials"
	completeExercises completion.Kind = "exercises"
)

type completionCommand struct {
	Shell shellName `arg:"" help:"bash, zsh or fish."`
}

// Help is shown under the command's flags.
func (completionCommand) Help() string {
	return `For this shell, and for every new one:

    source <(veilwright completion bash)
    echo 'source <(veilwright completion bash)' >> ~/.bashrc`
}

// Run prints the script.
func (k completionCommand) Run(c *call) error {
	_, err := io.WriteString(c.out, completion.Script(completion.Shell(k.Shell)))
	return err
}

// shellName is the word of a shell.
type shellName completion.Shell

// UnmarshalText reads a shell's name.
func (s *shellName) UnmarshalText(text []byte) error {
	var known []shellName
	for _, k := range completion.Shells() {
		known = append(known, shellName(k))
	}
	return flag.OneOf(s, text, known...)
}

// Words lists the shells.
func (shellName) Words() []string {
	var words []string
	for _, s := range completion.Shells() {
		words = append(words, string(s))
	}
	return words
}

// completeCommand answers the scripts: one word a line.
type completeCommand struct {
	Typed []string `arg:"" optional:"" help:"The words so far."`
}

// Run lists what the last word can become.
func (k completeCommand) Run(c *call, ctx *kong.Context) error {
	if ctx.Model == nil {
		return errors.New("completing a command line: no grammar")
	}
	from := completion.Sources{completeRules: ruleIDs, completeMaterials: catalogIDs, completeExercises: exerciseIDs}
	for _, w := range completion.Words(ctx.Model, k.Typed, from) {
		c.out.Line("%s", word.Clean(w))
	}
	return nil
}
