// Asks the WebAssembly module what the native program was asked, and prints the same JSON.
// Usage: node answers.mjs MODULE LIBRARY ANIMALS YYYY-MM-DD CALL TEXT...   (CALL: check, mend, swap, compose, side)
// Of days: week-plan, week-journal, trend and slim take the text, WHO, and recipes as NAME=FILE.
// With FOODS in the environment, the foods of that label text join the library first.
import { readFileSync } from 'node:fs';

const [modulePath, libraryPath, animalsPath, date, verb, ...texts] = process.argv.slice(2);
// The core asks nothing of a system: whatever it calls is refused. Searches may take as long as they like.
const imports = { wasi_snapshot_preview1: new Proxy({}, { get: () => () => 8 }), page: { go_on: () => 1 } };
const instance = await WebAssembly.instantiate(await WebAssembly.compile(readFileSync(modulePath)), imports);
const call = instance.exports;
call._initialize();

function put(bytes) {
  const at = call.bw_alloc(bytes.length || 1);
  new Uint8Array(call.memory.buffer, at, bytes.length).set(bytes);
  return [at, bytes.length];
}

const answered = () => new TextDecoder().decode(new Uint8Array(call.memory.buffer, call.bw_answer(), call.bw_answer_bytes()));
const fault = call.bw_open(...put(readFileSync(libraryPath)));
if (fault !== 0) throw new Error(`the library was refused: ${answered()}`);
const words = (text) => put(new TextEncoder().encode(text));
if (call.bw_ask(...put(readFileSync(animalsPath)), ...words(`today=${date}`)) !== 0) throw new Error('the question was refused');

if (process.env.FOODS) {
  // Twice: the foods of the first time must be gone, or their pins would be taken.
  for (let i = 0; i < 2; i++) call.bw_own(...put(readFileSync(process.env.FOODS)), 0);
  const said = JSON.parse(answered());
  if (said.complaints.length > 0 || said.answer.foods.length === 0) throw new Error(`the labels: ${JSON.stringify(said)}`);
}

const file = (path) => put(readFileSync(path));
// Recipes by name, as "name\0text\0".
const [text, who, ...named] = texts;
const shelf = () => words(named.map((n) => `${n.split('=')[0]}\0${readFileSync(n.split('=')[1], 'utf8')}\0`).join(''));
const asked = {
  check: () => texts.map((t) => () => call.bw_check(...file(t))),
  mend: () => texts.map((t) => () => call.bw_mend(...file(t), ...words(''), ...words(''))),
  swap: () => texts.map((t) => () => call.bw_swap(...file(t), ...words('line=6\nmost=10'))),
  compose: () => texts.map((t) => () => call.bw_compose(...file(t))),
  sheet: () => texts.map((t) => () => call.bw_sheet(...file(t), ...words(''), ...words('days=7\nunits=us'))),
  'week-plan': () => [() => call.bw_week(...words('plan'), ...file(text), ...shelf(), ...words(who), ...words(''))],
  'week-journal': () => [() => call.bw_week(...words('journal'), ...file(text), ...shelf(), ...words(who), ...words(''))],
  trend: () => [() => call.bw_trend(...file(text), ...shelf(), ...words(who), ...words('forecast=56'))],
  slim: () => [() => call.bw_slim(...file(text), ...shelf(), ...words(''), ...words(who), ...words(''))],
  side: () => [() => call.bw_side(...file(texts[0]), ...file(texts[1]))],
};
for (const ask of asked[verb]()) {
  const code = ask();
  const told = answered();
  // The answer as it was written, out of its envelope.
  const written = told.slice(told.indexOf(',"answer":') + 10, -1);
  if (![0, 4, 5].includes(code)) throw new Error(`${verb}: code ${code}: ${told}`);
  process.stdout.write(verb === 'sheet' ? JSON.parse(written).html : written + '\n');
}
