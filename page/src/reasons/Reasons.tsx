/** Why: the written review, or all about one nutrient, or all about one line. */
import { useEffect, useState } from 'preact/hooks';
import { PIECE_TONES, WEIGHT_TITLES, WEIGHTS } from '../core/answers';
import type { Check, Finding, FoodRecord, FoundFood, Line, Nutrient, SupplyBar, Why } from '../core/answers';
import { beside, check, choice, core, open, recipe, review } from '../state';
import { choose, close, narrow, stale } from '../view';
import { Fold } from '../Fold';
import { percentAt } from '../reading/RailDrawing';
import { Same } from '../Same';
import { Counts, Lead } from '../Verdict';
import { showText, write } from '../texts';
import { amount, chance, confidenceWords, days, figure, grams, list, percent, STANDARDS, together } from '../words';
import { withoutPin, withPin } from '../writing/text';
import { replaceInField } from '../writing/field-edit';
import { proposed } from '../acting';
import { Lent, lentOf, originsByLine, useWhy } from './Rests';
import { Swaps, SwapsForNutrient } from './Swaps';

export function Reasons() {
  const c = check.value;
  /* On a narrow page they stand under what was chosen. */
  const chosen = narrow.value ? null : chosenIn(c);
  return (
    <section class={`reasons${stale.value ? ' old' : ''}`} id="reasons" aria-label="Reasons" inert={stale.value}>
      {chosen && (
        <p class="back no-print">
          <button type="button" class="quiet" onClick={close}>
            ← the whole review
          </button>
        </p>
      )}
      {chosen ?? <Review check={c} />}
    </section>
  );
}

function chosenIn(c: Check | null) {
  const chosen = choice.value;
  const nutrient = c && chosen.kind === 'nutrient' ? c.nutrients.find((n) => n.key === chosen.key) : undefined;
  const line = c && chosen.kind === 'line' ? c.recipe.lines.find((l) => l.line === chosen.line) : undefined;
  if (c && nutrient) return <OfNutrient check={c} n={nutrient} />;
  return c && line ? <OfLine check={c} line={line} /> : null;
}

// ---- the written review -----------------------------------------------------------------------------------------------

const SHOWN = { act: 20, watch: 4, know: 0 };

function Review({ check: c }: { check: Check | null }) {
  if (!c) return <p class="hint">The reasons appear here.</p>;
  return (
    <>
      {narrow.value ? (
        <h2>Why</h2>
      ) : (
        <>
          <Lead check={c} />
          <Counts />
          <Same of={lentOf(c)} draw={() => <Lent check={c} />} />
        </>
      )}
      <Findings />
    </>
  );
}

/* Of its own, so that it is drawn anew with the review only and not with every number. */
function Findings() {
  return (
    <>
      {WEIGHTS.map((weight) => {
        const title = WEIGHT_TITLES[weight];
        /* Dangers stand above everything already. */
        const of = review.value.filter((f) => f.weight === weight && !f.danger);
        if (of.length === 0) return null;
        return (
          <section class={`findings ${weight}`}>
            <h3>{title}</h3>
            {of.slice(0, SHOWN[weight]).map((f) => (
              <FindingView key={f.id} f={f} />
            ))}
            {of.length > SHOWN[weight] && (
              <Fold
                name={`more-${weight}`}
                print={weight !== 'know'}
                summary={SHOWN[weight] > 0 ? `${of.length - SHOWN[weight]} more` : `${of.length} ${of.length === 1 ? 'remark' : 'remarks'}`}
              >
                {of.slice(SHOWN[weight]).map((f) => (
                  <FindingView key={f.id} f={f} />
                ))}
              </Fold>
            )}
          </section>
        );
      })}
    </>
  );
}

function FindingView({ f }: { f: Finding }) {
  return <Same of={JSON.stringify([f.weight, f.text, f.reason, f.remedy])} draw={() => <FindingDrawn f={f} />} />;
}

function FindingDrawn({ f }: { f: Finding }) {
  return (
    <div class={`finding of-${f.weight}`}>
      <p>{together(f.text)}</p>
      {f.reason && <p class="reason">{together(f.reason)}</p>}
      {f.remedy && <p class="remedy">{together(f.remedy)}</p>}
    </div>
  );
}

// ---- one nutrient -----------------------------------------------------------------------------------------------------

