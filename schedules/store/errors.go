package store

import (
	"errors"
	"io/fs"
	"syscall"

	"frp/veilwright/laminate/word"
	"frp/veilwright/schedules/internal/system"
)

// Error says in one sentence what is wrong with a file. Err is the cause, where
// there is one, for errors.Is.
type Error struct {
	Path string // as the caller gave it
	Why  string // goes after "path: "
	Err  error
}

func (e *Error) Error() string { return shown(e.Path) + ": " + e.Why }

// Unwrap returns the cause.
func (e *Error) Unwrap() error { return e.Err }

// failure makes an Error of an error of the operating system. Before goes
// before the explanation: "cannot be read".
func failure(path, before string, err error) error {
	var own *Error
	if errors.As(err, &own) {
		return err
	}
	return &Error{Path: path, Why: before + ": " + explain(err), Err: err}
}

// explain puts the system errors that people meet into plain words.
func explain(err error) string {
	if why := system.Explain(err); why != "" {
		return why
	}
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return "it does not exist"
	case errors.Is(err, syscall.ENOSPC):
		return "the disk is full"
	case errors.Is(err, syscall.EDQUOT):
		return "the disk quota is used up"
	case errors.Is(err, syscall.EFBIG):
		return "it would pass the largest file size allowed here"
	case errors.Is(err, syscall.EROFS):
		return "the file system is read-only"
	case errors.Is(err, fs.ErrPermission):
		return "permission denied"
	case errors.Is(err, syscall.ENOTDIR):
		return "a part of its path is no folder"
	case errors.Is(err, syscall.ELOOP):
		return "its symbolic links run in a circle"
	case errors.Is(err, syscall.ENAMETOOLONG):
		return "its name is too long"
	case errors.Is(err, syscall.EAGAIN):
		return "it holds no text with an end, but gives more when there is more"
	case errors.Is(err, syscall.EINVAL):
		return "its name or its file system does not allow that"
	}
	// The outer errors of package os repeat the path that Error names already.
	var path *fs.PathError
	if errors.As(err, &path) {
		err = path.Err
	}
	return word.Clean(err.Error())
}

// shown is a path as it may be printed.
func shown(path string) string {
	if path == "" {
		return `""`
	}
	return word.Clean(path)
}
