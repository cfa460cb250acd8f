import { describe, expect, it } from 'vitest';
import { areaOf, dayNumber, heightOf, lettersOf, pathOf, ticks } from './chart';

describe('places in the drawings of days', () => {
  it('puts the allowance where two of five doublings are, and keeps what is beyond inside', () => {
    expect(heightOf(1)).toBeCloseTo(40);
    expect(heightOf(0.25)).toBeCloseTo(0);
    expect(heightOf(8)).toBeCloseTo(100);
    expect(heightOf(0)).toBe(0);
    expect(heightOf(100)).toBe(100);
  });
  it('breaks a line where nothing is known, and shows a point that stands alone', () => {
    expect(pathOf([[0, 0], [50, 50], null, [75, 100], null])).toBe('M0 100L50 50M75 0l0.01 0');
    expect(pathOf([null, null])).toBe('');
  });
  it('closes a band', () => {
    expect(areaOf([{ x: 0, low: 10, high: 20 }, { x: 100, low: 30, high: 60 }])).toBe('M0 80L100 40L100 70L0 90Z');
    expect(areaOf([])).toBe('');
  });
  it('finds round figures', () => {
    expect(ticks(17.6, 18.9)).toEqual([18, 18.5]);
    expect(ticks(0, 10)).toEqual([0, 2, 4, 6, 8, 10]);
    expect(ticks(4.512, 4.547)).toEqual([4.52, 4.53, 4.54]);
    expect(ticks(3, 3)).toEqual([]);
  });
  it('counts days over the end of a leap February', () => {
    expect(dayNumber('2028-03-01') - dayNumber('2028-02-28')).toBe(2);
    expect(dayNumber('2026-03-01') - dayNumber('2026-02-28')).toBe(1);
  });
  it('gives each menu a letter', () => {
    const { letter, menus } = lettersOf(['bowl', 'pot', 'bowl', null, '']);
    expect([letter.get('bowl'), letter.get('pot')]).toEqual(['A', 'B']);
    expect(menus).toEqual(['bowl', 'pot']);
    expect(lettersOf(Array.from({ length: 28 }, (_, i) => `m${i}`)).letter.get('m27')).toBe('AB');
  });
});
