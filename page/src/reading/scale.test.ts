import { describe, expect, it } from 'vitest';
import type { Nutrient } from '../core/answers';
import { end, groupsOf, place, railOf } from './scale';

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
  it('is logarithmic: every doubling is a fifth of the way from a quarter to eight times', () => {
    expect([1 / 4, 1 / 2, 1, 2, 4, 8].map(place)).toEqual([0, 20, 40, 60, 80, 100]);
  });
  it('ends where it ends, and what is nothing or not a number stands at its lower end', () => {
    expect([0, -1, NaN, 0.1, 9, Infinity].map(place)).toEqual([0, 0, 0, 0, 100, 100]);
    expect([0.1, NaN, 1, 9].map(end)).toEqual(['below', 'below', 'inside', 'above']);
  });
});

describe('a rail', () => {
  it('stands on the allowance, whatever the amount', () => {
    expect(railOf(nutrient({ amount: 20 }))?.mark).toBe(60);
    expect(railOf(nutrient({ amount: 5, low: 2.5, high: 10 }))).toMatchObject({ mark: 20, band: [0, 40] });
  });
  it('is not drawn without a figure to stand on', () => {
    expect(railOf(nutrient({ allowance: null }))).toBeNull();
    expect(railOf(nutrient({ amount: null }))).toBeNull();
  });
  it('is hatched only where a line has no value', () => {
    expect(railOf(nutrient({ possible: 20 }))?.hatched).toBeNull();
    expect(railOf(nutrient({ possible: 20, missing: [5] }))?.hatched).toEqual([40, 60]);
  });
  it('shows the leanest days only where they decide', () => {
    expect(railOf(nutrient({ window_amount: 5 }))?.leanest).toBeNull();
    expect(railOf(nutrient({ window_amount: 5, verdict_by_window: true }))?.leanest).toBe(20);
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
