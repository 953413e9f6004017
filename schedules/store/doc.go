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
//   - Replace is the one way in which a document's file is replaced: it touches
//     nothing that changed since it was read or that another program has open,
//     and unsaved work is in the journal before the file is touched.
//   - A journal's text outlasts a killed program from the moment that Save
//     returns, and a power cut from about a second later.
//   - An entry that was added to a log outlasts a power cut, and one that was
//     cut short is put aside, never thrown away.
//   - What a killed program leaves half-done (a new file beside a document, a
//     lock, a journal without a text) the next one takes away: Sweep. It is told
//     from a running program's by a lock that ends with the process.
//   - Every error is one sentence that names the file, and a file name never
//     reaches a screen with its control characters.
//
// What it does not promise: a replaced file keeps its mode, its owner where the
// user may give it, and its other names (hard links) in the same folder, but not
// names in other folders (they keep the old bytes, since they cannot be found
// without a search of the whole file system), access control lists or extended
// attributes. Locks are advisory and guard one user's programs against each
// other; between users the fingerprint check of Replace does. It is for Unix
// systems.
package store
