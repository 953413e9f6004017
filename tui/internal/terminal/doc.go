// Package terminal stands between the terminal library and the terminal. What
// the library takes for granted does not always hold: that a terminal reads what
// is written to it, that an opened paste is closed, that a stopped program was
// stopped by itself. None of it may keep unsaved work from the journal, a signal
// from its effect, or the shell from its terminal.
package terminal
