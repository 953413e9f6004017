package cli

import (
	"frp/veilwright/cmd/internal/report"
	"frp/veilwright/laminate"
	"frp/veilwright/laminate/winding"
	"frp/veilwright/schedules"
	"frp/veilwright/schedules/paper"
)

type windingCommand struct {
	File   string    `arg:"" help:"A schedule, or - for standard input." complete:"documents"`
	Angles []float64 `name:"angle" placeholder:"DEGREES" help:"Figure the band at this angle from the axis too; may be given again."`
}

// Help is shown under the command's flags.
func (windingCommand) Help() string {
	return `How the band of each wound ply closes its cover: diameter wound on, lead, circuits, overlap, fiber and thickness, as on the winding page; and the same band at other angles.

    veilwright winding header.toml
    veilwright winding --angle 45 --angle 65 header.toml
    veilwright winding --json header.toml | jq '.plies[].pattern.circuits'

Exit code: 3 when a wound ply cannot be determined, 2 when the schedule cannot be read, else 0.`
}

// Run figures the wound plies of one schedule.
func (k windingCommand) Run(c *call) error {
	for _, a := range k.Angles {
		if _, err := winding.CoverLayers(a); err != nil {
			return err
		}
	}
	d := c.named(k.File, "winding", schedules.Schedule)
	if !d.Usable() {
		return c.unusable(false, func(s report.Schedule) any {
			return report.Winding{File: s.File, Books: []string{}, Error: s.Error, Problems: s.Problems, Plies: []report.WoundPly{}}
		}, d)
	}
	a := laminate.Analyze(d.Schedule, d.Library)
	plies := winding.Plies(d.Schedule, d.Library, a)
	for i := range plies {
		if plies[i].Err != nil {
			c.ends(Incomplete)
		}
	}
	return c.either(report.WindingOf(d.Name, d.Library.Books, d.Schedule, a, plies, k.Angles),
		append(paper.Winding(d.Name, d.Library.Books, d.Schedule, a, plies, k.Angles, c.units(d.Schedule)), paper.Aid(nil)))
}
