// Package quietstart keeps the terminal library silent in commands that need
// no terminal.
//
// The library asks the terminal for its background color while its package is
// initialized, and waits up to five seconds where nothing answers
// (charmbracelet/bubbletea#1771, closed as not planned). An answer given
// before that moment makes the question unnecessary. Go initializes packages
// that are ready in the order of their import paths, so this package, whose
// path sorts before github.com/charmbracelet/bubbletea, is always in time; it
// imports nothing but the styling library, on which the other waits anyway.
//
// The answer itself is of no consequence: colors are chosen by --theme, never
// by the terminal's background.
package quietstart

import "github.com/charmbracelet/lipgloss"

// An init function is what this needs: no call in main can come early enough.
func init() { lipgloss.SetHasDarkBackground(true) }
