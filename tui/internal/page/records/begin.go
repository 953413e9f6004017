package records

import (
	"cmp"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strconv"
	"strings"

	"frp/veilwright/laminate/record"
	"frp/veilwright/schedules/recorder"
	"frp/veilwright/schedules/store"
	"frp/veilwright/tui/internal/page"
)

// cannotBegin says why no record can be begun: one belongs to the bytes of a file.
func (c *Case) cannotBegin() string {
	d := c.desk.Doc
	switch {
	case c.NoPlies() != "" && c.Overlay() != nil: // a part is inspected all the same
		return c.NoPlies()
	case d.Path() == "":
		return "a record is of a schedule's file, and this schedule has none yet: s saves it"
	case d.Dirty():
		return "a record is of the saved schedule: s saves it first"
	}
	return ""
}

// begin asks for the serial number and the name of a new record's file.
func (c *Case) begin() page.Overlay {
	serial := &page.Field{Label: "serial number", Hint: c.serialHint()}
	head := "start a record"
	if o := c.Overlay(); o != nil {
		head += " of " + o.Name()
	}
	name := &page.Field{Label: "record's file", Text: c.proposal(), Hint: "beside the schedule"}
	asked := ""
	return &page.Form{Head: head, Fields: []*page.Field{serial, name}, Check: func(i int) error {
		number := strings.TrimSpace(serial.Text)
		switch {
		case i != 0:
		case number == "" && asked != unnumbered:
			asked = unnumbered
			return errors.New("without a serial number it stays incomplete until one is recorded, by 8 on the lay-up page or 1 on the inspect page; Enter begins it so")
		default:
			return c.doubled(number, &asked, "begins another")
		}
		return nil
	}, Take: func() error {
		path, err := c.pathOf(name.Text)
		if err != nil {
			return err
		}
		if why := cmp.Or(c.cannotBegin(), c.Behind()); why != "" {
			return errors.New(why)
		}
		d := c.desk.Doc
		c.path = d.Path()
		r := c.head()
		r.Schedule, r.Serial = filepath.Base(d.Path()), strings.TrimSpace(serial.Text)
		if err = c.files.Begin(path, r); err != nil {
			return err
		}
		c.twins = recorder.SameSerial(path, r)
		said := "begun " + filepath.Base(path)
		switch {
		case r.Serial == "":
			said += ", without a serial number"
		case c.twins != nil:
			said += ": its serial " + r.Serial + " is also that of " + strings.Join(c.twins, ", ")
		}
		c.said(said)
		return nil
	}}
}

// unnumbered stands for a serial number that was left out: no text is it.
const unnumbered = "\x00"

// doubled asks once about a serial number that another record here has; what Enter does
// all the same is said.
func (c *Case) doubled(number string, asked *string, does string) error {
	same := c.sameSerial(number)
	if same == nil || *asked == number {
		return nil
	}
	*asked = number
	return fmt.Errorf("serial %s is that of %s already, 6 on the inspect page opens it: two of the same stay incomplete for good; Enter %s all the same", number, strings.Join(same, ", "), does)
}

// CanMark says why the serial number cannot be recorded now, "" when it can: a record
// that was begun with one keeps it.
func (c *Case) CanMark(key string) string {
	if why := c.NeedOwn(key); why != "" {
		return why
	}
	if serial := c.files.Record().Now().SerialNumber(); serial != "" {
		return "the record has a serial number: " + serial
	}
	return ""
}

// Mark is the form of the serial number of a record that was begun without one.
func (c *Case) Mark() page.Overlay {
	serial := &page.Field{Label: "serial number", Hint: c.serialHint()}
	remark := &page.Field{Label: "remark"}
	asked := ""
	return &page.Form{Head: "the serial number, as marked", Fields: []*page.Field{serial, remark}, Check: func(i int) error {
		number := strings.TrimSpace(serial.Text)
		switch {
		case i != 0:
			return nil
		case number == "":
			return errors.New("serial number: what is marked on it?")
		}
		return c.doubled(number, &asked, "records it")
	}, Take: func() error {
		if why := c.CanMark("6"); why != "" {
			return errors.New(why)
		}
		m := &record.Marked{Entry: c.By(), Serial: strings.TrimSpace(serial.Text), Remark: strings.TrimSpace(remark.Text)}
		if err := c.Append(m); err != nil {
			return err
		}
		r := c.files.Record()
		c.twins = recorder.SameSerial(r.Path(), r.Now())
		said := fmt.Sprintf("recorded as entry %d: serial %s", len(r.Entries()), m.Serial)
		if c.twins != nil {
			said += ", which is also that of " + strings.Join(c.twins, ", ")
		}
		c.desk.Say(said)
		return nil
	}}
}

// serialHint says whose number it is.
func (c *Case) serialHint() string {
	if c.Overlay() != nil {
		return "of the equipment, as marked on it"
	}
	return "of the part, as marked on it"
}

// sameSerial names the records here of what is laid up and inspected that have a serial
// number already.
func (c *Case) sameSerial(number string) []string {
	head := c.head()
	head.Serial = number
	return recorder.SameSerial(filepath.Join(c.folder(), "\x00"), head)
}

func (c *Case) pathOf(name string) (string, error) {
	name = strings.TrimSpace(name)
	if name == "" {
		return "", errors.New("a file name is needed")
	}
	if filepath.Ext(name) != store.Extension {
		name += store.Extension
	}
	if filepath.Base(name) == name {
		name = filepath.Join(c.folder(), name)
	}
	return name, nil
}

// proposal is the first free name beside the schedule.
func (c *Case) proposal() string {
	stem := c.stem(strings.TrimSuffix(filepath.Base(c.desk.Doc.Path()), store.Extension))
	for n := 1; n < 10_000; n++ {
		name := stem + "-record-" + strconv.Itoa(n) + store.Extension
		if _, err := os.Lstat(filepath.Join(c.folder(), name)); errors.Is(err, os.ErrNotExist) {
			return name
		}
	}
	return ""
}
