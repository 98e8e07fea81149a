package main

import (
	"bytes"
	"encoding"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"reflect"
	"slices"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"example.org/fourfoot/gauge/measure"
)

// decodePlan reads one JSON object into plan. It is stricter than
// encoding/json: a key that no struct field names is an error, so is a key
// that comes twice or one that is needed and missing; a "note" is allowed
// anywhere; every fault is reported, each with the path of its key.
func decodePlan(data []byte, plan any) error {
	data = bytes.TrimPrefix(data, []byte("\ufeff")) // some editors begin a file so
	dec := json.NewDecoder(bytes.NewReader(data))
	dec.UseNumber()
	root, err := readNode(dec, 0)
	if err == nil {
		if _, more := dec.Token(); more != io.EOF {
			err = errors.New("something follows the end of the plan")
		}
	}
	if err != nil {
		if errors.Is(err, io.EOF) || errors.Is(err, io.ErrUnexpectedEOF) {
			err = errors.New("the file ends before the plan does")
		}
		line := 1 + bytes.Count(data[:min(int(dec.InputOffset()), len(data))], []byte("\n"))
		return fmt.Errorf("not a plan, line %d: %w", line, err)
	}
	d := decoder{}
	d.into(reflect.ValueOf(plan).Elem(), root, "", planKey{})
	return errors.Join(d.faults...)
}

// What no plan of a garden railway comes near. Beyond it a value is a slip of
// the pen or of the unit.
const (
	mostLength = 10 * measure.Kilometre
	mostAngle  = 100 * 360 * measure.Degree
	mostMass   = 1000 * measure.Tonne
	mostVolume = 1000 * measure.CubicMetre
	mostNumber = 1e6
	mostText   = 80  // characters
	mostItems  = 100 // of a list that does not say otherwise
)

// check holds a value that was read to what its key may be.
func (d *decoder) check(v reflect.Value, path string, k planKey) {
	switch x := v.Interface().(type) {
	case measure.Length:
		switch {
		case x > mostLength || x < -mostLength:
			d.fault(path, "%v is more than %v", x, mostLength)
		case k.is == "positive" && x <= 0:
			d.fault(path, "%v: must be more than 0 mm", x)
		case k.is != "signed" && x < 0:
			d.fault(path, "%v: must not be negative", x)
		}
	case measure.Angle:
		if x > mostAngle || x < -mostAngle {
			d.fault(path, "%v is more than %v", x, mostAngle)
		}
	case measure.Mass:
		if x < 0 || x > mostMass {
			d.fault(path, "%v: must be from 0 kg to %v", x, mostMass)
		}
	case measure.Volume:
		if x < 0 || x > mostVolume {
			d.fault(path, "%v: must be from 0 mm³ to %v", x, mostVolume)
		}
	case float64:
		if !(x >= 0 && x <= mostNumber) {
			d.fault(path, "%v: must be from 0 to %v", x, mostNumber)
		}
	case string:
		switch {
		case strings.TrimSpace(x) == "":
			d.fault(path, "must not be empty")
		case utf8.RuneCountInString(x) > mostText:
			d.fault(path, "%.20q… is longer than %d characters", x, mostText)
		case strings.ContainsFunc(x, func(r rune) bool { return !unicode.IsPrint(r) }):
			d.fault(path, "%q has characters that do not print", x)
		}
	}
}

// A node is a JSON value with its keys in order: a scalar, members or items.
type node struct {
	scalar  any // string, json.Number, bool or nil when neither members nor items
	kind    json.Delim
	members []member
	items   []node
}

type member struct {
	key   string
	value node
}

// deepest is how deep a plan may be nested; ours needs five levels.
const deepest = 20

func readNode(dec *json.Decoder, depth int) (node, error) {
	if depth > deepest {
		return node{}, fmt.Errorf("nested deeper than %d levels", deepest)
	}
	tok, err := dec.Token()
	if err != nil {
		return node{}, err
	}
	open, ok := tok.(json.Delim)
	if !ok {
		return node{scalar: tok}, nil
	}
	n := node{kind: open}
	for dec.More() {
		if open == '[' {
			item, err := readNode(dec, depth+1)
			if err != nil {
				return n, err
			}
			n.items = append(n.items, item)
			continue
		}
		key, err := dec.Token()
		if err != nil {
			return n, err
		}
		value, err := readNode(dec, depth+1)
		if err != nil {
			return n, err
		}
		n.members = append(n.members, member{key.(string), value})
	}
	_, err = dec.Token()
	return n, err
}

type decoder struct{ faults []error }

func (d *decoder) fault(path, format string, args ...any) {
	if path == "" {
		path = "the plan"
	}
	d.faults = append(d.faults, fmt.Errorf("%s: %s", path, fmt.Sprintf(format, args...)))
}