const toneOf = (piece: number): string => `tone-${PIECE_TONES[piece % PIECE_TONES.length]}`;
/** Of a line in the list: small ones share the bar's last piece. */
const toneOfLine = (n: Nutrient, i: number): string => toneOf(Math.min(i, Math.max(0, (n.supply?.pieces.length ?? 1) - 1)));

/** Pieces and need stand where the core says (src/picture/supply.h). */
function Suppliers({ supply: s }: { supply: SupplyBar }) {
  const end = s.pieces[s.pieces.length - 1]?.to ?? 0;
  return (
    <div class="stack" role="img" aria-label={s.says}>
      {s.pieces.map((p, i) => {
        const from = s.pieces[i - 1]?.to ?? 0;
        return <div class={`piece ${toneOf(i)}`} title={p.words} style={{ left: percentAt(from), width: percentAt((p.to ?? 0) - from) }} />;
      })}
      {s.gap && s.need !== null && <div class="piece missing" title={s.gap} style={{ left: percentAt(end), width: percentAt(s.need - end) }} />}
      {s.need !== null && <div class="needed" style={{ left: percentAt(s.need) }} />}
    </div>
  );
}

const lineText = (c: Check, line: number): string => c.recipe.lines.find((l) => l.line === line)?.text ?? `line ${line}`;

export function OfNutrient({ check: c, n }: { check: Check; n: Nutrient }) {
  const who = c.animal?.name ?? 'the animal';
  const other = beside.value?.nutrients.find((o) => o.key === n.key);
  const about = review.value.filter((f) => !f.danger && f.nutrients.includes(n.key));
  const [chain, setChain] = useState(false);
  const why = useWhy(n, chain || n.from.some((s) => s.status !== null && s.status !== 'measured'));
  const origins = originsByLine(why);
  return (
    <>
      <h2>
        {n.name} {n.verdict && n.verdict !== 'no figure' && <small class={`verdict ${n.verdict}`}>{n.verdict}</small>}
      </h2>
      <p class="prose">
        {n.amount === null ? 'How much the food contains is not known' : `${figure(n.amount)} ${n.unit} a day`}{n.allowance !== null ? `${n.amount === null ? ';' : ' where'} ${who} needs ${amount(n.allowance, n.unit)}` : ''}
        {n.upper !== null ? `, and ${n.upper_greater_than ? 'more than' : 'at most'} ${figure(n.upper)} is ${n.upper_greater_than ? 'the highest tested' : 'safe'}` : ''}.{' '}
        {n.chance_met !== null ? `The chance that the need is reached is ${chance(n.chance_met)}` : ''}
        {n.chance_kept !== null ? `${n.chance_met !== null ? '; that' : 'The chance that'} the limit is kept, ${chance(n.chance_kept)}` : ''}
        {n.chance_met !== null || n.chance_kept !== null ? '.' : ''}{' '}
        {n.verdict_by_window && n.window_amount !== null
          ? `It is ${figure(n.amount)} on average, but over ${days(n.window_days ?? 1)} it falls to ${figure(n.window_amount)}.`
          : ''}
        {n.estimate_decides ? ' Estimates decide this verdict: with half of what is estimated it would be another.' : ''}
      </p>
      {proposed.value === null && other && (
        <p class="prose">
          {beside.value?.recipe.name || 'The other recipe'} supplies {other.amount === null ? 'an amount that is not known' : amount(other.amount, other.unit)}
          {other.allowance !== null && other.allowance !== n.allowance ? ` where ${beside.value?.animal?.name ?? 'its animal'} needs ${figure(other.allowance)}` : ''}.
        </p>
      )}
      {about.map((f) => (
        <FindingView key={f.id} f={f} />
      ))}
      <h3>Who supplies it</h3>
      {n.from.length > 0 ? (
        <>
          {n.supply && <Suppliers supply={n.supply} />}
          <ol class="suppliers">
            {n.from.map((s, i) => (
              <li>
                <button type="button" class="row" onClick={() => choose({ kind: 'line', line: s.line })}>
                  <span>
                    <i class={`swatch ${toneOfLine(n, i)}`} aria-hidden="true" />
                    {lineText(c, s.line)}
                  </span>
                  <span class="num">
                    {figure(s.amount)} {n.unit} · {percent(s.share)}
                  </span>
                  {s.status && s.status !== 'measured' && <small>{origins.get(s.line) ?? s.status}</small>}
                </button>
              </li>
            ))}
          </ol>
        </>
      ) : (
        <p>No line is known to supply any.</p>
      )}
      {n.missing.length > 0 && (
        <p class="gaps">
          No value is known for {n.missing.map((l) => lineText(c, l)).join('; ')}.
          {n.possible !== null && n.amount !== null && n.possible > n.amount
            ? ` Foods of their kind could raise the sum to ${figure(n.possible)} ${n.unit}.`
            : ''}
        </p>
      )}
      {n.allowance !== null && n.verdict !== 'met' && <SwapsForNutrient check={c} n={n} />}
      <Chain n={n} why={why} open={setChain} />
      <Origin check={c} n={n} />
    </>
  );
}

