package work

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
)

// Files are the files one verb writes: all of them or none. Open makes a
// temporary file beside each, so that a folder that cannot be written to is
// known before the work starts; Commit writes and moves them into place. A
// file under its own name is never half written. The zero value is ready.
type Files struct {
	all []*outFile
}

type outFile struct {
	path, temp string
	direct     bool // not a plain file (a terminal, a pipe): written straight
	write      func(io.Writer) error
}

// Open announces a file that will be written by write. inputs are files that
// were read: writing over one of them is refused.
func (f *Files) Open(path string, write func(io.Writer) error, inputs ...string) error {
	o := &outFile{path: path, write: write}
	if real, err := filepath.EvalSymlinks(path); err == nil {
		o.path = real // the file stays where the link says
	}
	mode := fs.FileMode(0o666)
	there, err := os.Stat(o.path)
	if err == nil {
		for _, in := range inputs {
			if from, err := os.Stat(in); err == nil && os.SameFile(from, there) {
				return fmt.Errorf("%s: is the file that is read; accepted: another name for what is written", path)
			}
		}
		switch {
		case there.IsDir():
			return fmt.Errorf("%s: is a folder; accepted: the name of a file", path)
		case !there.Mode().IsRegular():
			o.direct = true
			f.all = append(f.all, o)
			return nil
		}
		mode = there.Mode().Perm()
	} else if !errors.Is(err, fs.ErrNotExist) {
		return unwrap(path, err)
	}
	for _, other := range f.all {
		if same(other.path, o.path) {
			return fmt.Errorf("%s: two results for one file; accepted: a name for each", path)
		}
	}
	for n := 0; ; n++ {
		o.temp = fmt.Sprintf("%s.%d-%d.tmp", o.path, os.Getpid(), n)
		t, err := os.OpenFile(o.temp, os.O_WRONLY|os.O_CREATE|os.O_EXCL, mode)
		if errors.Is(err, fs.ErrExist) && n < 100 {
			continue
		}
		if err != nil {
			if dir := filepath.Dir(path); errors.Is(err, fs.ErrNotExist) {
				return fmt.Errorf("%s: there is no folder %s; accepted: a file in a folder that is there", path, dir)
			}
			return unwrap(path, err)
		}
		if err := t.Close(); err != nil {
			return unwrap(path, err)
		}
		break
	}
	f.all = append(f.all, o)
	return nil
}

// Commit writes every file and moves them into place. On an error no file that
// was not there before is left, and none is half written.
func (f *Files) Commit() error {
	defer f.Discard()
	for _, o := range f.all {
		if err := o.fill(); err != nil {
			return err
		}
	}
	for _, o := range f.all {
		if o.direct {
			continue
		}
		if err := os.Rename(o.temp, o.path); err != nil {
			return unwrap(o.path, err)
		}
		o.temp = ""
	}
	return nil
}

func (o *outFile) fill() error {
	name, flags := o.temp, os.O_WRONLY|os.O_TRUNC
	if o.direct {
		name, flags = o.path, os.O_WRONLY
	}
	t, err := os.OpenFile(name, flags, 0)
	if err != nil {
		return unwrap(o.path, err)
	}
	err = o.write(t)
	if err == nil && !o.direct {
		err = t.Sync()
	}
	if shut := t.Close(); err == nil {
		err = shut
	}
	return unwrap(o.path, err)
}

// Discard removes what was begun. It does nothing after Commit.
func (f *Files) Discard() {
	for _, o := range f.all {
		if o.temp != "" {
			os.Remove(o.temp)
		}
	}
	f.all = nil
}

// same: two names of one file, as far as can be told before it is there.
func same(a, b string) bool {
	x, err1 := filepath.Abs(a)
	y, err2 := filepath.Abs(b)
	return err1 == nil && err2 == nil && x == y
}

// unwrap says what went wrong with a file by the name the maker gave.
func unwrap(path string, err error) error {
	if err == nil {
		return nil
	}
	var p *fs.PathError
	if errors.As(err, &p) {
		err = p.Err
	}
	if strings.HasPrefix(err.Error(), path+":") {
		return err
	}
	return fmt.Errorf("%s: %w", path, err)
}
