// Package punch holds the punch list: what is to be put right in the sketch and
// what the plan leaves out, the worst first. The word is the construction
// trade's for a list of what is to be mended before a job is done.
//
// [New] makes the list of a desk. Each of its rows says where, what, the figure
// found and the limit with its source, and what to do; a click goes to the
// place, and a button carries out a cure that one edit can. [Mend] tells which
// cures those are.
package punch
