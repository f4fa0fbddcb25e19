package firing

// Event is something a maker stamps while a stove burns: its code in records,
// its name on the button, and when to tap.
type Event struct {
	Code   string
	Name   string
	Tap    string   // the definition: when to tap
	Moment Moment   // what the prediction computes for it, "" when nothing
	Opens  string   // the phase that begins with it, "" when none does
	Chips  []string // what may be said with it
	Always bool     // may happen at any time, any number of times
}

// The codes of events in records.
const (
	EventLit        = "lit"
	EventTopAlight  = "top-alight"
	EventFirstJet   = "first-jet-lit"
	EventAllJets    = "all-jets-lit"
	EventSmokeGone  = "smoke-gone"
	EventPartOn     = "part-on"
	EventPartOff    = "part-off"
	EventPotOn      = "pot-on"
	EventPotOff     = "pot-off"
	EventBoil       = "boil"
	EventDisturbed  = "disturbed"
	EventWentOut    = "went-out-smoking"
	EventRelit      = "relit"
	EventAbandoned  = "abandoned"
	EventJetsDying  = "jets-dying"
	EventYellowGone = "yellow-gone"
	EventFlameOut   = "gas-flame-finished"
	EventGlowGone   = "glow-gone"
	EventSnuffed    = "snuffed"
	EventQuenched   = "quenched"
	EventWeighed    = "weighed-cold"
)

// Events lists every event in the order a burn usually takes.
func Events() []Event {
	parts := []string{"ring", "riser", "pot stand"}
	return []Event{
		{Code: EventLit, Name: "Lit", Tap: "flame put to the starter", Moment: Lit, Opens: PhaseLighting},
		{Code: EventTopAlight, Name: "Top alight", Tap: "the whole top burns"},
		{Code: EventFirstJet, Name: "First jet lit", Tap: "first steady flame at a secondary hole", Moment: JetsLit, Opens: PhaseTakeOver},
		{Code: EventAllJets, Name: "All jets lit", Tap: "flame at all secondary holes, none on the fuel", Opens: PhaseSteady},
		{Code: EventSmokeGone, Name: "Smoke gone", Tap: "no visible smoke for 30 s"},
		{Code: EventPartOn, Name: "Part on", Tap: "a part is set on the stove: say which", Chips: parts, Always: true},
		{Code: EventPartOff, Name: "Part off", Tap: "a part is taken off the stove: say which", Chips: parts, Always: true},
		{Code: EventPotOn, Name: "Pot on", Tap: "the pot stands over the flame", Always: true},
		{Code: EventBoil, Name: "Boil", Tap: "rolling boil, or the target temperature: one definition, chosen before the burn", Moment: Boil},
		{Code: EventPotOff, Name: "Pot off", Tap: "the pot leaves the flame", Always: true},
		{Code: EventDisturbed, Name: "Disturbed", Tap: "something touched the fire: say what", Chips: []string{"gust", "stirred", "moved", "puff"}, Always: true},
		{Code: EventWentOut, Name: "Went out, smoking", Tap: "gas flame lost while gas still rises", Always: true},
		{Code: EventRelit, Name: "Relit", Tap: "gas flame back after it was lost", Always: true},
		{Code: EventAbandoned, Name: "Abandoned", Tap: "given up: lid on, plate under", Opens: PhaseCoolDown},
		{Code: EventJetsDying, Name: "Jets dying", Tap: "the jets go out one by one", Opens: PhaseTailOff},
		{Code: EventYellowGone, Name: "Yellow gone", Tap: "only blue flame is left", Moment: YellowGone},
		{Code: EventFlameOut, Name: "Gas flame finished", Tap: "last gas flame gone, the normal end", Moment: FlameOut, Opens: PhaseChar},
		{Code: EventGlowGone, Name: "Glow gone", Tap: "the char no longer glows", Moment: GlowEnd, Opens: PhaseCoolDown},
		{Code: EventSnuffed, Name: "Snuffed", Tap: "air shut off: say how", Chips: []string{"lid", "lid and plate", "earth", "sand"}, Opens: PhaseCoolDown},
		{Code: EventQuenched, Name: "Quenched", Tap: "water on the char: say how", Chips: []string{"poured on", "tipped into water"}, Opens: PhaseCoolDown},
		{Code: EventWeighed, Name: "Weighed cold", Tap: "what is left is cold and weighed"},
	}
}

// EventByCode finds an event.
func EventByCode(code string) (Event, bool) {
	for _, e := range Events() {
		if e.Code == code {
			return e, true
		}
	}
	return Event{}, false
}

// The phases of a burn.
const (
	PhaseLighting = "lighting"
	PhaseTakeOver = "take-over"
	PhaseSteady   = "steady gas flame"
	PhaseTailOff  = "tail-off"
	PhaseChar     = "char"
	PhaseCoolDown = "cool-down"
)

// Phase is a stretch of a burn between events.
type Phase struct {
	Name string
	From []string // codes, any of which opens it; a later phase may open without it
	What string
}

// Phases lists the phases in order. A phase lasts until a later one opens.
func Phases() []Phase {
	what := map[string]string{
		PhaseLighting: "the starter burns and lights the top",
		PhaseTakeOver: "jets light, smoke clears",
		PhaseSteady:   "gas burns at the jets, none on the fuel",
		PhaseTailOff:  "the front has reached the bottom, gas runs out",
		PhaseChar:     "char glows, carbon monoxide without smell: outdoors only",
		PhaseCoolDown: "air shut off or char burnt; still hot for hours",
	}
	var list []Phase
	for _, name := range []string{PhaseLighting, PhaseTakeOver, PhaseSteady, PhaseTailOff, PhaseChar, PhaseCoolDown} {
		p := Phase{Name: name, What: what[name]}
		for _, e := range Events() {
			if e.Opens == name {
				p.From = append(p.From, e.Code)
			}
		}
		list = append(list, p)
	}
	return list
}

// MomentData is one moment of a predicted burn and its definition.
type MomentData struct {
	Moment Moment
	What   string
}

// Moments lists the moments in the order a burn usually takes, each with the
// definition the prediction uses.
func Moments() []MomentData {
	return []MomentData{
		{Lit, "time zero: flame put to the starter"},
		{JetsLit, "flame state first above one half"},
		{Boil, "water at its local saturation temperature, or at its target"},
		{FrontBottom, "3 % of the charge left raw"},
		{YellowGone, "soot indicator below its threshold for good"},
		{FlameOut, "last gas flame below one half for good"},
		{GlowEnd, "bed below 773 K for good"},
	}
}
