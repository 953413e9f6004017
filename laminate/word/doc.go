// Package word has what is done with the words of documents and command lines,
// whatever they mean: closed sets of them, and the one that was meant.
package word
