// Package form holds the forms around the board: the card of what is selected,
// and the dialogs of the job, the rig, the levels and the rest of the site.
//
// A form is a table of fields: what a figure is called, where it lies in a
// thing, and in which measure people write it. One engine makes every form from
// its table: it shows what all the things selected have in common, takes what
// is typed when Enter is pressed or the field is left, says under the field
// what is wrong with it, and makes one edit of it on the desk. What a figure
// may be stands in the schema of the site file and nowhere else.
//
// [New] makes the card. The dialogs are functions named after what they are
// about: [JobForm], [RigForm], [LibraryForm], [PricesForm], [VisitsForm],
// [LevelsForm], [SettingsForm], [EarthForm].
package form
