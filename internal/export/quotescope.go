package export

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"linemap/internal/network"
	"linemap/internal/route"
	"linemap/internal/unit"
)

// scope says what the price includes.
func (q *quoting) scope() []string {
	w := &q.work
	if w.Runs == 0 {
		return []string{"By the plan no drain of this job can be cleaned."}
	}
	out := []string{
		fmt.Sprintf("Cleaning %s of drain (%s) with a water jetter: %s through %s, from %s for the trailer.",
			q.sys.Length(w.Length()), counted(w.Pipes, "pipe"), counted(w.Runs, "run"), counted(w.Openings, "opening"), counted(w.Spots, "place")),
		"Setting up and packing up, laying hose, opening and closing the openings, and filling the tank.",
	}
	if said := q.deposits(); said != "" {
		out = append(out, "Made for the deposits noted: "+said+".")
	}
	return out
}

// deposits lists what the planned runs take out, each with how bad it is noted:
// "grease (light to heavy), roots".
func (q *quoting) deposits() string {
	type seen struct{ least, most int }
	var order []network.Deposit
	found := map[network.Deposit]seen{}
	steps := []network.Severity{network.Light, network.Moderate, network.Heavy}
	for _, run := range q.plan.Runs() {
		for _, leg := range run.Path {
			p := q.pipeData(leg.Pipe)
			if !leg.Cleaned || p == nil || p.Deposit == "" || p.Deposit == network.NoDeposit {
				continue
			}
			at := slices.Index(steps, cmp.Or(p.Severity, network.Moderate))
			was, ok := found[p.Deposit]
			if !ok {
				order, was = append(order, p.Deposit), seen{at, at}
			}
			found[p.Deposit] = seen{min(was.least, at), max(was.most, at)}
		}
	}
	said := make([]string, len(order))
	for i, d := range order {
		said[i] = q.deposit(&network.Pipe{Deposit: d})
		if f := found[d]; f.least == f.most && f.least >= 0 {
			said[i] += " (" + string(steps[f.least]) + ")"
		} else if f.least >= 0 {
			said[i] += " (" + string(steps[f.least]) + " to " + string(steps[f.most]) + ")"
		}
	}
	return strings.Join(said, ", ")
}

// notIncluded says which pipe of the job the price leaves out and why, and how
// much pipe is no part of the job.
func (q *quoting) notIncluded() []string {
	var out []string
	for i := range q.plan.Shortfalls {
		s := &q.plan.Shortfalls[i]
		said := fmt.Sprintf("%s of %s: %s.", q.sys.Length(s.Length), q.pipeForCustomer(s.Pipe, s.Name), q.plainly(s))
		switch s.Cure.Kind {
		case route.NewCleanout, route.ClearByHand:
			said += " To include it: " + s.Cure.Say(q.sys) + "."
		}
		out = append(out, said)
	}
	pipes, length := 0, unit.Length(0)
	for i := range q.site.Network.Pipes {
		if q.site.Network.Pipes[i].OutOfJob {
			pipes++
			length += q.graph.Length(i)
		}
	}
	if pipes > 0 {
		out = append(out, fmt.Sprintf("%s of pipe (%s) that is on the drawing and is no part of this job.", q.sys.Length(length), counted(pipes, "pipe")))
	}
	return out
}

// pipeForCustomer names a pipe by what it is and where: "2 in lateral, FS-1 arm,
// Laundry".
func (q *quoting) pipeForCustomer(id network.PipeID, name string) string {
	p := q.pipeData(id)
	if p == nil {
		return "pipe " + name
	}
	class := word(classWords, p.Class)
	if class == "" {
		class = "pipe"
	}
	return list(p.Size.In(q.sys)+" "+class, p.Label, q.where(p))
}

// where is a room or a level at an end of a pipe, the upper end first.
func (q *quoting) where(p *network.Pipe) string {
	i, _ := q.graph.PipeIndex(p.ID)
	level := ""
	for _, n := range []int{q.graph.Up[i], q.graph.Down[i]} {
		if n < 0 {
			continue
		}
		node := &q.site.Network.Nodes[n]
		if node.Access != nil && node.Access.Room != "" {
			return node.Access.Room
		}
		if level == "" {
			level = node.Level
		}
	}
	return level
}

// plainly says why a pipe is left, in words for someone who owns it and knows no
// hose.
func (q *quoting) plainly(s *route.Shortfall) string {
	switch s.Reason {
	case route.OverReel:
		return "our hose does not reach it"
	case route.OverBends:
		return "there are more bends on the way than our hose takes"
	case route.HoseTooLarge:
		return "it, or the way to it, is too narrow for our hose"
	case route.HoseTooSmall:
		return "it, or the way to it, is too wide for our hose"
	case route.NoAccess:
		return "no access"
	case route.TurnTooSharp:
		return "a turn on the way is too sharp for our hose"
	case route.BranchTurn:
		return "our hose cannot be steered into it"
	case route.PullShort:
		return "the jet cannot pull our hose that far"
	case route.NoNozzle:
		return "we have no nozzle for it"
	case route.Blocked:
		if s.What != "" {
			return "a " + strings.ReplaceAll(s.What, "_", " ") + " is in the way"
		}
		return "something is in the way"
	case route.NoWater:
		return "there is not enough water on site"
	case route.NoSpot:
		return "there is no place where our trailer can stand"
	case route.NoHose:
		return "we have no hose for it"
	case route.BarredByHand, route.KeptByHand, route.LeftOut:
		return "left out on purpose"
	}
	return small(strings.TrimSuffix(s.Why(q.sys), "."))
}

// remarks are what whoever checks the sum must know.
func (q *quoting) remarks() []string {
	prices, places := q.prices, "whole units"
	switch n := prices.Places(); n {
	case 0:
	case 1:
		places = "1 digit after the point"
	default:
		places = fmt.Sprintf("%d digits after the point", n)
	}
	out := []string{fmt.Sprintf("Each amount is its quantity, as printed, times its rate, rounded half up to %s of %s.", places, prices.Currency)}
	if !prices.TaxPercent.IsZero() {
		out[0] += " Tax is taken once on the sum and rounded the same way."
	}
	for _, s := range q.bill.Unpriced {
		out = append(out, fmt.Sprintf("%s of %s pipe is cleaned, and there is no rate for its size: its length is not charged.",
			q.sys.Length(s.Length), s.Size.In(q.sys)))
	}
	if q.work.NightUnknown {
		out = append(out, "The job has no starting time yet, so no hours at night are counted.")
	}
	if said := days(&q.site.Rig.Crew, q.work.Hours); said != "" {
		out = append(out, "The job takes "+said)
	}
	return out
}
