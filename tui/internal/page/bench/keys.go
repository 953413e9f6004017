package bench

import (
	"frp/veilwright/tui/internal/keys"
)

// building heads the keys that change plies.
const building = "Building"

func (b *Bench) building() keys.Table {
	const g = building
	return keys.Table{
		{Keys: keys.Digits(9), Short: "add", Long: "add a ply from the rack, outward of the row", Group: g, Rank: 1, Do: b.addDigit, Edits: true},
		{Keys: []string{"0"}, Long: "add any material, by name", Group: g, Rank: 20, Do: keys.Do(b.beginAdd)},
		{Keys: []string{"+", "=", "-"}, Show: "+-", Short: "count", Long: "one more ply of the row; - one less", Group: g, Rank: 2, Can: b.onRow, Do: keys.By("-", b.count), Edits: true},
		{Keys: []string{"*"}, Short: "times", Long: "repeat: the row, the last rows, the barrier, the structure", Group: g, Rank: 3, Can: b.havePlies, Do: keys.Do(b.beginTimes)},
		{Keys: []string{".", ","}, Show: ".", Short: "gel stop", Long: "set or lift a gel stop after the row", Group: g, Rank: 4, Can: b.onRow, Do: keys.Do(b.gel), Edits: true},
		{Keys: []string{keys.Enter}, Short: "open", Long: "open the row: glass, angle, resin, zone, voids", Group: g, Rank: 5, Can: b.onRow, Do: keys.Do(b.beginRow)},
		{Keys: []string{"r"}, Short: "swap", Long: "swap the material, here or everywhere", Group: g, Rank: 6, Can: b.onRow, Do: keys.Do(b.beginSwap)},
		{Keys: []string{"d"}, Long: "add the same row once more", Group: g, Rank: 21, Can: b.onRow, Do: keys.Do(b.duplicate), Edits: true},
		{Keys: []string{"#"}, Long: "give the row's material another number key, for every schedule", Group: g, Rank: 30, Can: b.canRack, Do: keys.Do(b.beginRack)},
		{Keys: []string{"g"}, Long: "carry the row by the arrows, Enter drops it", Group: g, Rank: 22, Can: b.onRow, Do: keys.Do(b.beginCarry)},
		{Keys: []string{"x", keys.Delete}, Show: "x", Short: "remove", Long: "remove the row, or the rows marked", Group: g, Rank: 9, Can: b.onRow, Do: keys.Do(b.remove), Edits: true},
		{Keys: []string{"m"}, Long: "mark rows: from this one to where the arrows go; again: no mark", Group: g, Rank: 25, Can: b.onRow, Do: keys.Do(b.beginMark)},
		{Keys: []string{"c"}, Long: "copy the row, or the rows marked", Group: g, Rank: 26, Can: b.onRow, Do: keys.Do(b.copyRows)},
		{Keys: []string{"v"}, Long: "add what was copied or taken out, outward of the row, in another schedule too", Group: g, Rank: 27, Can: b.canPaste, Do: keys.Do(b.paste), Edits: true},
	}
}

func (b *Bench) findingKeys() keys.Table {
	const g = "Findings"
	return keys.Table{
		{Keys: []string{"n"}, Short: "next", Long: "the next finding, and to its ply", Group: g, Rank: 7, Can: b.haveFindings, Do: keys.Do(func() { b.nextFinding(1) })},
		{Keys: []string{"p"}, Long: "the finding before, and to its ply", Group: g, Rank: 23, Can: b.haveFindings, Do: keys.Do(func() { b.nextFinding(-1) })},
		{Keys: []string{keys.Left, keys.Right}, Show: "←→", Long: "the place before, the next place of the finding", Group: g, Rank: 24, Can: b.haveFindings, Do: keys.By(keys.Left, b.nextPlace)},
		{Keys: []string{"f"}, Short: "fix", Long: "fix the finding, where there is an automatic fix", Group: g, Rank: 8, Can: b.mayFix, Do: keys.Do(b.fix), Edits: true},
		{Keys: []string{"w"}, Short: "why", Long: "why: the finding's whole text", Group: g, Rank: 10, Can: b.haveFindings, Do: keys.Do(b.beginWhy)},
		{Keys: []string{"b"}, Long: "back to the row before the findings were followed", Group: g, Rank: 24, Can: b.cameFrom, Do: keys.Do(b.goBack)},
		{Keys: []string{keys.Esc}, Short: "job page", Long: "one step back, where something is open; else of a job to its page", Group: "Moving around", Can: func() string {
			if b.Desk.Doc.Job() == nil || b.Desk.Page == nil {
				return "nothing is open here: u undoes the last change, q quits"
			}
			return ""
		}, Do: keys.Do(func() { b.Desk.Page("job") })},
	}
}

func (b *Bench) places() keys.Table {
	const g = "Moving around"
	return keys.Table{
		{Keys: []string{keys.Up, keys.Down}, Long: "the row inward; above the first lies " + b.face() + "; the row outward", Group: g, Rank: 30, Do: keys.By(keys.Up, b.move)},
		{Keys: []string{keys.Home, keys.End}, Long: "the first row, the last one", Group: g, Rank: 32, Do: func(e keys.Event) {
			if e.Key == keys.Home {
				b.Desk.Go(0)
			} else {
				b.Desk.Go(b.Desk.LastRow())
			}
		}},
		{Keys: []string{"t"}, Long: "to a ply by its number, or to the next row that has some letters", Group: g, Rank: 31, Can: b.havePlies, Do: keys.Do(b.beginJump)},
		{Keys: []string{"z"}, Long: "fold sequences that repeat into one line each, unfold them", Group: g, Rank: 33, Can: b.havePlies, Do: keys.Do(b.fold)},
		{Keys: []string{keys.PgUp, keys.PgDown}, Long: "a screenful inward, outward", Group: g, Rank: 34, Do: keys.By(keys.PgUp, func(by int) {
			b.Desk.Go(max(min(0, b.Desk.LastRow()), b.Desk.Row+by*b.plan.rows()))
		})},
	}
}

func (b *Bench) havePlies() string {
	if len(b.schedule().Plies) == 0 {
		return "there is no ply yet: a number key adds the first one"
	}
	return ""
}

func (b *Bench) onRow() string {
	if why := b.havePlies(); why != "" {
		return why
	}
	if b.Desk.Row < 0 {
		return "this is " + b.face() + ", no ply: ↓ goes to ply 1"
	}
	return ""
}

func (b *Bench) haveFindings() string {
	if len(b.Desk.Report().Findings) == 0 {
		return "no findings"
	}
	return ""
}

// mayFix is canFix for the key, which is also asked at every frame.
func (b *Bench) mayFix() string {
	if b.Waits() {
		return ""
	}
	return b.canFix()
}

func (b *Bench) canFix() string {
	f := b.finding()
	switch {
	case f == nil:
		return "no findings: nothing to fix"
	case b.asksFamily():
	case b.offered() == nil:
		return b.refusedFix(f)
	}
	return ""
}

func (b *Bench) cameFrom() string {
	if !b.went {
		return "no finding was followed yet: n goes to the next one"
	}
	return ""
}
