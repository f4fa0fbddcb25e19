package draft

import (
	"fmt"
	"math"
)

// Channel is a straight passage with friction along its walls.
type Channel struct {
	Area   float64 // [m2]
	Wet    float64 // hydraulic diameter, 4 area/wetted perimeter [m]
	Length float64 // [m]
	Shape  float64 // Re*/Re: 1 pipe, 2/3 parallel plates; see [AnnulusShape]
	Ease   float64 // laminar flow over that of the even gap at the same pressure; 0 means 1
	K      float64 // entry, exit and bends, on the velocity in Area
}

// Friction is the pressure law of a channel; build it with [NewChannel].
type Friction struct{ law }

// NewChannel returns the pressure law of a channel.
//
// dp = (f L/D + K) rho v^2/2 with f = 64/Re* laminar (exact for pipe, annulus
// and plates when fully developed) and f = (1.8 lg Re* - 1.5)^-2 turbulent
// (Konakov; for annuli after Gnielinski, VDI Heat Atlas [memory]), Re* =
// Shape Re; ln f is blended in ln Re* from 2300 to 4000, where nature gives no
// single value. Smooth walls.
func NewChannel(c Channel) (*Friction, error) {
	ease := c.Ease
	if ease == 0 {
		ease = 1
	}
	switch {
	case !(c.Area > 0) || !(c.Wet > 0) || math.IsInf(c.Area+c.Wet, 0):
		return nil, fmt.Errorf("channel: area %g m2, hydraulic diameter %g m, want positive numbers", c.Area, c.Wet)
	case !(c.Length > 0) || math.IsInf(c.Length, 0):
		return nil, fmt.Errorf("channel: length %g m, want a positive length", c.Length)
	case !(c.Shape > 0.5 && c.Shape <= 1):
		return nil, fmt.Errorf("channel: shape %g, want above 0.5 to 1 (pipe 1, plates 2/3)", c.Shape)
	case !(ease >= 1 && ease <= 2.5):
		return nil, fmt.Errorf("channel: ease %g, want 1 to 2.5", ease)
	case !(c.K >= 0) || math.IsInf(c.K, 0):
		return nil, fmt.Errorf("channel: coefficient %g, want 0 or more", c.K)
	}
	long := c.Length / c.Wet
	g := newCurve(64/c.Shape/ease*long, func(re float64) float64 {
		return (DarcyFriction(re*c.Shape)*easing(re*c.Shape, ease)*long + c.K) * re * re
	})
	return &Friction{g.scaled(c.Area, c.Wet, 1)}, nil
}

// Between these Re* the laminar friction goes over to the turbulent.
const turnLow, turnHigh = 2300, 4000

// DarcyFriction returns the Darcy friction factor of a smooth channel at Re*
// (see [NewChannel]).
func DarcyFriction(re float64) float64 {
	laminar := 64 / re
	if re <= turnLow {
		return laminar
	}
	x := 1.8*math.Log10(re) - 1.5
	w := turned(re)
	return math.Exp((1-w)*math.Log(laminar) - w*2*math.Log(x))
}

// easing is the factor of an uneven gap on the friction: all of it laminar,
// none turbulent.
func easing(re, ease float64) float64 { return math.Pow(ease, turned(re)-1) }

func turned(re float64) float64 {
	return smoothstep(math.Log(re/turnLow) / math.Log(turnHigh/float64(turnLow)))
}

// AnnulusShape returns Re*/Re of a concentric annulus of radius ratio k
// (inner/outer), so that the laminar Darcy f Re is 64/AnnulusShape:
//
//	[(1+k^2) ln k + 1 - k^2]/[(1-k)^2 ln k]
//
// Exact for laminar flow; 1 at k = 0, 2/3 at k = 1. The turbulent use is
// Gnielinski's (VDI Heat Atlas [memory]).
func AnnulusShape(k float64) float64 {
	switch {
	case k <= 0:
		return 1
	case k > 0.9999: // the difference of nearly equal terms: series about the flat gap
		return 2.0/3 + (1-k)*(1-k)/90
	}
	l := math.Log(k)
	return ((1+k*k)*l + 1 - k*k) / ((1 - k) * (1 - k) * l)
}

// Annulus is the channel between two cans of diameters inner and outer [m]
// whose axes lie apart by eccentricity times the even gap (0 to 1). An off
// centre can lets 1 + 1.5 e^2 times the laminar flow through (narrow gap,
// standard lubrication form).
func Annulus(inner, outer, length, eccentricity float64) (Channel, error) {
	if !(inner > 0) || !(outer > inner) || math.IsInf(outer, 0) {
		return Channel{}, fmt.Errorf("annulus: diameters %g and %g m, want 0 < inner < outer", inner, outer)
	}
	if !(eccentricity >= 0 && eccentricity <= 1) {
		return Channel{}, fmt.Errorf("annulus: eccentricity %g, want 0 (centred) to 1 (touching)", eccentricity)
	}
	return Channel{
		Area: math.Pi / 4 * (outer*outer - inner*inner), Wet: outer - inner, Length: length,
		Shape: AnnulusShape(inner / outer), Ease: 1 + 1.5*eccentricity*eccentricity,
	}, nil
}

// Tube is the channel inside a round tube [m].
func Tube(bore, length float64) Channel {
	return Channel{Area: math.Pi / 4 * bore * bore, Wet: bore, Length: length, Shape: 1}
}

// Slot is the channel between parallel plates a gap apart, width wide across
// the flow [m].
func Slot(gap, width, length float64) Channel {
	return Channel{Area: gap * width, Wet: 2 * gap, Length: length, Shape: 2.0 / 3}
}

// PotGap returns the loss of the flow outward between a flat base and the rim
// below it: radii inner and outer of the rim and height of the gap [m].
//
// dp = K rho v^2/2 + 6 mu m ln(outer/inner)/(pi rho gap^3), v at the inner
// radius: laminar flow between discs (exact, developed), a sharp entry and the
// whole velocity head lost at the inner radius, no recovery as the flow
// spreads (K = 1.5: upper side of what a short rim does, judgement).
func PotGap(inner, outer, gap float64) (Loss, error) {
	if !(inner > 0) || !(outer >= inner) || !(gap > 0) || math.IsInf(outer+gap, 0) {
		return Loss{}, fmt.Errorf("pot gap: radii %g and %g m, gap %g m, want 0 < inner <= outer and a positive gap", inner, outer, gap)
	}
	return Loss{
		Area: 2 * math.Pi * inner * gap, Diameter: 2 * gap, K: EntrySharp + Exit,
		Laminar: 48 * inner / gap * math.Log(outer/inner),
	}, nil
}
