package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"strings"

	"github.com/alecthomas/kong"

	"toplit/firing"
	"toplit/sim"
)

// The exit codes.
const (
	done    = 0
	failed  = 1 // could not be finished: a disk, an interruption, a fault of this program
	refused = 2 // the command line or the design is not accepted
	unmet   = 3 // done, but the cans do not meet the wish
)

// exitCodes ends the help of every command.
const exitCodes = `

Exit codes: 0 done; 1 could not be finished (a disk, an interruption); 2 not accepted (the command line, a file that cannot be read, a design that is refused).`

// hinted is an error with what to do next and the exit code it means.
type hinted struct {
	error
	hint string
	code int
}

func (h *hinted) Unwrap() error { return h.error }

// hint adds what to do next.
func hint(code int, err error, format string, a ...any) error {
	return &hinted{err, fmt.Sprintf(format, a...), code}
}

// silent is an error whose text has been shown already.
type silent struct{ code int }

func (s silent) Error() string { return "refused" }

// report writes an error and returns its exit code.
func report(w io.Writer, err error) int {
	var s silent
	if errors.As(err, &s) {
		return s.code
	}
	if errors.Is(err, context.Canceled) {
		fmt.Fprintln(w, "stopped; no file was written")
		return failed
	}
	code, next := failed, ""
	var h *hinted
	if errors.As(err, &h) {
		code, next = h.code, h.hint
	}
	var problems firing.Problems
	if errors.As(err, &problems) || errors.Is(err, sim.ErrDesign) {
		code = refused
	}
	fmt.Fprintln(w, err)
	if next != "" {
		fmt.Fprintln(w, "hint: "+next)
	}
	return code
}

// misused is an error of the command line, with the help to ask for.
func misused(err error, args []string) error {
	ask := "toplit --help"
	var p *kong.ParseError
	if errors.As(err, &p) && p.Context != nil && p.Context.Command() != "" {
		if first, _, _ := strings.Cut(p.Context.Command(), " "); len(args) > 0 {
			ask = "toplit " + first + " --help"
		}
	}
	return hint(refused, err, "%s", ask)
}

// noFile says what is wrong with a file that cannot be opened.
func noFile(path string, err error) error {
	if errors.Is(err, fs.ErrNotExist) {
		return hint(refused, fmt.Errorf("%s: no such file; accepted: the path of a design file, or - for standard input", path), "toplit demo mine writes design files to copy")
	}
	var p *fs.PathError
	if errors.As(err, &p) {
		err = p.Err
	}
	return hint(refused, fmt.Errorf("%s: %w", path, err), "accepted: the path of a design file, or - for standard input")
}

// misusedFlag is an error of one flag of a command.
func misusedFlag(command, format string, a ...any) error {
	return hint(refused, fmt.Errorf(format, a...), "toplit %s --help", command)
}

// about adds a hint to what is wrong with a design.
func about(err error, file string) error {
	var problems firing.Problems
	if !errors.As(err, &problems) {
		return err
	}
	if file == "-" {
		return hint(refused, err, "toplit check - lists what was found and what was assumed")
	}
	return hint(refused, err, "toplit check %s lists what was found and what was assumed", file)
}
