// Package desk holds the document that the window works on: the site with its
// undo, what is selected, the findings and the plan that follow it, and the
// file it is kept in. It knows no window.
//
// One goroutine owns a [Desk]: the one that the window runs on. Everything that
// takes long is done on a copy of the site in a goroutine of its own, and comes
// back through the post function given to [New], so that no lock is needed and
// input is never blocked. Who wants to know of changes says so with
// [Desk.Watch].
package desk
