package book

import (
	"fmt"
	"io/fs"
	"path"
	"slices"
)

// recordFolders are the folders of a job that hold records.
var recordFolders = map[string]bool{"changes": true, "invoices": true}

// records takes the records in a folder of a job's.
func (s *shelf) records(folder string) { s.folder(folder, ".md") }

// folder takes the files of a folder whose names end in one of the ways.
func (s *shelf) folder(folder string, endings ...string) {
	sub, err := fs.Sub(s.at, folder)
	if err != nil {
		s.unreadable(s.dir+folder, err)
		return
	}
	entries, err := fs.ReadDir(sub, ".")
	if err != nil {
		s.unreadable(s.dir+folder, err)
	}
	in := shelf{src: s.src, at: sub, dir: s.dir + folder + "/"}
	for _, e := range entries {
		if !hidden(e.Name()) && slices.Contains(endings, path.Ext(e.Name())) {
			in.take(e)
		}
	}
	s.files = append(s.files, in.files...)
	s.found.Add(in.found...)
}

// Record writes a record that must not exist yet. make reads what there is and makes it; nobody
// else who uses Record or Append on the book comes in between, so that two people who bill at once
// bill one after the other. A name that is taken is an error that wraps fs.ErrExist: a record is
// never overwritten. An error of make is returned as it is, and nothing is written.
func Record(dir string, make func() (Output, error)) (out Output, err error) {
	unlock, err := lock(dir)
	if err != nil {
		return out, fmt.Errorf("waiting to write a record: %w", err)
	}
	defer func() {
		if again := unlock(); err == nil {
			err = again
		}
	}()
	if out, err = make(); err != nil {
		return out, err
	}
	return out, WriteNew(dir, out)
}
