// Package progress keeps what each person did in the course: one plain file a
// person in the state folder, which only grows. It owns where the file lies and
// what it looks like; what follows from it is package practice's.
package progress

import (
	"bytes"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"unicode"

	"frp/veilwright/rules/practice"
	"frp/veilwright/schedules/store"
)

// head is the first line of every progress file.
const head = "# veilwright practice, format 1: day exercise step score hints\n"

// longestName of a person, in characters.
const longestName = 40

// File gives the path of a person's progress, which need not exist. A name is
// letters, digits, blanks, hyphens, underscores and dots, and begins with a
// letter or digit; blanks become underscores.
func File(person string) (string, error) {
	name := strings.TrimSpace(person)
	if name == "" {
		return "", errors.New("a person's name is expected")
	}
	for i, r := range name {
		if unicode.IsLetter(r) || unicode.IsDigit(r) || i > 0 && strings.ContainsRune(" -_.", r) {
			continue
		}
		return "", fmt.Errorf("the name %q: letters, digits, blanks, hyphens, underscores and dots are expected, a letter or digit first", clipped(name))
	}
	if len([]rune(name)) > longestName {
		return "", fmt.Errorf("the name %q is longer than %d characters", clipped(name), longestName)
	}
	folder, err := store.StateFolder()
	if err != nil {
		return "", err
	}
	return filepath.Join(folder, "practice", strings.ReplaceAll(name, " ", "_")+".txt"), nil
}

func clipped(s string) string {
	if r := []rune(s); len(r) > longestName {
		return string(r[:longestName]) + "…"
	}
	return s
}

// Load reads a person's progress; nobody's yet is empty. The error names the
// lines that cannot be read; what the others say comes beside it.
func Load(person string) (practice.Progress, error) {
	path, err := File(person)
	if err != nil {
		return practice.Progress{}, err
	}
	f, err := store.Read(path)
	if errors.Is(err, fs.ErrNotExist) {
		return practice.Progress{}, nil
	}
	if err != nil {
		return practice.Progress{}, err
	}
	return parse(path, f.Bytes)
}

// mostWrong lines are told of one file.
const mostWrong = 20

func parse(path string, text []byte) (practice.Progress, error) {
	var p practice.Progress
	var wrong []error
	n := 0
	for line := range bytes.Lines(text) {
		n++
		trimmed := bytes.TrimSpace(line)
		if len(trimmed) == 0 || trimmed[0] == '#' {
			continue
		}
		if line[len(line)-1] != '\n' {
			wrong = append(wrong, fmt.Errorf("%s:%d: the line was cut short", path, n))
			continue
		}
		e, err := practice.ParseEntry(string(trimmed))
		if err != nil {
			if len(wrong) < mostWrong {
				wrong = append(wrong, fmt.Errorf("%s:%d: %w", path, n, err))
			}
			continue
		}
		p.Entries = append(p.Entries, e)
	}
	return p, errors.Join(wrong...)
}

// Add appends what was done. It outlasts a power cut when the error is nil;
// a line that an earlier cut left behind is put aside beside the file.
func Add(person string, e practice.Entry) error {
	path, err := File(person)
	if err != nil {
		return err
	}
	if err := os.MkdirAll(filepath.Dir(path), 0o700); err != nil {
		return fmt.Errorf("keeping the progress of %s: %w", person, err)
	}
	if _, err := os.Stat(path); errors.Is(err, fs.ErrNotExist) {
		_, err := store.Replace(path, []byte(head), store.Terms{})
		var conflict *store.ConflictError
		if err != nil && !errors.As(err, &conflict) { // somebody else began it meanwhile
			return err
		}
	}
	log, _, err := store.OpenAppendLog(path, whole)
	if err != nil {
		return err
	}
	return errors.Join(log.Append([]byte(e.String()+"\n")), log.Close())
}

// whole counts the bytes of whole lines. An entry is one line and ends in the
// number of hints, so that one cut anywhere lacks its newline.
func whole(text []byte) int {
	return bytes.LastIndexByte(bytes.TrimRight(text, "\x00"), '\n') + 1
}
