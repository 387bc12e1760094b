/*
Package route works out the cleaning: from a site to a plan of runs in order,
with every foot of pipe in the job covered or explained.

[Solve] is the planner. Package audit below it checks any plan against the rules
without sharing code with the planner.

# The model

This is the rule book that the planner optimises under and that package audit
checks. Numbers come from the site's rig, its crew and the trade tables.

Ways. A pipe's way to the outlet is given by [network.Graph.Next]. An upstream
run enters at an access and walks p1, p2, ... with Next[p(i+1)] = p(i); a
downstream run walks along Next. A run never mixes the two.

A target is a pipe in the job. A target is reachable when some usable spot,
access in service and hose give a run that may clean it. Reachable targets must
all be cleaned; every other target is a shortfall.

A path is allowed when, from its start to its end:

  - the access is in service, faces that way, and its opening is at least the
    hose's MinPipe;
  - every passage is open, no single turn (entry, node or traced corner) is
    sharper than the hose's Sharpest, and no upstream turn into a branch
    deflects by more than its BranchTurn (by its sharpest single turn);
  - turns summed (entry, corners, passages) stay within the hose's Bends; a
    traced corner counts by its fitting, or as drawn where it has none;
  - every pipe's size is within the hose's MinPipe and MaxPipe;
  - lay + riser + path + the hose's Reserve <= the hose's Length;
  - every target on it can be worked: for each pass its deposit asks for there
    is a nozzle whose purposes serve the pass, whose pipe range holds every
    pipe of the path up to there (and whose MinPipe passes the opening), and
    whose thrust beats the drag in the low case at the end of every pipe up to
    there. Thrust is taken at the pressure really left: the setting is the least
    of the unloader and the hose's working pressure, and the nozzle pressure is
    held to the lowest ceiling of any fragile pipe the pass goes through.

Cleaning. An upstream run cleans every target on its path that is not clean
yet; those are its far part. A downstream run cleans every target on its path,
lowest first on the pull-back, and ends at a target. A target may be cleaned
only when the nearest reachable target on its way to the outlet is clean, or is
cleaned in the same run.

Passes. A run makes the passes that its cleaned pipes ask for, in the order
open, root cut, clean, finish. A pass goes out to the far end of the last pipe
that asks for it and uses one nozzle, which serves every pipe that asks for it.
Among the nozzles that will do (and whose water fits the tank at the spot with
the most inflow from which the reel holds the path) it takes the one whose
purpose stands first in the deposit's list, and among equals first among the
nozzle's own purposes (the worst place over those pipes); then the one with the
most power left at the jets; then the first in the rig. Every pass fits the
tank: begun full, with the spot's refill running, it never falls below Stop.
Per pipe and pass, with L the pipe's length, out and back together rounded to a
[Tick] (strokes are counted pipe by pipe, each rounded up, and summed):

	worked   out   L (2/Forward + 1/Back)   if the pass strokes, else L/Travel
	         back  pulls L/Pull + (pulls-1) L/Travel
	else     out   L/Travel
	         back  L/Travel

(A stroke goes forward S at Forward and back S/2 at Back, so it nets S/2.) In a
downstream run worked pipe takes (1 + Downstream) times as long. pulls is the
pass's pulls for the pipe's severity. The riser takes no time. The pump runs
the whole pass. A change to a different nozzle between passes costs
NozzleChange; the first nozzle is in RunStart, charged for each run.

Days. A block is a stretch with one spot and one hose; consecutive blocks
differ. Opening an access costs, once per block that uses it, its OpenMinutes
(or the crew's Open) and twice its lay at the Lay speed. Two blocks at one spot
cost a HoseChange; a change of spot costs PackUp + Move + distance/TowSpeed +
SetUp; the day starts with SetUp and ends with PackUp. All are rounded to ticks.

Water. The tank starts full when the rig ArrivesFull, else empty. A spot's
inflow is the best flow of the water points within the supply hose (by lay),
at most MaxFlow; it runs in every event at the spot but set-up and pack-up, up
to the tank's Volume. A pass starts when the tank is at least at Start and will
not fall below Stop before the pass ends; else the crew waits before it. A spot
with no inflow fills by a trip, one fill event: to the water point that takes
the least time and back at the move pace (2 (Move + distance/TowSpeed), the
straight distance, each way rounded to a tick) plus filling the tank to its
Volume there, rounded up. Where the site
has no water point, what the tank cannot serve is a shortfall. Pack-up leaves the tank full or
empty, by refilling or draining while packing; what takes longer is charged
before it as a fill or drain event.

Rings. Where flow divides or pipes close a ring, every pipe still has one way to
the outlet, so ways are a forest: a ring is parted at the pipe that no way goes on
into. That pipe is cleaned like any other, up from its lower end or down from
its upper one.

Objective. First reach everything reachable, then the least crew minutes. The
search first minimises the minutes without waiting, filling and draining (dry), and
the water is simulated on its result, with the runs of each block in an order that
wastes little of the inflow. Where that shows any of them, the search goes on in the
wet: every plan it meets is carried out and counts with all its water, and each stay
is bounded by its work and by its water, whichever takes longer: a tankful at the
most is there when it begins, and the rest comes in while the crew works or waits, or
is fetched at the best rate. So [Plan.Bound] bounds every plan with its water. Where
the site is small, all days are searched then with the tank, which finds the best and
proves it.

Proof. All shared costs (an opening, a stay, a hose at a spot) are split into shares
over the targets that runs clean with them (Lagrangian cost splitting), which leaves
a dynamic program up the forest. It bounds any set of plans from below, and tells of
every candidate what the best plan with it costs at the least; what reaches the cost
of a known plan is struck out for good. Plans are divided, those with the lowest
bound first: by which spots are used, with a tour of them as a bound on the day; by
how many stays there are and their order, where all work with one hose in one stay is
a stint; by which stints there are; by the order of two stints of a stay, but only
where the relaxed plan needs each after the other (the one comes first, or the other,
or the crew comes back to one of them); and by the openings of a stint. The same
program heeds what is decided. All that is left is a plan. Work is counted in steps
of the innermost loops, so that the same site gets the same plan on every machine;
[Options] has more of it done.

Size. A site of up to [searchTargets] targets and [mostTourSpots] spots is planned by
search over blocks; one above [smallTargets] as a district too, where no proof is
found, and the better plan and the better bound count. A larger one is planned as a district: a sweep of visits up the drains, followed by
visits that are known to clean everything, from which visits and openings are left out
that do not pay, while those that stay are put into a shorter order. The runs in a
sequence of visits are found by dynamic programming up the
forest, where the cost of a target is a staircase over the visits; leaving one
out asks again only for the targets that had it for a choice, and for those below
them that then change. There the minutes that water takes are part of what is minimised, by a rule
of thumb, and of the bound: what a stay draws above a tankful has to be fetched.
Time and memory grow with the number of candidates; a bound by Lagrangian cost
splitting says how good the plan is.

Decisions by hand. A [site.RunKey] names every run of its spot, hose, access,
direction and last pipe, whatever it cleans; one that names something that is
not there, or an end to which no way leads, stands for none. No plan makes a
barred run, and every plan makes each kept one. As a run cleans its last pipe,
and each pipe is cleaned but once, that is: its last pipe is cleaned by no other
run. Reachable is then what runs clean that this allows. A kept run is given up,
and that is told, where it can be made by no plan: it breaks a rule, is barred
too, or cannot be made beside one kept before it.

With an order made by hand the plan is those runs in that order and no others.
Each cleans every target on its path that is not clean yet and goes no farther
than the last of them; one that finds none, breaks a rule of its path or its
tank, or is barred, is left out. A run may then clean a pipe before the one below
it, and go over clean pipe; the first is told and flagged. Bound is the order's own dry
minutes.

All of it is told in [Plan.ByHand], beside the cost of the plan that the planner
makes by itself. A pipe that this plan cleans and the one by hand does not is a
shortfall with the decision as its reason.

Reasons. [Plan.Whys] tells of each run what one might expect in its place: the
other access with the shortest hose to its far end, a spot with a shorter lay,
another hose, the nozzle first in the deposit's list. It names the rule that this
would break, else the pipe that it would leave, else what it would cost.
*/
package route
