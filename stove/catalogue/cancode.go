package catalogue

import (
	"fmt"
	"math"
	"strings"
)

const (
	inch      = 0.0254      // [m], international yard 1959
	sixteenth = inch / 16.0 // [m]
)

// DecodeCode reads a trade code such as "603x700" (also "603 × 700") as the
// diameter over the double seam and the overall height [m]. Each number is
// whole inches and two digits of sixteenths, 00 to 15; ten inches and more
// have four digits ("1012" is 10 12/16 in).
//
// Source: Can Manufacturers Institute, explanation of dimensional food can
// standards: outside dimensions of the empty round can before the packer's
// end is seamed on.
func DecodeCode(code string) (diameter, height float64, err error) {
	parts := strings.Split(codeText(code), "x")
	switch {
	case len(parts) == 3:
		return 0, 0, fmt.Errorf("can code %q: three numbers are a rectangular can; a round can is diameter x height, such as 603x700", code)
	case len(parts) != 2:
		return 0, 0, fmt.Errorf("can code %q: two numbers with an x between are wanted, such as 603x700", code)
	}
	if diameter, err = decode(parts[0]); err == nil {
		height, err = decode(parts[1])
	}
	if err != nil {
		return 0, 0, fmt.Errorf("can code %q: %w", code, err)
	}
	return diameter, height, nil
}

// codeText brings the ways of writing the cross to one.
func codeText(code string) string {
	code = strings.ToLower(strings.TrimSpace(code))
	code = strings.NewReplacer("×", "x", "✕", "x", "*", "x", " by ", "x", " ", "", "\u00a0", "").Replace(code)
	return code
}

func decode(digits string) (float64, error) {
	if len(digits) < 3 || len(digits) > 4 || strings.Trim(digits, "0123456789") != "" {
		return 0, fmt.Errorf("%q is not three digits (inches and two digits of sixteenths) or four from ten inches up", digits)
	}
	if len(digits) == 4 && digits[0] == '0' {
		return 0, fmt.Errorf("%q: four digits are for ten inches and more", digits)
	}
	n := 0
	for _, d := range digits {
		n = 10*n + int(d-'0')
	}
	whole, parts := n/100, n%100
	if parts > 15 {
		return 0, fmt.Errorf("%q: the last two digits are sixteenths of an inch, 00 to 15", digits)
	}
	if n == 0 {
		return 0, fmt.Errorf("%q is no size", digits)
	}
	return float64(16*whole+parts) * inch / 16, nil
}

// EncodeCode is the code nearest to a diameter over the seam and an overall
// height [m], "" when either does not fit three or four digits.
func EncodeCode(diameter, height float64) string {
	d, h := encode(diameter), encode(height)
	if d == "" || h == "" {
		return ""
	}
	return d + "x" + h
}

func encode(size float64) string {
	n := math.Round(size / sixteenth)
	if !(n >= 16 && n < 100*16) { // less than an inch has no three-digit code in use
		return ""
	}
	return fmt.Sprintf("%d%02d", int(n)/16, int(n)%16)
}
