// Package outside holds Ferrule's kernel against programs and models that have
// nothing to do with it: real meshes from package registries, an independent
// kernel (npm's manifold-3d), and other people's readers of our files (npm's
// three, Debian's assimp and admesh).
//
// In come the real models that scripts/outside/gather leaves in
// scripts/outside/real (FERRULE_MODELS may name another scripts/outside) and
// Node with the packages installed there; out go the peer's measures of the same operations on the same
// numbers. Nothing else in Ferrule imports this package but scripts/bench.
//
// Without those programs its tests are skipped and say what they lack. With
// FERRULE_OUTSIDE=1, as scripts/test sets it, a lack is a failure.
package outside
