package sample

import (
	"linemap/internal/network"
	"linemap/internal/unit"
)

// room is what one branch of a building serves.
type room struct {
	size     unit.Size // of the branch
	fixtures []fixture // as they follow one another, over and over
	deposit  network.Deposit
	weight   int // how often it is met with
}

type fixture struct {
	series string
	size   unit.Size
}

var (
	restroom = room{4, []fixture{{"WC", 3}, {"WC", 3}, {"LAV", 2}, {"UR", 2}, {"FD", 2}, {"LAV", 1.5}}, network.Sediment, 5}
	pantry   = room{3, []fixture{{"SK", 2}, {"FD", 2}, {"SK", 2}}, network.Grease, 2}
	plant    = room{4, []fixture{{"FD", 3}, {"MS", 3}, {"FD", 3}, {"FD", 2}}, network.Sediment, 2}
	laundry  = room{3, []fixture{{"WB", 2}, {"WB", 2}, {"FD", 2}}, network.UnknownDep, 1}
	kitchen  = room{4, []fixture{{"FS", 3}, {"FD", 3}, {"FS", 2}, {"FS", 3}, {"FD", 2}}, network.Grease, 0}
)

var rooms = []room{restroom, pantry, plant, laundry}

// anyRoom picks a room, the frequent ones more often.
func (b *building) anyRoom() room {
	sum := 0
	for _, k := range rooms {
		sum += k.weight
	}
	at := b.rand.IntN(sum)
	for _, k := range rooms {
		if at -= k.weight; at < 0 {
			return k
		}
	}
	return restroom
}

// least is what the smallest branch of a room takes, its fitting included: a
// pipe to the fitting of its one fixture, the fixture's arm, and the end.
const least = 4

// branches makes branches that take a number of pipes, with the pipe that each
// of their fittings adds to the line that takes them in. What is too little for a
// branch becomes arms.
func (b *building) branches(pipes int) []*line {
	var all []*line
	for pipes >= least {
		n := min(2+b.rand.IntN(4), pipes/2-1)
		l := b.serve(b.anyRoom(), n)
		if b.towers && pipes >= least+8 && b.rand.IntN(6) == 0 {
			l = b.tower(min(n, (pipes-4)/2-1))
		}
		all = append(all, l)
		pipes -= l.pipes() + 1
	}
	for ; pipes >= 2; pipes -= 2 {
		all = append(all, b.arm(plant, plant.fixtures[0], b.inside))
	}
	return all
}

// serve is the branch of a room with a number of fixtures.
func (b *building) serve(k room, fixtures int) *line {
	size := k.size
	if b.small {
		size = min(size, 4)
	}
	of := b.refit()
	l := &line{pipe: b.piping(network.Branch, size, of, k.deposit), rest: 3 + 2*b.rand.Float64()}
	if b.rand.IntN(20) == 0 {
		l.pipe.OutOfJob = true
	}
	first := b.rand.IntN(len(k.fixtures))
	for i := range fixtures {
		t := tap{gap: 3.5 + 2*b.rand.Float64(), node: junction(network.Wye), series: "Y", left: i%2 == 0, lead: 1.5}
		if i == 0 {
			t.gap += 3
		}
		if b.rand.IntN(4) == 0 {
			t.node = junction(network.Combination)
		}
		t.line = b.arm(k, k.fixtures[(first+i)%len(k.fixtures)], of)
		t.line.pipe.OutOfJob = t.line.pipe.OutOfJob || l.pipe.OutOfJob
		l.taps = append(l.taps, t)
	}
	l.end, l.series = cleanout(network.FacesDownstream, size, true), "CO"
	if b.rand.IntN(4) == 0 {
		l.end, l.series = network.Node{Kind: network.KindFixture}, "FD"
	}
	return l
}

// arm is the arm of one fixture: one pipe.
func (b *building) arm(k room, f fixture, of network.Material) *line {
	l := &line{
		pipe: b.piping(network.Lateral, f.size, of, k.deposit), rest: 2 + 3*b.rand.Float64(),
		end: network.Node{Kind: network.KindFixture}, series: f.series,
	}
	if f.size <= 2 {
		l.pipe.OutOfJob = b.rand.IntN(7) == 0
	}
	if f.series == "WC" && b.rand.IntN(10) == 0 {
		l.end, l.series = access(network.PulledFixture, f.size), "PF"
		l.end.Access.Indoor, l.end.Access.OpenMinutes = true, 20
	}
	return l
}

// tower is a branch to a stack with a restroom on the floor above.
func (b *building) tower(fixtures int) *line {
	l := &line{pipe: b.piping(network.Branch, 4, b.inside, network.Sediment), rest: 10, end: bend(90), series: "B"}
	l.tower = &tower{pipe: b.piping(network.Stack, 4, b.inside, network.NoDeposit), above: b.serve(restroom, fixtures)}
	return l
}
