//go:build unix

package output

import (
	"errors"
	"syscall"
)

// ReaderGone tells whether an error of writing says that nobody reads any more.
func ReaderGone(err error) bool { return errors.Is(err, syscall.EPIPE) }
