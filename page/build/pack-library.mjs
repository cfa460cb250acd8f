// Writes the food library image in the form in which it travels to a browser. Usage: node pack-library.mjs IMAGE CORE_WASM NEAR REST
//
// The image is laid out for reading in place; that makes it four times as large as what it says. Here its tables are turned
// into columns, published decimals (1.29) become whole numbers (129, two decimals), and all goes through gzip. unpack.ts puts
// the identical bytes together again; the image's own checksum, which the core verifies, guards the way.
//
// It travels in two files. NEAR is a whole image for the core, with every table and the names of all foods, but with the values
// of those foods only that people name, and of their kin; every other value is unknown in it, and its checksum is its own. REST
// turns it into the identical image that was given, in place.
// docs/decisions/0005-library-on-its-way.md has the measurements.
import { readFileSync, writeFileSync } from 'node:fs';
import { deflateSync, gzipSync } from 'node:zlib';

const HEADER_BYTES = 48;
const CHECKSUM_AT = 24;
const VALUES_TAG = 4;
const VALUE_BYTES = 8;
const MOST_DECIMALS = 7;
const RAW = 255;
const DECIMAL_STATUS = 1; // measured: printed decimals
const NAN_BITS = 0x7fc00000;

const sizeOf = (bytes) => deflateSync(bytes, { level: 6 }).length;

function planes(words) {
  const bytes = Buffer.alloc(words.length * 4);
  for (let i = 0; i < words.length; i++) for (let j = 0; j < 4; j++) bytes[j * words.length + i] = (words[i] >>> (8 * j)) & 255;
  return bytes;
}

function plain(words) {
  const bytes = Buffer.alloc(words.length * 4);
  for (let i = 0; i < words.length; i++) bytes.writeUInt32LE(words[i], i * 4);
  return bytes;
}

const deltas = (words) => words.map((w, i) => (w - (i > 0 ? words[i - 1] : 0)) >>> 0);

/** The smallest of four ways to write a column of 32-bit words. */
function column(words) {
  const ways = { planes: planes(words), words: plain(words), dplanes: planes(deltas(words)), dwords: plain(deltas(words)) };
  let best = null;
  for (const [how, bytes] of Object.entries(ways)) {
    const size = sizeOf(bytes);
    if (best === null || size < best.size) best = { how, bytes, size };
  }
  return best;
}

function table(image, { offset, stride, count }) {
  if (stride % 4 !== 0 || count < 2) {
    const bytes = image.subarray(offset, offset + stride * count);
    return { part: { how: 'raw', offset, bytes: bytes.length }, streams: [bytes] };
  }
  const columns = [];
  const streams = [];
  for (let f = 0; f < stride; f += 4) {
    const words = [];
    for (let i = 0; i < count; i++) words.push(image.readUInt32LE(offset + i * stride + f));
    const best = column(words);
    columns.push(best.how);
    streams.push(best.bytes);
  }
  return { part: { how: 'columns', offset, stride, count, columns }, streams };
}

/** Decimals and whole number of a float that was printed with few decimals; null when it was not. */
function decimal(x) {
  for (let d = 0; d <= MOST_DECIMALS; d++) {
    const k = Math.round(x * 10 ** d);
    if (k >= 0 && k < 2 ** 31 && Object.is(Math.fround(k / 10 ** d), x)) return [d, k];
  }
  return null;
}

/** Of the foods whose numbers stand in 'picked', in that order. */
function values(image, { offset }, nutrients, picked) {
  const foods = picked.length;
  const count = foods * nutrients;
  const [cv, status, source] = [Buffer.alloc(count), Buffer.alloc(count), Buffer.alloc(count * 2)];
  const [decimals, whole, bits] = [[], [], []];
  let k = 0;
  for (let n = 0; n < nutrients; n++) {
    for (let f = 0; f < foods; f++, k++) {
      const at = offset + (picked[f] * nutrients + n) * VALUE_BYTES;
      cv[k] = image[at + 4];
      status[k] = image[at + 5];
      source[k] = image[at + 6];
      source[count + k] = image[at + 7];
      const word = image.readUInt32LE(at);
      if ((status[k] === 0 && word === NAN_BITS) || (status[k] === 4 && word === 0)) continue;
      if (status[k] === 0 || status[k] === 4) throw new Error('a value without a figure has one');
      const written = status[k] === DECIMAL_STATUS ? decimal(image.readFloatLE(at)) : null;
      if (status[k] === DECIMAL_STATUS) decimals.push(written ? written[0] : RAW);
      if (written) whole.push(written[1]);
      else bits.push(word);
    }
  }
  const part = { how: 'values', offset, nutrients, foods, decimals: decimals.length, whole: whole.length, bits: bits.length };
  return { part, streams: [plain(deltas(picked)), cv, status, source, Buffer.from(decimals), planes(whole), plain(bits)] };
}

