package main

import (
	"io"
	"runtime/debug"

	"toplit/work"
)

// version is set when a release is built.
var version = ""

type versionCommand struct{}

func (versionCommand) Help() string {
	return `The model's version names the equations: predictions of one model can be compared.` + exitCodes
}

func (versionCommand) Run(a *app) error {
	v := work.VersionOf(program())
	return a.finish(new(outputs), func(w io.Writer) error { return v.WriteText(w) }, v.WriteJSON)
}

// program is the release, or where this build came from.
func program() string {
	if version != "" {
		return version
	}
	name := "unversioned"
	if info, ok := debug.ReadBuildInfo(); ok {
		for _, s := range info.Settings {
			switch {
			case s.Key == "vcs.revision" && len(s.Value) >= 7:
				name = s.Value[:7]
			case s.Key == "vcs.modified" && s.Value == "true":
				name += "-changed"
			}
		}
	}
	return name
}
