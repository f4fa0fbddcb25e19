package quantity_test

import (
	"fmt"

	"toplit/quantity"
)

func ExampleParse() {
	for _, text := range []string{"4 1/4 in", `5/8"`, "16", "2,5 cm"} {
		m, _ := quantity.Parse(quantity.Length, text)
		fmt.Printf("%s = %v m\n", text, m)
	}
	_, err := quantity.Parse(quantity.Volume, "8 oz")
	fmt.Println(err != nil)
	// Output:
	// 4 1/4 in = 0.10795 m
	// 5/8" = 0.015875 m
	// 16 = 0.016 m
	// 2,5 cm = 0.025 m
	// true
}

func ExampleFormat() {
	m, _ := quantity.Parse(quantity.Length, "5/8 in")
	fmt.Println(quantity.Format(quantity.Length, m, quantity.Metric))
	fmt.Println(quantity.Format(quantity.Length, m, quantity.US))
	// Output:
	// 15.875 mm
	// 5/8 in
}

func ExampleShow() {
	fmt.Println(quantity.Show(quantity.Mass, 0.4123, quantity.Metric, 3))
	fmt.Println(quantity.Show(quantity.Mass, 0.4123, quantity.US, 3))
	fmt.Println(quantity.Show(quantity.Time, 581, quantity.Metric, 3))
	// Output:
	// 412 g
	// 14.5 oz
	// 9:41
}

func ExampleFormatNear() {
	text, off := quantity.FormatNear(0.016, 32)
	fmt.Printf("%s, %s too short\n", text, quantity.Show(quantity.Length, -off, quantity.Metric, 2))
	// Output:
	// 5/8 in, 0.13 mm too short
}

func ExampleParseOneOf() {
	kind, si, _ := quantity.ParseOneOf("1 cup", quantity.Mass, quantity.Volume, quantity.Length)
	fmt.Println(kind, quantity.Show(kind, si, quantity.Metric, 4))
	_, _, err := quantity.ParseOneOf("8 oz", quantity.Mass, quantity.Volume)
	fmt.Println(err)
	// Output:
	// volume 236.6 mL
	// "8 oz" may be a mass or a volume: write "8 oz wt" for a mass or "8 fl oz" for a volume
}
