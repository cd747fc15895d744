package plan

// Stage names a stretch of the work.
type Stage string

// The stages, in order.
const (
	Reading  Stage = "reading meshes"
	Weighing Stage = "finding the line it hangs on"
	Cutting  Stage = "choosing the cuts"
	Joining  Stage = "boring channels and sockets"
	Drawing  Stage = "drawing and writing"
)

// Stages lists them in order.
func Stages() []Stage { return []Stage{Reading, Weighing, Cutting, Joining, Drawing} }

// Progress is told of each step: done of total within a stage, and what it was
// about. It may be called from several goroutines, never at once.
type Progress func(stage Stage, done, total int, what string)
