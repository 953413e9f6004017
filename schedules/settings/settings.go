// Package settings keeps what a user sets for every document, and which
// documents were open last.
package settings

import (
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"time"

	"frp/veilwright/laminate/word"
	"frp/veilwright/schedules/store"
)

// Settings are the lines of settings.toml in the user's configuration folder.
// "" is not set.
type Settings struct {
	Theme string // one of the themes of the terminal program
	Units string // us or si: what figures are shown in
	Name  string // of the person at the terminal
	// Rack is the materials of the number keys from 1 on, separated by blanks; -
	// is the one that the key has anyway.
	Rack string

	others []string // lines that are none of these, kept as they are
}

func path() (string, error) {
	dir, err := store.ConfigFolder()
	return filepath.Join(dir, "settings.toml"), err
}

func (s *Settings) lines() []struct {
	key   string
	value *string
} {
	return []struct {
		key   string
		value *string
	}{{"theme", &s.Theme}, {"units", &s.Units}, {"name", &s.Name}, {"rack", &s.Rack}}
}

// Load reads the settings; without a file there are none. An error names the
// line that is not understood; the others are read.
func Load() (s Settings, err error) {
	file, err := path()
	if err != nil {
		return s, err
	}
	text, err := os.ReadFile(file)
	if err != nil {
		if errors.Is(err, fs.ErrNotExist) {
			err = nil
		}
		return s, err
	}
	n := 0
	for line := range strings.Lines(string(text)) {
		n++
		line = strings.TrimRight(line, "\r\n")
		key, value, is := strings.Cut(line, "=")
		known := false
		for _, l := range s.lines() {
			if !is || strings.TrimSpace(key) != l.key {
				continue
			}
			known = true
			v, wrong := strconv.Unquote(strings.TrimSpace(value))
			if wrong != nil {
				err = errors.Join(err, fmt.Errorf("%s:%d: %s: write it in quotes, %s = \"…\"", word.Clean(file), n, l.key, l.key))
				continue
			}
			if r, bad := word.BadCharacter(v, false); bad {
				err = errors.Join(err, fmt.Errorf("%s:%d: %s: it holds %U, which no screen shows", word.Clean(file), n, l.key, r))
				continue
			}
			*l.value = v
		}
		if !known {
			s.others = append(s.others, line)
		}
	}
	return s, err
}

// Save writes the settings; lines that are no settings stay.
func (s Settings) Save() error {
	file, err := path()
	if err != nil {
		return err
	}
	var b strings.Builder
	for _, l := range s.others {
		b.WriteString(l + "\n")
	}
	for _, l := range s.lines() {
		if *l.value != "" {
			fmt.Fprintf(&b, "%s = %q\n", l.key, *l.value)
		}
	}
	return store.Put(file, []byte(b.String()))
}

// Recent is a document that was open.
type Recent struct {
	Path     string    `json:"path"` // full
	Title    string    `json:"title"`
	Job      string    `json:"job"`
	Revision string    `json:"revision"`
	Verdict  string    `json:"verdict"` // as it was left
	When     time.Time `json:"when"`
}

// mostRecent is how many documents are remembered.
const mostRecent = 20

func recentPath() (string, error) {
	dir, err := store.StateFolder()
	return filepath.Join(dir, "recent.json"), err
}

// Recents are the documents that were open, the last first, as far as their
// files are still there. What cannot be read is none.
func Recents() []Recent {
	file, err := recentPath()
	if err != nil {
		return nil
	}
	text, err := os.ReadFile(file)
	if err != nil {
		return nil
	}
	var list []Recent
	if json.Unmarshal(text, &list) != nil {
		return nil
	}
	return slices.DeleteFunc(list, func(r Recent) bool {
		_, err := os.Stat(r.Path)
		return err != nil
	})
}

// Remember puts a document in front of the others.
func Remember(r Recent) error {
	full, err := filepath.Abs(r.Path)
	if err != nil {
		return err
	}
	r.Path = full
	list := slices.DeleteFunc(Recents(), func(o Recent) bool { return o.Path == r.Path })
	list = append([]Recent{r}, list...)
	text, err := json.Marshal(list[:min(len(list), mostRecent)])
	if err != nil {
		return err
	}
	file, err := recentPath()
	if err != nil {
		return err
	}
	return store.Put(file, text)
}

// Templates are the shop's own schedules to begin from: the documents in the
// folder templates beside the settings.
func Templates() []store.Entry {
	dir, err := store.ConfigFolder()
	if err != nil {
		return nil
	}
	list, err := store.Entries(filepath.Join(dir, "templates"))
	if err != nil {
		return nil
	}
	return slices.DeleteFunc(list, func(e store.Entry) bool { return e.Folder })
}
