// Command veilwright builds and checks corrosion-barrier and structural
// laminates of FRP pipe, tanks and ducts, ply by ply.
package main

import (
	"os"

	"frp/veilwright/cmd/internal/cli"
	_ "frp/veilwright/cmd/internal/quietstart" // before the terminal library is initialized
)

func main() { os.Exit(int(cli.Main())) }
