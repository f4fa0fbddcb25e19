package main

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"

	"toplit/work"
)

// input opens a design file, or standard input for "-", and calls read with
// what error lines should call it.
func (a *app) input(path string, read func(r io.Reader, name string) error) error {
	if path == "-" {
		return read(a.in, "standard input")
	}
	if path == "" {
		return hint(refused, errors.New("the name of the file is empty"), "accepted: the path of a design file, or - for standard input")
	}
	f, err := os.Open(path)
	if err != nil {
		return noFile(path, err)
	}
	defer f.Close()
	if info, err := f.Stat(); err == nil && info.IsDir() {
		return noFile(path, errors.New("is a folder"))
	}
	return read(f, path)
}

// outputs are the files one command writes: all or none.
type outputs struct {
	work.Files
	toStdout func(io.Writer) error // of the one file that is "-"
}

// add announces a file when a name is given. kind is how it must end.
func (o *outputs) add(flag, path, kind, input string, write func(io.Writer) error) error {
	switch {
	case path == "":
		return nil
	case path == "-":
		if o.toStdout != nil {
			return hint(refused, fmt.Errorf("%s -: standard output is taken by another result", flag), "give all but one a file name")
		}
		o.toStdout = write
		return nil
	case kind != "" && misnamed(path, kind):
		next := "leave the ending out, or give the right one"
		if kind == "svg" {
			next = "a browser shows SVG and prints it as PDF"
		}
		return hint(refused, fmt.Errorf("%s %s: writes %s; accepted: a name that ends in .%s", flag, path, strings.ToUpper(kind), kind), "%s", next)
	}
	var inputs []string
	if input != "-" {
		inputs = []string{input}
	}
	if err := o.Open(path, write, inputs...); err != nil {
		return hint(refused, err, "nothing was written")
	}
	return nil
}

// misnamed: the name promises another form of picture or table.
func misnamed(path, kind string) bool {
	switch ext := strings.TrimPrefix(strings.ToLower(filepath.Ext(path)), "."); ext {
	case "png", "jpg", "jpeg", "pdf", "dxf", "svg", "csv", "xlsx", "ods", "json", "toml":
		return ext != kind
	}
	return false
}

// finish writes the files, then the words. Words go to standard error when a
// file has standard output.
func (a *app) finish(o *outputs, words func(io.Writer) error, json func(io.Writer) error) error {
	var b bytes.Buffer
	write := words
	if a.json {
		write = json
	}
	if err := write(&b); err != nil {
		return err
	}
	if a.json && o.toStdout != nil {
		return hint(refused, errors.New("--json and a file on standard output"), "give the file a name")
	}
	var straight bytes.Buffer
	if o.toStdout != nil {
		if err := o.toStdout(&straight); err != nil {
			return err
		}
	}
	if err := o.Commit(); err != nil {
		return err
	}
	if o.toStdout != nil {
		if _, err := a.out.Write(straight.Bytes()); err != nil {
			return err
		}
		_, err := a.err.Write(b.Bytes())
		return err
	}
	_, err := a.out.Write(b.Bytes())
	return err
}
