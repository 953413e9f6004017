package cli

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"frp/veilwright/cmd/internal/flag"
	"frp/veilwright/cmd/internal/report"
	"frp/veilwright/laminate"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/schedules"
	"frp/veilwright/schedules/shop"
)

// books is the shop of this call, which looks for the books of a folder but
// once.
func (c *call) books() *shop.Shop {
	if c.shop == nil {
		c.shop = shop.New(shop.Options{Book: c.Book, NoBook: c.NoBook, Trouble: func(err error) {
			for _, e := range parts(err) {
				c.say.Once("looking for shop books: %v", e) // the user's own is looked for in each folder
			}
			c.ends(Unusable)
		}}).Keeping()
	}
	return c.shop
}

// library is the one that holds in the present folder.
func (c *call) library() (*laminate.Library, error) {
	library, err := c.books().Library("")
	return library, c.saidBook(err)
}

// open takes in an input.
func (c *call) open(in input) *shop.Opened {
	text, err := c.read(in)
	if err != nil {
		return &shop.Opened{Name: in.name, Err: err}
	}
	return c.books().Open(in.name, text, in.folder)
}

// named takes in a document that is named itself and has to be of a kind.
func (c *call) named(name, command string, kinds ...schedules.Kind) *shop.Opened {
	found := c.inputs([]string{name})
	if len(found) != 1 || found[0].searched {
		return &shop.Opened{Name: name, Err: fmt.Errorf("%s takes one %s, not a folder", command, strings.ReplaceAll(strings.Trim(fmt.Sprintf("%v", kinds), "[]"), " ", " or "))}
	}
	o := c.open(found[0])
	if !slices.Contains(kinds, o.Kind) {
		o.Want(kinds[0], command)
	}
	return o
}

// saidBook says what is wrong with a shop book, once, and gives the error that
// is short where that was said.
func (c *call) saidBook(err error) error {
	var book *shop.BookError
	if !errors.As(err, &book) {
		return err
	}
	if !c.said[book.Path] {
		c.said[book.Path] = true
		c.ends(Unusable)
		if book.Err != nil {
			c.say.Say("shop book %s: %v", book.Path, book.Err)
		} else {
			explainUnread(c.say, unread(&shop.Opened{Name: book.Path, Problems: book.Problems}))
		}
	}
	return errors.New(book.Short())
}

// unread says why a document cannot be used, every problem of it, and gives the
// report of it. The call ends as unusable.
func (c *call) unread(o *shop.Opened) report.Schedule {
	c.ends(Unusable)
	said := *o
	said.Err = c.saidBook(o.Err)
	explainUnread(c.say, unread(&said))
	return unread(o)
}

// unread is the report of a document that cannot be used.
func unread(o *shop.Opened) report.Schedule {
	var problems []report.Problem
	for _, p := range o.Problems {
		problems = append(problems, report.Problem{Line: p.Line, Column: p.Column, Key: p.Key, Message: p.Message})
	}
	return report.Unread(o.Name, o.Why(), nil, problems)
}

// unusable ends a call over documents that not all can be used: it says why of
// each, and prints the verdict where results are text, or the first as the
// command's JSON, which shape makes of it.
func (c *call) unusable(text bool, shape func(report.Schedule) any, docs ...*shop.Opened) error {
	var first *report.Schedule
	for _, o := range docs {
		if o.Usable() {
			continue
		}
		s := c.unread(o)
		if text && !c.JSON {
			c.printUnread(s)
		}
		if len(docs) > 1 {
			sentence := o.Name + ": " + *s.Error
			s.Error = &sentence
		}
		if first == nil {
			first = &s
		}
	}
	if c.JSON {
		return c.out.JSON(shape(*first))
	}
	return nil
}

// units are those asked for, else those of the document.
func (c *call) units(s *laminate.Schedule) quantity.System { return c.unitsOr(s.Units) }

func (c *call) unitsOr(written quantity.System) quantity.System {
	switch c.Units {
	case flag.UnitsUS:
		return quantity.US
	case flag.UnitsSI:
		return quantity.Metric
	case flag.UnitsAsWritten:
	}
	return written
}
