// Package entry reads and states the keys of a job's tables one by one, as a
// person types them into a form: what a key takes comes from the tables that read
// documents.
package entry

import (
	"errors"
	"fmt"
	"reflect"
	"slices"
	"strconv"
	"strings"

	"github.com/BurntSushi/toml"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/edit"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/schedules"
	"frp/veilwright/schedules/internal/spell"
	"frp/veilwright/schedules/internal/tables"
)

// Key is a key of a row: what it means, what may stand there, and what does, "" for
// nothing.
type Key struct {
	Name, Says, What, Text string
	Words                  []string // the closed set that it takes, nil for others
	Several                bool     // it takes any number of them
}

// Of lists the keys of the row at a place of a job.
func Of(j *laminate.Job, at laminate.Ref) []Key {
	fields, row := schedules.JobRow(j, at)
	list := make([]Key, 0, len(fields))
	for i := range fields {
		f := &fields[i]
		k := Key{Name: f.Key, Says: says(at.Kind, f.Key), What: f.Takes()}
		if text, given := f.Get(row); given {
			k.Text = plain(text)
		}
		k.Text = shown(f, k.Text)
		switch {
		case strings.HasPrefix(k.What, "a list of ["):
			k.Words, k.Several = strings.Split(strings.Trim(strings.TrimPrefix(k.What, "a list of "), "[]"), ", "), true
		case strings.HasPrefix(k.What, "one of "):
			k.Words = strings.Split(strings.TrimPrefix(k.What, "one of "), ", ")
		case strings.HasPrefix(k.What, "true or false"):
			k.Words = []string{"true", "false"}
		}
		list = append(list, k)
	}
	return list
}

// shown is a value as other forms show it: a share as a percentage, a span from its
// lowest to its highest figure.
func shown(f *tables.Field, text string) string {
	if text == "" || !isShare(f) && f.Key != spans {
		return text
	}
	value := readings(text)[0]
	if v, wrong := tables.Number(value); wrong == "" && isShare(f) {
		return quantity.ShareText(v)
	}
	if v, wrong := tables.Numbers(value, 2); wrong == "" {
		return quantity.SpanText(v[0], v[1])
	}
	return text
}

// spans is the key of a lowest and a highest figure.
const spans = "ph"

func isShare(f *tables.Field) bool { return strings.HasPrefix(f.What, "a share") }

// None says of a list that there is nothing in it.
const None = "none"

// plain is a TOML value as a person would type it.
func plain(text string) string {
	if text == "[]" {
		return None
	}
	if s, err := strconv.Unquote(text); err == nil {
		return s
	}
	return strings.ReplaceAll(strings.Trim(text, "[]"), "\"", "")
}

// State makes an edit that gives a key of a row another value, or none where the
// text is empty. Doing it says what is wrong with the text, or with the job that
// it would make.
func State(at laminate.Ref, key, text string) edit.JobEdit {
	label := key + " " + text
	if text == "" {
		label = key + " not stated"
	}
	if key == "id" && text != "" && (at.Kind == laminate.RefLaminate || at.Kind == laminate.RefJobPart) {
		return edit.Rename(at, text)
	}
	return edit.JobEdit{Label: label, At: at, Do: func(j *laminate.Job) (*laminate.Job, error) {
		if key == "between" && text != "" && strings.Count(text, ",") != 1 {
			return nil, errors.New(key + ": two parts are expected, a comma between them: shell-1, shell-2")
		}
		n := clone(j, at.Kind == laminate.RefPly || at.Kind == laminate.RefLaminatePly)
		fields, row := schedules.JobRow(n, at)
		for i := range fields {
			f := &fields[i]
			if f.Key != key {
				continue
			}
			if text == "" {
				take(fields, row, key)
				return edit.Sound(j, n)
			}
			wrong, text := "", text
			switch {
			case isShare(f):
				v, err := quantity.ParseShare(text)
				if err != nil {
					return nil, fmt.Errorf("%s: %w", key, err)
				}
				text = spell.Number(v)
			case key == spans:
				low, high, err := quantity.ParseSpan(text)
				if err != nil {
					return nil, fmt.Errorf("%s: %w", key, err)
				}
				text = spell.Numbers([]float64{low, high})
			}
			if f.Typed != nil {
				if wrong = f.Typed(row, text, n.Units); wrong == "" {
					return edit.Sound(j, n)
				}
			}
			for _, v := range readings(text) {
				said := f.Set(row, v)
				if said == "" {
					return edit.Sound(j, n)
				}
				if wrong == "" || v == any(text) && f.Typed == nil { // what is wrong with it as it was typed
					wrong = said
				}
			}
			return nil, errors.New(key + ": " + wrong)
		}
		return nil, fmt.Errorf("%s: there is no such key here", key)
	}}
}

// clone gives a job whose rows may be changed, plies where they are asked for: else
// those are shared.
func clone(j *laminate.Job, plies bool) *laminate.Job {
	if plies {
		return j.Clone()
	}
	bare := *j
	bare.Laminates = nil
	n := bare.Clone()
	n.Laminates = slices.Clone(j.Laminates)
	return n
}

// readings are the values that a text may stand for, as itself first of what is no
// TOML; as a list of one, or an empty one, last.
func readings(text string) (list []any) {
	var v struct{ X any }
	for _, t := range []string{text, "[" + text + "]"} {
		if _, err := toml.Decode("x = "+t, &v); err == nil {
			list = append(list, v.X)
		}
	}
	if strings.Contains(text, ",") {
		var words []any
		for w := range strings.SplitSeq(text, ",") {
			words = append(words, strings.TrimSpace(w))
		}
		list = append(list, words)
	}
	list = append(list, text, []any{text})
	if text == None {
		list = append(list, []any{})
	}
	return list
}

// take makes a row what it is without a key: a new one is given all the others.
func take(fields []tables.Field, row any, key string) {
	was := reflect.ValueOf(row).Elem()
	fresh := reflect.New(was.Type())
	if origin := fresh.Elem().FieldByName("Origin"); origin.IsValid() {
		origin.Set(was.FieldByName("Origin"))
	}
	for i := range fields {
		f := &fields[i]
		text, given := f.Get(row)
		if f.Key == key || !given {
			continue
		}
		var v struct{ X any }
		if _, err := toml.Decode("x = "+text, &v); err == nil {
			f.Set(fresh.Interface(), v.X)
		}
	}
	was.Set(fresh.Elem())
}
