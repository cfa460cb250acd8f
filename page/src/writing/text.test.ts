import { readFileSync } from 'node:fs';
import { beforeAll, describe, expect, it } from 'vitest';
import type { Complaint } from '../core/answers';
import { openHere, textLines } from '../core/here';
import { chance, figure, grams, list, percent } from '../words';
import { hunksOf, middle, withTaken } from './changes';
import { animalNames, complaintsInWords, forWhom, holdsNoFood, lineAt, piecesOf, rangeOf, remediesOf, titleOf, withAnimal, withHeader, withLine, withPin } from './text';

const complaint = (column: number, width: number, fix: Complaint['fix'] = []): Complaint => ({ text: 'recipe', level: 'error', code: 'number', line: 1, column, width, message: '', more: null, fix });

/* What lines are is said by the core itself, as on the page. */
beforeAll(async () => openHere(await WebAssembly.compile(readFileSync(process.env.BW_WASM ?? ''))));

const partsOf = (line: string) => textLines('recipe', line).lines[0]!;

describe('where a complaint points', () => {
  it('counts characters, not UTF-16 units', () => {
    const line = '🥩🥩 2 tbs oil';
    const [from, to] = rangeOf(line, complaint(6, 3));
    expect(line.slice(from, to)).toBe('tbs');
  });
  it('stays within the line', () => {
    expect(rangeOf('ab', complaint(9, 9))).toEqual([1, 2]);
    expect(rangeOf('', complaint(1, 1))).toEqual([0, 0]);
  });
});

describe('the second layer', () => {
  it('holds the same letters as the text', () => {
    for (const line of ['600 g lamb [usda:17039] # why', 'For: Juniper', '<b>x</b> 🐑', '  ', '1 tbs a'])
      expect(piecesOf(line, [complaint(3, 3)], partsOf(line)).map((p) => p.text).join('')).toBe(line);
  });
  it('marks headers, pins and remarks where the core says', () => {
    expect(piecesOf('For: Juniper', [], partsOf('For: Juniper'))).toEqual([{ text: 'For:', is: 'key' }, { text: ' Juniper', is: '' }]);
    const line = '🥩 600 g lamb [usda:17039] # why';
    expect(piecesOf(line, [], partsOf(line)).filter((x) => x.is !== '')).toEqual([{ text: '[usda:17039]', is: 'pin' }, { text: '# why', is: 'remark' }]);
    const kinds = textLines('recipe', 'Recipe: x\nDog: 20 kg\nMonday:\n100 g beef\nNote: a\n? a scoop\n# ask: Which?\n# b\n---\nlamb heart: 200 g\n').lines;
    expect(kinds.map((l) => l.kind)).toEqual(['header', 'header', 'heading', 'food', 'header', 'uncounted', 'question', 'remark', 'remark', 'food', 'empty']);
    expect(kinds[6]!.ask).toBe('Which?');
  });
  it('marks the word that is complained about', () => {
    expect(piecesOf('1 tbs oil', [complaint(3, 3)], partsOf('1 tbs oil'))).toContainEqual({ text: 'tbs', is: 'error' });
  });
});

describe('remedies', () => {
  it('stand where the core says, counted in characters', () => {
    const lines = ['🥩🥩 1 tbs oil', '10 g dragon # rare'];
    const all = remediesOf(
      complaint(6, 3, [
        { line: 1, column: 6, width: 3, write: 'tbsp', label: 'tbsp' },
        { line: 2, column: 12, width: 0, write: ' [usda:1]', label: 'Beef, heart' },
      ]),
      lines,
    );
    const body = lines.join('\n');
    const written = all.map((r) => body.slice(0, r.from) + r.write + body.slice(r.to));
    expect(written).toEqual(['🥩🥩 1 tbsp oil\n10 g dragon # rare', '🥩🥩 1 tbs oil\n10 g dragon [usda:1] # rare']);
    expect(all.map((r) => r.words)).toEqual(['tbsp', 'Beef, heart']);
  });
});

