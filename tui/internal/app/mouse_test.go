package app

import (
	"testing"

	tea "github.com/charmbracelet/bubbletea"

	"frp/veilwright/tui/internal/tuitest"
)

// The wheel moves, a click points, and neither changes the document whatever is
// open.
func TestMouse_pointsAndChangesNothing(t *testing.T) {
	wheel := func(b tea.MouseButton) tea.MouseMsg { return tea.MouseMsg{Button: b, Action: tea.MouseActionPress} }
	click := func(x, y int) tea.MouseMsg {
		return tea.MouseMsg{Button: tea.MouseButtonLeft, Action: tea.MouseActionPress, X: x, Y: y}
	}
	g := header(t, 80, 24).press("home").shows("▸1 ")
	tuitest.Send(t, g.r, wheel(tea.MouseButtonWheelDown))
	g.shows("▸2-3")
	tuitest.Send(t, g.r, click(5, 10)) // under the gel stop and the line that says where a ply is added
	g.shows("▸5 ")
	g.press("tab")
	tuitest.Send(t, g.r, click(5, 6))
	g.press("enter").hides("PAGES")
	for _, s := range states {
		g := header(t, 80, 24).press(s)
		was := g.r.Document().Now()
		for y := range 24 {
			for _, m := range []tea.MouseMsg{click(3, y), click(70, y), wheel(tea.MouseButtonWheelUp), wheel(tea.MouseButtonWheelDown)} {
				tuitest.Send(t, g.r, m)
			}
		}
		if g.r.Document().Now() != was {
			t.Errorf("after %q the mouse changed the document", s)
		}
	}
}
