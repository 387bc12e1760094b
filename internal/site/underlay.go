package site

import (
	"linemap/internal/network"
	"linemap/internal/unit"
)

// NoteID names a note within one site.
type NoteID string

// Note is a remark that stands on the plan.
type Note struct {
	ID    NoteID        `json:"id"`
	At    network.Point `json:"at"`
	Level string        `json:"level,omitzero"`
	Text  string        `json:"text"`
}

// UnderlayID names an underlay within one site.
type UnderlayID string

// Underlay is a picture of a floor plan under the drawing, PNG or JPEG. Exactly
// one of Data and File is set.
type Underlay struct {
	ID    UnderlayID `json:"id"`
	Label string     `json:"label,omitzero"`
	Level string     `json:"level,omitzero"`
	// At is where the middle of the picture lies, Scale the length on the
	// ground of one dot, Turn how far it is turned counterclockwise.
	At    network.Point `json:"at"`
	Scale unit.Length   `json:"scale"`
	Turn  unit.Angle    `json:"turn,omitzero"`
	// Dim is how far the picture is faded: 0 as it is, 1 not to be seen.
	Dim    float64 `json:"dim,omitzero"`
	Locked bool    `json:"locked,omitzero"`
	Hidden bool    `json:"hidden,omitzero"`
	// Data are the bytes of the picture, never changed in place. File is its
	// path, from the folder of the document.
	Data []byte `json:"data,omitzero"`
	File string `json:"file,omitzero"`
}
