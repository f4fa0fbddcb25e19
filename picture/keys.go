package picture

import "strings"

// keys is a set of keys of the design file ("ring.bore", "row[2].hole",
// "pot").
type keys []string

// has reports whether a key, the part it belongs to or a property of it is in
// the set.
func (k keys) has(key string) bool {
	for _, s := range k {
		if s == key || strings.HasPrefix(s, key+".") || strings.HasPrefix(key, s+".") {
			return true
		}
	}
	return false
}

// any reports whether one of the keys is in the set.
func (k keys) any(list ...string) bool {
	for _, s := range list {
		if k.has(s) {
			return true
		}
	}
	return false
}
