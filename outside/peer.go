package outside

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"

	"ferrule/solid"
)

// Op is one operation for the peer; see scripts/outside/peer.mjs.
type Op struct {
	Kind    string      `json:"kind"` // measure, split, difference, intersection, union, sections
	Mesh    string      `json:"mesh"`
	Tool    string      `json:"tool,omitempty"`
	Normal  *[3]float64 `json:"normal,omitempty"`
	Offset  float64     `json:"offset"` // mm
	U       *[3]float64 `json:"u,omitempty"`
	V       *[3]float64 `json:"v,omitempty"`
	W       *[3]float64 `json:"w,omitempty"`
	Origin  *[3]float64 `json:"origin,omitempty"`
	Offsets []float64   `json:"offsets,omitempty"` // mm
}

// Answer is the peer's answer to one operation.
type Answer struct {
	Error    string       `json:"error"`
	Ms       []float64    `json:"ms"`
	Solids   []Measure    `json:"solids"`
	Sections []PeerRegion `json:"sections"`
}

// PeerRegion is the peer's cross-section: mm², mm, number of loops.
type PeerRegion struct {
	Area      float64 `json:"area"`
	Perimeter float64 `json:"perimeter"`
	Loops     int     `json:"loops"`
}

// Peer runs jobs on the independent kernel.
type Peer struct {
	scripts string
	node    string
}

// FindPeer looks for Node and the packages in the folder scripts/outside of the
// given root. The error says what is missing and how to get it.
func FindPeer(root string) (*Peer, error) {
	node, err := exec.LookPath("node")
	if err != nil {
		return nil, errors.New("node is not installed")
	}
	scripts := filepath.Join(root, "scripts", "outside")
	if _, err := os.Stat(filepath.Join(scripts, "node_modules", "manifold-3d")); err != nil {
		return nil, errors.New("npm's manifold-3d is not installed: run npm ci in scripts/outside")
	}
	return &Peer{scripts, node}, nil
}

// Run sends the meshes and operations to the peer, each operation timed that
// many times (zero: measured instead), and returns its answers in order.
func (p *Peer) Run(ctx context.Context, meshes map[string]*solid.Mesh, ops []Op, times int) ([]Answer, error) {
	dir, err := os.MkdirTemp("", "ferrule-peer-")
	if err != nil {
		return nil, fmt.Errorf("folder for the peer's job: %w", err)
	}
	defer os.RemoveAll(dir)
	job := struct {
		Meshes map[string]string `json:"meshes"`
		Ops    []Op              `json:"ops"`
		Times  int               `json:"times"`
	}{map[string]string{}, ops, times}
	for name, m := range meshes {
		file := filepath.Join(dir, name+".raw")
		if err := WriteRaw(file, m); err != nil {
			return nil, err
		}
		job.Meshes[name] = file
	}
	text, err := json.Marshal(job)
	if err != nil {
		return nil, fmt.Errorf("the peer's job: %w", err)
	}
	file := filepath.Join(dir, "job.json")
	if err := os.WriteFile(file, text, 0o600); err != nil {
		return nil, fmt.Errorf("the peer's job: %w", err)
	}
	cmd := exec.CommandContext(ctx, p.node, "peer.mjs", file)
	cmd.Dir = p.scripts
	var out, complaint bytes.Buffer
	cmd.Stdout, cmd.Stderr = &out, &complaint
	if err := cmd.Run(); err != nil {
		return nil, fmt.Errorf("the peer failed: %w\n%s", err, complaint.String())
	}
	var reply struct {
		Rounded int      `json:"rounded"`
		Answers []Answer `json:"answers"`
	}
	if err := json.Unmarshal(out.Bytes(), &reply); err != nil {
		return nil, fmt.Errorf("the peer's answer: %w", err)
	}
	if reply.Rounded > 0 {
		return nil, fmt.Errorf("the peer had to round %d coordinates to float32: round them first", reply.Rounded)
	}
	if len(reply.Answers) != len(ops) {
		return nil, fmt.Errorf("the peer answered %d of %d operations", len(reply.Answers), len(ops))
	}
	return reply.Answers, nil
}

// Array returns a vector as JSON holds it.
func Array(v solid.Vec) *[3]float64 { return &[3]float64{v.X, v.Y, v.Z} }
