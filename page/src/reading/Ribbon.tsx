/** The energy ribbon: the need as a band, the bowl as a bar that ends in the slider's handle. Places, pieces and words come from the core
 * (src/picture/ribbon.h), as they do for every other drawing of it. */
import { EATEN_PERCENT } from '../core/answers';
import { check, eaten } from '../state';
import { shortName } from '../words';
import { stale } from '../view';
import { percentAt } from './RailDrawing';

/** What "carbohydrate 12 %" takes of the narrowest ribbon that has words in it. */
const WORDS = 0.14;

/** Words that always stand at their mark and never run out at the side: the same share of their own width lies before it as of the
 * ribbon's. At the left end they begin there, at the right end they end there. */
const atMark = (place: number): { left: string; transform: string } => {
  const x = percentAt(Math.min(1, Math.max(0, place)));
  return { left: x, transform: `translateX(-${x})` };
};

export function Ribbon() {
  const c = check.value;
  const r = c?.energy.ribbon;
  if (!c || !r || r.bowl === null) return <section class="ribbon empty" aria-label="Energy" />;
  const who = c.animal?.name ? shortName(c.animal.name) : `The ${c.animal?.species ?? 'animal'}`;
  const percentEaten = Math.round(eaten.value * 100);
  const words = percentEaten === 100 ? `${who} eats all of it` : `${who} eats ${percentEaten} % of it`;
  const range = r.need_low !== null && r.need_high !== null ? ([r.need_low, r.need_high] as const) : null;
  /* The last part's words stand behind the handle where it is too small for them, and behind the line of the need where that would
   * go through them; where there is no room at all, all words stand below. */
  const last = r.parts[r.parts.length - 1];
  const behind = r.need !== null && r.need > r.bowl && r.need - r.bowl < WORDS ? r.need : r.bowl;
  const inside = !last || (last.to ?? 0) - (last.from ?? 0) >= WORDS;
  const crowded = !inside && behind > 1 - WORDS;
  return (
    <section class={`ribbon${stale.value ? ' old' : ''}${crowded ? ' crowded' : ''}`} aria-label="Energy" inert={stale.value}>
      {range && r.range_words && (
        <p class="range-words">
          <span style={atMark((range[0] + range[1]) / 2)}>{r.range_words}</span>
        </p>
      )}
      {r.need !== null && (
        <p class="need-words">
          <span style={atMark(r.need)}>{r.need_words}</span>
        </p>
      )}
      <div class="track">
        <div class="drawn" role="img" aria-label={r.says}>
          {range && <div class="need" style={{ left: percentAt(range[0]), width: percentAt(range[1] - range[0]) }} />}
          {r.parts.map((p) => (
            <div class={`bar ${p.key}`} style={{ left: percentAt(p.from ?? 0), width: percentAt((p.to ?? 0) - (p.from ?? 0)) }}>
              <i />
              {(p !== last || inside) && <span>{p.words}</span>}
            </div>
          ))}
          {!inside && last && (
            <span class="last-words" style={{ left: percentAt(behind) }}>
              {last.words}
            </span>
          )}
          {r.need !== null && <div class="likely" style={{ left: percentAt(r.need) }} />}
        </div>
        {r.least_eaten !== null && r.most_eaten !== null && (
          <input
            class="eaten"
            type="range"
            min={EATEN_PERCENT[0]}
            max={EATEN_PERCENT[1]}
            step="1"
            value={percentEaten}
            aria-label="How much of it is eaten, in per cent"
            aria-valuetext={`${words}: ${r.bowl_words} a day`}
            style={{ left: `calc(${percentAt(r.least_eaten)} - 12px)`, width: `calc(${percentAt(r.most_eaten - r.least_eaten)} + 24px)` }}
            onInput={(ev) => (eaten.value = Number(ev.currentTarget.value) / 100)}
          />
        )}
      </div>
      <p class="eaten-words">
        <span style={atMark(r.bowl)}>
          {words}: {r.bowl_words}
          {percentEaten !== 100 && (
            <button type="button" class="quiet no-print" onClick={() => (eaten.value = 1)}>
              all of it
            </button>
          )}
        </span>
      </p>
      <p class="shares">
        {r.parts.map((p) => (
          <span>
            <i class={p.key ?? ''} /> {p.words}
          </span>
        ))}
      </p>
    </section>
  );
}
