package book

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"

	"github.com/rogpeppe/go-internal/lockedfile"
)

// lockName is the hidden file in the book's folder that says somebody is adding to a file.
const lockName = ".jobday-lock"

// Append changes a file that several people add to: add is given what the file holds now, nil when
// there is none, and returns what it shall hold. Nobody else who uses Append on the book comes in
// between, so that no addition is lost; the file is whole or untouched at any moment. An error of
// add is returned as it is, and nothing is written.
func Append(dir, name string, add func(old []byte) ([]byte, error)) (err error) {
	unlock, err := lock(dir)
	if err != nil {
		return fmt.Errorf("waiting to write %s: %w", name, err)
	}
	defer func() { err = errors.Join(err, unlock()) }()
	old, err := readInside(dir, name)
	if err != nil && !errors.Is(err, fs.ErrNotExist) {
		return fmt.Errorf("reading %s: %w", name, err)
	}
	text, err := add(old)
	if err != nil {
		return err
	}
	return Replace(dir, Output{Name: name, Text: text})
}

func readInside(dir, name string) ([]byte, error) {
	root, err := os.OpenRoot(dir)
	if err != nil {
		return nil, err
	}
	defer root.Close()
	return root.ReadFile(name)
}

// lock waits until nobody else holds the book's lock and takes it. The system gives it back when
// the program is killed, so that a lock file left behind locks nobody out. The file is taken away
// while the lock is still held; whoever waited for one that is gone asks again.
func lock(dir string) (unlock func() error, err error) {
	name := filepath.Join(dir, lockName)
	for {
		if info, err := os.Lstat(name); err == nil && !info.Mode().IsRegular() {
			return nil, ErrOutside
		}
		f, err := lockedfile.OpenFile(name, os.O_RDWR|os.O_CREATE, 0o666)
		if err != nil {
			return nil, err
		}
		mine, err := f.Stat()
		if err != nil {
			return nil, errors.Join(err, f.Close())
		}
		if there, err := os.Lstat(name); err == nil && os.SameFile(mine, there) {
			return func() error {
				_ = os.Remove(name) // Windows keeps a file that is open; an unlocked one does no harm
				return f.Close()
			}, nil
		}
		if err := f.Close(); err != nil {
			return nil, err
		}
	}
}
