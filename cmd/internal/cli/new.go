package cli

import (
	"bytes"
	"errors"
	"fmt"
	"path/filepath"
	"strings"

	"frp/veilwright/cmd/internal/flag"
	"frp/veilwright/laminate"
	"frp/veilwright/laminate/record"
	"frp/veilwright/schedules"
	"frp/veilwright/schedules/recorder"
	"frp/veilwright/schedules/store"
)

type newCommand struct {
	File    []string  `arg:"" optional:"" help:"The file to make, ending in .toml; standard output if left out or -." complete:"documents"`
	Kind    flag.Kind `placeholder:"schedule|job|specification|record|shop-book" help:"What to make; a schedule if left out."`
	Title   string    `help:"Title of the document; the file's name if left out. A record has none."`
	Of      string    `placeholder:"SCHEDULE" help:"The schedule or job of a record: its name, revision and fingerprint are written into it." complete:"documents"`
	Part    string    `help:"Of a job: the part that the record is of."`
	Joint   string    `help:"Of a job: the joint or nozzle that the record is of."`
	Overlay string    `help:"And what is laid there: outside or inside of a joint; neck, installation-inside, pad or installation-outside of a nozzle; knuckle of a bottom."`
	Example bool      `help:"The example that the terminal program opens with, or with job a tank of several parts, instead of an empty document."`
}

// plain tells of a schedule, which is what is made where nothing is said.
func plain(f flag.Kind) bool { return f == "" || f == flag.Schedule }

// Help is shown under the command's flags.
func (newCommand) Help() string {
	return `An empty document with every usual key, commented out, and the values it takes: a schedule; a job of several parts, with joints and nozzles; a purchaser's specification, and a record of what was laid and measured, which compare reads; a shop book of your own materials, resins and ratings. An existing file is never overwritten.

    veilwright new header.toml
    veilwright new --kind job tank.toml
    veilwright new --kind specification spec.toml
    veilwright new --kind record --of header.toml header-17.toml
    veilwright new --kind record --of tank.toml --joint J2 --overlay outside tank-J2-strap.toml
    veilwright new --kind shop-book shop-book.toml
    veilwright new --title "Brine return header" --units si header.toml
    veilwright new --example | veilwright check -
    veilwright new --example job tank.toml`
}

// Run makes the document.
func (k newCommand) Run(c *call) error {
	if c.JSON {
		return errors.New("new makes a document and has no JSON output")
	}
	if k.Example && len(k.File) > 0 && k.File[0] == string(flag.Job) { // new --example job [FILE]
		k.Kind, k.File = flag.Job, k.File[1:]
	}
	file := append(k.File, stdinName)[0]
	switch {
	case len(k.File) > 1:
		return fmt.Errorf("%s and %s: new makes one document at a time", k.File[0], k.File[1])
	case file == "":
		return errors.New("the file name is empty")
	case file != stdinName && !strings.HasSuffix(file, store.Extension):
		return fmt.Errorf("%s: the name of a document has to end in %s", file, store.Extension)
	}
	text, err := k.text(c, file)
	if err != nil {
		return err
	}
	if file == stdinName {
		_, err := c.out.Write(text)
		return err
	}
	return fresh(file, text)
}

// fresh writes a file that is not there yet.
func fresh(file string, text []byte) error {
	_, err := store.Replace(file, text, store.Terms{})
	if _, ok := errors.AsType[*store.ConflictError](err); ok {
		return fmt.Errorf("%s: already exists; not changed", file)
	}
	return err
}

func (k newCommand) text(c *call, file string) ([]byte, error) {
	isRecord := k.Kind == flag.Record
	switch {
	case k.Of+k.Part+k.Joint+k.Overlay != "" && !isRecord:
		return nil, errors.New("--of, --part, --joint and --overlay say what a record is of: use them with --kind record")
	case k.Example && (k.Title != "" || c.Units != flag.UnitsAsWritten || !plain(k.Kind) && k.Kind != flag.Job):
		return nil, errors.New("--example is a schedule or a job with its own title and units")
	case k.Example:
		return schedules.Examples(k.Kind == flag.Job), nil
	case isRecord && k.Title != "":
		return nil, errors.New("a record has no title: it names its schedule, see --of")
	case isRecord:
		return k.record(c)
	case c.Units != flag.UnitsAsWritten && !plain(k.Kind) && k.Kind != flag.Job:
		return nil, fmt.Errorf("--units goes with a schedule or a job: a %s has no units of its own", k.Kind)
	}
	// A title is judged where all values are: no document is made that would
	// be refused for it, or that has less of it than was given.
	for _, f := range laminate.Validate(&laminate.Schedule{Head: laminate.Head{Title: k.Title}}, nil) {
		if f.Ref == (laminate.Ref{Kind: laminate.RefSchedule, Key: "title"}) {
			return nil, fmt.Errorf("--title: %s", f.Message)
		}
	}
	title := k.Title
	if title == "" && file != stdinName {
		title = strings.TrimSuffix(filepath.Base(file), filepath.Ext(file))
	}
	switch k.Kind {
	case flag.Specification:
		return schedules.BlankSpecification(title), nil
	case flag.ShopBook:
		return schedules.BlankBook(title), nil
	default: // a schedule; records have their own way
	}
	text := schedules.Blank(title)
	if k.Kind == flag.Job {
		text = schedules.BlankJob(title)
	}
	if c.Units == flag.UnitsSI {
		text = bytes.Replace(text, []byte("units    = \"us\""), []byte("units    = \"si\""), 1)
	}
	return text, nil
}

// record makes a record, of the schedule that is named or of none.
func (k newCommand) record(c *call) ([]byte, error) {
	if c.Units != flag.UnitsAsWritten {
		return nil, errors.New("--units goes with a schedule: a record keeps each figure as it was written")
	}
	if k.Of == "" && k.Part+k.Joint+k.Overlay != "" {
		return nil, errors.New("--part, --joint and --overlay are of a job: --of names it")
	}
	if k.Of == "" {
		return schedules.BlankRecord(&record.Record{}), nil
	}
	d := c.named(k.Of, "new --of", schedules.Schedule, schedules.Job)
	return recorder.Blank(d, k.Part, k.Joint, k.Overlay)
}
