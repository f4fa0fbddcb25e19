//go:build !unix

package main

import "time"

var begin = time.Now()

// processorTime is the time since the start [s], for want of a better one.
func processorTime() float64 { return time.Since(begin).Seconds() }
