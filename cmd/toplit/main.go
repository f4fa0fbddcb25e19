// Command toplit is the tool of a maker of small wood-gas can stoves. It is
// wiring only: one file for each command reads flags and files, calls the verb
// of package work that does the job, and writes what comes back. Exit codes
// are in exit.go and in every command's help.
//
// The commands are shown with their output in docs/commands.md.
package main

import (
	"context"
	"io"
	"os"
	"os/signal"
	"syscall"

	"github.com/alecthomas/kong"

	"toplit/quantity"
)

func main() {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	code := run(ctx, os.Args[1:], os.Stdin, os.Stdout, os.Stderr)
	stop()
	os.Exit(code)
}

// commands is the grammar of the command line.
type commands struct {
	Units string `enum:"metric,us" default:"metric" env:"TOPLIT_UNITS" help:"Units of what is shown: metric, or us for inches, ounces, cups and °F. JSON and CSV stay SI."`
	JSON  bool   `name:"json" help:"Write JSON with the unit in every name, for other programs."`

	Predict   predictCommand   `cmd:"" help:"What the burn of a design will do, with its band."`
	Check     checkCommand     `cmd:"" help:"What is unsafe, will not work or cannot be cut."`
	Size      sizeCommand      `cmd:"" help:"From your cans, drills, fuel and pot to holes, ring, stand and charge."`
	Cut       cutCommand       `cmd:"" help:"Every part at true size, to print, centre-punch through and drill."`
	Catalogue catalogueCommand `cmd:"" help:"Cans, drills, metals, fuels, starters, ground covers, and what the model is not sure of."`
	Demo      demoCommand      `cmd:"" help:"Write design files of invented stoves to copy."`
	Version   versionCommand   `cmd:"" help:"Which program, model and file form this is."`
}

const description = `For a maker of small wood-gas can stoves, lit from the top. Outdoors only: the fire makes carbon monoxide, most of all when it only glows.`

// app is what a command needs of the world.
type app struct {
	ctx    context.Context
	in     io.Reader
	out    io.Writer
	err    io.Writer
	json   bool
	units  quantity.System
	isTerm bool // err is a terminal: progress may be shown
}

// run is the program: it returns the exit code.
func run(ctx context.Context, args []string, in io.Reader, out, errOut io.Writer) int {
	if units, set := os.LookupEnv("TOPLIT_UNITS"); set && units == "" {
		os.Unsetenv("TOPLIT_UNITS") // empty is not set, as elsewhere
	}
	var c commands
	helped := false
	parser, err := kong.New(&c,
		kong.Name("toplit"),
		kong.Description(description),
		kong.Writers(out, errOut),
		kong.Exit(func(int) { helped = true }),
		kong.ConfigureHelp(kong.HelpOptions{NoExpandSubcommands: true, WrapUpperBound: 90}),
	)
	if err != nil {
		return report(errOut, err)
	}
	if len(args) == 0 {
		args = []string{"--help"}
	}
	parsed, err := parser.Parse(args)
	if helped {
		return done
	}
	if err != nil {
		return report(errOut, misused(err, args))
	}
	a := &app{ctx: ctx, in: in, out: out, err: errOut, json: c.JSON, isTerm: terminal(errOut)}
	if c.Units == "us" {
		a.units = quantity.US
	}
	if err := parsed.Run(a); err != nil {
		return report(errOut, err)
	}
	return done
}

// terminal says whether something is written for a person who watches.
func terminal(w io.Writer) bool {
	f, ok := w.(*os.File)
	if !ok || os.Getenv("TERM") == "dumb" {
		return false
	}
	info, err := f.Stat()
	return err == nil && info.Mode()&os.ModeCharDevice != 0
}
