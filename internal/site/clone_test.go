package site

import (
	"reflect"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestCloneSharesNothing walks a document with every member and its copy: they
// are equal, and no slice and no pointer of one is in the other, whatever
// fields the types have. Only the bytes of pictures, which nothing changes in
// place, are shared: they are megabytes.
func TestCloneSharesNothing(t *testing.T) {
	s := wholeSite(t)
	c := s.Clone()
	require.Equal(t, s, c)
	compared := 0
	var walk func(where string, a, b reflect.Value)
	walk = func(where string, a, b reflect.Value) {
		switch a.Kind() {
		case reflect.Struct:
			for i := range a.NumField() {
				if a.Type().Field(i).IsExported() {
					walk(where+"."+a.Type().Field(i).Name, a.Field(i), b.Field(i))
				}
			}
		case reflect.Slice:
			if a.Len() > 0 {
				compared++
				assert.Equal(t, a.Type() == reflect.TypeFor[[]byte](), a.Pointer() == b.Pointer(), where)
			}
			for i := range a.Len() {
				walk(where, a.Index(i), b.Index(i))
			}
		case reflect.Pointer:
			if !a.IsNil() {
				compared++
				assert.NotEqual(t, a.Pointer(), b.Pointer(), where)
				walk(where, a.Elem(), b.Elem())
			}
		case reflect.Map, reflect.Interface, reflect.Chan, reflect.Func:
			assert.Fail(t, "a kind that Clone does not copy", where)
		}
	}
	walk("site", reflect.ValueOf(*s), reflect.ValueOf(*c))
	assert.Greater(t, compared, 20)

	s.Spots = nil
	assert.Nil(t, s.Clone().Spots, "nil stays nil")
	s.Spots = []Spot{}
	assert.NotNil(t, s.Clone().Spots, "empty stays empty")
}

func TestCloneKeepsUnknownMembers(t *testing.T) {
	s, err := Decode([]byte(strange()))
	require.NoError(t, err)
	want, err := Encode(s)
	require.NoError(t, err)
	got, err := Encode(s.Clone())
	require.NoError(t, err)
	assert.Equal(t, string(want), string(got))
}
