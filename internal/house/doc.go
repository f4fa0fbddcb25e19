// Package house keeps the house in order: which rooms there are, on which
// floor each stands, and that every import points down. It holds no code of
// the program, only tests that read the sources: the imports (house_test.go),
// the pages (pages_test.go) and the words and sizes of files (files_test.go).
//
// ARCHITECTURE.md shows the same floors to a reader; a test compares the two.
package house
