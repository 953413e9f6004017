//go:build !linux

package terminal

import "os"

// flush does nothing: what was written and not read yet stays before what comes.
func flush(*os.File) {}

// device knows no terminal: output waits as long as the terminal does.
func device(*os.File) (number int, known bool) { return 0, false }
