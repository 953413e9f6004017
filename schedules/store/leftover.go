package store

import (
	"encoding/json"
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"

	"frp/veilwright/schedules/internal/system"
)

// What a process that was killed leaves behind: a file that was to replace a
// document, the lock of one, a journal without a text. Each is locked as long as
// its process lives, from before it holds anything, so that whoever finds it
// unlocked may take it away: the process that sweeps at its start, or the next
// one that wants the name.

// newEnding ends the names of files that are being written, beside the documents
// they are to replace. No other program makes such names.
const newEnding = ".veilwright-new"

// newTries is how many names there are to a document, should others not let go
// of the first; sweptTries is how often a name is taken again that a sweep took
// away in the moment before it was locked.
const (
	newTries   = 8
	sweptTries = 100
)

// longestName is what Linux and the BSDs allow a file name, in bytes (NAME_MAX).
const longestName = 255

// newName is the n-th name for what will replace the file at resolved.
func newName(resolved string, n int) string {
	dir, base := filepath.Split(resolved)
	ending := newEnding
	if n > 0 {
		ending += strconv.Itoa(n)
	}
	name := "." + base + ending
	if len(name) > longestName {
		name = "." + keyOf(resolved) + ending
	}
	return dir + name
}

// isNewName tells whether newName could have made base.
func isNewName(base string) bool {
	name, hidden := strings.CutPrefix(base, ".")
	if n := len(name); n > 0 && name[n-1] >= '0' && name[n-1] <= '9' {
		name = name[:n-1]
	}
	of, ok := strings.CutSuffix(name, newEnding)
	return hidden && ok && of != ""
}

// createNew makes the file that will replace the one at resolved: locked, and
// with the mode and owner of old, where there is an old one.
func createNew(resolved string, old fs.FileInfo) (*os.File, error) {
	mode := fs.FileMode(0o666)
	if old != nil {
		mode = 0o600 // until it has its owner
	}
	n := 0
	for range sweptTries {
		if n == newTries {
			break
		}
		name := newName(resolved, n)
		sweepNew(name)
		f, err := system.Open(name, os.O_WRONLY|os.O_CREATE|os.O_EXCL, mode)
		if err != nil {
			if errors.Is(err, fs.ErrExist) {
				n++
				continue
			}
			return nil, err
		}
		// A file system without locks is one where nothing can be swept.
		if free, cannot := system.Lock(f); cannot == nil && (!free || !stillNamed(f, name)) {
			f.Close() // taken for a leftover in the moment before it was locked
			continue
		}
		if old != nil {
			system.KeepOwner(f, old)
			if err := f.Chmod(old.Mode().Perm()); err != nil {
				_ = os.Remove(name)
				f.Close()
				return nil, err
			}
		}
		return f, nil
	}
	return nil, &Error{Path: resolved, Why: "other programs are writing it"}
}

// sweepNew removes the file of that name if it is what a dead process was
// writing.
func sweepNew(name string) {
	f, err := system.Open(name, os.O_RDONLY|system.NoFollow|system.NoWait, 0)
	if err != nil {
		return
	}
	defer f.Close()
	info, err := f.Stat()
	if err != nil || !info.Mode().IsRegular() || !system.IsOwn(info) {
		return
	}
	if free, err := system.Lock(f); err == nil && free && stillNamed(f, name) {
		_ = os.Remove(name)
	}
}

// Sweep removes what processes of this user that are gone left behind in the
// state and configuration folders and in folder ("" is the present one), the documents' own: never
// anything that a running process has, nor unsaved work, nor a file that does
// not look in name and content like one of the program's. What cannot be removed
// stays, and is no reason to say anything.
func Sweep(folder string) {
	if folder == "" {
		folder = "."
	}
	unfinished := func(name string) {
		if isNewName(filepath.Base(name)) {
			sweepNew(name)
		}
	}
	sweepFolder(folder, unfinished)
	if config, err := ConfigFolder(); err == nil {
		sweepFolder(config, unfinished)
	}
	state, err := StateFolder()
	if err != nil {
		return
	}
	sweepFolder(state, unfinished)
	sweepFolder(filepath.Join(state, "locks"), sweepLock)
	sweepFolder(filepath.Join(state, "journals"), sweepJournal)
}

func sweepFolder(folder string, sweep func(name string)) {
	entries, err := os.ReadDir(folder)
	if err != nil {
		return
	}
	for _, e := range entries {
		sweep(filepath.Join(folder, e.Name()))
	}
}

// isKey tells whether keyOf could have made s.
func isKey(s string) bool { return len(s) == 32 && strings.Trim(s, "0123456789abcdef") == "" }

// sweepLock removes a lock file that nobody holds: see Unlock and TryLock.
func sweepLock(name string) {
	if of, ok := strings.CutSuffix(filepath.Base(name), ".lock"); !ok || !isKey(of) {
		return
	}
	f, err := system.Open(name, os.O_RDWR|system.NoFollow|system.NoWait, 0)
	if err != nil {
		return
	}
	defer f.Close()
	text, err := readOpened(name, f, 0)
	var h Holder
	if err != nil || len(text) > 0 && (json.Unmarshal(text, &h) != nil || h.PID <= 0) {
		return
	}
	if free, err := system.Lock(f); err == nil && free && stillNamed(f, name) {
		_ = os.Remove(name)
	}
}

// isJournal tells whether base is the name of a journal: its document's, a hyphen
// and a number.
func isJournal(base string) bool {
	of, number, ok := strings.Cut(base, "-")
	return ok && (of == untitled || isKey(of)) && number != "" && strings.Trim(number, "0123456789") == ""
}

// sweepJournal removes what is left of a journal that was dropped, and a journal
// of a dead process whose text never came to be whole or is in its file by now.
func sweepJournal(dir string) {
	base, gone := strings.CutPrefix(filepath.Base(dir), gonePrefix)
	switch {
	case !isJournal(base) || !onlyOurs(dir):
	case gone:
		_ = os.RemoveAll(dir)
	default:
		// What waits for its document is not even locked: somebody may be
		// looking for it at this moment.
		if gone, err := hasNothing(dir); err != nil || !gone {
			return
		}
		// One that is being made has no lock file, or is about to have it
		// locked: its maker then takes another name.
		if os.Remove(dir) == nil { // which takes an empty folder alone
			return
		}
		lock, err := system.Open(filepath.Join(dir, lockName), os.O_RDWR|system.NoFollow, 0)
		if err != nil {
			return
		}
		defer removeRest(dir)
		defer lock.Close()
		if free, err := system.Lock(lock); err != nil || !free || !stillNamed(lock, lock.Name()) {
			return
		}
		if gone, err := hasNothing(dir); err == nil && gone {
			_ = removeJournal(dir)
		}
	}
}

// hasNothing tells whether a journal has no whole text that is not in its file.
func hasNothing(dir string) (bool, error) {
	u, whole, err := newestText(dir)
	return !whole || u.isInFile(), err
}

// onlyOurs tells whether a folder is this user's and holds nothing but what a
// journal's does.
func onlyOurs(dir string) bool {
	info, err := os.Lstat(dir)
	if err != nil || !info.IsDir() || !system.IsOwn(info) {
		return false
	}
	entries, err := os.ReadDir(dir)
	return err == nil && !slices.ContainsFunc(entries, func(e fs.DirEntry) bool {
		name := strings.TrimPrefix(e.Name(), ".")
		return !e.Type().IsRegular() || !slices.Contains([]string{textOneName, textTwoName, durableName, lockName, durableName + newEnding}, name)
	})
}
