/** The text that a person writes, cut up for drawing: which letters are a header, a remark, a pin, or what somebody complained
 * about. Columns of the core count characters; the browser counts UTF-16 units. */
import type { Complaint } from '../core/answers';

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

const HEADER = /^\s*[\p{L} ]{2,20}:/u;

export function piecesOf(line: string, complaints: Complaint[], beforeFood: boolean): Piece[] {
  const marks: { from: number; to: number; is: string }[] = [];
  const hash = line.search(/(^|\s)#/);
  if (hash >= 0) marks.push({ from: hash, to: line.length, is: 'remark' });
  for (const pin of line.matchAll(/\[[^\]\s]*:[^\]\s]*\]/g)) marks.push({ from: pin.index, to: pin.index + pin[0].length, is: 'pin' });
  const header = beforeFood ? HEADER.exec(line) : null;
  if (header) marks.push({ from: 0, to: header[0].length, is: 'key' });
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

/** Is this line before the first ingredient? Headers stand there. */
export function headerLines(lines: string[]): number {
  let n = 0;
  while (n < lines.length && (/^\s*(#.*)?$/.test(lines[n] ?? '') || HEADER.test(lines[n] ?? ''))) n++;
  return n;
}

const SAYS_NO_FOOD = /^\s*($|#|(recipe|larder|for|makes|meals|total|cook|note|aim|limits)\s*:)/i;

/** Only headers, remarks and empty lines. "lamb heart: 200 g" is a food. */
export function holdsNoFood(body: string): boolean {
  return body.split('\n').every((l) => SAYS_NO_FOOD.test(l));
}

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
  const old = /\s*\[[^\]\s]*:[^\]\s]*\]/.exec(line);
  if (old) return { from: start + old.index, to: start + old.index + old[0].length, write: ` [${pin}]` };
  const end = line.replace(/\s*(#.*)?$/, '').length;
  return { from: start + end, to: start + end, write: ` [${pin}]` };
}

/** Sets a header such as For: in a recipe or larder. */
export function withHeader(body: string, key: string, value: string): string {
  const lines = body.split('\n');
  const n = headerLines(lines);
  const at = lines.findIndex((l, i) => i < n && l.trim().toLowerCase().startsWith(`${key.toLowerCase()}:`));
  if (at >= 0) lines[at] = `${key}: ${value}`;
  else {
    const name = lines.findIndex((l, i) => i < n && /^\s*(recipe|larder):/i.test(l));
    lines.splice(name + 1, 0, `${key}: ${value}`);
  }
  return lines.join('\n');
}

/** The recipe is for this animal: what tells one in passing gives way. */
export function withAnimal(body: string, name: string): string {
  const lines = body.split('\n');
  const n = headerLines(lines);
  const at = lines.findIndex((l, i) => i < n && /^\s*(dog|cat)\s*:/i.test(l));
  if (at < 0) return withHeader(body, 'For', name);
  lines[at] = `For: ${name}`;
  return lines.filter((l, i) => i === at || i >= n || !/^\s*for\s*:/i.test(l)).join('\n');
}

export function headerOf(body: string, key: string): string {
  const line = body.split('\n').find((l) => l.trim().toLowerCase().startsWith(`${key.toLowerCase()}:`));
  return line ? line.slice(line.indexOf(':') + 1).replace(/\s#.*$/, '').trim() : '';
}

export function animalNames(body: string): string[] {
  return [...body.matchAll(/^[ \t]*animal:[ \t]*(.+?)[ \t]*(?:#.*)?$/gim)].map((m) => m[1] as string);
}

/** "Zinc tablets and 2 more" */
function labelsTitle(body: string): string {
  const names = [...body.matchAll(/^[ \t]*(?:food|name):[ \t]*(.*?)[ \t]*$/gim)].map((m) => m[1] as string).filter((n) => n !== '');
  if (names.length === 0) return 'An empty label';
  return (names[0] as string).slice(0, 60) + (names.length > 1 ? ` and ${names.length - 1} more` : '');
}

/** What a text is called in a list. */
export function titleOf(kind: string, body: string): string {
  const key = kind === 'recipe' ? 'Recipe' : kind === 'larder' ? 'Larder' : '';
  const named = key ? headerOf(body, key) : '';
  if (named) return named.slice(0, 80);
  if (kind === 'animals') return 'The animals';
  if (kind === 'foods') return labelsTitle(body);
  const first = body.split('\n').find((l) => !SAYS_NO_FOOD.test(l));
  return (first ?? '').trim().slice(0, 40) || (kind === 'larder' ? 'An empty larder' : 'An empty recipe');
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

/** Another food in a line's place; a bullet or number before it stays. */
export function withLine(old: string, text: string): string {
  return (/^\s*(?:[-*•–]\s+|\d+[.)]\s+)?/.exec(old)?.[0] ?? '') + text;
}
