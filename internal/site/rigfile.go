package site

import (
	"bytes"
	"fmt"

	"linemap/internal/rig"
)

// RigExtension is the extension of a file with a rig alone.
const RigExtension = ".rig.json"

// MaxRigBytes is the largest rig that is read, in bytes. The schema's counts
// keep any rig well below.
const MaxRigBytes = 8 << 20

// DecodeRig reads a rig that stands alone, as a site file has it. It reads all
// of it or none: a [*LoadError] lists what is wrong. Members that this program
// does not know are left behind.
func DecodeRig(data []byte) (*rig.Rig, error) {
	if len(data) > MaxRigBytes {
		return nil, &LoadError{Problems: []Problem{{
			Found: fmt.Sprintf("%d bytes", len(data)), Limit: fmt.Sprintf("at most %d bytes", MaxRigBytes),
		}}}
	}
	root, err := siteSchema()
	if err != nil {
		return nil, err
	}
	r := new(rig.Rig)
	if _, err := decode(bytes.TrimPrefix(data, byteOrderMark), root.Members["rig"], r); err != nil {
		return nil, err
	}
	var found problems
	checkRig(&found, "", r)
	if err := found.err(); err != nil {
		return nil, err
	}
	return r, nil
}

// EncodeRig writes a rig to stand alone, for [DecodeRig] to read. It errs where
// that would refuse it.
func EncodeRig(r *rig.Rig) ([]byte, error) {
	if err := Check(*r); err != nil {
		return nil, err
	}
	return EncodeValue(*r)
}
