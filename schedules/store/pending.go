package store

import (
	"bytes"
	"encoding/json"
	"errors"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"time"

	"frp/veilwright/schedules/internal/system"
)

// Unsaved is the text of a document that a program which is gone had not saved.
type Unsaved struct {
	Path string // of the document, full; "" where it had none
	Meta
	Bytes []byte
	Time  time.Time // when it was kept
	PID   int       // of the program
	Host  string

	dir    string
	serial uint64
}

// PendingFor returns what is kept of the document at path, newest first; with
// "" of the documents that had no file. What a running program keeps is left
// out, and so is text that the file holds by now.
//
// The texts come beside an error, which tells of those that could not be read.
func PendingFor(path string) ([]Unsaved, error) { return pending(journalKey(path) + "-") }

// Pending returns what is kept of all documents, as PendingFor does of one.
func Pending() ([]Unsaved, error) { return pending("") }

func pending(prefix string) ([]Unsaved, error) {
	state, err := StateFolder()
	if err != nil {
		return nil, err
	}
	base := filepath.Join(state, "journals")
	entries, err := os.ReadDir(base)
	if errors.Is(err, fs.ErrNotExist) {
		return nil, nil
	}
	if err != nil {
		return nil, failure(base, "cannot be searched for unsaved work", err)
	}
	var found []Unsaved
	var errs []error
	for _, e := range entries {
		if !e.IsDir() || !strings.HasPrefix(e.Name(), prefix) || strings.HasPrefix(e.Name(), ".") {
			continue
		}
		u, ok, err := leftBehind(filepath.Join(base, e.Name()))
		if err != nil {
			errs = append(errs, err)
		}
		if ok {
			found = append(found, u)
		}
	}
	slices.SortStableFunc(found, func(a, b Unsaved) int { return b.Time.Compare(a.Time) })
	return found, errors.Join(errs...)
}

// Drop removes the text for good: it was saved, or is not wanted.
func (u Unsaved) Drop() error { return removeJournal(u.dir) }

// gonePrefix begins the name of a journal that is being removed.
const gonePrefix = ".gone-"

// removeJournal takes the folder out of sight first: piece by piece its text
// could outlast its lock for a moment and be taken for a dead program's. What is
// left out of sight, where names stay as long as files are open, a start sweeps.
func removeJournal(dir string) error {
	gone := goneName(dir)
	err := os.Rename(dir, gone)
	switch {
	case err == nil:
		_ = os.RemoveAll(gone)
	case !errors.Is(err, fs.ErrNotExist):
		// Some systems move no folder of which a file is open.
		err = removePieces(dir)
	}
	if err != nil && !errors.Is(err, fs.ErrNotExist) {
		return failure("recovery journal", "cannot be removed", err)
	}
	return nil
}

func goneName(dir string) string {
	return filepath.Join(filepath.Dir(dir), gonePrefix+filepath.Base(dir))
}

// removePieces removes a journal from its oldest copy to its lock: what an end in
// between leaves is the newest text, which the file has too where it was saved.
func removePieces(dir string) error {
	texts := textNames(dir)
	slices.SortStableFunc(texts, func(a, b string) int { return modified(a).Compare(modified(b)) })
	var err error
	for try := 0; ; try++ {
		for _, name := range append(texts, filepath.Join(dir, lockName)) {
			_ = os.Remove(name) // what is left shows in the end
		}
		if err = os.Remove(dir); err == nil {
			return nil
		}
		// Without text it says nothing, and a start takes it away.
		left := slices.ContainsFunc(texts, exists)
		switch {
		case try < 2: // a copy may be on its way to the disk meanwhile
		case !left:
			return nil
		case system.Passes(err) && try < lockTries:
			time.Sleep(lockPause)
		default:
			return err
		}
	}
}

// removeRest removes what a removed journal's open files left of it, now that
// they are closed.
func removeRest(dir string) {
	if gone := goneName(dir); exists(gone) {
		_ = os.RemoveAll(gone)
	}
}

func modified(name string) time.Time {
	info, err := os.Lstat(name)
	if err != nil {
		return time.Time{}
	}
	return info.ModTime()
}

