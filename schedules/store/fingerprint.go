package store

import (
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"time"

	"frp/veilwright/schedules/internal/system"
)

// Sum is a SHA-256 (FIPS 180-4). Its text is 64 lower-case hexadecimal digits.
type Sum [sha256.Size]byte

// SumOf returns the SHA-256 of b.
func SumOf(b []byte) Sum { return sha256.Sum256(b) }

// String returns the sum as 64 hexadecimal digits.
func (s Sum) String() string { return hex.EncodeToString(s[:]) }

// MarshalText returns the sum as 64 hexadecimal digits.
func (s Sum) MarshalText() ([]byte, error) { return []byte(s.String()), nil }

// UnmarshalText reads 64 hexadecimal digits of either case.
func (s *Sum) UnmarshalText(text []byte) error {
	if len(text) != 2*len(s) {
		return fmt.Errorf("a SHA-256 has %d hexadecimal digits, not %d", 2*len(s), len(text))
	}
	if _, err := hex.Decode(s[:], text); err != nil {
		return fmt.Errorf("a SHA-256 has hexadecimal digits alone: %w", err)
	}
	return nil
}

// Fingerprint tells whether a file is still the one that was read or written.
// The zero Fingerprint stands for a file that does not exist.
type Fingerprint struct {
	Size  int64  `json:"size"`
	MTime int64  `json:"mtime"` // modification time, nanoseconds since 1970
	Inode uint64 `json:"inode"`
	Sum   Sum    `json:"sha256"`
	Taken int64  `json:"taken"` // when it was taken, nanoseconds since 1970
}

// IsZero reports whether f stands for a file that does not exist.
func (f Fingerprint) IsZero() bool { return f == Fingerprint{} }

// SameBytes reports whether f and g are of the same content, whatever the
// files' times and names.
func (f Fingerprint) SameBytes(g Fingerprint) bool { return f.Sum == g.Sum }

// clockStep is the coarsest modification time in use: FAT keeps times to 2 s.
// A file changed twice within one step can look untouched.
const clockStep = 2 * time.Second

// trusts reports whether info alone proves that the file is unchanged.
func (f Fingerprint) trusts(path string, info fs.FileInfo) bool {
	g := stamp(path, info)
	return f.Size == g.Size && f.MTime == g.MTime && f.Inode == g.Inode &&
		f.MTime+int64(clockStep) < f.Taken
}

// stamp is the part of a fingerprint that costs no reading.
func stamp(path string, info fs.FileInfo) Fingerprint {
	f := Fingerprint{Size: info.Size(), MTime: info.ModTime().UnixNano()}
	f.Inode = system.Number(path, info)
	return f
}

// fingerprint is the whole of it. Now is the time before info was asked for.
func fingerprint(path string, info fs.FileInfo, sum Sum, now time.Time) Fingerprint {
	f := stamp(path, info)
	f.Sum, f.Taken = sum, now.UnixNano()
	return f
}

// Change is what happened to a file behind one's back.
type Change int

// The changes that Since tells apart.
const (
	Unchanged Change = iota
	Edited           // its bytes are others
	Removed          // it is gone
	Created          // it was not there and is now
)

// String returns the change as a predicate: "was changed".
func (c Change) String() string {
	switch c {
	case Unchanged:
		return "is unchanged"
	case Edited:
		return "was changed by another program"
	case Removed:
		return "was removed by another program"
	case Created:
		return "exists already"
	}
	return fmt.Sprintf("Change(%d)", int(c))
}

// Since tells what happened to the file at path since f was taken. A stat
// decides where it can; where size, time or inode differ, or the file changed
// so shortly before f was taken that its time proves nothing, the bytes are
// compared, so that a mere touch is no change. The error is a *Error: the file
// cannot be looked at or is no regular file of at most MaxSize any more.
func Since(path string, f Fingerprint) (Change, error) {
	info, err := os.Stat(path)
	switch {
	case errors.Is(err, fs.ErrNotExist) && f.IsZero():
		return Unchanged, nil
	case errors.Is(err, fs.ErrNotExist):
		return Removed, nil
	case err != nil:
		return Unchanged, failure(path, "cannot be looked at", err)
	case f.IsZero():
		return Created, nil
	case info.Mode().IsRegular() && f.trusts(path, info):
		return Unchanged, nil
	case info.Mode().IsRegular() && info.Size() != f.Size:
		return Edited, nil
	}
	now, _, err := readRegular(path)
	if errors.Is(err, fs.ErrNotExist) {
		return Removed, nil
	}
	if err != nil {
		return Unchanged, err
	}
	if SumOf(now) != f.Sum {
		return Edited, nil
	}
	return Unchanged, nil
}
