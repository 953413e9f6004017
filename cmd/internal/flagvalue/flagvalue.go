// Package flagvalue reads the values of flags that have a unit or come from a
// closed set.
package flagvalue

import (
	"fmt"
	"strings"

	"github.com/alecthomas/kong"

	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/wall/repeat"
)

// Length is a length with its unit.
type Length struct{ quantity.Length }

// Decode reads a length above zero. A figure below zero looks like a flag to
// the parser and is taken here, to be refused for what it is.
func (f *Length) Decode(ctx *kong.DecodeContext) error {
	var text string
	if next, ok := ctx.Scan.Peek().Value.(string); ok && len(next) > 1 && next[0] == '-' && strings.ContainsRune("0123456789.", rune(next[1])) {
		ctx.Scan.Pop()
		text = next
	} else if err := ctx.Scan.PopValueInto("length", &text); err != nil {
		return err
	}
	if err := parse(&f.Length, text); err != nil {
		return err
	}
	if f.SI() <= 0 {
		return fmt.Errorf("must be above zero, not %q", text)
	}
	return nil
}

func parse[D quantity.Dimension](into *quantity.Quantity[D], text string) (err error) {
	*into, err = quantity.Parse[D](text)
	return err
}

// RepeatUnit is the word of a repeat unit.
type RepeatUnit struct{ Unit repeat.Unit }

// UnmarshalText reads the word of a repeat unit.
func (f *RepeatUnit) UnmarshalText(text []byte) error {
	var word needWord
	if err := OneOf(&word, text, needWords()...); err != nil {
		return err
	}
	f.Unit, _ = repeat.Units.Parse(string(word))
	return nil
}

// Words lists the repeat units.
func (RepeatUnit) Words() []string {
	var words []string
	for _, u := range repeat.Units.All() {
		words = append(words, u.String())
	}
	return words
}

type needWord string

func needWords() []needWord {
	var words []needWord
	for _, u := range repeat.Units.All() {
		words = append(words, needWord(u.String()))
	}
	return words
}

// Temperature is a temperature with its unit.
type Temperature struct{ quantity.Temperature }

// Decode reads a temperature.
func (f *Temperature) Decode(ctx *kong.DecodeContext) error {
	var text string
	if err := ctx.Scan.PopValueInto("temperature", &text); err != nil {
		return err
	}
	return parse(&f.Temperature, text)
}

// OneOf reads a word of a closed set.
func OneOf[T ~string](into *T, text []byte, words ...T) error {
	names := make([]string, len(words))
	for i, w := range words {
		if string(text) == string(w) {
			*into = w
			return nil
		}
		names[i] = string(w)
	}
	return fmt.Errorf("must be %s, not %q", strings.Join(names, " or "), text)
}
