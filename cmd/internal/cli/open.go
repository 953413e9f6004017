package cli

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strings"

	"frp/veilwright/cmd/internal/output"
	"frp/veilwright/laminate"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/rules"
	"frp/veilwright/rules/all"
	"frp/veilwright/schedules"
	"frp/veilwright/schedules/editor"
	"frp/veilwright/tui"
)

// openCommandArgs opens the terminal program. It has no name on a command
// line: see dispatch.
type openCommandArgs struct {
	File string `arg:"" optional:"" help:"A schedule, or a folder to open one from; the example if left out." complete:"documents"`
}

// Help is shown under the command's flags.
func (openCommandArgs) Help() string {
	return `Opens the terminal program on a schedule. A file that does not exist yet is created by saving.

    veilwright
    veilwright header.toml
    veilwright --theme light --units si jobs/`
}

// Run opens the document and runs the program on it until a person quits.
func (k openCommandArgs) Run(c *call) error {
	if c.JSON {
		return errors.New("--json is for commands that report, such as veilwright check --json FILE")
	}
	options := c.editing()
	d, folder, err := k.document(options)
	var unsound *editor.ProblemsError
	if errors.As(err, &unsound) {
		c.sayUnread(&document{input: input{name: k.File}, problems: unsound.Problems}, nil)
		c.ends(Unusable)
		return nil
	}
	if err != nil {
		return err
	}
	if c.Units != unitsAsWritten {
		d.SetUnits(c.units(&laminate.Schedule{}))
	}
	err = tui.Run(d, tui.Options{Theme: string(c.Theme), Folder: folder, List: folder != "" && folder == k.File, Editor: options})
	if err != nil {
		for line := range strings.Lines(err.Error()) {
			c.say.Say("%s", strings.TrimRight(line, "\n"))
		}
		c.ends(Unusable)
	}
	return nil
}

// document opens what the call names, and says where to look for others.
func (k openCommandArgs) document(o editor.Options) (d *editor.Document, folder string, err error) {
	if k.File == "" {
		d, err = editor.FromBytes("example", schedules.Example(), o)
		return d, "", err
	}
	info, err := os.Stat(k.File)
	switch {
	case err == nil && info.IsDir():
		d, err = editor.FromBytes("new schedule", schedules.Blank(""), o)
		return d, k.File, err
	case errors.Is(err, fs.ErrNotExist):
		if _, err := os.Stat(filepath.Dir(k.File)); err != nil {
			return nil, "", fmt.Errorf("%s: its folder does not exist", k.File)
		}
		title := strings.TrimSuffix(filepath.Base(k.File), filepath.Ext(k.File))
		d, err = editor.FromBytes(k.File, schedules.Blank(title), o)
		return d, filepath.Dir(k.File), err
	}
	d, err = editor.Open(k.File, o)
	return d, filepath.Dir(k.File), err
}

// editing is what open documents need: libraries read anew each time, so that a
// shop book that was fixed counts at once, and the rules.
func (c *call) editing() editor.Options {
	list := all.Rules()
	return editor.Options{
		Library: func(folder string) (*laminate.Library, error) {
			// Nothing may be printed while the program holds the screen: what
			// is wrong is in the error.
			quiet := *c
			quiet.mute = true
			quiet.say = output.NewMessages(io.Discard)
			return newShelf(&quiet).library(folder)
		},
		// Fixes are tried out when a page asks for one (rules.Report.Fix):
		// all of them at every key would cost many judgments.
		Judge: func(s *laminate.Schedule, lib *laminate.Library, units quantity.System) *rules.Report {
			return rules.Judge(list, s, lib, rules.Options{Units: units})
		},
	}
}
