/** What a sheet of paper has to say by itself: when, by which standard, how sure, and where the figures come from. Not on screen. */
import { check } from './state';
import { printing, stale } from './view';
import { BASES, percent, STANDARDS } from './words';

const named = (from: { key: string; name: string }[], key: string): string => from.find((s) => s.key === key)?.name ?? key;

export function Sheet() {
  /* Only when it is wanted: a date in words takes longer than a dozen rails. */
  if (!printing.value) return null;
  const c = check.value;
  if (!c || stale.value) return null;
  const sources = [...new Set(c.recipe.lines.map((l) => l.source_title ?? l.source).filter((s): s is string => s !== null))];
  return (
    <section class="sheet only-print" aria-hidden="true">
      <p>
        Printed {new Date().toLocaleDateString('en-GB', { day: 'numeric', month: 'long', year: 'numeric' })}. {named(STANDARDS, c.standard)}, {named(BASES, c.basis)}; a need counts as met
        when the chance is at least {percent(c.sure)}.
        {sources.length > 0 ? ` Foods from: ${sources.join('; ')}.` : ''} An amount that nobody has published counts as unknown, never as nothing.
      </p>
    </section>
  );
}
