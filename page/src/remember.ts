/** What was chosen on this page is there again when it is opened again: a convenience of this browser, no text. */
import { effect } from '@preact/signals';
import { mendWith } from './acting';
import { basis, openId, standard, sure } from './state';
import { unfolded } from './view';
import { BASES, STANDARDS } from './words';

const NAME = 'bowlwright.chosen';

interface Chosen {
  standard: string;
  basis: string;
  sure: number;
  open: string;
  unfolded: string[];
  mendWith: string;
}

function kept(): Partial<Chosen> {
  try {
    const x = JSON.parse(localStorage.getItem(NAME) ?? '{}') as unknown;
    return typeof x === 'object' && x !== null ? x : {};
  } catch {
    return {};
  }
}

/** The text that was open last, recipe or not. */
export const lastOpen = (): string => {
  const id = kept().open;
  return typeof id === 'string' ? id : '';
};

export function remember(): void {
  const k = kept();
  const at = (from: { key: string }[], key: unknown): number => Math.max(0, from.findIndex((s) => s.key === key));
  standard.value = at(STANDARDS, k.standard);
  basis.value = at(BASES, k.basis);
  if (typeof k.sure === 'number' && k.sure >= 0.5 && k.sure < 1) sure.value = k.sure;
  if (Array.isArray(k.unfolded)) unfolded.value = new Set(k.unfolded.filter((u): u is string => typeof u === 'string'));
  if (typeof k.mendWith === 'string') mendWith.value = k.mendWith;
  let open = lastOpen();
  effect(() => {
    if (openId.value !== '') open = openId.value;
    const now: Chosen = {
      standard: STANDARDS[standard.value]?.key ?? '',
      basis: BASES[basis.value]?.key ?? '',
      sure: sure.value,
      open,
      unfolded: [...unfolded.value],
      mendWith: mendWith.value,
    };
    try {
      localStorage.setItem(NAME, JSON.stringify(now));
    } catch {
      /* a convenience only */
    }
  });
}
