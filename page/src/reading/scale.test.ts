import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { RAIL_NEED, TONES, type Nutrient } from '../core/answers';
import { groupsOf, MARKS } from './scale';

function nutrient(given: Partial<Nutrient>): Nutrient {
  return {
    key: 'zinc', name: 'Zinc', unit: 'mg', amount: 10, low: 8, high: 12, known_share: 1, minimum: null, allowance: 10, upper: null, ratio: 1,
    chance_met: 0.5, chance_kept: null, per_1000kcal: 10, verdict: 'thin', window_days: 3, adjusted: null, from: [], missing: [],
    upper_greater_than: false, near_upper: false, window_amount: 10, window_high: 10, verdict_by_window: false, lowest_day: 10,
    highest_day: 10, highest_day_over: false, possible: 10, estimated_share: 0, known: 'all', cv: 0, table: null, minimum_table: null, upper_table: null, how: null,
    ...given,
  } as Nutrient;
}

describe('the scale of the rails', () => {
  it('has its words where the core has the need', () => {
    expect(MARKS.map((m) => [m.at, m.words])).toEqual([[0, '¼'], [20, '½'], [40, 'need'], [60, '2×'], [80, '4×'], [100, '8×']]);
    expect(RAIL_NEED * 100).toBe(40);
  });
});

describe('the tones', () => {
  it('are those of every other picture', () => {
    const css = readFileSync(join(__dirname, '../style/page.css'), 'utf8');
    const light = css.slice(css.indexOf(':root {'), css.indexOf('@media (prefers-color-scheme: dark)'));
    const tone = (name: string): string | undefined => new RegExp(`--${name}: (#[0-9a-f]{6});`).exec(light)?.[1];
    expect(['ink', 'soft', 'pale', 'light', 'fat'].map(tone)).toEqual([TONES.ink, TONES.dim, TONES.pale, TONES.light, TONES.dim]);
  });
});

describe('the groups', () => {
  const all = [
    nutrient({ key: 'a', verdict: 'met' }),
    nutrient({ key: 'b', verdict: 'short', ratio: 0.6 }),
    nutrient({ key: 'c', verdict: 'over', ratio: 3 }),
    nutrient({ key: 'd', verdict: 'short', ratio: 0.2 }),
    nutrient({ key: 'e', verdict: 'over', ratio: 5 }),
  ];
  const named = [
    { key: 'short', title: 'Short', aside: 'too little', nutrients: ['d', 'b'] },
    { key: 'thin', title: 'Thin', aside: null, nutrients: [] },
    { key: 'over', title: 'Over', aside: null, nutrients: ['e', 'c'] },
    { key: 'met', title: 'Met', aside: null, nutrients: ['a'] },
  ];
  it('are those of the core, in its order, without the empty ones', () => {
    expect(groupsOf(all, named).map((g) => [g.title, g.words, g.rows.map((n) => n.key).join('')])).toEqual([
      ['Short', 'too little', 'db'],
      ['Over', '', 'ec'],
      ['Met', '', 'a'],
    ]);
  });
  it('set apart what a proposal repairs', () => {
    const before = [nutrient({ key: 'a', verdict: 'short' })];
    expect(groupsOf(all, named, before)[2]).toMatchObject({ title: 'Repaired', repaired: true });
  });
});
