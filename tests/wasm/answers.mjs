// Asks the WebAssembly module what the native program was asked, and prints the same JSON.
// Usage: node answers.mjs MODULE LIBRARY ANIMALS YYYY-MM-DD RECIPE...
import { readFileSync } from 'node:fs';
import { WASI } from 'node:wasi';

const [modulePath, libraryPath, animalsPath, date, ...recipes] = process.argv.slice(2);
const wasi = new WASI({ version: 'preview1' });
const module = await WebAssembly.compile(readFileSync(modulePath));
const instance = await WebAssembly.instantiate(module, { wasi_snapshot_preview1: wasi.wasiImport });
wasi.initialize(instance);
const call = instance.exports;

function put(bytes) {
  const at = call.bw_alloc(bytes.length || 1);
  new Uint8Array(call.memory.buffer, at, bytes.length).set(bytes);
  return [at, bytes.length];
}

const fault = call.bw_open(...put(readFileSync(libraryPath)));
if (fault !== 0) throw new Error(`the library was refused: fault ${fault}`);
const animals = put(readFileSync(animalsPath));
const [year, month, day] = date.split('-').map(Number);
if (call.bw_ask(...animals, year, month, day, 0, 0, 0.75) !== 0) throw new Error('the question was refused');
for (const path of recipes) {
  const code = call.bw_check(...put(readFileSync(path)));
  if (code !== 0 && code !== 4) throw new Error(`${path}: code ${code}`);
  const text = new Uint8Array(call.memory.buffer, call.bw_answer(), call.bw_answer_bytes());
  process.stdout.write(new TextDecoder().decode(text) + '\n');
}
