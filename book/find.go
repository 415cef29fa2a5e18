package book

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
)

// Marker is the file that makes a folder a job book.
const Marker = "company.yaml"

// ErrNoBook is returned by Find when neither the folder nor one above it is a book.
var ErrNoBook = errors.New("no job book here")

// Find returns the nearest folder at or above dir that holds a company.yaml. It returns an error
// that wraps ErrNoBook when there is none.
func Find(dir string) (root string, err error) {
	abs, err := filepath.Abs(dir)
	if err != nil {
		return "", fmt.Errorf("finding the book: %w", err)
	}
	for at := abs; ; {
		_, err := os.Stat(filepath.Join(at, Marker))
		if err == nil {
			return at, nil
		}
		if !errors.Is(err, fs.ErrNotExist) {
			return "", fmt.Errorf("finding the book: %w", err)
		}
		up := filepath.Dir(at)
		if up == at {
			return "", fmt.Errorf("%w: neither %s nor a folder above it has a %s", ErrNoBook, abs, Marker)
		}
		at = up
	}
}
