package job

import (
	"strconv"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/edit"
	"frp/veilwright/tui/internal/page"
)

// addLaminate asks whose plies a new laminate begins with, and opens its form,
// where it is named.
func (p *Job) addLaminate() {
	j := p.Desk.Doc.Job()
	items := []page.Item{{Name: "no plies yet", Note: "p fills it in where something names it"}}
	likes := []string{""}
	for i := range j.Laminates {
		items = append(items, page.Item{Name: "plies of " + j.Laminates[i].ID})
		likes = append(likes, j.Laminates[i].ID)
	}
	p.Open(&page.List{Head: "a laminate with", Items: items, At: 0, Verb: "add", Take: func(i int) error {
		id := "laminate-1"
		for n := 2; j.Laminate(id) >= 0; n++ {
			id = "laminate-" + strconv.Itoa(n)
		}
		if err := p.Desk.ApplyJob(edit.AddLaminate(id, likes[i])); err != nil {
			return err
		}
		p.Close()
		p.Settle()
		p.table.Select(laminate.Ref{Kind: laminate.RefLaminate, Index: len(j.Laminates)})
		p.form()
		return nil
	}})
}
