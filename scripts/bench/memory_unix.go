//go:build unix

package main

import (
	"os"
	"runtime"
	"syscall"
)

// peakMemory returns the most memory a finished process held at once, in bytes.
func peakMemory(s *os.ProcessState) int64 {
	u, ok := s.SysUsage().(*syscall.Rusage)
	if !ok {
		return 0
	}
	if runtime.GOOS == "darwin" || runtime.GOOS == "ios" {
		return int64(u.Maxrss) // bytes there, kibibytes elsewhere
	}
	return int64(u.Maxrss) * 1024
}
