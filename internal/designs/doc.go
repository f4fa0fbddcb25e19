// Package designs makes random firings that are valid, for tests: the same
// seed gives the same firing on every machine. Valid means that firing.Check
// finds no error; warnings are allowed, because the model has to hold for poor
// stoves too.
//
// Sizes come from what makers build: cans of 60 to 250 mm, holes of 2 to
// 14 mm, charges from a cupful to a bucket; water from a spoonful that boils
// dry to a full pot. Ranges are common practice, no source. What is drawn is
// spread over the corners of what a design may hold, not over what is usual.
//
// Only tests import it.
package designs
