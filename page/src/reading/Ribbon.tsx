/** The energy ribbon: the need as a band, the bowl as a bar that ends in the slider's handle. */
import { answer, check, eaten } from '../state';
import { figure, percent, shortName } from '../words';
import { stale } from '../view';

/** What "carbohydrate 12 %" takes of the narrowest ribbon that has words in it. */
const WORDS_PERCENT = 14;
const STEPS = [60, 140] as const;

/** Words that always stand at their mark and never run out at the side: the same share of their own width lies before it as of the
 * ribbon's. At the left end they begin there, at the right end they end there. */
const atMark = (at: number): { left: string; transform: string } => {
  const x = Math.min(100, Math.max(0, at));
  return { left: `${x}%`, transform: `translateX(-${x}%)` };
};

export function Ribbon() {
  const c = check.value;
  const supply = c?.energy.supply_kcal ?? null;
  if (!c || supply === null) return <section class="ribbon empty" aria-label="Energy" />;
  const e = c.energy;
  const all = answer.value?.all_kcal ?? supply;
  /* The measure is of the whole bowl: it stays while the handle is moved. */
  const most = Math.max(e.need_high_kcal ?? 0, (all * STEPS[1]) / 100) * 1.04 || 1;
  const at = (kcal: number): number => (kcal / most) * 100;
  const name = c.animal?.name ? shortName(c.animal.name) : null;
  const kind = c.animal?.species ?? 'animal';
  const who = name ?? `The ${kind}`;
  const percentEaten = Math.round(eaten.value * 100);
  const words = percentEaten === 100 ? `${who} eats all of it` : `${who} eats ${percentEaten} % of it`;
  const from = at((all * STEPS[0]) / 100);
  const to = at((all * STEPS[1]) / 100);
  const range = e.need_low_kcal !== null && e.need_high_kcal !== null ? ([e.need_low_kcal, e.need_high_kcal] as const) : null;
  let left = 0;
  const bars = Object.entries(e.share).map(([key, of]) => {
    const share = of ?? 0;
    const width = at(supply) * share;
    const bar = { key, name: c.nutrients.find((n) => n.key === key)?.said ?? key, share, left, width };
    left += width;
    return bar;
  });
  const handle = at(supply);
  /* The last part's words stand behind the handle where it is too small for them, and behind the line of the need where that would
   * go through them; where there is no room at all, all words stand below. */
  const last = bars[bars.length - 1]!;
  const need = e.need_kcal === null ? -Infinity : at(e.need_kcal);
  const behind = need > handle && need - handle < WORDS_PERCENT ? need : handle;
  const inside = last.width >= WORDS_PERCENT;
  const crowded = !inside && behind > 100 - WORDS_PERCENT;
  return (
    <section class={`ribbon${stale.value ? ' old' : ''}${crowded ? ' crowded' : ''}`} aria-label="Energy" inert={stale.value}>
      {range && (
        <p class="range-words">
          <span style={atMark((at(range[0]) + at(range[1])) / 2)}>
            range of {kind}s like {name ?? 'this one'}: {figure(range[0])} to {figure(range[1])}
          </span>
        </p>
      )}
      {e.need_kcal !== null && (
        <p class="need-words">
          <span style={atMark(at(e.need_kcal))}>likely need {figure(e.need_kcal)}</span>
        </p>
      )}
      <div class="track">
        {range && <div class="need" style={{ left: `${at(range[0])}%`, width: `${at(range[1]) - at(range[0])}%` }} />}
        {bars.map((b) => (
          <div class={`bar ${b.key}`} style={{ left: `${b.left}%`, width: `${b.width}%` }}>
            <i />
            {b.share > 0 && (b !== last || inside) && (
              <span>
                {b.name} {percent(b.share)}
              </span>
            )}
          </div>
        ))}
        {!inside && last.share > 0 && (
          <span class="last-words" style={{ left: `${behind}%` }}>
            {last.name} {percent(last.share)}
          </span>
        )}
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
            style={{ left: `calc(${from}% - 12px)`, width: `calc(${to - from}% + 24px)` }}
            onInput={(ev) => (eaten.value = Number(ev.currentTarget.value) / 100)}
          />
        )}
      </div>
      <p class="eaten-words">
        <span style={atMark(handle)}>
          {words}: {figure(e.supply_kcal)} kcal
          {percentEaten !== 100 && (
            <button type="button" class="quiet no-print" onClick={() => (eaten.value = 1)}>
              all of it
            </button>
          )}
        </span>
      </p>
      <p class="shares">
        {bars
          .filter((b) => b.share > 0)
          .map((b) => (
            <span>
              <i class={b.key} /> {b.name} {percent(b.share)}
            </span>
          ))}
      </p>
    </section>
  );
}
