package bench

import (
	"errors"
	"fmt"
	"strconv"
	"strings"

	"frp/veilwright/tui/internal/draw"
	"frp/veilwright/tui/internal/page"
)

// beginJump asks for a ply by its number or for letters that a row has.
func (b *Bench) beginJump() {
	hint := "a ply's number, or letters of material, resin or zone"
	if b.sought != "" {
		hint = "Enter: the next " + b.sought
	}
	f := &page.Field{Label: "go to", Hint: hint}
	b.Open(&page.Form{Head: "go to a ply", Fields: []*page.Field{f}, Straight: true, Leave: b.left, Take: func() error { return b.jump(strings.TrimSpace(f.Text)) }})
}

func (b *Bench) jump(to string) error {
	if to == "" {
		to = b.sought
	}
	if to == "" {
		return errors.New("nothing to go to: type a ply's number, or letters")
	}
	total := b.Desk.Report().Analysis.Total.Plies
	if n, err := strconv.Atoi(to); err == nil {
		if n < 0 || n > total {
			return fmt.Errorf("there is no ply %d: there are %d", n, total)
		}
		b.Desk.Go(b.Desk.RowOf(n))
		b.Desk.Say("at " + b.rowName())
		return nil
	}
	plies, rows := b.schedule().Plies, b.Desk.Report().Analysis.Rows
	query := strings.ToLower(to)
	for i := range plies {
		row := (b.Desk.Row + 1 + i) % len(plies)
		text := plies[row].Material + " " + plies[row].Resin + " " + rows[row].Zone.String()
		if rows[row].Material != nil {
			text += " " + page.MaterialName(rows[row].Material)
		}
		if strings.Contains(strings.ToLower(text), query) {
			b.sought = to
			b.Desk.Go(row)
			b.Desk.Note("at "+b.rowName()+", "+draw.Clean(plies[row].Material), "t Enter goes to the next")
			return nil
		}
	}
	return fmt.Errorf("no row has %q", to)
}

// places are the rows that a finding is about, those that follow one another as
// one place.
func places(rows []int) (starts []int) {
	for i, r := range rows {
		if i == 0 || r != rows[i-1]+1 {
			starts = append(starts, r)
		}
	}
	return starts
}

// nextPlace goes to the next place of the finding explained.
func (b *Bench) nextPlace(by int) {
	f := b.finding()
	all := places(f.Rows)
	if len(all) == 0 {
		b.Desk.Refuse("the finding is about no ply in particular")
		return
	}
	at := 0
	for i, r := range all {
		if r <= b.Desk.Row {
			at = i
		}
	}
	if b.Desk.Row >= all[0] {
		at = (at + by + len(all)) % len(all)
	}
	if !b.went {
		b.back, b.went = b.Desk.Row, true
	}
	b.Desk.Go(all[at])
	b.Desk.Note(fmt.Sprintf("place %d of %d of this finding: %s", at+1, len(all), b.rowName()), "b goes back")
}