// leftBehind reads the journal in dir, unless a running program has it, or
// nothing in it is worth offering.
func leftBehind(dir string) (Unsaved, bool, error) {
	// A folder without text is not touched: it can be a new one whose program
	// is about to lock it. With text it is locked, or its program is gone.
	if !slices.ContainsFunc(textNames(dir), exists) {
		return Unsaved{}, false, nil
	}
	lock, err := system.Open(filepath.Join(dir, lockName), os.O_RDONLY, 0)
	switch {
	case err == nil:
		defer removeRest(dir)
		defer lock.Close()
		// Held while reading, so that nobody else offers it at this moment.
		if free, err := system.Lock(lock); err != nil || !free {
			return Unsaved{}, false, err
		}
	case !errors.Is(err, fs.ErrNotExist):
		return Unsaved{}, false, failure(dir, "may hold unsaved work, but cannot be opened", err)
	}
	u, ok, err := newestText(dir)
	if ok && u.isInFile() {
		return Unsaved{}, false, u.Drop()
	}
	return u, ok, err
}

// isInFile tells whether the program ended between the save and the drop.
func (u Unsaved) isInFile() bool {
	if u.Path == "" {
		return false
	}
	now, _, err := readRegular(u.Path)
	return err == nil && bytes.Equal(now, u.Bytes)
}

func textNames(dir string) []string {
	return []string{
		filepath.Join(dir, textOneName), filepath.Join(dir, textTwoName), filepath.Join(dir, durableName),
	}
}

func exists(path string) bool {
	_, err := os.Lstat(path)
	return err == nil
}

// readShared reads a file that may be removed meanwhile.
func readShared(path string) ([]byte, error) {
	f, err := system.Open(path, os.O_RDONLY, 0)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	return io.ReadAll(f)
}

// newestText decodes the newest of the copies that are whole: the last may be
// cut short by the end of the program, and those that did not wait for the disk
// by a power cut.
func newestText(dir string) (Unsaved, bool, error) {
	var errs []error
	var best Unsaved
	var found bool
	for _, path := range textNames(dir) {
		image, err := readShared(path)
		if err != nil && !errors.Is(err, fs.ErrNotExist) {
			errs = append(errs, failure(path, "may hold unsaved work, but cannot be read", err))
		}
		if u, whole := decodeJournal(image); whole && (!found || u.serial > best.serial) {
			best, found = u, true
		}
	}
	if found {
		best.dir = dir
		return best, true, nil
	}
	return Unsaved{}, false, errors.Join(errs...)
}

// journalMark begins a journal file: its kind and the version of its layout,
// which is this line, a line of JSON, and the text as it is.
const journalMark = "veilwright journal 1\n"

// journalHead is the line of JSON. Path is in Go syntax, since a file name need
// not be UTF-8 and JSON would fix it.
type journalHead struct {
	Path   string      `json:"path"`
	Base   Fingerprint `json:"base"`
	Label  string      `json:"label"`
	Rev    uint64      `json:"rev"`
	Time   time.Time   `json:"time"`
	PID    int         `json:"pid"`
	Host   string      `json:"host"`
	Serial uint64      `json:"serial"` // counts the texts of one journal
	Size   int         `json:"size"`
	Sum    Sum         `json:"sha256"`
}

func encodeJournal(data []byte, path string, m Meta, serial uint64, by Holder) ([]byte, error) {
	head, err := json.Marshal(journalHead{
		Path: strconv.QuoteToASCII(path), Base: m.Base, Label: m.Label, Rev: m.Rev,
		Time: time.Now().UTC(), PID: by.PID, Host: by.Host, Serial: serial,
		Size: len(data), Sum: SumOf(data),
	})
	if err != nil {
		return nil, journalFailure(err)
	}
	return slices.Concat([]byte(journalMark), head, []byte{'\n'}, data), nil
}

// decodeJournal reports false unless image is whole.
func decodeJournal(image []byte) (Unsaved, bool) {
	rest, ok := bytes.CutPrefix(image, []byte(journalMark))
	if !ok {
		return Unsaved{}, false
	}
	line, data, ok := bytes.Cut(rest, []byte{'\n'})
	if !ok {
		return Unsaved{}, false
	}
	var head journalHead
	if json.Unmarshal(line, &head) != nil || head.Size < 0 || head.Size > len(data) {
		return Unsaved{}, false
	}
	// Longer where the end came before the file was cut to its new length.
	if data = data[:head.Size]; head.Sum != SumOf(data) {
		return Unsaved{}, false
	}
	path, err := strconv.Unquote(head.Path)
	if err != nil {
		return Unsaved{}, false
	}
	return Unsaved{
		Path:  path,
		Meta:  Meta{Base: head.Base, Label: head.Label, Rev: head.Rev},
		Bytes: data, Time: head.Time, PID: head.PID, Host: head.Host,
		serial: head.Serial,
	}, true
}
