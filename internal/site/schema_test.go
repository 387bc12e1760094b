package site

import (
	"bytes"
	"go/ast"
	"go/parser"
	"go/token"
	"maps"
	"path/filepath"
	"reflect"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/go-json-experiment/json"
	"github.com/govalues/decimal"
	"github.com/santhosh-tekuri/jsonschema/v6"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"linemap/internal/unit"
)

// validator compiles the published schema with an independent validator, which
// also checks it against the draft's own schema.
func validator(t testing.TB) *jsonschema.Schema {
	t.Helper()
	data, err := Schema()
	require.NoError(t, err)
	doc, err := jsonschema.UnmarshalJSON(bytes.NewReader(data))
	require.NoError(t, err)
	c := jsonschema.NewCompiler()
	c.AssertContent()
	require.NoError(t, c.AddResource(schemaFile, doc))
	s, err := c.Compile(schemaFile)
	require.NoError(t, err)
	return s
}

func validate(t testing.TB, s *jsonschema.Schema, data []byte) error {
	t.Helper()
	doc, err := jsonschema.UnmarshalJSON(bytes.NewReader(data))
	require.NoError(t, err)
	return s.Validate(doc)
}

func TestDocumentsMeetTheSchema(t *testing.T) {
	v := validator(t)
	documents := map[string]*Site{"whole": wholeSite(t)}
	demos, err := Demos()
	require.NoError(t, err)
	for _, name := range demos {
		documents[name], err = Demo(name)
		require.NoError(t, err)
	}
	for _, units := range []unit.System{unit.US, unit.Metric} {
		documents["new "+string(units)], err = New(units)
		require.NoError(t, err)
	}
	for _, name := range slices.Sorted(maps.Keys(documents)) {
		data, err := Encode(documents[name])
		require.NoError(t, err, name)
		assert.NoError(t, validate(t, v, data), name)
	}
}

// TestSchemaMirrorsTypes walks the types and the schema side by side: each has
// every member of the other, and the unit that the codec writes.
func TestSchemaMirrorsTypes(t *testing.T) {
	units := map[reflect.Type]string{
		reflect.TypeFor[unit.Length](): "m", reflect.TypeFor[unit.Angle](): "deg", reflect.TypeFor[unit.Slope](): "m/m",
		reflect.TypeFor[unit.Pressure](): "kPa", reflect.TypeFor[unit.Flow](): "L/min", reflect.TypeFor[unit.Volume](): "L",
		reflect.TypeFor[unit.Speed](): "m/min", reflect.TypeFor[unit.Mass](): "kg", reflect.TypeFor[unit.LinearMass](): "kg/m",
		reflect.TypeFor[unit.Temperature](): "degC", reflect.TypeFor[unit.Size](): "in nominal",
		reflect.TypeFor[time.Duration](): "min",
	}
	kinds := map[reflect.Kind]string{
		reflect.Struct: "object", reflect.Slice: "array", reflect.Bool: "boolean", reflect.Float64: "number", reflect.Int: "integer",
		reflect.Int64: "number",
	}
	var walk func(where string, typ reflect.Type, s *schema)
	walk = func(where string, typ reflect.Type, s *schema) {
		if typ.Kind() == reflect.Pointer {
			typ = typ.Elem()
		}
		if want, ok := units[typ]; ok {
			assert.Equal(t, want, s.Unit, where)
		} else if s.Unit != "" {
			assert.Equal(t, "min", s.Unit, where)
			assert.Contains(t, where, "minutes")
		}
		if typ == reflect.TypeFor[[]byte]() {
			assert.Equal(t, "string", s.Type, where)
			assert.Equal(t, base64Encoding, s.Encoding, where)
			return
		}
		if typ == reflect.TypeFor[decimal.Decimal]() {
			assert.Equal(t, "string", s.Type, where)
			assert.NotEmpty(t, s.Pattern, where)
			return
		}
		assert.Empty(t, s.Encoding, where)
		switch {
		case typ.Kind() == reflect.String:
			assert.True(t, s.Type == "string" || s.Enum != nil, where)
		case s.Enum == nil && s.Const == nil:
			assert.Equal(t, kinds[typ.Kind()], s.Type, where)
		}
		switch typ.Kind() {
		case reflect.Struct:
			var names []string
			for i := range typ.NumField() {
				field := typ.Field(i)
				name, options, _ := strings.Cut(field.Tag.Get("json"), ",")
				if name == "" {
					require.False(t, field.IsExported(), "%s.%s", where, field.Name)
					continue
				}
				names = append(names, name)
				member := s.Members[name]
				if assert.NotNil(t, member, "%s.%s is in the type only", where, name) {
					walk(where+"."+name, field.Type, member)
				}
				assert.NotEqual(t, options == "omitzero", slices.Contains(s.Required, name), "%s.%s: omitted or required", where, name)
			}
			assert.ElementsMatch(t, names, slices.Collect(maps.Keys(s.Members)), where)
		case reflect.Slice:
			walk(where+"[]", typ.Elem(), s.Items)
		}
	}
	root, err := siteSchema()
	require.NoError(t, err)
	walk("site", reflect.TypeFor[Site](), root)
}

