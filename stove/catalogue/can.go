package catalogue

import (
	"fmt"
	"math"
	"slices"
	"sort"
	"strings"
	"sync"

	"toplit/quantity"
)

// CanSize is a size of round metal can, nominal. All lengths in metres.
type CanSize struct {
	Name          string  // trade name: "No. 2 1/2", "Paint quart"; for a can known by code only, the code
	Code          string  // trade code: "401x411"; where a can has none of its own, what Can finds it by: "Paint quart", "73x110 mm"
	Family        string  // "food", "paint", or "" for a can that is in no table
	OverSeam      float64 // diameter over the double seam, what the code says [m]
	BodyInside    float64 // inside diameter of the body [m]
	BodyInsideOff float64 // half width of what is known of BodyInside [m]
	BodyOutside   float64 // outside diameter of the body: what a strip of paper measures [m]
	HeightOverall float64 // over both ends, what the code says [m]
	HeightInside  float64 // between the ends, both on [m]
	Mouth         float64 // diameter of the open top of a lever-lid can, 0 for the full bore [m]
	Wall          float64 // typical sheet thickness of the body [m]
	Capacity      float64 // published, 0 when none is [m3]
	Nominal       bool    // Capacity is what is filled in, not what goes in to the brim
	Source        string
}

// Volume is the volume between the ends from the inside sizes [m3]: plain
// cylinder, no beads. It is within 1.2 % of the published total capacities of 24
// food cans (within 0.4 % of 22 of them), and 2 to 6 % above what is filled into
// paint cans.
func (c CanSize) Volume() float64 {
	return math.Pi / 4 * c.BodyInside * c.BodyInside * c.HeightInside
}

// The rules that join the code to the body. Both are means over published
// tables; docs/model/cans-and-drills.md shows the scatter.
const (
	// seamLess is how much the body's inside diameter is below the diameter over
	// the seam: 3.4 mm over nine sizes from 211 to 603, 2.6 to 4.0. [m]
	seamLess    = 0.0034
	seamLessOff = 0.0007

	// tableOff is what the last digit of the ounces per sixteenth leaves open of
	// an inside diameter that is in the table. [m]
	tableOff = 0.0002

	// endsLess is how much the height inside is below the overall height with
	// both ends on: 9.5 mm over 24 sizes, 8.7 to 9.9. [m]
	endsLess = 0.0095

	// leverRing is how much narrower the mouth of a lever-lid can is than its
	// body: 16 to 20 mm [memory]. [m]
	leverRing = 0.018

	// waterDensity is liquid water at 20 °C (68 °F) [kg/m3]: IAPWS-95 998.207.
	waterDensity = 998.207
)

// canTable is the can files read once and never changed.
type canTable struct {
	sizes  []CanSize
	byKey  map[string]int     // names and aliases, by canKey
	inside map[string]float64 // body inside by the code's diameter [m]
	names  []string
	walls  []Sheet
}

var cans = sync.OnceValues(readCans)

func readCans() (*canTable, error) {
	t := &canTable{byKey: map[string]int{}, inside: map[string]float64{}}
	var err error
	if t.walls, err = sheets(); err != nil {
		return nil, err
	}
	s, err := open("can_inside.csv")
	if err != nil {
		return nil, err
	}
	err = s.each(func(r *row) {
		area := ounceWater(r.number("oz_water_per_sixteenth")) / sixteenth
		t.inside[r.text("code")] = math.Sqrt(4 * area / math.Pi)
	})
	if err != nil {
		return nil, err
	}
	if s, err = open("cans.csv"); err != nil {
		return nil, err
	}
	err = s.each(func(r *row) {
		// "~404x414" is a nominal size in inches that is no published code.
		size, nominal := strings.CutPrefix(r.text("size"), "~")
		c, err := t.build(size, r.text("family"))
		if err != nil {
			r.fail(err)
			return
		}
		c.Name = r.text("name")
		if nominal {
			c.Code = c.Name
		}
		c.Source = r.text("source") + "; " + c.Source
		switch unit := r.text("capacity_unit"); unit {
		case "oz water":
			c.Capacity = ounceWater(r.number("capacity"))
		case "":
		default:
			c.Capacity = r.amount(quantity.Volume, "capacity", unit)
		}
		c.Nominal = r.text("capacity_is") == "nominal"
		for _, name := range append([]string{c.Name}, r.list("aliases")...) {
			k := canKey(name)
			if old, taken := t.byKey[k]; taken && old != len(t.sizes) {
				r.fail(fmt.Errorf("%q also names %s", name, t.sizes[old].Name))
			}
			t.byKey[k] = len(t.sizes)
			t.names = append(t.names, name)
		}
		t.sizes = append(t.sizes, c)
	})
	if err != nil {
		return nil, err
	}
	return t, nil
}

