/** Weeks: whose days, and each animal's; or which of several recipes belongs on which day. */
import type { Complaint } from '../core/answers';
import { forWhom, nameOf } from '../writing/text';
import { recipe, texts } from '../state';
import { addText } from '../texts';
import { days as inDays } from '../words';
import { choose, counting, dishes, journal, lastEaten, names, plans, ROTATE, span, weekOf, weeks, who } from './ask';
import { OneWeek } from './OneWeek';
import { Rotate } from './Rotate';

const SPANS = [7, 14, 28, 56];

export function Weeks({ complaints }: { complaints: Complaint[] }) {
  const all = weeks.value?.weeks ?? [];
  const wrong = complaints.filter((c) => c.level === 'error' && c.code !== 'danger');
  return (
    <section class="weeks" aria-labelledby="weeks-title">
      <h3 id="weeks-title">The week</h3>
      <Which />
      {wrong.length > 0 && (
        <ul class="complaints" aria-label="What was not understood about these days">
          {wrong.slice(0, 6).map((c) => (
            <li class="error">
              {c.text === 'recipe' ? '' : `In ${c.text === 'plan' ? 'the plan' : c.text === 'journal' ? 'the journal' : c.text}, `}
              {c.line > 0 ? `line ${c.line}: ` : ''}
              {c.message}
            </li>
          ))}
        </ul>
      )}
      {weekOf.value === ROTATE && <Rotate />}
      {all.length === 0 && weekOf.value !== ROTATE && counting.value && (
        <p class="hint" role="status">
          Counting the days …
        </p>
      )}
      {lastEaten.value === null && weekOf.value === 'journal' && <p class="hint">Nobody wrote down what {who.value || 'anybody'} ate.</p>}
      <div class={counting.value ? 'old' : ''} aria-busy={counting.value}>
        {all.map((w, i) => (
          <OneWeek key={w.animal?.name ?? i} week={w} several={all.length > 1} />
        ))}
      </div>
    </section>
  );
}

function Which() {
  const r = recipe.value;
  return (
    <p class="which-days no-print">
      <label class="as-text">
        <span>Days of </span>
        <select value={weekOf.value} onChange={(e) => (weekOf.value = e.currentTarget.value)}>
          <option value="recipe">{r ? nameOf(r) : 'the recipe'}</option>
          {plans.value.map((p) => (
            <option value={p.id}>the plan {p.title}</option>
          ))}
          {journal.value && <option value="journal">the journal: what was eaten</option>}
          {dishes.value.length > 1 && <option value={ROTATE}>several recipes: which on which day</option>}
        </select>
      </label>
      {weekOf.value === 'journal' && (
        <>
          <Who />
          <label class="as-text">
            <span class="unseen">How many days</span>
            <select value={span.value} onChange={(e) => (span.value = Number(e.currentTarget.value))}>
              {SPANS.map((n) => (
                <option value={n}>the last {inDays(n)}</option>
              ))}
            </select>
          </label>
        </>
      )}
      <button type="button" class="quiet" onClick={newPlan}>
        new plan
      </button>
    </p>
  );
}

/** Which of the journal's animals. */
export function Who() {
  if (names.value.length < 2) return <span>{who.value}</span>;
  return (
    <label class="as-text">
      <span class="unseen">Whose days</span>
      <select value={who.value} onChange={(e) => choose(e.currentTarget.value)}>
        {names.value.map((n) => (
          <option value={n}>{n}</option>
        ))}
      </select>
    </label>
  );
}

function newPlan(): void {
  const r = recipe.value;
  const name = r ? nameOf(r) : '';
  const whom = r ? forWhom('recipe', r.body) : '';
  const titles = new Set(texts.value.filter((t) => t.kind === 'plan').map(nameOf));
  const title = ['A plan', ...Array.from({ length: 99 }, (_, i) => `A plan (${i + 2})`)].find((t) => !titles.has(t)) ?? 'A plan';
  void addText('plan', `Plan: ${title}\n\n${whom ? `For: ${whom}\n` : ''}Mon-Fri: ${name}\nSat, Sun: ${name}\n`).then(() => {
    document.getElementById('writing')?.scrollIntoView();
    document.getElementById('field')?.focus();
  });
}
