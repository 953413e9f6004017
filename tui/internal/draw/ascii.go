package draw

import (
	"strings"
	"unicode/utf8"
)

// standIn is the one-byte glyph for a drawing or lettering glyph. Shades stay
// four different marks, so that materials can still be told apart.
func standIn(r rune) byte {
	switch r {
	case '─', '━', '╌', '╴', '╶', '–', '—', '−', '‐', '‑', '▔', '▀':
		return '-'
	case '╎', '╏', '¦':
		return '!'
	case '│', '┃', '▏', '▎', '▍', '▌', '▐':
		return '|'
	case '┌', '┐', '└', '┘', '├', '┤', '┬', '┴', '┼', '╭', '╮', '╰', '╯', '╂', '┿', '┻', '┳':
		return '+'
	case '░', '·', '•':
		return '.'
	case '▒':
		return '%'
	case '▓', '▊', '▋', '▉', '▆', '▇', '■':
		return '#'
	case '█':
		return '@'
	case '▁', '▂', '▃':
		return '_'
	case '▄', '▅', '≡':
		return '='
	case '╱':
		return '/'
	case '╲':
		return '\\'
	case '▸', '→', '►', '≥', '»':
		return '>'
	case '◂', '←', '≤', '«':
		return '<'
	case '▲', '↑':
		return '^'
	case '▼', '↓':
		return 'v'
	case '●', '✓':
		return '*'
	case '○', '°', 'º':
		return 'o'
	case '×', '✗':
		return 'x'
	case '…', '≈', '±':
		return '~'
	case '≠':
		return '!'
	case '²':
		return '2'
	case '³':
		return '3'
	case '¹':
		return '1'
	case 'µ', 'μ':
		return 'u'
	case '‘', '’', '′':
		return '\''
	case '“', '”', '″':
		return '"'
	}
	const letters = "AAAAAAACEEEEIIIIDNOOOOOxOUUUUYPsaaaaaaaceeeeiiiidnooooo/ouuuuypy"
	if r >= 0xc0 && r <= 0xff {
		return letters[r-0xc0]
	}
	return '?'
}

// ASCII returns s with every character outside ASCII replaced by one-byte
// stand-ins that take the same cells, for a terminal without UTF-8. SGR
// sequences and line breaks stay.
func ASCII(s string) string {
	if ascii(s) {
		return s
	}
	var b strings.Builder
	b.Grow(len(s))
	for i := 0; i < len(s); {
		if s[i] < utf8.RuneSelf && (i+1 == len(s) || s[i+1] < utf8.RuneSelf) {
			b.WriteByte(s[i])
			i++
			continue
		}
		size, w := next(s, i)
		r, _ := utf8.DecodeRuneInString(s[i:])
		i += size
		if w < 1 {
			continue
		}
		if r < utf8.RuneSelf {
			b.WriteByte(byte(r))
		} else {
			b.WriteByte(standIn(r))
		}
		b.WriteString(Spaces(w - 1))
	}
	return b.String()
}

// NeedsASCII tells from the locale variables whether the terminal cannot show
// UTF-8: the first of LC_ALL, LC_CTYPE and LANG that is set decides (POSIX
// 8.2). Where none is set UTF-8 is assumed, as terminals reached through a bare
// login or a container commonly show it (common practice, no source).
func NeedsASCII(env func(string) string) bool {
	for _, name := range [...]string{"LC_ALL", "LC_CTYPE", "LANG"} {
		if v := env(name); v != "" {
			v = strings.ToLower(v)
			return !strings.Contains(v, "utf-8") && !strings.Contains(v, "utf8")
		}
	}
	return false
}