// TestSchemaDescribesEveryMember asks that whoever writes a site file by the
// schema alone is told what each member is.
func TestSchemaDescribesEveryMember(t *testing.T) {
	data, err := Schema()
	require.NoError(t, err)
	root := new(schema)
	require.NoError(t, json.Unmarshal(data, root))
	members := 0
	for def, object := range root.Defs {
		for name, member := range object.Members {
			members++
			text := member.Description
			if target := root.Defs[strings.TrimPrefix(member.Ref, "#/$defs/")]; text == "" && target != nil {
				text = target.Description
			}
			assert.NotEmpty(t, text, "%s.%s", def, name)
		}
	}
	assert.Greater(t, members, 100)
}

// TestSchemaListsEveryConstant compares each choice of the schema with the
// constants of its type in the source.
func TestSchemaListsEveryConstant(t *testing.T) {
	root, err := siteSchema()
	require.NoError(t, err)
	node, pipe := root.Members["network"].Members["nodes"].Items, root.Members["network"].Members["pipes"].Items
	nozzle := root.Members["rig"].Members["nozzles"].Items
	for name, c := range map[string]struct {
		folder string
		schema *schema
	}{
		"System":       {"../unit", root.Members["units"]},
		"Paper":        {".", root.Members["paper"]},
		"Traffic":      {".", root.Members["spots"].Items.Members["traffic"]},
		"WaterKind":    {".", root.Members["water_points"].Items.Members["kind"]},
		"NodeKind":     {"../network", node.Members["kind"]},
		"AccessKind":   {"../network", node.Members["access"].Members["kind"]},
		"Facing":       {"../network", node.Members["access"].Members["facing"]},
		"JunctionKind": {"../network", node.Members["junction"].Members["kind"]},
		"PipeClass":    {"../network", pipe.Members["class"]},
		"Material":     {"../network", pipe.Members["material"]},
		"Deposit":      {"../network", pipe.Members["deposit"]},
		"Severity":     {"../network", pipe.Members["severity"]},
		"Condition":    {".", root.Members["visits"].Items.Members["runs"].Items.Members["condition"]},
		"Purpose":      {"../rig", nozzle.Members["purposes"].Items},
		"RigFacing":    {"../rig", nozzle.Members["orifices"].Items.Members["facing"]},
	} {
		t.Run(name, func(t *testing.T) {
			var want []any
			for _, text := range constants(t, c.folder, strings.TrimPrefix(name, "Rig")) {
				want = append(want, text)
			}
			require.NotEmpty(t, want)
			assert.ElementsMatch(t, want, c.schema.Enum)
		})
	}
	var sizes []any
	for _, sz := range unit.Sizes() {
		sizes = append(sizes, float64(sz))
	}
	assert.Equal(t, sizes, pipe.Members["size"].Enum)
	prices := root.Members["prices"].Members
	assert.Equal(t, root.Members["units"].Enum, prices["units"].Enum)
	assert.Equal(t, len(sizes), *prices["rates"].MaxItems, "a row for every size")
}

// constants returns the text constants of one type in a folder's source.
func constants(t *testing.T, folder, typ string) []string {
	t.Helper()
	files, err := filepath.Glob(filepath.Join(folder, "*.go"))
	require.NoError(t, err)
	var all []string
	for _, name := range files {
		if strings.HasSuffix(name, "_test.go") {
			continue
		}
		file, err := parser.ParseFile(token.NewFileSet(), name, nil, 0)
		require.NoError(t, err)
		ast.Inspect(file, func(n ast.Node) bool {
			spec, ok := n.(*ast.ValueSpec)
			if !ok || len(spec.Values) != 1 {
				return true
			}
			if name, ok := spec.Type.(*ast.Ident); !ok || name.Name != typ {
				return true
			}
			if lit, ok := spec.Values[0].(*ast.BasicLit); ok {
				text, err := strconv.Unquote(lit.Value)
				require.NoError(t, err)
				all = append(all, text)
			}
			return true
		})
	}
	return all
}

func TestSchemaWithOtherKeywords(t *testing.T) {
	for name, text := range map[string]string{
		"keyword unknown to the loader":  `{"type": "object", "minProperties": 1}`,
		"reference to nothing":           `{"properties": {"a": {"$ref": "#/$defs/b"}}}`,
		"pattern that is none":           `{"type": "string", "pattern": "("}`,
		"encoding unknown to the loader": `{"type": "string", "contentEncoding": "base16"}`,
		"list of what is broken":         `{"type": "array", "items": {"$ref": "#/$defs/b"}}`,
	} {
		_, err := parseSchema([]byte(text))
		assert.Error(t, err, name)
	}
}
