import { describe, expect, it } from 'vitest';
import { changed, redo, undo } from './undo';

describe('undo, text by text', () => {
  it('takes typing back in one go, and other changes one by one', () => {
    changed('a', '', 'x', 1, 0);
    changed('a', 'x', 'xy', 2, 100);
    changed('a', 'xy', 'xyz', 3, 200);
    changed('a', 'xyz', 'a whole other text', null, 300);
    expect(undo('a', 'a whole other text')?.body).toBe('xyz');
    expect(undo('a', 'xyz')?.body).toBe('');
    expect(undo('a', '')).toBe(null);
    expect(redo('a', '')?.body).toBe('xyz');
    expect(redo('a', 'xyz')?.body).toBe('a whole other text');
  });
  it('ends a go with a new line, with a pause, and when letters are deleted', () => {
    changed('b', '', 'a', 1, 0);
    changed('b', 'a', 'a\n', 2, 10);
    changed('b', 'a\n', 'a\nb', 3, 5000);
    changed('b', 'a\nb', 'a\n', 2, 5010);
    expect(undo('b', 'a\n')?.body).toBe('a\nb');
    expect(undo('b', 'a\nb')?.body).toBe('a\n');
    expect(undo('b', 'a\n')?.body).toBe('a');
  });
  it('keeps texts apart, and does not undo over what somebody else wrote', () => {
    changed('c', 'one', 'two', null, 0);
    expect(undo('d', 'two')).toBe(null);
    expect(undo('c', 'written in another tab')).toBe(null);
    expect(undo('c', 'two')?.body).toBe('one');
  });
  it('forgets what was taken back when something else is written', () => {
    changed('e', 'one', 'two', null, 0);
    expect(undo('e', 'two')?.body).toBe('one');
    changed('e', 'one', 'three', null, 10);
    expect(redo('e', 'three')).toBe(null);
  });
});
