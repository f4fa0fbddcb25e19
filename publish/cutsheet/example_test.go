package cutsheet_test

import (
	"errors"
	"fmt"

	"toplit/publish/cutsheet"
	"toplit/stove"
)

func can(rows ...stove.Row) stove.Design {
	return stove.Design{
		Name:     "single can (invented)",
		FuelCan:  stove.Can{Diameter: 99e-3, Height: 119e-3, Wall: 0.25e-3, Metal: stove.Tinplate, Surface: stove.Melted},
		Standoff: 12e-3,
		Rows:     append([]stove.Row{{Name: "primary", On: stove.FuelBase, Count: 19, Hole: stove.Hole{Width: 5e-3}}}, rows...),
	}
}

// Marks along a strip of paper, counted from the seam.
func ExampleMarks() {
	s, err := cutsheet.Plan(can(stove.Row{Name: "jets", On: stove.FuelBody, Count: 8, Hole: stove.Hole{Width: 6e-3}, Height: 105e-3}), cutsheet.Options{})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, p := range s.Parts {
		if p.Name != "fuel can body" {
			continue
		}
		marks, worst := cutsheet.Marks(p)
		fmt.Printf("strip of %.1f mm\n", p.Around)
		for _, m := range marks {
			fmt.Printf("%d  %5.1f mm  %s\n", m.Hole.Number, m.Seam, m.Inch)
		}
		fmt.Printf("inches at worst %.2f mm off\n", worst)
	}
	// Output:
	// strip of 311.3 mm
	// 1   19.5 mm  25/32 in
	// 2   58.4 mm  2 5/16 in
	// 3   97.3 mm  3 27/32 in
	// 4  136.2 mm  5 3/8 in
	// 5  175.1 mm  6 29/32 in
	// 6  214.0 mm  8 7/16 in
	// 7  253.0 mm  9 31/32 in
	// 8  291.9 mm  11 1/2 in
	// inches at worst 0.39 mm off
}

// What cannot be cut comes with what can.
func ExamplePlan_refused() {
	_, err := cutsheet.Plan(can(stove.Row{Name: "jets", On: stove.FuelBody, Count: 40, Hole: stove.Hole{Width: 6e-3}, Height: 113e-3}), cutsheet.Options{})
	var r *cutsheet.Refused
	if errors.As(err, &r) {
		for _, f := range r.Findings {
			fmt.Println(f)
		}
		for _, c := range r.Changes {
			fmt.Println("nearest:", c.Text)
		}
	}
	// Output:
	// row[2].count = 40: 40 holes of 6 mm round 311.02 mm leave only 1.78 mm of metal between them, less than 3 mm; accepted: up to 34 of this size
	// row[2].height = 113 mm: only 3 mm from the rim; accepted: 8 mm to 111 mm
	// nearest: jets row: 40 → 34 holes
	// nearest: jets row height: 113 mm → 111 mm
}
