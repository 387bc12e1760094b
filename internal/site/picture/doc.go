// Package picture reads pictures of floor plans, to be laid under the
// drawing: PNG, JPEG, or a page of a PDF.
//
// [Read] and [ReadPage] bring a picture in from a file and refuse what is
// broken or too large, saying why. [Picture.Embed] makes it an underlay whose
// bytes are in the document, [Picture.Beside] one whose bytes are in a file
// beside it. [Cache.Load] gives what is painted. The rest is geometry:
// where a picture lies on the ground ([Ground]) and how two points that were
// clicked put its scale right ([Rescale]).
//
// A picture taken with a turned camera is upright here: its size in dots and
// its dots are those of the picture as it is looked at.
package picture
