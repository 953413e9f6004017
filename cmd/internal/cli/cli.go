package cli

import (
	"errors"
	"fmt"
	"io"
	"os"
	"os/signal"
	"reflect"
	"strings"
	"syscall"

	"github.com/alecthomas/kong"

	"frp/veilwright/cmd/internal/output"
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
	Units  unitsFlag        `placeholder:"us|si" help:"Units of text and screens; left out, each document's own."`
	Book   string           `placeholder:"FILE" xor:"book" help:"Use this shop book instead of those that lie beside the documents."`
	NoBook bool             `xor:"book" help:"Use no shop book."`
	Theme  themeFlag        `placeholder:"dark|light|mono" help:"Colors of the terminal program."`
	Shown  helpFlag         `name:"help" short:"h" help:"Say how this command is used."`
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
	out  *output.Sink
	say  output.Messages
	code Code

	shop  *shop.Shop      // see books
	said  map[string]bool // shop books whose problems were said
	piped bool            // standard input was named
}

// ends notes a code; the call ends with the worst of all.
func (c *call) ends(code Code) { c.code = c.code.worse(code) }

// Run answers one command line, without the program's name. It ends no
// process and leaves no goroutine.
func Run(args []string, p Process) Code {
	c := &call{Process: p, out: output.NewSink(p.Out), say: output.NewMessages(p.Err), said: map[string]bool{}}
	c.run(args)
	if err := c.out.Close(); err != nil {
		c.say.Say("writing results: %v", reason(err))
		c.ends(Unusable)
	}
	return c.code
}

func (c *call) run(args []string) {
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
	if err := ctx.Run(c); err != nil {
		c.refuse(err)
	}
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

// refuse says why the call cannot be used.
func (c *call) refuse(err error) {
	c.say.Say("%v", err)
	c.ends(Unusable)
}

// wording gives a parser's message the voice of the program.
func wording(err error) error {
	text := strings.TrimSpace(err.Error())
	if name, _, ok := strings.Cut(text, ": expected "); ok && strings.HasSuffix(text, "(<EOL>)") {
		text = name + " needs a value"
	}
	var parse *kong.ParseError
	if errors.As(err, &parse) && parse.Context != nil {
		command := "veilwright"
		if selected := parse.Context.Selected(); selected != nil {
			command += " " + selected.Name
		}
		return fmt.Errorf("%s; see %s --help", text, command)
	}
	return errors.New(text)
}

// reason is an error without the operation and path that the operating
// system's errors carry.
func reason(err error) error {
	var path *os.PathError
	if errors.As(err, &path) {
		return path.Err
	}
	return err
}
