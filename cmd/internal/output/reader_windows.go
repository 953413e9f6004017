package output

import (
	"errors"

	"golang.org/x/sys/windows"
)

// ReaderGone tells whether an error of writing says that nobody reads any more.
func ReaderGone(err error) bool {
	return errors.Is(err, windows.ERROR_BROKEN_PIPE) || errors.Is(err, windows.ERROR_NO_DATA)
}
