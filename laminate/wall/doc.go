// Package wall answers whether the structure of a pipe, duct or tank is enough
// for its pressure, head and vacuum: line loads, strains and criteria. The
// corrosion barrier is not counted unless asked for, the outer surface never.
//
// Axes are those of package stiffness: x along the part, y round it. Everything
// is in SI. Criteria of different standards do not agree with one another and
// are not meant to be met all at once: the part's design basis says which of
// them decide, the others are shown.
//
// A missing fact makes a criterion open and its reason names the key of the
// document that would settle it. No function returns NaN or an infinity, and
// none panics, whatever stands in a schedule.
package wall
