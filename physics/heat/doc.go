// Package heat is where the heat of a small stove goes: from flame and gas to
// a pot, through walls to the air, by radiation between surfaces, into the
// ground, and out of the water by evaporation.
//
// Laws of convection, radiation and conduction, each alone, with tables of
// surfaces, metals, grounds and contact limits. The functions meant for a time
// integrator allocate nothing, take any temperatures including equal ones, and
// are continuous with their slope when a temperature difference changes sign.
//
// What it will not do: fire (the gas comes with its temperature and flow),
// flow (see physics/draft), fields: walls and pots are lumps, gas is mixed
// save for the hot core and the rising sheet the functions name.
//
// Equations, sources and ranges: docs/model/pot.md, walls.md, radiation.md,
// ground.md, evaporation.md.
package heat

// Sigma is the Stefan-Boltzmann constant [W/m2 K4] (CODATA 2018, exact in SI).
const Sigma = 5.670374419e-8

const gravity = 9.80665 // [m/s2]

// Prandtl is the Prandtl number taken for air and flue gas: 0.68 to 0.74
// between 300 and 1500 K, which moves a coefficient by less than 2 %.
const Prandtl = 0.70
