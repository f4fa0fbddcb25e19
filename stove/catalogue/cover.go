package catalogue

import (
	"math"
	"slices"
	"strings"
	"sync"
)

// GroundCover is what a stove may stand on: a ground, a floor or a plate, as one
// uniform layer at 10 to 20 °C.
type GroundCover struct {
	Name         string
	Density      float64 // with its water [kg/m3]
	Conductivity float64 // [W/(m K)]
	Spread       float64 // conductivity known within × or ÷ this
	HeatCapacity float64 // with its water [J/(kg K)]
	Water        float64 // volume of water per volume [m3/m3]; it holds the layer near 100 °C until dried out
	Moisture     string  // "dry", "moist", "wet" or "frozen"
	Combustible  bool
	Limit        float64 // surface temperature at which its source saw it smoulder, ignite or soften, 0 where none is known [K]
	Note         string  // what that temperature means, and what else to heed
	Source       string
}

// VolumetricHeat is the heat capacity per volume [J/(m3 K)].
func (c GroundCover) VolumetricHeat() float64 { return c.Density * c.HeatCapacity }

// Diffusivity is k/(ρc) [m2/s].
func (c GroundCover) Diffusivity() float64 { return c.Conductivity / c.VolumetricHeat() }

// Effusivity is √(kρc) [J/(m2 K s½)]: the larger, the cooler the surface stays
// under the same heat.
func (c GroundCover) Effusivity() float64 { return math.Sqrt(c.Conductivity * c.VolumetricHeat()) }

type coverTable struct {
	list  []GroundCover
	byKey map[string]int
	names []string
}

var covers = sync.OnceValues(func() (*coverTable, error) {
	s, err := open("covers.csv")
	if err != nil {
		return nil, err
	}
	t := &coverTable{byKey: map[string]int{}}
	err = s.each(func(r *row) {
		c := GroundCover{
			Name:         r.text("name"),
			Density:      r.number("density_kg_m3"),
			Conductivity: r.number("conductivity_W_mK"),
			Spread:       r.number("conductivity_times_or_over"),
			Water:        r.number("water_m3_m3"),
			Moisture:     r.text("moisture"),
			Combustible:  r.text("combustible") == "yes",
			Note:         r.text("note"),
			Source:       r.text("source"),
		}
		if c.Density > 0 {
			c.HeatCapacity = r.number("heat_MJ_m3K") * 1e6 / c.Density
		}
		if t := r.text("limit_C"); t != "" {
			c.Limit = r.number("limit_C") + 273.15
		}
		for _, n := range append([]string{c.Name}, r.list("aliases")...) {
			t.byKey[coverKey(n)] = len(t.list)
			t.names = append(t.names, n)
		}
		t.list = append(t.list, c)
	})
	return t, err
})

func coverKey(name string) string {
	return strings.Join(strings.Fields(strings.ToLower(name)), " ")
}

// Covers lists the covers of the catalogue.
func Covers() []GroundCover {
	t, err := covers()
	if err != nil {
		return nil // compiled in and read by a test
	}
	return slices.Clone(t.list)
}

// Cover finds a cover by name or by a maker's word for it. A word that
// leaves the moisture open ("grass", "soil", "clay") means the dry one, which
// gets hotter and burns sooner.
func Cover(name string) (GroundCover, error) {
	t, err := covers()
	if err != nil {
		return GroundCover{}, err
	}
	if i, ok := t.byKey[coverKey(name)]; ok {
		return t.list[i], nil
	}
	return GroundCover{}, unknown("cover", name, t.names)
}
