package cli

import (
	"errors"
	"fmt"

	"frp/veilwright/cmd/internal/flag"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/schedules/paper"
	"frp/veilwright/schedules/paper/layout"
	"frp/veilwright/schedules/paper/press"
)

// paperFlags say how a paper is written and where.
type paperFlags struct {
	Out     string     `short:"o" placeholder:"NAME.pdf|svg|md|csv|txt" help:"Write the paper into this file; its ending says how. Text on standard output if left out."`
	Replace bool       `help:"Write over the file that -o names."`
	Paper   flag.Paper `placeholder:"letter|a4" help:"Sheets of a PDF; Letter for US units and A4 for SI if left out."`
	To      flag.To    `placeholder:"md|csv" help:"Print Markdown or CSV instead of text on standard output."`
}

// check refuses flags that exclude each other, before anything is read.
func (k *paperFlags) check(c *call) error {
	switch {
	case c.JSON && k.Out+string(k.To) != "":
		return errors.New("--json excludes -o and --to")
	case k.Out != "" && k.To != "":
		return errors.New("-o and --to exclude each other: the ending of the name says how the file is written")
	case k.Out == "" && k.Replace:
		return errors.New("--replace goes with -o")
	case k.Out == "":
		return nil
	}
	_, err := press.Ending(k.Out)
	return err
}

func (k *paperFlags) size(u quantity.System) layout.Size {
	if k.Paper != "" {
		u = map[flag.Paper]quantity.System{flag.Letter: quantity.US, flag.A4: quantity.Metric}[k.Paper]
	}
	return layout.SizeFor(u)
}

// put prints a form or writes the file.
func (k *paperFlags) put(c *call, f *paper.Form, u quantity.System) error {
	if k.Out == "" {
		return c.as(k.To, f.Plain())
	}
	lacks, err := press.Save(k.Out, f, k.size(u), k.Replace)
	if lacks != "" {
		c.say.Say("%s: %s", k.Out, lacks)
	}
	if errors.Is(err, press.ErrExists) {
		return fmt.Errorf("%w; --replace writes over it", err)
	}
	return err
}
