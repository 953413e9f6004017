// Package tui is the terminal program: Run opens it on a document and returns
// when it is over. Nothing else of it is for other packages, but for Opening
// before the document is read.
package tui

import (
	"errors"
	"fmt"
	"os"
	"os/signal"
	"runtime"
	"time"

	tea "github.com/charmbracelet/bubbletea"
	"github.com/charmbracelet/x/term"

	"frp/veilwright/laminate/exercise"
	"frp/veilwright/schedules/editor"
	"frp/veilwright/schedules/settings"
	"frp/veilwright/schedules/shop"
	"frp/veilwright/tui/internal/app"
	"frp/veilwright/tui/internal/draw"
	"frp/veilwright/tui/internal/garbage"
	"frp/veilwright/tui/internal/terminal"
)

// Options say how to run it.
type Options struct {
	Theme  string // any, dark, light, plain or mono; "" = as the environment asks
	Folder string // where opening another document begins
	List   bool   // begin with the list of the folder's documents
	Start  bool   // begin with the start page: no document is named
	Page   Page   // where it begins
	// Person is whose progress practice keeps, "" = it is asked once.
	// Exercises are the shop's own, which stand for those that come with the
	// program where an id is the same.
	Person    string
	Exercises []*exercise.Exercise
	// Shop is how other documents are opened.
	Shop *shop.Shop
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

// pause is how long keys that edit at once rest after something closed: longer
// than a key that is held repeats, or than keys typed ahead of the screen come
// apart.
const pause = 200 * time.Millisecond

// settled is when a start is over, and memory may be looked after.
const settled = 100 * time.Millisecond

// Opening is for whoever is about to read the document that Run is to show: the
// start waits for no garbage to be collected, and its goroutine has room.
func Opening() {
	garbage.Opening()
	deepen(false)
}

// deepen gives this goroutine a stack that a start fits in, in one step. Growing
// it four times where calls are deep looks up every one of them in tables of the
// program's file that nothing else would touch. Never is false, which the
// compiler is not to know: the frame is asked for and nothing of it used.
//
//go:noinline
func deepen(never bool) {
	if never {
		var room [enough]byte
		fill(&room)
	}
}

const enough = 40 << 10

//go:noinline
func fill(room *[enough]byte) { room[len(os.Args)] = 1 }

// Run opens the terminal program on the document, and closes the document at its
// end. An error says that there is no terminal to run in, or that the program
// ended otherwise than by a person's wish; unsaved work is then kept for the
// next start.
func Run(d *editor.Document, o Options) error {
	if err := hasTerminal(); err != nil {
		return errors.Join(err, d.Close())
	}
	// What cannot be read of the settings is no reason not to begin.
	kept, _ := settings.Load()
	if kept.Theme != "" && o.Theme == "" && os.Getenv("NO_COLOR") == "" {
		o.Theme = kept.Theme
	}
	look, err := draw.Choose(o.Theme, os.Getenv)
	if err != nil {
		return errors.Join(err, d.Close())
	}
	modes, err := term.GetState(os.Stdin.Fd())
	if err != nil {
		return errors.Join(fmt.Errorf("the terminal: %w", err), d.Close())
	}
	var p *tea.Program
	signals := make(chan os.Signal, 8)
	signal.Notify(signals, terminal.Signals()...)
	defer signal.Stop(signals)
	job := terminal.NewJob()
	screen := terminal.NewOutput(os.Stdout, func() { p.Send(tea.ClearScreen()) })
	width, height, _ := term.GetSize(os.Stdout.Fd()) // where it is not known, the library asks again
	root := app.New(d, app.Options{
		Theme: look, ASCII: draw.NeedsASCII(os.Getenv), Folder: o.Folder, List: o.List, Start: o.Start, Keep: true, Units: kept.Units, Rack: kept.Rack, Shop: o.Shop, Pause: pause,
		Page: string(o.Page), Person: o.Person, Exercises: o.Exercises,
		CanStop: terminal.JobControl, Stop: job.Stop, Quit: func() { go p.Quit() },
		First: screen.First, Width: width, Height: height,
	})
	p = tea.NewProgram(root, tea.WithAltScreen(), tea.WithFPS(framesPerSecond), tea.WithMouseCellMotion(), tea.WithoutSignalHandler(),
		tea.WithInput(terminal.Input{File: os.Stdin}), tea.WithOutput(screen))

	time.AfterFunc(settled, garbage.Begin)
	ended := make(chan error, 1)
	go func() {
		deepen(false)
		_, err := p.Run()
		ended <- err
	}()
	for {
		select {
		case err := <-ended:
			screen.Leave(false)
			return finish(root, err)
		case s := <-signals:
			switch wish := terminal.Means(s); wish {
			case terminal.Suspend:
				go p.Send(app.StopMsg{})
			case terminal.Continue:
				if !job.Continued() {
					go p.Send(app.ContinueMsg{})
				}
			case terminal.End, terminal.EndAndTell:
				stacks := ""
				if wish == terminal.EndAndTell {
					stacks = "\n" + allStacks()
				}
				go p.Send(app.EndMsg{Signal: s.String()})
				select {
				case err := <-ended:
					screen.Leave(false)
					return with(finish(root, err), stacks)
				case <-time.After(grace):
				}
				// It hangs somewhere, and goes with what it was handed last.
				kept := rescue(root)
				screen.Leave(true)
				_ = term.Restore(os.Stdin.Fd(), modes)
				return fmt.Errorf("ended by the system (%s) while it did not answer%s%s", s, kept, stacks)
			}
		}
	}
}

// grace is how long the program may take to end by itself once the system asked:
// with what follows, less than a second.
const grace = 500 * time.Millisecond

// rescue keeps unsaved work where the program hangs, and says so.
func rescue(root *app.Root) string {
	kept := make(chan error, 1)
	go func() { kept <- root.Rescue() }()
	select {
	case err := <-kept:
		if err != nil {
			return "; unsaved work could not be kept: " + err.Error()
		}
		return "; what was not saved is kept, and offered at the next start"
	case <-time.After(grace / 2):
		return "; unsaved work could not be kept: the disk does not answer"
	}
}

// allStacks is what every goroutine is doing, as SIGQUIT has a program say.
func allStacks() string {
	b := make([]byte, 1<<20)
	return string(b[:runtime.Stack(b, true)])
}

func with(err error, more string) error {
	if err == nil || more == "" {
		return err
	}
	return fmt.Errorf("%w%s", err, more)
}

// finish says how it ended, and sees that no unsaved work is lost.
func finish(root *app.Root, failed error) error {
	end, d := root.End(), root.Document()
	if end.Quit && failed == nil {
		return root.Close()
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
	// What could not be kept is said; what cannot be let go of ends with the process.
	_ = root.Close()
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

// hasTerminal says what to do where there is no terminal to run in.
func hasTerminal() error {
	const instead = "; veilwright check FILE and veilwright wall FILE report without one, veilwright --help lists all commands"
	switch {
	case os.Getenv("TERM") == "dumb":
		return errors.New("this terminal (TERM=dumb) cannot show the program" + instead)
	case !term.IsTerminal(os.Stdin.Fd()) || !term.IsTerminal(os.Stdout.Fd()):
		return errors.New("the program needs a terminal for input and output" + instead)
	}
	return nil
}