describe('pins and headers', () => {
  it('replaces an older pin', () => {
    const body = 'Recipe: x\n\n10 g beef [usda:1] # a';
    const c = withPin(body, 3, 'usda:2');
    expect(body.slice(0, c.from) + c.write + body.slice(c.to)).toBe('Recipe: x\n\n10 g beef [usda:2] # a');
  });
  it('puts For: where the headers are', () => {
    expect(withHeader('recipe', 'Recipe: x\n\n10 g beef', 'For', 'Moss')).toBe('Recipe: x\nFor: Moss\n\n10 g beef');
    expect(withHeader('larder', 'Larder: x\n\nbeef', 'For', 'Moss')).toBe('Larder: x\nFor: Moss\n\nbeef');
    expect(withHeader('recipe', 'Recipe: x\nfor: Pim\n10 g beef', 'For', 'Moss')).toBe('Recipe: x\nFor: Moss\n10 g beef');
    expect(titleOf('recipe', 'Recipe: a # b\n')).toBe('a');
    expect(forWhom('recipe', 'Recipe: a\nfor:  Pim # she\n')).toBe('Pim');
    expect(withAnimal('Dog: 20 kg\n\n10 g beef', 'Moss')).toBe('For: Moss\n\n10 g beef');
    expect(withAnimal('Recipe: x\nFor: Pim\n10 g beef', 'Moss')).toBe('Recipe: x\nFor: Moss\n10 g beef');
  });
  it('finds the animals, and names for texts', () => {
    expect(animalNames('Animal: Juniper # she\nSpecies: dog\n animal: Pim')).toEqual(['Juniper', 'Pim']);
    expect(titleOf('recipe', '# remark\n\n100 g beef')).toBe('100 g beef');
    expect(titleOf('recipe', 'Recipe: \nFor: Pim\n\n100 g beef')).toBe('100 g beef');
    expect(titleOf('recipe', 'Recipe: \nFor: Pim\n\n')).toBe('An empty recipe');
  });
});

describe('a proposal', () => {
  const old = 'Recipe: x\n\n600 g lamb\n10 g liver\n5 g oil\n';
  const now = 'Recipe: x\n\n300 g lamb\n10 g liver\n20 g mussel\n';
  it('with all its changes is the new text, with none the old one', () => {
    const hunks = hunksOf(old, now);
    expect(withTaken(old, hunks)).toBe(now);
    expect(withTaken(old, hunks.map((h) => ({ ...h, taken: false })))).toBe(old);
  });
  it('can be taken in part', () => {
    const hunks = hunksOf(old, now);
    expect(hunks.length).toBe(3);
    expect(withTaken(old, hunks.map((h, i) => ({ ...h, taken: i === 0 })))).toBe('Recipe: x\n\n300 g lamb\n10 g liver\n5 g oil\n');
  });
  it('are one by one: a line that goes and one that comes are two', () => {
    const was = 'Recipe: x\n\n600 g lamb, raw\n1 can mackerel\n40 g lamb liver [usda:17199]\n';
    const is = 'Recipe: x\n\n300 g lamb, raw\n2 cans mackerel\n60 g egg yolk [usda:01125]\n5 g kelp\n';
    const hunks = hunksOf(was, is);
    expect(hunks.map((h) => [h.gone, h.come])).toEqual([
      [['600 g lamb, raw'], ['300 g lamb, raw']],
      [['1 can mackerel'], ['2 cans mackerel']],
      [['40 g lamb liver [usda:17199]'], []],
      [[], ['60 g egg yolk [usda:01125]']],
      [[], ['5 g kelp']],
    ]);
    for (let only = 0; only < hunks.length; only++) {
      const text = withTaken(was, hunks.map((h, i) => ({ ...h, taken: i === only })));
      for (const line of hunks[only]!.gone) expect(text).not.toContain(line);
      for (const line of hunks[only]!.come) expect(text).toContain(line);
      expect(text.split('\n').length).toBe(was.split('\n').length + hunks[only]!.come.length - hunks[only]!.gone.length);
    }
  });
  it('for any two texts comes out right', () => {
    let seed = 7;
    const random = (n: number): number => (seed = (seed * 1103515245 + 12345) % 2147483648) % n;
    for (let k = 0; k < 200; k++) {
      const make = (): string => `${Array.from({ length: 1 + random(8) }, () => 'abcd'[random(4)]).join('\n')}\n`;
      const [a, b] = [make(), make()];
      const hunks = hunksOf(a, b);
      expect(withTaken(a, hunks)).toBe(b);
      expect(withTaken(a, hunks.map((h) => ({ ...h, taken: false })))).toBe(a);
    }
  });
  it('shows only the words that differ', () => {
    expect(middle('600 g lamb, raw', '300 g lamb, raw')).toEqual(['', '600', '300', ' g lamb, raw']);
  });
});

