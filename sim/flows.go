package sim

// Every joule moves by one of these flows, from one stock to another or across
// the boundary. A flow is applied once where it leaves and once where it
// arrives; the ledger test spoils each application in turn and must notice.
const (
	fRawBed = iota // enthalpy of the fuel the front turns
	fStartBed
	fAirBed
	fAirGas
	fAirFlame
	fAirIn
	fAmbFlame
	fStartFlame
	fBedGas
	fFlameBed
	fGasFlame
	fFlueOut
	fBaseAir
	fBedWall
	fBedTop
	fBedPot
	fBedSky
	fBedBase
	fGasWall
	fFlameWall
	fFlameTop
	fWallAir
	fWallOuter
	fWallOut
	fOuterAir
	fOuterOut
	fTopOut
	fTopPot
	fPotBase
	fPotSide
	fPotAir
	fPotWater
	fSteam
	fWaterAir
	fBaseDown
	fBaseOut
	fFloorGround
	fGround
	fDeep
	fWallAlong
	nFlows
)

var flowNames = [nFlows]string{
	"fuel to bed", "starter to bed", "air to bed", "air past the lit part", "annulus air to flame", "air in", "ambient air to flame", "starter to flame",
	"bed to gas", "flame back to bed", "gas to flame", "flue gas out", "base to primary air", "bed to can wall", "bed to ring and stand", "bed to pot",
	"bed to sky", "bed to base", "gas to can wall", "flame to can wall", "flame to ring and stand", "can wall to annulus air",
	"can wall to outer can", "can wall to surroundings", "outer can to annulus air", "outer can to surroundings",
	"ring and stand to surroundings", "stand to pot", "gas to pot base", "gas to pot side", "pot to surroundings", "pot to water",
	"steam", "water surface to surroundings", "base downward", "base to surroundings", "floor to ground", "ground", "ground to depth", "along the can wall",
}

// shares is what part of each flow is really taken and given. Anything but one
// breaks the balance: only the ledger's own test sets it.
type shares struct{ take, give [nFlows]float64 }

func wholeShares() *shares {
	s := new(shares)
	for i := range s.take {
		s.take[i], s.give[i] = 1, 1
	}
	return s
}

func (m *model) move(f, from, to int, w float64) {
	m.dE[from] -= m.part.take[f] * w
	m.dE[to] += m.part.give[f] * w
}

func (m *model) in(f, to int, w float64)    { m.dE[to] += m.part.give[f] * w }
func (m *model) out(f, from int, w float64) { m.dE[from] -= m.part.take[f] * w }