// ounceWater is the volume of so many avoirdupois ounces of water at 68 °F
// [m3], the unit of the trade's capacity tables (some copies wrongly call it
// the fluid ounce, which is 4 % larger).
func ounceWater(oz float64) float64 { return oz * 0.45359237 / 16 / waterDensity }

// build makes a can from its code by the table of inside diameters, or by the
// rule where the diameter is not in it.
func (t *canTable) build(code, family string) (CanSize, error) {
	d, h, err := DecodeCode(code)
	if err != nil {
		return CanSize{}, err
	}
	c := CanSize{Name: codeText(code), Code: codeText(code), Family: family, OverSeam: d, HeightOverall: h}
	digits, _, _ := strings.Cut(c.Code, "x")
	if in, ok := t.inside[digits]; ok && family != "paint" {
		c.BodyInside, c.BodyInsideOff = in, tableOff
		c.Source = "body inside from ounces of water per 1/16 in, trade table"
	} else {
		c.BodyInside, c.BodyInsideOff = d-seamLess, seamLessOff
		c.Source = "body inside = code less 3.4 mm, mean of nine sizes"
	}
	return t.finish(c)
}

// finish fills in what follows from the seam, the inside and the height.
func (t *canTable) finish(c CanSize) (CanSize, error) {
	if c.OverSeam < 0.045 || c.OverSeam > 0.18 {
		return CanSize{}, fmt.Errorf("a can of %s over the seam is outside the range of the rules (1 3/4 to 7 in)", quantity.Show(quantity.Length, c.OverSeam, quantity.Metric, 4))
	}
	if c.HeightOverall < 2*endsLess {
		return CanSize{}, fmt.Errorf("a can %s high is too flat for the rule of the height inside (19 mm and more)", quantity.Show(quantity.Length, c.HeightOverall, quantity.Metric, 4))
	}
	c.HeightInside = c.HeightOverall - endsLess
	c.Wall = wallFor(t.walls, c.Family, c.OverSeam)
	c.BodyOutside = c.BodyInside + 2*c.Wall
	if c.Family == "paint" {
		c.Mouth = c.BodyInside - leverRing
		c.Source += "; mouth = body less 18 mm [memory]"
	}
	return c, nil
}

// wallFor is the typical body sheet of a can.
func wallFor(walls []Sheet, family string, overSeam float64) float64 {
	if family == "" {
		family = "food"
	}
	for _, s := range walls { // in order of size
		if s.Family == family && overSeam <= s.upTo {
			return s.Typical
		}
	}
	return 0
}

// Can finds a can by trade name ("No. 2 1/2", "#10", "paint quart"), by usual
// label weight ("15 oz"), by code ("401x411"; any valid code, also one in no
// table) or by body inside and overall height ("73 x 110 mm"). An unknown name
// is an error that names the nearest.
func Can(name string) (CanSize, error) {
	t, err := cans()
	if err != nil {
		return CanSize{}, err
	}
	key := canKey(name)
	for _, k := range []string{key, canKey("no " + name)} {
		if i, ok := t.byKey[k]; ok {
			return t.sizes[i], nil
		}
	}
	text := codeText(name)
	if !strings.Contains(text, "x") || strings.Trim(strings.TrimSuffix(text, "mm"), "0123456789x.,") != "" {
		return CanSize{}, unknown("can", name, t.names)
	}
	if d, h, ok := millimetres(text); ok {
		size := strings.TrimSuffix(text, "mm") + " mm"
		return t.finish(CanSize{
			Name: size, Code: size, OverSeam: d + seamLess, HeightOverall: h,
			BodyInside: d, BodyInsideOff: 0.0005, Source: "given in millimetres: body inside and overall height",
		})
	}
	for _, c := range t.sizes {
		if c.Code == text {
			return c, nil
		}
	}
	return t.build(text, "")
}

