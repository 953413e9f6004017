package layup

import (
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

// uncovered is the page without the rows that the notice stands over.
func uncovered(g *rig) string {
	lines := strings.Split(g.Screen(), "\n")
	lines = lines[:len(lines)-2]
	return strings.Join(lines[:len(lines)-g.Desk.Notice.Covers(g.W)], "\n")
}
