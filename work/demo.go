package work

import (
	"bytes"
	"embed"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"

	"toplit/quantity"
)

//go:embed demo/*.toml
var demoFiles embed.FS

// DemoOptions says where the invented stoves go.
type DemoOptions struct {
	Dir string // made when it is not there
}

// Demonstration is what Demo left in a folder.
type Demonstration struct {
	Files []DemoFile
}

// DemoFile is one invented design.
type DemoFile struct {
	Path  string
	Name  string // of the stove, which says that it is invented
	State string // "written", "there already", or "kept" where it has been changed
}

// Demo writes design files of invented stoves into a folder. A file that is
// there and has been changed is kept.
func Demo(opts DemoOptions) (*Demonstration, error) {
	if err := os.MkdirAll(opts.Dir, 0o777); err != nil {
		return nil, unwrap(opts.Dir, err)
	}
	names, err := fs.Glob(demoFiles, "demo/*.toml")
	if err != nil {
		return nil, err
	}
	d := new(Demonstration)
	var files Files
	defer files.Discard()
	for _, n := range names {
		text, err := demoFiles.ReadFile(n)
		if err != nil {
			return nil, err
		}
		design, err := Open(bytes.NewReader(text), n)
		if err != nil {
			return nil, err
		}
		f := DemoFile{Path: filepath.Join(opts.Dir, filepath.Base(n)), Name: design.Title(), State: "written"}
		switch old, err := os.ReadFile(f.Path); {
		case err == nil && bytes.Equal(old, text):
			f.State = "there already"
		case err == nil:
			f.State = "kept"
		case !errors.Is(err, fs.ErrNotExist):
			return nil, unwrap(f.Path, err)
		default:
			if err := files.Open(f.Path, func(w io.Writer) error { _, err := w.Write(text); return err }); err != nil {
				return nil, err
			}
		}
		d.Files = append(d.Files, f)
	}
	return d, files.Commit()
}

// WriteJSON writes what was done.
func (d *Demonstration) WriteJSON(w io.Writer) error {
	l := list{}
	for _, f := range d.Files {
		l = append(l, object{{"path", f.Path}, {"stove", f.Name}, {"state", f.State}})
	}
	return writeJSON(w, object{{"format", JSONFormat}, {"files", l}, {"cautions", cautionList(standing())}})
}

// WriteText says what was done and what to try next.
func (d *Demonstration) WriteText(w io.Writer) error {
	t := &page{w: w}
	var rows [][]string
	for _, f := range d.Files {
		rows = append(rows, []string{f.State, f.Path, f.Name})
	}
	t.printf("Invented stoves: nobody has built or burned them.\n\n")
	t.table([]string{"", "", ""}, rows)
	if len(d.Files) > 0 {
		t.printf("\nNext:\n")
		for _, f := range d.Files {
			if filepath.Base(f.Path) == "tea-stove.toml" {
				t.printf("  toplit check %s\n  toplit predict %s\n", f.Path, f.Path)
			}
		}
		for _, f := range d.Files {
			if f.State == "kept" {
				t.para("", fmt.Sprintf("%s has been changed and is kept; delete it to have the invented one again.", f.Path))
			}
		}
	}
	t.cautions(standing(), quantity.Metric)
	return t.err
}
