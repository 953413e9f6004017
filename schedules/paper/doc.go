// Package paper is what is printed of a report: a Sheet of blocks, made by pure
// functions, and the writers that set it as text, as Markdown and as CSV. It
// knows neither a terminal nor a command line; screens take the rows' cells.
//
// Text of a document never reaches a reader raw: every writer passes it through
// Clean. A line that points to a place (file:line: severity rule: message)
// stays one line, so that editors can jump to it; all other text wraps.
package paper
