/** One rail, and the legend of its marks. Each mark means one thing. */
import type { Nutrient } from '../core/answers';
import { Fold } from '../Fold';
import { place, railOf } from './scale';

const MIDDLE = 13;

export function RailDrawing({ n, other }: { n: Nutrient; other: Nutrient | null }) {
  const r = railOf(n);
  if (!r) return <span class="no-rail" />;
  const o = other ? railOf({ ...other, allowance: other.allowance ?? n.allowance }) : null;
  return (
    <svg class="drawing" aria-hidden="true" width="100%" height="26">
      <line class="ground" x1="0" x2="100%" y1={MIDDLE} y2={MIDDLE} />
      {r.band && <rect class="spread" x={`${r.band[0]}%`} width={`${r.band[1] - r.band[0]}%`} y="10.5" height="5" rx="2.5" />}
      {r.hatched && (
        <rect class="unknown" x={`${r.hatched[0]}%`} width={`${r.hatched[1] - r.hatched[0]}%`} y="6.5" height="13" fill="url(#hatching)" />
      )}
      {r.minimum !== null && n.minimum !== null && <line class="minimum" x1={`${r.minimum}%`} x2={`${r.minimum}%`} y1="7" y2="19" />}
      <line class="allowance" x1={`${place(1)}%`} x2={`${place(1)}%`} y1="-6" y2="40" />
      {r.upper !== null && r.upperEnd === 'inside' && (
        <svg x={`${r.upper}%`} y="0" overflow="visible">
          <path class={n.upper_greater_than ? 'limit tested' : 'limit'} d={LIMIT} />
        </svg>
      )}
      {o && (
        <svg x={`${o.mark}%`} y="0" overflow="visible">
          <path class="other" d={OTHER} />
        </svg>
      )}
      {r.leanest !== null && (
        <svg x={`${r.leanest}%`} y="0" overflow="visible">
          <path class="leanest" d={LEANEST} />
        </svg>
      )}
      {r.markEnd === 'inside' ? (
        <circle class="mark" cx={`${r.mark}%`} cy={MIDDLE} r="4.8" />
      ) : (
        <svg x={`${r.mark}%`} y="0" overflow="visible">
          <path class="mark" d={r.markEnd === 'below' ? BELOW : ABOVE} />
        </svg>
      )}
    </svg>
  );
}

const LIMIT = 'M-3.5 7 L2 13 L-3.5 19';
const OTHER = 'M0 6 L5 13 L0 20 L-5 13 Z';
const LEANEST = 'M-4 9 L4 17 M-4 17 L4 9';
const BELOW = 'M0 13 L9 7.5 L9 18.5 Z';
const ABOVE = 'M0 13 L-9 7.5 L-9 18.5 Z';

/** In the order in which a reader meets them. */
const SIGNS: { draw: preact.JSX.Element; is?: string; words: string }[] = [
  { draw: <line class="allowance" x1="18" x2="18" y1="0" y2="26" />, words: 'the need: all rails stand on this line' },
  { draw: <circle class="mark" cx="18" cy="13" r="4.8" />, is: 'met', words: 'the amount a day, where the verdict is clear' },
  { draw: <circle class="mark" cx="18" cy="13" r="4.8" />, is: 'short', words: 'too little, or too much: act on it' },
  { draw: <circle class="mark" cx="18" cy="13" r="4.8" />, is: 'thin', words: 'near the line, or not proven' },
  { draw: <path class="mark" d={BELOW} transform="translate(14 0)" />, is: 'short', words: 'beyond the scale: less than a quarter, or more than eight times' },
  { draw: <rect class="spread" x="3" y="10.5" width="30" height="5" rx="2.5" />, is: 'met', words: 'where it lies nine times in ten' },
  { draw: <rect class="unknown" x="6" y="6.5" width="24" height="13" fill="url(#hatching)" />, words: 'not known: what foods without a figure might add' },
  { draw: <line class="minimum" x1="18" x2="18" y1="7" y2="19" />, words: 'the minimum' },
  { draw: <path class="limit" d={LIMIT} transform="translate(18 0)" />, words: 'the upper limit' },
  { draw: <path class="limit tested" d={LIMIT} transform="translate(18 0)" />, words: 'the highest level tested' },
  { draw: <path class="leanest" d={LEANEST} transform="translate(18 0)" />, words: 'its leanest days, where they decide' },
  { draw: <path class="other" d={OTHER} transform="translate(18 0)" />, words: 'the bowl as it was, or the one beside it' },
];

export function Legend() {
  return (
    <Fold name="signs" class="signs" summary="What the marks mean" print>
      <ul>
        {SIGNS.map((s) => (
          <li class={s.is}>
            <svg width="36" height="26" aria-hidden="true">
              <line class="ground" x1="0" x2="36" y1="13" y2="13" />
              {s.draw}
            </svg>{' '}
            {s.words}
          </li>
        ))}
        <li>
          <span class="window">7 d</span> the days over which it may average
        </li>
      </ul>
    </Fold>
  );
}
