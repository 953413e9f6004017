package layup

import (
	"strconv"
	"strings"
	"testing"

	"frp/veilwright/laminate/overlay"
	"frp/veilwright/laminate/safety"
	"frp/veilwright/tui/internal/keys"
)

// On the smallest screen each answer of a question stands with its number, however
// much speaks against laying: 1 is no, whatever is pointed at.
func TestSmall_answersStandUnderALongReason(t *testing.T) {
	answers := []string{"1 no: nothing is recorded", "2 laid nevertheless; the reasons go into the record", "3 laid nevertheless, by order of"}
	for name, wanted := range map[string]func() (*rig, []string){
		"ambient and facts": func() (*rig, []string) {
			g := begun(t, 60, 16, spool)
			g.Press(keys.Enter)
			g.Typed("50", "95", "50")
			g.Press(keys.Enter)
			return g, answers
		},
		"bond": func() (*rig, []string) {
			g := openJob(t, overlay.Seal)
			g.Size(60, 16)
			g.Press("3", "1")
			g.Typed("T-1", "")
			g.Press("enter", "2", "enter")
			g.Typed("", "2", "", "", "50", "95", "50")
			g.Press(keys.Enter, keys.Enter)
			return g, answers
		},
		"hold point": func() (*rig, []string) {
			g := laidTo3(t)
			g.Size(60, 16)
			long := strings.Repeat("mats of the barrier rolled out and seen from both sides, ", 4)
			g.Write("spec.toml", strings.Replace(holding, "barrier complete", long, 1))
			g.Press("7", "1")
			g.Typed("50", "95", "50")
			g.Press(keys.Enter)
			return g, []string{answers[0], "2 the point is passed: record that, with who witnesses", answers[2]}
		},
	} {
		t.Run(name, func(t *testing.T) {
			g, want := wanted()
			for range 4 {
				screen := uncovered(g)
				for _, s := range want {
					if !strings.Contains(screen, s) {
						t.Errorf("%q does not stand on\n%s", s, screen)
					}
				}
				g.Press(keys.Down)
			}
			n := len(g.Records.Record().Now().Laid)
			g.Press("1")
			if got := len(g.Records.Record().Now().Laid); got != n || g.Page.Over() != nil {
				t.Errorf("1 is no: %d plies before, %d now\n%s", n, got, g.Screen())
			}
		})
	}
}

// Beside what is asked of a cured face each caution stands in few words at least.
func TestSmall_whatIsAskedOfAFaceStandsWithItsCautions(t *testing.T) {
	g := openJob(t, overlay.Seal)
	g.Size(60, 16)
	g.Press("3", "1")
	g.Typed("T-1", "")
	g.Press("enter")
	for range 4 {
		for _, c := range safety.For(safety.Bonding, safety.Cutting) {
			if s := uncovered(g); !strings.Contains(s, "\n "+c.Label+" ") {
				t.Errorf("nothing is said of %s:\n%s", c.Label, s)
			}
		}
		g.Press(keys.Down)
	}
}

// Where not all has room the worst stands, under a long message too: what stops the ply,
// what explodes, whether it is dry enough. What is left out is counted, and w reads it.
func TestSmall_whatMustNotBeMissedIsNotCutAway(t *testing.T) {
	for name, g := range map[string]*rig{"strap": openJob(t, overlay.Strap), "seal": openJob(t, overlay.Seal), "wall": begun(t, 60, 16, spool)} {
		g.Size(60, 16)
		stop := "STOP 1 of"
		if name != "wall" {
			g.Press("3", "1")
			g.Typed("T-1", "")
			g.Press("enter", "2", "enter")
			g.Typed("", "2", "", "", "50", "95", "50")
			stop = "bond onto J2: NOT abraded"
		} else {
			g.Press("1")
			g.Typed("50", "95", "50")
		}
		for rows := range 8 {
			g.Desk.Notice.Text = strings.TrimSpace(strings.Repeat(strings.Repeat("x", 50)+" ", rows))
			screen := uncovered(g)
			for _, want := range []string{"LAY PLY 1 of", stop, "NEVER directly with promoter", "DO NOT LAY: DEW"} {
				if !strings.Contains(screen, want) {
					t.Errorf("%s, %d rows of notice: %q does not stand on\n%s", name, rows, want, screen)
				}
			}
			if rows < 4 && !strings.Contains(screen, " mix ") {
				t.Errorf("%s, %d rows of notice: no resin mix on\n%s", name, rows, screen)
			}
			said, more := 0, 0
			for _, c := range g.Page.cautions() {
				for _, end := range []string{" ", ",", ":"} {
					if strings.Contains(screen, " "+c.Label+end) {
						said++
						break
					}
				}
			}
			if i := strings.Index(screen, " more: w"); i >= 0 {
				fields := strings.Fields(screen[:i])
				more, _ = strconv.Atoi(fields[len(fields)-1])
			}
			if all := len(g.Page.cautions()); said+more != all {
				t.Errorf("%s, %d rows of notice: %d of %d cautions are said, %d counted\n%s", name, rows, said, all, more, screen)
			}
		}
		g.Desk.Notice.Text = ""
		g.Press("w")
		var all strings.Builder
		for range 12 {
			all.WriteString(strings.Join(strings.Fields(g.Screen()), " "))
			g.Press(keys.PgDown)
		}
		for _, c := range g.Page.cautions() {
			if end := strings.Fields(c.Text); !strings.Contains(all.String(), end[len(end)-1]) || !strings.Contains(all.String(), " "+c.Label+" ") {
				t.Errorf("%s: w does not read %q to its end", name, c.Text)
			}
		}
		g.Press(keys.Esc)
	}
}

// uncovered is the page without the rows that the notice stands over.
func uncovered(g *rig) string {
	lines := strings.Split(g.Screen(), "\n")
	lines = lines[:len(lines)-2]
	return strings.Join(lines[:len(lines)-g.Desk.Notice.Covers(g.W)], "\n")
}
