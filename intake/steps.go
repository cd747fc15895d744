package intake

import (
	"errors"
	"runtime"
	"sync"
)

// steps counts work done and tells it onward, one call at a time.
type steps struct {
	lock   sync.Mutex
	tell   Progress
	behind int
	total  int
}

func newSteps(p Progress) *steps { return &steps{tell: p} }

func (s *steps) say(what string) { s.step(0, what) }

func (s *steps) done(what string) { s.step(1, what) }

func (s *steps) skip(n int) {
	s.lock.Lock()
	s.behind += n
	s.lock.Unlock()
}

func (s *steps) add(n int) {
	s.lock.Lock()
	s.total += n
	s.lock.Unlock()
}

func (s *steps) step(n int, what string) {
	s.lock.Lock()
	defer s.lock.Unlock()
	s.behind += n
	if s.tell != nil {
		s.tell(s.behind, s.total, what)
	}
}

func (l *loader) each(what string, do func(*job) error) error {
	return l.eachOf(l.jobs, what, do)
}

// eachOf works on the jobs side by side and joins their errors in the jobs'
// order. It stops early only when the context ends.
func (l *loader) eachOf(jobs []*job, what string, do func(*job) error) error {
	errs := make([]error, len(jobs))
	next := make(chan int)
	var wg sync.WaitGroup
	for range min(runtime.GOMAXPROCS(0), len(jobs)) {
		wg.Go(func() {
			for i := range next {
				l.steps.say(what + " " + jobs[i].part.Name)
				errs[i] = do(jobs[i])
				l.steps.done(what + " " + jobs[i].part.Name)
			}
		})
	}
	for i := range jobs {
		if l.ctx.Err() != nil {
			break
		}
		next <- i
	}
	close(next)
	wg.Wait()
	if err := l.ctx.Err(); err != nil {
		return err
	}
	return errors.Join(errs...)
}
