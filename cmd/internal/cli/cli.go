package cli

import (
	"errors"
	"fmt"
	"io"
	"os"
	"os/signal"
	"reflect"
	"slices"
	"strings"
	"syscall"

	"github.com/alecthomas/kong"

	"frp/veilwright/cmd/internal/flag"
	"frp/veilwright/cmd/internal/output"
	"frp/veilwright/cmd/internal/report"
	"frp/veilwright/laminate/word"
	"frp/veilwright/schedules/paper/forms"
	"frp/veilwright/schedules/shop"
)

// Process is what a call may touch besides the files it names.
type Process struct {
	In       io.Reader
	Out, Err io.Writer
	Getenv   func(string) string
}

// Main answers the command line of the process that runs.
func Main() Code {
	// A reader that goes away becomes an error that can be told, not a death by signal.
	signal.Ignore(syscall.SIGPIPE)
	return Run(os.Args[1:], Process{In: os.Stdin, Out: os.Stdout, Err: os.Stderr, Getenv: os.Getenv})
}

// Globals are the flags that stand with every command.
type Globals struct {
	JSON   bool             `name:"json" help:"Print one JSON value instead of text."`
	Units  flag.Units       `placeholder:"us|si" help:"Units of text and screens; each document's own if left out."`
	Book   string           `placeholder:"FILE" xor:"book" help:"Use this shop book instead of those beside the documents."`
	NoBook bool             `xor:"book" help:"Use no shop book."`
	Theme  flag.Theme       `placeholder:"dark|light|plain|mono" help:"Colors of the terminal program."`
	Shown  helpFlag         `name:"help" short:"h" help:"Show how to use this command."`
	Told   kong.VersionFlag `name:"version" help:"Print the version."`
}

// helpFlag prints the help of the command it stands with.
type helpFlag bool

// BeforeReset runs before anything is validated, so that help is given for a
// call that lacks its arguments.
func (helpFlag) BeforeReset(ctx *kong.Context) error {
	if err := ctx.PrintUsage(false); err != nil {
		return err
	}
	ctx.Exit(0)
	return nil
}

// call is one run of one command.
type call struct {
	Globals
	Process
	out     *output.Sink
	say     output.Messages
	code    Code
	command string // the last word of it

	shop  *shop.Shop      // see books
	said  map[string]bool // shop books whose problems were said
	piped bool            // standard input was named
}

// ends notes a code; the call ends with the worst of all.
func (c *call) ends(code Code) { c.code = c.code.worse(code) }

// Run answers one command line, without the program's name. It ends no
// process and leaves no goroutine.
func Run(args []string, p Process) Code {
	c := &call{Process: p, out: output.NewSink(p.Out, p.Getenv), say: output.NewMessages(p.Err, p.Getenv), said: map[string]bool{}}
	c.run(args)
	if err := c.out.Close(); err != nil {
		// Whoever reads no further knows that they do not.
		if !output.ReaderGone(err) {
			c.say.Say("writing results: %v", reason(err))
		}
		c.ends(Unusable)
	}
	return c.code
}

func (c *call) run(args []string) {
	if file, ok := plainOpening(args); ok {
		if err := (openCommandArgs{File: file}).Run(c); err != nil {
			c.refuse(err)
		}
		return
	}
	c.JSON = asksJSON(args) // for whatever goes wrong before the flags are read
	var g grammar
	done := false
	parser, err := kong.New(&g,
		kong.Name("veilwright"),
		kong.Description(description),
		kong.Writers(c.out, c.Err),
		kong.Exit(func(int) { done = true }),
		kong.NoDefaultHelp(),
		kong.ConfigureHelp(kong.HelpOptions{Compact: true, WrapUpperBound: 100}),
		kong.KindMapper(reflect.String, kong.MapperFunc(asTyped)),
		kong.Vars{"version": version()},
	)
	if err != nil {
		// A fault of the grammar, which a test would have shown.
		c.say.Say("reading the grammar: %v", err)
		c.ends(Unusable)
		return
	}
	for _, n := range parser.Model.Leaves(true) {
		if k := forms.Named(n.Name); k != nil && n.Parent.Name == "print" {
			n.Detail = k.Help()
		}
	}
	args, err = dispatch(parser.Model, args)
	if err != nil {
		c.refuse(err)
		return
	}
	ctx, err := parser.Parse(args)
	if done {
		return
	}
	if err != nil {
		c.refuse(wording(err))
		return
	}
	c.Globals = g.Globals
	c.command = ctx.Selected().Name
	if err := ctx.Run(c); err != nil {
		c.refuse(err)
	}
}

