// Runs jobs on an independent kernel, npm's manifold-3d: node peer.mjs JOB.json
// prints one JSON answer. The job:
//
//   { "meshes": { "name": "file", … },
//     "ops": [ { "kind": "measure", "mesh": "name" },
//              { "kind": "split", "mesh", "normal": [x,y,z], "offset" },
//              { "kind": "difference" | "intersection" | "union", "mesh", "tool" },
//              { "kind": "sections", "mesh", "u", "v", "w": [x,y,z], "origin", "offsets": [] } ],
//     "times": n }
//
// A mesh file holds, little-endian: uint32 vertices, uint32 triangles, float64
// x y z of each vertex, uint32 a b c of each triangle. manifold-3d's JavaScript
// face takes float32, so coordinates should be float32 numbers already; the
// answer says how many were not.
//
// With "times" above zero each operation runs that often and its answer holds
// the milliseconds of every run, measured round the operation alone, its result
// forced by asking for its size.
import { readFileSync } from 'node:fs';
import Module from 'manifold-3d';

const job = JSON.parse(readFileSync(process.argv[2], 'utf8'));
const wasm = await Module();
wasm.setup();
const { Manifold, Mesh } = wasm;

let rounded = 0;
const meshes = {};
for (const [name, file] of Object.entries(job.meshes)) meshes[name] = load(file);

const answers = [];
for (const op of job.ops) {
  try {
    answers.push(run(op));
  } catch (e) {
    answers.push({ error: String(e.message ?? e) });
  }
}
console.log(JSON.stringify({ rounded, answers }));

function load(file) {
  const b = readFileSync(file);
  const at = b.buffer.slice(b.byteOffset, b.byteOffset + b.length);
  const [vertices, triangles] = new Uint32Array(at, 0, 2);
  const exact = new Float64Array(at, 8, 3 * vertices);
  const vertProperties = Float32Array.from(exact);
  for (let i = 0; i < exact.length; i++) if (vertProperties[i] !== exact[i]) rounded++;
  const triVerts = new Uint32Array(at.slice(8 + 24 * vertices, 8 + 24 * vertices + 12 * triangles));
  const m = Manifold.ofMesh(new Mesh({ numProp: 3, vertProperties, triVerts }));
  m.numTri();
  return m;
}

function run(op) {
  const m = meshes[op.mesh];
  if (!m) throw new Error(`no mesh ${op.mesh}`);
  if (m.status() !== 'NoError') throw new Error(`mesh ${op.mesh}: ${m.status()}`);
  switch (op.kind) {
    case 'measure':
      return { solids: [measure(m)] };
    case 'split':
      return solids(() => m.splitByPlane(op.normal, op.offset));
    case 'difference':
      return solids(() => [m.subtract(meshes[op.tool])]);
    case 'intersection':
      return solids(() => [m.intersect(meshes[op.tool])]);
    case 'union':
      return solids(() => [m.add(meshes[op.tool])]);
    case 'sections':
      return sections(m, op);
  }
  throw new Error(`no operation ${op.kind}`);
}

function solids(act) {
  const ms = [];
  for (let i = 0; i < (job.times ?? 0); i++) {
    const start = performance.now();
    const r = act();
    for (const s of r) s.numTri();
    ms.push(performance.now() - start);
    for (const s of r) s.delete();
  }
  const r = act();
  const out = { ms, solids: job.times ? r.map((s) => ({ triangles: s.numTri(), volume: s.volume() })) : r.map(measure) };
  for (const s of r) s.delete();
  return out;
}

// Volume in mm³, area in mm² and Euler characteristic of each connected surface.
function measure(m) {
  const shells = m.decompose().map((s) => {
    const r = {
      volume: s.volume(),
      area: s.surfaceArea(),
      euler: s.numVert() - s.numEdge() + s.numTri(),
    };
    s.delete();
    return r;
  });
  return { volume: m.volume(), area: m.surfaceArea(), triangles: m.numTri(), shells };
}

// Sections across w, drawn in u and v: the solid is turned so that w is z.
function sections(m, op) {
  const { u, v, w, origin: o } = op;
  const dot = (a, b) => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
  const rows = [u, v, w].map((a) => [...a, -dot(a, o)]);
  const columns = [0, 1, 2, 3].flatMap((c) => [rows[0][c], rows[1][c], rows[2][c], c === 3 ? 1 : 0]);
  const turned = m.transform(columns);
  turned.numTri();
  const ms = [];
  for (let i = 0; i < (job.times ?? 0); i++) {
    const start = performance.now();
    const r = op.offsets.map((z) => turned.slice(z));
    for (const s of r) s.numContour();
    ms.push(performance.now() - start);
    for (const s of r) s.delete();
  }
  const out = op.offsets.map((z) => {
    const s = turned.slice(z);
    const loops = s.toPolygons();
    s.delete();
    let area = 0;
    let perimeter = 0;
    for (const l of loops) {
      for (let i = 0; i < l.length; i++) {
        const p = l[i];
        const q = l[(i + 1) % l.length];
        area += (p[0] * q[1] - p[1] * q[0]) / 2;
        perimeter += Math.hypot(q[0] - p[0], q[1] - p[1]);
      }
    }
    return { area, perimeter, loops: loops.length };
  });
  turned.delete();
  return { ms, sections: out };
}
