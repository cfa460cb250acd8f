/** Puts the food library image together again from the form in which it travels (build/pack-library.mjs), byte for byte. The
 * core's own checksum of the image tells whether that has worked. It comes in two parts: the first is a library in which the
 * values of most foods are unknown yet, the second puts them in. */

type Way = 'planes' | 'words' | 'dplanes' | 'dwords';
type Part =
  | { how: 'raw'; offset: number; bytes: number }
  | { how: 'columns'; offset: number; stride: number; count: number; columns: Way[] }
  | { how: 'values'; offset: number; nutrients: number; foods: number; decimals: number; whole: number; bits: number };

const RAW = 255;
const DECIMAL_STATUS = 1;
const VALUE_BYTES = 8;
const NAN_BITS = 0x7fc00000;
const POWERS = [1, 10, 100, 1e3, 1e4, 1e5, 1e6, 1e7];

interface Plan {
  bytes: number;
  /** The values that stand for "not here yet" first. */
  blank?: { offset: number; count: number };
  /** The foods whose values are here. */
  pins?: string;
  parts: Part[];
}

export interface Library {
  image: Uint8Array;
  /** The pins of the foods whose values are in it; of the second part none are named, for then all are. */
  here: Set<string>;
}

async function unzipped(packed: Uint8Array): Promise<Uint8Array> {
  const stream = new Blob([packed as BlobPart]).stream().pipeThrough(new DecompressionStream('gzip'));
  return new Uint8Array(await new Response(stream).arrayBuffer());
}

/** 'room' gives the place for that many bytes, all of them zero. */
export async function unpackNear(packed: Uint8Array, room: (bytes: number) => Promise<Uint8Array> | Uint8Array = (n) => new Uint8Array(n)): Promise<Library> {
  const all = await unzipped(packed);
  return assemble(all, await room(planOf(new Reader(all)).bytes));
}

/** Puts the second part into the image that the first one made. */
export async function unpackRest(packed: Uint8Array, onto: () => Uint8Array): Promise<void> {
  const rest = await unzipped(packed);
  assemble(rest, onto());
}

class Reader {
  at = 0;
  constructor(private from: Uint8Array) {}
  take(n: number): Uint8Array {
    if (this.at + n > this.from.length) throw new Error('the food library is cut short');
    this.at += n;
    return this.from.subarray(this.at - n, this.at);
  }
}

/* What follows runs once, while somebody waits, and is over before the browser has made fast code of it: the image is written as words and not
 * byte by byte, and one loop does for all columns. */
interface Image {
  bytes: Uint8Array;
  words: Int32Array;
  floats: Float32Array;
}

function imageOf(bytes: Uint8Array): Image {
  const n = bytes.byteLength >> 2;
  return { bytes, words: new Int32Array(bytes.buffer, bytes.byteOffset, n), floats: new Float32Array(bytes.buffer, bytes.byteOffset, n) };
}

/** As many words as 'bytes' hold go to out[at], out[at + step], ... */
function put(bytes: Uint8Array, way: Way, out: Int32Array, at: number, step: number): void {
  const n = bytes.length >> 2;
  const apart = way === 'planes' || way === 'dplanes';
  const differences = way === 'dplanes' || way === 'dwords' ? -1 : 0;
  const [next, plane] = apart ? [1, n] : [4, 1];
  let before = 0;
  for (let i = 0, k = 0, to = at; i < n; i++, k += next, to += step) {
    const w = bytes[k]! | (bytes[k + plane]! << 8) | (bytes[k + 2 * plane]! << 16) | (bytes[k + 3 * plane]! << 24);
    before = (w + (before & differences)) | 0;
    out[to] = before;
  }
}

function words(bytes: Uint8Array, way: Way): Int32Array {
  const out = new Int32Array(bytes.length >> 2);
  put(bytes, way, out, 0, 1);
  return out;
}

function columns(p: Extract<Part, { how: 'columns' }>, r: Reader, out: Image): void {
  p.columns.forEach((way, c) => put(r.take(p.count * 4), way, out.words, (p.offset >> 2) + c, p.stride >> 2));
}

function values(p: Extract<Part, { how: 'values' }>, r: Reader, { words: out, floats }: Image): void {
  const count = p.nutrients * p.foods;
  const food = words(r.take(p.foods * 4), 'dwords');
  const [cv, status, low, high, decimals] = [r.take(count), r.take(count), r.take(count), r.take(count), r.take(p.decimals)];
  const whole = words(r.take(p.whole * 4), 'planes');
  const bits = words(r.take(p.bits * 4), 'words');
  for (let f = 0; f < p.foods; f++) food[f] = (p.offset + food[f]! * p.nutrients * VALUE_BYTES) >> 2;
  let [k, d, w, b] = [0, 0, 0, 0];
  for (let n = 0; n < p.nutrients; n++) {
    for (let f = 0; f < p.foods; f++, k++) {
      const at = food[f]! + n * 2;
      const s = status[k]!;
      out[at + 1] = cv[k]! | (s << 8) | (low[k]! << 16) | (high[k]! << 24);
      if (s === 0) out[at] = NAN_BITS;
      else if (s === 4) out[at] = 0;
      else {
        const places = s === DECIMAL_STATUS ? decimals[d++]! : RAW;
        if (places === RAW) out[at] = bits[b++]!;
        else floats[at] = whole[w++]! / POWERS[places]!;
      }
    }
  }
}

/** NaN, no spread, unknown, no source: eight bytes again and again. */
function blank(image: Uint8Array, { offset, count }: { offset: number; count: number }): void {
  const two = new Uint32Array(image.buffer, image.byteOffset + offset, count * 2);
  if (count === 0) return;
  two[0] = NAN_BITS;
  two[1] = 0;
  for (let done = 2; done < two.length; done *= 2) two.copyWithin(done, 0, Math.min(done, two.length - done));
}

function planOf(r: Reader): Plan {
  const size = words(r.take(4), 'words')[0]!;
  return JSON.parse(new TextDecoder().decode(r.take(size))) as Plan;
}

export function assemble(unzipped: Uint8Array, onto?: Uint8Array): Library {
  const r = new Reader(unzipped);
  const plan = planOf(r);
  const image = onto ?? new Uint8Array(plan.bytes);
  if (image.length !== plan.bytes) throw new Error('the two parts of the food library do not belong together');
  const out = imageOf(image);
  if (plan.blank) blank(image, plan.blank);
  for (const p of plan.parts) {
    if (p.how === 'raw') image.set(r.take(p.bytes), p.offset);
    else if (p.how === 'columns') columns(p, r, out);
    else values(p, r, out);
  }
  return { image, here: new Set(plan.pins?.split(' ')) };
}
