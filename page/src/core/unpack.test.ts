import { gunzipSync } from 'node:zlib';
import { existsSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { coreOf, pack, type Core } from '../../build/pack-library.mjs';
import { assemble, unpackNear, unpackRest } from './unpack';

/** A made-up image with the layout of image.h: strings, a table of 12-byte records, and values of 2 nutrients by 3 foods. */
function image(): Buffer {
  const sections = [
    { tag: 1, stride: 1, offset: 128, count: 5 },
    { tag: 4, stride: 8, offset: 144, count: 6 },
    { tag: 10, stride: 12, offset: 192, count: 4 },
  ];
  const b = Buffer.alloc(256, 0);
  b.write('BWLIB\r\n\x1a', 0, 'latin1');
  b.writeUInt32LE(2, 32);
  b.writeUInt32LE(sections.length, 36);
  sections.forEach((s, i) => {
    b.writeUInt32LE(s.tag, 48 + i * 24);
    b.writeUInt32LE(s.stride, 52 + i * 24);
    b.writeBigUInt64LE(BigInt(s.offset), 56 + i * 24);
    b.writeBigUInt64LE(BigInt(s.count), 64 + i * 24);
  });
  b.write('a\0bc\0', 128, 'latin1');
  const figures: [number, number][] = [[1.29, 1], [NaN, 0], [0, 4], [Math.PI, 3], [12345.678, 1], [1e-9, 1]];
  figures.forEach(([x, status], i) => {
    if (Number.isNaN(x)) b.writeUInt32LE(0x7fc00000, 144 + i * 8);
    else b.writeFloatLE(x, 144 + i * 8);
    b[148 + i * 8] = i * 7;
    b[149 + i * 8] = status;
    b.writeUInt16LE(300 + i, 150 + i * 8);
  });
  for (let i = 0; i < 48; i++) b[192 + i] = (i * 37) % 256;
  b[250] = 9; /* something after the last section */
  return b;
}

async function arrived(whole: Buffer, core: Core): Promise<{ first: Buffer; all: Buffer; here: Set<string> }> {
  const packed = pack(whole, core);
  const there = await unpackNear(packed.near);
  const first = Buffer.from(there.image);
  await unpackRest(packed.rest, () => there.image);
  return { first, all: Buffer.from(there.image), here: there.here };
}

describe('the library on its way', () => {
  const core: Core = { checksum: () => 7n, near: () => ({ picked: [1], pins: ['usda:1'] }) };
  it('arrives as the identical bytes', async () => {
    const { first, all, here } = await arrived(image(), core);
    expect(all.equals(image())).toBe(true);
    expect([...here]).toEqual(['usda:1']);
    /* Values of food 1, with their spread, standing and source; those of the others are unknown, which is no figure and not zero. */
    for (const food of [0, 1, 2])
      for (const nutrient of [0, 1]) {
        const at = 144 + (food * 2 + nutrient) * 8;
        if (food === 1) expect(first.subarray(at, at + 8).equals(image().subarray(at, at + 8))).toBe(true);
        else expect([first.readFloatLE(at), first[at + 5]]).toEqual([NaN, 0]);
      }
  });
  it('says so when it is cut short', () => {
    const all = gunzipSync(pack(image(), core).near);
    expect(() => assemble(all.subarray(0, all.length - 3))).toThrow('cut short');
  });
  it('refuses a second part of another library', () => {
    expect(() => assemble(gunzipSync(pack(image(), core).rest), new Uint8Array(8))).toThrow('do not belong together');
  });
  const [real, wasm] = [process.env.BW_LIBRARY ?? '', process.env.BW_WASM ?? ''];
  it.skipIf(!existsSync(real) || !existsSync(wasm))('arrives as the identical bytes, the whole library', { timeout: 120_000 }, async () => {
    const whole = readFileSync(real);
    expect((await arrived(whole, await coreOf(readFileSync(wasm)))).all.equals(whole)).toBe(true);
  });
});
