// Package app is the program's one model: it routes keys to the page on top,
// holds the pages and what is stacked over them, saves, opens and quits, keeps
// unsaved work from every way a program can end, and draws the frame around
// the page.
//
// Everything here runs on the terminal library's update goroutine. Commands
// compute on documents of their own and only report back.
package app
