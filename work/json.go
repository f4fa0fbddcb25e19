package work

import (
	"bufio"
	"bytes"
	"encoding/json"
	"fmt"
	"io"
	"math"
	"reflect"
	"strconv"
	"strings"
)

// object is a JSON object whose members keep their order.
type object []member

type member struct {
	key   string
	value any
}

// list is a JSON list.
type list []any

// writeJSON writes objects, lists, texts, numbers and truths, indented.
// Objects and lists of nothing but numbers stand on one line, so that a
// person can read the file too. Characters such as < stay as they are: this
// goes into files and pipes, not into pages.
func writeJSON(w io.Writer, v any) error {
	b := bufio.NewWriter(w)
	if err := encode(b, v, ""); err != nil {
		return err
	}
	b.WriteByte('\n')
	return b.Flush()
}

func encode(b *bufio.Writer, v any, indent string) error {
	switch v := v.(type) {
	case nil:
		b.WriteString("null")
	case bool:
		b.WriteString(strconv.FormatBool(v))
	case int:
		b.WriteString(strconv.Itoa(v))
	case uint64:
		b.WriteString(strconv.FormatUint(v, 10))
	case float64:
		b.WriteString(digits(v))
	case string:
		return text(b, v)
	case []float64:
		b.WriteByte('[')
		for i, x := range v {
			if i > 0 {
				b.WriteString(", ")
			}
			b.WriteString(digits(x))
		}
		b.WriteByte(']')
	case list:
		return each(b, '[', ']', indent, len(v), false, func(i int, in string) error { return encode(b, v[i], in) })
	case object:
		flat := true
		for _, m := range v {
			switch m.value.(type) {
			case float64, int, bool, nil:
			default:
				flat = false
			}
		}
		return each(b, '{', '}', indent, len(v), flat && len(v) <= 5, func(i int, in string) error {
			if err := text(b, v[i].key); err != nil {
				return err
			}
			b.WriteString(": ")
			return encode(b, v[i].value, in)
		})
	default:
		return fmt.Errorf("%T has no form in JSON", v)
	}
	return nil
}

// each writes the members between two brackets.
func each(b *bufio.Writer, open, shut byte, indent string, n int, flat bool, one func(i int, indent string) error) error {
	in, sep, end := indent+"  ", ",\n"+indent+"  ", "\n"+indent
	if flat {
		sep, end = ", ", ""
	}
	b.WriteByte(open)
	for i := range n {
		switch {
		case i > 0:
			b.WriteString(sep)
		case !flat:
			b.WriteString("\n" + in)
		}
		if err := one(i, in); err != nil {
			return err
		}
	}
	if n > 0 {
		b.WriteString(end)
	}
	return b.WriteByte(shut)
}

// digits is a number of six significant digits: more than any figure here is
// known to, and the same on every processor. Not a number is null.
func digits(v float64) string {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return "null"
	}
	s := strconv.FormatFloat(v, 'g', 6, 64)
	if x, err := strconv.ParseFloat(s, 64); err == nil {
		if x == 0 {
			return "0"
		}
		if a := math.Abs(x); a >= 1e-4 && a < 1e15 {
			return strconv.FormatFloat(x, 'f', -1, 64)
		}
	}
	return s
}

func text(b *bufio.Writer, s string) error {
	var t bytes.Buffer
	e := json.NewEncoder(&t)
	e.SetEscapeHTML(false)
	if err := e.Encode(s); err != nil {
		return err
	}
	_, err := b.WriteString(strings.TrimSuffix(t.String(), "\n"))
	return err
}

// numbersOf is the floats of a struct as an object, keys from its json tags.
func numbersOf(v any) object {
	var o object
	s := reflect.ValueOf(v)
	for i := range s.NumField() {
		key, _, _ := strings.Cut(s.Type().Field(i).Tag.Get("json"), ",")
		if key == "" || key == "-" || s.Field(i).Kind() != reflect.Float64 {
			continue
		}
		o = append(o, member{key, s.Field(i).Float()})
	}
	return o
}
