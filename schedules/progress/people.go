package progress

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"time"

	"frp/veilwright/schedules/store"
)

// People lists who has progress kept, who did something last first.
func People() ([]string, error) {
	folder, err := store.StateFolder()
	if err != nil {
		return nil, err
	}
	files, err := os.ReadDir(filepath.Join(folder, "practice"))
	if errors.Is(err, fs.ErrNotExist) {
		return nil, nil
	}
	if err != nil {
		return nil, fmt.Errorf("looking who practices: %w", err)
	}
	type person struct {
		name string
		when time.Time
	}
	var all []person
	for _, f := range files {
		name, ours := strings.CutSuffix(f.Name(), ".txt")
		name = strings.ReplaceAll(name, "_", " ")
		info, err := f.Info()
		if path, wrong := File(name); !ours || err != nil || !info.Mode().IsRegular() || wrong != nil || filepath.Base(path) != f.Name() {
			continue
		}
		all = append(all, person{name, info.ModTime()})
	}
	slices.SortFunc(all, func(a, b person) int {
		if d := b.when.Compare(a.when); d != 0 {
			return d
		}
		return strings.Compare(a.name, b.name)
	})
	names := make([]string, len(all))
	for i := range all {
		names[i] = all[i].name
	}
	return names, nil
}
