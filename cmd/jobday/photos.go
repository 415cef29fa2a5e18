package main

import (
	"jobday/book"
	"jobday/finding"
	"jobday/notes"
	"jobday/report"
)

// photosOf reads the photos of one job for the pages that show them.
func (b *openBook) photosOf(folder string) report.Pictures {
	return func(path string) ([]byte, error) {
		return book.ReadPhoto(b.root, folder, path, report.MaxPhotoBytes)
	}
}

// photoFindings tries each photo the selected notes point to, as a page would show it.
func (b *openBook) photoFindings() finding.List {
	var found finding.List
	for _, j := range b.selected {
		read := b.photosOf(j.Folder)
		for _, n := range j.Notes {
			if !ofDays(n, j.days) {
				continue
			}
			for _, p := range notePhotos(n) {
				if err := photoFault(read, p.Path); err != nil {
					found.Add(book.PhotoFault(p.Path, p.Span, err))
				}
			}
		}
	}
	return found
}

func photoFault(read report.Pictures, path string) error {
	data, err := read(path)
	if err != nil {
		return err
	}
	_, _, _, err = report.ScaledPhoto(data)
	return err
}

// ofDays reports whether a note is of one of the days.
func ofDays(n *notes.DayNote, days []*notes.JobDay) bool {
	for _, d := range days {
		if d.Date == n.Date {
			return true
		}
	}
	return false
}

// notePhotos lists the photos of a note's entries and of their details.
func notePhotos(n *notes.DayNote) []notes.Photo {
	var list []notes.Photo
	for i := range n.Entries {
		list = append(list, n.Entries[i].Photos...)
	}
	return list
}
