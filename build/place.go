package build

// at returns the byte offset of what the path names, or of the nearest table
// around it that the file has. The path alternates keys (string) and indexes
// (int): at("part", 2, "name").
func (d *document) at(path ...any) int {
	n := d.root
	for _, step := range path {
		var next *node
		switch s := step.(type) {
		case string:
			next = n.children[s]
		case int:
			if s < len(n.items) {
				next = n.items[s]
			}
		}
		if next == nil {
			break
		}
		n = next
	}
	return n.at
}

// has reports whether the file has a key.
func (d *document) has(path ...any) bool {
	n := d.root
	for _, step := range path {
		switch s := step.(type) {
		case string:
			n = n.children[s]
		case int:
			if s >= len(n.items) {
				return false
			}
			n = n.items[s]
		}
		if n == nil {
			return false
		}
	}
	return true
}
