package stove

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// sound is a design Check has nothing against.
func sound() Design {
	return Design{
		FuelCan:  Can{Diameter: 0.099, Height: 0.119, Wall: 0.2e-3, Metal: Tinplate, Surface: Melted},
		OuterCan: &Can{Diameter: 0.118, Height: 0.140, Wall: 0.2e-3, Metal: Tinplate, Surface: Melted},
		Standoff: 0.020,
		Rows: []Row{
			{Name: "base", On: FuelBase, Count: 16, Hole: Hole{Shape: Round, Width: 4e-3}},
			{Name: "secondary", On: FuelBody, Count: 16, Hole: Hole{Shape: Round, Width: 5e-3}, Height: 0.105},
			{Name: "inlet", On: OuterBody, Count: 14, Hole: Hole{Shape: Round, Width: 8e-3}, Height: 0.012},
		},
		Ring:  &Ring{Bore: 0.070, Wall: 0.2e-3, Metal: Tinplate},
		Stand: &Stand{Diameter: 0.100, Height: 0.040, Closed: true, Wall: 0.2e-3, Metal: Tinplate, Gap: 0.010},
	}
}

func TestCheckSound(t *testing.T) {
	for _, f := range Check(sound()) {
		if f.Severity != Note {
			t.Errorf("%s: %s", f.Severity, f)
		}
	}
}

