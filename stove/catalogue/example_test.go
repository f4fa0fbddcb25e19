package catalogue_test

import (
	"fmt"

	"toplit/quantity"
	"toplit/stove/catalogue"
)

func mm(si float64) string { return quantity.Show(quantity.Length, si, quantity.Metric, 4) }

// The code measures the seam; a template must be made for the body.
func ExampleCan() {
	c, _ := catalogue.Can("#10")
	fmt.Println(c.Name, c.Code)
	fmt.Println("over the seam", mm(c.OverSeam), "- a strip of that round the body would be", mm(catalogue.WrapLength(c.OverSeam, 0)))
	fmt.Println("body outside", mm(c.BodyOutside), "- a strip of", mm(catalogue.WrapLength(c.BodyOutside, 0)), "fits")
	// Output:
	// No. 10 603x700
	// over the seam 157.2 mm - a strip of that round the body would be 493.7 mm
	// body outside 153.9 mm - a strip of 483.4 mm fits
}

func ExampleNearestCan() {
	body := catalogue.FromStrip(0.3135, 0.0001) // a strip of 313.5 mm of paper 0.1 mm thick
	c, wider, taller, _ := catalogue.NearestCan(body, 0.119)
	fmt.Printf("%s %s, %.1f mm wider, %.1f mm taller\n", c.Name, c.Code, wider*1e3, taller*1e3)
	// Output: No. 2 1/2 401x411, 0.0 mm wider, 0.1 mm taller
}

func ExampleNearest() {
	shop, _ := catalogue.Drills("metric half")
	d, off := catalogue.Nearest(6.35e-3, shop) // what is there for 1/4 in?
	fmt.Printf("%s, %s of area\n", d.Name, quantity.Show(quantity.Ratio, off, quantity.Metric, 2))
	// Output: 6.5 mm, 4.8 % of area
}

func ExampleParseDrill() {
	for _, text := range []string{"5/8 in", "#7", "F", "6 mm"} {
		d, _ := catalogue.ParseDrill(text)
		fmt.Println(d.Set, d.Name, mm(d.Diameter), quantity.Show(quantity.Area, d.Area, quantity.Metric, 4))
	}
	// Output:
	// fractional 5/8 in 15.88 mm 197.9 mm²
	// number #7 5.105 mm 20.47 mm²
	// letter F 6.528 mm 33.47 mm²
	// metric 6 mm 6.000 mm 28.27 mm²
}

func ExampleCover() {
	c, _ := catalogue.Cover("grass") // the dry one: it burns sooner
	fmt.Println(c.Name, c.Combustible, quantity.Show(quantity.Temperature, c.Limit, quantity.Metric, 3))
	c, _ = catalogue.Cover("sand")
	fmt.Println(c.Name, c.Combustible, c.Limit == 0)
	// Output:
	// dry grass true 190 °C
	// dry loose sand false true
}
