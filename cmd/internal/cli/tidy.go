package cli

import (
	"bytes"
	"errors"
	"fmt"

	"frp/veilwright/laminate"
	"frp/veilwright/schedules"
	"frp/veilwright/schedules/store"
)

type tidyCommand struct {
	Files []string `arg:"" name:"file" help:"Schedules and shop books to rewrite in place, folders of them, or - to filter standard input." complete:"documents"`
}

// Help is shown under the command's flags.
func (tidyCommand) Help() string {
	return `Rewrites schedules and shop books in canonical form: tables and keys in their usual order, equals signs below each other, zones written out, comments kept with what they stand at. Values stay as they were spelled. Twice is the same as once; a file that is tidy is not touched.

    veilwright tidy header.toml
    veilwright tidy jobs/
    veilwright tidy - < header.toml | diff header.toml -`
}

// Run tidies each document.
func (k tidyCommand) Run(c *call) error {
	if c.JSON {
		return errors.New("tidy rewrites documents and has no JSON")
	}
	books := newShelf(c)
	for _, in := range c.inputs(k.Files) {
		d := c.open(in)
		if d.err == nil && in.searched && !tidied(d.kind) && d.kind != schedules.Unreadable {
			continue
		}
		if err := tidyOne(c, books, &d); err != nil {
			c.say.Say("%s: %v", d.name, err)
			c.ends(Unusable)
		}
	}
	return nil
}

// tidied tells the kinds that have a canonical form here.
func tidied(k schedules.Kind) bool { return k == schedules.Schedule || k == schedules.ShopBook }

// errTold stands for problems that have been said one by one.
var errTold = errors.New("left as it is")

func tidyOne(c *call, books *shelf, d *document) error {
	if d.err != nil {
		return d.err
	}
	if !tidied(d.kind) && len(d.problems) == 0 {
		return fmt.Errorf("is of kind %s; tidy rewrites schedules and shop books", d.kind)
	}
	tidy, err := canonical(c, books, d)
	if err != nil {
		return err
	}
	if d.name == stdinName {
		_, err := c.out.Write(tidy)
		return err
	}
	if bytes.Equal(tidy, d.text) {
		return nil
	}
	return replace(d.name, d.text, tidy)
}

// canonical gives the document in canonical form, after holding that tidying
// it once more changes nothing.
func canonical(c *call, books *shelf, d *document) ([]byte, error) {
	told := func() error {
		c.sayUnread(d, nil)
		return errTold
	}
	if len(d.problems) > 0 {
		return nil, told()
	}
	zones, err := books.zonesOf(d)
	if err != nil {
		return nil, err
	}
	if len(d.problems) > 0 {
		return nil, told()
	}
	tidy, problems := schedules.Tidy(d.text, zones)
	if len(problems) > 0 {
		d.problems = problems
		return nil, told()
	}
	again, problems := schedules.Tidy(tidy, zones)
	if len(problems) > 0 || !bytes.Equal(again, tidy) {
		return nil, errors.New("its canonical form is not settled, a fault of this program; left as it is")
	}
	return tidy, nil
}

// zonesOf gives what infers the zones of a schedule; nil for a shop book, which
// has none.
func (s *shelf) zonesOf(d *document) (func(*laminate.Schedule) []laminate.Zone, error) {
	if d.kind != schedules.Schedule {
		return nil, nil
	}
	l, err := s.load(d)
	return func(s *laminate.Schedule) []laminate.Zone {
		a := laminate.Analyze(s, l.library)
		z := make([]laminate.Zone, len(a.Rows))
		for i := range a.Rows {
			z[i] = a.Rows[i].Zone
		}
		return z
	}, err
}

// replace writes a file that nobody else has open or has changed meanwhile.
func replace(name string, before, after []byte) error {
	_, err := store.Replace(name, after, store.Terms{Expect: store.Fingerprint{Size: int64(len(before)), Sum: store.SumOf(before)}})
	return withoutName(err)
}

// withoutName takes the file's name off an error, where the message that it
// goes into has it already.
func withoutName(err error) error {
	var own *store.Error
	if errors.As(err, &own) {
		return errors.New(own.Why)
	}
	var locked *store.LockedError
	if errors.As(err, &locked) {
		return fmt.Errorf("is open in another program; left as it is")
	}
	var conflict *store.ConflictError
	if errors.As(err, &conflict) {
		return fmt.Errorf("%s; it was left as it is", conflict.How)
	}
	return err
}
