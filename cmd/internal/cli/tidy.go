package cli

import (
	"bytes"
	"errors"
	"fmt"
	"strings"

	"frp/veilwright/schedules"
	"frp/veilwright/schedules/shop"
	"frp/veilwright/schedules/store"
)

type tidyCommand struct {
	Files []string `arg:"" name:"file" help:"Schedules, jobs and shop books to rewrite in place, folders of them, or - to filter standard input." complete:"documents"`
	List  bool     `help:"Rewrite nothing: print the names of what would be rewritten."`
}

// Help is shown under the command's flags.
func (tidyCommand) Help() string {
	return `Rewrites schedules, jobs and shop books in canonical form: tables and keys in their usual order, equals signs below each other, zones written out, comments kept with what they stand at. Values stay as they are written, but for lists on several lines. Running it again changes nothing. Findings stay the same; zones that are written stay where they are when plies are added, so a finding may be fixed in another way. What is rewritten is named.

    veilwright tidy header.toml
    veilwright tidy --list jobs/
    veilwright tidy - < header.toml | diff header.toml -`
}

// Run tidies each document.
func (k tidyCommand) Run(c *call) error {
	if c.JSON {
		return errors.New("tidy rewrites documents and has no JSON output")
	}
	seen := false
	for _, in := range c.inputs(k.Files) {
		d := c.open(in)
		if in.searched && d.Err == nil && !tidied(d.Kind) && d.Kind != schedules.Unreadable {
			continue
		}
		seen = true
		if d.Usable() && !tidied(d.Kind) {
			d.Err = fmt.Errorf("is of kind %s; tidy rewrites schedules, jobs and shop books", d.Kind)
		}
		if !d.Usable() {
			c.unread(d)
			continue
		}
		if err := k.one(c, d); err != nil {
			c.say.Say("%s: %v", d.Name, err)
			c.ends(Unusable)
		}
	}
	if !seen {
		c.say.Say("no document to tidy in %s", strings.Join(k.Files, ", "))
		c.ends(Unusable)
	}
	return nil
}

// tidied tells the kinds that have a canonical form here.
func tidied(k schedules.Kind) bool {
	return k == schedules.Schedule || k == schedules.Job || k == schedules.ShopBook
}

func (k tidyCommand) one(c *call, d *shop.Opened) error {
	tidy, err := canonical(d)
	switch {
	case err != nil:
	case d.Name == stdinName && !k.List:
		_, err = c.out.Write(tidy)
	case bytes.Equal(tidy, d.Text):
	case k.List:
		c.out.Line("%s", d.Name)
	default:
		if err = replace(d.Name, d.Text, tidy); err == nil {
			c.out.Line("rewrote %s", d.Name)
		}
	}
	return err
}

// canonical gives the document in canonical form, after holding that tidying
// it once more changes nothing.
func canonical(d *shop.Opened) ([]byte, error) {
	tidy, problems := schedules.Tidy(d.Text, d.Library)
	again, unsettled := schedules.Tidy(tidy, d.Library)
	if len(problems)+len(unsettled) > 0 || !bytes.Equal(again, tidy) {
		return nil, errors.New("its canonical form is not stable, an error of this program; not changed")
	}
	return tidy, nil
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
	var locked *store.LockedError
	var conflict *store.ConflictError
	switch {
	case errors.As(err, &own):
		return errors.New(own.Why)
	case errors.As(err, &locked):
		return errors.New("is open in another program; not changed")
	case errors.As(err, &conflict):
		return fmt.Errorf("%s; not changed", conflict.How)
	}
	return err
}
