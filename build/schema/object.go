package main

import (
	"bytes"
	"encoding/json"
)

// object is a JSON object whose members keep their order.
type object []member

type member struct {
	key   string
	value any
}

// MarshalJSON writes the members in order.
func (o object) MarshalJSON() ([]byte, error) {
	var w bytes.Buffer
	w.WriteByte('{')
	for i, m := range o {
		if i > 0 {
			w.WriteByte(',')
		}
		key, err := json.Marshal(m.key)
		if err != nil {
			return nil, err
		}
		value, err := json.Marshal(m.value)
		if err != nil {
			return nil, err
		}
		w.Write(key)
		w.WriteByte(':')
		w.Write(value)
	}
	w.WriteByte('}')
	return w.Bytes(), nil
}

// printed lays the object out for people.
func printed(o object) ([]byte, error) {
	var w bytes.Buffer
	e := json.NewEncoder(&w)
	e.SetEscapeHTML(false)
	e.SetIndent("", "  ")
	err := e.Encode(o)
	return w.Bytes(), err
}