const file = (plan, streams) => {
  const words = Buffer.from(JSON.stringify(plan));
  const size = Buffer.alloc(4);
  size.writeUInt32LE(words.length);
  return gzipSync(Buffer.concat([size, words, ...streams]), { level: 9 });
};

function sectionsOf(image) {
  const sections = [];
  for (let i = 0; i < image.readUInt32LE(36); i++) {
    const at = HEADER_BYTES + i * 24;
    sections.push({
      tag: image.readUInt32LE(at),
      stride: image.readUInt32LE(at + 4),
      offset: Number(image.readBigUInt64LE(at + 8)),
      count: Number(image.readBigUInt64LE(at + 16)),
    });
  }
  return sections.sort((a, b) => a.offset - b.offset);
}

/** The core itself, asked about an image: the checksum that it has to hold, and the numbers and pins of the foods that people name,
 * and of their kin: whose names in the same table begin with the same three words. Which they are decides about waiting only, never
 * about an answer: the worker sees which foods an answer is about. */
export async function coreOf(wasm) {
  const instance = await WebAssembly.instantiate(await WebAssembly.compile(wasm), {
    wasi_snapshot_preview1: new Proxy({}, { get: () => () => 8 }),
    page: { go_on: () => 1 },
  });
  const core = instance.exports;
  core._initialize();
  const put = (image) => {
    const at = core.bw_alloc(image.length);
    new Uint8Array(core.memory.buffer, at, image.length).set(image);
    return at;
  };
  return {
    checksum: (image) => {
      const at = put(image);
      const sum = BigInt.asUintN(64, core.bw_image_checksum(at, image.length));
      core.bw_free(at);
      return sum;
    },
    near: (image) => {
      if (core.bw_open(put(image), image.length) !== 0) throw new Error('the core does not open the image');
      core.bw_near();
      const { foods } = JSON.parse(Buffer.from(core.memory.buffer, core.bw_answer(), core.bw_answer_bytes()).toString()).answer;
      const kin = (f) => `${f.food.split(':')[0]} ${f.name.split(', ').slice(0, 3)}`;
      const named = new Set(foods.filter((f) => f.named).map(kin));
      const near = new Set([...foods.keys()].filter((f) => named.has(kin(foods[f])) || !/^(usda|ifct):/.test(foods[f].food)));
      for (const f of [...near]) for (const other of [foods[f].bone, foods[f].raw]) if (other !== null) near.add(other);
      const picked = [...near].sort((a, b) => a - b);
      return { picked, pins: picked.map((f) => foods[f].food) };
    },
  };
}

/** 'core': see coreOf. */
export function pack(image, core) {
  const nutrients = image.readUInt32LE(32);
  const sections = sectionsOf(image);
  const of = sections.find((s) => s.tag === VALUES_TAG && s.stride === VALUE_BYTES);
  if (!of) throw new Error('the image has no values, or of another size');
  const foods = of.count / nutrients;
  const { picked, pins } = core.near(image);
  const there = new Set(picked);
  const far = Array.from({ length: foods }, (_, f) => f).filter((f) => !there.has(f));

  const first = Buffer.from(image);
  for (const f of far) {
    for (let n = 0; n < nutrients; n++) {
      first.writeUInt32LE(NAN_BITS, of.offset + (f * nutrients + n) * VALUE_BYTES);
      first.writeUInt32LE(0, of.offset + (f * nutrients + n) * VALUE_BYTES + 4);
    }
  }
  first.writeBigUInt64LE(core.checksum(first), CHECKSUM_AT);

  const done = [];
  let end = 0;
  const raw = (from, to) => {
    if (to > from) done.push({ part: { how: 'raw', offset: from, bytes: to - from }, streams: [first.subarray(from, to)] });
  };
  for (const s of sections) {
    raw(end, s.offset);
    done.push(s === of ? values(first, s, nutrients, picked) : table(first, s));
    end = s.offset + s.stride * s.count;
  }
  raw(end, image.length);
  const rest = [
    { part: { how: 'raw', offset: 0, bytes: HEADER_BYTES }, streams: [image.subarray(0, HEADER_BYTES)] },
    values(image, of, nutrients, far),
  ];
  const blank = { offset: of.offset, count: of.count };
  return {
    near: file({ bytes: image.length, blank, pins: pins.join(' '), parts: done.map((d) => d.part) }, done.flatMap((d) => d.streams)),
    rest: file({ bytes: image.length, parts: rest.map((d) => d.part) }, rest.flatMap((d) => d.streams)),
  };
}

if (process.argv[1]?.endsWith('pack-library.mjs')) {
  const [from, wasm, near, rest] = process.argv.slice(2);
  const image = readFileSync(from);
  const packed = pack(image, await coreOf(readFileSync(wasm)));
  writeFileSync(near, packed.near);
  writeFileSync(rest, packed.rest);
  console.log(`${from}: ${image.length} bytes, ${packed.near.length} on the way and ${packed.rest.length} when asked`);
}
