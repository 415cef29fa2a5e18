package book

import (
	"bytes"
	"crypto/sha256"
	"errors"
	"io/fs"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

func TestReplaceWritesAndKeepsPermissions(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "out")
	require.NoError(t, Replace(dir, Output{"2431/day.md", []byte("one")}, Output{"lines.csv", []byte("a,b")}))
	requireFile(t, dir, "2431/day.md", "one")
	at := filepath.Join(dir, "2431", "day.md")
	if runtime.GOOS != "windows" {
		require.NoError(t, os.Chmod(at, 0o640))
	}
	require.NoError(t, Replace(dir, Output{"2431/day.md", []byte("two")}))
	requireFile(t, dir, "2431/day.md", "two")
	if runtime.GOOS != "windows" {
		info, err := os.Stat(at)
		require.NoError(t, err)
		require.Equal(t, fs.FileMode(0o640), info.Mode().Perm())
	}
	requireNoLeftovers(t, dir)
}

func TestReplaceLeavesEqualContentAlone(t *testing.T) {
	dir := t.TempDir()
	require.NoError(t, Replace(dir, Output{"a.md", []byte("same")}))
	long := time.Date(2020, 1, 2, 3, 4, 5, 0, time.UTC)
	require.NoError(t, os.Chtimes(filepath.Join(dir, "a.md"), long, long))
	require.NoError(t, Replace(dir, Output{"a.md", []byte("same")}))
	info, err := os.Stat(filepath.Join(dir, "a.md"))
	require.NoError(t, err)
	require.True(t, info.ModTime().Equal(long))
}

func TestWriteNewNeverOverwrites(t *testing.T) {
	dir := t.TempDir()
	require.NoError(t, WriteNew(dir, Output{"jobs/1/note.md", []byte("mine")}))
	err := WriteNew(dir, Output{"jobs/1/note.md", []byte("yours")})
	require.ErrorIs(t, err, fs.ErrExist)
	requireFile(t, dir, "jobs/1/note.md", "mine")
	requireNoLeftovers(t, dir)
}

func TestWritingOutsideOrThroughALinkIsRefused(t *testing.T) {
	base := t.TempDir()
	dir := filepath.Join(base, "book")
	require.NoError(t, os.Mkdir(dir, 0o755))
	require.NoError(t, os.WriteFile(filepath.Join(base, "victim.md"), []byte("untouched"), 0o644))
	bad := []string{"../victim.md", "/victim.md", "a/../../victim.md", "", ".", `..\victim.md`, "a//b"}
	if runtime.GOOS != "windows" {
		require.NoError(t, os.Symlink(base, filepath.Join(dir, "up")))
		require.NoError(t, os.Symlink("../victim.md", filepath.Join(dir, "link.md")))
		bad = append(bad, "up/victim.md", "link.md")
	}
	for _, name := range bad {
		require.ErrorIs(t, Replace(dir, Output{name, []byte("x")}), ErrOutside, "replace %q", name)
		err := WriteNew(dir, Output{name, []byte("x")})
		require.True(t, errors.Is(err, ErrOutside) || errors.Is(err, fs.ErrExist), "new %q: %v", name, err)
	}
	requireFile(t, base, "victim.md", "untouched")
}

func requireFile(t *testing.T, dir, name, want string) {
	t.Helper()
	got, err := os.ReadFile(filepath.Join(dir, filepath.FromSlash(name)))
	require.NoError(t, err)
	require.Equal(t, want, string(got))
}

func requireNoLeftovers(t *testing.T, dir string) {
	t.Helper()
	require.NoError(t, filepath.WalkDir(dir, func(p string, _ fs.DirEntry, err error) error {
		require.False(t, strings.HasSuffix(p, ".tmp"), p)
		return err
	}))
}

// The kill test runs this test program again as a writer and kills it at a random moment.
const (
	writerDir  = "JOBDAY_TEST_WRITER_DIR" // set in the writer: where it writes
	killRounds = "JOBDAY_KILL_ROUNDS"     // how often to kill; 15 when not set
)

func TestMain(m *testing.M) {
	if dir := os.Getenv(writerDir); dir != "" {
		writeForEver(dir)
	}
	os.Exit(m.Run())
}

// writeForEver writes versions of a few files over and over.
func writeForEver(dir string) {
	for v := 0; ; v++ {
		var outs []Output
		for i := range 4 {
			outs = append(outs, Output{"day-" + strconv.Itoa(i) + ".md", version(v, i)})
		}
		if err := Replace(dir, outs...); err != nil {
			os.Stderr.WriteString(err.Error())
			os.Exit(1)
		}
		if err := WriteNew(dir, Output{"new/" + strconv.Itoa(v) + "-" + strconv.Itoa(os.Getpid()) + ".md", version(v, 9)}); err != nil {
			os.Stderr.WriteString(err.Error())
			os.Exit(1)
		}
	}
}

// version is a content of many pages that proves itself whole: the sum of the rest is its first
// line.
func version(v, i int) []byte {
	body := bytes.Repeat([]byte("version "+strconv.Itoa(v)+" of file "+strconv.Itoa(i)+"\n"), 4000)
	sum := sha256.Sum256(body)
	return append([]byte(strconv.Quote(string(sum[:]))+"\n"), body...)
}

func whole(text []byte) bool {
	head, body, cut := bytes.Cut(text, []byte("\n"))
	sum := sha256.Sum256(body)
	return cut && string(head) == strconv.Quote(string(sum[:]))
}

func TestAKilledWriterLeavesEveryFileWhole(t *testing.T) {
	rounds := 15
	if s := os.Getenv(killRounds); s != "" {
		n, err := strconv.Atoi(s)
		require.NoError(t, err)
		rounds = n
	}
	self, err := os.Executable()
	require.NoError(t, err)
	dir := t.TempDir()
	checked := 0
	for range rounds {
		writer := exec.Command(self)
		writer.Env = append(os.Environ(), writerDir+"="+dir)
		var said bytes.Buffer
		writer.Stderr = &said
		require.NoError(t, writer.Start())
		time.Sleep(time.Duration(20+rand.IntN(80)) * time.Millisecond)
		require.NoError(t, writer.Process.Kill())
		_ = writer.Wait() // it was killed: that is its error
		require.Empty(t, said.String())
		checked += requireAllWhole(t, dir)
	}
	require.Positive(t, checked, "the writer never got to write a file")
	t.Logf("%d kills, %d files read back whole", rounds, checked)
}

func requireAllWhole(t *testing.T, dir string) int {
	t.Helper()
	n := 0
	require.NoError(t, filepath.WalkDir(dir, func(p string, e fs.DirEntry, err error) error {
		if err != nil || e.IsDir() || strings.HasSuffix(p, ".tmp") {
			return err
		}
		text, err := os.ReadFile(p)
		require.True(t, whole(text), "%s is torn: %d bytes", p, len(text))
		n++
		return err
	}))
	return n
}
