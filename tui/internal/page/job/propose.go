package job

import (
	"frp/veilwright/laminate"
	"frp/veilwright/laminate/edit"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/rules/advice"
	"frp/veilwright/rules/advice/equipment"
	"frp/veilwright/tui/internal/keys"
	"frp/veilwright/tui/internal/page"
)

// propose shows what would be filled in and what was assumed for it; nothing
// changes until it is taken.
func (p *Job) propose() {
	x := &proposing{page: p}
	if err := x.figure(false); err != nil {
		p.Desk.Refuse(err.Error())
		return
	}
	x.text = &page.Text{Head: "what is missing, filled in", Full: true, Body: x.body, Away: "leave it as it is", Leave: func() { p.Desk.Say("left as it was") }}
	x.text.Keys = keys.Table{
		{Keys: []string{keys.Enter}, Short: "take it", Long: "fill it in, as one change; u undoes it", Rank: 1, Edits: true, Can: x.can, Do: keys.Do(x.take)},
		{Keys: []string{"r"}, Short: "all anew", Long: "propose all laminates anew, in the place of those that stand, or only what is missing", Rank: 2, Do: keys.Do(x.turn)},
	}
	p.Open(x.text)
	p.Desk.Say("nothing changes until it is taken")
}

// proposing is a proposal that is looked at.
type proposing struct {
	page  *Job
	of    *laminate.Job
	anew  bool
	found *equipment.Proposal
	text  *page.Text
}

func (x *proposing) figure(anew bool) error {
	doc := x.page.Desk.Doc
	found, err := equipment.Propose(doc.Job(), doc.Library(), equipment.Options{Options: advice.Options{Units: x.page.Desk.Units(), Replace: anew}})
	if err == nil {
		x.of, x.anew, x.found = doc.Job(), anew, found
	}
	return err
}

func (x *proposing) turn() {
	if err := x.figure(!x.anew); err != nil {
		x.page.Desk.Refuse(err.Error())
		return
	}
	x.text.Head = "what is missing, filled in"
	if x.anew {
		x.text.Head = "all laminates, proposed anew"
	}
	x.text.Top()
}

func (x *proposing) can() string {
	if len(x.found.Filled) == 0 {
		return "there is nothing to fill in"
	}
	return ""
}

func (x *proposing) take() {
	p := x.page
	n := x.found.Noted()
	e := edit.JobEdit{Label: "filled in " + quantity.Counted(len(x.found.Filled), "place", "places") + ", assumptions in the notes", At: x.found.Filled[0].At,
		Do: func(j *laminate.Job) (*laminate.Job, error) { return edit.Sound(j, n) }}
	if err := p.Desk.ApplyJob(e); err != nil {
		p.Desk.Refuse(err.Error())
		return
	}
	p.Close()
}

// body lists what somebody has to know before what follows from it.
func (x *proposing) body(w int) []string {
	t := x.page.Desk.Theme
	f := x.found
	out := []string{""}
	if len(f.Filled) == 0 {
		out = append(out, page.Labeled(t, 15, "", "nothing is filled in", w)...)
	}
	for _, said := range []equipment.Said{{Word: "assumed", Lines: f.Assumed}, {Word: "not filled in", Lines: f.Left}, {Word: "rule break", Lines: f.Broken}, {Word: "asked for", Lines: f.Asked}, {Word: "filled in", Lines: f.Filled}} {
		label := said.Word
		for _, l := range said.Lines {
			out = append(out, page.Labeled(t, 15, label, l.Text, w)...)
			label = ""
		}
		if len(said.Lines) > 0 {
			out = append(out, "")
		}
	}
	return append(out, page.Labeled(t, 15, "", "A design aid: the governing code, the resin manufacturer's data and a licensed engineer decide.", w)...)
}
