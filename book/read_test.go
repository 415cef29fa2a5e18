package book

import (
	"bytes"
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/require"

	"jobday/finding"
)

// tidy is a small book as it should be.
func tidy() fstest.MapFS {
	return fstest.MapFS{
		"company.yaml":                        text("name: Reed Electric\n"),
		"prices.csv":                          text("code,item,unit,cost,price,kind,words\n"),
		"README.md":                           text("about this folder\n"),
		"jobs/2431-quay/scope.md":             text("# scope\n"),
		"jobs/2431-quay/decisions.md":         text("# decisions\n"),
		"jobs/2431-quay/2026-03-12.md":        text("## Done\n"),
		"jobs/2431-quay/2026-03-12-tobias.md": text("## Done\n"),
		"jobs/2431-quay/photos/panel.txt":     text("not a note\n"),
		"jobs/2431-quay/changes/co-1.md":      text("a record\n"),
		"jobs/2431-quay/.2026-03-12.md.swp":   text("an editor's\n"),
		"jobs/2440-barn/scope.md":             text("# scope\n"),
		"out/2431/2026-03-12.md":              text("a report\n"),
	}
}

func text(s string) *fstest.MapFile { return &fstest.MapFile{Data: []byte(s)} }

// onDisk writes a book into a temporary folder.
func onDisk(t *testing.T, files fstest.MapFS) string {
	t.Helper()
	root := t.TempDir()
	for name, f := range files {
		at := filepath.Join(root, filepath.FromSlash(name))
		require.NoError(t, os.MkdirAll(filepath.Dir(at), 0o755))
		require.NoError(t, os.WriteFile(at, f.Data, 0o644))
	}
	return root
}

func names(b *Book) []string {
	var all []string
	for _, f := range b.Files {
		all = append(all, f.Name)
	}
	return all
}

func TestReadsTheFilesOfABookInTheOrderOfTheirNames(t *testing.T) {
	want := []string{
		"company.yaml",
		"jobs/2431-quay/2026-03-12-tobias.md",
		"jobs/2431-quay/2026-03-12.md",
		"jobs/2431-quay/changes/co-1.md",
		"jobs/2431-quay/decisions.md",
		"jobs/2431-quay/scope.md",
		"jobs/2440-barn/scope.md",
		"prices.csv",
	}
	fromMemory, found, err := ReadFS(tidy())
	require.NoError(t, err)
	require.Empty(t, found)
	require.Equal(t, want, names(fromMemory))

	fromDisk, found, err := Read(onDisk(t, tidy()))
	require.NoError(t, err)
	require.Empty(t, found)
	require.Equal(t, want, names(fromDisk))
	for i, f := range fromDisk.Files {
		require.Equal(t, fromMemory.Files[i].Text, f.Text, f.Name)
	}
}

func TestReadReturnsAnErrorWhenTheRootIsNoFolder(t *testing.T) {
	_, _, err := Read(filepath.Join(t.TempDir(), "missing"))
	require.ErrorIs(t, err, fs.ErrNotExist)
}

