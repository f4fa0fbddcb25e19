package firing

import (
	"bytes"
	"fmt"
	"os"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"toplit/quantity"
)

const small = `format = 1
name = "first can"

[fuel_can]
can = "401x411"

[[row]]
name = "base"
on = "fuel can base"
count = 16
hole = "4 mm"

[[row]]
name = "secondary"
on = "fuel can body"
count = 16
hole = "3/16 in"
below_rim = "14 mm"

[stand]
height = "40 mm"

[pot]
`

func TestSmall(t *testing.T) {
	f, err := Read(strings.NewReader(small), "small.toml")
	if err != nil {
		t.Fatal(err)
	}
	for _, sys := range []quantity.System{quantity.Metric, quantity.US} {
		var b bytes.Buffer
		if err := Write(&b, f, Options{Units: sys}); err != nil {
			t.Fatal(err)
		}
		if os.Getenv("SHOW") != "" {
			fmt.Println(b.String())
		}
		g, err := Read(bytes.NewReader(b.Bytes()), "again.toml")
		if err != nil {
			t.Fatal(err)
		}
		if d := cmp.Diff(f, g); d != "" {
			t.Error(d)
		}
	}
	for _, x := range Check(*f) {
		t.Log(x.Severity, x)
	}
}
