package hand

// escape goes one step back.
func (t *Draw) escape() Reply {
	t.press = nil
	switch n := len(t.points); {
	case !t.typed.empty():
		t.typed = typed{}
	case n > 1:
		t.points = t.points[:n-1]
	case n == 1:
		t.drop()
	default:
		return Reply{Tool: NewPick()}
	}
	return Reply{}
}

func (t *Draw) key(w *World, ev Event) Reply {
	n := len(t.points)
	switch {
	case n == 0:
		return Reply{Unused: true}
	case enters(ev) && !t.typed.empty():
		return t.put(w)
	case enters(ev):
		return t.finish(w)
	case ev.Key == "Tab":
		t.typed.turning = !t.typed.turning
		if !t.typed.turning {
			t.typed.turn = ""
		}
	case ev.Key != "BackSpace":
		return Reply{Unused: true}
	case t.typed.back():
	case n > 1:
		t.points = t.points[:n-1]
	default:
		t.drop()
	}
	return Reply{}
}

// rune takes a character. A letter that takes another tool in hand ends the pipe
// first, so that nothing drawn is lost.
func (t *Draw) rune(w *World, r rune) Reply {
	if !t.Busy() {
		return Reply{Unused: true}
	}
	if t.typed.add(r) {
		return Reply{}
	}
	if len(t.points) < 2 || !isKey(r) {
		return Reply{Unused: true}
	}
	reply := t.finish(w)
	reply.Unused = reply.Err == nil
	return reply
}
