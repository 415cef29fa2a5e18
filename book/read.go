package book

import (
	"bytes"
	"cmp"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path"
	"runtime"
	"slices"
	"strconv"

	"golang.org/x/sync/errgroup"

	"jobday/finding"
)

// MaxFile is the most bytes of one file that are read. Of a larger file the head is read up to
// the last line break, and a finding says so; the rest stays on disk.
const MaxFile = 8 << 20

// Book is the files of a job book as they were on disk.
type Book struct {
	Root  string          // the folder, or "" for a book that is not on disk
	Files []*finding.File // by name: relative to the book, with forward slashes
}

// Read reads the book in the folder root. It never follows a link out of the book. What cannot be
// read is a finding, and the rest is still read; the error is for a root that is no folder.
// It raises book/no-jobs and the rules of files: file/link, file/unreadable, file/too-large,
// file/name, file/stray.
func Read(root string) (*Book, finding.List, error) {
	r, err := os.OpenRoot(root)
	if err != nil {
		return nil, nil, fmt.Errorf("reading the book: %w", err)
	}
	defer r.Close()
	b, found, err := read(source{
		whole: r.FS(),
		// A folder of its own saves walking the path again for every file in it.
		folder: func(dir string) (fs.FS, func(), error) {
			sub, err := r.OpenRoot(dir)
			if err != nil {
				return nil, nil, err
			}
			return sub.FS(), func() { sub.Close() }, nil
		},
	})
	if b != nil {
		b.Root = root
	}
	return b, found, err
}

// ReadFS is Read of a book that is not on disk, such as an embedded one.
func ReadFS(fsys fs.FS) (*Book, finding.List, error) {
	return read(source{
		whole: fsys,
		folder: func(dir string) (fs.FS, func(), error) {
			sub, err := fs.Sub(fsys, dir)
			return sub, func() {}, err
		},
	})
}

// A source is where a book is read from.
type source struct {
	whole  fs.FS
	folder func(dir string) (sub fs.FS, release func(), err error)
}

// read lists the book and reads its folders in parallel; the order of the result is that of names.
func read(src source) (*Book, finding.List, error) {
	entries, err := fs.ReadDir(src.whole, ".")
	if err != nil {
		return nil, nil, fmt.Errorf("reading the book: %w", err)
	}
	top := shelf{src: src, at: src.whole}
	for _, e := range entries {
		top.root(e)
	}
	jobs := top.jobs()
	shelves := make([]shelf, len(jobs))
	var g errgroup.Group
	g.SetLimit(2 * runtime.GOMAXPROCS(0))
	for i, name := range jobs {
		g.Go(func() error {
			shelves[i] = readJob(src, name)
			return nil
		})
	}
	_ = g.Wait() // the workers return no errors
	b := &Book{Files: top.files}
	found := top.found
	for _, s := range shelves {
		b.Files = append(b.Files, s.files...)
		found.Add(s.found...)
	}
	slices.SortFunc(b.Files, func(x, y *finding.File) int { return cmp.Compare(x.Name, y.Name) })
	return b, found.Sort(), nil
}

// A shelf is one folder of the book while it is read.
type shelf struct {
	src   source
	at    fs.FS  // the folder itself
	dir   string // its name in the book with a slash behind, "" for the book
	files []*finding.File
	found finding.List
}

// jobs lists the folders of jobs; a link among them is followed inside the book only.
func (s *shelf) jobs() []string {
	entries, err := fs.ReadDir(s.at, "jobs")
	if err != nil && !errors.Is(err, fs.ErrNotExist) {
		s.unreadable("jobs", err)
		return nil
	}
	var names []string
	for _, e := range entries {
		name := "jobs/" + e.Name()
		kind := e.Type()
		if kind&fs.ModeSymlink != 0 {
			kind = s.follow(name)
		}
		switch {
		case hidden(e.Name()), kind == gone:
		case kind.IsDir():
			names = append(names, name)
		case looksLikeNote(e.Name()):
			s.stray(name)
		}
	}
	if len(names) == 0 && err == nil || errors.Is(err, fs.ErrNotExist) {
		s.found.Add(finding.Finding{
			Severity: finding.Note, Rule: "book/no-jobs", Message: "the book has no jobs yet",
			Hint: "jobday new job NUMBER", Span: place("jobs"),
		})
	}
	return names
}

