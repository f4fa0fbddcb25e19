// Package size goes the other way round: from what a maker has (cans, drills,
// fuel, pot) and wishes (boil in so long, a flame for so long) to a complete
// firing, with a reason for every size it chose.
//
// It starts from the shop rules of the trade (rules.csv), which disagree with
// one another by 1.5 to 2 times, and searches round them with the burn model:
// first with the median burn, then, for the few best, with the band, so that a
// design is preferred that lights and burns well over the whole of what is not
// known. The charge is the smallest that boils the water in nine of ten
// samples. Every size can be cut: holes are drills on hand, counts divide the
// circle, metal stays between holes, and stove.Check and firing.Check find no
// error. The same wish gives the same answer.
//
// Valid range: what the burn model covers (docs/model/burn.md), natural draft,
// round cans of 50 to 300 mm with one or two walls. It will not size a fan, a
// chimney, a skirt or anything to be used indoors, and it promises nothing: it
// says with what chance, by a model that no published can stove has tested from
// hole to boil, and what the search could not reach. See docs/model/sizing.md.
package size
