package work

import (
	"fmt"
	"io"

	"toplit/firing"
	"toplit/sim"
)

// Version says which program, equations and file forms answered.
type Version struct {
	Program    string
	Model      string // names the equations
	DesignFile int    // form of the design file
	JSON       int    // form of the JSON
}

// VersionOf is the version of a program built on this package.
func VersionOf(program string) Version {
	return Version{Program: program, Model: sim.ModelVersion, DesignFile: firing.Format, JSON: JSONFormat}
}

// WriteJSON writes the version.
func (v Version) WriteJSON(w io.Writer) error {
	return writeJSON(w, object{{"format", JSONFormat}, {"program", v.Program}, {"model", v.Model}, {"design_file", v.DesignFile}, {"json", v.JSON}})
}

// WriteText writes the version for people.
func (v Version) WriteText(w io.Writer) error {
	_, err := fmt.Fprintf(w, "toplit %s, model %s, design file form %d\n", v.Program, v.Model, v.DesignFile)
	return err
}
