package work

import (
	"bufio"
	"io"
)

// WriteCSV writes the curves as comma separated values: a line of names that
// carry their units, then one line for each time after lighting. A name ends
// in the quantile: of ten burns one lies below _p10, half below _p50, nine
// below _p90.
func (p *Prediction) WriteCSV(w io.Writer) error {
	b := bufio.NewWriter(w)
	b.WriteString("time_s")
	for _, c := range p.Curves {
		for _, q := range []string{"_p10", "_p50", "_p90"} {
			b.WriteString("," + c.Key + q)
		}
	}
	b.WriteByte('\n')
	for k, t := range p.Time {
		b.WriteString(digits(t))
		for _, c := range p.Curves {
			for _, v := range [][]float64{c.P10, c.P50, c.P90} {
				b.WriteByte(',')
				if s := digits(v[k]); s != "null" {
					b.WriteString(s)
				}
			}
		}
		b.WriteByte('\n')
	}
	return b.Flush()
}
