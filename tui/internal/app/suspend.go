package app

import (
	"io"

	tea "github.com/charmbracelet/bubbletea"
)

type (
	// StopMsg tells the program that somebody wants it stopped, ContinueMsg
	// that somebody had stopped it and it goes on.
	StopMsg     struct{}
	ContinueMsg struct{}
)

// stop gives the terminal back and stops the program.
func (r *Root) stop() {
	r.keep()
	r.outside(r.o.Stop)
}

// outside does something while the terminal is as it was before the program,
// and then sets it up and draws anew.
func (r *Root) outside(do func()) {
	r.do(tea.Exec(pause{do}, func(error) tea.Msg { return tea.ResumeMsg{} }))
}

// pause is what the library takes for a program that has the terminal meanwhile.
type pause struct{ do func() }

func (b pause) Run() error {
	b.do()
	return nil
}

func (pause) SetStdin(io.Reader)  {}
func (pause) SetStdout(io.Writer) {}
func (pause) SetStderr(io.Writer) {}
