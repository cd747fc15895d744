// Package spine finds the line a prop hangs on before anything is cut: its
// axis, and along it stations with the gross cross-section (area, centroid,
// principal second moments), the mass per millimetre, and the shear force and
// bending moment when the prop is held level by its grip.
//
// In come the bodies of the prop as closed meshes in one common frame (mm) with
// an effective density each; out goes a [Line]. Masses and moments are exact for
// the meshes (the divergence theorem over the surface clipped at each station);
// the densities are assumptions and are stated in [Line.Assumed]. It relies on
// solid, solid/section and solid/polygon, and on nothing that is decided later:
// sectioning, printing and strength read it.
package spine
