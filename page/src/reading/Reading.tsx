/** The rails: one line a nutrient, all aligned on one vertical line, the allowance. */
import { computed } from '@preact/signals';
import { proposed } from '../acting';
import { BALANCE_KEYS, BALANCE_NAMES, PART_NAMES, type Check, type Nutrient, type PartKey } from '../core/answers';
import { OfNutrient } from '../reasons/Reasons';
import { lead } from '../Verdict';
import { answer, beside, besideId, check, choice, open, recipe, recipeBody, recipeId, texts, trouble } from '../state';
import { choose, close, narrow, printing, stale, unfolded } from '../view';
import { ToLine } from '../writing/ToLine';
import { holdsNoFood, nameOf } from '../writing/text';
import { amount, days, figure, percent, sentence } from '../words';
import { setFold } from '../Fold';
import { Same } from '../Same';
import { Legend, RailDrawing } from './RailDrawing';
import { groupsOf, MARKS, type Group } from './scale';

export function Reading() {
  const c = check.value;
  return (
    <section class="reading" id="reading" aria-label="What it amounts to">
      {!c ? <Nothing /> : <Rails check={c} />}
    </section>
  );
}

function Nothing() {
  if (trouble.value !== '') return null;
  if (!answer.value) return <p class="hint">Reading.</p>;
  return answer.value.complaints.some((c) => c.level === 'error' && (c.text === 'animals' || c.code === 'which-animal')) && !holdsNoFood(recipeBody.value) ? (
    <p class="hint">As soon as the animal is known, it is read here.</p>
  ) : (
    <p class="hint">As soon as one line of the recipe is understood, it is read here. Write one food a line, such as “200 g lamb heart”.</p>
  );
}

function Rails({ check: c }: { check: Check }) {
  const two = proposed.value !== null;
  const groups = groupsOf(c.nutrients, c.groups ?? [], two ? (beside.value?.nutrients ?? null) : null);
  const elsewhere = two ? null : elsewhereOf(groups);
  const left = answer.value?.left_out ?? [];
  const judged = c.verdicts !== null && groups.length > 0;
  /* Where nothing else is to be seen, an axis over nothing is of no use. */
  const onlyMet = judged && groups.every(folds) && elsewhere === null;
  return (
    <div class={stale.value ? 'old' : ''} inert={stale.value}>
      <OfAnother />
      {left.length > 0 && (
        <p class="stale">
          Read without {left.length === 1 ? 'line' : 'lines'} <Lines of={left} />, which {left.length === 1 ? 'is' : 'are'} not understood yet.
        </p>
      )}
      {c.refused && (
        <div class="refused" role="note">
          <p>{c.refused.text}</p>
          <p>{c.refused.ask}</p>
        </div>
      )}
      <div class={`rails${two ? ' two' : ''}${judged ? '' : ' bare'}`} onKeyDown={walk}>
        {SCALE}
        {judged ? (
          <>
            {groups.map((g) =>
              folds(g) && !(onlyMet && g.key === 'met') ? (
                <Folded key={g.key} group={elsewhere ? { ...g, rows: g.rows.filter((n) => !elsewhere.rows.includes(n)) } : g} before={g.key === 'met' ? elsewhere : null} />
              ) : (
                <Unfolded key={g.title} group={g} />
              ),
            )}
          </>
        ) : (
          <section class="group" aria-label="What it contains">
            <h2>
              Holds <small>no verdict is given</small>
            </h2>
            <Rows rows={c.nutrients.filter((n) => n.amount !== null)} />
          </section>
        )}
      </div>
      <Legend />
      <Beside />
      <Same of={madeOf(c)} draw={() => <Balance check={c} />} />
    </div>
  );
}

const folds = (g: Group): boolean => (g.key === 'met' && !g.repaired) || g.key === 'no figure';

/* Made once: it never changes. */
const SCALE = (
  <div class="scale" aria-hidden="true">
    <span />
    <div class="marks">
      {MARKS.map((m) => (
        <span class={m.words === 'need' ? 'need' : ''} style={{ left: `${m.at}%` }}>
          {m.words}
        </span>
      ))}
    </div>
    <span class="what">a day, of need</span>
  </div>
);

/** Lines of the text by their numbers, each a way to it. */
function Lines({ of }: { of: number[] }) {
  return (
    <>
      {of.map((line, i) => (
        <>
          {i === 0 ? '' : i === of.length - 1 ? ' and ' : ', '}
          <ToLine line={line} words={String(line)} />
        </>
      ))}
    </>
  );
}

