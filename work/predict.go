package work

import (
	"context"
	"io"
	"math"
	"slices"

	"toplit/firing"
	"toplit/quantity"
	"toplit/sim"
)

// PredictOptions says how a burn is predicted. The zero value is 256 samples
// with seed 1.
type PredictOptions struct {
	Samples  int
	Seed     uint64
	Progress func(done, all int) // may be nil; one call at a time, done rising
}

// Prediction is a predicted burn of a design.
type Prediction struct {
	*sim.Prediction
	*Design
	PotOn sim.Quantiles // after lighting [s]; never 1 without a pot
}

// Predict computes the burn of a design with its band. A design that is
// refused is an error.
func Predict(ctx context.Context, d *Design, opts PredictOptions) (*Prediction, error) {
	if err := d.Refused(); err != nil {
		return nil, err
	}
	p, err := sim.Predict(ctx, d.Firing, sim.Options{Samples: opts.Samples, Seed: opts.Seed, Progress: inOrder(opts.Progress)})
	if err != nil {
		return nil, err
	}
	return &Prediction{Prediction: p, Design: d, PotOn: potOn(p, d.Firing)}, nil
}

// potOn is when the pot goes on in the samples, from the schedule's first
// line that puts it on.
func potOn(p *sim.Prediction, f *firing.Firing) sim.Quantiles {
	nan := math.NaN()
	q := sim.Quantiles{P10: nan, P50: nan, P90: nan, Never: 1}
	if f.Conditions.Pot == nil {
		return q
	}
	i := slices.IndexFunc(f.Conditions.Schedule, func(a firing.Action) bool { return a.Do == firing.PotOn })
	if i < 0 {
		return sim.Quantiles{} // it stands there from the start
	}
	a := f.Conditions.Schedule[i]
	after := map[firing.Moment]sim.Figure{
		firing.JetsLit: sim.FJetsLit, firing.FrontBottom: sim.FFrontAtGrate, firing.YellowGone: sim.FYellowGone,
		firing.FlameOut: sim.FFlameOut, firing.GlowEnd: sim.FGlowEnd, firing.Boil: sim.FBoil,
	}
	m, relative := after[a.After]
	if !relative {
		return sim.Quantiles{P10: a.At, P50: a.At, P90: a.At}
	}
	q = p.Figures[m]
	q.P10, q.P50, q.P90 = q.P10+a.At, q.P50+a.At, q.P90+a.At
	return q
}

// JSONFormat is the version of the form of every JSON this package writes.
const JSONFormat = 1

// WriteJSON writes the whole prediction.
func (p *Prediction) WriteJSON(w io.Writer) error {
	moments, figures := momentsAndFigures(p.Prediction)
	var drivers object
	for _, info := range sim.Figures() {
		if d, ok := p.Drivers[info.Key]; ok {
			l := list{}
			for _, x := range d {
				l = append(l, object{{"parameter", x.Parameter}, {"what", x.What}, {"share", x.Share}, {"rank_correlation", x.Sign}, {"narrowed_by", narrowedBy(x.Parameter)}})
			}
			drivers = append(drivers, member{info.Key, l})
		}
	}
	limits := list{}
	for _, l := range p.Limits {
		limits = append(limits, object{{"condition", l.Condition}, {"sentence", l.Sentence}, {"weight", l.Weight}})
	}
	curves := object{{"time_s", p.Time}}
	for _, c := range p.Curves {
		curves = append(curves, member{c.Key, object{{"p10", c.P10}, {"p50", c.P50}, {"p90", c.P90}}})
	}
	return writeJSON(w, object{
		{"format", JSONFormat},
		{"model", p.Model},
		{"seed", p.Seed},
		{"samples", p.Samples},
		{"samples_failed", p.Failed},
		{"design", p.Title()},
		{"moments", moments},
		{"figures", figures},
		{"limits", limits},
		{"cautions", cautionList(p.Cautions)},
		{"findings", findings(p.Findings)},
		{"ledger", numbersOf(p.Ledger)},
		{"drivers", drivers},
		{"assumed", p.assumed()},
		{"curves", curves},
	})
}

// momentsAndFigures are the two objects every prediction has in JSON.
func momentsAndFigures(p *sim.Prediction) (moments, figures object) {
	for i, info := range sim.Figures() {
		m := member{info.Key, quantiles(p.Figures[i])}
		if info.Moment {
			moments = append(moments, m)
		} else {
			figures = append(figures, m)
		}
	}
	return moments, figures
}

func quantiles(q sim.Quantiles) object {
	return object{{"p10", q.P10}, {"p50", q.P50}, {"p90", q.P90}, {"share_never", q.Never}}
}

func cautionList(all []sim.Caution) list {
	out := list{}
	for _, c := range all {
		out = append(out, object{{"about", c.About}, {"text", c.Text}})
	}
	return out
}

// assumed is every key that was not given, with what was filled in and why.
func (d *Design) assumed() list {
	out := list{}
	for _, a := range d.Assumed(quantity.Metric) {
		out = append(out, object{{"key", a.Key}, {"value", a.Value}, {"reason", a.Reason}})
	}
	return out
}

// Assumption is a value the design file did not give.
type Assumption struct {
	Key    string // "row[2].edge"
	Value  string // as the file would have it
	Reason string // where the value comes from
}

// Assumed lists what was not given, in file order.
func (d *Design) Assumed(sys quantity.System) []Assumption {
	source := map[string]string{}
	for _, k := range firing.Keys() {
		source[k.Path()] = k.Source
	}
	var out []Assumption
	if d.Firing == nil {
		return out
	}
	for _, key := range d.Firing.Assumed {
		v, err := firing.Get(d.Firing, key, sys)
		if err != nil || v == "" {
			continue // nothing was filled in
		}
		out = append(out, Assumption{key, v, source[withoutNumber(key)]})
	}
	return out
}

// withoutNumber makes "row.edge" of "row[2].edge".
func withoutNumber(key string) string {
	for i, c := range key {
		if c == '[' {
			for j := i; j < len(key); j++ {
				if key[j] == ']' {
					return key[:i] + key[j+1:]
				}
			}
		}
	}
	return key
}
