package work

import (
	"errors"
	"io"
	"os"
	"slices"
	"testing"
)

func writeText(text string) func(io.Writer) error {
	return func(w io.Writer) error {
		_, err := io.WriteString(w, text)
		return err
	}
}

func failing(w io.Writer) error {
	_, _ = io.WriteString(w, "half")
	return errors.New("no ink")
}

func names(t *testing.T, dir string, want ...string) {
	t.Helper()
	list, err := os.ReadDir(dir)
	if err != nil {
		t.Fatal(err)
	}
	var got []string
	for _, e := range list {
		got = append(got, e.Name())
	}
	if !slices.Equal(got, want) {
		t.Errorf("files %v, want %v", got, want)
	}
}

func contains(t *testing.T, path, want string) {
	t.Helper()
	got, err := os.ReadFile(path)
	if err != nil || string(got) != want {
		t.Errorf("%s holds %q, want %q (%v)", path, got, want, err)
	}
}
