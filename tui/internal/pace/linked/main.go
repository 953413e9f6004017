// Command linked is the list in a binary that has the terminal program in it
// too: what that costs before a line of it runs.
package main

import (
	"os"

	tea "github.com/charmbracelet/bubbletea"

	"frp/veilwright/schedules/editor"
	"frp/veilwright/schedules/shop"
	"frp/veilwright/tui/internal/app"
	"frp/veilwright/tui/internal/pace/list"
)

func main() {
	if len(os.Args) > 99 { // never, which the linker does not know
		s := shop.New(shop.Options{})
		if d, err := editor.Open(os.Args[1], s); err == nil {
			_, _ = tea.NewProgram(app.New(d, app.Options{Shop: s})).Run()
		}
	}
	os.Exit(list.Run())
}
