package work

import "sync"

// inOrder makes a report of progress that many goroutines may call into one
// that is called by one at a time and never goes back.
func inOrder(report func(done, all int)) func(done, all int) {
	if report == nil {
		return nil
	}
	var mu sync.Mutex
	most := 0
	return func(done, all int) {
		mu.Lock()
		defer mu.Unlock()
		if done > most {
			most = done
			report(done, all)
		}
	}
}
