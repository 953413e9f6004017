package page

import (
	"fmt"
	"strings"
	"testing"

	"frp/veilwright/tui/internal/keys"
	"frp/veilwright/tui/internal/tuitest"
)

// asking is a question over a page of a size, with a long reason; taken is the answer
// that was given, -1 for none.
func asking(w, h, answers int) (p *opened, l *List, taken *int) {
	taken = new(int)
	*taken = -1
	l = &List{Head: "nevertheless?", Text: strings.Repeat("a reason that is long; ", 40) + "THE END", Take: func(i int) error {
		*taken = i
		return nil
	}}
	for i := range answers {
		l.Items = append(l.Items, Item{Name: fmt.Sprintf("answer %c", 'A'+i)})
	}
	p = over(l)
	p.SetSize(w, h)
	p.Settle()
	return p, l, taken
}

// However long the reason is, each answer is in sight with its number, whatever is
// pointed at, and under a long notice too: the reason is cut, with a mark, and read to its end by w.
func TestList_answersKeepTheirNumbersAndStayInSight(t *testing.T) {
	for _, size := range [][2]int{{60, 16}, {60, 9}, {80, 24}, {140, 45}} {
		p, l, _ := asking(size[0], size[1], 3)
		for _, notice := range []string{"", strings.Repeat("refused for many reasons ", 4)} {
			for range 4 {
				p.desk.Notice.Text = notice
				p.Settle()
				lines := l.Lines()
				screen := tuitest.Box(t, lines, l.w, l.h)
				for i := range 3 {
					if want := fmt.Sprintf("%d answer %c", i+1, 'A'+i); !strings.Contains(strings.Join(lines[:max(1, l.h-p.desk.Notice.Covers(l.w))], "\n"), want) {
						t.Errorf("%v: %q is not in sight:\n%s", size, want, screen)
					}
				}
				p.press(keys.Down)
			}
		}
	}
	p, l, taken := asking(60, 16, 3)
	if screen := strings.Join(l.Lines(), "\n"); !strings.Contains(screen, "…") || strings.Contains(screen, "THE END") {
		t.Errorf("the cut reason has no mark:\n%s", screen)
	}
	for range 4 {
		p.press("w", keys.PgDown, keys.PgDown)
		if screen := strings.Join(l.Lines(), "\n"); !strings.Contains(screen, "THE END") {
			t.Errorf("w does not show the end:\n%s", screen)
		}
		p.press("2", keys.Enter) // read, not answered
		if *taken != -1 || p.Over() == nil {
			t.Fatal("answered while the reason was read")
		}
	}
	if p.press("1"); *taken != 0 {
		t.Errorf("1 gave answer %d", *taken)
	}
	// Where all of it stands there, there is nothing to read to its end.
	p, _, _ = asking(140, 45, 3)
	if keys.Find(keys.Key("w"), p.Over().Table()) != nil {
		t.Error("w is a key of a reason that stands whole")
	}
}

// Where not even the rows have room, a digit means the same row all the same, and what
// was not in sight is shown before it is taken.
func TestList_whatIsNotInSightIsShownBeforeItIsTaken(t *testing.T) {
	p, l, taken := asking(60, 5, 8) // five lines
	if p.press("8"); *taken != -1 || !strings.Contains(strings.Join(l.Lines(), "\n"), "8 answer H") {
		t.Fatalf("%d taken\n%s", *taken, strings.Join(l.Lines(), "\n"))
	}
	if got := p.desk.Notice.Text; got != "row 8 was not in sight: 8 again, or Enter, takes it" {
		t.Errorf("it says %q", got)
	}
	if p.press("8"); *taken != 7 {
		t.Errorf("%d taken", *taken)
	}
}

// The digits of a longer list stand beside the rows in sight, of every screenful.
func TestList_digitsOfALongList(t *testing.T) {
	p, l, taken := asking(60, 16, 20)
	l.Text = ""
	p.press(keys.PgDown)
	if screen := strings.Join(l.Lines(), "\n"); !strings.Contains(screen, "1 answer B") {
		t.Fatal(screen)
	}
	if p.press("1"); *taken != 1 {
		t.Errorf("%d taken", *taken)
	}
}
