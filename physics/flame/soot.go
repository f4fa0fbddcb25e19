package flame

import "toplit/physics/gas"

// SootThreshold is the soot indicator below which a flame counts as blue, our
// judgement, 0.12 ± 0.04: tar and methane carry about a third of the energy of
// fresh wood gas and nothing of that of burning char.
const SootThreshold = 0.12

// Soot is the share of the gas's heat that comes as tar and methane, the stuff
// yellow flames are made of, times (1 − premixed)², premixed being the share of
// the needed air mixed in before the flame: 0 blue, 1 all hydrocarbons burning
// unmixed. Zero for a gas that does not burn.
//
// It follows what is seen (yellow with wood, blue over char; a raised air share
// turned an updraft burner from yellow-red to blue, Deng et al., BioResources,
// abstract); it predicts no soot mass. Blue does not mean little CO: burning
// char makes blue flames and the most CO.
func Soot(g gas.Mix, tar, premixed float64) float64 {
	hydrocarbon := g[gas.CH4]*methaneLHV + tar*tarLHV
	all := g.LHV() + tar*tarLHV
	if !(all > 0) {
		return 0
	}
	u := 1 - min(max(premixed, 0), 1)
	return hydrocarbon / all * u * u
}

var methaneLHV = gas.CH4.LHV()
