/** The energy ribbon: the need as a band, the bowl as a bar that ends in the slider's handle. */
import { answer, check, eaten } from '../state';
import { figure, percent, shortName } from '../words';

const STEPS = [60, 140] as const;
const PARTS = [
  { key: 'protein', name: 'protein' },
  { key: 'fat', name: 'fat' },
  { key: 'carbohydrate', name: 'carbohydrate' },
] as const;

/** Words stand beside their mark, or at the edge of the page where there is no room. In per cent of the width, 'room' being what the words take. */
function edge(at: number, room: number, roomOnPhone: number): string {
  const near = at < room ? ' near' : at > 100 - room ? ' far' : '';
  return near + (at < roomOnPhone || at > 100 - roomOnPhone ? ' tight' : '') + (at > 50 ? ' beyond' : '');
}

export function Ribbon() {
  const c = check.value;
  if (!c) return <section class="ribbon empty" aria-label="Energy" />;
  const e = c.energy;
  const all = answer.value?.all_kcal ?? e.supply_kcal;
  const most = Math.max(e.need_high_kcal ?? 0, (all * STEPS[1]) / 100, e.supply_high_kcal ?? 0) * 1.04 || 1;
  const at = (kcal: number): number => (kcal / most) * 100;
  const who = shortName(c.animal?.name || 'The animal');
  const percentEaten = Math.round(eaten.value * 100);
  const words = percentEaten === 100 ? `${who} eats all of it` : `${who} eats ${percentEaten} % of it`;
  const from = at((all * STEPS[0]) / 100);
  const to = at((all * STEPS[1]) / 100);
  let left = 0;
  const bars = PARTS.map((p) => {
    const share = e.share[p.key] ?? 0;
    const width = at(e.supply_kcal) * share;
    const bar = { ...p, share, left, width };
    left += width;
    return bar;
  });
  const handle = at(e.supply_kcal);
  return (
    <section class="ribbon" aria-label="Energy">
      <div class="band-words" aria-hidden="true">
        {e.need_low_kcal !== null && e.need_high_kcal !== null && (
          <span class={`range${edge((at(e.need_low_kcal) + at(e.need_high_kcal)) / 2, 16, 0)}`} style={{ left: `${at(e.need_low_kcal)}%`, width: `${at(e.need_high_kcal) - at(e.need_low_kcal)}%` }}>
            range of {c.animal?.species === 'cat' ? 'cats' : 'dogs'} like {who}: {figure(e.need_low_kcal)} to {figure(e.need_high_kcal)}
          </span>
        )}
      </div>
      <div class="track">
        {e.need_low_kcal !== null && e.need_high_kcal !== null && (
          <div class="need" style={{ left: `${at(e.need_low_kcal)}%`, width: `${at(e.need_high_kcal) - at(e.need_low_kcal)}%` }} />
        )}
        {bars.map((b) => (
          <div class={`bar ${b.key}`} style={{ left: `${b.left}%`, width: `${b.width}%` }}>
            {b.width > 7 && (
              <span>
                {b.name} {percent(b.share)}
              </span>
            )}
          </div>
        ))}
        {e.need_kcal !== null && <div class="likely" style={{ left: `${at(e.need_kcal)}%` }} />}
        {all > 0 && (
          <input
            class="eaten"
            type="range"
            min={STEPS[0]}
            max={STEPS[1]}
            step="1"
            value={percentEaten}
            aria-label="How much of it is eaten, in per cent"
            aria-valuetext={`${words}: ${figure(e.supply_kcal)} kcal a day`}
            style={{ left: `calc(${from}% - 11px)`, width: `calc(${to - from}% + 22px)` }}
            onInput={(ev) => (eaten.value = Number(ev.currentTarget.value) / 100)}
          />
        )}
      </div>
      <div class="mark-words">
        {e.need_kcal !== null && (
          <span
            class={`likely-words ${at(e.need_kcal) < handle ? 'before' : 'after'}${edge(at(e.need_kcal), 11, 32)}`}
            style={at(e.need_kcal) < handle ? { right: `${100 - at(e.need_kcal)}%` } : { left: `${at(e.need_kcal)}%` }}
          >
            likely need {figure(e.need_kcal)}
          </span>
        )}
        <span
          class={`eaten-words ${e.need_kcal !== null && at(e.need_kcal) >= handle ? 'before' : 'after'}${edge(handle, 28, 50)}`}
          style={e.need_kcal !== null && at(e.need_kcal) >= handle ? { right: `${100 - handle}%` } : { left: `${handle}%` }}
        >
          {words}: {figure(e.supply_kcal)} kcal
          {percentEaten !== 100 && (
            <button type="button" class="quiet no-print" onClick={() => (eaten.value = 1)}>
              all of it
            </button>
          )}
        </span>
      </div>
    </section>
  );
}
