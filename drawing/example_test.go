package drawing_test

import (
	"fmt"
	"os"

	"toplit/drawing"
)

// A strip with one hole, cut and drilled.
func Example() {
	s := &drawing.Sheet{
		Title: "Strip", Width: 60, Height: 30,
		Layers: []drawing.Layer{
			{Name: "cut", Pen: drawing.Pen{Width: 0.5}, Shapes: []drawing.Shape{
				drawing.Rect(drawing.Point{X: 5, Y: 10}, drawing.Point{X: 55, Y: 20}),
			}},
			{Name: "drill", Pen: drawing.Pen{Width: 0.25, Dash: []float64{2, 1}}, Shapes: []drawing.Shape{
				drawing.Circle{Center: drawing.Point{X: 30, Y: 15}, Radius: 3},
			}},
			{Name: "notes", Shapes: []drawing.Shape{
				drawing.Text{At: drawing.Point{X: 30, Y: 4}, Size: 3, Anchor: drawing.Middle, Content: "drill Ø 6"},
			}},
		},
	}
	if err := drawing.WriteSVG(os.Stdout, s); err != nil {
		fmt.Println(err)
	}
	// Output:
	// <svg xmlns="http://www.w3.org/2000/svg" width="60mm" height="30mm" viewBox="0 0 60 30" role="img" aria-label="Strip" font-family="Atkinson Hyperlegible Next, Atkinson Hyperlegible, Helvetica, Arial, sans-serif" fill="none">
	// <title>Strip</title>
	// <g data-layer="cut" stroke="#000000" stroke-width="0.5">
	// <path d="M5 20L55 20L55 10L5 10Z"/>
	// </g>
	// <g data-layer="drill" stroke="#000000" stroke-width="0.25" stroke-dasharray="2 1">
	// <circle cx="30" cy="15" r="3"/>
	// </g>
	// <g data-layer="notes">
	// <text x="30" y="26" font-size="3" fill="#000000" text-anchor="middle">drill Ø 6</text>
	// </g>
	// </svg>
}
