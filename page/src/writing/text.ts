/** The text that a person writes, cut up for drawing and changed in one place. What its lines and their pieces are, the core says
 * (core/here.ts). Columns of the core count characters; the browser counts UTF-16 units. */
import type { Complaint, TextLine } from '../core/answers';
import { hereReady, textLines } from '../core/here';
import type { Kind, Text } from '../store/store';

export interface Piece {
  text: string;
  /** Classes of the piece; '' is plain. */
  is: string;
}

/** From a column that counts characters, 1 first, to an index into the string. */
export function indexOf(line: string, column: number): number {
  let index = 0;
  for (let c = 1; c < column && index < line.length; c++) index += (line.codePointAt(index) ?? 0) > 0xffff ? 2 : 1;
  return index;
}

/** Start and end, in UTF-16 units, of what a complaint is about; at least one letter, if the line has one. */
export function rangeOf(line: string, c: { column: number; width: number }): [number, number] {
  if (line.length === 0) return [0, 0];
  const from = Math.min(indexOf(line, c.column), line.length - 1);
  const to = indexOf(line, c.column + Math.max(1, c.width));
  return [from, Math.max(from + 1, Math.min(to, line.length))];
}

export function piecesOf(line: string, complaints: Complaint[], parts: TextLine): Piece[] {
  const marks: { from: number; to: number; is: string }[] = [];
  const mark = (is: string, column: number | null, width: number): void => {
    if (column !== null) marks.push({ from: indexOf(line, column), to: indexOf(line, column + width), is });
  };
  mark('remark', parts.remark_column, line.length);
  mark('pin', parts.pin_column, parts.pin_width ?? 0);
  if (parts.kind === 'header' || parts.kind === 'heading') mark('key', parts.key_column, parts.key_width ?? 0);
  for (const c of complaints) {
    const [from, to] = rangeOf(line, c);
    if (to > from) marks.push({ from, to, is: c.level });
  }
  const cuts = new Set([0, line.length]);
  for (const m of marks) cuts.add(m.from).add(m.to);
  const at = [...cuts].sort((a, b) => a - b);
  const pieces: Piece[] = [];
  for (let i = 0; i + 1 < at.length; i++) {
    const [from, to] = [at[i] as number, at[i + 1] as number];
    const is = [...new Set(marks.filter((m) => m.from <= from && m.to >= to).map((m) => m.is))].join(' ');
    pieces.push({ text: line.slice(from, to), is });
  }
  return pieces;
}

/** Only headers, remarks and empty lines. "lamb heart: 200 g" is a food. */
export const holdsNoFood = (body: string, kind: Kind = 'recipe'): boolean => !textLines(kind, body).begun;

/** What a complaint says to type instead: from and to are places in the whole text. */
export function remediesOf(c: Complaint, lines: string[]): { words: string; from: number; to: number; write: string }[] {
  return c.fix.map((f) => {
    const line = lines[f.line - 1] ?? '';
    const start = lines.slice(0, f.line - 1).reduce((n, l) => n + l.length + 1, 0);
    return { words: f.label, from: start + indexOf(line, f.column), to: start + indexOf(line, f.column + f.width), write: f.write };
  });
}

/** The text with a pin in one line: an older pin gives way. Lines count from 1. */
export function withPin(body: string, lineNumber: number, pin: string): { from: number; to: number; write: string } {
  const lines = body.split('\n');
  let start = 0;
  for (let i = 0; i < lineNumber - 1; i++) start += (lines[i] ?? '').length + 1;
  const line = lines[lineNumber - 1] ?? '';
  const parts = textLines('recipe', line).lines[0];
  const old = parts?.pin_column ?? null;
  const end = start + indexOf(line, parts?.end_column ?? line.length + 1);
  if (old === null) return { from: end, to: end, write: ` [${pin}]` };
  const from = indexOf(line, old);
  return { from: start + from, to: start + indexOf(line, old + (parts?.pin_width ?? 0)), write: `[${pin}]` };
}

export function withoutPin(line: string): string {
  const parts = textLines('recipe', line).lines[0];
  if (!parts || parts.pin_column === null) return line;
  return line.slice(0, indexOf(line, parts.pin_column)) + line.slice(indexOf(line, parts.pin_column + (parts.pin_width ?? 0)));
}

/** Sets a header such as For: in a recipe or larder. */
export function withHeader(kind: Kind, body: string, key: string, value: string): string {
  const lines = body.split('\n');
  const are = textLines(kind, body).lines;
  const at = are.findIndex((l) => l.header === key);
  if (at >= 0) lines[at] = `${key}: ${value}`;
  else lines.splice(are.findIndex((l) => l.header === 'Recipe' || l.header === 'Larder') + 1, 0, `${key}: ${value}`);
  return lines.join('\n');
}

/** The recipe is for this animal: what tells one in passing gives way. */
export function withAnimal(body: string, name: string): string {
  const lines = body.split('\n');
  const are = textLines('recipe', body).lines;
  const at = are.findIndex((l) => l.header === 'Dog' || l.header === 'Cat');
  if (at < 0) return withHeader('recipe', body, 'For', name);
  lines[at] = `For: ${name}`;
  return lines.filter((_, i) => i === at || are[i]?.header !== 'For').join('\n');
}

/** Whom a recipe or larder names. */
export const forWhom = (kind: Kind, body: string): string => textLines(kind, body).for_whom ?? '';

export const animalNames = (body: string): string[] => textLines('animals', body).names;

const EMPTY: Record<Kind, string> = { recipe: 'An empty recipe', larder: 'An empty larder', foods: 'An empty label', animals: 'The animals', plan: 'A plan', journal: 'The journal' };
const LABEL_MOST = 60;

/** What a text is called in a list. */
export function titleOf(kind: Kind, body: string): string {
  if (kind === 'animals' || kind === 'journal') return EMPTY[kind];
  const { title, names } = textLines(kind, body);
  if (kind !== 'foods') return title ?? EMPTY[kind];
  return names.length === 0 ? EMPTY.foods : names[0]!.slice(0, LABEL_MOST) + (names.length > 1 ? ` and ${names.length - 1} more` : '');
}

const titles = new WeakMap<Text, string>();

/** The same of a text that is kept: it is read once. */
export function nameOf(t: Text): string {
  const there = titles.get(t);
  if (there !== undefined) return there;
  const title = titleOf(t.kind, t.body);
  if (hereReady.value) titles.set(t, title);
  return title;
}

/** Complaints as a sentence each. */
export function complaintsInWords(complaints: Complaint[]): string {
  return complaints
    .filter((c) => c.level === 'error')
    .map((c) => (c.line > 0 ? `${c.text === 'larder' ? 'In the larder, line' : 'Line'} ${c.line}: ${c.message}` : c.message))
    .map((l) => l.charAt(0).toUpperCase() + l.slice(1) + (/[.?!]$/.test(l) ? '' : '.'))
    .join(' ');
}

/** Lines count from 1. */
export function lineAt(body: string, line: number): string {
  return body.split('\n')[line - 1] ?? '';
}

/** Another food in a line's place; what stands before what was read of it ('shown'), a bullet or number, stays. */
export function withLine(old: string, shown: string, text: string): string {
  return old.slice(0, Math.max(0, old.indexOf(shown))) + text;
}
