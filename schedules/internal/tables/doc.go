// Package tables reads and writes documents by tables of keys: one list of
// fields a table decides what is read, which keys are known, in which order a
// canonical document has them and how a changed value is written back among
// what its author wrote. A table may have tables of its own, one level deep:
// their rows are counted through the file, each with its parent.
//
// It owns the TOML libraries' traps, so that nothing above it has to know
// them: one library gives exact byte ranges and refuses deep nesting, the other
// gives the values and finds what TOML forbids across lines, such as a key
// given twice. It knows nothing of what the tables mean; the document packages
// above bring the tables and the model.
package tables
