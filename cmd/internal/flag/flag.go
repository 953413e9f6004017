// Package flag is the types of flags: each reads its value from the command
// line, refuses what is none in one sentence, and lists its words for those who
// complete command lines.
package flag

import (
	"fmt"
	"strings"

	"github.com/alecthomas/kong"

	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/wall/repeat"
)

// Units chooses US or SI units; empty leaves it to the document.
type Units string

// The words of --units.
const (
	UnitsAsWritten Units = ""
	UnitsUS        Units = "us"
	UnitsSI        Units = "si"
)

// UnmarshalText reads a word of --units.
func (f *Units) UnmarshalText(text []byte) error { return OneOf(f, text, UnitsUS, UnitsSI) }

// Words lists them.
func (Units) Words() []string { return words(UnitsUS, UnitsSI) }

// Theme chooses the colors of the terminal program.
type Theme string

// The words of --theme.
const (
	Dark  Theme = "dark"
	Light Theme = "light"
	Plain Theme = "plain"
	Mono  Theme = "mono"
)

// UnmarshalText reads a word of --theme.
func (f *Theme) UnmarshalText(text []byte) error { return OneOf(f, text, Dark, Light, Plain, Mono) }

// Words lists them.
func (Theme) Words() []string { return words(Dark, Light, Plain, Mono) }

// To is another form of the same report; empty is text.
type To string

// The words of --to.
const (
	Markdown To = "md"
	CSV      To = "csv"
)

// UnmarshalText reads a word of --to.
func (f *To) UnmarshalText(text []byte) error { return OneOf(f, text, Markdown, CSV) }

// Words lists them.
func (To) Words() []string { return words(Markdown, CSV) }

// Paper is a size of paper; empty goes by the units.
type Paper string

// The words of --paper.
const (
	Letter Paper = "letter"
	A4     Paper = "a4"
)

// UnmarshalText reads a word of --paper.
func (f *Paper) UnmarshalText(text []byte) error { return OneOf(f, text, Letter, A4) }

// Words lists them.
func (Paper) Words() []string { return words(Letter, A4) }

// Kind is a kind of document to make; empty makes a schedule.
type Kind string

// The words of --kind are those that documents use.
const (
	Schedule      Kind = "schedule"
	Job           Kind = "job"
	Specification Kind = "specification"
	Record        Kind = "record"
	ShopBook      Kind = "shop-book"
)

// UnmarshalText reads a word of --kind.
func (f *Kind) UnmarshalText(text []byte) error {
	return OneOf(f, text, Schedule, Job, Specification, Record, ShopBook)
}

// Words lists them.
func (Kind) Words() []string { return words(Schedule, Job, Specification, Record, ShopBook) }

// Temperature is a temperature with its unit.
type Temperature struct{ quantity.Temperature }

// Decode reads a temperature.
func (f *Temperature) Decode(ctx *kong.DecodeContext) (err error) {
	var text string
	if err = ctx.Scan.PopValueInto("temperature", &text); err == nil {
		err = quantity.ReadTyped(&f.Temperature, text)
	}
	return err
}

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
	if err := quantity.ReadTyped(&f.Length, text); err != nil {
		return err
	}
	if f.SI() <= 0 {
		return fmt.Errorf("must be above zero, not %q", text)
	}
	return nil
}

// Need is the word of a repeat unit.
type Need struct{ Unit repeat.Unit }

// UnmarshalText reads the word of a repeat unit.
func (f *Need) UnmarshalText(text []byte) error {
	var word string
	if err := OneOf(&word, text, f.Words()...); err != nil {
		return err
	}
	f.Unit, _ = repeat.Units.Parse(word)
	return nil
}

// Words lists the repeat units.
func (Need) Words() []string { return words(repeat.Units.All()...) }

// OneOf reads one of some words.
func OneOf[T ~string](into *T, text []byte, known ...T) error {
	for _, w := range known {
		if string(text) == string(w) {
			*into = w
			return nil
		}
	}
	return fmt.Errorf("must be %s, not %q", strings.Join(words(known...), " or "), text)
}

func words[T any](list ...T) []string {
	names := make([]string, len(list))
	for i, w := range list {
		names[i] = fmt.Sprint(w)
	}
	return names
}
