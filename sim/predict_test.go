package sim

import (
	"context"
	"fmt"
	"testing"
	"time"
)

func TestPredictDemo(t *testing.T) {
	t0 := time.Now()
	p, err := Predict(context.Background(), demo(), Options{})
	if err != nil {
		t.Fatal(err)
	}
	fmt.Println(time.Since(t0), "failed", p.Failed)
	for i, q := range p.Figures {
		fmt.Printf("%-28s %9.3g %9.3g %9.3g never %.2f  median run %.3g\n", figureInfo[i].Key, q.P10, q.P50, q.P90, q.Never, p.Median[i])
	}
	for _, l := range p.Limits {
		fmt.Println(l.Sentence)
	}
	for k, d := range p.Drivers {
		fmt.Print(k, ": ")
		for _, x := range d {
			fmt.Printf("%s %.2f; ", x.Parameter, x.Share)
		}
		fmt.Println()
	}
	fmt.Printf("%+v\n", p.Worst)
}
