package store

import (
	"bytes"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"syscall"
	"time"

	"frp/veilwright/schedules"
	"frp/veilwright/schedules/internal/system"
)

// MaxSize is the largest file that is read, in bytes: that of the largest record.
// Documents of other kinds may have less, which is seen when their kind is known.
const MaxSize = schedules.MostRecordBytes

// File is a document as read.
type File struct {
	Path        string // as given
	Resolved    string // absolute, symbolic links followed; "" where read from a stream
	Bytes       []byte
	Fingerprint Fingerprint
	Mode        fs.FileMode
	ReadOnly    bool // Replace would refuse it
}

// Read reads the regular file at path, through symbolic links, whole. It never
// blocks on a pipe or a device, and never reads more than MaxSize and a byte.
// The error is a *Error; errors.Is(err, fs.ErrNotExist) holds for a missing
// file.
func Read(path string) (File, error) {
	now := time.Now()
	data, info, err := readRegular(path)
	if err != nil {
		return File{}, err
	}
	resolved, err := Resolve(path)
	if err != nil {
		return File{}, err
	}
	return File{
		Path:        path,
		Resolved:    resolved,
		Bytes:       data,
		Fingerprint: fingerprint(resolved, info, SumOf(data), now),
		Mode:        info.Mode(),
		ReadOnly:    !writable(path, resolved, info),
	}, nil
}

// Bytes is what Read reads, for those who want the text alone: it does not look
// where the path leads or whether the file may be written. The error is a
// *Error.
func Bytes(path string) ([]byte, error) {
	data, _, err := readRegular(path)
	return data, err
}

// ReadFrom reads r to its end, at most MaxSize. Name stands for it in messages
// and in the result, which has nowhere to be written back to. The error is a
// *Error.
func ReadFrom(r io.Reader, name string) (File, error) {
	now := time.Now()
	data, err := readLimited(r, 0)
	if err != nil {
		return File{}, failure(name, "cannot be read", err)
	}
	if len(data) > MaxSize {
		return File{}, tooLarge(name, nil)
	}
	return File{
		Path:        name,
		Bytes:       data,
		Fingerprint: Fingerprint{Size: int64(len(data)), Sum: SumOf(data), Taken: now.UnixNano()},
		ReadOnly:    true,
	}, nil
}

// readTries is how often a file is read again that changed while it was read.
const readTries = 3

// readRegular reads a regular file whole and returns its state at the time.
func readRegular(path string) ([]byte, fs.FileInfo, error) { return readSettled(path, readOnce) }

// reader reads a file and returns its state before and after.
type reader func(path string) (data []byte, before, after fs.FileInfo, err error)

// readSettled reads again when the file changed meanwhile, lest the start of
// one text be taken with the end of another.
func readSettled(path string, read reader) ([]byte, fs.FileInfo, error) {
	for range readTries {
		data, before, after, err := read(path)
		if err != nil {
			return nil, nil, err
		}
		if stamp(path, before) == stamp(path, after) {
			return data, after, nil
		}
	}
	return nil, nil, &Error{Path: path, Why: "another program is writing it just now"}
}

func readOnce(path string) (data []byte, before, after fs.FileInfo, err error) {
	f, before, err := openRegular(path, os.O_RDONLY)
	if err != nil {
		return nil, nil, nil, err
	}
	defer f.Close()
	if data, err = readOpened(path, f, before.Size()); err != nil {
		return nil, nil, nil, err
	}
	if after, err = f.Stat(); err != nil {
		return nil, nil, nil, failure(path, "cannot be read", err)
	}
	return data, before, after, nil
}

// readOpened reads what openRegular opened, without waiting for anything.
func readOpened(path string, f *os.File, hint int64) ([]byte, error) {
	data, err := readLimited(system.AtOnce(f), hint)
	if err != nil {
		return nil, failure(path, "cannot be read", err)
	}
	if len(data) > MaxSize {
		return nil, tooLarge(path, nil)
	}
	return data, nil
}

// readLimited reads at most a byte more than MaxSize: enough to tell.
func readLimited(r io.Reader, hint int64) ([]byte, error) {
	var b bytes.Buffer
	b.Grow(int(hint) + bytes.MinRead)
	_, err := b.ReadFrom(io.LimitReader(r, MaxSize+1))
	return b.Bytes(), err
}

