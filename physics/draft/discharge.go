package draft

import (
	"fmt"
	"math"
)

// Edge is the state of a hole's rim as the flow meets it.
type Edge int

// The edges of holes in sheet. Which burr faces the flow depends on the side
// it was punched from and on the direction of the flow.
const (
	Sharp        Edge = iota // drilled, or punched and filed flat
	BurrFacing               // the burr stands up into the oncoming flow
	BurrTrailing             // the sheet is drawn in with the flow, rounding the entry
)

// EdgeFactor returns the factor on the discharge coefficient [1].
//
// A burr against the flow goes half way from the sharp edge (0.61) to the
// re-entrant mouth (0.51, Borda); a drawn-in entry goes a quarter of the way
// to the rounded one (0.98). The three ends: constants table of a public
// reactor-safety library, Re > 1e4. The fractions: judgement, inside the
// standard uncertainty of 10 % of [CdSpread].
func EdgeFactor(e Edge) float64 {
	switch e {
	case BurrFacing:
		return (0.61 + 0.51) / 2 / 0.61
	case BurrTrailing:
		return (0.61 + 0.25*(0.98-0.61)) / 0.61
	}
	return 1
}

// CdSpread is the relative standard uncertainty of a hole's discharge, burrs
// included (6 % for the table, the rest for burrs, hot edges and cross-flow;
// judgement).
const CdSpread = 0.10

// Holes is a group of equal holes side by side.
type Holes struct {
	Count     int
	Diameter  float64 // hydraulic: 4 area/perimeter of one hole [m]
	Area      float64 // of one hole, 0 for a round hole of Diameter [m2]
	Thickness float64 // of the sheet [m]
	Edge      Edge
	Factor    float64 // on the discharge coefficient, e.g. a sampled 1 ± 0.10; 0 means 1
	Before    float64 // part of the space before the holes that they fill, 0 for a large space
	After     float64 // the same behind the holes
}

// Discharge is the pressure law of a group of holes. The zero value passes
// nothing useful; build it with [NewHoles].
type Discharge struct {
	law
	area   float64 // of all holes [m2]
	factor float64 // on the pressure
}

// NewHoles returns the pressure law of a group of holes, or of one opening
// such as a ring.
//
// Thin holes follow Hollingshead (2011): C of four plates in a pipe as a line
// in beta^4 at equal hole Reynolds number, so that beta -> 0 is the small hole
// in a large wall and beta^2 = Before a ring in a can; between Reynolds
// numbers a monotone cubic in ln Re. Below Re 0.5 Sampson's creeping limit Cd
// = sqrt(Re/12 pi); above Re 1e4 measured holes, 0.620 at 1.5e4 to 0.596.
// It is the total: no viscous term is added, save the friction along the
// sheet's thickness, 64 l/Re fading as 1/(1 + Re/20) because the flow leaves
// the edge (creeping part exact [memory], fading: judgement).
// Longer bores go over to [Lichtarowicz] by Idelchik's share of thickness.
// A space behind that is not large gives back part of the jet's head (Borda-
// Carnot): zeta = (sqrt(zeta0) - After)^2, the gain fading as Re/(Re + 50) in
// slow flow (judgement).
//
// Range: hole Re from 0, thickness/diameter 0 to 10, fractions 0 to 0.9 (table:
// to 0.49). Accuracy: standard uncertainty 6 % on Cd for a clean edge, 10 %
// with burrs.
func NewHoles(h Holes) (*Discharge, error) {
	area := h.Area
	if area == 0 {
		area = math.Pi / 4 * h.Diameter * h.Diameter
	}
	l := h.Thickness / h.Diameter
	f := h.Factor
	if f == 0 {
		f = 1
	}
	switch {
	case h.Count < 1:
		return nil, fmt.Errorf("holes: count %d, want at least 1", h.Count)
	case !(h.Diameter > 0) || math.IsInf(h.Diameter, 0):
		return nil, fmt.Errorf("holes: diameter %g m, want a positive length", h.Diameter)
	case !(area > 0) || math.IsInf(area, 0):
		return nil, fmt.Errorf("holes: area %g m2, want a positive area or 0 for a round hole", area)
	case !(l >= 0) || l > 10:
		return nil, fmt.Errorf("holes: thickness/diameter %g, want 0 to 10; a longer bore is a channel", l)
	case !(f > 0) || math.IsInf(f, 0):
		return nil, fmt.Errorf("holes: factor %g, want a positive number", f)
	case !(h.Before >= 0 && h.Before <= 0.9) || !(h.After >= 0 && h.After <= 0.9):
		return nil, fmt.Errorf("holes: filled fractions %g and %g, want 0 to 0.9", h.Before, h.After)
	}
	thin, err := newThinOpening(h.Before)
	if err != nil {
		return nil, err
	}
	share := thickShare(l)
	crowd := ThickPlate(h.Before, 0, l) / ThickPlate(0, 0, l)
	g := newCurve(thin.slow+64*l, func(re float64) float64 {
		z := thin.zeta(re) + 64*l/re/(1+re/20)
		if share > 0 {
			c := longHole(re, l)
			z = math.Exp((1-share)*math.Log(z) + share*math.Log(crowd/(c*c)))
		}
		return (z - h.After*(2*math.Sqrt(z)-h.After)*re/(re+50)) * re * re
	})
	edge := EdgeFactor(h.Edge) * f
	x := &Discharge{area: float64(h.Count) * area, factor: 1 / (edge * edge)}
	x.law = g.scaled(x.area, h.Diameter, x.factor)
	return x, nil
}

// Cd returns the discharge coefficient at hole Reynolds number re > 0: 1/sqrt
// of the loss of total pressure in velocity heads of the hole, edge factor and
// filled spaces included.
func (x *Discharge) Cd(re float64) float64 {
	g, _ := x.g.at(re)
	return re / math.Sqrt(g*x.factor)
}

// Scaled returns the same holes with the discharge coefficient multiplied by
// factor, for sampled coefficients: the table is shared, not built again.
func (x *Discharge) Scaled(factor float64) *Discharge {
	y := *x
	y.factor /= factor * factor
	y.unit /= factor * factor
	return &y
}

// Area returns the total area of the holes [m2].
func (x *Discharge) Area() float64 { return x.area }
