package records

import (
	"errors"
	"strings"
	"time"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/record"
	"frp/veilwright/tui/internal/page"
)

// GelledHint says how it is entered when a face had gelled.
const GelledHint = "18 h ago, or 2026-03-02 14:30; empty: not known"

// Gelled reads when a face had gelled, as a time ago in hours or as day and time;
// the zero time where nobody knows: the comparison says so.
func Gelled(text string, now time.Time) (at time.Time, err error) {
	text = strings.TrimSpace(text)
	if text == "" {
		return at, nil
	}
	ago := strings.TrimSpace(strings.TrimSuffix(text, "ago"))
	if strings.Trim(ago, "0123456789.,") == "" {
		ago += " h"
	}
	if span, ok := record.Span(strings.Replace(ago, ",", ".", 1)); ok {
		return now.Add(-span).Truncate(time.Minute), nil
	}
	at, err = time.ParseInLocation(gelledAt, text, time.Local)
	switch {
	case err != nil:
		return at, errors.New("gelled: hours ago such as 18, or a date and time such as 2026-03-02 14:30, or nothing where it is not recorded")
	case at.After(now):
		return at, errors.New("gelled: it is later than now")
	}
	return at, nil
}

// GelledAgo has a bare number of hours say so, as it is read: nobody sees by a number
// alone what it was taken for.
func GelledAgo(f *page.Field) {
	if t := strings.TrimSpace(f.Text); t != "" && strings.Trim(t, "0123456789.,") == "" {
		f.Text = t + " h ago"
	}
}

// gelledAt is a date and time as Gelled reads it.
const gelledAt = "2006-01-02 15:04"

// FinishOf tells of a finish that a face was not given.
func FinishOf(abraded bool, finish string) error {
	if !abraded && strings.TrimSpace(finish) != "" {
		return errors.New("finish: a face that was not abraded has none: Delete empties the line, or 1 on the line above says abraded")
	}
	return nil
}

// SameMinute tells of two moments that are the same as they are typed.
func SameMinute(a, b time.Time) bool { return a.Truncate(time.Minute).Equal(b.Truncate(time.Minute)) }

// GelledText is a moment as Gelled reads it.
func GelledText(at time.Time) string { return at.Local().Format(gelledAt) }

// Qualification is by what the job says that a joint is bonded, "" where it does not.
func (c *Case) Qualification() string {
	if o := c.Overlay(); o != nil && o.At.Kind == laminate.RefJoint {
		return o.Job.Joints[o.At.Index].Qualification
	}
	return ""
}

// Onto is the joint or nozzle that a bond recorded now is of, "" the part itself.
func (c *Case) Onto() string {
	if o := c.Overlay(); o != nil {
		return o.Of
	}
	return ""
}