function Origin({ check: c, n }: { check: Check; n: Nutrient }) {
  const rows = [
    ['need', n.table],
    ['minimum', n.minimum_table],
    ['upper limit', n.upper_table],
  ] as const;
  const name = STANDARDS.find((s) => s.key === c.standard)?.name ?? c.standard;
  return (
    <section class="origin">
      <h3>Where the figures come from</h3>
      <dl>
        {rows.map(([what, t]) =>
          t ? (
            <div>
              <dt>{what}</dt>
              <dd>
                {t.printed} <span class="source">{t.source === c.standard ? name : t.source}, row {t.row}; {confidenceWords(t.confidence)}</span>
              </dd>
            </div>
          ) : null,
        )}
        {n.how && (
          <div>
            <dt>worked out as</dt>
            <dd>
              {n.how} = {figure(n.allowance)} {n.unit}
            </dd>
          </div>
        )}
        {n.adjusted && (
          <div>
            <dt>adjusted</dt>
            <dd>
              from {figure(n.adjusted.from)} to {figure(n.adjusted.to)} {n.unit}: {n.adjusted.why}
            </dd>
          </div>
        )}
        {n.low !== null && n.high !== null && (
          <div>
            <dt>spread</dt>
            <dd>
              nine times in ten between {figure(n.low)} and {figure(n.high)} {n.unit}
            </dd>
          </div>
        )}
        {n.estimated_share !== null && n.estimated_share > 0 && (
          <div>
            <dt>estimated</dt>
            <dd>{percent(n.estimated_share)} of it rests on estimates or single cited figures</dd>
          </div>
        )}
      </dl>
    </section>
  );
}

/** Every factor of the sum, as the core hands it out. */
function Chain({ n, why, open: opened }: { n: Nutrient; why: Why | null; open: (now: boolean) => void }) {
  return (
    <Fold name="chain" class="chain" summary="The whole sum, factor by factor" seen={opened}>
      {why && (
        <>
          <ol>
            {(why.lines ?? [])
              .filter((l) => l.missing || (l.amount ?? 0) > 0)
              .map((l) => (
                <li>
                  {l.text}
                  {l.part !== 'whole' ? `, the ${l.part}` : ''}:{' '}
                  {l.missing && !(l.amount && l.amount > 0) ? (
                    'no value is known'
                  ) : (
                    <>
                      {figure(l.grams_per_day)} g × {figure(l.per_100g)} {n.unit}/100 g = <b>{figure(l.amount)}</b>
                    </>
                  )}
                  <small>
                    {list([...new Set(l.values.filter((v) => v.status !== 'unknown').map((v) => `${v.status}${v.source ? `, ${v.source}` : ''}`))])}
                    {l.cooking_table?.words ? `; cooking: ${l.cooking_table.words.toLowerCase()}` : ''}
                  </small>
                </li>
              ))}
          </ol>
          <p>
            Together {figure(why.sum ?? null)} {n.unit} a day. {why.rule_text ?? ''}
          </p>
        </>
      )}
    </Fold>
  );
}

// ---- one line ---------------------------------------------------------------------------------------------------------

const CHOSEN_BY: Record<string, string> = {
  pin: 'named by its pin',
  'everyday name': 'the record that these everyday words mean',
  search: 'the record that fits these words best',
};

