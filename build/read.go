package build

import (
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"reflect"
)

// Read reads and checks a build file. The error joins every fault found, each
// a [Fault] with its place. Whether the rods' stock exists is known only with
// the shop file: see [ReadBoth].
func Read(path string) (*Build, error) {
	b, _, err := readBuild(path)
	return b, err
}

// ReadShop reads and checks a shop file.
func ReadShop(path string) (*Shop, error) {
	data, err := load(path)
	if err != nil {
		return nil, err
	}
	return ParseShop(path, data)
}

// ReadBoth reads a build file and the shop file it names (shop.toml beside it
// when it names none), and checks them against each other.
func ReadBoth(path string) (*Build, *Shop, error) {
	b, doc, err := readBuild(path)
	if err != nil {
		return nil, nil, err
	}
	name := b.WithDefaults().Shop
	s, err := ReadShop(filepath.Join(filepath.Dir(path), filepath.FromSlash(name)))
	if err != nil {
		if errors.Is(err, os.ErrNotExist) {
			err = doc.fault(doc.at("shop"), "the shop file %q is not there: write one, or name another with shop = \"…\"", name)
		}
		return nil, nil, err
	}
	if err := checkStock(b, s, doc); err != nil {
		return nil, nil, err
	}
	return b, s, nil
}

// Parse reads and checks the text of a build file; name is used in faults.
func Parse(name string, data []byte) (*Build, error) {
	b, _, err := parseBuild(name, data)
	return b, err
}

// ParseShop reads and checks the text of a shop file; name is used in faults.
func ParseShop(name string, data []byte) (*Shop, error) {
	s := &Shop{}
	f, err := parse(name, data, "ferrule_shop", "ferrule", s)
	if err != nil {
		return nil, err
	}
	s.zeros = f.zeros
	checkShop(s, f.gatherer)
	if err := f.err(); err != nil {
		return nil, err
	}
	return s, nil
}

func readBuild(path string) (*Build, *document, error) {
	data, err := load(path)
	if err != nil {
		return nil, nil, err
	}
	return parseBuild(path, data)
}

func parseBuild(name string, data []byte) (*Build, *document, error) {
	b := &Build{}
	f, err := parse(name, data, "ferrule", "ferrule_shop", b)
	if err != nil {
		return nil, nil, err
	}
	b.zeros = f.zeros
	checkBuild(b, f.gatherer)
	if err := f.err(); err != nil {
		return nil, nil, err
	}
	return b, f.doc, nil
}

// parse fills dst from the text. A file of another kind or version is told as
// that alone: every other fault would follow from it.
func parse(name string, data []byte, key, other string, dst any) (*filler, error) {
	doc, err := parseDocument(name, data)
	if err != nil {
		return nil, err
	}
	if n := doc.root.children[other]; n != nil && doc.root.children[key] == nil {
		kind := map[string]string{"ferrule": "build", "ferrule_shop": "shop"}
		return nil, doc.fault(n.at, "this is a %s file; a %s file starts with %s = %d", kind[other], kind[key], key, version)
	}
	v := reflect.ValueOf(dst).Elem()
	f := &filler{gatherer: &gatherer{doc: doc}, top: v.Type(), zeros: map[string]bool{}}
	if n := doc.root.children[key]; n != nil {
		f.set(n, v.Field(0), fields(v.Type())[0], key)
		if f.count > 0 {
			return nil, f.err()
		}
	}
	f.table(doc.root, v, "")
	return f, nil
}

// load reads a file of at most mostBytes.
func load(path string) ([]byte, error) {
	file, err := os.Open(path)
	if err != nil {
		return nil, err
	}
	defer file.Close()
	info, err := file.Stat()
	if err != nil {
		return nil, err
	}
	if !info.Mode().IsRegular() {
		return nil, &Fault{path, 0, 0, fmt.Sprintf("is not a file but a %s", kindOf(info))}
	}
	data, err := io.ReadAll(io.LimitReader(file, mostBytes+1))
	if err != nil {
		return nil, fmt.Errorf("%s: %w", path, err)
	}
	if len(data) > mostBytes {
		return nil, &Fault{path, 0, 0, fmt.Sprintf("has %d bytes; a build or shop file of more than %d is not read", info.Size(), mostBytes)}
	}
	return data, nil
}

func kindOf(info os.FileInfo) string {
	if info.IsDir() {
		return "folder"
	}
	return "device"
}
