/** Where weeks, journal and weights have their place. All of it is fetched when it is opened, and not before. */
import { signal } from '@preact/signals';
import type { ComponentType } from 'preact';
import { useEffect } from 'preact/hooks';
import { Fold, setFold } from '../Fold';
import { openKind } from '../state';

const days = signal<ComponentType | null>(null);
const failed = signal(false);

function fetchIt(): void {
  failed.value = false;
  import('./Days').then(
    (m) => (days.value = m.Days),
    () => (failed.value = true),
  );
}

export function DaysPlace() {
  const kind = openKind.value;
  useEffect(() => {
    if (kind === 'plan' || kind === 'journal') setFold('days', true);
  }, [kind]);
  const Days = days.value;
  return (
    <section class="days" id="days" aria-label="Days">
      <Fold
        name="days"
        class="folded group"
        summary={
          <h2>
            Days <small>the week, the journal, the weight</small>
          </h2>
        }
        seen={(seen) => {
          if (seen && !days.value) fetchIt();
        }}
      >
        {Days ? (
          <Days />
        ) : failed.value ? (
          <p class="hint">
            This part of the page could not be fetched.{' '}
            <button type="button" class="quiet" onClick={fetchIt}>
              Try again
            </button>
          </p>
        ) : (
          <p class="hint">One moment …</p>
        )}
      </Fold>
    </section>
  );
}
