// Package store owns what happens to documents on disk, as pure bytes: reading
// with a limit, atomic replacement, fingerprints, locks, the recovery journal,
// the append-only log, and finding shop books and documents in folders.
//
// It knows nothing of what the bytes mean and imports no other package of the
// module. It keeps no state of its own between calls; where a user's folders
// lie is read from the environment at each call ($XDG_STATE_HOME,
// $XDG_CONFIG_HOME, $HOME).
//
// What it promises:
//
//   - A document is never seen half-written, neither by another program nor
//     after a crash or a power cut: a reader gets the old bytes or the new.
//   - Write replaces nothing that changed since it was read.
//   - A journal's text outlasts a killed program from the moment that Save
//     returns, and a power cut from about a second later.
//   - An entry that was added to a log outlasts a power cut, and one that was
//     cut short is put aside, never thrown away.
//   - Every error is one sentence that names the file, and a file name never
//     reaches a screen with its control characters.
//
// What it does not promise: a replaced file keeps its mode, and its owner where
// the user may give it, but not its hard links (the other names keep the old
// bytes), access control lists or extended attributes. Locks are advisory and
// guard one user's programs against each other; between users the fingerprint
// check of Write does. It is for Unix systems.
package store
