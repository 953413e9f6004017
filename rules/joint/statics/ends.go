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
		switch below, above := Closed(p); {
		case above, below && !p.Founded: // what is in it pulls at its head or at its hanging bottom
			return false
		case below:
			return true
		}
	}
	return p.Parts[part].Schedule.Part.Ends == laminate.OpenEnds && p.Closing(part) < 0
}

// Closed tells whether something closes the shell below and above.
func Closed(p *rules.JobPass) (below, above bool) {
	for i := range p.Job.Parts {
		switch p.Job.Parts[i].Form {
		case laminate.FlatBottom, laminate.HeadPart, laminate.Cone, laminate.Cover:
			_, stands := p.Elevation(i)
			above = above || p.OnTop(i)
			below = below || !p.OnTop(i) && stands && p.Job.Parts[i].Form != laminate.Cover
		case laminate.Flange: // bolted to something
			above = above || p.Rises(i)
		default:
		}
	}
	return below, above
}
