// Package widget has the pieces a page is made of: one line of text (Input), the
// numbered things that digits add (Rack), rows under titles (Table), the picture
// of a wall (Strip), how much of something is used (Bar), and what stands
// between them (Rule, Title, Notice).
//
// A widget draws itself with View into the size it is given: exactly h lines of
// exactly w cells, whatever it holds. It knows no document and takes plain
// values; every text it is given is drawn cleaned.
package widget