// TestFindingsOnDisk raises every rule that only a folder can raise, and shows that the rest of
// the book is read beside it.
func TestFindingsOnDisk(t *testing.T) {
	tests := map[string]struct {
		change  func(fstest.MapFS)
		rule    string
		file    string
		message string
	}{
		"no jobs yet": {
			func(b fstest.MapFS) { keepOnly(b, "company.yaml") },
			"book/no-jobs", "jobs", "the book has no jobs yet",
		},
		"a text file beside the notes": {
			func(b fstest.MapFS) { b["jobs/2431-quay/2026-03-13.txt"] = text("x") },
			"file/name", "jobs/2431-quay/2026-03-13.txt", `"2026-03-13.txt" was not read`,
		},
		"a note with two endings": {
			func(b fstest.MapFS) { b["jobs/2431-quay/2026-03-13.md.txt"] = text("x") },
			"file/name", "jobs/2431-quay/2026-03-13.md.txt", "its name is not one the book knows",
		},
		"a note without an ending": {
			func(b fstest.MapFS) { b["jobs/2431-quay/12.03.2026"] = text("x") },
			"file/name", "jobs/2431-quay/12.03.2026", "its name is not one the book knows",
		},
		"a spreadsheet of prices": {
			func(b fstest.MapFS) { b["Prices.xlsx"] = text("x") },
			"file/name", "Prices.xlsx", "its name is not one the book knows",
		},
		"a note in no job": {
			func(b fstest.MapFS) { b["jobs/2026-03-13.md"] = text("x") },
			"file/stray", "jobs/2026-03-13.md", "is not in a job's folder",
		},
		"a note beside company.yaml": {
			func(b fstest.MapFS) { b["2026-03-13.md"] = text("x") },
			"file/stray", "2026-03-13.md", "is not in a job's folder",
		},
		"a note one folder too deep": {
			func(b fstest.MapFS) { b["jobs/2431-quay/march/2026-03-13.md"] = text("x") },
			"file/stray", "jobs/2431-quay/march/2026-03-13.md", "is not in a job's folder",
		},
		"a file larger than is read": {
			func(b fstest.MapFS) {
				b["jobs/2431-quay/2026-03-13.md"] = text(strings.Repeat("- 2 recepts\n", MaxFile/12+1000))
			},
			"file/too-large", "jobs/2431-quay/2026-03-13.md", "only its first 8 MB were read",
		},
	}
	for name, tt := range tests {
		t.Run(name, func(t *testing.T) {
			files := tidy()
			tt.change(files)
			b, found, err := Read(onDisk(t, files))
			require.NoError(t, err)
			require.Len(t, found, 1)
			requireFinding(t, found[0], tt.rule, tt.file, tt.message)
			require.Contains(t, names(b), "company.yaml", "the rest is still read")

			_, inMemory, err := ReadFS(files)
			require.NoError(t, err)
			require.Len(t, inMemory, 1)
			requireFinding(t, inMemory[0], tt.rule, tt.file, tt.message)
		})
	}
}

func requireFinding(t *testing.T, f finding.Finding, rule, file, message string) {
	t.Helper()
	require.Equal(t, rule, f.Rule)
	require.Equal(t, file, f.Span.File.Name)
	require.Contains(t, f.Message, message)
	require.NotEmpty(t, f.Hint)
	r, known := finding.RuleNamed(rule)
	require.True(t, known, "rule %s is not in the table", rule)
	require.True(t, r.OnDisk)
	require.Equal(t, r.Severity, f.Severity)
}

func keepOnly(b fstest.MapFS, name string) {
	for k := range b {
		if k != name {
			delete(b, k)
		}
	}
}

func TestALargeFileIsCutAtALineBreak(t *testing.T) {
	line := "- 2 recepts\n"
	files := tidy()
	files["jobs/2431-quay/2026-03-13.md"] = text(strings.Repeat(line, MaxFile/len(line)+2))
	b, _, err := ReadFS(files)
	require.NoError(t, err)
	for _, f := range b.Files {
		if f.Name == "jobs/2431-quay/2026-03-13.md" {
			require.LessOrEqual(t, len(f.Text), MaxFile)
			require.True(t, bytes.HasSuffix(f.Text, []byte(line)))
			require.Greater(t, len(f.Text), MaxFile-len(line))
			return
		}
	}
	t.Fatal("the head of the file was not read")
}

