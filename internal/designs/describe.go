package designs

import (
	"fmt"
	"strings"

	"toplit/firing"
	"toplit/stove"
)

// Describe is a firing in one line for a table: what is needed to see which
// kind of stove it is.
func Describe(f *firing.Firing) string {
	d, c := &f.Design, &f.Conditions
	var b strings.Builder
	p := func(format string, a ...any) { fmt.Fprintf(&b, format, a...) }
	p("%.0f×%.0f", d.FuelCan.Diameter*1e3, d.FuelCan.Height*1e3)
	if d.OuterCan != nil {
		p(" in %.0f", d.OuterCan.Diameter*1e3)
		if d.OuterCan.OpenBase {
			p(" open")
		}
	}
	if d.FuelCan.OpenBase {
		p(", grate")
	}
	if d.Fan.Primary > 0 {
		p(", fan %.2g g/s", d.Fan.Primary*1e3)
	}
	if d.Fan.Secondary > 0 {
		p(", fan 2 %.2g g/s", d.Fan.Secondary*1e3)
	}
	for _, r := range d.Rows {
		short := map[stove.Place]string{stove.FuelBase: "base", stove.FuelBody: "body", stove.OuterBody: "outer", stove.OuterBase: "outer base", stove.StandWall: "stand wall", stove.RiserWall: "riser wall"}[r.On]
		p(", %s %d×%.1f", short, r.Count, r.Hole.Width*1e3)
		if !r.OnBase() {
			p("@%.0f", r.Height*1e3)
		}
	}
	if d.Ring != nil {
		p(", ring %.0f", d.Ring.Bore*1e3)
		if d.Ring.Slits > 0 {
			p(" slit")
		}
	}
	if d.Riser != nil {
		p(", riser %.0f×%.0f", d.Riser.Bore*1e3, d.Riser.Height*1e3)
	}
	if d.Stand != nil {
		kind := "open"
		if d.Stand.Closed {
			kind = "closed"
		}
		p(", %s stand %.0f gap %.0f", kind, d.Stand.Height*1e3, d.Stand.Gap*1e3)
	}
	l := f.Load()
	p("; %s %.0f %% %.0f g %.0f mm deep; %s %.1f g", c.Fuel.Species, c.Fuel.Moisture*100, l.Mass*1e3, l.Depth*1e3, c.Starter.Kind, c.Starter.Mass*1e3)
	if c.Pot != nil {
		p("; pot %.0f, water %.0f g", c.Pot.Diameter*1e3, c.Water.Mass*1e3)
	}
	p("; %.0f hPa %.0f °C wind %.1f %s", c.Air.Pressure/100, c.Air.Temperature-273.15, c.Air.Wind, c.Air.Shelter)
	if len(c.Schedule) > 0 {
		p(";")
		for _, a := range c.Schedule {
			p(" %s %s,", a.Do, firing.FormatWhen(a))
		}
	}
	return strings.TrimSuffix(b.String(), ",")
}
