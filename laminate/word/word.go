package word

import (
	"fmt"
	"strings"
)

// Set is a closed set of words for the values of T, which are small and start
// at 0. It does not change once made.
type Set[T ~uint8] struct {
	words []string // by value; "" where the value has no word
	also  map[string]T
}

// Of makes a set of the words of 0, 1, 2 and so on. A value with the word ""
// is not of the set: usually 0, which then says "not stated".
func Of[T ~uint8](words ...string) Set[T] { return Set[T]{words: words} }

// Reading gives the set that reads other spellings as v too. They are read
// alone: the word of v stays its own.
func (s Set[T]) Reading(v T, spellings ...string) Set[T] {
	also := make(map[string]T, len(s.also)+len(spellings))
	for k, w := range s.also {
		also[k] = w
	}
	for _, k := range spellings {
		also[k] = v
	}
	return Set[T]{s.words, also}
}

// Name is the word of a value to print: of a value that is of no set its
// number, so that a mistake shows and nothing fails over it.
func (s Set[T]) Name(v T) string {
	if int(v) < len(s.words) {
		return s.words[v]
	}
	return fmt.Sprintf("?%d", uint8(v))
}

// Parse reads a word of the set, or a spelling that is read as one.
func (s Set[T]) Parse(text string) (T, bool) {
	if text == "" {
		return 0, false
	}
	for i, w := range s.words {
		if w == text {
			return T(i), true
		}
	}
	v, ok := s.also[text]
	return v, ok
}

// All lists the values that have a word, in their order.
func (s Set[T]) All() []T {
	all := make([]T, 0, len(s.words))
	for i, w := range s.words {
		if w != "" {
			all = append(all, T(i))
		}
	}
	return all
}

// Names joins the words of some values with commas.
func (s Set[T]) Names(values []T) string {
	list := make([]string, len(values))
	for i, v := range values {
		list[i] = s.Name(v)
	}
	return strings.Join(list, ", ")
}

// Words lists the words, in the order of their values.
func (s Set[T]) Words() []string {
	all := make([]string, 0, len(s.words))
	for _, w := range s.words {
		if w != "" {
			all = append(all, w)
		}
	}
	return all
}

// List writes the words one after the other, parted by commas.
func (s Set[T]) List() string { return strings.Join(s.Words(), ", ") }

// Nearest gives the word of the set that the text was likely meant to be, ""
// where none is near.
func (s Set[T]) Nearest(text string) string { return Nearest(text, s.Words()) }
