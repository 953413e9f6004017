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
	for _, k := range padKeys {
		// Each has the same digit on every page, whether it acts there or not.
		item := page.Item{Name: "–", Word: keys.Name(k), Why: "not on this page"}
		if row := keys.Find(keys.Key(k), r.tables()...); row != nil {
			item.Name, item.Why = row.Long, ""
			if row.Can != nil {
				item.Why = row.Can()
			}
		}
		l.Items = append(l.Items, item)
	}
	l.Take = func(i int) error {
		r.remove(l)
		if _, why := keys.Press(keys.Key(padKeys[i]), r.tables()...); why != "" {
			r.here().Refuse(why)
		}
		return nil
	}
	r.push(l)
}
