package inspect

import (
	"errors"
	"strings"
	"time"

	"frp/veilwright/laminate/inspection"
	"frp/veilwright/laminate/record"
	"frp/veilwright/tui/internal/page"
)

func (p *Page) specimen() page.Overlay {
	mark := &page.Field{Label: "mark", Hint: "what is written on it"}
	place := &page.Field{Label: "place", Text: p.kept.place, Hint: "where it was taken from"}
	zone := &page.Field{Label: "holds", Choices: inspection.Groups.Words()}
	kept := &page.Field{Label: "kept", Hint: "where"}
	until := &page.Field{Label: "until", Hint: "2036-01-15; empty: not stated"}
	remark := &page.Field{Label: "remark"}
	return p.entered("a specimen that is kept", nil, []*page.Field{mark, place, zone, kept, until, remark}, nil, func() (record.Any, error) {
		s := &record.Specimen{Entry: p.records.By(), Mark: text(mark), Place: text(place), Kept: text(kept), Remark: text(remark)}
		s.Group, _ = inspection.Groups.Parse(zone.Text)
		if s.Mark == "" {
			return s, errors.New("mark: what is written on it?")
		}
		if text(until) == "" {
			return s, nil
		}
		t, err := time.Parse(time.DateOnly, text(until))
		switch {
		case err != nil:
			return s, errors.New("until: a date such as 2036-01-15, or nothing")
		case t.Before(s.At):
			return s, errors.New("until: it is past")
		}
		s.Until = t
		return s, nil
	})
}

func (p *Page) photograph() page.Overlay {
	file := &page.Field{Label: "file", Hint: "its name; it is not opened"}
	shows := &page.Field{Label: "shows"}
	place := &page.Field{Label: "place", Text: p.kept.place}
	remark := &page.Field{Label: "remark"}
	return p.entered("a photograph", nil, []*page.Field{file, shows, place, remark}, nil, func() (record.Any, error) {
		x := &record.Photograph{Entry: p.records.By(), File: text(file), Shows: text(shows), Place: text(place), Remark: text(remark)}
		switch {
		case x.File == "":
			return x, errors.New("file: its name is needed")
		case strings.ContainsAny(x.File, `/\`):
			return x, errors.New("file: the name alone, without its folder")
		}
		return x, nil
	})
}
