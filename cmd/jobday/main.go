// Command jobday compiles a crew's plain-text notes against the booked scope of work into daily
// reports an office can invoice from. Run "jobday help" for its commands.
package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"os/signal"
	"runtime/debug"
)

func main() {
	// A command compiles once and ends: collecting less often trades memory nobody else needs for time.
	if os.Getenv("GOGC") == "" {
		debug.SetGCPercent(400)
	}
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt)
	status := run(ctx, os.Args[1:], thisSystem())
	stop()
	os.Exit(status)
}

// run runs one command line and returns its exit status. It says on sys.err what went wrong.
func run(ctx context.Context, args []string, sys system) int {
	root := newRoot(&sys)
	root.SetArgs(args)
	err := root.ExecuteContext(ctx)
	status := exitStatus(err, sys.started)
	switch {
	case err == nil || errors.Is(err, errInput): // the findings said it
	case status == usageStatus:
		fmt.Fprintf(sys.err, "jobday: %v\nTry: %s --help\n", err, sys.asked)
	default:
		fmt.Fprintf(sys.err, "jobday: %v\n", err)
	}
	return status
}

// The exit statuses, as every help page states them.
const (
	fineStatus   = 0
	inputStatus  = 1
	usageStatus  = 2
	systemStatus = 3
)

// errInput is returned by a command whose findings have an error among them.
var errInput = errors.New("the input has errors")

// usageError is a mistake in how the command was called, with words for the person who did.
type usageError struct{ error }

func usagef(format string, args ...any) error { return usageError{fmt.Errorf(format, args...)} }

// exitStatus is the one place that decides the exit status. What goes wrong before a command has
// started is its usage: cobra found an unknown flag or command, or arguments that are too many.
func exitStatus(err error, started bool) int {
	var usage usageError
	switch {
	case err == nil:
		return fineStatus
	case errors.Is(err, errInput):
		return inputStatus
	case errors.As(err, &usage), !started:
		return usageStatus
	}
	return systemStatus
}

// writeAll writes what a command has made, in one go.
func writeAll(w io.Writer, b []byte) error {
	_, err := w.Write(b)
	return err
}
