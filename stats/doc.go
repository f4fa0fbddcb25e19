// Package stats makes statements about data: how large, how scattered, between
// which limits, how good a forecast was and what a figure depends on. It knows
// nothing of stoves or burns.
//
// Samples are plain slices and are never changed. A statement that cannot be
// made (no data, a weight below zero, a confidence outside 0 to 1) is NaN,
// never a panic. Samples of outcomes may hold +Inf, which stands for "never":
// quantiles, ranks and scores then speak of the whole sample, never included.
//
// Valid for samples that fit in memory. It does not fit models, does not test
// hypotheses and does not draw samples.
//
// Equations, sources and accuracy: docs/model/statistics.md.
package stats
