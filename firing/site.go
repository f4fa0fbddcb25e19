package firing

import (
	"math"
	"strconv"

	"toplit/physics/air"
	"toplit/physics/water"
	"toplit/quantity"
	"toplit/stove"
	"toplit/stove/catalogue"
)

// What lower rooms know and the file needs: pressure by altitude, densities
// for amounts given by volume, cans, covers.

func waterDensity(T float64) float64 { return water.Density(T) }

func standardPressure(altitude float64) float64 {
	return air.StandardPressure(air.Geopotential(altitude))
}

func airDensity(a Air) float64 {
	return air.State{T: a.Temperature, P: a.Pressure, RH: a.Humidity}.Density()
}

// fine rounds a length to a hundredth of a millimetre: the table of cans is
// good to 0.2 mm, a strip of paper to 0.16 mm.
func fine(v float64) float64 { return math.Round(v*1e5) / 1e5 }

// tradeKey takes a can's sizes from the catalogue. What the file says beside
// it (a strip round the body) overrides them.
func tradeKey(can func(f *Firing) *stove.Can) Key {
	k := word(func(f *Firing, _ int) *string { return &can(f).Code })
	k.Takes, k.Range = "trade code or name", `a code such as "404x700", a name such as "No. 10" or "paint quart", or "73 x 110 mm" (inside diameter by height)`
	k.read = func(f *Firing, _ int, v any) error {
		s, ok := v.(string)
		if !ok {
			return wrong(k.Range, "not text in quotes")
		}
		size, err := catalogue.Can(s)
		if err != nil {
			return wrong(k.Range, "%s", err)
		}
		c := can(f)
		c.Code, c.Diameter, c.Height, c.Wall, c.Mouth = size.Code, fine(size.BodyOutside), fine(size.HeightOverall), size.Wall, fine(size.Mouth)
		return nil
	}
	write := k.write
	k.write = func(f *Firing, i int, sys quantity.System) string {
		if can(f).Code == "" {
			return ""
		}
		return write(f, i, sys)
	}
	return k
}

// coverKey takes a ground cover of the catalogue, by its name or a maker's
// word for it.
func coverKey(at func(f *Firing, i int) *string) Key {
	names := ""
	for i, c := range catalogue.Covers() {
		if i > 0 {
			names += ", "
		}
		names += strconv.Quote(c.Name)
	}
	k := word(at)
	k.Takes, k.Range = "ground cover", names
	k.read = func(f *Firing, i int, v any) error {
		s, ok := v.(string)
		if !ok {
			return wrong(names, "not a word in quotes")
		}
		c, err := catalogue.Cover(s)
		if err != nil {
			return wrong(names, "not in the catalogue of covers")
		}
		*at(f, i) = c.Name
		return nil
	}
	return k
}

// coverOrNoneKey is a cover that need not be there.
func coverOrNoneKey(at func(f *Firing, i int) *string) Key {
	k := coverKey(at)
	write := k.write
	k.write = func(f *Firing, i int, sys quantity.System) string {
		if *at(f, i) == "" {
			return ""
		}
		return write(f, i, sys)
	}
	return k
}
