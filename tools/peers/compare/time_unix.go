//go:build unix

package main

import "syscall"

// processorTime is the time this process has computed [s]. On a busy machine
// it says more than the clock on the wall.
func processorTime() float64 {
	var u syscall.Rusage
	if err := syscall.Getrusage(syscall.RUSAGE_SELF, &u); err != nil {
		return 0
	}
	return float64(u.Utime.Sec+u.Stime.Sec) + 1e-6*float64(u.Utime.Usec+u.Stime.Usec)
}
