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
)

// decodePlan reads one JSON object into plan. It is stricter than
// encoding/json: a key that no struct field names is an error, so is a key
// that comes twice or one that is needed and missing; a "note" is allowed
// anywhere; every fault is reported, each with the path of its key.
func decodePlan(data []byte, plan any) error {
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
	d.into(reflect.ValueOf(plan).Elem(), root, "")
	return errors.Join(d.faults...)
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

func (d *decoder) into(v reflect.Value, n node, path string) {
	if v.Kind() == reflect.Pointer {
		v.Set(reflect.New(v.Type().Elem()))
		v = v.Elem()
	}
	if t, ok := v.Addr().Interface().(encoding.TextUnmarshaler); ok {
		d.text(t, n, path)
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
		v.Set(reflect.MakeSlice(v.Type(), len(n.items), len(n.items)))
		for i, item := range n.items {
			d.into(v.Index(i), item, fmt.Sprintf("%s[%d]", path, i+1))
		}
	case reflect.String:
		s, ok := n.scalar.(string)
		if !ok {
			d.fault(path, "must be text in quotes")
			return
		}
		v.SetString(s)
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
	default:
		panic("platelayer: no way to read a " + v.Type().String()) // a plan type that this file does not know
	}
}

func (d *decoder) text(t encoding.TextUnmarshaler, n node, path string) {
	s, ok := n.scalar.(string)
	if num, is := n.scalar.(json.Number); is {
		d.fault(path, "%s has no unit; write the value in quotes with its unit", num)
		return
	}
	if !ok {
		d.fault(path, "must be text in quotes, a value with its unit")
		return
	}
	if err := t.UnmarshalText([]byte(s)); err != nil {
		d.fault(path, "%v", err)
	}
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
			d.into(v.FieldByIndex(fields[i].index), m.value, join(m.key))
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
		help, needed := strings.CutPrefix(f.Tag.Get("help"), "!")
		keys = append(keys, planKey{key, help, needed, f.Index, f.Type})
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
