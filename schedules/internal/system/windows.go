//go:build windows

package system

import (
	"errors"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"syscall"
	"time"

	"golang.org/x/sys/windows"
)

// Flags of Open beside those of package os. A pipe is no file here, and Open
// never follows a symbolic link to make a file.
const (
	NoWait   = 0
	NoFollow = windows.O_FILE_FLAG_OPEN_REPARSE_POINT
)

// Open opens a file that may be renamed and removed while it is open, which
// os.OpenFile does not allow here. It may be written at any place: who appends
// seeks the end first.
func Open(name string, flag int, mode fs.FileMode) (*os.File, error) {
	failed := func(err error) (*os.File, error) { return nil, &fs.PathError{Op: "open", Path: name, Err: err} }
	p, err := windows.UTF16PtrFromString(name)
	if err != nil {
		return failed(err)
	}
	access := uint32(windows.GENERIC_READ)
	if flag&(os.O_WRONLY|os.O_RDWR) != 0 {
		access |= windows.GENERIC_WRITE
	}
	attributes := uint32(windows.FILE_ATTRIBUTE_NORMAL)
	if mode&0o200 == 0 && flag&os.O_CREATE != 0 {
		attributes = windows.FILE_ATTRIBUTE_READONLY
	}
	if flag&NoFollow != 0 {
		attributes |= windows.FILE_FLAG_OPEN_REPARSE_POINT
	}
	how := uint32(windows.OPEN_EXISTING)
	switch {
	case flag&os.O_CREATE != 0 && flag&os.O_EXCL != 0:
		how = windows.CREATE_NEW
	case flag&os.O_CREATE != 0:
		how = windows.OPEN_ALWAYS
	}
	h, err := windows.CreateFile(p, access, windows.FILE_SHARE_READ|windows.FILE_SHARE_WRITE|windows.FILE_SHARE_DELETE, nil, how, attributes, 0)
	if err != nil {
		return failed(err)
	}
	f := os.NewFile(uintptr(h), name)
	if flag&os.O_TRUNC != 0 {
		if err := f.Truncate(0); err != nil {
			f.Close()
			return nil, err
		}
	}
	return f, nil
}

// lockedByte lies past the end of every file: what is locked here nobody else
// may read or write.
const lockedByte = 1 << 30

// AtOnce reads an open file. No file waits for more here.
func AtOnce(f *os.File) io.Reader { return f }

// Lock takes the exclusive lock on an open file, which ends when the file is
// closed, by hand or by the end of the process. It reports false where somebody
// else has it. Readers are not kept off.
func Lock(f *os.File) (bool, error) {
	err := windows.LockFileEx(windows.Handle(f.Fd()), windows.LOCKFILE_EXCLUSIVE_LOCK|windows.LOCKFILE_FAIL_IMMEDIATELY,
		0, 1, 0, &windows.Overlapped{OffsetHigh: lockedByte})
	switch {
	case err == nil:
		return true, nil
	case errors.Is(err, windows.ERROR_LOCK_VIOLATION), errors.Is(err, windows.ERROR_IO_PENDING):
		return false, nil
	}
	return false, err
}

// Replace puts the file next in the place of the one at path, in one step that
// outlasts a power cut. Programs that look through new files, such as those
// against viruses, keep them open for a moment: that is waited for.
func Replace(next, path string) error {
	from, err := windows.UTF16PtrFromString(next)
	if err != nil {
		return err
	}
	to, err := windows.UTF16PtrFromString(path)
	if err != nil {
		return err
	}
	for try := 0; ; try++ {
		err = windows.MoveFileEx(from, to, windows.MOVEFILE_REPLACE_EXISTING|windows.MOVEFILE_WRITE_THROUGH)
		if err == nil || !Passes(err) || try == replaceTries {
			return err
		}
		time.Sleep(replacePause)
	}
}

// Half a second in all.
const (
	replaceTries = 50
	replacePause = 10 * time.Millisecond
)

// Passes tells whether an error of Open, Replace or a removal may be over in a
// moment, without anybody's doing: a name whose file is being removed, or that
// another program has open, is denied, and so is the removal of a folder that has it.
func Passes(err error) bool {
	return errors.Is(err, windows.ERROR_ACCESS_DENIED) || errors.Is(err, windows.ERROR_SHARING_VIOLATION) ||
		errors.Is(err, windows.ERROR_DELETE_PENDING) || errors.Is(err, windows.ERROR_DIR_NOT_EMPTY)
}

