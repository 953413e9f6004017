package app

import (
	"frp/veilwright/tui/internal/keys"
	"frp/veilwright/tui/internal/page"
)

// padKeys are the keys that are no keys of a number pad and are wanted on it.
var padKeys = []string{"u", "n", "f", "s", "x", "j", keys.Tab, "t", "k"}

// pad lists what has a letter for its key, each under a digit, as it acts on the
// page: gloved hands need nothing but a number pad.
func (r *Root) pad() {
	l := &page.List{Head: "by digit", Verb: "do it"}
	var does []string
	for _, k := range padKeys {
		row := keys.Find(keys.Key(k), r.tables()...)
		if row == nil {
			continue
		}
		item := page.Item{Name: row.Long, Word: keys.Name(k)}
		if row.Can != nil {
			item.Why = row.Can()
		}
		l.Items = append(l.Items, item)
		does = append(does, k)
	}
	l.Take = func(i int) error {
		r.remove(l)
		if _, why := keys.Press(keys.Key(does[i]), r.tables()...); why != "" {
			r.here().Refuse(why)
		}
		return nil
	}
	r.push(l)
}
