package main

import (
	"io"
	"os"
	"time"

	"github.com/mattn/go-isatty"

	"jobday/notes"
)

// A system is what the command has to do with the world around it. Tests make one of their own.
type system struct {
	out, err   io.Writer
	dir        string              // where the command was called
	getenv     func(string) string // the environment
	now        func() time.Time    // the clock
	outIsShown bool                // out is a terminal
	errIsShown bool                // err is a terminal

	started bool   // a command was found, its usage is right and it runs
	asked   string // the command that was called, as far as it was understood: "jobday report"
}

func thisSystem() system {
	dir, err := os.Getwd()
	if err != nil {
		dir = "."
	}
	return system{
		out: os.Stdout, err: os.Stderr, dir: dir, getenv: os.Getenv, now: time.Now,
		outIsShown: isatty.IsTerminal(os.Stdout.Fd()) || isatty.IsCygwinTerminal(os.Stdout.Fd()),
		errIsShown: isatty.IsTerminal(os.Stderr.Fd()) || isatty.IsCygwinTerminal(os.Stderr.Fd()),
	}
}

// color reports whether what is written to out may have colours: only on a terminal that can, and
// not when the person asked for none (NO_COLOR set to anything).
func (s *system) color() bool {
	return s.outIsShown && s.getenv("NO_COLOR") == "" && s.getenv("TERM") != "dumb"
}

// today is the date on the clock, where the command runs.
func (s *system) today() notes.Date {
	y, m, d := s.now().Date()
	return notes.Date{Year: y, Month: int(m), Day: d}
}
