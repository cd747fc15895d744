// Reads a 3MF file with three.js' loader and prints what it found as one line of
// JSON: node read3mf.mjs FILE
//
// {"objects": n, "triangles": n, "volume": mm³, "names": [...], "low": [x, y, z], "high": [x, y, z]}
//
// objects are the things on the build plate, with transforms applied; volume is
// the signed volume of all of them. The loader wants a browser's DOMParser:
// linkedom stands in.
import { readFileSync } from 'node:fs';
import { DOMParser as LinkedomParser } from 'linkedom';
import { Vector3 } from 'three';
import { ThreeMFLoader } from 'three/addons/loaders/3MFLoader.js';

const [file] = process.argv.slice(2);
if (!file) {
  console.error('usage: node read3mf.mjs FILE');
  process.exit(2);
}

// The loader asks for application/xml; linkedom knows it as text/xml.
globalThis.DOMParser = class {
  parseFromString(text) {
    return new LinkedomParser().parseFromString(text, 'text/xml');
  }
};
// What the loader only says on the console is an error here.
const said = [];
console.error = (...words) => said.push(words.join(' '));
console.warn = console.error;

const bytes = readFileSync(file);
const group = new ThreeMFLoader().parse(bytes.buffer.slice(bytes.byteOffset, bytes.byteOffset + bytes.byteLength));
group.updateMatrixWorld(true);

const out = { objects: group.children.length, triangles: 0, volume: 0, names: [], low: [Infinity, Infinity, Infinity], high: [-Infinity, -Infinity, -Infinity] };
for (const item of group.children) {
  let name = item.name;
  item.traverse((node) => {
    name ||= node.name;
    if (node.isMesh) measure(node);
  });
  out.names.push(plain(name));
}
if (said.length > 0) {
  process.stderr.write(said.join('\n') + '\n');
  process.exit(1);
}
console.log(JSON.stringify(out));

// linkedom leaves the entities of attributes as they stand in the file.
function plain(text) {
  const entities = { amp: '&', lt: '<', gt: '>', quot: '"', apos: "'" };
  return text
    .replace(/&#x([0-9a-f]+);/gi, (_, n) => String.fromCodePoint(parseInt(n, 16)))
    .replace(/&#(\d+);/g, (_, n) => String.fromCodePoint(Number(n)))
    .replace(/&(amp|lt|gt|quot|apos);/g, (_, n) => entities[n]);
}

function measure(mesh) {
  const position = mesh.geometry.getAttribute('position');
  const index = mesh.geometry.index;
  const count = index ? index.count : position.count;
  const corner = [new Vector3(), new Vector3(), new Vector3()];
  for (let i = 0; i < count; i += 3) {
    for (let k = 0; k < 3; k++) {
      corner[k].fromBufferAttribute(position, index ? index.getX(i + k) : i + k).applyMatrix4(mesh.matrixWorld);
      for (const [axis, x] of corner[k].toArray().entries()) {
        out.low[axis] = Math.min(out.low[axis], x);
        out.high[axis] = Math.max(out.high[axis], x);
      }
    }
    out.volume += corner[0].dot(corner[1].clone().cross(corner[2])) / 6;
    out.triangles++;
  }
}
