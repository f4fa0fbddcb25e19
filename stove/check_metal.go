package stove

// What a metal must not be asked to do. Zinc: AWS Safety and Health Fact
// Sheet 25 (2002) on zinc oxide fume. Aluminium in the fire buckles and
// melts: common practice, no source. Coatings: common practice, no source.
const (
	zincReason  = "heated zinc gives off zinc oxide fume, which brings metal fume fever hours later"
	lightReason = "aluminium sags and melts in the fire (pure metal at 660 °C, alloys below)"
	hotMetals   = "tinplate, steel or stainless"
)

func (c *checker) metals() {
	d := c.d
	c.metal("fuel_can", d.FuelCan.Metal, true)
	c.surface("fuel_can", d.FuelCan)
	if d.OuterCan != nil {
		c.metal("outer_can", d.OuterCan.Metal, false)
		c.surface("outer_can", *d.OuterCan)
	}
	if d.Ring != nil {
		c.metal("ring", d.Ring.Metal, true)
	}
	if d.Riser != nil {
		c.metal("riser", d.Riser.Metal, true)
	}
	if d.Stand != nil {
		c.metal("stand", d.Stand.Metal, true)
	}
}

func (c *checker) metal(key string, m Metal, hot bool) {
	key += ".metal"
	switch m {
	case Galvanised:
		c.add(Error, key, string(m), zincReason, hotMetals)
	case Aluminium:
		if hot {
			c.add(Error, key, string(m), lightReason, hotMetals)
		} else {
			c.add(Warning, key, string(m), lightReason+"; an outer can gets hot enough where char falls out or flame leaks", hotMetals)
		}
	case "":
		c.add(Note, key, "", "not given: zinc-coated sheet and aluminium must not be used", hotMetals)
	case Copper, Titanium:
		c.add(Error, key, string(m), "known here for pots only", hotMetals)
	default:
		if _, ok := m.Data(); !ok {
			c.add(Error, key, string(m), "unknown metal", hotMetals)
		}
	}
}

func (c *checker) surface(key string, k Can) {
	switch k.Surface {
	case Painted:
		c.add(Warning, key+".surface", string(k.Surface), "paint and lining burn off with harmful smoke: make the first fire outdoors, upwind, with no food on it", "")
	case Bright:
		if k.Metal == Tinplate {
			c.add(Note, key+".surface", string(k.Surface), "a can never fired may carry a clear lining: make the first fire outdoors, upwind, with no food on it", "")
		}
	case Melted, Oxidised, "":
	default:
		c.add(Error, key+".surface", string(k.Surface), "unknown state of the surface", "bright, melted, oxidised or painted")
	}
}
