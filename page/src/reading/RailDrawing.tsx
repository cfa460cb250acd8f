/** One rail, and the legend of its marks. Where they stand, how they look and what they mean comes from the core (src/picture/rail.h),
 * as it does for every other drawing of a rail. */
import { RAIL_HEIGHT, RAIL_NEED, RAIL_SIGNS, type Nutrient, type Rail } from '../core/answers';
import { Fold } from '../Fold';

const MIDDLE = RAIL_HEIGHT / 2;
type Sign = keyof typeof RAIL_SIGNS;

/* To a hundredth of a per cent: what moves by less than the eye sees is not laid out anew. */
export const percentAt = (place: number): string => `${Math.round(place * 10_000) / 100}%`;

/** What an amount is drawn as. */
export function signOf(r: Rail): Sign {
  if (r.mark_end !== 'inside') return r.mark_end;
  return r.sure ? 'amount' : 'unsure';
}

const CLASS: Partial<Record<Sign, string>> = { amount: 'mark', unsure: 'mark', below: 'mark', above: 'mark', tested: 'limit tested', need: 'allowance' };

/* Plain functions and not components: a rail is drawn with nearly every keystroke. */
function mark(place: number | null, sign: Sign, dress = '') {
  if (place === null) return null;
  const s = RAIL_SIGNS[sign];
  const name = dress || (CLASS[sign] ?? sign);
  if (!s.d) return <circle class={name} cx={percentAt(place)} cy={MIDDLE} r={s.r} />;
  return (
    <svg x={percentAt(place)} y={MIDDLE} overflow="visible">
      <path class={name} d={s.d} />
    </svg>
  );
}

function bar(from: number | null, to: number | null, sign: 'spread' | 'unknown') {
  if (from === null || to === null || !(to > from)) return null;
  const half = RAIL_SIGNS[sign].r;
  return (
    <rect
      class={sign}
      x={percentAt(from)}
      width={percentAt(to - from)}
      y={MIDDLE - half}
      height={2 * half}
      {...(sign === 'unknown' ? { fill: 'url(#hatching)' } : { rx: half })}
    />
  );
}

export function RailDrawing({ n, other }: { n: Nutrient; other: Nutrient | null }) {
  const r = n.rail;
  if (!r) return <span class="no-rail" />;
  return (
    <svg class="drawing" aria-hidden="true" width="100%" height={RAIL_HEIGHT}>
      <line class="ground" x1="0" x2="100%" y1={MIDDLE} y2={MIDDLE} />
      {bar(r.low, r.high, 'spread')}
      {bar(r.unknown_from, r.unknown_to, 'unknown')}
      {mark(r.minimum, 'minimum')}
      {/* From row to row without a gap. */}
      <line class="allowance" x1={percentAt(RAIL_NEED)} x2={percentAt(RAIL_NEED)} y1="-6" y2="40" />
      {mark(r.limit, r.limit_is_tested ? 'tested' : 'limit')}
      {other?.rail && mark(other.rail.mark, other.rail.mark_end === 'inside' ? 'other' : other.rail.mark_end, 'other')}
      {mark(r.leanest, 'leanest')}
      {mark(r.mark, signOf(r))}
    </svg>
  );
}

const ACT = 'filled in colour: too little, or too much';
/** In the order in which a reader meets them; 'is' dresses the mark as in a row of that verdict. */
const SIGNS: { sign: Sign; is?: string; dress?: string; words?: string }[] = [
  { sign: 'need' },
  { sign: 'amount', is: 'met' },
  { sign: 'amount', is: 'short', words: ACT },
  { sign: 'unsure', is: 'thin' },
  { sign: 'below', is: 'short' },
  { sign: 'spread', is: 'met' },
  { sign: 'unknown' },
  { sign: 'minimum' },
  { sign: 'limit' },
  { sign: 'tested' },
  { sign: 'leanest' },
  { sign: 'other' },
  { sign: 'below', dress: 'other', words: 'the same, beyond the scale' },
];

/* Made once: it never changes, and is not looked through with every keystroke. */
const SIGNS_DRAWN = (
  <ul>
    {SIGNS.map(({ sign, is, dress, words }) => (
      <li class={is}>
        <svg width="36" height={RAIL_HEIGHT} aria-hidden="true">
          <line class="ground" x1="0" x2="36" y1={MIDDLE} y2={MIDDLE} />
          {sign === 'spread' || sign === 'unknown' ? bar(0.12, 0.88, sign) : mark(0.5, sign, dress)}
        </svg>{' '}
        {words ?? RAIL_SIGNS[sign].words}
      </li>
    ))}
    <li>
      <span class="window">7 d</span> the days over which it may average
    </li>
  </ul>
);

export function Legend() {
  return (
    <Fold name="signs" class="signs" summary="What the marks mean" print>
      {SIGNS_DRAWN}
    </Fold>
  );
}