func TestCheckFinds(t *testing.T) {
	inf := math.Inf(1)
	for name, c := range map[string]struct {
		break_   func(*Design)
		severity Severity
		want     string
	}{
		"no length":         {func(d *Design) { d.FuelCan.Height = math.NaN() }, Error, "fuel_can.height = NaN mm: not a length"},
		"endless":           {func(d *Design) { d.Standoff = inf }, Error, "standoff = +Inf mm: not a length"},
		"all wall":          {func(d *Design) { d.FuelCan.Wall = 0.06 }, Error, "leaves no bore"},
		"mouth":             {func(d *Design) { d.FuelCan.Mouth = 0.2 }, Error, "wider than the can"},
		"tight":             {func(d *Design) { d.OuterCan.Diameter = 0.099 }, Error, "does not fit in the outer can"},
		"narrow annulus":    {func(d *Design) { d.OuterCan.Diameter = 0.103 }, Warning, "throttles the secondary air"},
		"wide annulus":      {func(d *Design) { d.OuterCan.Diameter = 0.150 }, Note, "without being warmed"},
		"lever lid ring":    {func(d *Design) { d.OuterCan.Mouth = 0.095 }, Error, "does not pass the outer can's opening"},
		"sunk":              {func(d *Design) { d.OuterCan.Height = 0.24 }, Warning, "below the outer can's rim"},
		"slot":              {func(d *Design) { d.Annulus = 0.02 }, Error, "wider than the space between the cans"},
		"slot to nothing":   {func(d *Design) { d.OuterCan, d.Annulus = nil, 0.005; d.Rows = d.Rows[:2] }, Error, "no outer can"},
		"flat":              {func(d *Design) { d.Standoff = 0 }, Error, "closes the holes in its base"},
		"low curtain":       {func(d *Design) { d.Standoff = 0.5e-3 }, Warning, "less than the 201 mm² of holes"},
		"low":               {func(d *Design) { d.Standoff = 2e-3 }, Warning, "clogs"},
		"holes in nothing":  {func(d *Design) { d.FuelCan.OpenBase = true }, Error, "the base is cut out but 16 holes"},
		"no primary":        {func(d *Design) { d.Rows = d.Rows[1:] }, Error, "no path for primary air"},
		"closed outer":      {func(d *Design) { d.Rows = d.Rows[:2] }, Error, "no air reaches the holes"},
		"starved outer":     {func(d *Design) { d.Rows[2].Count = 2 }, Warning, "throttle the fire"},
		"decimal":           {func(d *Design) { d.Rows[1].Hole.Width = 0.5e-3 }, Warning, "slipped decimal"},
		"ring too wide":     {func(d *Design) { d.Ring.Bore = 0.2 }, Error, "wider than the can"},
		"idle ring":         {func(d *Design) { d.Ring.Bore = 0.100 }, Warning, "narrows nothing"},
		"tiny ring":         {func(d *Design) { d.Ring.Bore = 0.010 }, Warning, "put the flame out"},
		"slit":              {func(d *Design) { d.Ring.Slits, d.Ring.Slit = 8, 0.03 }, Error, "run into the ring's edge"},
		"shut stand":        {func(d *Design) { d.Stand.Gap = 0 }, Error, "no way out for the gas"},
		"tight stand":       {func(d *Design) { d.Stand.Gap = 1e-3 }, Warning, "the slot under the pot opens"},
		"no legs":           {func(d *Design) { d.Stand.Closed, d.Stand.Height = false, 1e-3 }, Error, "no way out for the gas"},
		"no sheet":          {func(d *Design) { d.Rows[2].On = RiserWall }, Error, "no such sheet"},
		"zinc":              {func(d *Design) { d.OuterCan.Metal = Galvanised }, Error, "metal fume fever"},
		"aluminium":         {func(d *Design) { d.Ring.Metal = Aluminium }, Error, "sags and melts"},
		"aluminium outside": {func(d *Design) { d.OuterCan.Metal = Aluminium }, Warning, "sags and melts"},
		"copper":            {func(d *Design) { d.FuelCan.Metal = Copper }, Error, "pots only"},
		"unheard":           {func(d *Design) { d.FuelCan.Metal = "tin foil" }, Error, "unknown metal"},
		"paint":             {func(d *Design) { d.OuterCan.Surface = Painted }, Warning, "outdoors"},
		"lining":            {func(d *Design) { d.FuelCan.Surface = Bright }, Note, "lining"},
		"state":             {func(d *Design) { d.FuelCan.Surface = "shiny" }, Error, "unknown state"},
		"overlap":           {func(d *Design) { d.Rows[1].Count = 70 }, Error, "they overlap; accepted: up to 38"},
		"thin":              {func(d *Design) { d.Rows[1].Count = 45 }, Warning, "only 1.91 mm of metal"},
		"seam":              {func(d *Design) { d.Rows[1].Count = 24 }, Note, "side seam"},
		"over the rim":      {func(d *Design) { d.Rows[1].Height = 0.125 }, Error, "beyond the top of a wall"},
		"in the rim":        {func(d *Design) { d.Rows[1].Height = 0.115 }, Warning, "only 1.5 mm from the rim"},
		"in the base":       {func(d *Design) { d.Rows[2].Height = 3e-3 }, Error, "runs into the base"},
		"near the base":     {func(d *Design) { d.Rows[2].Height = 6e-3 }, Warning, "only 2 mm from the base"},
		"huge hole":         {func(d *Design) { d.Rows[1].Hole.Width = 0.07 }, Error, "too wide"},
		"full base":         {func(d *Design) { d.Rows[0].Count = 900 }, Error, "do not fit in the base"},
		"crowded base":      {func(d *Design) { d.Rows[0].Count = 150 }, Warning, "leave less metal"},
		"circle over edge":  {func(d *Design) { d.Rows[0].Circle = 0.097 }, Error, "edge of a base"},
		"circle near edge":  {func(d *Design) { d.Rows[0].Circle = 0.088 }, Warning, "from the edge of the base"},
		"circle overlap":    {func(d *Design) { d.Rows[0].Circle, d.Rows[0].Count = 0.02, 40 }, Error, "do not fit on a circle"},
		"circle thin":       {func(d *Design) { d.Rows[0].Circle, d.Rows[0].Count = 0.04, 20 }, Warning, "metal is left between"},
		"negative count":    {func(d *Design) { d.Rows[0].Count = -1 }, Error, "not a number of holes"},
		"two rows one place": {func(d *Design) {
			d.Rows = append(d.Rows, Row{On: FuelBody, Count: 30, Hole: Hole{Shape: Round, Width: 6e-3}, Height: 0.104})
		}, Error, "overlaps row 2"},
		"staggered": {func(d *Design) {
			d.Rows = append(d.Rows, Row{On: FuelBody, Count: 8, Hole: Hole{Shape: Round, Width: 3e-3}, Height: 0.104})
		}, Note, "between the other's"},
		"two circles": {func(d *Design) {
			d.Rows[0].Circle = 0.05
			d.Rows = append(d.Rows, Row{On: FuelBase, Count: 16, Hole: Hole{Shape: Round, Width: 4e-3}, Circle: 0.052})
		}, Error, "on one circle"},
		"field and circle": {func(d *Design) {
			d.Rows = append(d.Rows, Row{On: FuelBase, Count: 6, Hole: Hole{Shape: Round, Width: 4e-3}, Circle: 0.052})
		}, Note, "filled field"},
		"fan":      {func(d *Design) { d.Fan.Primary = -1 }, Error, "not an air flow"},
		"no skirt": {func(d *Design) { d.Skirt = &Skirt{Gap: 0.006} }, Error, "skirt.height = 0 mm: not a length"},
		"no plate": {func(d *Design) { d.Plate = &Plate{Material: "tile"} }, Error, "plate.thickness = 0 mm"},
	} {
		t.Run(name, func(t *testing.T) {
			d := sound()
			c.break_(&d)
			var all []string
			for _, f := range Check(d) {
				if strings.Contains(f.String(), c.want) && f.Severity == c.severity {
					return
				}
				all = append(all, string(f.Severity)+": "+f.String())
			}
			t.Errorf("no %s with %q among:\n%s", c.severity, c.want, strings.Join(all, "\n"))
		})
	}
}