// SyncFolder does nothing: Replace has written through.
func SyncFolder(string) error { return nil }

// Number is the file's in its file system (the file index), 0 where it has none.
// Path is where info was taken of.
func Number(path string, _ fs.FileInfo) uint64 {
	info, err := information(path)
	if err != nil {
		return 0
	}
	return uint64(info.FileIndexHigh)<<32 | uint64(info.FileIndexLow)
}

// HasOtherNames tells whether the file at path, which info was taken of, has
// further names (hard links). Info then stays good for os.SameFile once another
// file is at path.
func HasOtherNames(path string, info fs.FileInfo) bool {
	os.SameFile(info, info) // which looks for the file by its name, the first time
	by, err := information(path)
	return err == nil && by.NumberOfLinks > 1
}

func information(path string) (windows.ByHandleFileInformation, error) {
	var info windows.ByHandleFileInformation
	p, err := windows.UTF16PtrFromString(path)
	if err != nil {
		return info, err
	}
	const nothing = 0 // neither reading nor writing: only to look
	h, err := windows.CreateFile(p, nothing, windows.FILE_SHARE_READ|windows.FILE_SHARE_WRITE|windows.FILE_SHARE_DELETE,
		nil, windows.OPEN_EXISTING, windows.FILE_FLAG_BACKUP_SEMANTICS, 0)
	if err != nil {
		return info, err
	}
	err = windows.GetFileInformationByHandle(h, &info)
	return info, errors.Join(err, windows.CloseHandle(h))
}

// IsOwn does not tell users apart: what may be removed is for the folder to say.
func IsOwn(fs.FileInfo) bool { return true }

// KeepOwner does nothing: who may do what comes from the folder.
func KeepOwner(*os.File, fs.FileInfo) {}

// MayWrite knows no more than the file's mark, which the mode has already.
func MayWrite(string) error { return nil }

// MayWriteFolder does not know: a folder's mark means something else here
// (that it looks special), and who may write in it is only seen by writing.
func MayWriteFolder(string, fs.FileInfo) error { return nil }

// Gone tells whether a process of this machine has ended; not knowing is false.
func Gone(pid int) bool {
	h, err := windows.OpenProcess(windows.SYNCHRONIZE, false, uint32(pid))
	if err != nil {
		return errors.Is(err, windows.ERROR_INVALID_PARAMETER) // no such process
	}
	defer func() { _ = windows.CloseHandle(h) }() // there is nothing to do about it
	ended, err := windows.WaitForSingleObject(h, 0)
	return err == nil && ended == windows.WAIT_OBJECT_0
}

// StateFolder and ConfigFolder are where the system has a program keep what is
// its own and what a user sets, by its environment; "" where that does not say.
func StateFolder() string { return full(os.Getenv("LOCALAPPDATA")) }

// ConfigFolder is described with StateFolder.
func ConfigFolder() string { return full(os.Getenv("APPDATA")) }

func full(dir string) string {
	if !filepath.IsAbs(dir) {
		return ""
	}
	return dir
}

// Home names the variables that StateFolder and ConfigFolder go by, for a message.
const Home = "LOCALAPPDATA and APPDATA"

// Explain puts errors that only this system has into plain words, "" for others.
func Explain(err error) string {
	var number syscall.Errno
	if !errors.As(err, &number) {
		return ""
	}
	switch number {
	case windows.ERROR_DISK_FULL, windows.ERROR_HANDLE_DISK_FULL:
		return "the disk is full"
	case windows.ERROR_DISK_QUOTA_EXCEEDED:
		return "the disk quota is used up"
	case windows.ERROR_WRITE_PROTECT:
		return "the disk is write-protected"
	case windows.ERROR_SHARING_VIOLATION, windows.ERROR_LOCK_VIOLATION:
		return "another program has it open"
	case windows.ERROR_DIRECTORY:
		return "a part of its path is no folder"
	case windows.ERROR_CANT_RESOLVE_FILENAME:
		return "its symbolic links run in a circle"
	case windows.ERROR_FILENAME_EXCED_RANGE:
		return "its name is too long"
	case windows.ERROR_INVALID_NAME:
		return "its name has characters that are not allowed here"
	}
	return ""
}
