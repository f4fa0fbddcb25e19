package flame

import "fmt"

// Name is a named condition of a burning stove.
type Name string

// The named conditions.
const (
	TooRich     Name = "too rich"
	Starved     Name = "starved of secondary air"
	OverAired   Name = "over-aired"
	Quenched    Name = "quenched on the pot"
	RingChokes  Name = "ring chokes"
	GapChokes   Name = "pot gap chokes"
	CharChokes  Name = "char layer chokes"
	WindDriven  Name = "wind-driven"
	FlameAbsent Name = "gas unlit"
)

// State is what the conditions are judged on, at one moment.
type State struct {
	Lit         float64 // how surely a gas flame burns, 0 to 1
	Firepower   float64 // heat of the gas arriving at the flame [W]
	Lambda      float64 // all air over what burns the gas
	MixedT      float64 // of gas and air after burning and losses [K]
	Height      float64 // of the flame above the jets or ring [m]
	PotGap      float64 // from there to the pot [m]; 0 without a pot
	Draft       float64 // pressure that drives the flow [Pa]
	RingLoss    float64 // [Pa]
	PotGapLoss  float64 // [Pa]
	CharLoss    float64 // [Pa]
	WindPush    float64 // pressure difference wind makes between inlet and outlet, either sign [Pa]
	BurnoutOver float64 // residence over CO burn-out time
}

// Limits are the thresholds of the conditions. The zero value means Shipped.
type Limits struct {
	Rich, Lean, LeanT, Over, Gap, Share, GapShare, Wind float64
}

// Shipped are the thresholds in use:
//
//	too rich              λ < 1: there is no oxygen for all of the gas
//	starved               λ < 1.2: 3.5 % of oxygen left, where CO climbs tenfold
//	                      (Beyler's hood experiments); a controlled pellet burner
//	                      needed 1.1 (Krüger 2021)
//	over-aired            λ > 2.5 and mixed gas below 1123 K (850 °C, Boman et al.
//	                      2005 as quoted by a stove laboratory)
//	quenched on the pot   flame height above 1.0 of the gap: four camping stoves
//	                      went from < 5 to 20–140 ml CO/min with a pot (FFI 2010)
//	ring, char chokes     more than half of the draft is lost there; judgement
//	pot gap chokes        more than a third; judgement
//	wind-driven           wind pressure above half of the draft; judgement
func Shipped() Limits {
	return Limits{Rich: 1, Lean: 1.2, LeanT: 1123, Over: 2.5, Gap: 1, Share: 0.5, GapShare: 1.0 / 3, Wind: 0.5}
}

// Condition is a named condition that holds, with the number it was judged by.
type Condition struct {
	Name     Name
	Value    float64 // of the quantity judged
	Limit    float64 // its threshold
	Sentence string  // what it means and what usually helps, with the number
}

// Conditions lists the named conditions that hold in a state, gravest first.
// Air and temperature conditions need a lit flame; the losses need draft.
func Conditions(s State, lim Limits) []Condition {
	if lim == (Limits{}) {
		lim = Shipped()
	}
	var out []Condition
	add := func(n Name, value, limit float64, format string, args ...any) {
		out = append(out, Condition{n, value, limit, fmt.Sprintf(format, args...)})
	}
	if s.Firepower > 50 && s.Lit < 0.5 {
		add(FlameAbsent, s.Firepower, 50, "Gas worth %.1f kW rises unburned: it is smoke and carbon monoxide until a flame holds at the jets.", s.Firepower/1000)
	}
	if s.Lit >= 0.5 {
		switch {
		case s.Lambda < lim.Rich:
			add(TooRich, s.Lambda, lim.Rich, "Too rich: all air together is %.2f of what the gas needs. Less primary air or more secondary air.", s.Lambda)
		case s.Lambda < lim.Lean:
			add(Starved, s.Lambda, lim.Lean, "Starved of secondary air: %.2f times the air needed, below %.1f carbon monoxide climbs. More or larger secondary holes, a wider ring, more draft height.", s.Lambda, lim.Lean)
		case s.Lambda > lim.Over && s.MixedT < lim.LeanT:
			add(OverAired, s.Lambda, lim.Over, "Over-aired: %.1f times the air needed cools the gas to %.0f °C; above 850 °C it burns out. Fewer secondary holes or a smaller ring.", s.Lambda, s.MixedT-273.15)
		}
		if s.PotGap > 0 && s.Height > lim.Gap*s.PotGap {
			add(Quenched, s.Height/s.PotGap, lim.Gap, "The flame is quenched on the pot: %.0f mm of flame in a gap of %.0f mm; expect carbon monoxide and soot. Raise the pot or burn less.", s.Height*1000, s.PotGap*1000)
		}
	}
	if s.Draft > 0 {
		if f := s.RingLoss / s.Draft; f > lim.Share {
			add(RingChokes, f, lim.Share, "The ring chokes: it takes %.0f %% of the draft of %.2f Pa. A wider ring.", 100*f, s.Draft)
		}
		if f := s.PotGapLoss / s.Draft; f > lim.GapShare {
			add(GapChokes, f, lim.GapShare, "The pot gap chokes: it takes %.0f %% of the draft of %.2f Pa. Raise the pot.", 100*f, s.Draft)
		}
		if f := s.CharLoss / s.Draft; f > lim.Share {
			add(CharChokes, f, lim.Share, "The char layer chokes: it takes %.0f %% of the draft of %.2f Pa. Sieve the fuel, fill less deep, or add draft height.", 100*f, s.Draft)
		}
		push := s.WindPush
		if push < 0 {
			push = -push
		}
		if f := push / s.Draft; f > lim.Wind {
			add(WindDriven, f, lim.Wind, "Wind-driven: wind pushes with %.2f Pa against %.2f Pa of draft. Shelter the stove; this burn does not compare with a calm one.", push, s.Draft)
		}
	}
	return out
}
