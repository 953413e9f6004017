package schedules

import (
	"bytes"
	"errors"
	"fmt"
	"slices"

	"frp/veilwright/laminate/record"
)

// RecordGap is what is missing of the empty line that ends the last entry of a
// record, where somebody wrote it by hand.
func RecordGap(text []byte) string {
	switch {
	case bytes.HasSuffix(text, []byte("\n\n")), bytes.HasSuffix(text, []byte("\n\r\n")):
		return ""
	case bytes.HasSuffix(text, []byte("\n")):
		return "\n"
	}
	return "\n\n"
}

// JoinRecords puts two copies of a record that went separate ways together: what
// both have once, then what each has of its own, then an entry by whoever joins
// them. Where one copy only goes on where the other ends, it is the answer as it is.
func JoinRecords(a, b []byte, by record.Entry, why string) ([]byte, error) {
	one, err := joinable("first", a)
	if err != nil {
		return nil, err
	}
	other, err := joinable("second", b)
	if err != nil {
		return nil, err
	}
	if !bytes.Equal(RecordHead(one), RecordHead(other)) {
		return nil, errors.New("they are not copies of one record: their heads differ")
	}
	x, y := one.Entries(), other.Entries()
	n := 0
	for n < len(x) && n < len(y) && x[n].Head().ID == y[n].Head().ID {
		n++
	}
	switch {
	case n == len(y):
		return a, nil
	case n == len(x):
		return b, nil
	}
	mine, others := x[n].Head(), y[n].Head()
	bare := mine.Seal == "" && others.Seal == ""
	if others.Seal == "" && !bare {
		a, b, others = b, a, mine
	}
	text := slices.Concat(a, []byte(RecordGap(a)), b[lineStart(b, others.Line):])
	if r, _, _ := DecodeRecord(text); bare && (r == nil || len(r.Trail.Loose) == 0) {
		return nil, fmt.Errorf("both go on with an entry without a seal (lines %d and %d), and nothing sealed behind it says what it followed: each copy is adopted by name first, with --adopt", mine.Line, others.Line)
	}
	return JoinRecord(text, by, why)
}

func joinable(which string, text []byte) (*record.Record, error) {
	r, torn, problems := DecodeRecord(text)
	switch {
	case len(problems) > 0:
		return nil, fmt.Errorf("the %s copy cannot be read: %s", which, problems[0])
	case torn != "":
		return nil, fmt.Errorf("the %s copy ends in a half-written entry: opening it on the inspect page puts that aside", which)
	case len(r.Trail.Breaks) > 0:
		return nil, fmt.Errorf("the %s copy does not verify: entry %d (line %d): %s", which, r.Trail.Breaks[0].Number, r.Trail.Breaks[0].Line, r.Trail.Breaks[0].Why)
	}
	return r, nil
}

// JoinRecord adds the entry that joins copies which stand in one text already, as
// after a merge by hand.
func JoinRecord(text []byte, by record.Entry, why string) ([]byte, error) {
	r, err := joinable("joined", text)
	if err != nil {
		return nil, err
	}
	if len(r.Trail.Loose) == 0 {
		return nil, errors.New("there is nothing to join: each entry follows from the one before it")
	}
	all := r.Entries()
	joined := &record.Joined{Entry: by, Why: why}
	for i, n := range r.Trail.Loose {
		if i > 0 {
			joined.Heads += " "
		}
		if n > 0 {
			joined.Heads += all[n-1].Head().ID
		}
	}
	return slices.Concat(text, []byte(RecordGap(text)), SealEntry(joined, r.Trail.Last)), nil
}