// readJob reads the notes and the scope of one job's folder.
func readJob(src source, name string) shelf {
	s := shelf{src: src, dir: name + "/"}
	sub, release, err := src.folder(name)
	if err != nil {
		s.unreadable(name, err)
		return s
	}
	defer release()
	s.at = sub
	entries, err := fs.ReadDir(sub, ".")
	if err != nil {
		s.unreadable(name, err)
	}
	for _, e := range entries {
		s.inJob(e)
	}
	return s
}

// gone marks a link that leads nowhere: its finding is already made.
const gone = fs.ModeIrregular

// follow returns what a link leads to inside the book; a link that leads elsewhere is a finding.
func (s *shelf) follow(name string) fs.FileMode {
	info, err := fs.Stat(s.src.whole, name)
	if err == nil {
		return info.Mode()
	}
	message := "is a link that leads to no file of this book: it was not followed"
	if errors.Is(err, fs.ErrNotExist) {
		message = "is a link that leads nowhere"
	}
	s.found.Add(finding.Finding{
		Severity: finding.Error, Rule: "file/link", Message: quoted(name) + " " + message,
		Hint: "put the file itself into the book", Span: place(name),
		Holds: "whatever it would have billed",
	})
	return gone
}

// take reads the file of an entry of this folder into the book.
func (s *shelf) take(e fs.DirEntry) {
	name := s.dir + e.Name()
	from, in, kind := s.at, e.Name(), e.Type()
	if kind&fs.ModeSymlink != 0 {
		// The folder's own view ends at the folder; a link may lead elsewhere in the book.
		from, in, kind = s.src.whole, name, s.follow(name)
	}
	switch {
	case kind == gone:
		return
	case kind.IsDir():
		s.unreadable(name, errors.New("it is a folder"))
		return
	case !kind.IsRegular(): // opening a pipe or a device could wait for ever
		s.unreadable(name, errors.New("it is no plain file"))
		return
	}
	text, size, err := readHead(from, in)
	if err != nil {
		s.unreadable(name, err)
		return
	}
	f := finding.NewFile(name, text)
	s.files = append(s.files, f)
	if size > MaxFile {
		s.found.Add(finding.Finding{
			Severity: finding.Error, Rule: "file/too-large",
			Message: quoted(name) + " has " + strconv.FormatInt(size>>20, 10) + " MB: only its first " +
				strconv.Itoa(MaxFile>>20) + " MB were read",
			Hint:  "split it, one note a day and author; the file on disk is as it was",
			Span:  f.Span(max(len(text)-1, 0), len(text)),
			Holds: "whatever the rest of the file would have billed",
		})
	}
}

// readHead reads a file, at most MaxFile bytes of it up to a line break, and returns its size.
func readHead(fsys fs.FS, name string) (text []byte, size int64, err error) {
	f, err := fsys.Open(name)
	if err != nil {
		return nil, 0, err
	}
	defer f.Close()
	info, err := f.Stat()
	if err != nil {
		return nil, 0, err
	}
	size = info.Size()
	text = make([]byte, 0, min(size, MaxFile)+1) // one more, so that the end is seen without growing
	for len(text) <= MaxFile {
		if len(text) == cap(text) {
			text = append(text, 0)[:len(text)] // it grew since it was measured
		}
		n, err := f.Read(text[len(text):cap(text)])
		text = text[:len(text)+n]
		if err == io.EOF {
			return text, int64(len(text)), nil
		}
		if err != nil {
			return nil, size, err
		}
	}
	text = text[:MaxFile]
	if end := bytes.LastIndexByte(text, '\n'); end >= 0 {
		text = text[:end+1]
	}
	return text, max(size, MaxFile+1), nil
}

// unreadable notes that something in the book could not be read. The path in a PathError is left
// out: it says nothing new, and on disk it would carry the machine's folders into the report.
func (s *shelf) unreadable(name string, err error) {
	var pe *fs.PathError
	if errors.As(err, &pe) {
		err = pe.Err
	}
	s.found.Add(finding.Finding{
		Severity: finding.Error, Rule: "file/unreadable",
		Message: quoted(name) + " could not be read: " + err.Error(),
		Hint:    "check who may read it and that it is a plain file", Span: place(name),
		Holds: "whatever it would have billed",
	})
}

// place is the place of something that has no text of its own to point to.
func place(name string) finding.Span { return finding.NewFile(name, nil).Span(0, 0) }

func quoted(name string) string { return `"` + path.Base(name) + `"` }
