package drawing

import (
	"encoding/binary"
	"strings"
	"sync"

	"golang.org/x/image/font/gofont/gobold"
	"golang.org/x/image/font/gofont/goregular"
)

// letters are the characters that both fonts of a PDF have.
var letters = sync.OnceValue(func() map[rune]bool {
	bold := glyphs(gobold.TTF)
	both := map[rune]bool{}
	for r := range glyphs(goregular.TTF) {
		if bold[r] {
			both[r] = true
		}
	}
	return both
})

// glyphs lists the characters of a TrueType font from its table of characters
// (cmap, format 4, the one for Unicode up to ffff). A font it cannot read has
// none.
//
// Format: OpenType specification 1.9, chapter "cmap".
func glyphs(ttf []byte) map[rune]bool {
	have := map[rune]bool{}
	u16 := func(at int) int {
		if at < 0 || at+2 > len(ttf) {
			return 0
		}
		return int(binary.BigEndian.Uint16(ttf[at:]))
	}
	u32 := func(at int) int { return u16(at)<<16 | u16(at+2) }
	cmap := -1
	for i := range u16(4) {
		if at := 12 + 16*i; at+16 <= len(ttf) && string(ttf[at:at+4]) == "cmap" {
			cmap = u32(at + 8)
		}
	}
	if cmap < 0 {
		return have
	}
	for i := range u16(cmap + 2) {
		record := cmap + 4 + 8*i
		table := cmap + u32(record+4)
		if u16(record) != 3 || u16(record+2) != 1 || u16(table) != 4 {
			continue
		}
		n := u16(table + 6) // twice the number of segments
		for s := 0; s < n; s += 2 {
			last, first := u16(table+14+s), u16(table+16+n+s)
			delta, offsets := u16(table+16+2*n+s), table+16+3*n+s
			for c := first; c <= last && c < 0xffff; c++ {
				g := c
				if off := u16(offsets); off != 0 {
					if g = u16(offsets + off + 2*(c-first)); g == 0 {
						continue
					}
				}
				if (g+delta)&0xffff != 0 {
					have[rune(c)] = true
				}
			}
		}
	}
	return have
}

// pdfText is a text in the characters that the fonts of a PDF have.
func pdfText(s string) string {
	have := letters()
	var b strings.Builder
	for _, r := range s {
		switch {
		case r < ' ' || r == 0x7f || r == '\u00a0' || r == '\u202f' || r == '\u2009':
			b.WriteByte(' ')
		case have[r]:
			b.WriteRune(r)
		default:
			b.WriteByte('?')
		}
	}
	return b.String()
}
