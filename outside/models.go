package outside

import (
	"encoding/json"
	"errors"
	"fmt"
	"os"
	"path/filepath"

	"ferrule/solid"
)

// Model is one real mesh made ready for comparison.
type Model struct {
	Name   string
	Source string // package it came from
	Mesh   *solid.Mesh
	Healed bool // it was open or badly wound and was mended by solid/heal
}

// FindModels returns the folder of real models: real in the folder named by
// FERRULE_MODELS, or in scripts/outside of the given root. The error says how to
// get them.
func FindModels(root string) (string, error) {
	folder := os.Getenv("FERRULE_MODELS")
	if folder == "" {
		folder = filepath.Join(root, "scripts", "outside")
	}
	folder = filepath.Join(folder, "real")
	if _, err := os.Stat(filepath.Join(folder, "index.json")); err != nil {
		return "", errors.New("no real models: run scripts/test, which gathers them, or set FERRULE_MODELS")
	}
	return folder, nil
}

// Listed is one entry of the folder's list.
type Listed struct {
	Name      string `json:"name"`
	File      string `json:"file"`
	Source    string `json:"source"`
	Triangles int    `json:"triangles"`
}

// List returns what the folder of models holds, by name.
func List(folder string) ([]Listed, error) {
	b, err := os.ReadFile(filepath.Join(folder, "index.json"))
	if err != nil {
		return nil, fmt.Errorf("list of real models: %w", err)
	}
	var list []Listed
	if err := json.Unmarshal(b, &list); err != nil {
		return nil, fmt.Errorf("list of real models %s: %w", folder, err)
	}
	return list, nil
}
