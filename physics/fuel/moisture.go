package fuel

import "fmt"

// DryBasis turns moisture on wet basis M [kg water per kg wet fuel] into dry
// basis X [kg water per kg dry fuel]: X = M/(1 − M).
func DryBasis(M float64) float64 { return M / (1 - M) }

// WetBasis turns moisture on dry basis X into wet basis M: M = X/(1 + X).
func WetBasis(X float64) float64 { return X / (1 + X) }

// MoistureByDrying is the moisture on wet basis [kg/kg] and its standard
// uncertainty from weighing a sample before and after drying at 103 to 105 °C
// until two weighings agree (method of ISO 18134), with the empty dish and the
// standard uncertainty of one reading of the scale [all kg].
//
//	M = (before − after)/(before − dish)
//
// The three readings count as independent. What the oven leaves behind or
// takes too much of (volatile oils, up to about 0.5 points in resinous wood,
// [memory]) is not in the uncertainty.
func MoistureByDrying(before, after, dish, scale float64) (M, sd float64, err error) {
	wet := before - dish
	switch {
	case !(dish >= 0) || !(scale >= 0):
		return 0, 0, fmt.Errorf("moisture by drying: dish %g kg and scale uncertainty %g kg must not be negative", dish, scale)
	case !(after > dish):
		return 0, 0, fmt.Errorf("moisture by drying: dried mass %g kg must exceed the dish, %g kg", after, dish)
	case !(before >= after):
		return 0, 0, fmt.Errorf("moisture by drying: mass before %g kg is less than after, %g kg", before, after)
	}
	M = (before - after) / wet
	// ∂M/∂before = (1−M)/wet, ∂M/∂after = −1/wet, ∂M/∂dish = M/wet
	sd = scale / wet * sqrtSum(1-M, 1, M)
	return M, sd, nil
}
