package book

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"net/url"
	"os"
	"path"
	"strings"

	"jobday/finding"
)

// Why a photo cannot be read. The texts stand behind "photo not shown: ".
var (
	ErrPhotoMissing   = errors.New("no such file in the job's folder")
	ErrPhotoElsewhere = errors.New("it is not a file of this book: copy it into the job's folder photos")
)

// ReadPhoto reads a photo that a note of the job in folder ("jobs/2431-quay-bakery") names, at most
// limit bytes and one more, by which a longer file shows. It never leaves the book, not by a link
// either, and opens plain files only: a pipe or device could wait for ever.
func ReadPhoto(root, folder, name string, limit int64) ([]byte, error) {
	r, err := os.OpenRoot(root)
	if err != nil {
		return nil, fmt.Errorf("the book could not be opened: %w", bare(err))
	}
	defer r.Close()
	data, err := readPhoto(r, path.Join(folder, name), name, limit)
	if plain, unescaped := url.PathUnescape(name); errors.Is(err, ErrPhotoMissing) && unescaped == nil && plain != name {
		// An editor may have written a blank in a file's name as %20.
		return readPhoto(r, path.Join(folder, plain), plain, limit)
	}
	return data, err
}

func readPhoto(r *os.Root, full, name string, limit int64) ([]byte, error) {
	if name == "" || path.IsAbs(name) || strings.Contains(name, "://") || !fs.ValidPath(full) || strings.HasPrefix(strings.ToLower(name), "data:") {
		return nil, ErrPhotoElsewhere
	}
	info, err := r.Stat(full)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return nil, ErrPhotoMissing
	case err != nil && strings.Contains(err.Error(), "escapes"):
		return nil, ErrPhotoElsewhere
	case err != nil:
		return nil, fmt.Errorf("it could not be read: %w", bare(err))
	case !info.Mode().IsRegular():
		return nil, errors.New("it is no plain file")
	}
	f, err := r.Open(full)
	if err != nil {
		return nil, fmt.Errorf("it could not be read: %w", bare(err))
	}
	defer f.Close()
	data, err := io.ReadAll(io.LimitReader(f, limit+1))
	if err != nil {
		return nil, fmt.Errorf("it could not be read: %w", bare(err))
	}
	return data, nil
}

// PhotoFault is the finding for a photo that is named at a span and cannot be shown. It raises
// file/photo.
func PhotoFault(name string, at finding.Span, why error) finding.Finding {
	return finding.Finding{
		Severity: finding.Warning, Rule: "file/photo", Message: fmt.Sprintf("photo %q not shown: %v", name, why),
		Hint: "put the photo itself into the job's folder photos, a JPEG or PNG, and name it as photos/NAME.jpg", Span: at,
	}
}

// bare leaves out the path of an error: it would carry the machine's folders into a page.
func bare(err error) error {
	var pe *fs.PathError
	if errors.As(err, &pe) {
		return pe.Err
	}
	return err
}
