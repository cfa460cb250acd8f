// Makes a PNG of a screenshot small: 256 colours at most, the most used ones, and no alpha.
import { crc32, deflateSync, inflateSync } from 'node:zlib';

const SIGNATURE = Buffer.from([137, 80, 78, 71, 13, 10, 26, 10]);
const STEP = 8; // colours that differ by less in a channel are one
const MOST = 256;

function chunks(png) {
  const out = [];
  for (let at = 8; at < png.length; ) {
    const bytes = png.readUInt32BE(at);
    out.push({ type: png.toString('latin1', at + 4, at + 8), data: png.subarray(at + 8, at + 8 + bytes) });
    at += bytes + 12;
  }
  return out;
}

function chunk(type, data) {
  const body = Buffer.concat([Buffer.from(type, 'latin1'), data]);
  const out = Buffer.alloc(body.length + 8);
  out.writeUInt32BE(data.length, 0);
  body.copy(out, 4);
  out.writeUInt32BE(crc32(body), body.length + 4);
  return out;
}

/** The filters of the PNG specification (W3C, "Filtering"), taken back. */
function unfiltered(raw, width, height, bpp) {
  const stride = width * bpp;
  const out = Buffer.alloc(stride * height);
  for (let y = 0; y < height; y++) {
    const filter = raw[y * (stride + 1)];
    for (let i = 0; i < stride; i++) {
      const left = i >= bpp ? out[y * stride + i - bpp] : 0;
      const up = y > 0 ? out[(y - 1) * stride + i] : 0;
      const corner = i >= bpp && y > 0 ? out[(y - 1) * stride + i - bpp] : 0;
      const [p, pa] = [left + up - corner, Math.abs(up - corner)];
      const [pb, pc] = [Math.abs(left - corner), Math.abs(p - corner)];
      const guess = [0, left, up, (left + up) >> 1, pa <= pb && pa <= pc ? left : pb <= pc ? up : corner][filter];
      out[y * stride + i] = raw[y * (stride + 1) + 1 + i] + guess;
    }
  }
  return out;
}

export function small(png) {
  const all = chunks(png);
  const head = all.find((c) => c.type === 'IHDR').data;
  const [width, height, depth, kind] = [head.readUInt32BE(0), head.readUInt32BE(4), head[8], head[9]];
  if (depth !== 8 || (kind !== 2 && kind !== 6) || head[12] !== 0) throw new Error('not a screenshot as Chromium writes them');
  const bpp = kind === 6 ? 4 : 3;
  const pixels = unfiltered(inflateSync(Buffer.concat(all.filter((c) => c.type === 'IDAT').map((c) => c.data))), width, height, bpp);
  const rough = (i) => (Math.floor(pixels[i] / STEP) << 16) | (Math.floor(pixels[i + 1] / STEP) << 8) | Math.floor(pixels[i + 2] / STEP);
  const used = new Map(); // how often, and the first true colour of it
  for (let i = 0; i < pixels.length; i += bpp) {
    const u = used.get(rough(i)) ?? { often: 0, colour: [pixels[i], pixels[i + 1], pixels[i + 2]] };
    u.often++;
    used.set(rough(i), u);
  }
  const palette = [...used.values()].sort((a, b) => b.often - a.often).slice(0, MOST).map((u) => u.colour);
  const nearest = ([r, g, b]) => {
    let [best, least] = [0, Infinity];
    palette.forEach(([x, y, z], k) => {
      const far = (r - x) ** 2 + (g - y) ** 2 + (b - z) ** 2;
      if (far < least) [best, least] = [k, far];
    });
    return best;
  };
  const index = new Map([...used].map(([key, u]) => [key, nearest(u.colour)]));
  const rows = Buffer.alloc((width + 1) * height);
  for (let y = 0; y < height; y++) for (let x = 0; x < width; x++) rows[y * (width + 1) + 1 + x] = index.get(rough((y * width + x) * bpp));
  const header = Buffer.from(head);
  header[9] = 3;
  return Buffer.concat([
    SIGNATURE,
    chunk('IHDR', header),
    chunk('PLTE', Buffer.from(palette.flat())),
    chunk('IDAT', deflateSync(rows, { level: 9 })),
    chunk('IEND', Buffer.alloc(0)),
  ]);
}