func TestLinks(t *testing.T) {
	if runtime.GOOS == "windows" {
		t.Log("links need a privilege on Windows: only the reading of a plain book is checked there")
		return
	}
	outside := filepath.Join(t.TempDir(), "secret.md")
	require.NoError(t, os.WriteFile(outside, []byte("## Done\n- secret\n"), 0o600))
	root := onDisk(t, tidy())
	job := filepath.Join(root, "jobs", "2431-quay")
	links := map[string]string{
		"2026-03-20.md": outside,
		"2026-03-21.md": "../../../../../../../../etc/hostname",
		"2026-03-22.md": "nowhere.md",
		"2026-03-23.md": "2026-03-23.md",
		"2026-03-24.md": "2026-03-12.md",         // inside the folder
		"2026-03-25.md": "../2440-barn/scope.md", // inside the book
		"2026-03-26.md": "../2440-barn",
	}
	for name, to := range links {
		require.NoError(t, os.Symlink(to, filepath.Join(job, name)))
	}
	require.NoError(t, os.Symlink(filepath.Dir(outside), filepath.Join(root, "jobs", "2500-elsewhere")))

	b, found, err := Read(root)
	require.NoError(t, err)
	got := map[string]string{}
	for _, f := range found {
		got[f.Span.File.Name] = f.Rule + ": " + f.Message
	}
	require.Equal(t, map[string]string{
		"jobs/2431-quay/2026-03-20.md": `file/link: "2026-03-20.md" is a link that leads to no file of this book: it was not followed`,
		"jobs/2431-quay/2026-03-21.md": `file/link: "2026-03-21.md" is a link that leads to no file of this book: it was not followed`,
		"jobs/2431-quay/2026-03-22.md": `file/link: "2026-03-22.md" is a link that leads nowhere`,
		"jobs/2431-quay/2026-03-23.md": `file/link: "2026-03-23.md" is a link that leads to no file of this book: it was not followed`,
		"jobs/2431-quay/2026-03-26.md": `file/unreadable: "2026-03-26.md" could not be read: it is a folder`,
		"jobs/2500-elsewhere":          `file/link: "2500-elsewhere" is a link that leads to no file of this book: it was not followed`,
	}, got)
	for _, f := range b.Files {
		require.NotContains(t, string(f.Text), "secret", f.Name)
	}
	require.Contains(t, names(b), "jobs/2431-quay/2026-03-24.md")
	require.Contains(t, names(b), "jobs/2431-quay/2026-03-25.md")
}

// refusing is a book of which one file cannot be opened.
type refusing struct {
	fstest.MapFS
	name string
}

func (r refusing) Open(name string) (fs.File, error) {
	if name == r.name {
		return nil, &fs.PathError{Op: "open", Path: "/home/somebody/" + name, Err: fs.ErrPermission}
	}
	return r.MapFS.Open(name)
}

func (r refusing) ReadDir(name string) ([]fs.DirEntry, error) {
	if name == r.name {
		return nil, &fs.PathError{Op: "readdir", Path: "/home/somebody/" + name, Err: fs.ErrPermission}
	}
	return r.MapFS.ReadDir(name)
}

// Sub keeps the refusal below a folder; MapFS has a Sub of its own that would not.
func (r refusing) Sub(dir string) (fs.FS, error) {
	sub, err := r.MapFS.Sub(dir)
	return below{sub, r, dir}, err
}

type below struct {
	fs.FS
	in  refusing
	dir string
}

func (b below) Open(name string) (fs.File, error) {
	if name == "." {
		return b.in.Open(b.dir)
	}
	return b.in.Open(b.dir + "/" + name)
}

func TestAnUnreadableFileIsAFindingAndTheRestIsRead(t *testing.T) {
	for _, name := range []string{"company.yaml", "jobs/2431-quay/2026-03-12.md", "jobs/2431-quay", "jobs"} {
		b, found, err := ReadFS(refusing{tidy(), name})
		require.NoError(t, err)
		require.Len(t, found, 1, name)
		requireFinding(t, found[0], "file/unreadable", name, "could not be read: permission denied")
		require.NotContains(t, found[0].Message, "somebody", "no folder of the machine in a report")
		require.Contains(t, names(b), "prices.csv")
	}
	_, _, err := ReadFS(refusing{tidy(), "."})
	require.True(t, errors.Is(err, fs.ErrPermission))
}

func TestFindLooksUpwards(t *testing.T) {
	root := onDisk(t, tidy())
	got, err := Find(filepath.Join(root, "jobs", "2431-quay"))
	require.NoError(t, err)
	require.Equal(t, root, got)
	_, err = Find(t.TempDir())
	require.ErrorIs(t, err, ErrNoBook)
}
