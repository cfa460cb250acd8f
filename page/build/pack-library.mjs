// Writes the food library image in the form in which it travels to a browser. Usage: node pack-library.mjs IMAGE PACKED
//
// The image is laid out for reading in place; that makes it four times as large as what it says. Here its tables are turned
// into columns, published decimals (1.29) become whole numbers (129, two decimals), and all goes through gzip. unpack.ts puts
// the identical bytes together again; the image's own checksum, which the core verifies, guards the way.
// docs/decisions/0005-library-on-its-way.md has the measurements.
import { readFileSync, writeFileSync } from 'node:fs';
import { deflateSync, gzipSync } from 'node:zlib';

const HEADER_BYTES = 48;
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

function values(image, { offset, count }, nutrients) {
  const foods = count / nutrients;
  const [cv, status, source] = [Buffer.alloc(count), Buffer.alloc(count), Buffer.alloc(count * 2)];
  const [decimals, whole, bits] = [[], [], []];
  let k = 0;
  for (let n = 0; n < nutrients; n++) {
    for (let f = 0; f < foods; f++, k++) {
      const at = offset + (f * nutrients + n) * VALUE_BYTES;
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
  return { part, streams: [cv, status, source, Buffer.from(decimals), planes(whole), plain(bits)] };
}

export function pack(image) {
  const nutrients = image.readUInt32LE(32);
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
  sections.sort((a, b) => a.offset - b.offset);
  const done = [];
  let end = 0;
  const raw = (from, to) => {
    if (to > from) done.push({ part: { how: 'raw', offset: from, bytes: to - from }, streams: [image.subarray(from, to)] });
  };
  for (const s of sections) {
    raw(end, s.offset);
    done.push(s.tag === VALUES_TAG && s.stride === VALUE_BYTES ? values(image, s, nutrients) : table(image, s));
    end = s.offset + s.stride * s.count;
  }
  raw(end, image.length);
  const plan = Buffer.from(JSON.stringify({ bytes: image.length, parts: done.map((d) => d.part) }));
  const size = Buffer.alloc(4);
  size.writeUInt32LE(plan.length);
  return gzipSync(Buffer.concat([size, plan, ...done.flatMap((d) => d.streams)]), { level: 9 });
}

if (process.argv[1]?.endsWith('pack-library.mjs')) {
  const [from, to] = process.argv.slice(2);
  const image = readFileSync(from);
  const packed = pack(image);
  writeFileSync(to, packed);
  console.log(`${from}: ${image.length} bytes, ${packed.length} on the way`);
}
