package handbook_test

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"path/filepath"
	"strings"
	"testing"
)

// What a reader of the documentation sees of the library he can look up there:
// no exported function takes or gives an unexported type, and no exported
// struct embeds one.
func TestExportedTypesAreNameable(t *testing.T) {
	files := 0
	err := filepath.WalkDir("../..", func(path string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() && (d.Name() == "internal" || d.Name() == "examples" || d.Name() == "testdata") {
			return fs.SkipDir
		}
		if d.IsDir() || !strings.HasSuffix(path, ".go") || strings.HasSuffix(path, "_test.go") {
			return nil
		}
		file, err := parser.ParseFile(token.NewFileSet(), path, nil, parser.SkipObjectResolution)
		if err != nil {
			return err
		}
		files++
		for _, d := range file.Decls {
			switch d := d.(type) {
			case *ast.FuncDecl:
				if name := hidden(d); name != "" && d.Name.IsExported() {
					t.Errorf("%s: %s shows %s", path, d.Name.Name, name)
				}
			case *ast.GenDecl:
				for _, s := range d.Specs {
					x, ok := s.(*ast.TypeSpec)
					if !ok || !x.Name.IsExported() {
						continue
					}
					if fields, ok := x.Type.(*ast.StructType); ok {
						for _, f := range fields.Fields.List {
							if name := unnamed(f.Type, nil); len(f.Names) == 0 && name != "" {
								t.Errorf("%s: %s embeds %s", path, x.Name.Name, name)
							}
						}
					}
				}
			}
		}
		return nil
	})
	if err != nil || files < 100 {
		t.Errorf("%d files, %v", files, err)
	}
}

// hidden returns an unexported type in the signature of a function, or of a
// method that the documentation shows.
func hidden(f *ast.FuncDecl) string {
	known := map[string]bool{}
	if f.Recv != nil {
		of := f.Recv.List[0].Type
		if unnamed(of, nil) != "" {
			return "" // a method of a type that is not shown
		}
		ast.Inspect(of, func(n ast.Node) bool { // its type parameters
			if x, ok := n.(*ast.Ident); ok {
				known[x.Name] = true
			}
			return true
		})
	}
	for _, list := range []*ast.FieldList{f.Type.TypeParams, f.Type.Params, f.Type.Results} {
		if list == nil {
			continue
		}
		for _, field := range list.List {
			if list == f.Type.TypeParams {
				for _, n := range field.Names {
					known[n.Name] = true
				}
			}
			if name := unnamed(field.Type, known); name != "" {
				return name
			}
		}
	}
	return ""
}

// unnamed returns the first unexported type of an expression that the language
// does not know by itself.
func unnamed(x ast.Expr, known map[string]bool) string {
	own := " any bool byte comparable error float32 float64 int int8 int16 int32 int64 rune string uint uint8 uint16 uint32 uint64 uintptr nil "
	found := ""
	ast.Inspect(x, func(n ast.Node) bool {
		switch n := n.(type) {
		case *ast.SelectorExpr:
			return false // another package's, exported
		case *ast.Field: // of a function: its parameters have names
			if name := unnamed(n.Type, known); name != "" {
				found = name
			}
			return false
		case *ast.Ident:
			if !n.IsExported() && !known[n.Name] && !strings.Contains(own, " "+n.Name+" ") {
				found = n.Name
			}
		}
		return true
	})
	return found
}
