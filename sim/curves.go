package sim

import "strings"

// Curve is one quantity against time after lighting with its band.
type Curve struct {
	Key  string    `json:"key"` // carries its unit
	Name string    `json:"name"`
	P10  []float64 `json:"p10"`
	P50  []float64 `json:"p50"`
	P90  []float64 `json:"p90"`
}

// A curve that is a temperature or a state ends with its burn; amounts and
// rates go on, as what is left and as nothing.
var curveInfo = [...]struct{ key, name string }{
	{"firepower_W", "firepower"},
	{"firepower_gross_W", "firepower, char included"},
	{"burning_rate_kg_s", "fuel turned, as fired"},
	{"primary_air_kg_s", "primary air"},
	{"secondary_air_kg_s", "secondary air"},
	{"excess_air", "oxygen there over oxygen needed by the gas"},
	{"bed_temperature_K", "bed"},
	{"flame_temperature_K", "gas above the jets"},
	{"wall_temperature_K", "fuel can, hottest part"},
	{"base_temperature_K", "fuel can's base"},
	{"pot_temperature_K", "pot"},
	{"water_temperature_K", "water"},
	{"water_mass_kg", "water left"},
	{"raw_mass_kg", "raw fuel left, dry"},
	{"char_mass_kg", "char"},
	{"ground_temperature_K", "ground surface"},
	{"flame_state", "gas flame burning"},
	{"yellow", "yellow in the flame"},
}

const nCurves = len(curveInfo)

// goesOn says that a curve has a value after its burn has ended.
func goesOn(key string) bool { return !strings.HasSuffix(key, "_K") && key != "excess_air" }

// stops says that this value is zero then.
func stops(key string) bool {
	return strings.HasSuffix(key, "_W") || strings.HasSuffix(key, "_kg_s") || key == "flame_state" || key == "yellow"
}

type curvePoint [nCurves]float32

// point reads the curves at one stored state.
func (b *burner) point(k int) curvePoint {
	t, y := b.track.t[k], b.track.y[k]
	b.with(b.track.on[k])
	b.stageOne(t, y)
	lhv := b.lhvDry - b.x*2.443e6
	gross := b.rate * lhv
	net := gross - (b.charMade-b.charEat)*b.char.solid.lhv - (b.volMade-b.volOut)*b.char.volatile.lhv
	lambda := 0.0
	if b.need > 1e-7 {
		lambda = min(b.have/b.need, 20)
	}
	wall := 0.0
	for i := range b.walls {
		wall = max(wall, y[b.wall+i])
	}
	yel := b.yellow * min(max(y[iFlame], 0), 1)
	v := [nCurves]float64{
		net, gross, b.rate * (1 + b.x), max(b.mPrim, 0), b.airIn, lambda,
		y[iTBed], y[iTFlame], wall, y[b.base], y[b.pot], b.tBoil + y[b.water], y[b.mass],
		max(y[iRaw], 0), max(y[iChar]+y[iVolatile], 0), y[b.ground], min(max(y[iFlame], 0), 1), yel,
	}
	var c curvePoint
	for i, x := range v {
		c[i] = float32(x)
	}
	return c
}
