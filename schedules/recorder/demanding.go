package recorder

import (
	"os"
	"path/filepath"
	"time"

	"frp/veilwright/laminate/spec"
	"frp/veilwright/schedules"
	"frp/veilwright/schedules/shop"
	"frp/veilwright/schedules/store"
)

// Demanding is a specification that lies in a folder.
type Demanding struct {
	Path          string
	Specification *spec.Specification // nil where it cannot be used
	Why           string              // why it cannot

	size    int64
	changed time.Time
}

// Demands are the specifications in a folder, as they were read last. The zero value
// has looked into none.
type Demands struct {
	folder  string
	changed time.Time
	list    []Demanding
}

// In are the specifications in a folder, read again where one is other than it was.
func (d *Demands) In(folder string) []Demanding {
	info, err := os.Stat(folder)
	if err != nil {
		*d = Demands{}
		return nil
	}
	if d.folder == folder && d.changed.Equal(info.ModTime()) && d.fresh() {
		return d.list
	}
	*d = Demands{folder: folder, changed: info.ModTime()}
	names, err := filepath.Glob(filepath.Join(escaped(folder), "*"+store.Extension))
	if err != nil {
		return nil
	}
	var books *shop.Shop // a specification rests on none
	for _, name := range names[:min(len(names), mostBeside)] {
		info, err := os.Stat(name)
		if err != nil || !info.Mode().IsRegular() {
			continue
		}
		text, err := store.Bytes(name)
		if err != nil {
			continue
		}
		if kind, _ := schedules.Sniff(text); kind != schedules.Specification {
			continue
		}
		x := Demanding{Path: name, size: info.Size(), changed: info.ModTime()}
		if o := books.Open(name, text, ""); o.Specification != nil && o.Want(schedules.Specification, "an inspection") {
			x.Specification = o.Specification
		} else {
			x.Why = o.Why()
		}
		d.list = append(d.list, x)
	}
	return d.list
}

// fresh tells that each of them is on disk as it was read.
func (d *Demands) fresh() bool {
	for i := range d.list {
		x := &d.list[i]
		if info, err := os.Stat(x.Path); err != nil || info.Size() != x.size || !info.ModTime().Equal(x.changed) {
			return false
		}
	}
	return true
}
