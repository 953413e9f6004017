package cli

import (
	"errors"

	"frp/veilwright/cmd/internal/flag"
	"frp/veilwright/cmd/internal/report"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/takeoff"
	"frp/veilwright/schedules"
	"frp/veilwright/schedules/paper"
	"frp/veilwright/schedules/shop"
)

type takeoffCommand struct {
	Files           []string         `arg:"" name:"file" help:"Schedules, jobs, folders of them, or - for standard input." complete:"documents"`
	CSV             bool             `name:"csv" help:"Print the tables as CSV, for a spreadsheet."`
	ShopTemperature flag.Temperature `placeholder:"TEMPERATURE" help:"Temperature of shop and resin, such as \"70 degF\", where the shop's table of initiators asks for it."`
}

// Help is shown under the command's flags.
func (takeoffCommand) Help() string {
	return `What it takes to build a schedule, or the parts, joints and nozzles of a job: the area of every ply at its own middle, fiber and resin mix by weight, strips and rolls where the shop book names roll sizes (woven roving goes round, a mat whichever way takes less; what is cut to fit is counted into rolls by area), tow by the circuits of wound bands, resin to order with the initiator of the row of the shop's table for the temperature of shop and resin (between rows that differ there is none), styrene given off as an estimate, and cost by the book's prices. What the book does not state is named and left out, never assumed; the few shares that practice agrees on are marked as such.

    veilwright takeoff header.toml
    veilwright takeoff --shop-temperature "70 degF" --units si header.toml
    veilwright takeoff --csv header.toml > header-takeoff.csv
    veilwright takeoff --json header.toml | jq '.[].mass_kg'

Exit code: 3 when a quantity cannot be determined, 2 when a document cannot be read, else 0; a missing price is said and changes nothing.`
}

// Run takes each document off in the order given.
func (k takeoffCommand) Run(c *call) error {
	if c.JSON && k.CSV {
		return errors.New("--json and --csv exclude each other")
	}
	reports, seen := []report.Takeoff{}, 0
	for _, in := range c.inputs(k.Files) {
		d := c.open(in)
		other := d.Kind != schedules.Schedule && d.Kind != schedules.Job
		if in.searched && d.Usable() && other {
			continue
		}
		seen++
		if d.Usable() && other {
			d.Want(schedules.Schedule, "takeoff")
		}
		if !d.Usable() {
			s := c.unread(d)
			reports = append(reports, report.UnreadTakeoff(s))
			if !c.JSON && !k.CSV {
				c.printUnread(s)
			}
			continue
		}
		r, err := k.one(c, d, in.folder)
		if err != nil {
			return err
		}
		reports = append(reports, r)
	}
	if seen == 0 {
		return errors.New("no schedule to take off")
	}
	if c.JSON {
		return c.out.JSON(reports)
	}
	return nil
}

// one prints the takeoff of one document, or gives its report.
func (k takeoffCommand) one(c *call, d *shop.Opened, folder string) (report.Takeoff, error) {
	head, t := d.Head(), c.takenOff(d, folder, k.ShopTemperature.Temperature)
	units := c.unitsOr(head.Units)
	if c.JSON {
		return report.TakeoffOf(d.Name, head.Title, d.Library.Books, t), nil
	}
	sheet := append(paper.Headed(d.Name, head, d.Library.Books, paper.Takeoff(t, units)), paper.Aid(nil))
	if k.CSV {
		return report.Takeoff{}, paper.CSV(c.out, sheet)
	}
	c.print(sheet)
	return report.Takeoff{}, nil
}

// takenOff takes off what can be used; what cannot be determined of it is noted.
func (c *call) takenOff(d *shop.Opened, folder string, at quantity.Temperature) *takeoff.Takeoff {
	var pieces []takeoff.Piece
	if d.Job != nil {
		pieces = takeoff.OfJob(d.Job, d.Library)
	} else {
		pieces = []takeoff.Piece{takeoff.Of(d.Schedule)}
	}
	t := takeoff.Count(pieces, d.Library, c.books().Stock(folder), takeoff.Options{At: at, Units: c.unitsOr(d.Head().Units)})
	if t.Incomplete() {
		c.ends(Incomplete)
	}
	return t
}