// A reactor given by bore and depth with a fan flow needs no holes.
func TestCheckFan(t *testing.T) {
	d := Design{FuelCan: Can{Diameter: 0.102, Height: 0.131, Wall: 1e-3, Metal: Stainless, Surface: Oxidised}, Fan: Fan{Primary: 1e-4}}
	if found := Check(d); len(found) != 0 {
		t.Errorf("%v", found)
	}
}

func anyDesign(t *rapid.T) Design {
	length := rapid.Float64Range(-0.02, 0.3)
	can := func() Can {
		return Can{
			Diameter: length.Draw(t, "diameter"), Height: length.Draw(t, "height"), Wall: rapid.Float64Range(-1e-3, 2e-3).Draw(t, "wall"),
			Metal: rapid.SampledFrom([]Metal{Tinplate, Galvanised, ""}).Draw(t, "metal"), OpenBase: rapid.Bool().Draw(t, "open"), Mouth: length.Draw(t, "mouth"),
		}
	}
	d := Design{FuelCan: can(), Standoff: length.Draw(t, "standoff"), Annulus: length.Draw(t, "annulus")}
	if rapid.Bool().Draw(t, "outer") {
		c := can()
		d.OuterCan = &c
	}
	for range rapid.IntRange(0, 5).Draw(t, "rows") {
		d.Rows = append(d.Rows, Row{
			On: rapid.SampledFrom(Places()).Draw(t, "on"), Count: rapid.IntRange(-1, 300).Draw(t, "count"),
			Hole:   Hole{rapid.SampledFrom([]Shape{Round, Slot, Rectangle, Triangle, ""}).Draw(t, "shape"), length.Draw(t, "width"), length.Draw(t, "tall")},
			Height: length.Draw(t, "at"), Circle: length.Draw(t, "circle"),
		})
	}
	if rapid.Bool().Draw(t, "ring") {
		d.Ring = &Ring{Bore: length.Draw(t, "bore"), Wall: 0.2e-3, Slits: rapid.IntRange(-1, 9).Draw(t, "slits"), Slit: length.Draw(t, "slit")}
	}
	if rapid.Bool().Draw(t, "riser") {
		d.Riser = &Riser{Bore: length.Draw(t, "riser bore"), Height: length.Draw(t, "riser height"), Wall: 0.2e-3}
	}
	if rapid.Bool().Draw(t, "stand") {
		d.Stand = &Stand{Diameter: length.Draw(t, "stand diameter"), Height: length.Draw(t, "stand height"), Gap: length.Draw(t, "stand gap"), Wall: 0.2e-3, Closed: rapid.Bool().Draw(t, "closed")}
	}
	return d
}

// Whatever is drawn, the checks answer, every error says what would be
// accepted, and no design differs from itself.
func TestAnyDesign(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := anyDesign(t)
		for _, f := range Check(d) {
			if f.Key == "" || f.Text == "" {
				t.Fatalf("finding without key or text: %+v", f)
			}
			if f.Severity == Error && f.Accept == "" {
				t.Fatalf("error that does not say what is accepted: %s", f)
			}
		}
		if diff := Difference(d, d); len(diff) != 0 {
			t.Fatalf("differs from itself: %v", diff)
		}
	})
}

// What the checks call the most that fits does fit, and one more does not.
func TestMostFits(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := rapid.Float64Range(0.05, 0.2).Draw(t, "bore")
		hole := rapid.Float64Range(2e-3, 8e-3).Draw(t, "hole")
		n := field(d, hole, 3e-3)
		// never denser than the triangular lattice over the whole disc allows
		if most := math.Pi / (2 * math.Sqrt(3)) * (d + 3e-3) * (d + 3e-3) / ((hole + 3e-3) * (hole + 3e-3)); float64(n) > most {
			t.Fatalf("%d holes of %g in %g: denser than %g", n, hole, d, most)
		}
		if field(d, hole*1.05, 3e-3) > n {
			t.Fatal("more of the bigger holes fit")
		}
	})
}
