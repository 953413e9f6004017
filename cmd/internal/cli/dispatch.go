package cli

import (
	"errors"
	"fmt"
	"os"
	"strings"

	"github.com/alecthomas/kong"

	"frp/veilwright/laminate/word"
)

// openCommand is the name under which the grammar holds the terminal program;
// on a command line it is opened without a name.
const openCommand = "open"

// dispatch puts the name of the hidden opening command before a call that
// names a document or nothing, and turns "help X" into "X --help". A first
// word that is no command must exist or end in .toml: a mistyped command must
// not become the name of a new document.
func dispatch(app *kong.Application, args []string) ([]string, error) {
	commands := commandNames(app)
	at, asks := firstWord(app, args)
	if at < 0 {
		if asks || find(app, openCommand) == nil {
			return args, nil
		}
		return append([]string{openCommand}, args...), nil
	}
	first := args[at]
	if first == "help" {
		rest := append(append([]string{}, args[:at]...), args[at+1:]...)
		return append(rest, "--help"), nil
	}
	if first != openCommand && find(app, first) != nil {
		return args, nil
	}
	if first == stdinName {
		return nil, errors.New("standard input cannot be opened in the terminal; name a file, or a command such as veilwright check -")
	}
	_, err := os.Stat(first)
	if err != nil && !strings.HasSuffix(first, ".toml") {
		if near := word.Nearest(first, commands); near != "" {
			return nil, fmt.Errorf("%q is neither a command nor a file or folder; did you mean %s? see veilwright --help", first, near)
		}
		return nil, fmt.Errorf("%q is neither a command nor a file or folder; see veilwright --help", first)
	}
	if find(app, openCommand) == nil {
		return args, nil
	}
	return append([]string{openCommand}, args...), nil
}

// firstWord finds the first argument that is neither a flag nor a flag's
// value, -1 when there is none, and whether help or version is asked for.
func firstWord(app *kong.Application, args []string) (at int, asks bool) {
	for i := 0; i < len(args); i++ {
		a := args[i]
		switch {
		case a == "--":
			if i+1 < len(args) {
				return i + 1, asks
			}
			return -1, asks
		case a == "--help", a == "-h", a == "--version":
			asks = true
		case takesValue(app.Node, a):
			i++
		case !strings.HasPrefix(a, "-"), a == stdinName:
			return i, asks
		}
	}
	return -1, asks
}

// takesValue tells whether the next argument is the value of this flag.
func takesValue(node *kong.Node, arg string) bool {
	for n := node; n != nil; n = n.Parent {
		for _, f := range n.Flags {
			if arg == "--"+f.Name || f.Short != 0 && arg == "-"+string(f.Short) {
				return !f.IsBool()
			}
		}
	}
	return false
}

// find gives the node of a command.
func find(app *kong.Application, name string) *kong.Node {
	for _, n := range app.Children {
		if n.Name == name {
			return n
		}
	}
	return nil
}

// commandNames lists the commands that a person can type.
func commandNames(app *kong.Application) []string {
	var names []string
	for _, n := range app.Children {
		if !n.Hidden {
			names = append(names, n.Name)
		}
	}
	return names
}