/** Another kind of text is open: the rails are still those of the recipe. */
function OfAnother() {
  const r = recipe.value;
  if (!r || open.value?.id === r.id) return null;
  return <p class="of-another">Read of “{nameOf(r)}”, not of the text that is open.</p>;
}

/** Beside another recipe: what is met here and not there is as much of a difference as the other way round. */
function elsewhereOf(groups: Group[]): Group | null {
  const other = beside.value;
  if (!other?.verdicts) return null;
  const wanting = (n: Nutrient): boolean => {
    const o = other.nutrients.find((x) => x.key === n.key);
    return o !== undefined && o.verdict !== null && o.verdict !== 'met' && o.verdict !== 'no figure';
  };
  const rows = groups.find((g) => g.key === 'met')?.rows.filter(wanting) ?? [];
  if (rows.length === 0) return null;
  return { key: 'met', repaired: true, title: 'Met here', words: `not in ${other.recipe.name || 'the other'}`, rows };
}

function Unfolded({ group: g }: { group: Group }) {
  return (
    <section class="group" id={g.repaired ? undefined : `rails-${g.key.replace(' ', '-')}`} aria-label={g.words ? `${g.title}: ${g.words}` : g.title}>
      <h2>
        {g.title} <b>{g.rows.length}</b> <small>{g.words}</small>
      </h2>
      <Rows rows={g.rows} />
    </section>
  );
}

/** Its rails are drawn only while they are seen: they are the most of them, and each costs time with every keystroke. */
function Folded({ group: g, before }: { group: Group; before: Group | null }) {
  const seen = unfolded.value.has(g.key) || printing.value;
  return (
    <>
      {before && <Unfolded group={before} />}
      {g.rows.length > 0 && (
        <details class="group folded" id={`rails-${g.key.replace(' ', '-')}`} open={seen} onToggle={(e) => setFold(g.key, e.currentTarget.open)}>
          <summary>
            <h2>
              {g.title} <b>{g.rows.length}</b> <small>{g.words}</small>
            </h2>
            <span class="names">{g.rows.map((n) => n.said).join(', ')}</span>
          </summary>
          {seen && <Rows rows={g.rows} />}
        </details>
      )}
    </>
  );
}

/** Arrow keys walk along the rails. */
function walk(e: KeyboardEvent): void {
  if (e.key !== 'ArrowDown' && e.key !== 'ArrowUp') return;
  const here = document.activeElement;
  if (!(here instanceof HTMLElement) || !here.classList.contains('rail')) return;
  const all = [...document.querySelectorAll<HTMLElement>('.rails button.rail')].filter((r) => r.offsetParent !== null);
  const next = all[all.indexOf(here) + (e.key === 'ArrowDown' ? 1 : -1)];
  if (next) {
    e.preventDefault();
    next.focus();
  }
}

function Rows({ rows }: { rows: Nutrient[] }) {
  return (
    <ul>
      {rows.map((n) => (
        <Row key={n.key} n={n} />
      ))}
    </ul>
  );
}

/** Longer names are set smaller, so that none is cut. */
const LONG = 18;

function Row({ n }: { n: Nutrient }) {
  const chosen = choice.value.kind === 'nutrient' && choice.value.key === n.key;
  const here = chosen && narrow.value;
  const other = beside.value?.nutrients.find((o) => o.key === n.key) ?? null;
  const words = wordsOf(n, other, other !== null && figure(other.amount) !== figure(n.amount));
  return (
    <li>
      <Same of={drawnOf(n, other, words, chosen)} draw={() => <RailButton n={n} other={other} words={words} chosen={chosen} />} />
      {here && check.value && (
        <div class="opened reasons-here">
          <p class="back no-print">
            <button type="button" class="quiet" onClick={close}>
              close
            </button>
          </p>
          <OfNutrient check={check.value} n={n} />
        </div>
      )}
    </li>
  );
}

const besideName = computed(() => beside.value?.recipe.name || 'the other');

/** What is written in a rail, and what is told beside it to those who hear it. */
interface Words {
  window: string;
  was: string;
  now: string;
  rest: string;
  says: string;
  /** What the other bowl has; '' where none is. */
  there: string;
}

function wordsOf(n: Nutrient, other: Nutrient | null, before: boolean): Words {
  /* Of another bowl no figure is drawn. */
  const there = other === null || proposed.value !== null ? '' : `${besideName.value}: ${amount(other.amount, other.unit)}`;
  const was = before && proposed.value !== null ? `${figure(other?.amount ?? null)} → ` : '';
  const now = n.amount === null ? 'not known' : figure(n.amount);
  const against = n.verdict === 'over' && n.upper !== null ? `limit ${figure(n.upper)} ` : n.allowance ? `of ${figure(n.allowance)} ` : '';
  const rest = `${against}${n.amount === null && !n.allowance ? '' : n.unit}`;
  const window = n.window_days !== null && n.verdict !== 'no figure' ? `${n.window_days} d` : '';
  return { window, was, now, rest, there, says: `${sentence(n)}${there === '' ? '' : `, ${there}`}` };
}