// plainOpening tells whether a call only opens the terminal program: it names
// nothing, or one document and no flag. Building the grammar would take longer
// than all else of a start.
func plainOpening(args []string) (file string, ok bool) {
	switch {
	case len(args) == 0:
		return "", true
	case len(args) == 1 && !strings.HasPrefix(args[0], "-") && strings.HasSuffix(args[0], ".toml"):
		return args[0], true
	}
	return "", false
}

// asTyped takes an argument byte for byte: the parser's own mapper goes through
// JSON, which rewrites the name of a file that is not UTF-8.
func asTyped(ctx *kong.DecodeContext, target reflect.Value) error {
	t, err := ctx.Scan.PopValue("string")
	if err != nil {
		return err
	}
	target.SetString(t.String())
	return nil
}

// asksJSON tells whether the call asks for JSON, however it goes on.
func asksJSON(args []string) bool {
	if end := slices.Index(args, "--"); end >= 0 {
		args = args[:end]
	}
	return slices.Contains(args, "--json")
}

// refuse says why the call cannot be used, as JSON too where that was asked for.
func (c *call) refuse(err error) {
	c.say.Say("%v", err)
	c.ends(Unusable)
	if !c.JSON {
		return
	}
	// What cannot be written is told at the end.
	_ = c.out.JSON(struct {
		Verdict  string           `json:"verdict"`
		Error    string           `json:"error"`
		Problems []report.Problem `json:"problems"`
	}{report.Unusable, err.Error(), []report.Problem{}})
}

// wording gives a parser's message the voice of the program.
func wording(err error) error {
	text := strings.TrimSpace(err.Error())
	name, wanted, ofValue := strings.Cut(text, ": expected ")
	switch {
	case ofValue && strings.HasSuffix(wanted, "(<EOL>)"):
		text = name + " needs a value"
	case ofValue && strings.Contains(wanted, "uint"):
		_, got, _ := strings.Cut(wanted, " but got ")
		got, _, _ = strings.Cut(got, " (short flag)")
		text = name + ": a whole number above zero is expected, not " + got
	case ofValue && strings.Contains(wanted, "(short flag)"):
		text = name + " needs a value; one that begins with - is written " + name + "=-…"
	case ofValue && strings.HasPrefix(wanted, "a valid 64 bit "):
		_, got, _ := strings.Cut(wanted, " but got ")
		text = name + ": a whole number is expected, not " + got
	}
	if parse, ok := errors.AsType[*kong.ParseError](err); ok && parse.Context != nil {
		command := "veilwright"
		if selected := parse.Context.Selected(); selected != nil {
			command += " " + selected.Name
		}
		// The parser's own guess goes too far.
		text, _, _ = strings.Cut(text, ", did you mean ")
		if flag, ok := strings.CutPrefix(text, "unknown flag --"); ok {
			var flags []string
			for _, f := range parse.Context.Flags() {
				flags = append(flags, f.Name)
			}
			if near := word.Nearest(flag, flags); near != "" {
				text += ", did you mean --" + near + "?"
			}
		}
		return fmt.Errorf("%s; see %s --help", text, command)
	}
	return errors.New(text)
}

// reason is an error without the operation and path that the operating
// system's errors carry.
func reason(err error) error {
	if path, ok := errors.AsType[*os.PathError](err); ok {
		return path.Err
	}
	return err
}
