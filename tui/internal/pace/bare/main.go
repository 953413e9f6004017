// Command bare is the floor that the terminal program is measured against: a
// list of thirty rows with the library's default options and nothing else.
package main

import (
	"fmt"
	"os"
	"strings"

	tea "github.com/charmbracelet/bubbletea"
)

type list struct{ cursor, count int }

func (l list) Init() tea.Cmd { return nil }

func (l list) Update(msg tea.Msg) (tea.Model, tea.Cmd) {
	if key, ok := msg.(tea.KeyMsg); ok {
		switch key.String() {
		case "down":
			l.cursor = min(l.cursor+1, 29)
		case "up":
			l.cursor = max(l.cursor-1, 0)
		case "+":
			l.count++
		case "-":
			l.count--
		case "q":
			return l, tea.Quit
		}
	}
	return l, nil
}

func (l list) View() string {
	var b strings.Builder
	for i := range 30 {
		mark := "  "
		if i == l.cursor {
			mark = "> "
		}
		fmt.Fprintf(&b, "%srow %d of the list  %d\n", mark, i+1, l.count)
	}
	return b.String()
}

func main() {
	if _, err := tea.NewProgram(list{}, tea.WithAltScreen()).Run(); err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
}
