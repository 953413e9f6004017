// Command bare is the list and nothing else.
package main

import (
	"os"

	"frp/veilwright/tui/internal/pace/list"
)

func main() { os.Exit(list.Run()) }
