// Command veilwright builds and checks corrosion-barrier and structural
// laminates of FRP pipe, tanks and ducts, ply by ply.
package main

import (
	"os"
	"os/signal"
	"syscall"

	"frp/veilwright/cmd/internal/cli"
	_ "frp/veilwright/cmd/internal/quietstart" // before the terminal library is initialised
)

func main() {
	// A reader that goes away becomes an error that can be told, not a death by signal.
	signal.Ignore(syscall.SIGPIPE)
	os.Exit(int(cli.Run(os.Args[1:], cli.This())))
}
