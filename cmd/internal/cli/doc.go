// Package cli is the command line: the grammar, one file a subcommand, exit
// codes, and what commands print as text and as JSON.
//
// A command reads documents, asks the packages below for a report and prints
// it; it judges nothing itself. Text and JSON come from the same report. How
// commands word things is written down in package output.
//
// To add a command, see "Add a command" in DEVELOPERS.md.
package cli
