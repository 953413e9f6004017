//go:build race

package e2e

// raced: the program is built as its tests are.
const raced = true
