/** The answer in one sentence and its counts, and before it what must not be fed. */
import { check, review } from './state';
import { linesOf, narrow, printing, stale } from './view';
import { Lead } from './reasons/Reasons';
import { ToLine } from './writing/ToLine';

const COUNTED = ['short', 'over', 'thin', 'unproven', 'met'] as const;

/** Above everything, at every width, and told once. */
export function Dangers() {
  const all = review.value.filter((f) => f.danger);
  if (all.length === 0) return null;
  return (
    <div class={`dangers${stale.value ? ' old' : ''}`} role="alert">
      {all.map((f) => {
        return (
          <div key={f.text} class="danger">
            <p>
              <b>{f.text}</b> {linesOf(f).map((line) => (
                <ToLine key={line} line={line} />
              ))}
            </p>
            {f.remedy && <p>{f.remedy}</p>}
            {f.reason && (
              <details open={printing.value || !narrow.value}>
                <summary>How much is too much</summary>
                <p>{f.reason}</p>
              </details>
            )}
          </div>
        );
      })}
    </div>
  );
}

/** "4 short · 8 thin · 27 met": each goes to its rails. */
export function Counts() {
  const v = check.value?.verdicts;
  if (!v) return null;
  const some = COUNTED.filter((k) => (v[k] ?? 0) > 0);
  return (
    <p class="sum">
      {some.map((k) => (
        <button type="button" class={`count ${k}`} onClick={() => document.getElementById(`rails-${k}`)?.scrollIntoView({ block: 'start' })}>
          <b>{v[k]}</b> {k}
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
    </section>
  );
}

/** Said once for everything that is dimmed; on paper instead of it. */
export function Stale() {
  if (!stale.value) return null;
  return (
    <p class="stale all" role="status">
      What is dimmed was read of an older text. This one cannot be read yet: below it stands why.
    </p>
  );
}
