package cli

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"

	"frp/veilwright/cmd/internal/flag"
	"frp/veilwright/laminate"
	"frp/veilwright/schedules"
	"frp/veilwright/schedules/editor"
	"frp/veilwright/schedules/shop"
	"frp/veilwright/tui"
)

// openCommandArgs opens the terminal program. It has no name on a command
// line: see dispatch.
type openCommandArgs struct {
	File string `arg:"" optional:"" help:"A schedule, or a folder to open one from; the start page if left out." complete:"documents"`
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
	tui.Opening()
	s := c.fresh()
	d, folder, err := k.document(s)
	if unsound, ok := errors.AsType[*editor.ProblemsError](err); ok {
		unsound.Name = k.File
		c.unread(unsound.Opened)
		return nil
	}
	if err != nil {
		return err
	}
	if c.Units != flag.UnitsAsWritten {
		d.SetUnits(c.units(&laminate.Schedule{}))
	}
	err = tui.Run(d, tui.Options{Theme: string(c.Theme), Folder: folder, List: folder != "" && folder == k.File, Start: k.File == "", Shop: s})
	if err != nil {
		for line := range strings.Lines(err.Error()) {
			c.say.Say("%s", strings.TrimRight(line, "\n"))
		}
		c.ends(Unusable)
	}
	return nil
}

// document opens what the call names, and says where to look for others.
func (k openCommandArgs) document(s *shop.Shop) (d *editor.Document, folder string, err error) {
	if k.File == "" {
		d, err = editor.FromBytes("new schedule", schedules.Blank(""), s)
		return d, "", err
	}
	info, err := os.Stat(k.File)
	switch {
	case err == nil && info.IsDir():
		d, err = editor.FromBytes("new schedule", schedules.Blank(""), s)
		return d, k.File, err
	case errors.Is(err, fs.ErrNotExist):
		if _, err := os.Stat(filepath.Dir(k.File)); err != nil {
			return nil, "", fmt.Errorf("%s: its folder does not exist", k.File)
		}
		title := strings.TrimSuffix(filepath.Base(k.File), filepath.Ext(k.File))
		d, err = editor.FromBytes(k.File, schedules.Blank(title), s)
		return d, filepath.Dir(k.File), err
	}
	d, err = editor.Open(k.File, s)
	return d, filepath.Dir(k.File), err
}

// fresh is a shop that reads books anew each time, and says nothing while the
// terminal program holds the screen.
func (c *call) fresh() *shop.Shop {
	return shop.New(shop.Options{Book: c.Book, NoBook: c.NoBook})
}
