package picture

import (
	"math"

	"toplit/drawing"
	"toplit/firing"
	"toplit/stove"
)

// SmallOptions of a small section. The zero value fits a sheet of 30 × 45 mm.
type SmallOptions struct {
	Width, Height float64  // of the sheet [mm]
	Scale         float64  // paper to stove, the same for pictures that are to be compared; 0 to fit
	Changed       []string // keys that differ from the version before: drawn in ember
	White         bool     // white ground instead of none
}

// Small is the section without words, for rows of stoves and versions: walls,
// holes, fuel and water to one scale, what changed in ember and drawn
// heavier. The words belong beside it; its description carries the caution.
func Small(design stove.Design, conditions firing.Conditions, o SmallOptions) *drawing.Sheet {
	if !(o.Width > 0 && o.Width < 1e4) {
		o.Width = 30
	}
	if !(o.Height > 0 && o.Height < 1e4) {
		o.Height = 45
	}
	p := locate(design, conditions)
	s := &scene{place: p, board: newBoard(), changed: o.Changed, plain: true}
	const margin, earth = 1.5, 1.5
	most := math.Min((o.Width-2*margin)/(2*math.Max(p.halfWide, 1e-3)), (o.Height-2*margin-earth)/math.Max(p.top, 1e-3))
	s.k = math.Max(most, 1e-6)
	if k := o.Scale * 1e3; k > 0 && k < s.k {
		s.k = k
	}
	s.cx, s.y0 = o.Width/2, margin+earth
	s.thin()
	s.line(onGrid, margin, s.y0, o.Width-margin, s.y0)
	s.pot()
	s.fuel()
	s.stoveParts()
	sheet := s.sheet(titleOf(design), "Small section. "+cautionLead, o.Width, o.Height, white)
	if !o.White {
		sheet.Ground = drawing.Paint{}
	}
	return sheet
}

// thin gives the walls a pen for a picture a few centimetres high.
func (s *scene) thin() {
	s.layers[s.board.at[onWall]].Pen.Width = 0.25
	s.layers[s.board.at[onEmber]].Pen.Width = 0.6
}

// Extent is the width and height of what a section of the stove shows [m], to
// choose one scale for several small sections.
func Extent(design stove.Design, conditions firing.Conditions) (width, height float64) {
	p := locate(design, conditions)
	return 2 * p.halfWide, p.top
}
