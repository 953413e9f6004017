// Package system is what operating systems do with files each in its own way:
// opening, locking, replacing, owners and numbers. Everything else of the module
// that keeps files is the same on all of them.
package system