/** What moves a mark by less than this part of its rail, a quarter of a pixel, is not drawn anew. */
const STEPS = 2000;
const coarse = (_key: string, x: unknown): unknown => (typeof x === 'number' ? Math.round(x * STEPS) : x);

/** Everything that a rail shows. */
const drawnOf = (n: Nutrient, other: Nutrient | null, words: Words, chosen: boolean): string =>
  `${JSON.stringify([n.key, n.name, n.verdict, words, chosen])}${JSON.stringify([n.rail, other?.rail?.mark], coarse)}`;

function RailButton({ n, other, words, chosen }: { n: Nutrient; other: Nutrient | null; words: Words; chosen: boolean }) {
  return (
    <button
      type="button"
      class={`rail ${(n.verdict ?? 'none').replace(' ', '-')}${chosen ? ' chosen' : ''}`}
      aria-pressed={chosen}
      aria-expanded={narrow.value ? chosen : undefined}
      data-key={n.key}
      title={words.there === '' ? undefined : words.there}
      onClick={() => (chosen ? close() : choose({ kind: 'nutrient', key: n.key }))}
    >
      <span class={n.name.length > LONG ? 'name long' : 'name'} title={n.name}>
        {n.name} {words.window !== '' && <small title={`may average over ${days(n.window_days ?? 1)}`}>{words.window}</small>}
      </span>{' '}
      <RailDrawing n={n} other={other} />
      <span class="figures">
        {words.was !== '' && <s>{words.was}</s>}
        <b>{words.now}</b> {words.rest}
      </span>
      <span class="unseen">{words.says}</span>
    </button>
  );
}

const otherTitles = computed(() =>
  JSON.stringify(texts.value.filter((t) => t.kind === 'recipe' && t.id !== recipeId.value).map((t) => ({ id: t.id, title: nameOf(t) }))),
);
const others = computed(() => JSON.parse(otherTitles.value) as { id: string; title: string }[]);

function Beside() {
  if (proposed.value !== null) return null;
  const all = others.value;
  if (all.length === 0) return null;
  return (
    <p class="beside no-print">
      <label class="as-text">
        Beside it:{' '}
        <select value={besideId.value} onChange={(e) => (besideId.value = e.currentTarget.value)}>
          <option value="">no other recipe</option>
          {all.map((t) => (
            <option value={t.id}>{t.title}</option>
          ))}
        </select>
      </label>
      {beside.value && (
        <span class="legend">
          <svg width="12" height="14" aria-hidden="true">
            <path class="other" d="M6 1 L11 7 L6 13 L1 7 Z" />
          </svg>{' '}
          {beside.value.recipe.name || 'the other'} for {beside.value.animal?.name ?? 'nobody named'}, {beside.value.energy.supply_in_part && 'at least '}{figure(beside.value.energy.supply_kcal)} kcal. <b>{lead(beside.value)}</b>
        </span>
      )}
    </p>
  );
}

/** Everything that it shows. */
const madeOf = (c: Check): string =>
  `${JSON.stringify(c.parts, coarse)}${[...BALANCE_KEYS.map((key) => c.balance[key]), c.energy.grams_per_day, c.energy.kcal_per_kg].map((x) => figure(x)).join(' ')}`;

function Balance({ check: c }: { check: Check }) {
  const parts = Object.entries(c.parts)
    .filter((e): e is [PartKey, number] => typeof e[1] === 'number' && e[1] > 0)
    .sort((a, b) => b[1] - a[1]);
  return (
    <section class="made" aria-label="Balance and parts">
      <h2>
        Made of <small>{c.energy.grams_per_day !== null ? `${figure(c.energy.grams_per_day)} g a day, ${figure(c.energy.kcal_per_kg)} kcal per kg` : ''}</small>
      </h2>
      <ul class="parts">
        {parts.map(([key, share]) => (
          <li>
            <span>{PART_NAMES[key]}</span>
            <i class="meter" aria-hidden="true">
              <i style={{ width: `${share * 100}%` }} />
            </i>
            <b>{percent(share)}</b>
          </li>
        ))}
      </ul>
      <p class="list ratios">
        {BALANCE_KEYS.map((key) => (
          <span>
            {BALANCE_NAMES[key]} <b>{figure(c.balance[key])}</b>
          </span>
        ))}
      </p>
    </section>
  );
}