// openRegular opens a regular file of at most MaxSize. It looks before it
// opens, since opening alone can act on a device, and again on what it opened.
func openRegular(path string, flag int) (*os.File, fs.FileInfo, error) {
	info, err := os.Stat(path)
	if err != nil {
		return nil, nil, failure(path, "cannot be read", err)
	}
	if err := refuseKind(path, info); err != nil {
		return nil, nil, err
	}
	return openLooked(path, flag)
}

// openLooked is openRegular without the look before. Without O_NONBLOCK it
// would wait for ever for a writer where a pipe took the file's place in between.
func openLooked(path string, flag int) (*os.File, fs.FileInfo, error) {
	f, err := system.Open(path, flag|system.NoWait, 0)
	if err != nil {
		return nil, nil, failure(path, "cannot be opened", err)
	}
	info, err := f.Stat()
	if err != nil {
		f.Close()
		return nil, nil, failure(path, "cannot be read", err)
	}
	if err := refuseKind(path, info); err != nil {
		f.Close()
		return nil, nil, err
	}
	return f, info, nil
}

// refuseKind is an error unless info is of a regular file of at most MaxSize.
func refuseKind(path string, info fs.FileInfo) error {
	var why string
	switch mode := info.Mode(); {
	case mode.IsRegular():
		if info.Size() > MaxSize {
			return tooLarge(path, info)
		}
		return nil
	case mode.IsDir():
		why = "is a folder, not a file"
	case mode&fs.ModeNamedPipe != 0:
		why = "is a pipe, not a file (standard input is read with -)"
	case mode&fs.ModeDevice != 0:
		why = "is a device, not a file"
	case mode&fs.ModeSocket != 0:
		why = "is a socket, not a file"
	default:
		why = "is not a regular file"
	}
	return &Error{Path: path, Why: why}
}

func tooLarge(path string, info fs.FileInfo) error {
	why := fmt.Sprintf("is over %d MiB, the most that a document may have", MaxSize>>20)
	if info != nil {
		why = fmt.Sprintf("has %.1f MiB, and a document may have %d MiB at most",
			float64(info.Size())/(1<<20), MaxSize>>20)
	}
	return &Error{Path: path, Why: why}
}

// linkLimit is how many symbolic links are followed to a file that does not
// exist, as many as Linux follows itself (path_resolution(7)).
const linkLimit = 40

// Resolve returns the absolute path of the file that path leads to, symbolic
// links followed. The file itself need not exist, not even where path is a link
// to it; its folder must. The error is a *Error.
func Resolve(path string) (string, error) {
	// Joining by hand: package filepath would take "link/.." for nothing.
	full := path
	if !filepath.IsAbs(full) {
		wd, err := os.Getwd()
		if err != nil {
			return "", failure(path, "cannot be found", err)
		}
		full = wd + string(filepath.Separator) + full
	}
	for range linkLimit {
		resolved, err := filepath.EvalSymlinks(full)
		if err == nil {
			return resolved, nil
		}
		dir, base := filepath.Split(full)
		if base == "" || base == "." || base == ".." {
			return "", failure(path, "cannot be found", err)
		}
		if dir, err = filepath.EvalSymlinks(dir); err != nil {
			return "", &Error{Path: path, Why: "its folder cannot be found: " + explain(err), Err: err}
		}
		here := filepath.Join(dir, base)
		info, err := os.Lstat(here)
		switch {
		case os.IsNotExist(err):
			return here, nil
		case err != nil:
			return "", failure(path, "cannot be found", err)
		case info.Mode()&fs.ModeSymlink == 0:
			return here, nil
		}
		if full, err = os.Readlink(here); err != nil {
			return "", failure(path, "cannot be found", err)
		}
		if !filepath.IsAbs(full) {
			full = dir + string(filepath.Separator) + full
		}
	}
	return "", failure(path, "cannot be found", syscall.ELOOP)
}

// Writable tells whether Replace would write the file at path, be it there or not.
func Writable(path string) bool {
	resolved, err := Resolve(path)
	if err != nil {
		return false
	}
	info, err := os.Stat(resolved)
	if os.IsNotExist(err) {
		return refuseFolder(path, resolved) == nil
	}
	return err == nil && writable(path, resolved, info)
}

// writable tells whether the file and its folder may be written to.
func writable(path, resolved string, info fs.FileInfo) bool {
	return refuseWriting(path, resolved, info) == nil && refuseFolder(path, resolved) == nil
}
