package book

import (
	"bytes"
	"errors"
	"fmt"
	"io/fs"
	"math/rand/v2"
	"os"
	"path"
	"runtime"
	"strconv"
	"strings"
	"syscall"
)

// ErrOutside is returned for a name that does not lie in the folder it should be written to, or
// that would be written through a link.
var ErrOutside = errors.New("will not write outside the folder or through a link")

// Output is one file to write: a name below the folder, with forward slashes, and its content.
type Output struct {
	Name string
	Text []byte
}

// WriteNew writes a file that must not exist yet below the folder dir, which is made if it is
// missing. It returns an error that wraps fs.ErrExist when there is one: it never overwrites.
// A reader sees the whole file or none, also when the program is killed.
func WriteNew(dir string, out Output) error {
	return writeAll(dir, []Output{out}, (*target).create)
}

// Replace writes files below the folder dir, which is made if it is missing, in place of what is
// there. Each file is whole or untouched at any moment, also when the program is killed; it stops
// at the first that fails. A file that already has the content is left alone.
func Replace(dir string, outs ...Output) error {
	return writeAll(dir, outs, (*target).replace)
}

func writeAll(dir string, outs []Output, write func(*target, Output) error) error {
	if err := os.MkdirAll(dir, 0o777); err != nil {
		return fmt.Errorf("making %s: %w", dir, err)
	}
	root, err := os.OpenRoot(dir)
	if err != nil {
		return fmt.Errorf("opening %s: %w", dir, err)
	}
	defer root.Close()
	t := target{root: root, changed: map[string]bool{}}
	for _, o := range outs {
		if err := write(&t, o); err != nil {
			return fmt.Errorf("writing %s in %s: %w", o.Name, dir, err)
		}
	}
	return t.sync()
}

// A target is a folder that is written to. All names are resolved inside it by the system.
type target struct {
	root    *os.Root
	changed map[string]bool // folders whose list of names changed
}

// create writes a new file: a finished temporary one gets its name by a link, which fails when the
// name is taken, so that two writers cannot both win.
func (t *target) create(o Output) error {
	if err := t.prepare(o.Name); err != nil {
		return err
	}
	if _, err := t.root.Lstat(o.Name); err == nil {
		return &fs.PathError{Op: "create", Path: o.Name, Err: fs.ErrExist}
	}
	temp, err := t.temporary(o, 0)
	if err != nil {
		return err
	}
	err = t.root.Link(temp, o.Name)
	if err != nil && !errors.Is(err, fs.ErrExist) {
		return t.rename(temp, o.Name) // a file system without links; the name was free a moment ago
	}
	t.changed[path.Dir(o.Name)] = true
	return errors.Join(err, t.root.Remove(temp))
}

// replace writes a file in place of one that may be there, and keeps its permissions.
func (t *target) replace(o Output) error {
	if err := t.prepare(o.Name); err != nil {
		return err
	}
	var mode fs.FileMode
	switch info, err := t.root.Lstat(o.Name); {
	case errors.Is(err, fs.ErrNotExist):
	case err != nil:
		return err
	case !info.Mode().IsRegular():
		return ErrOutside
	default:
		mode = info.Mode().Perm()
		if old, err := t.root.ReadFile(o.Name); err == nil && bytes.Equal(old, o.Text) {
			return nil
		}
	}
	temp, err := t.temporary(o, mode)
	if err != nil {
		return err
	}
	return t.rename(temp, o.Name)
}

func (t *target) rename(temp, name string) error {
	if err := t.root.Rename(temp, name); err != nil {
		return errors.Join(err, t.root.Remove(temp))
	}
	t.changed[path.Dir(name)] = true
	return nil
}

// prepare makes the folders above name and refuses a name that leaves the target or passes a link.
func (t *target) prepare(name string) error {
	if !fs.ValidPath(name) || name == "." || strings.ContainsRune(name, '\\') {
		return ErrOutside
	}
	for i, c := range name {
		if c != '/' {
			continue
		}
		dir := name[:i]
		switch info, err := t.root.Lstat(dir); {
		case errors.Is(err, fs.ErrNotExist):
			if err := t.root.Mkdir(dir, 0o777); err != nil && !errors.Is(err, fs.ErrExist) {
				return err
			}
			t.changed[path.Dir(dir)] = true
		case err != nil:
			return err
		case info.Mode()&fs.ModeSymlink != 0:
			return ErrOutside
		}
	}
	return nil
}

// temporary writes a hidden file beside o.Name with its content, safely on disk, and returns its
// name. The mode is that of the file it will replace, 0 for what the system gives a new file.
// A leftover of a killed program is hidden and never read.
func (t *target) temporary(o Output, mode fs.FileMode) (string, error) {
	for try := 0; ; try++ {
		temp := path.Join(path.Dir(o.Name), ".jobday-"+strconv.FormatUint(rand.Uint64(), 36)+".tmp")
		f, err := t.root.OpenFile(temp, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o666)
		if errors.Is(err, fs.ErrExist) && try < 10 {
			continue
		}
		if err != nil {
			return "", err
		}
		if err := fill(f, o.Text, mode); err != nil {
			return "", errors.Join(err, t.root.Remove(temp))
		}
		return temp, nil
	}
}

// fill writes, syncs and closes f; an error of any step counts.
func fill(f *os.File, text []byte, mode fs.FileMode) error {
	_, err := f.Write(text)
	if err == nil {
		err = f.Sync()
	}
	if err == nil && mode != 0 {
		err = f.Chmod(mode)
	}
	return errors.Join(err, f.Close())
}

// sync makes the new names last through a power cut. Windows does it by itself and cannot open a
// folder for it.
func (t *target) sync() error {
	if runtime.GOOS == "windows" {
		return nil
	}
	for dir := range t.changed {
		f, err := t.root.Open(dir)
		if err != nil {
			return fmt.Errorf("syncing the folder: %w", err)
		}
		err = f.Sync()
		if errors.Is(err, syscall.EINVAL) || errors.Is(err, errors.ErrUnsupported) {
			err = nil // a file system that cannot sync a folder; the files are safe by now
		}
		if err := errors.Join(err, f.Close()); err != nil {
			return fmt.Errorf("syncing the folder: %w", err)
		}
	}
	return nil
}
