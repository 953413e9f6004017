package statics

import (
	"frp/veilwright/laminate"
	"frp/veilwright/rules"
)

// opens tells whether nothing at the ends of a part pulls along its axis. Of the
// shell the job itself says so by what stands above and below it, of a line by what
// closes it; a part without either is as it is stated.
func opens(p *rules.JobPass, part int) bool {
	if p.Job.Parts[part].Form.OfShell() {
		switch below, above := p.Closed(); {
		case above, below && !p.Founded: // what is in it pulls at its head or at its hanging bottom
			return false
		case below:
			return true
		}
	}
	return p.Parts[part].Schedule.Part.Ends == laminate.OpenEnds && p.Closing(part) < 0
}
