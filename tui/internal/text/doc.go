// Package text measures, cuts, pads and wraps what goes on the screen. It is
// the only place of the terminal program that counts cells.
//
// A string may carry color only as complete SGR sequences (ESC [ … m), the
// way package theme writes them; they count no cells and are never cut in two.
// Anything that came out of a file or a clipboard goes through Clean (one line)
// or CleanText (several) before it is drawn or measured. Fit, applied last by
// the root, repairs what slipped past: no control character reaches the
// terminal through it, and its result has exactly the size that was asked for.
//
// Widths are those of github.com/charmbracelet/x/ansi (grapheme clusters), the
// measure the terminal library itself cuts by. Drawings use glyphs of one cell
// only; ASCII turns them into one-byte stand-ins, cell for cell, for terminals
// that cannot show UTF-8.
package text
