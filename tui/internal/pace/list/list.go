// Package list is the floor that the terminal program is measured against: a
// list of thirty rows with the library's default options and nothing else.
package list

import (
	"fmt"
	"os"
	"strings"

	tea "github.com/charmbracelet/bubbletea"
)

// Rows is the list.
type Rows struct{ cursor, count int }

// Init does nothing.
func (l Rows) Init() tea.Cmd { return nil }

// Update moves the cursor, and counts.
func (l Rows) Update(msg tea.Msg) (tea.Model, tea.Cmd) {
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

// View writes every row.
func (l Rows) View() string {
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

// Run shows the list until q, and gives the exit code.
func Run() int {
	if _, err := tea.NewProgram(Rows{}, tea.WithAltScreen()).Run(); err != nil {
		fmt.Fprintln(os.Stderr, err)
		return 1
	}
	return 0
}
