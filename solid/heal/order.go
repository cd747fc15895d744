package heal

import "slices"

// sortByOther orders the half-edges of vertex v by their other end, then by
// index. Buckets are short on real meshes; a hub of many spokes takes the
// library's sort.
func (s *surface) sortByOther(bucket []int32, v int32) {
	if len(bucket) > 24 {
		slices.SortFunc(bucket, func(a, b int32) int {
			if x, y := s.other(a, v), s.other(b, v); x != y {
				return int(x) - int(y)
			}
			return int(a) - int(b)
		})
		return
	}
	var key [24]int32
	for i, h := range bucket {
		o := s.other(h, v)
		j := i
		for j > 0 && key[j-1] > o {
			key[j], bucket[j] = key[j-1], bucket[j-1]
			j--
		}
		key[j], bucket[j] = o, h
	}
}
