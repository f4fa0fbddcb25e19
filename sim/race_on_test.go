//go:build race

package sim

// underRace: the race detector makes everything ten times slower, and what it
// looks for shows in a few designs as well as in many.
const underRace = true
