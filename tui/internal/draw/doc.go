// Package draw puts text and pictures on the screen: text that is measured, cut,
// padded and wraps (Width, Cut, Left, Wrap, Fit), the look of each kind of text
// (Theme), and the division of the screen (FormOf, PageFrame, BenchPage). It is
// the only place of the terminal program that counts cells.
//
// A string may carry color only as complete SGR sequences (ESC [ … m), the
// way a Style writes them; they count no cells and are never cut in two.
// Anything that came out of a file or a clipboard goes through Clean (one line)
// or CleanText (several) before it is drawn or measured. Fit, applied last by
// the root, repairs what slipped past: no control character reaches the
// terminal through it, and its result has exactly the size that was asked for.
//
// Widths are those of github.com/charmbracelet/x/ansi (grapheme clusters), the
// measure the terminal library itself cuts by. Drawings use glyphs of one cell
// only; ASCII turns them into one-byte stand-ins, cell for cell, for terminals
// that cannot show UTF-8.
//
// A Style is two ready strings, so drawing a span is a concatenation. Styles are
// not nested: the end of the inner one would end the outer one too. Set spans
// side by side instead. The terminal is never asked for its colors; who wants
// other ones than the default names a theme. Color never carries a meaning
// alone: whoever draws a selection draws Pointer before it, and a severity is
// always written as a word.
//
// Nobody else does arithmetic with the terminal's size. A screen of Full size
// (80×24) and more shows everything; down to Least (60×16) side panes go below
// or away; under that one sentence says how much is needed. From Wide (120×36)
// the picture is three rows high and a column of figures stands at the right;
// from Huge (200×60) findings get a column too.
package draw
