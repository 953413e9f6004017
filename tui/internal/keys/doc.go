// Package keys has the keys a person presses and the table of what they do.
//
// Terminals deliver bytes in lumps of any size. Several keys of one lump come
// as one message; an escape sequence cut by a slow line comes as Esc and stray
// letters; Esc and the key after it come as one key with Alt. The Reader undoes
// all three, so that what is handled is what was pressed, one Event a key or a
// whole paste. Alt is therefore no modifier here: Alt+x is Esc, then x, which is
// harmless because Esc never destroys anything.
//
// A Binding is the form every key has. From one Table of them come what a key
// does, the last line of the screen and the page of all keys, so that none of
// these can say something else than the others. What acts here and now is asked
// when it is needed: a page gives a Can that says why a binding cannot act, and
// that reason is what a person reads.
package keys
