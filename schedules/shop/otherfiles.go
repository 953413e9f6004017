package shop

import (
	"errors"
	"maps"
	"path/filepath"
	"slices"

	"frp/veilwright/laminate"
	"frp/veilwright/schedules"
	"frp/veilwright/schedules/store"
)

// OtherFiles are the files besides its own that a document rests on, as they were when it
// was read: the shop books that hold for it, and of a job the schedules of its parts.
type OtherFiles struct {
	folder string
	books  []string
	prints map[string]store.Fingerprint // by path; the zero one where nothing could be read
}

func (s *Shop) otherFiles(folder string, made shelf) *OtherFiles {
	r := &OtherFiles{folder: folder, books: made.books, prints: map[string]store.Fingerprint{}}
	maps.Copy(r.prints, made.prints)
	return r
}

// read reads a schedule that lies in the folder of a job, and notes as what.
func (r *OtherFiles) read(name string) ([]byte, error) {
	file, err := store.Within(r.folder, name)
	r.prints[r.path(name)] = file.Fingerprint
	return file.Bytes, err
}

func (r *OtherFiles) path(name string) string {
	return filepath.Join(r.folder, filepath.FromSlash(name))
}

// Changed names the files that are no longer as they were read, those of a job that
// were not read yet, and the shop books that hold by now and did not, or hold no more.
// A document that moved to another folder rests on what lies there. Nil of r rests on
// nothing.
func (s *Shop) Changed(r *OtherFiles, j *laminate.Job, folder string) (names []string) {
	if r == nil {
		return nil
	}
	add := func(path string) {
		if name := filepath.Base(path); !slices.Contains(names, name) {
			names = append(names, name)
		}
	}
	for _, path := range slices.Sorted(maps.Keys(r.prints)) {
		if how, err := store.Since(path, r.prints[path]); err != nil || how != store.Unchanged {
			add(path)
		}
	}
	now := &OtherFiles{folder: folder}
	books, _ := s.books(folder)
	for _, path := range books {
		if !slices.Contains(r.books, path) {
			add(path)
		}
	}
	for _, path := range r.books {
		if !slices.Contains(books, path) {
			add(path)
		}
	}
	if j == nil {
		return names
	}
	for i := range j.Parts {
		p := &j.Parts[i]
		if _, read := r.prints[now.path(p.Schedule)]; !read && p.Schedule != "" && p.Laminate == "" && laminate.BesideJob(p.Schedule) {
			add(now.path(p.Schedule))
		}
	}
	return names
}

// beside reads the schedules that a job names. One that refers to others, as a job
// does, is none of them.
func (r *OtherFiles) beside(library *laminate.Library) schedules.Beside {
	return func(name string) (*laminate.Schedule, error) {
		text, err := r.read(name)
		if err != nil {
			return nil, why(err)
		}
		_, s, problems := schedules.Decode(text, library)
		if len(problems) > 0 {
			return nil, errors.New(sentence(nil, problems))
		}
		return s, nil
	}
}
