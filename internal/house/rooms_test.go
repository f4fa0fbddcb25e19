package house

import (
	"path"
	"strings"
)

// floors is the house. A name that ends in /* stands for the folders under it,
// each a room of its own; rooms with declared parts are in parts below.
var floors = map[string]int{
	"cmd/toplit":      9,
	"web":             8,
	"work":            7,
	"bench":           6,
	"publish/*":       6,
	"learn/*":         5,
	"picture":         5,
	"sim":             4,
	"burn/*":          4,
	"firing":          3,
	"stove":           2,
	"stove/catalogue": 2,
	"physics/*":       2,
	"stats":           2,
	"numeric":         1,
	"drawing":         1,
	"quantity":        1,
}

// parts names what may stand under a starred room. The room's own folder may
// hold a package too, which all its parts may use.
var parts = map[string][]string{
	"publish": {"cutsheet", "report", "parcel"},
	"learn":   {"size", "compare", "question", "fit", "advise", "beside"},
	"burn":    {"intake", "phase", "score"},
	"physics": {"gas", "water", "air", "fuel", "draft", "heat", "bed", "flame"},
}

// steps is the order inside physics: a law may use laws of a lower step only.
// Air is a gas with water in it, so it stands on both.
var steps = map[string]int{
	"physics/gas": 1, "physics/water": 2, "physics/air": 3,
	"physics/fuel": 4, "physics/draft": 4, "physics/heat": 4,
	"physics/bed": 5, "physics/flame": 5,
}

// place is where a package stands.
type place struct {
	room  string // the key of floors, or "tools", "internal"
	floor int
}

// locate finds the room of a package, given by its path inside the module.
func locate(pkg string) (place, bool) {
	first, rest, _ := strings.Cut(pkg, "/")
	switch first {
	case "tools":
		return place{"tools", 10}, true
	case "internal":
		return place{"internal", 0}, true
	}
	if list, ok := parts[first]; ok {
		star := first + "/*"
		if rest == "" {
			return place{star, floors[star]}, true
		}
		part, _, _ := strings.Cut(rest, "/")
		for _, p := range list {
			if p == part {
				return place{star, floors[star]}, true
			}
		}
		return place{}, false
	}
	// The longest room that holds the package: stove/catalogue before stove.
	for name := pkg; name != "." && name != "/"; name = path.Dir(name) {
		if f, ok := floors[name]; ok {
			return place{name, f}, true
		}
	}
	return place{}, false
}

// fault says what is wrong with package from importing package to, or nothing.
func fault(from, to string) string {
	a, okA := locate(from)
	b, okB := locate(to)
	switch {
	case !okA:
		return "stands in no known room"
	case !okB:
		return "imports a package of no known room"
	case b.room == "tools":
		return "imports a tool"
	case b.room == "internal":
		if a.room != "internal" && a.room != "tools" {
			return "imports what is there for tests only"
		}
		return ""
	case from == "internal/designs" && b.floor <= 3:
		return "" // it makes random stoves for the tests of the rooms above
	case a.room == "internal":
		return "is there for tests and imports a room; put that in a _test.go file"
	case a.floor > b.floor:
		return ""
	case a.floor < b.floor:
		return "points up"
	}
	// One floor.
	switch {
	case a.room == "physics/*" && b.room == "physics/*":
		low, high := steps[physicsLaw(to)], steps[physicsLaw(from)]
		if physicsLaw(from) == physicsLaw(to) || low < high {
			return ""
		}
		return "breaks the order of the laws: gas, water, air, then fuel, draft, heat, then bed, flame"
	case a.room == b.room:
		return ""
	case a.room == "stove" && b.room == "stove/catalogue":
		return ""
	}
	return "points sideways"
}

// physicsLaw cuts a package path down to physics/LAW.
func physicsLaw(pkg string) string {
	f := strings.SplitN(pkg, "/", 3)
	return strings.Join(f[:min(2, len(f))], "/")
}
