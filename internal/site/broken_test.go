package site

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestBroken breaks one place of a whole document at a time and asks that the
// error names the place by ids, the value found and the limit.
func TestBroken(t *testing.T) {
	long := strings.Repeat("x", 201)
	for _, c := range []struct {
		name, old, with    string
		path, found, limit string
	}{
		// Types.
		{"version is text", `"linemap": 1`, `"linemap": "1"`, "linemap", `"1"`, "1"},
		{"job is a list", `"job": {`, `"x": {"y": 0}, "job": [], "z": {`, "job", "a list", "an object"},
		{"title is a number", `"title": "Example bakery"`, `"title": 7`, "job.title", "7", "a text"},
		{"units are null", `"units": "us"`, `"units": null`, "units", "null", `one of "us", "metric"`},
		{"nodes are an object", `"nodes": [`, `"nodes": {}, "others": [`, "network.nodes", "an object", "a list [] of at most 200000"},
		{"node is a text", `{"id": "f1", "kind": "fixture", "at": {"x": 20, "y": 9}}`, `"f1"`, "network.nodes[6]", `"f1"`, "an object"},
		{"at is a list", `"at": {"x": 10.5, "y": 0}`, `"at": [10.5, 0]`, "network.nodes[co1].at", "a list", "an object"},
		{"x is a text", `"x": 10.5`, `"x": "10.5"`, "network.nodes[co1].at.x", `"10.5"`, "a number"},
		{"indoor is a text", `"indoor": true`, `"indoor": "yes"`, "network.nodes[vent].access.indoor", `"yes"`, "true or false"},
		{"uneven is a number", `"uneven": true`, `"uneven": 1`, "spots[lane].uneven", "1", "true or false"},
		{"size is a text", `"size": 1.5`, `"size": "1.5"`, "network.pipes[p5].size", `"1.5"`, "one of 1.25"},
		{"people are a fraction", `"people": 2`, `"people": 2.5`, "rig.crew.people", "2.5", "a whole number from 1 to 100"},
		{"people have a point", `"people": 2`, `"people": 2.0`, "rig.crew.people", "2.0", "a whole number"},
		{"count is true", `"count": 6`, `"count": true`, "rig.nozzles[pull].orifices[0].count", "true", "a whole number from 1 to 100"},
		{"via is a number", `"via": [{"x": 8, "y": -6}]`, `"via": 8`, "lays[yard,co1].via", "8", "a list"},
		{"via point is a number", `{"x": 18, "y": 2}`, `18`, "network.pipes[p4].via[0]", "18", "an object"},
		{"branch is a number", `["p4"]`, `[4]`, "network.nodes[w1].junction.branches[0]", "4", "a text"},
		{"length is null", `"length": 11,`, `"length": null,`, "network.pipes[p1].length", "null", "a number above 0"},
		{"document is a list", whole, `[]`, "the document", "a list", "an object"},
		{"document is a number", whole, `42`, "the document", "42", "an object"},

		// Missing members.
		{"no version", `"linemap": 1,`, ``, "linemap", "nothing", "1"},
		{"no job", `"job": {`, `"work": {`, "job", "nothing", "an object"},
		{"no title", `"title": "Example bakery", `, ``, "job.title", "nothing", "a text"},
		{"no units", `"units": "us",`, ``, "units", "nothing", `"us"`},
		{"no paper", `"paper": "letter",`, ``, "paper", "nothing", `"letter", "a4"`},
		{"no code", `"code": "ipc",`, ``, "code", "nothing", "a text"},
		{"no network", `"network": {`, `"net": {`, "network", "nothing", "an object"},
		{"no nodes", `"nodes": [`, `"dots": [`, "network.nodes", "nothing", "a list"},
		{"no pipes", `"pipes": [` + "\n", `"lines": [`, "network.pipes", "nothing", "a list"},
		{"no spots", `"spots": [`, `"places": [`, "spots", "nothing", "a list"},
		{"no rig", `"rig": {`, `"machine": {`, "rig", "nothing", "an object"},
		{"no node id", `{"id": "f1", "kind"`, `{"kind"`, "network.nodes[6].id", "nothing", "letters, digits"},
		{"no node kind", `"f1", "kind": "fixture"`, `"f1"`, "network.nodes[f1].kind", "nothing", `one of "access"`},
		{"no place", `, "at": {"x": 20, "y": 9}`, ``, "network.nodes[f1].at", "nothing", "an object"},
		{"no y", `{"x": 20, "y": 9}`, `{"x": 20}`, "network.nodes[f1].at.y", "nothing", "a number from -100000 to 100000 m"},
		{"no material", `"size": 1.5, "material": "abs_sch40"`, `"size": 1.5`, "network.pipes[p5].material", "nothing", `"pvc_sch40"`},
		{"no class", `"material": "pvc_sch40", "class": "stack"`, `"material": "pvc_sch40"`, "network.pipes[p6].class", "nothing", `"stack"`},
		{"no pipe end", `"from": "f1", `, ``, "network.pipes[p5].from", "nothing", "a text"},
		{"no opening size", `"kind": "roof_vent", "size": 3`, `"kind": "roof_vent"`, "network.nodes[vent].access.size", "nothing", "in nominal"},
		{"no branches", `, "branches": ["p4"]`, ``, "network.nodes[w1].junction.branches", "nothing", "a list [] of at most 2, each once"},
		{"no level height", `{"name": "Roof", "elevation": 6.5}`, `{"name": "Roof"}`, "network.levels[Roof].elevation", "nothing", "-9000 to 9000 m"},
		{"no water flow", `, "flow": 200`, ``, "water_points[hyd].flow", "nothing", "from 1 to 10000 L/min"},
		{"no lay spot", `{"spot": "yard", "water": "hyd", "length": 13}`, `{"water": "hyd"}`, "lays[,,hyd].spot", "nothing", "a text"},
		{"no pump", `"pump": {`, `"engine": {`, "rig.pump", "nothing", "an object"},
		{"no unloader", `, "unloader": 26000`, ``, "rig.pump.unloader", "nothing", "kPa"},
		{"no hose mass", `"mass": 0.25, `, ``, "rig.hoses[half].mass", "nothing", "kg/m"},
		{"no discharge", `"discharge": 0.9, `, ``, "rig.nozzles[pull].discharge", "nothing", "above 0 and at most 1"},
		{"no stroke", `"stroke": 3, `, ``, "rig.crew.stroke", "nothing", "from 0.1 to 100 m"},

		// Ranges.
		{"x too far east", `"x": 10.5`, `"x": 100000.5`, "network.nodes[co1].at.x", "100000.5 m", "from -100000 to 100000 m"},
		{"y too far south", `"y": -12`, `"y": -1e6`, "spots[yard].at.y", "-1e6 m", "from -100000 to 100000 m"},
		{"x beyond any float", `"x": 10.5`, `"x": 1e400`, "network.nodes[co1].at.x", "1e400", "100000 m"},
		{"x of a thousand digits", `"x": 10.5`, `"x": ` + strings.Repeat("9", 1000), "network.nodes[co1].at.x", "1000 digits", "100000 m"},
		{"invert too deep", `"invert": -2.4`, `"invert": -9001`, "network.nodes[out].invert", "-9001 m", "from -9000 to 9000 m"},
		{"level too high", `"elevation": 6.5`, `"elevation": 9e3001`, "network.levels[Roof].elevation", "9e3001 m", "-9000 to 9000 m"},
		{"turn below nothing", `"turn": 45`, `"turn": -45`, "network.nodes[b1].turn", "-45 deg", "from 0 to 360 deg"},
		{"turn above a circle", `"turn": 180`, `"turn": 361`, "network.nodes[t1].turn", "361 deg", "from 0 to 360 deg"},
		{"entry above a circle", `"entry": 90`, `"entry": 400`, "network.nodes[co1].access.entry", "400 deg", "360 deg"},
		{"riser below nothing", `"riser": 1.1`, `"riser": -1.1`, "network.nodes[co1].access.riser", "-1.1 m", "from 0 to 1000 m"},
		{"opening takes days", `"open_minutes": 8`, `"open_minutes": 2000`, "network.nodes[co1].access.open_minutes", "2000 min", "from 0 to 1440 min"},
		{"pipe of no length", `"length": 11,`, `"length": 0,`, "network.pipes[p1].length", "0 m", "above 0 and at most 10000 m"},
		{"pipe too long", `"length": 11,`, `"length": 10001,`, "network.pipes[p1].length", "10001 m", "at most 10000 m"},
		{"slope steeper than plumb", `"slope": 0.0208`, `"slope": 1.5`, "network.pipes[p2].slope", "1.5 m/m", "from -1 to 1 m/m"},
		{"ceiling of no pressure", `"ceiling": 10342.5`, `"ceiling": 0`, "network.pipes[p1].ceiling", "0 kPa", "above 0 and at most 300000 kPa"},
		{"size that no pipe has", `"size": 1.5`, `"size": 7`, "network.pipes[p5].size", "7 in nominal", "1.25, 1.5, 2, 2.5, 3, 4, 5, 6, 8, 10, 12, 15, 18, 21, 24"},
		{"opening that no pipe has", `"kind": "roof_vent", "size": 3`, `"kind": "roof_vent", "size": 3.5`, "network.nodes[vent].access.size", "3.5", "one of 1.25"},
		{"water too weak", `"flow": 200`, `"flow": 0`, "water_points[hyd].flow", "0 L/min", "from 1"},
		{"water too strong", `"flow": 200`, `"flow": 10001`, "water_points[hyd].flow", "10001 L/min", "10000 L/min"},
		{"lay below nothing", `"length": 14.5`, `"length": -1`, "lays[yard,co1].length", "-1 m", "from 0 to 10000 m"},
		{"pump of no flow", `"flow": 45.5`, `"flow": 0`, "rig.pump.flow", "0 L/min", "from 1 to 10000 L/min"},
		{"pressure of the sun", `"rated": 27500`, `"rated": 1e9`, "rig.pump.rated", "1e9 kPa", "300000 kPa"},
		{"tank below nothing", `"stop": 150`, `"stop": -1`, "rig.tank.stop", "-1 L", "from 0 to 100000 L"},
		{"drain of a river", `"drain": 300`, `"drain": 20000`, "rig.tank.drain", "20000 L/min", "10000 L/min"},
		{"tank without a drain", `"drain": 300`, `"drain": 0`, "rig.tank.drain", "0 L/min", "from 1 to 10000 L/min"},
		{"boiling water", `"water_temperature": 10`, `"water_temperature": 100`, "rig.water_temperature", "100 degC", "from 0 to 60 degC"},
		{"bore of nothing", `"bore": 0.0127`, `"bore": 0`, "rig.hoses[half].bore", "0 m", "above 0 and at most 0.5 m"},
		{"bore in millimetres", `"bore": 0.0127`, `"bore": 12.7`, "rig.hoses[half].bore", "12.7 m", "at most 0.5 m"},
		{"plumbing of nothing", `"bore": 0.019`, `"bore": 0`, "rig.plumbing.bore", "0 m", "above 0"},
		{"roughness in millimetres", `"roughness": 0.0000015`, `"roughness": 0.15`, "rig.hoses[half].roughness", "0.15 m", "from 0 to 0.01 m"},
		{"hose of no length", `"length": 122`, `"length": 0`, "rig.hoses[half].length", "0 m", "above 0"},
		{"reserve below nothing", `"reserve": 3`, `"reserve": -3`, "rig.hoses[half].reserve", "-3 m", "from 0 to 10000 m"},
		{"hose of no mass", `"mass": 0.25`, `"mass": 0`, "rig.hoses[half].mass", "0 kg/m", "above 0 and at most 100 kg/m"},
		{"spread in percent", `"mass_spread": 0.1`, `"mass_spread": 10`, "rig.hoses[half].mass_spread", "10", "from 0 to 1"},
		{"bends below nothing", `"bends": 4.5`, `"bends": -1`, "rig.hoses[half].bends", "-1", "from 0 to 100"},
		{"hose for a size unknown", `"min_pipe": 4`, `"min_pipe": 4.1`, "rig.hoses[half].min_pipe", "4.1", "one of 1.25"},
		{"nozzle heavier than a crew", `"mass": 0.4`, `"mass": 400`, "rig.nozzles[pull].mass", "400 kg", "from 0 to 100 kg"},
		{"hole in millimetres", `"diameter": 0.0009`, `"diameter": 0.9`, "rig.nozzles[pull].orifices[0].diameter", "0.9 m", "at most 0.05 m"},
		{"hole beyond square", `"angle": 15`, `"angle": 91`, "rig.nozzles[pull].orifices[0].angle", "91 deg", "from 0 to 90 deg"},
		{"no holes", `"count": 6`, `"count": 0`, "rig.nozzles[pull].orifices[0].count", "0", "from 1 to 100"},
		{"discharge above one", `"discharge": 0.9`, `"discharge": 1.1`, "rig.nozzles[pull].discharge", "1.1", "at most 1"},
		{"nobody in the crew", `"people": 2`, `"people": 0`, "rig.crew.people", "0", "from 1 to 100"},
		{"crew that stands still", `"travel_speed": 18.5`, `"travel_speed": 0`, "rig.crew.travel_speed", "0 m/min", "from 1 to 3000 m/min"},
		{"set-up below nothing", `"set_up_minutes": 20`, `"set_up_minutes": -20`, "rig.crew.set_up_minutes", "-20 min", "from 0 to 1440 min"},
		{"day of no minutes", `"downstream_extra": 0.5`, `"downstream_extra": 0.5, "shift_minutes": 1e-7`, "rig.crew.shift_minutes", "1e-7 min", "from 60 to 1440 min"},
		{"extra beyond sense", `"downstream_extra": 0.5`, `"downstream_extra": 50`, "rig.crew.downstream_extra", "50", "from 0 to 10"},

		// Choices.
		{"unknown units", `"units": "us"`, `"units": "imperial"`, "units", `"imperial"`, `one of "us", "metric"`},
		{"unknown paper", `"paper": "letter"`, `"paper": "A4"`, "paper", `"A4"`, `"letter", "a4"`},
		{"unknown node kind", `"f1", "kind": "fixture"`, `"f1", "kind": "sink"`, "network.nodes[f1].kind", `"sink"`, `"fixture"`},
		{"unknown access kind", `"roof_vent"`, `"chimney"`, "network.nodes[vent].access.kind", `"chimney"`, `"roof_vent"`},
		{"unknown facing", `"facing": "up"`, `"facing": "north"`, "network.nodes[co1].access.facing", `"north"`, `one of "up", "down"`},
		{"unknown junction", `"combination"`, `"tee"`, "network.nodes[w1].junction.kind", `"tee"`, `"sanitary_tee"`},
		{"unknown material", `"clay"`, `"bamboo"`, "network.pipes[p1].material", `"bamboo"`, `"clay"`},
		{"unknown class", `"stack"`, `"chute"`, "network.pipes[p6].class", `"chute"`, `"stack"`},
		{"unknown deposit", `"roots"`, `"gold"`, "network.pipes[p1].deposit", `"gold"`, `"roots"`},
		{"empty deposit", `"deposit": "grease"`, `"deposit": ""`, "network.pipes[p2].deposit", `""`, `"grease"`},
		{"unknown severity", `"heavy"`, `"severe"`, "network.pipes[p1].severity", `"severe"`, `one of "light", "moderate", "heavy"`},
		{"unknown traffic", `"coned"`, `"busy"`, "spots[yard].traffic", `"busy"`, `one of "none", "coned", "live"`},
		{"unknown water", `"kind": "hydrant"`, `"kind": "river"`, "water_points[hyd].kind", `"river"`, `one of "hydrant", "hose_bib", "tanker"`},
		{"unknown purpose", `"flushing"]`, `"polishing"]`, "rig.nozzles[pull].purposes[1]", `"polishing"`, `"flushing"`},
		{"unknown orifice facing", `"facing": "front"`, `"facing": "side"`, "rig.nozzles[pull].orifices[1].facing", `"side"`, `one of "rear", "front"`},

		// Texts and lists.
		{"title too long", `"title": "Example bakery"`, `"title": "` + long + `"`, "job.title", "201 characters", "at most 200 characters"},
		{"note too long", `"note": "steep"`, `"note": "` + strings.Repeat("y", 10001) + `"`, "spots[lane].note", "10001 characters", "at most 10000 characters"},
		{"date of another form", `"2026-03-17"`, `"17.03.2026"`, "job.date", `"17.03.2026"`, "a date like 2026-03-17"},
		{"month of no calendar", `"2026-03-17"`, `"2026-13-17"`, "job.date", `"2026-13-17"`, "a date like"},
		{"day of no calendar", `"2026-03-17"`, `"2026-02-30"`, "job.date", `"2026-02-30"`, "a day of the calendar"},
		{"hour of no clock", `"07:30"`, `"24:30"`, "job.start", `"24:30"`, "00:00 to 23:59"},
		{"id with a space", `"id": "hyd"`, `"id": "h y d"`, "water_points[h y d].id", `"h y d"`, "letters, digits and . _ : -"},
		{"empty id", `"id": "lane"`, `"id": ""`, "spots[1].id", `""`, "at least 1 character"},
		{"id too long", `"id": "lane"`, `"id": "` + long + `"`, "spots[xxx", "201 characters", "at most 64 characters"},
		{"nameless level", `"name": "Ground"`, `"name": ""`, "network.levels[0].name", `""`, "at least 1 character"},
		{"three branches", `["p4"]`, `["p4", "p3", "p2"]`, "network.nodes[w1].junction.branches", "a list of 3", "at most 2"},
		{"branch twice", `["p4"]`, `["p4", "\u0070\u0034"]`, "network.nodes[w1].junction.branches[1]", `"p4" a second time`, "each once"},
		{"nozzle for nothing", `"purposes": ["pulling", "flushing"]`, `"purposes": []`, "rig.nozzles[pull].purposes", "a list of 0", "of 1 to 5"},
		{"purpose twice", `["pulling", "flushing"]`, `["pulling", "pulling"]`, "rig.nozzles[pull].purposes[1]", `"pulling" a second time`, "each once"},
		{"pipe of too many corners", `[{"x": 8, "y": -6}]`, `[` + strings.Repeat(`{"x": 8, "y": -6}, `, 1000) + `{"x": 0, "y": 0}]`, "lays[yard,co1].via", "a list of 1001", "at most 1000"},

		// Members that the kind calls for.
		{"access without opening", `"id": "b1", "kind": "bend"`, `"id": "b1", "kind": "access"`, "network.nodes[b1].access", "nothing", `given where kind is "access"`},
		{"fixture with opening", `"id": "vent", "kind": "access"`, `"id": "vent", "kind": "fixture"`, "network.nodes[vent].access", "a value", `left out where kind is not "access"`},
		{"junction without fitting", `"id": "b1", "kind": "bend"`, `"id": "b1", "kind": "junction"`, "network.nodes[b1].junction", "nothing", `given where kind is "junction"`},
		{"bend with fitting", `"id": "w1", "kind": "junction"`, `"id": "w1", "kind": "bend"`, "network.nodes[w1].junction", "a value", `left out where kind is not "junction"`},
		{"cleanout that faces nowhere", `"facing": "up", `, ``, "network.nodes[co1].access.facing", "nothing", `given where kind is "cleanout_one_way"`},
		{"lay to nowhere", `"spot": "yard", "water": "hyd"`, `"spot": "yard"`, "lays[yard].water", "nothing", "given where access is not given"},
		{"lay to two ends", `"spot": "yard", "water": "hyd"`, `"spot": "yard", "access": "vent", "water": "hyd"`, "lays[yard,vent,hyd].water", "a value", "left out where access is given"},

		{"picture twice", `"file": "plans/yard.jpg"`, `"file": "plans/yard.jpg", "data": "AAAA"`, "underlays[u2].file", "a value", "left out where data is given"},
		{"picture nowhere", `"scale": 0.05, "file": "plans/yard.jpg"`, `"scale": 0.05`, "underlays[u2].file", "nothing", "given where data is not given"},

		// Areas, notes, pictures, decisions by hand.
		{"area for dancing", `"kind": "walkway"`, `"kind": "ballroom"`, "areas[a3].kind", `"ballroom"`, `one of "stand", "keep_clear", "walkway"`},
		{"area without a label", `"label": "", "kind": "walkway"`, `"kind": "walkway"`, "areas[a3].label", "nothing", "a text"},
		{"area without an outline", `"label": "", "kind": "walkway", "outline"`, `"label": "", "kind": "walkway", "edge"`, "areas[a3].outline", "nothing", "a list [] of 1 to 200"},
		{"area with a corner off the plan", `{"x": -5, "y": 20}`, `{"x": -5, "y": 2e5}`, "areas[a2].outline[2].y", "2e5 m", "from -100000 to 100000 m"},
		{"note without text", `, "text": "North gate"`, ``, "notes[n2].text", "nothing", "a text"},
		{"picture of no scale", `"scale": 0.025`, `"scale": 0`, "underlays[u1].scale", "0 m", "above 0 and at most 1000 m"},
		{"picture fainter than nothing", `"dim": 0.6`, `"dim": 1.1`, "underlays[u1].dim", "1.1", "from 0 to 1"},
		{"picture of no bytes", `"iVBORw0KGgo="`, `""`, "underlays[u1].data", `""`, "a text in base64 (RFC 4648), at least 4 characters, at most 60000000 characters"},
		{"picture as a list of bytes", `"iVBORw0KGgo="`, `[137, 80]`, "underlays[u1].data", "a list", "a text in base64"},
		{"picture in other letters", `"iVBORw0KGgo="`, `"iVBO-w0KGgo="`, "underlays[u1].data", `"iVBO-w0KGgo=", wrong from character 5 on`, "a text in base64"},
		{"picture in several lines", `"iVBORw0KGgo="`, `"iVBO\nRw0K"`, "underlays[u1].data", "wrong from character 5 on", "a text in base64"},
		{"picture without its padding", `"iVBORw0KGgo="`, `"iVBORw0KGgo"`, "underlays[u1].data", "wrong from character 9 on", "a text in base64"},
		{"picture with padding inside", `"iVBORw0KGgo="`, `"iVBO=w0KGgo="`, "underlays[u1].data", "wrong from character 5 on", "a text in base64"},
		{"picture of padding", `"iVBORw0KGgo="`, `"===="`, "underlays[u1].data", "wrong from character 1 on", "a text in base64"},
		{"picture in no ASCII", `"iVBORw0KGgo="`, `"iVBé"`, "underlays[u1].data", "wrong from character 4 on", "a text in base64"},
		{"picture of no path", `"plans/yard.jpg"`, `""`, "underlays[u2].file", `""`, "at least 1 character"},
		{"picture from the root", `"plans/yard.jpg"`, `"/plans/yard.jpg"`, "underlays[u2].file", `"/plans/yard.jpg"`, "inside the folder of the document"},
		{"picture from above", `"plans/yard.jpg"`, `"../yard.jpg"`, "underlays[u2].file", `"../yard.jpg"`, "inside the folder of the document"},
		{"picture from above by a detour", `"plans/yard.jpg"`, `"plans/../../yard.jpg"`, "underlays[u2].file", `"plans/../../yard.jpg"`, "inside the folder of the document"},
		{"picture by another system's way up", `"plans/yard.jpg"`, `"..\\yard.jpg"`, "underlays[u2].file", `"..\\yard.jpg"`, "with / between its parts"},
		{"picture on a drive", `"plans/yard.jpg"`, `"C:/yard.jpg"`, "underlays[u2].file", `"C:/yard.jpg"`, "inside the folder of the document"},
		{"picture that is the folder", `"plans/yard.jpg"`, `"."`, "underlays[u2].file", `"."`, "inside the folder of the document"},
		{"picture with a nul", `"plans/yard.jpg"`, `"yard.jpg\u0000"`, "underlays[u2].file", `"yard.jpg\x00"`, "inside the folder of the document"},
		{"run of no end", `"vent", "end": "p6"`, `"vent"`, "by_hand.bar[lane,half,vent].end", "nothing", "a text"},
		{"run with a stray flag", `"downstream": true`, `"downstream": 1`, "by_hand.bar[lane,half,vent,p6].downstream", "1", "true or false"},
		{"runs that are one", `"bar": [`, `"bar": 1, "others": [`, "by_hand.bar", "1", "a list"},

		// The place on Earth.
		{"half a place on Earth", `, "bearing": 306.868158333`, ``, "geo.bearing", "nothing", "a number from 0 to 360 deg"},
		{"longitude once around too often", `144.424867889`, `504.4`, "geo.longitude", "504.4", "a number from -180 to 180 deg"},
		{"latitude in words", `-37.951033417`, `"37 S"`, "geo.latitude", `"37 S"`, "a number from -89 to 89 deg"},

		// Prices.
		{"prices in no currency", `"currency": "USD", `, ``, "prices.currency", "nothing", "a code of ISO 4217"},
		{"currency by its sign", `"USD"`, `"$"`, "prices.currency", `"$"`, "a code of ISO 4217 like USD"},
		{"prices for no measure", `"units": "metric", "call_out"`, `"call_out"`, "prices.units", "nothing", `one of "us", "metric"`},
		{"amount as a number", `"95.00"`, `95.00`, "prices.call_out", "95.00", `an amount like "125.00"`},
		{"amount below nothing", `"95.00"`, `"-95.00"`, "prices.call_out", `"-95.00"`, "from 0 to 999999999.9999"},
		{"amount with an exponent", `"95.00"`, `"9e5"`, "prices.call_out", `"9e5"`, "an amount like"},
		{"amount with a comma", `"95.00"`, `"95,00"`, "prices.call_out", `"95,00"`, "an amount like"},
		{"amount with a sign of money", `"95.00"`, `"$95.00"`, "prices.call_out", `"$95.00"`, "an amount like"},
		{"amount too large", `"95.00"`, `"1000000000"`, "prices.call_out", `"1000000000"`, "from 0 to 999999999.9999"},
		{"amount too fine", `"1.1250"`, `"1.12505"`, "prices.rates[2].amount", `"1.12505"`, "an amount like"},
		{"tax that is no percentage", `"8.875"`, `"8.875 %"`, "prices.tax_percent", `"8.875 %"`, `a decimal number like "8.5"`},
		{"tax beyond sense", `"8.875"`, `"1000"`, "prices.tax_percent", `"1000"`, "from 0 to 999.9999"},
		{"night of no clock", `"18:00"`, `"25:00"`, "prices.night_from", `"25:00"`, "00:00 to 23:59"},
		{"rate for no size", `"up_to": 6`, `"up_to": 7`, "prices.rates[7].up_to", "7 in nominal", "one of 1.25"},
		{"rates out of order", `"up_to": 6`, `"up_to": 1.5`, "prices.rates[1].up_to", "1.5 in nominal", "a size above 2 in nominal"},
		{"rate twice", `"up_to": 6`, `"up_to": 2`, "prices.rates[1].up_to", "2 in nominal", "a size above 2 in nominal"},
		{"quote of no day of the calendar", `"2026-02-25"`, `"2026-02-31"`, "prices.date", `"2026-02-31"`, "a day of the calendar"},
		{"quote for ever", `"valid_days": 30`, `"valid_days": 1e6`, "prices.valid_days", "1e6", "a whole number from 0 to 3650"},

		// References.
		{"pipe from nowhere", `"from": "f1"`, `"from": "f9"`, "network.pipes[p5].from", `"f9"`, "the id of a node"},
		{"pipe to nowhere", `"to": "out"`, `"to": "sea"`, "network.pipes[p1].to", `"sea"`, "the id of a node"},
		{"pipe onto itself", `"from": "f1", "to": "t1"`, `"from": "t1", "to": "t1"`, "network.pipes[p5].to", `"t1"`, "another node than from"},
		{"two nodes of one id", `"id": "f1"`, `"id": "t1"`, "network.nodes[6].id", `"t1" a second time`, "unlike that of network.nodes[5]"},
		{"two pipes of one id", `"id": "p5"`, `"id": "p1"`, "network.pipes[4].id", `"p1" a second time`, "unlike that of network.pipes[0]"},
		{"two spots of one id", `"id": "lane"`, `"id": "yard"`, "spots[1].id", `"yard" a second time`, "unlike that of spots[0]"},
		{"two levels of one name", `"name": "Roof"`, `"name": "Ground"`, "network.levels[1].name", `"Ground" a second time`, "unlike that of network.levels[0]"},
		{"two lays of one way", `"spot": "yard", "water": "hyd"`, `"spot": "yard", "access": "co1"`, "lays[1]", "the lay yard,co1 a second time", "unlike lays[0]"},
		{"node on no level", `"level": "Roof"`, `"level": "Attic"`, "network.nodes[vent].level", `"Attic"`, "the name of a level"},
		{"branch that is no pipe", `["p4"]`, `["p9"]`, "network.nodes[w1].junction.branches[0]", `"p9"`, "the id of a pipe"},
		{"branch elsewhere", `["p4"]`, `["p1"]`, "network.nodes[w1].junction.branches[0]", `"p1"`, "a pipe that ends at this node"},
		{"visits out of order", `"2026-01-12"`, `"2025-01-12"`, "visits[1].date", `"2025-01-12"`, "a day after 2025-09-02"},
		{"two visits on a day", `"2026-01-12"`, `"2025-09-02"`, "visits[1].date", `"2025-09-02"`, "a day after 2025-09-02"},
		{"visit on no day of the calendar", `"2026-01-12"`, `"2026-02-30"`, "visits[2026-02-30].date", `"2026-02-30"`, "a day of the calendar"},
		{"visit by the day first", `"2026-01-12"`, `"12.01.2026"`, "visits[12.01.2026].date", `"12.01.2026"`, "a date like 2026-03-17"},
		{"run without its number", `"number": 1, "planned": 20`, `"planned": 20`, "visits[2025-09-02].runs[1].number", "nothing", "a whole number"},
		{"run beyond its start", `"reached": 0}`, `"reached": -1}`, "visits[2025-09-02].runs[1].reached", "-1 m", "from 0 to 10000 m"},
		{"condition of no word", `"condition": "watch"`, `"condition": "bad"`, "visits[2025-09-02].runs[0].condition", `"bad"`, `one of "good", "watch", "repair"`},
		{"more cleaned than there is", `"cleaned": 5.25`, `"cleaned": 15`, "visits[2025-09-02].runs[0].pipes[p2].cleaned", "15 m", "at most 12.5 m"},
		{"photo of no name", `"photos/b.png"`, `""`, "visits[2025-09-02].runs[0].photos[1]", `""`, "at least 1 character"},
		{"photo from above", `"photos/b.png"`, `"../b.png"`, "visits[2025-09-02].runs[0].photos[1]", `"../b.png"`, "inside the folder"},
		{"two areas of one id", `"id": "a2"`, `"id": "a1"`, "areas[1].id", `"a1" a second time`, "unlike that of areas[0]"},
		{"two notes of one id", `"id": "n2"`, `"id": "n1"`, "notes[1].id", `"n1" a second time`, "unlike that of notes[0]"},
		{"two pictures of one id", `"id": "u2"`, `"id": "u1"`, "underlays[1].id", `"u1" a second time`, "unlike that of underlays[0]"},
		{"note on no level", `"level": "Ground", "text"`, `"level": "Attic", "text"`, "notes[n1].level", `"Attic"`, "the name of a level"},
		{"picture under no level", `"level": "Ground", "at": {"x": 16`, `"level": "Attic", "at": {"x": 16`, "underlays[u1].level", `"Attic"`, "the name of a level"},
		{"lay from nowhere", `"spot": "yard", "water"`, `"spot": "moon", "water"`, "lays[moon,,hyd].spot", `"moon"`, "the id of a spot"},
		{"lay to no access", `"access": "co1"`, `"access": "co7"`, "lays[yard,co7].access", `"co7"`, "the id of an access"},
		{"lay to a bend", `"access": "co1"`, `"access": "b1"`, "lays[yard,b1].access", `"b1"`, "the id of an access"},
		{"lay to no water", `"water": "hyd"`, `"water": "sea"`, "lays[yard,,sea].water", `"sea"`, "the id of a water point"},

		// Versions.
		{"newer version", `"linemap": 1`, `"linemap": 2`, "linemap", "version 2, written by a newer linemap", "at most 1"},
		{"version of no program", `"linemap": 1`, `"linemap": 0`, "linemap", "0", "1"},
		{"version below nothing", `"linemap": 1`, `"linemap": -3`, "linemap", "-3", "1"},

		// Text that is no JSON.
		{"empty file", whole, ``, "line 1, column 1", "the end of the file", "the rest of the document"},
		{"blank file", whole, " \n\n ", "line 3, column 2", "the end of the file", "the rest of the document"},
		{"not JSON at all", whole, "%PDF-1.7", "line 1, column 1", "invalid character '%'", "valid JSON"},
		{"cut off", whole, whole[:strings.Index(whole, "jetted")+7], "line 26, column 185, in network.pipes[p4].note", "the end of the file", "the rest of the document"},
		{"comma too many", `{"x": 20, "y": 9}`, `{"x": 20, "y": 9,}`, "line 20, column 61, in network.nodes[f1].at", "invalid character", "valid JSON"},
		{"number without digits", `"x": 10.5`, `"x": -`, "line 15, column 52, in network.nodes[co1].at.x", "invalid character ',' in number", "valid JSON"},
		{"not a number", `"x": 10.5`, `"x": NaN`, "line 15, column 51, in network.nodes[co1].at.x", "invalid character 'N'", "valid JSON"},
		{"comment", `"units": "us",`, "// units\n", "line 7, column 3", "invalid character '/'", "valid JSON"},
		{"member twice", `"size": 1.5`, `"size": 1.5, "size": 2`, "network.pipes[p5].size", "the member a second time", "given once"},
		{"unknown member twice", `"size": 1.5`, `"new": 1.5, "new": 2, "size": 2`, "network.pipes[p5].new", "the member a second time", "given once"},
		{"bytes that are no UTF-8", `"title": "Example bakery"`, "\"title\": \"\xff\xfe\"", "line 4, column 15, in job.title", "invalid UTF-8", "valid JSON"},
		{"half a surrogate pair", `"title": "Example bakery"`, `"title": "\ud800"`, "line 4, column 15, in job.title", `surrogate pair`, "valid JSON"},
		{"raw line break in a text", `"title": "Example bakery"`, "\"title\": \"a\nb\"", "line 4, column 16, in job.title", "invalid character '\\n'", "valid JSON"},
		{"more after the end", whole, whole + "{}", "line 99, column 2", "more text after the document", "its end"},
		{"too deep", `"title": "Example bakery"`, `"title": "x", "deep": ` + strings.Repeat("[", 65) + strings.Repeat("]", 65), "job.deep", "too deep", "at most 64 deep"},
		{"deep in place of a number", `"length": 13`, `"length": ` + strings.Repeat("[", 100000), "lays[yard,,hyd].length", "a list", "from 0 to 10000 m"},
		{"deep before the version", `"linemap": 1`, `"deep": ` + strings.Repeat("[", 100000), "deep", "too deep", "at most 64 deep"},
		{"deep as the sea", `"title": "Example bakery"`, `"title": "x", "deep": ` + strings.Repeat("[", 100000), "job.deep", "too deep", "at most 64 deep"},
	} {
		t.Run(c.name, func(t *testing.T) {
			s, err := Decode([]byte(change(t, c.old, c.with)))
			require.Error(t, err)
			assert.Nil(t, s, "nothing half-loads")
			var e *LoadError
			require.ErrorAs(t, err, &e)
			assert.NotContains(t, err.Error(), "\n")
			p := e.Problems[0]
			assert.Contains(t, p.String(), c.path, "the place")
			assert.Contains(t, p.Found, c.found, "the value found")
			assert.Contains(t, p.Limit, c.limit, "the limit")
			assert.Contains(t, err.Error(), p.String())
		})
	}
}
