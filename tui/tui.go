// Package tui is the terminal program: Run opens it on a document and returns
// when it is over. Nothing else of it is for other packages.
package tui

import (
	"errors"
	"fmt"
	"os"
	"os/signal"
	"syscall"

	tea "github.com/charmbracelet/bubbletea"
	"github.com/charmbracelet/x/term"

	"frp/veilwright/laminate/exercise"
	"frp/veilwright/schedules/editor"
	"frp/veilwright/tui/internal/app"
	"frp/veilwright/tui/internal/draw"
)

// Options say how to run it.
type Options struct {
	Theme  string // any, dark, light or mono; "" = as the environment asks
	Folder string // where opening another document begins
	List   bool   // begin with the list of the folder's documents
	Page   Page   // where it begins
	// Person is whose progress practice keeps, "" = it is asked once.
	// Exercises are the shop's own, which stand for those that come with the
	// program where an id is the same.
	Person    string
	Exercises []*exercise.Exercise
	// Editor is how other documents are opened.
	Editor editor.Options
}

// Page is a page of the program.
type Page string

// The pages a call may begin on.
const (
	Bench    Page = "bench"
	Practice Page = "practice"
)

// framesPerSecond is twice the library's own clock: it halves the time from key
// to frame, and costs nothing while nothing changes.
const framesPerSecond = 120

// Run opens the terminal program on the document and closes the document when
// a person quits. An error says that there is no terminal to run in, or that
// the program ended otherwise than by a person's wish; unsaved work is then kept
// for the next start.
func Run(d *editor.Document, o Options) error {
	if err := terminal(); err != nil {
		return err
	}
	look, err := draw.Choose(o.Theme, os.Getenv)
	if err != nil {
		return err
	}
	var p *tea.Program
	root := app.New(d, app.Options{
		Theme: look, ASCII: draw.NeedsASCII(os.Getenv), Folder: o.Folder, List: o.List, Editor: o.Editor,
		Page: string(o.Page), Person: o.Person, Exercises: o.Exercises,
		Suspend: app.JobControl, Quit: func() { go p.Quit() },
	})
	p = tea.NewProgram(root, tea.WithAltScreen(), tea.WithFPS(framesPerSecond), tea.WithoutSignalHandler())

	signals := make(chan os.Signal, 1)
	signal.Notify(signals, syscall.SIGHUP, syscall.SIGTERM, syscall.SIGINT)
	over := make(chan struct{})
	go func() {
		for {
			select {
			case s := <-signals:
				p.Send(app.EndMsg{Signal: s.String()})
			case <-over:
				return
			}
		}
	}()
	_, err = p.Run()
	signal.Stop(signals)
	close(over)
	return finish(root, err)
}

// finish says how it ended, and sees that no unsaved work is lost.
func finish(root *app.Root, failed error) error {
	end, d := root.End(), root.Document()
	if end.Quit && failed == nil {
		return d.Close()
	}
	kept := ""
	if d.Dirty() {
		err := end.Journal
		if err == nil {
			err = d.Journal()
		}
		if err != nil {
			kept = "; unsaved work could not be kept: " + err.Error()
		} else {
			kept = "; unsaved work is kept, and offered when " + d.Name() + " is opened again"
		}
	}
	switch {
	case end.Crash != nil:
		return fmt.Errorf("a mistake in the program ended it: %v%s\n%s", end.Crash, kept, end.Stack)
	case end.Signal != "":
		return fmt.Errorf("ended by the system (%s)%s", end.Signal, kept)
	case failed != nil:
		return fmt.Errorf("the terminal failed: %w%s", failed, kept)
	}
	return errors.New("ended before its time" + kept)
}

// terminal says what to do where there is no terminal to run in.
func terminal() error {
	const instead = "; veilwright check FILE and veilwright wall FILE report without one, veilwright --help lists all commands"
	switch {
	case os.Getenv("TERM") == "dumb":
		return errors.New("this terminal (TERM=dumb) cannot show the program" + instead)
	case !term.IsTerminal(os.Stdin.Fd()) || !term.IsTerminal(os.Stdout.Fd()):
		return errors.New("the program needs a terminal for input and output" + instead)
	}
	return nil
}
