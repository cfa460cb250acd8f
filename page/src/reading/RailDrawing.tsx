/** One rail, and the legend of its marks. Where they stand, how they look and what they mean comes from the core (src/picture/rail.h),
 * as it does for every other drawing of a rail. */
import { RAIL_HEIGHT, RAIL_NEED, RAIL_SIGNS, type Nutrient, type Rail } from '../core/answers';
import { Fold } from '../Fold';

const MIDDLE = RAIL_HEIGHT / 2;
type Sign = keyof typeof RAIL_SIGNS;

export const percentAt = (place: number): string => `${place * 100}%`;

/** What an amount is drawn as. */
export function signOf(r: Rail): Sign {
  if (r.mark_end !== 'inside') return r.mark_end;
  return r.sure ? 'amount' : 'unsure';
}

const CLASS: Partial<Record<Sign, string>> = { amount: 'mark', unsure: 'mark', below: 'mark', above: 'mark', tested: 'limit tested', need: 'allowance' };

function At({ place, sign }: { place: number | null; sign: Sign }) {
  if (place === null) return null;
  const s = RAIL_SIGNS[sign];
  const name = CLASS[sign] ?? sign;
  if (!s.d) return <circle class={name} cx={percentAt(place)} cy={MIDDLE} r={s.r} />;
  return (
    <svg x={percentAt(place)} y={MIDDLE} overflow="visible">
      <path class={name} d={s.d} />
    </svg>
  );
}

function Bar({ from, to, sign }: { from: number | null; to: number | null; sign: 'spread' | 'unknown' }) {
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
      <Bar from={r.low} to={r.high} sign="spread" />
      <Bar from={r.unknown_from} to={r.unknown_to} sign="unknown" />
      <At place={r.minimum} sign="minimum" />
      {/* From row to row without a gap. */}
      <line class="allowance" x1={percentAt(RAIL_NEED)} x2={percentAt(RAIL_NEED)} y1="-6" y2="40" />
      <At place={r.limit} sign={r.limit_is_tested ? 'tested' : 'limit'} />
      <At place={other?.rail?.mark ?? null} sign="other" />
      <At place={r.leanest} sign="leanest" />
      <At place={r.mark} sign={signOf(r)} />
    </svg>
  );
}

const ACT = 'filled in colour: too little, or too much';
/** In the order in which a reader meets them; 'is' dresses the mark as in a row of that verdict. */
const SIGNS: { sign: Sign; is?: string; words?: string }[] = [
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
];

/* Made once: it never changes, and is not looked through with every keystroke. */
const SIGNS_DRAWN = (
  <ul>
    {SIGNS.map(({ sign, is, words }) => (
      <li class={is}>
        <svg width="36" height={RAIL_HEIGHT} aria-hidden="true">
          <line class="ground" x1="0" x2="36" y1={MIDDLE} y2={MIDDLE} />
          {sign === 'spread' || sign === 'unknown' ? <Bar from={0.12} to={0.88} sign={sign} /> : <At place={0.5} sign={sign} />}
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
