package main

import (
	"bytes"
	"context"
	"errors"
	"flag"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/rogpeppe/go-internal/testscript"
	"github.com/stretchr/testify/require"
)

// update rewrites the expected output inside the scripts: go test ./cmd/jobday -update
var update = flag.Bool("update", false, "rewrite the expected output in testdata/script")

// today is the day of every test.
var today = time.Date(2026, 3, 17, 16, 30, 0, 0, time.UTC)

func TestMain(m *testing.M) {
	testscript.Main(m, map[string]func(){
		"jobday": func() {
			sys := thisSystem()
			sys.now = func() time.Time { return today }
			os.Exit(run(context.Background(), os.Args[1:], sys))
		},
	})
}

// TestScript runs the command as people run it, one archive a behaviour.
func TestScript(t *testing.T) {
	testscript.Run(t, testscript.Params{
		Dir:                 "testdata/script",
		UpdateScripts:       *update,
		RequireExplicitExec: true,
		Setup: func(e *testscript.Env) error {
			demo, err := filepath.Abs(filepath.FromSlash("../../testdata/demo"))
			e.Setenv("DEMO", demo)
			return err
		},
		Cmds: map[string]func(*testscript.TestScript, bool, []string){
			"status":    status,
			"demobook":  demoBook,
			"untouched": untouched,
		},
	})
}

// status N COMMAND ARGS... runs a command that must end with exit status N.
func status(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) < 2 {
		ts.Fatalf("usage: status N command args...")
	}
	want, err := strconv.Atoi(args[0])
	ts.Check(err)
	got := 0
	if err := ts.Exec(args[1], args[2:]...); err != nil {
		exit := (*exec.ExitError)(nil)
		if !errors.As(err, &exit) {
			ts.Fatalf("%s did not run: %v", args[1], err)
		}
		got = exit.ExitCode()
	}
	if got != want {
		ts.Fatalf("%s ended with status %d, expected %d", strings.Join(args[1:], " "), got, want)
	}
}

// demoBook DIR puts a copy of the demo book into DIR.
func demoBook(ts *testscript.TestScript, _ bool, args []string) {
	ts.Check(os.CopyFS(ts.MkAbs(args[0]), os.DirFS(ts.Getenv("DEMO"))))
}

// untouched FILE TEXT checks that a file still holds the text.
func untouched(ts *testscript.TestScript, _ bool, args []string) {
	if got := strings.TrimSpace(ts.ReadFile(args[0])); got != args[1] {
		ts.Fatalf("%s was changed: %q", args[0], got)
	}
}

// A desk is a system for tests, with a terminal that is not there.
func desk(dir string, out, err *bytes.Buffer) system {
	return system{
		out: out, err: err, dir: dir, now: func() time.Time { return today },
		getenv: func(string) string { return "" },
	}
}

// demoCopy puts the demo book into a temporary folder.
func demoCopy(t *testing.T) string {
	t.Helper()
	dir := t.TempDir()
	require.NoError(t, os.CopyFS(dir, os.DirFS(filepath.FromSlash("../../testdata/demo"))))
	return dir
}

func TestColorOnlyOnATerminalThatWantsIt(t *testing.T) {
	dir := demoCopy(t)
	check := func(change func(*system)) string {
		var out, said bytes.Buffer
		sys := desk(dir, &out, &said)
		change(&sys)
		run(t.Context(), []string{"check"}, sys)
		require.Contains(t, out.String(), "error", "the demo book has an error on purpose")
		return out.String()
	}
	plain := check(func(*system) {})
	require.NotContains(t, plain, "\x1b")
	shown := check(func(s *system) { s.outIsShown = true })
	require.Contains(t, shown, "\x1b[")
	env := func(key, value string) func(*system) {
		return func(s *system) {
			s.outIsShown = true
			s.getenv = func(k string) string { return map[string]string{key: value}[k] }
		}
	}
	require.Equal(t, plain, check(env("NO_COLOR", "1")))
	require.Equal(t, plain, check(env("TERM", "dumb")))
}

func TestProgressOnlyWhenATerminalWaits(t *testing.T) {
	dir := demoCopy(t)
	said := func(step time.Duration, shown bool) string {
		var out, said bytes.Buffer
		sys := desk(dir, &out, &said)
		at := today
		sys.now = func() time.Time { at = at.Add(step); return at }
		sys.errIsShown = shown
		require.Equal(t, fineStatus, run(t.Context(), []string{"closeout", "2431"}, sys))
		return said.String()
	}
	require.Contains(t, said(2*time.Second, true), "reading notes [")
	require.Contains(t, said(2*time.Second, true), "\r\x1b[K", "and it is taken away again")
	require.NotContains(t, said(time.Microsecond, true), "reading notes")
	require.NotContains(t, said(2*time.Second, false), "reading notes")
}

func TestEveryHelpPageStatesTheExitStatusAndHasExamples(t *testing.T) {
	pages := [][]string{
		{}, {"check"}, {"report"}, {"closeout"}, {"deficiencies"}, {"explain"}, {"demo"}, {"new"}, {"new", "book"}, {"new", "job"},
		{"new", "day"}, {"export"}, {"export", "schema"}, {"export", "rules"},
	}
	for _, page := range pages {
		var out, said bytes.Buffer
		require.Equal(t, fineStatus, run(t.Context(), append(page, "--help"), desk(t.TempDir(), &out, &said)))
		require.Contains(t, out.String(), "Exit status: 0 fine, 1 the input has errors, 2 wrong usage, 3 the system failed.")
		if len(page) > 0 && page[0] != "new" && page[0] != "export" || len(page) > 1 {
			require.Contains(t, out.String(), "Examples:\n  jobday "+strings.Join(page, " "), page)
		}
	}
}

// full is a device with no room left.
type full struct{}

func (full) Write([]byte) (int, error) { return 0, errors.New("no space left on device") }

func TestAFailingOutputIsAFailureOfTheSystem(t *testing.T) {
	dir := demoCopy(t)
	for _, args := range [][]string{
		{"check"}, {"report"}, {"report", "--out", "-"}, {"closeout", "2431"}, {"deficiencies"}, {"explain", "A", "--job", "2431"},
		{"export", "schema"}, {"new", "job", "77"},
	} {
		var said bytes.Buffer
		sys := desk(dir, nil, &said)
		sys.out = full{}
		require.Equal(t, systemStatus, run(t.Context(), args, sys), args)
		require.Contains(t, said.String(), "no space left on device", args)
	}
}

func TestAnInterruptedCommandWritesNothing(t *testing.T) {
	dir := demoCopy(t)
	ctx, cancel := context.WithCancel(t.Context())
	cancel()
	var out, said bytes.Buffer
	require.Equal(t, systemStatus, run(ctx, []string{"report"}, desk(dir, &out, &said)))
	require.Empty(t, out.String())
	require.NoDirExists(t, filepath.Join(dir, "out"))
}