describe('another food in a line’s place', () => {
  it('keeps the bullet or number before it', () => {
    expect(withLine('- 100 g lamb # cheap', '100 g lamb', '90 g cod [usda:15015]')).toBe('- 90 g cod [usda:15015]');
    expect(withLine('  • 100 g lamb', '100 g lamb', '90 g cod')).toBe('  • 90 g cod');
    expect(withLine('3) 100 g lamb', '100 g lamb', '90 g cod')).toBe('3) 90 g cod');
    expect(withLine('100 g lamb', '100 g lamb', '90 g cod')).toBe('90 g cod');
    expect(withLine('1.5 g salt', '1.5 g salt', '2 g kelp')).toBe('2 g kelp');
  });
  it('finds lines by their number, and nothing beyond the end', () => {
    expect(lineAt('a\nb\n', 2)).toBe('b');
    expect(lineAt('a', 5)).toBe('');
  });
});

describe('what a text of own foods is called', () => {
  it('by its first food', () => {
    expect(titleOf('foods', '# shelf\nFood: Zinc tablets\nZinc: 15 mg\n')).toBe('Zinc tablets');
    expect(titleOf('foods', 'Food: A\n\nFood: B\nFood: C')).toBe('A and 2 more');
    expect(titleOf('foods', 'Food: \n')).toBe('An empty label');
  });
});

it('a text without a food is told from one with a food', () => {
  for (const none of ['', 'Recipe: x', 'Recipe: \nFor: Pim\n\n# 100 g beef\n']) expect(holdsNoFood(none)).toBe(true);
  for (const some of ['100 g beef', 'lamb heart: 200 g', 'Recipe: x\nnonsense']) expect(holdsNoFood(some)).toBe(false);
});

it('complaints about a question are sentences, with their line where they have one', () => {
  const one = { ...complaint(7, 5), line: 5, message: "no food is like 'glorp'" };
  expect(complaintsInWords([one])).toBe("Line 5: no food is like 'glorp'.");
  expect(complaintsInWords([{ ...one, text: 'larder' }, { ...one, line: 0, message: 'which animal?' }])).toBe("In the larder, line 5: no food is like 'glorp'. Which animal?");
  expect(complaintsInWords([{ ...one, level: 'warning' }])).toBe('');
  expect(complaintsInWords([])).toBe('');
});

it('figures are those of every sentence', () => {
  expect([figure(17.1234), figure(null), figure(0.00456), figure(1480.4), figure(0)]).toEqual(['17.1', '–', '0.0046', '1480', '0']);
  expect([percent(0.31), percent(0.004), percent(0.998), chance(1), chance(0), grams(0.04)]).toEqual(['31\u00a0%', '<1\u00a0%', '>99\u00a0%', '>99\u00a0%', '<1\u00a0%', '40 mg']);
  expect([list([]), list(['a']), list(['a', 'b']), list(['a', 'b', 'c'])]).toEqual(['', 'a', 'a and b', 'a, b and c']);
});
