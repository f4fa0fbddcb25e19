package stove

import (
	"fmt"
	"strings"
	"testing"
)

func TestDifference(t *testing.T) {
	for name, c := range map[string]struct {
		change func(*Design)
		want   string // one text per line
		count  int
	}{
		"count":     {func(d *Design) { d.Rows[1].Count = 24 }, "secondary row: 16 → 24 holes", 1},
		"hole":      {func(d *Design) { d.Rows[0].Hole.Width = 4.5e-3 }, "base row hole: 4 mm → 4.5 mm", 1},
		"fine hole": {func(d *Design) { d.Rows[0].Hole.Width = 4.001e-3 }, "base row hole: 4 mm → 4.001 mm", 1},
		"slot":      {func(d *Design) { d.Rows[0].Hole = Hole{Slot, 9e-3, 3e-3} }, "base row hole: 4 mm → 9 x 3 mm slot", 1},
		"height":    {func(d *Design) { d.Rows[1].Height = 0.1 }, "secondary row height: 105 mm → 100 mm", 1},
		"ring off":  {func(d *Design) { d.Ring = nil }, "ring taken away", 1},
		"riser":     {func(d *Design) { d.Riser = &Riser{Bore: 0.08, Height: 0.1} }, "riser added, 100 mm high", 1},
		"skirt":     {func(d *Design) { d.Skirt = &Skirt{Gap: 6e-3} }, "skirt round the pot added, gap 6 mm", 1},
		"shield":    {func(d *Design) { d.Shields = []Shield{{Gap: 0.01}} }, "shield added", 1},
		"plate":     {func(d *Design) { d.Plate = &Plate{Material: "tile"} }, "plate under the stove added, tile", 1},
		"new row": {func(d *Design) {
			d.Rows = append(d.Rows, Row{Name: "top up", On: FuelBody, Count: 6, Hole: Hole{Width: 3e-3}, Height: 0.09})
		}, "top up row added, 6 holes of 3 mm on the fuel can body", 1},
		"row gone":     {func(d *Design) { d.Rows = d.Rows[:2] }, "inlet row taken away", 1},
		"renamed":      {func(d *Design) { d.Rows[1].Name = "jets" }, "", 0},
		"reordered":    {func(d *Design) { d.Rows[0], d.Rows[2] = d.Rows[2], d.Rows[0] }, "", 0},
		"other can":    {func(d *Design) { d.FuelCan.Diameter, d.FuelCan.Height = 0.105, 0.178 }, "fuel can: 99 × 119 mm → 105 × 178 mm", 1},
		"taller can":   {func(d *Design) { d.FuelCan.Height = 0.15 }, "fuel can height: 119 mm → 150 mm", 1},
		"single wall":  {func(d *Design) { d.OuterCan = nil }, "outer can taken away", 1},
		"aged":         {func(d *Design) { d.FuelCan.Surface = Oxidised }, "fuel can surface: melted → oxidised", 0},
		"stand":        {func(d *Design) { d.Stand.Gap = 0.015 }, "gap under the pot: 10 mm → 15 mm", 1},
		"open":         {func(d *Design) { d.Stand.Closed = false }, "pot stand with a closed wall: yes → no", 1},
		"fan":          {func(d *Design) { d.Fan.Primary = 2e-4 }, "primary air from the fan: 0 g/s → 0.2 g/s", 1},
		"slant":        {func(d *Design) { d.Rows[1].Slant = 0.5235987755982988 }, "secondary row slant: 0° → 30°", 1},
		"edge":         {func(d *Design) { d.Rows[1].Edge = PunchedIn }, "secondary row edge: none → punched in", 1},
		"two together": {func(d *Design) { d.Ring.Bore, d.Rows[1].Count = 0.066, 20 }, "secondary row: 16 → 20 holes\nring bore: 70 mm → 66 mm", 2},
		"tongues":      {func(d *Design) { d.Ring.Slits = 8 }, "slits in the ring: 0 → 8", 1},
	} {
		t.Run(name, func(t *testing.T) {
			a, b := sound(), sound()
			c.change(&b)
			var got []string
			changes := Difference(a, b)
			for _, x := range changes {
				got = append(got, x.Text)
			}
			if text := strings.Join(got, "\n"); text != c.want {
				t.Errorf("got:\n%s\nwant:\n%s", text, c.want)
			}
			if n := Changed(changes); n != c.count {
				t.Errorf("%d changes, want %d", n, c.count)
			}
		})
	}
}

func TestDifferenceByCode(t *testing.T) {
	a, b := sound(), sound()
	a.FuelCan.Code, b.FuelCan.Code, b.FuelCan.Height = "401x411", "401x700", 0.178
	for _, c := range Difference(a, b) {
		fmt.Println(c.Text)
	}
	if n := len(Difference(a, b)); n != 1 {
		t.Errorf("%d changes for one can swapped", n)
	}
}

func ExampleDifference() {
	a := Design{Rows: []Row{{Name: "secondary", On: FuelBody, Count: 16, Hole: Hole{Width: 5e-3}, Height: 0.1}}}
	b := a
	b.Rows = []Row{{Name: "secondary", On: FuelBody, Count: 24, Hole: Hole{Width: 5e-3}, Height: 0.1}}
	b.Ring = &Ring{Bore: 66e-3}
	for _, c := range Difference(a, b) {
		fmt.Println(c.Text)
	}
	// Output:
	// secondary row: 16 → 24 holes
	// ring added, bore 66 mm
}
