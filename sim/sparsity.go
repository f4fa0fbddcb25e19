package sim

import "toplit/numeric"

// sparsity lists which rows each column of the Jacobian can reach, for the
// sparse elimination. The gas side is dense; a solid sees the gas, its
// neighbours and what counts it.
func sparsity(x *index) (*numeric.Pattern, error) {
	all := func(from, n int) (rows []int) {
		for i := range n {
			rows = append(rows, from+i)
		}
		return rows
	}
	quads := all(x.quad, nQuads)
	gas := all(0, x.solids)
	walls, outers := all(x.wall, x.walls), all(x.outer, x.outers)
	heat := []int{iTBed, iTGas, iTFlame, iTAir}
	join := func(parts ...[]int) (rows []int) {
		for _, p := range parts {
			rows = append(rows, p...)
		}
		return append(rows, quads...)
	}
	columns := make([][]int, x.active)
	for j := range x.solids {
		columns[j] = join(gas, walls, outers, []int{x.base, x.top, x.pot})
	}
	for i := range x.walls {
		own := []int{x.wall + i}
		if i > 0 {
			own = append(own, x.wall+i-1)
		}
		if i+1 < x.walls {
			own = append(own, x.wall+i+1)
		}
		if x.outers > 0 {
			own = append(own, x.outer+i*x.outers/x.walls)
		}
		columns[x.wall+i] = join(heat, own)
	}
	for j := range x.outers {
		columns[x.outer+j] = join(heat, walls, []int{x.outer + j})
	}
	columns[x.base] = join(heat, []int{x.base, x.floor, x.ground})
	columns[x.floor] = join(heat, []int{x.base, x.floor, x.ground})
	columns[x.top] = join(heat, []int{x.top, x.pot})
	columns[x.pot] = join(heat, []int{x.top, x.pot, x.water, x.mass})
	columns[x.water] = join([]int{x.pot, x.water, x.mass})
	columns[x.mass] = join([]int{x.pot, x.water, x.mass})
	for i := range x.grounds {
		k := x.ground + i
		rows := []int{k}
		if i > 0 {
			rows = append(rows, k-1)
		} else {
			rows = append(rows, x.base, x.floor)
		}
		if i+1 < x.grounds {
			rows = append(rows, k+1)
		}
		columns[k] = join(rows)
	}
	return numeric.NewPattern(x.dim, nQuads, columns, all(0, x.active))
}
