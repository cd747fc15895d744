package main

import (
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"path/filepath"
	"strings"
)

// comments holds what the source says of types ("Part") and fields
// ("Part.Unit").
type comments map[string]string

// readComments parses the two files that hold the nouns.
func readComments(source string) (comments, error) {
	c := comments{}
	for _, name := range []string{"build.go", "joint.go", "shop.go"} {
		file, err := parser.ParseFile(token.NewFileSet(), filepath.Join(source, name), nil, parser.ParseComments)
		if err != nil {
			return nil, fmt.Errorf("reading the comments: %w", err)
		}
		for _, decl := range file.Decls {
			gen, ok := decl.(*ast.GenDecl)
			if !ok {
				continue
			}
			for _, spec := range gen.Specs {
				if t, ok := spec.(*ast.TypeSpec); ok {
					c.addType(t, gen.Doc)
				}
			}
		}
	}
	return c, nil
}

func (c comments) addType(t *ast.TypeSpec, doc *ast.CommentGroup) {
	name := t.Name.Name
	c[name] = tidy(strings.TrimPrefix(strings.TrimPrefix(doc.Text(), name), " is "))
	s, ok := t.Type.(*ast.StructType)
	if !ok {
		return
	}
	for _, f := range s.Fields.List {
		text := f.Comment.Text()
		if text == "" {
			text = f.Doc.Text()
		}
		for _, n := range f.Names {
			c[name+"."+n.Name] = tidy(text)
		}
	}
}

// tidy makes a sentence of a comment.
func tidy(s string) string {
	s = strings.Join(strings.Fields(s), " ")
	if s == "" {
		return ""
	}
	r := []rune(s)
	return strings.ToUpper(string(r[:1])) + string(r[1:])
}
