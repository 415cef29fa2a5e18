package main

import (
	"bytes"
	"io/fs"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"jobday/book"
	"jobday/compile"
	"jobday/notes"
	"jobday/record"
)

// TestAKilledReportLeavesEveryFileWhole kills the command at a random moment while it writes the
// reports of two books in turn into one folder: each file must be that of one book or the other.
func TestAKilledReportLeavesEveryFileWhole(t *testing.T) {
	rounds := 8
	if s := os.Getenv("JOBDAY_KILL_ROUNDS"); s != "" {
		n, err := strconv.Atoi(s)
		require.NoError(t, err)
		rounds = n
	}
	self, err := os.Executable()
	require.NoError(t, err)
	books := []string{demoCopy(t), demoCopy(t)}
	company := filepath.Join(books[1], book.Marker)
	text, err := os.ReadFile(company)
	require.NoError(t, err)
	require.NoError(t, os.WriteFile(company, bytes.Replace(text, []byte("Lanternmoor Electric\n"), []byte("Another Name\n"), 1), 0o644))

	wants := make([]map[string]string, 2)
	var took time.Duration
	for i, b := range books {
		var out, said bytes.Buffer
		begun := time.Now()
		run(t.Context(), []string{"report"}, desk(b, &out, &said))
		took = time.Since(begun)
		require.Empty(t, said.String())
		wants[i] = tree(t, filepath.Join(b, "out"))
	}
	require.NotEqual(t, wants[0], wants[1])

	dir := filepath.Join(t.TempDir(), "out")
	seen := 0
	// On a busy machine a child may take much longer than the same work took here: until one has
	// written anything the waits grow.
	for n := 0; n < rounds || seen == 0 && n < 20*rounds; n++ {
		cmd := exec.Command(self)
		cmd.Args = []string{"jobday", "report", "--book", books[n%2], "--out", dir}
		require.NoError(t, cmd.Start())
		wait := rand.Int64N(int64(2*took) + int64(30*time.Millisecond))
		if seen == 0 {
			wait *= int64(n + 1)
		}
		time.Sleep(time.Duration(wait))
		_ = cmd.Process.Kill() // it may have ended by itself
		_ = cmd.Wait()         // it was killed: that is its error
		for name, got := range tree(t, dir) {
			require.True(t, got == wants[0][name] || got == wants[1][name], "%s is torn: %d bytes", name, len(got))
			seen++
		}
	}
	require.Positive(t, seen, "the command never got to write a file")
	t.Logf("%d kills, %d files read back whole", rounds, seen)
}

// tree returns the files below a folder by name, without hidden leftovers of a killed program.
func tree(t *testing.T, dir string) map[string]string {
	t.Helper()
	files := map[string]string{}
	err := filepath.WalkDir(dir, func(p string, e fs.DirEntry, err error) error {
		if os.IsNotExist(err) {
			return nil
		}
		if err != nil || e.IsDir() || strings.HasPrefix(e.Name(), ".jobday-") {
			return err
		}
		text, err := os.ReadFile(p)
		rel, _ := filepath.Rel(dir, p)
		files[filepath.ToSlash(rel)] = string(text)
		return err
	})
	require.NoError(t, err)
	return files
}

// TestAKilledInvoiceIsWholeOrNotThere kills the command at a random moment while it bills, takes the
// invoice back and bills again: every record that is there is whole, numbers have no gaps, and
// nothing is billed twice.
func TestAKilledInvoiceIsWholeOrNotThere(t *testing.T) {
	rounds := 8
	if s := os.Getenv("JOBDAY_KILL_ROUNDS"); s != "" {
		n, err := strconv.Atoi(s)
		require.NoError(t, err)
		rounds = n
	}
	self, err := os.Executable()
	require.NoError(t, err)
	dir := demoCopy(t)
	var out, said bytes.Buffer
	begun := time.Now()
	run(t.Context(), []string{"invoice", "2431", "--dry-run"}, desk(dir, &out, &said))
	took := time.Since(begun)
	written := 0
	for n := 0; n < rounds || written == 0 && n < 10*rounds; n++ {
		args := []string{"jobday", "invoice", "2431", "--book", dir}
		set := recordsOf(t, dir, "2431")
		if last := len(set.Invoices); last > 0 && set.Invoices[last-1].Kind == notes.InvoiceBill {
			args = []string{"jobday", "invoice", "void", set.Invoices[last-1].Number, "--why", "again", "--book", dir}
		}
		cmd := exec.Command(self)
		cmd.Args = args
		require.NoError(t, cmd.Start())
		time.Sleep(time.Duration(rand.Int64N(int64(4*took)+int64(50*time.Millisecond)) * int64(1+n/rounds)))
		_ = cmd.Process.Kill() // it may have ended by itself
		_ = cmd.Wait()         // it was killed: that is its error
		written = len(recordsOf(t, dir, "2431").Invoices)
	}
	require.Positive(t, written, "the command never got to write an invoice")
	t.Logf("%d records after the kills, all whole", written)
}

// recordsOf returns the records of a job, which must all be whole and add up to what was earned once
// at most.
func recordsOf(t *testing.T, dir, job string) record.Set {
	t.Helper()
	b, _, err := book.Read(dir)
	require.NoError(t, err)
	r := compile.Book(b.Files, compile.Options{Job: job})
	j := r.Find(job)
	require.Empty(t, j.Records.Broken)
	for _, f := range r.Findings {
		require.False(t, strings.HasPrefix(f.Rule, "record/"), f.Message)
	}
	var earned, billed notes.Money
	for _, d := range j.Days {
		earned = earned.Add(d.Money.Ready.Subtotal)
	}
	for _, v := range j.Records.Invoices {
		billed = billed.Add(v.Totals.Lines)
	}
	require.True(t, billed.IsZero() || billed.Equal(earned), "billed %s of %s", billed, earned)
	return j.Records
}

// TestNothingIsBilledTwiceWhenManyBillAtOnce runs the command in eight processes on one job.
func TestNothingIsBilledTwiceWhenManyBillAtOnce(t *testing.T) {
	dir := demoCopy(t)
	self, err := os.Executable()
	require.NoError(t, err)
	var all sync.WaitGroup
	said := make([]bytes.Buffer, 8)
	failed := make([]error, len(said))
	for i := range said {
		all.Go(func() {
			cmd := exec.Command(self)
			cmd.Args = []string{"jobday", "invoice", "2431", "--by", strconv.Itoa(i), "--book", dir}
			cmd.Stderr = &said[i]
			failed[i] = cmd.Run()
		})
	}
	all.Wait()
	for i, err := range failed {
		require.NoError(t, err, said[i].String())
	}
	require.Len(t, recordsOf(t, dir, "2431").Invoices, 1)
}
