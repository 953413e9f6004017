// Package keyed reads and writes documents by tables of keys: one list of
// fields a table decides what is read, which keys are known, in which order a
// canonical document has them and how a changed value is written back among
// what its author wrote.
//
// It knows nothing of what the tables mean; the document packages above bring
// the tables and the model.
package keyed
