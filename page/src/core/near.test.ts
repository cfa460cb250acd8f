import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { coreOf, pack } from '../../build/pack-library.mjs';
import { unpackNear } from './unpack';

/* The core as it goes to the page, once with the first part of the library and once with all of it. */
const [wasm, library] = [process.env.BW_WASM ?? '', process.env.BW_LIBRARY ?? ''];
const examples = join(__dirname, '../../../examples');

interface Core {
  memory: WebAssembly.Memory;
  _initialize(): void;
  bw_alloc(n: number): number;
  bw_open(at: number, n: number): number;
  bw_ask(at: number, n: number, asked: number, askedN: number): number;
  bw_page(at: number, n: number, asked: number, askedN: number): number;
  bw_answer(): number;
  bw_answer_bytes(): number;
}

async function core(image: Uint8Array): Promise<(recipe: string) => string> {
  const compiled = await WebAssembly.compile(readFileSync(wasm));
  const instance = await WebAssembly.instantiate(compiled, { wasi_snapshot_preview1: new Proxy({}, { get: () => () => 8 }), page: { go_on: () => 1 } });
  const c = instance.exports as unknown as Core;
  const put = (bytes: Uint8Array): [number, number] => {
    const at = c.bw_alloc(Math.max(1, bytes.length));
    new Uint8Array(c.memory.buffer, at, bytes.length).set(bytes);
    return [at, bytes.length];
  };
  c._initialize();
  expect(c.bw_open(...put(image))).toBe(0);
  const text = (words: string): [number, number] => put(new TextEncoder().encode(words));
  expect(c.bw_ask(...put(readFileSync(join(examples, 'saltmarsh.animals'))), ...text('today=2026-11-25'))).toBe(0);
  return (recipe) => {
    c.bw_page(...text(recipe), ...text('eaten=1'));
    return new TextDecoder().decode(new Uint8Array(c.memory.buffer, c.bw_answer(), c.bw_answer_bytes()));
  };
}

const FOODS = ['beef liver', 'chicken thigh', 'salmon', 'whiting', 'rabbit', 'venison', 'ostrich', 'turkey neck', 'sweet potato', 'kale', 'oats', 'lentils', 'olive oil'];
FOODS.push('salmon oil', 'egg', 'cottage cheese', 'pork heart', 'duck breast', 'herring', 'mussels', 'pumpkin', 'quinoa', 'brown rice', 'goat', 'bison', 'tuna');

describe('the first part of the library', () => {
  it.skipIf(!existsSync(wasm) || !existsSync(library))('answers as the whole does, or names a food that is not here yet', { timeout: 120_000 }, async () => {
    const whole = readFileSync(library);
    const near = await unpackNear(pack(whole, await coreOf(readFileSync(wasm))).near);
    const [first, all] = [await core(near.image), await core(whole)];
    const recipes = readdirSync(examples).filter((f) => f.endsWith('.recipe')).map((f) => readFileSync(join(examples, f), 'utf8'));
    const single = FOODS.flatMap((f) => [`For: Juniper\n\n300 g ${f}\n`, `For: Pim\n\n120 g ${f}, raw\n10 g sunflower oil\n`]);
    let waited = 0;
    for (const recipe of [...recipes, ...single]) {
      const [a, b] = [first(recipe), all(recipe)];
      const far = [...a.matchAll(/"((?:usda|ifct):[^"\s]+)"/g)].some((m) => !near.here.has(m[1]!));
      if (far) waited++;
      else expect(a, recipe).toBe(b);
    }
    console.log(`waits for the rest: ${waited} of ${recipes.length + single.length}`);
    expect(waited).toBeLessThan((recipes.length + single.length) / 2);
  });
});
