package route

import (
	"linemap/internal/rig"
	"linemap/internal/unit"
)

// operations remembers operating points by ceiling, hose and nozzle: a site has few
// of them and a search asks for them often, with one ceiling many times in a row.
type operations struct {
	rig     *rig.Rig
	got     map[unit.Pressure][]operation // by ceiling: by hose and nozzle
	ceiling unit.Pressure                 // that was asked for last
	last    []operation
}

type operation struct {
	rig.Operating
	setting   unit.Pressure
	known, ok bool
}

func newOperations(r *rig.Rig) *operations {
	return &operations{rig: r, got: map[unit.Pressure][]operation{}}
}

func (o *operations) at(hose, nozzle int, ceiling unit.Pressure) *operation {
	if o.last == nil || ceiling != o.ceiling {
		if o.got[ceiling] == nil {
			o.got[ceiling] = make([]operation, len(o.rig.Hoses)*len(o.rig.Nozzles))
		}
		o.ceiling, o.last = ceiling, o.got[ceiling]
	}
	op := &o.last[hose*len(o.rig.Nozzles)+nozzle]
	if !op.known {
		point, setting, err := o.rig.Operate(&o.rig.Hoses[hose], &o.rig.Nozzles[nozzle], ceiling)
		*op = operation{Operating: point, setting: setting, known: true, ok: err == nil}
	}
	return op
}

// power is what is left at the jets, in watts.
func (op *operation) power() float64 { return float64(op.Operating.Nozzle) * float64(op.Flow) }
