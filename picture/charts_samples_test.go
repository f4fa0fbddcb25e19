package picture

import "math"

// Invented burns, for the pictures and their tests only.

// hump rises and falls smoothly.
func hump(t, rise, fall float64) float64 {
	return 1 / (1 + math.Exp(-(t-rise)/40)) / (1 + math.Exp((t-fall)/50))
}

func sampleBurn() Burn {
	b := Burn{Title: "Predicted burn of the tea stove (invented)", Note: "learned from 13 burns"}
	for t := 0.0; t <= 3300; t += 15 {
		p := 1600*hump(t, 150, 1440)*(1+0.06*math.Sin(t/260)) + 330*hump(t, 1450, 2900)*math.Exp(-(t-1450)/1300)
		spread := 0.12 + 0.16*hump(t, 100, 1500)
		b.Firepower.Times = append(b.Firepower.Times, t)
		b.Firepower.Low = append(b.Firepower.Low, p*(1-spread))
		b.Firepower.Mid = append(b.Firepower.Mid, p)
		b.Firepower.High = append(b.Firepower.High, p*(1+spread))
		if t < 300 {
			continue
		}
		water := func(k float64) float64 { return 273.15 + math.Min(99.1, 16+(t-300)*0.245*k) }
		b.Water.Times = append(b.Water.Times, t)
		b.Water.Low = append(b.Water.Low, water(0.82))
		b.Water.Mid = append(b.Water.Mid, water(1))
		b.Water.High = append(b.Water.High, water(1.2))
	}
	b.Phases = []Phase{{"lighting", 0, 100}, {"take-over", 100, 210}, {"steady gas flame", 210, 1230}, {"tail-off", 1230, 1460}, {"char", 1460, 2820}, {"cool-down", 2820, 3300}}
	b.Moments = []Moment{
		{Name: "jets lit", Low: 130, Mid: 175, High: 260},
		{Name: "pot on", Low: 300, Mid: 300, High: 300},
		{Name: "boil", Low: 571, Mid: 639, High: 730, Note: "5:39 after pot on"},
		{Name: "flame-out", Low: 1180, Mid: 1450, High: 1600},
		{Name: "glow end", Low: 2380, Mid: 2820, High: math.NaN(), Never: 0.12},
	}
	return b
}

// measuredBurn is the same with what was measured over it.
func measuredBurn() Burn {
	b := sampleBurn()
	b.Title = "Burn 14 of the tea stove (invented)"
	for t := 0.0; t <= 2400; t += 60 {
		p := 1480 * hump(t, 170, 1330) * (1 + 0.1*math.Sin(t/170))
		if t > 1400 {
			p += 250 * math.Exp(-(t-1400)/1000)
		}
		b.MeasuredPower.Times = append(b.MeasuredPower.Times, t)
		b.MeasuredPower.Mid = append(b.MeasuredPower.Mid, p)
	}
	for t := 300.0; t <= 1500; t += 20 {
		b.MeasuredWater.Times = append(b.MeasuredWater.Times, t)
		b.MeasuredWater.Mid = append(b.MeasuredWater.Mid, 273.15+math.Min(99, 17+(t-300)*0.215))
	}
	b.Moments[2].Measured, b.Moments[3].Measured = 688, 1378
	return b
}

// shortBurn heats nothing, goes out early and lights late.
func shortBurn() Burn {
	b := Burn{}
	for t := 0.0; t <= 420; t += 5 {
		p := 620 * hump(t, 120, 300)
		b.Firepower.Times = append(b.Firepower.Times, t)
		b.Firepower.Low = append(b.Firepower.Low, 0.5*p)
		b.Firepower.Mid = append(b.Firepower.Mid, p)
		b.Firepower.High = append(b.Firepower.High, 1.9*p)
	}
	b.Phases = []Phase{{"lighting", 0, 120}, {"steady gas flame", 120, 300}, {"char", 300, 420}}
	b.Moments = []Moment{
		{Name: "jets lit", Low: 80, Mid: 120, High: math.Inf(1), Never: 0.22},
		{Name: "front at grate", Low: 250, Mid: 285, High: 330},
		{Name: "yellow gone", Low: 240, Mid: 290, High: 340},
		{Name: "flame-out", Low: 260, Mid: 300, High: 350},
		{Name: "boil", Low: math.NaN(), Mid: math.NaN(), High: math.NaN(), Never: 1},
	}
	return b
}

func sampleHeat() Heat {
	return Heat{
		Title: "Where the heat goes (invented)",
		Note:  "Shares of the heat put in, median of the predicted burns, with the range 8 of 10 should fall in.",
		In:    []Stream{{Name: "fuel", Energy: 2.71e6}, {Name: "starter", Energy: 0.08e6}},
		Out: []Stream{
			{Name: "water and steam", Energy: 0.86e6, Low: 0.72e6, High: 1.0e6, Kind: Useful},
			{Name: "pot and ring metal", Energy: 0.13e6, Low: 0.11e6, High: 0.15e6},
			{Name: "can walls to air", Energy: 0.47e6, Low: 0.4e6, High: 0.56e6},
			{Name: "hot gas leaving", Energy: 0.76e6, Low: 0.6e6, High: 0.9e6, Kind: Gas},
			{Name: "char still in the can", Energy: 0.33e6, Low: 0.2e6, High: 0.45e6, Kind: Char},
			{Name: "ground", Energy: 0.085e6, Low: 0.05e6, High: 0.12e6},
			{Name: "gas left unburned", Energy: 0.141e6, Low: 0.03e6, High: 0.3e6, Kind: Unburned},
		},
	}
}