export function OfLine({ check: c, line: l }: { check: Check; line: Line }) {
  const kcal = c.energy.from.find((f) => f.line === l.line);
  const supplies = c.nutrients
    .map((n) => ({ n, s: n.from.find((f) => f.line === l.line) }))
    .filter((x): x is { n: Nutrient; s: NonNullable<typeof x.s> } => x.s !== undefined && x.s.share >= 0.1 && x.n.allowance !== null)
    .sort((a, b) => b.s.share - a.s.share)
    .slice(0, 14);
  return (
    <>
      <h2>{l.text}</h2>
      <p class="prose">
        {grams(l.grams_per_day)} a day{kcal ? `, ${figure(kcal.amount)} kcal, ${percent(kcal.share)} of the energy` : ''}.{' '}
        {l.grams_from ? `${l.grams_from}. ` : ''}
        {l.days_per_week < 7 ? `${grams(l.grams_when_fed)} on a day when it is fed.` : ''}
      </p>
      <h3>Read as</h3>
      <p>
        {l.name} <span class="source">[{l.food}] {CHOSEN_BY[l.chosen_by] ?? l.chosen_by}</span>
      </p>
      <OtherRecords line={l} />
      <Swaps check={c} line={l} />
      <h3>What it gives</h3>
      <ul class="supplied">
        {supplies.map(({ n, s }) => (
          <li>
            <button type="button" class="row" onClick={() => choose({ kind: 'nutrient', key: n.key })}>
              <span>{n.name}</span>
              <span class="meter" aria-hidden="true">
                <i style={{ width: `${s.share * 100}%` }} />
              </span>
              <span class="num">
                {figure(s.amount)} {n.unit} · {percent(s.share)}
              </span>
            </button>
          </li>
        ))}
      </ul>
      {supplies.length === 0 && <p>Less than a tenth of any nutrient.</p>}
      <Record pin={l.counted_as[0]?.food ?? l.food} />
    </>
  );
}

function choosePin(line: number, pin: string): void {
  const r = recipe.value;
  if (!r) return;
  const change = withPin(r.body, line, pin);
  if (open.value?.id !== r.id) showText(r.id);
  if (!replaceInField(r.id, change.from, change.to, change.write))
    write(r.id, r.body.slice(0, change.from) + change.write + r.body.slice(change.to));
}

function OtherRecords({ line: l }: { line: Line }) {
  const [found, setFound] = useState<FoundFood[]>([]);
  useEffect(() => {
    let alive = true;
    setFound([]);
    core.suggest(withoutPin(l.text)).then(
      (s) => alive && setFound(s?.found.foods ?? []),
      () => undefined,
    );
    return () => {
      alive = false;
    };
  }, [l.text]);
  const all = [...l.rivals, ...found.filter((f) => !l.rivals.some((r) => r.food === f.food))].filter((f) => f.food !== l.food).slice(0, 9);
  if (all.length === 0) return null;
  return (
    <Fold
      name="records"
      class="records no-print"
      summary={l.rivals.length > 0 ? `${l.rivals.length} ${l.rivals.length === 1 ? 'other fits' : 'others fit'} about as well` : 'Other records'}
    >
      <ul>
        {all.map((f) => (
          <li>
            <button type="button" class="row" onClick={() => choosePin(l.line, f.food)}>
              <span>{f.name}</span>
              <small>[{f.food}]</small>
            </button>
          </li>
        ))}
      </ul>
    </Fold>
  );
}

function Record({ pin }: { pin: string }) {
  const [record, setRecord] = useState<FoodRecord | null>(null);
  const [wanted, setWanted] = useState(false);
  useEffect(() => setRecord(null), [pin]);
  useEffect(() => {
    if (!wanted) return;
    let alive = true;
    core.food(pin).then(
      (r) => alive && setRecord(r),
      () => undefined,
    );
    return () => {
      alive = false;
    };
  }, [pin, wanted]);
  return (
    <Fold name="record" class="record" summary="Every value of its record, per 100 g" seen={setWanted}>
      {record && (
        <>
          {record.note && <p>{record.note}</p>}
          <table>
            <thead>
              <tr>
                <th scope="col">nutrient</th>
                <th scope="col">amount</th>
                <th scope="col">standing</th>
              </tr>
            </thead>
            <tbody>
              {record.nutrients.map((n) => (
                <tr>
                  <th scope="row">{n.name}</th>
                  <td>{n.amount === null ? 'unknown' : `${figure(n.amount)} ${n.unit}`}</td>
                  <td>{n.status}{n.estimate ? ` from ${n.estimate.from}, within ${percent(n.estimate.within)}` : sourceOf(n.source)}{n.set_aside ? `; the table prints ${amount(n.set_aside.printed, n.unit)}, which ${n.set_aside.analyses} other analyses of ${n.set_aside.class} contradict` : ''}</td>
                </tr>
              ))}
            </tbody>
          </table>
        </>
      )}
    </Fold>
  );
}

function sourceOf(s: unknown): string {
  if (typeof s === 'string') return `, ${s}`;
  if (s && typeof s === 'object' && 'key' in s) return `, ${String((s as { key: unknown }).key)}`;
  return '';
}

