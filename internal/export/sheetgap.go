package export

import "linemap/internal/route"

// gap words one pipe that no run covers.
func (w *wording) gap(s *route.Shortfall) gap {
	what := w.pipeSpec(s.Pipe)
	if p := w.pipeData(s.Pipe); p != nil {
		what = list(what, w.deposit(p))
	}
	return gap{
		Pipe: capital(w.thePipe(s.Pipe)), What: what, Length: w.sys.Length(s.Length),
		Why: sentence(s.Why(w.sys)), Cure: sentence(s.Cure.Say(w.sys)),
	}
}
