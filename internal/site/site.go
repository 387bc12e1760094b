// Package site holds the job document: the network with the spots, water
// points, lays, rig and crew around it, and how it is opened and saved.
//
// A document is one JSON file with the extension .linemap. Lengths in it are
// metres, angles degrees, pressures kilopascals, flows litres per minute,
// volumes litres, masses kilograms, speeds metres per minute; the JSON Schema
// in assets says so member by member. In memory every quantity is a type of
// package unit.
//
// [New] makes an empty document, [Open] and [Decode] load one, [Save] and
// [Encode] write it. Loading checks the text against the published schema and
// its references, and takes all or nothing: a [LoadError] lists each place by
// ids, the value found and the limit. Members of a later program survive a
// round trip. [Site.Findings] says what looks wrong with a document that did
// load, [LoadTables] reads the trade's figures, [Site.LayLength] and
// [Site.Inflow] measure what hose and water a spot has, and [Site.ComeBack] says
// by when the history of visits asks for another.
package site

import (
	"linemap/internal/network"
	"linemap/internal/rig"
	"linemap/internal/unit"
)

// Version is the version of the document format that this program writes.
const Version = 1

// Extension is the extension of a site file.
const Extension = ".linemap"

// Site is one job document.
type Site struct {
	Version int         `json:"linemap"`
	Job     Job         `json:"job"`
	Units   unit.System `json:"units"`
	Paper   Paper       `json:"paper"`
	// Code is the key of the code edition whose figures the findings use.
	Code string `json:"code"`
	// Geo is where on Earth the site lies, nil where that is not known.
	Geo     *Geo            `json:"geo,omitzero"`
	Network network.Network `json:"network"`
	Spots   []Spot          `json:"spots"`
	Water   []WaterPoint    `json:"water_points,omitzero"`
	Lays    []Lay           `json:"lays,omitzero"`
	// Areas say what the ground is for.
	Areas []Area `json:"areas,omitzero"`
	Notes []Note `json:"notes,omitzero"`
	// Underlays are pictures under the drawing, the lowest first.
	Underlays []Underlay `json:"underlays,omitzero"`
	ByHand    ByHand     `json:"by_hand,omitzero"`
	Rig       rig.Rig    `json:"rig"`
	// Prices are what a quote is made from, empty where none is.
	Prices Prices `json:"prices,omitzero"`
	// Visits are the days on which the drain was cleaned, the earliest first.
	Visits []Visit `json:"visits,omitzero"`

	extras *extras // members of the file that this program does not know
}

// Paper is a paper size.
type Paper string

// The paper sizes.
const (
	Letter Paper = "letter"
	A4     Paper = "a4"
)

// Job says for whom, where and when.
type Job struct {
	Title    string `json:"title"`
	Customer string `json:"customer,omitzero"`
	Address  string `json:"address,omitzero"`
	Contact  string `json:"contact,omitzero"`
	Phone    string `json:"phone,omitzero"`
	// Date is the day of the job, 2026-03-17, and Start the time the crew
	// arrives, 07:30. Both may be empty.
	Date      string `json:"date,omitzero"`
	Start     string `json:"start,omitzero"`
	Revision  string `json:"revision,omitzero"`
	Estimator string `json:"estimator,omitzero"`
	Note      string `json:"note,omitzero"`
}

// SpotID names a spot within one site.
type SpotID string

// Traffic says what traffic passes a spot.
type Traffic string

// The traffic at a spot. A spot in live traffic is not used.
const (
	NoTraffic    Traffic = "none"
	ConedTraffic Traffic = "coned"
	LiveTraffic  Traffic = "live"
)

// Spot is a place where the trailer can stand.
type Spot struct {
	ID    SpotID        `json:"id"`
	Label string        `json:"label"`
	At    network.Point `json:"at"`
	// Elevation is the height of the ground above the site's datum.
	Elevation unit.Length `json:"elevation,omitzero"`
	// Uneven ground holds no trailer; such a spot is not used.
	Uneven  bool    `json:"uneven,omitzero"`
	Traffic Traffic `json:"traffic,omitzero"`
	Note    string  `json:"note,omitzero"`
}

// WaterID names a water point within one site.
type WaterID string

// WaterKind tells what a water point is.
type WaterKind string

// The kinds of water point.
const (
	Hydrant WaterKind = "hydrant"
	HoseBib WaterKind = "hose_bib"
	Tanker  WaterKind = "tanker"
)

// WaterPoint is a place to fill the tank from.
type WaterPoint struct {
	ID    WaterID       `json:"id"`
	Label string        `json:"label"`
	Kind  WaterKind     `json:"kind"`
	At    network.Point `json:"at"`
	Flow  unit.Flow     `json:"flow"`
	Note  string        `json:"note,omitzero"`
}

// Lay is a way along the ground from a spot to an access (for the jet hose) or
// to a water point (for the supply hose), drawn where a straight line is
// blocked or measured on site. Exactly one of Access and Water is set.
type Lay struct {
	Spot   SpotID          `json:"spot"`
	Access network.NodeID  `json:"access,omitzero"`
	Water  WaterID         `json:"water,omitzero"`
	Via    []network.Point `json:"via,omitzero"`
	// Length is the length as measured, nil for the length as drawn.
	Length *unit.Length `json:"length,omitzero"`
}
