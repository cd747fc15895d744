// Command schema writes the JSON Schemas of the build file and the shop file.
//
// In comes the source folder of package build, whose comments are the schemas'
// descriptions; out go build.schema.json and shop.schema.json in the folder
// named second. Keys, kinds, words and bounds come from the types themselves by
// reflection, so that a schema cannot say anything else than the reader.
package main

import (
	"fmt"
	"os"
	"path/filepath"
)

func main() {
	if len(os.Args) != 3 {
		fmt.Fprintln(os.Stderr, "usage: schema SOURCE-FOLDER OUTPUT-FOLDER")
		os.Exit(2)
	}
	if err := write(os.Args[1], os.Args[2]); err != nil {
		fmt.Fprintln(os.Stderr, "schema:", err)
		os.Exit(1)
	}
}

func write(source, output string) error {
	files, err := schemas(source)
	if err != nil {
		return err
	}
	if err := os.MkdirAll(output, 0o755); err != nil {
		return err
	}
	for _, f := range files {
		if err := os.WriteFile(filepath.Join(output, f.name), f.data, 0o644); err != nil {
			return err
		}
	}
	return nil
}
