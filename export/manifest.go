package export

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
)

const (
	ownPrefix    = ".ferrule"
	manifestName = ".ferrule-files.json" // what was written
	stagePrefix  = ".ferrule-new-"       // folders being filled
	commitName   = ".ferrule-exchange"   // a filled folder whose files are taking their places
)

// manifest lists the files of one run, in path order.
type manifest struct {
	Format int     `json:"ferrule_files"` // version of this list, 1
	Files  []entry `json:"files"`
}

// entry is one written file.
type entry struct {
	Path   string `json:"path"`
	Bytes  int64  `json:"bytes"`
	SHA256 string `json:"sha256"`
}

// readManifest returns the list at name, empty when there is none. A list that
// cannot be read counts as none: then every file there is taken for the maker's.
func readManifest(root *os.Root, name string) (manifest, error) {
	var m manifest
	info, err := root.Lstat(name)
	if errors.Is(err, fs.ErrNotExist) {
		return m, nil
	}
	if err != nil {
		return m, err
	}
	if !info.Mode().IsRegular() || info.Size() > 64<<20 {
		return m, nil
	}
	data, err := root.ReadFile(name)
	if err != nil {
		return m, err
	}
	if json.Unmarshal(data, &m) != nil || m.Format != 1 {
		return manifest{}, nil
	}
	kept := m.Files[:0]
	for _, e := range m.Files {
		if checkPath(e.Path) == nil {
			kept = append(kept, e)
		}
	}
	m.Files = kept
	return m, nil
}

func (m manifest) encode() ([]byte, error) {
	data, err := json.MarshalIndent(m, "", "  ")
	return append(data, '\n'), err
}

// digests maps each path to its digest.
func (m manifest) digests() map[string]string {
	d := make(map[string]string, len(m.Files))
	for _, e := range m.Files {
		d[e.Path] = e.SHA256
	}
	return d
}

// digest returns the SHA-256 of a regular file, "" when there is no file, and
// "other" for anything that is neither.
func digest(root *os.Root, name string) (string, error) {
	info, err := root.Lstat(name)
	if errors.Is(err, fs.ErrNotExist) {
		return "", nil
	}
	if err != nil {
		return "", err
	}
	if !info.Mode().IsRegular() {
		return "other", nil
	}
	f, err := root.Open(name)
	if err != nil {
		return "", err
	}
	defer f.Close()
	h := sha256.New()
	if _, err := io.Copy(h, f); err != nil {
		return "", fmt.Errorf("read %s: %w", name, err)
	}
	return hex.EncodeToString(h.Sum(nil)), nil
}

// writeSynced writes a small file and waits until the disk has it.
func writeSynced(root *os.Root, name string, data []byte) error {
	f, err := root.Create(name)
	if err != nil {
		return err
	}
	_, err = io.Copy(f, bytes.NewReader(data))
	return errors.Join(err, f.Sync(), f.Close())
}

// syncFolder waits until the disk has the folder's names. Systems that cannot
// do it for folders are let be: the exchange is still whole, only less certain
// across a power cut.
func syncFolder(root *os.Root, name string) {
	if d, err := root.Open(name); err == nil {
		_ = d.Sync()
		_ = d.Close()
	}
}
