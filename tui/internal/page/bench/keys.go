package bench

import (
	"slices"

	"frp/veilwright/tui/internal/keys"
	"frp/veilwright/tui/internal/page"
)

// Where keys act: the bench itself, and each of its choices.
const (
	scopeBench    keys.Scope = "bench"
	scopeLay      keys.Scope = "bench, laying by name"
	scopeTimes    keys.Scope = "bench, repeating"
	scopeSwap     keys.Scope = "bench, swapping"
	scopeSwapName keys.Scope = "bench, swapping by name"
	scopeCarry    keys.Scope = "bench, carrying"
	scopeRow      keys.Scope = "bench, row"
	scopeWhy      keys.Scope = "bench, why"
	scopeResin    keys.Scope = "bench, the first resin"
)

func digits() []string { return []string{"1", "2", "3", "4", "5", "6", "7", "8", "9"} }

// acts is the page's key table.
func acts() page.Acts[*Bench] {
	return slices.Concat(building(), findingActs(), places(), whyActs(), choiceActs())
}

// choiceActs are the keys of the choices that change the wall.
func choiceActs() page.Acts[*Bench] {
	return slices.Concat(layActs(), timesActs(), swapActs(), carryActs(), rowActs(), resinActs())
}

func act(id keys.ID, group string, k []string, show, short, long string, rank int, can func(*Bench) string, do func(*Bench, keys.Event)) page.Act[*Bench] {
	return page.Act[*Bench]{Binding: keys.Binding{ID: id, Scope: scopeBench, Keys: k, Show: show, Short: short, Long: long, Group: group, Rank: rank}, Can: can, Do: do}
}

func building() page.Acts[*Bench] {
	const g = "Building"
	simple := func(f func(*Bench)) func(*Bench, keys.Event) { return func(b *Bench, _ keys.Event) { f(b) } }
	return page.Acts[*Bench]{
		act("lay", g, digits(), "1-9", "lay", "lay a ply from the rack, outward of the row", 1, nil, (*Bench).layDigit),
		act("lay by name", g, []string{"0"}, "", "", "lay any material, by name", 20, nil, simple((*Bench).beginLay)),
		act("count", g, []string{"+", "=", "-"}, "+-", "count", "one more ply of the row; one less", 2, onRow, func(b *Bench, e keys.Event) {
			if e.Key == "-" {
				b.count(-1)
			} else {
				b.count(1)
			}
		}),
		act("times", g, []string{"*", "t"}, "*", "times", "repeat: the row, the last rows, the barrier, the structure", 3, havePlies, simple((*Bench).beginTimes)),
		act("gel", g, []string{"."}, "", "gel", "set or lift a gel stop after the row", 4, onRow, simple((*Bench).gel)),
		act("open row", g, []string{keys.Enter}, "", "open", "open the row: glass, angle, resin, zone, voids", 5, onRow, simple((*Bench).beginRow)),
		act("swap", g, []string{"r"}, "", "swap", "swap the material, here or everywhere", 6, onRow, simple((*Bench).beginSwap)),
		act("duplicate", g, []string{"d"}, "", "", "lay the same row once more", 21, onRow, simple((*Bench).duplicate)),
		act("carry", g, []string{"g"}, "", "", "carry the row by the arrows, Enter drops it", 22, onRow, simple((*Bench).beginCarry)),
		act("remove", g, []string{"x", keys.Delete}, "x", "remove", "remove the row", 9, onRow, simple((*Bench).remove)),
	}
}

func findingActs() page.Acts[*Bench] {
	const g = "Findings"
	return page.Acts[*Bench]{
		act("next", g, []string{"n"}, "", "next", "the next finding, and to its ply", 7, haveFindings, func(b *Bench, _ keys.Event) { b.nextFinding(1) }),
		act("before", g, []string{"p"}, "", "", "the finding before, and to its ply", 23, haveFindings, func(b *Bench, _ keys.Event) { b.nextFinding(-1) }),
		act("fix", g, []string{"m"}, "", "fix", "fix what the finding says, where that is mechanical", 8, mayFix, func(b *Bench, _ keys.Event) { b.fix() }),
		act("why", g, []string{"w"}, "", "why", "why: the finding's whole text", 10, haveFindings, func(b *Bench, _ keys.Event) { b.beginWhy() }),
		act("back from finding", g, []string{"b"}, "", "", "back to the row before the findings were followed", 24, cameFrom, func(b *Bench, _ keys.Event) { b.goBack() }),
		act("nothing open", "Going about", []string{keys.Esc}, "", "", "one step back, where something is open", 35, nil, func(b *Bench, _ keys.Event) {
			b.desk.Refuse("nothing is open here: u takes the last change back, q quits")
		}),
	}
}

func places() page.Acts[*Bench] {
	const g = "Going about"
	return page.Acts[*Bench]{
		act("inward", g, []string{keys.Up, "k"}, "↑", "", "the row inward; above the first lies the process face", 30, nil, func(b *Bench, _ keys.Event) { b.move(-1) }),
		act("outward", g, []string{keys.Down, "j"}, "↓", "", "the row outward", 31, nil, func(b *Bench, _ keys.Event) { b.move(1) }),
		act("first", g, []string{keys.Home}, "", "", "the first row", 32, nil, func(b *Bench, _ keys.Event) { b.jump(0) }),
		act("last", g, []string{keys.End}, "", "", "the last row", 33, nil, func(b *Bench, _ keys.Event) { b.jump(b.desk.LastRow()) }),
		act("screenful", g, []string{keys.PgUp, keys.PgDown}, "", "", "a screenful inward, outward", 34, nil, func(b *Bench, e keys.Event) {
			if e.Key == keys.PgUp {
				b.jump(max(0, b.desk.Row-b.plan.rows()))
			} else {
				b.jump(b.desk.Row + b.plan.rows())
			}
		}),
	}
}

func havePlies(b *Bench) string {
	if len(b.schedule().Plies) == 0 {
		return "there is no ply yet: a digit lays the first one"
	}
	return ""
}

func onRow(b *Bench) string {
	if why := havePlies(b); why != "" {
		return why
	}
	if b.desk.Row < 0 {
		return "this is the process face, no ply: ↓ goes to ply 1"
	}
	return ""
}

func haveFindings(b *Bench) string {
	if len(b.desk.Report().Findings) == 0 {
		return "no rule has anything to say"
	}
	return ""
}

// mayFix is canFix for the key, which is also asked at every frame.
func mayFix(b *Bench) string {
	if b.Waits() {
		return ""
	}
	return canFix(b)
}

func canFix(b *Bench) string {
	f := b.finding()
	switch {
	case f == nil:
		return "no rule has anything to say: nothing to fix"
	case b.offered() == nil:
		return refusedFix(f)
	}
	return ""
}

func cameFrom(b *Bench) string {
	if !b.went {
		return "no finding was followed yet: n goes to the next one"
	}
	return ""
}
