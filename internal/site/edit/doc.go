// Package edit changes a site, one named step at a time, and takes the steps
// back.
//
// An [Edit] is a value that does and undoes one step. It is made by a function
// of this package that is named after what the user does (DrawPipe, Move,
// Delete): it takes the site and says what would change, or why it cannot, and
// leaves the site as it is. [History] carries edits out and keeps them for undo
// and redo. Undoing everything gives the first bytes back.
//
// Every such function works through a [Draft], which records what changes. The
// elements of a site are values: a Draft puts a whole new node in the place of
// the old one and never writes through a pointer that the site holds, so that
// an edit can keep the old one for nothing.
package edit
