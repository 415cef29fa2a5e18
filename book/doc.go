// Package book is the file system edge: it finds, reads and writes the files of a job book, and is
// the only code that touches the disk. It never interprets a note.
package book