func (d *decoder) into(v reflect.Value, n node, path string, k planKey) {
	if v.Kind() == reflect.Pointer {
		v.Set(reflect.New(v.Type().Elem()))
		v = v.Elem()
	}
	if t, ok := v.Addr().Interface().(encoding.TextUnmarshaler); ok {
		if d.text(t, n, path) {
			d.check(v, path, k)
		}
		return
	}
	switch v.Kind() {
	case reflect.Struct:
		d.members(v, n, path)
	case reflect.Slice:
		if n.kind != '[' {
			d.fault(path, "must be a list in [ ]")
			return
		}
		most := mostItems
		if k.most > 0 {
			most = k.most
		}
		if len(n.items) > most {
			d.fault(path, "%d items; at most %d are read", len(n.items), most)
			return
		}
		v.Set(reflect.MakeSlice(v.Type(), len(n.items), len(n.items)))
		for i, item := range n.items {
			d.into(v.Index(i), item, fmt.Sprintf("%s[%d]", path, i+1), planKey{})
		}
	case reflect.String:
		s, ok := n.scalar.(string)
		if !ok {
			d.fault(path, "must be text in quotes")
			return
		}
		v.SetString(s)
		d.check(v, path, k)
	case reflect.Bool:
		b, ok := n.scalar.(bool)
		if !ok {
			d.fault(path, "must be true or false")
			return
		}
		v.SetBool(b)
	case reflect.Int:
		num, _ := n.scalar.(json.Number)
		i, err := strconv.Atoi(num.String())
		if err != nil {
			d.fault(path, "must be a whole number without quotes")
			return
		}
		v.SetInt(int64(i))
	case reflect.Float64:
		num, _ := n.scalar.(json.Number)
		f, err := num.Float64()
		if err != nil {
			d.fault(path, "must be a number without quotes and without a unit")
			return
		}
		v.SetFloat(f)
		d.check(v, path, k)
	default:
		panic("platelayer: no way to read a " + v.Type().String()) // a plan type that this file does not know
	}
}

// text reads a value with its unit, and reports whether it could.
func (d *decoder) text(t encoding.TextUnmarshaler, n node, path string) bool {
	s, ok := n.scalar.(string)
	if num, is := n.scalar.(json.Number); is {
		d.fault(path, "%s has no unit; write the value in quotes with its unit", num)
		return false
	}
	if !ok {
		d.fault(path, "must be text in quotes, a value with its unit")
		return false
	}
	if err := t.UnmarshalText([]byte(s)); err != nil {
		d.fault(path, "%v", err)
		return false
	}
	return true
}

func (d *decoder) members(v reflect.Value, n node, path string) {
	if n.kind != '{' {
		d.fault(path, "must be an object in { }")
		return
	}
	join := func(key string) string {
		if path == "" {
			return key
		}
		return path + "." + key
	}
	fields := planKeys(v.Type())
	seen := map[string]bool{}
	for _, m := range n.members {
		if m.key == "note" {
			continue
		}
		i := slices.IndexFunc(fields, func(f planKey) bool { return f.key == m.key })
		switch {
		case i < 0:
			var known []string
			for _, f := range fields {
				known = append(known, f.key)
			}
			d.fault(join(m.key), "unknown key; known here are %s", strings.Join(known, ", "))
		case seen[m.key]:
			d.fault(join(m.key), "stands twice")
		default:
			d.into(v.FieldByIndex(fields[i].index), m.value, join(m.key), fields[i])
		}
		seen[m.key] = true
	}
	for _, f := range fields {
		if f.needed && !seen[f.key] {
			d.fault(join(f.key), "missing: %s", f.help)
		}
	}
}

// A planKey is one key of a plan: what the struct tags say of it.
type planKey struct {
	key    string
	help   string
	needed bool
	is     string // "positive" or "signed"; a length is otherwise 0 or more
	most   int    // items of a list
	index  []int
	typ    reflect.Type
}

// planKeys lists the keys of a plan's struct in order. A field's tag holds
// its key and, in "help", what it is; a help that begins with "!" is of a key
// that must be there.
func planKeys(t reflect.Type) []planKey {
	var keys []planKey
	for _, f := range reflect.VisibleFields(t) {
		key, ok := f.Tag.Lookup("key")
		if !ok {
			continue
		}
		most, _ := strconv.Atoi(f.Tag.Get("most")) // 0 where there is no such tag
		help, needed := strings.CutPrefix(f.Tag.Get("help"), "!")
		keys = append(keys, planKey{key, help, needed, f.Tag.Get("is"), most, f.Index, f.Type})
	}
	return keys
}

// describePlan writes every key of a plan type with what it holds.
func describePlan(w io.Writer, t reflect.Type, indent string) {
	for _, k := range planKeys(t) {
		inner, list := k.typ, ""
		if inner.Kind() == reflect.Slice {
			inner, list = inner.Elem(), " [list]"
		}
		if inner.Kind() == reflect.Pointer {
			inner = inner.Elem()
		}
		need := ""
		if k.needed {
			need = " (needed)"
		}
		fmt.Fprintf(w, "%s%-*s %s%s%s\n", indent, 24-len(indent), k.key, k.help, list, need)
		if inner.Kind() == reflect.Struct && !reflect.PointerTo(inner).Implements(reflect.TypeFor[encoding.TextUnmarshaler]()) {
			describePlan(w, inner, indent+"  ")
		}
	}
}
