// Package output is how commands speak: where results and messages go, how
// they are worded, and what may reach a terminal.
//
// The voice of the program on a command line:
//
//   - Results go to standard output, everything else to standard error.
//   - A message is one line, "veilwright: " before it, no capital after that
//     and no full stop. It says what was being done and where; what to do
//     about it stands after a semicolon.
//   - A result that is a place reads file:line: severity rule: message, so that
//     editors can jump to it.
//   - Commands print no color and no escape sequence, on a terminal or off
//     it: text that somebody pipes, pastes or records is the same everywhere.
//   - Text from a file never reaches the output raw: see word.Clean.
//   - JSON is one value, indented by two, with a last newline; a figure that is
//     not known is null, never zero and never left out.
//   - What is built from carries its unit. Nothing is printed that was not
//     asked for; silence on standard error means that nothing is wrong.
package output

import (
	"bufio"
	"cmp"
	"fmt"
	"io"

	"frp/veilwright/laminate/word"
	"frp/veilwright/tui"
)

// Sink takes results. It remembers the first error, so that a caller can print
// freely and ask once, at the end, whether all of it arrived.
type Sink struct {
	// Plain takes what is printed for people: ASCII where the locale asks for it.
	Plain io.Writer

	w   *bufio.Writer
	err error
}

// NewSink buffers w; env has the locale.
func NewSink(w io.Writer, env func(string) string) *Sink {
	s := &Sink{w: bufio.NewWriter(w)}
	s.Plain = tui.Plain(s, env)
	return s
}

// Write takes bytes that are already safe to print.
func (s *Sink) Write(p []byte) (int, error) {
	if s.err != nil {
		return 0, s.err
	}
	n, err := s.w.Write(p)
	s.err = err
	return n, err
}

// Line prints one line. Strings among the arguments are cleaned; the format is
// the program's own.
func (s *Sink) Line(format string, args ...any) {
	// The error is kept and told by Close.
	_, _ = fmt.Fprintf(s, format+"\n", clean(args)...)
}

// JSON prints v as one indented value. An error here is the program's own (a
// figure that is not a number); nothing of the value has been printed then.
func (s *Sink) JSON(v any) error {
	p := printed(v, 0)
	defer p.letGo()
	if p.err != nil {
		return fmt.Errorf("writing JSON: %w", p.err)
	}
	p.text = append(p.text, '\n')
	_, _ = s.Write(p.text)
	return nil
}

// List prints values one by one, as JSON prints the slice of them all. It
// remembers the first value that could not be printed.
type List struct {
	out   *Sink
	begun bool
	err   error
}

// NewList begins a list; nothing is printed yet.
func NewList(out *Sink) *List { return &List{out: out} }

// Item is a value made ready for a list, which costs more than to print it.
type Item struct{ made *printer }

// ItemOf makes a value ready.
func ItemOf(v any) Item { return Item{printed(v, 1)} }

// Add prints one item, once.
func (l *List) Add(i Item) {
	defer i.made.letGo()
	if i.made.err != nil {
		l.err = cmp.Or(l.err, i.made.err)
		return
	}
	before := "[\n  "
	if l.begun {
		before = ",\n  "
	}
	l.begun = true
	_, _ = l.out.Write([]byte(before))
	_, _ = l.out.Write(i.made.text)
}

// Close ends the list. An error here is the program's own, as it is of JSON.
func (l *List) Close() error {
	after := "[]\n"
	if l.begun {
		after = "\n]\n"
	}
	_, _ = l.out.Write([]byte(after))
	if l.err != nil {
		return fmt.Errorf("writing JSON: %w", l.err)
	}
	return nil
}

// Close sends what is left and gives the first error of all.
func (s *Sink) Close() error {
	if s.err == nil {
		s.err = s.w.Flush()
	}
	return s.err
}

// Messages go to standard error, one line each.
type Messages struct {
	w    io.Writer
	said map[string]bool // what Once said
}

// NewMessages sends messages to w; env has the locale.
func NewMessages(w io.Writer, env func(string) string) Messages {
	return Messages{w: tui.Plain(w, env), said: map[string]bool{}}
}

// Say prints one message. Strings and errors among the arguments are cleaned.
func (m Messages) Say(format string, args ...any) {
	// There is nobody left to tell when standard error is gone.
	_, _ = fmt.Fprintf(m.w, "veilwright: "+format+"\n", clean(args)...)
}

// Once is Say, but of what it said before it says nothing.
func (m Messages) Once(format string, args ...any) {
	text := fmt.Sprintf(format, clean(args)...)
	if !m.said[text] {
		m.said[text] = true
		m.Say("%s", text)
	}
}

// clean cleans in place: the arguments are the printing function's own.
func clean(safe []any) []any {
	for i, a := range safe {
		switch a := a.(type) {
		case string:
			if tidy := word.Clean(a); len(tidy) != len(a) || tidy != a {
				safe[i] = tidy
			}
		case error:
			safe[i] = word.Clean(a.Error())
		case fmt.Stringer:
			safe[i] = word.Clean(a.String())
		}
	}
	return safe
}
