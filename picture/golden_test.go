package picture

import (
	"bytes"
	"flag"
	"os"
	"path/filepath"
	"testing"

	"github.com/google/go-cmp/cmp"

	"toplit/drawing"
)

var update = flag.Bool("update", false, "write the golden pictures anew; look at them before keeping them")

// golden compares a picture with the one that was looked at and kept.
func golden(t *testing.T, name string, s *drawing.Sheet) {
	t.Helper()
	var b, again bytes.Buffer
	if err := drawing.WriteSVG(&b, s); err != nil {
		t.Fatal(err)
	}
	if err := drawing.WriteSVG(&again, s); err != nil || !bytes.Equal(b.Bytes(), again.Bytes()) {
		t.Error("two writings of one sheet differ")
	}
	file := filepath.Join("testdata", name+".svg")
	if *update {
		if err := os.MkdirAll("testdata", 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(file, b.Bytes(), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(string(want), b.String()); diff != "" {
		t.Errorf("%s differs from the picture kept; look at it, then run with -update:\n%s", file, diff)
	}
}

func TestSectionPictures(t *testing.T) {
	for _, s := range samples() {
		t.Run(s.name, func(t *testing.T) {
			golden(t, s.name, Section(s.design, s.conditions, s.options))
		})
	}
}

func TestSmallPictures(t *testing.T) {
	d, c := twoCan()
	golden(t, "small", Small(d, c, SmallOptions{Changed: []string{"ring.bore"}}))
}

func TestChartPictures(t *testing.T) {
	golden(t, "burn", BurnChart(sampleBurn(), ChartOptions{}))
	golden(t, "burn-measured", BurnChart(measuredBurn(), ChartOptions{White: true}))
	golden(t, "burn-short", BurnChart(shortBurn(), ChartOptions{Width: 130, Height: 55}))
	golden(t, "heat", HeatFlow(sampleHeat(), ChartOptions{}))
	gap := sampleHeat()
	gap.In, gap.Out = gap.In[:1], gap.Out[:3]
	gap.Out[2].Energy = -0.1e6
	golden(t, "heat-gap", HeatFlow(gap, ChartOptions{Width: 120, Height: 40}))
}
