package terminal

import (
	"errors"
	"os"
	"syscall"
)

// Signals are those that the program answers: Ctrl-Break, the closing of the
// window, and the end of the session come as these two.
func Signals() []os.Signal { return []os.Signal{os.Interrupt, syscall.SIGTERM} }

// Means tells what a signal asks.
func Means(os.Signal) Wish { return End }

// writeAtOnce has a file opened so that a write to it can be given up; a console
// always reads.
const writeAtOnce = os.O_WRONLY

// stopGroup cannot: see JobControl.
func stopGroup() error { return errors.ErrUnsupported }

// JobControl says why the program cannot be suspended.
func JobControl() string { return "there are no stopped programs on this system: q quits" }
