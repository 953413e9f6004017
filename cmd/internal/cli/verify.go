package cli

import (
	"errors"
	"fmt"
	"strings"
	"time"

	"frp/veilwright/cmd/internal/report"
	"frp/veilwright/laminate/record"
	"frp/veilwright/schedules"
	"frp/veilwright/schedules/recorder"
)

type verifyCommand struct {
	Files []string `arg:"" name:"file" help:"Records." complete:"documents"`
	Seal  string   `placeholder:"SEAL" help:"Fail where a record has no entry with this seal or id, which was noted elsewhere: its end was cut off, or all of it was sealed anew."`
	Join  bool     `help:"Put two copies of a record together that went separate ways, or say of one record that its copies belong together."`
	Adopt bool     `help:"Answer by name for the entries that have no seal, as they stand."`
	Out   string   `short:"o" placeholder:"FILE" help:"The file for the joined record; standard output if left out. Nothing is overwritten."`
	Name  string   `help:"Who joins or adopts."`
	Role  string   `help:"As what: inspector, engineer, purchaser."`
	Why   string   `help:"Why, or how it is known."`
}

// Help is shown under the command's flags.
func (verifyCommand) Help() string {
	return `Every entry that the program adds to a record is sealed: its seal is a SHA-256 over the seal before it and what the entry says. verify names the first entry that does not follow, which is so where a value was changed by hand, or an entry was removed, moved or put in. Comments, spacing and line ends are no part of what an entry says.

A seal is no signature. Who cuts off the end, or seals every entry anew, is found by a seal that was noted elsewhere, as inspection reports print it: --seal.

Entries written by hand or by an earlier version have no seal. They are read, and the part stays incomplete until somebody adopts them by name.

    veilwright verify header-17.toml
    veilwright verify header-17.toml --seal 5f0c8a1be2d3
    veilwright verify header-17.toml --adopt --name "N. N." --role inspector --why "checked against the shop's notes"
    veilwright verify --join bench.toml floor.toml -o header-17.toml --name "N. N." --role inspector --why "the network was down"

Exit code: 0 when every entry follows, 1 when one does not, or copies were not joined, 3 when entries have no seal or the last one is half-written, 2 when a record cannot be read.`
}

// Run verifies records, or joins two, or adopts what has no seal.
func (k verifyCommand) Run(c *call) error {
	if k.Join && k.Adopt {
		return errors.New("--join and --adopt exclude each other")
	}
	if (k.Join || k.Adopt) && (strings.TrimSpace(k.Name) == "" || strings.TrimSpace(k.Role) == "") {
		return errors.New("--name and --role are needed: somebody answers for it")
	}
	by := record.Entry{At: time.Now().Truncate(time.Second), Who: strings.TrimSpace(k.Name), Role: strings.TrimSpace(k.Role)}
	switch {
	case k.Join:
		return k.join(c, by)
	case k.Out != "":
		return errors.New("-o goes with --join")
	case k.Adopt:
		for _, name := range k.Files {
			if err := recorder.Adopt(name, by, k.Why); err != nil {
				return fmt.Errorf("%s: %w", name, err)
			}
		}
	}
	list := []report.Verified{}
	for _, in := range c.inputs(k.Files) {
		o := c.named(in.name, "verify", schedules.Record)
		var v report.Verified
		if o.Usable() {
			v = report.Verify(o, k.Seal)
		} else {
			s := c.unread(o)
			v = report.Unverified(s)
			if !c.JSON {
				c.printUnread(s)
			}
		}
		list = append(list, v)
		switch v.Verdict {
		case report.DoesNotFollow:
			c.ends(Broken)
		case report.VerifyIncomplete:
			c.ends(Incomplete)
		}
		if !c.JSON && o.Usable() {
			for _, line := range v.Lines() {
				c.out.Line("%s", line)
			}
		}
	}
	if c.JSON {
		return c.out.JSON(struct {
			Records []report.Verified `json:"records"`
		}{list})
	}
	return nil
}

func (k verifyCommand) join(c *call, by record.Entry) error {
	if c.JSON {
		return errors.New("--join writes a record and has no JSON output")
	}
	var texts [][]byte
	for _, in := range c.inputs(k.Files) {
		text, err := c.read(in)
		if err != nil {
			return fmt.Errorf("%s: %w", in.name, err)
		}
		texts = append(texts, text)
	}
	var joined []byte
	var err error
	switch len(texts) {
	case 1:
		joined, err = schedules.JoinRecord(texts[0], by, k.Why)
	case 2:
		joined, err = schedules.JoinRecords(texts[0], texts[1], by, k.Why)
	default:
		err = errors.New("--join takes two copies of a record, or one record in which they stand")
	}
	if err != nil {
		return err
	}
	if k.Out == "" {
		_, err = c.out.Write(joined)
		return err
	}
	return fresh(k.Out, joined)
}
