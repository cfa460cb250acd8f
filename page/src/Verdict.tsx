/** The answer in one sentence and its counts, and before it what must not be fed. */
import { computed } from '@preact/signals';
import type { Check, Complaint, Verdict } from './core/answers';
import { check, complaints, review } from './state';
import { linesOf, narrow, printing, stale } from './view';
import { Lent } from './reasons/Rests';
import { ToLine } from './writing/ToLine';

/** Above everything, at every width, and told once. What the core finds in the words alone does not wait for an animal. */
export function Dangers() {
  /* Of an older text: what is dangerous in this one is in its words. */
  const judged = stale.value ? [] : review.value.filter((f) => f.danger);
  const told = new Set(judged.flatMap(linesOf));
  const words = complaints.value.filter((c) => c.text === 'recipe' && c.code === 'danger' && !told.has(c.line));
  if (judged.length + words.length === 0) return null;
  return (
    <div class="dangers" role="alert">
      {judged.map((f) => (
        <div key={f.text} class="danger">
          <p>
            <b>{f.text}</b>{' '}
            {linesOf(f).map((line) => (
              <ToLine key={line} line={line} />
            ))}
          </p>
          {f.remedy && <p>{f.remedy}</p>}
          {f.reason && <HowMuch>{f.reason}</HowMuch>}
        </div>
      ))}
      {alike(words).map(([c, lines]) => (
        <div key={c.message} class="danger">
          <p>
            <b>Stop: {c.message}.</b>{' '}
            {lines.map((line) => (
              <ToLine key={line} line={line} />
            ))}
          </p>
          {c.more && <HowMuch>{c.more}</HowMuch>}
        </div>
      ))}
    </div>
  );
}

/** One danger in several lines is told once. */
function alike(all: Complaint[]): [Complaint, number[]][] {
  const by = new Map<string, [Complaint, number[]]>();
  for (const c of all) {
    const there = by.get(c.message);
    if (there) there[1].push(c.line);
    else by.set(c.message, [c, [c.line]]);
  }
  return [...by.values()];
}

function HowMuch({ children }: { children: string }) {
  return (
    <details open={printing.value || !narrow.value}>
      <summary>How much is too much</summary>
      <p>{children.charAt(0).toUpperCase() + children.slice(1)}</p>
    </details>
  );
}

/** The bowl in one sentence, as a heading. */
export const lead = (c: Check): string => c.lead.replace(/\.$/, '');

/* What must not be fed is found by the review, which comes a moment after the figures: until then what it said stays. */
let reviewed = '';
export function Lead({ check: c }: { check: Check }) {
  if (c.findings.length > 0) reviewed = lead(c);
  return <h2>{review.value.some((f) => f.danger) && c.findings.length === 0 ? reviewed : lead(c)}</h2>;
}

/* As the core orders its groups; those that hold no verdict of their own are not counted. */
const countsText = computed(() => {
  const v = check.value?.verdicts;
  if (!v) return 'null';
  const judged = (check.value?.groups ?? []).map((g) => g.key).filter((k): k is Verdict => k in v && k !== 'no figure');
  return JSON.stringify(judged.flatMap((k) => ((v[k] ?? 0) > 0 ? [[k, v[k]]] : [])));
});
const counts = computed(() => JSON.parse(countsText.value) as [Verdict, number][] | null);

/** "4 short · 8 thin · 27 met": each goes to its rails. */
export function Counts() {
  const some = counts.value;
  if (!some) return null;
  return (
    <p class="sum">
      {some.map(([k, of]) => (
        <button type="button" class={`count ${k}`} onClick={() => document.getElementById(`rails-${k}`)?.scrollIntoView({ block: 'start' })}>
          <b>{of}</b> {k}
        </button>
      ))}
    </p>
  );
}

/** On a narrow page, where the reasons are far below. */
export function Verdict() {
  const c = check.value;
  if (!c || !narrow.value) return null;
  return (
    <section class={`answer${stale.value ? ' old' : ''}`} aria-label="The answer" inert={stale.value}>
      <Lead check={c} />
      <Counts />
      <Lent check={c} />
    </section>
  );
}

/** Said once for everything that is dimmed; on paper instead of it. */
export function Stale() {
  if (!stale.value) return null;
  return (
    <p class="stale all" role="status">
      What is dimmed is from an older text. This one cannot be read yet: the reason is below it.
    </p>
  );
}
