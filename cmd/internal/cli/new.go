package cli

import (
	"bytes"
	"errors"
	"fmt"
	"path/filepath"
	"strings"

	"frp/veilwright/schedules"
	"frp/veilwright/schedules/store"
)

type newCommand struct {
	File    string `arg:"" optional:"" help:"The file to make, ending in .toml; left out, or -, standard output." complete:"documents"`
	Title   string `help:"Title of the schedule; left out, the file's name."`
	Example bool   `help:"The example that the terminal program opens with, instead of an empty schedule."`
}

// Help is shown under the command's flags.
func (newCommand) Help() string {
	return `An empty schedule with every key that usually matters, commented out. A file that is there is never touched.

    veilwright new header.toml
    veilwright new --title "Brine return header" --units si header.toml
    veilwright new --example | veilwright check -`
}

// Run makes the document.
func (k newCommand) Run(c *call) error {
	if c.JSON {
		return errors.New("new makes a document and has no JSON")
	}
	text, err := k.text(c)
	if err != nil {
		return err
	}
	if k.File == "" || k.File == stdinName {
		_, err := c.out.Write(text)
		return err
	}
	if !strings.HasSuffix(k.File, store.Extension) {
		return fmt.Errorf("%s: the name of a document ends in %s", k.File, store.Extension)
	}
	_, err = store.Write(k.File, text, &store.Fingerprint{})
	var conflict *store.ConflictError
	if errors.As(err, &conflict) {
		return fmt.Errorf("%s: is there already and was left as it is", k.File)
	}
	return err
}

func (k newCommand) text(c *call) ([]byte, error) {
	if k.Example {
		if k.Title != "" || c.Units != unitsAsWritten {
			return nil, errors.New("--example has a title and units of its own")
		}
		return schedules.Example(), nil
	}
	title := k.Title
	if title == "" && k.File != "" && k.File != stdinName {
		title = strings.TrimSuffix(filepath.Base(k.File), filepath.Ext(k.File))
	}
	text := schedules.Blank(title)
	if c.Units == unitsSI {
		text = bytes.Replace(text, []byte("units    = \"us\""), []byte("units    = \"si\""), 1)
	}
	return text, nil
}
