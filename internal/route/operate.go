package route

import (
	"linemap/internal/rig"
	"linemap/internal/unit"
)

// operations remembers operating points by hose, nozzle and ceiling: a site
// has few of them and a search asks for them often.
type operations struct {
	rig *rig.Rig
	got map[opKey]operation
}

type opKey struct {
	hose, nozzle int
	ceiling      unit.Pressure
}

type operation struct {
	rig.Operating
	setting unit.Pressure
	ok      bool
}

func newOperations(r *rig.Rig) *operations {
	return &operations{rig: r, got: map[opKey]operation{}}
}

func (o *operations) at(hose, nozzle int, ceiling unit.Pressure) operation {
	key := opKey{hose, nozzle, ceiling}
	op, ok := o.got[key]
	if !ok {
		point, setting, err := o.rig.Operate(&o.rig.Hoses[hose], &o.rig.Nozzles[nozzle], ceiling)
		op = operation{Operating: point, setting: setting, ok: err == nil}
		o.got[key] = op
	}
	return op
}

// power is what is left at the jets, in watts.
func (op operation) power() float64 { return float64(op.Operating.Nozzle) * float64(op.Flow) }