// millimetres reads "73x110mm" or "73x110" as body inside and height [m]. Two
// three-digit numbers without "mm" are a trade code.
func millimetres(text string) (d, h float64, ok bool) {
	bare := strings.TrimSuffix(text, "mm")
	a, b, found := strings.Cut(bare, "x")
	whole, _, _ := strings.Cut(strings.ReplaceAll(a, ",", "."), ".")
	if !found || (bare == text && len(whole) != 2) {
		return 0, 0, false
	}
	d, errD := quantity.ParseDefault(quantity.Length, a, "mm")
	h, errH := quantity.ParseDefault(quantity.Length, b, "mm")
	return d, h, errD == nil && errH == nil
}

// canKey brings the ways of writing a can's name to one: its words sorted.
func canKey(name string) string {
	name = strings.ToLower(name)
	name = strings.NewReplacer("½", " 1/2", "¼", " 1/4", "#", " no ", "no.", " no ", "number", " no ", "nr.", " no ",
		"-", " ", "'", " ", "quarts", "quart", "pints", "pint", "gallons", "gallon", "cyl.", "cylinder", "(", " ", ")", " ").Replace(name)
	var words []string
	for _, w := range strings.Fields(name) {
		switch w {
		case "can", "cans", "tin", "size", "food", "us", "of", "a", "the":
			continue
		case "cyl":
			w = "cylinder"
		}
		// "15oz" is two words.
		if n := strings.TrimRight(w, "ozlb"); n != w && n != "" && strings.Trim(n, "0123456789") == "" {
			words = append(words, n)
			w = w[len(n):]
		}
		words = append(words, w)
	}
	// "2 1/2" and "2.5" are one number.
	text := " " + strings.Join(words, " ") + " "
	for n := range 10 {
		whole := fmt.Sprintf(" %d ", n)
		text = strings.ReplaceAll(text, whole+"1/2 ", fmt.Sprintf(" %d.5 ", n))
		text = strings.ReplaceAll(text, whole+"1/4 ", fmt.Sprintf(" %d.25 ", n))
	}
	words = strings.Fields(text)
	sort.Strings(words)
	return strings.Join(words, " ")
}

// Cans lists the cans of the catalogue, narrowest first, then lowest.
func Cans() []CanSize {
	t, err := cans()
	if err != nil {
		return nil // compiled in and read by a test
	}
	list := slices.Clone(t.sizes)
	sort.SliceStable(list, func(i, j int) bool {
		a, b := list[i], list[j]
		if a.BodyOutside != b.BodyOutside {
			return a.BodyOutside < b.BodyOutside
		}
		return a.HeightOverall < b.HeightOverall
	})
	return list
}

// NearestCan is the can of the catalogue nearest to a measured body (outside
// diameter and overall height [m]), and how much the catalogue's can is wider
// and taller [m]. One millimetre of diameter counts as much as one and a half
// of height [judgement]: a strip measures the diameter better than the eye
// finds the ends.
func NearestCan(bodyDiameter, height float64) (can CanSize, wider, taller float64, err error) {
	t, err := cans()
	if err != nil {
		return CanSize{}, 0, 0, err
	}
	if !(bodyDiameter > 0) || !(height > 0) || math.IsInf(bodyDiameter+height, 0) {
		return CanSize{}, 0, 0, fmt.Errorf("a body of diameter %g m and height %g m is not one: both must be above 0", bodyDiameter, height)
	}
	best := math.Inf(1)
	for _, c := range t.sizes {
		d, h := c.BodyOutside-bodyDiameter, c.HeightOverall-height
		if far := math.Hypot(d, h/1.5); far < best {
			best, can, wider, taller = far, c, d, h
		}
	}
	return can, wider, taller, nil
}
