/** The rails: one line a nutrient, all aligned on one vertical line, the allowance. */
import { proposed } from '../acts';
import { signal } from '@preact/signals';
import type { Check, Nutrient } from '../core/answers';
import { answer, beside, besideId, check, choice, recipe, recipeBody, review, texts, trouble } from '../state';
import { holdsNoFood, titleOf } from '../writing/text';
import { days, figure, list, percent, sentence, within } from '../words';
import { groupsOf, MARKS, place, railOf, type Group } from './scale';

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
  return answer.value.complaints.some((c) => c.text === 'animals' && c.level === 'error') && !holdsNoFood(recipeBody.value) ? (
    <p class="hint">As soon as the animal is known, it is read here.</p>
  ) : (
    <p class="hint">As soon as one line of the recipe is understood, it is read here. Write one food a line, such as “200 g lamb heart”.</p>
  );
}

function Rails({ check: c }: { check: Check }) {
  const groups = groupsOf(c.nutrients, proposed.value !== null ? (beside.value?.nutrients ?? null) : null);
  const left = answer.value?.left_out ?? [];
  const stale = answer.value !== null && answer.value.check === null;
  return (
    <>
      {stale && <p class="stale">The last reading; the text as it stands cannot be read.</p>}
      {left.length > 0 && (
        <p class="stale">
          Read without {left.length === 1 ? 'line' : 'lines'} {list(left.map(String))}, which {left.length === 1 ? 'is' : 'are'} not understood yet.
        </p>
      )}
      <Dangers />
      {c.refused && (
        <div class="refused" role="note">
          <p>{c.refused.text}</p>
          <p>{c.refused.ask}</p>
        </div>
      )}
      <div class={`rails${stale ? ' old' : ''}${proposed.value !== null ? ' two' : ''}${c.verdicts && groups.length > 0 ? '' : ' bare'}`} onKeyDown={walk}>
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
        {c.verdicts && groups.length > 0 ? (
          groups.map((g) =>
            (g.verdict === 'met' && !g.repaired) || g.verdict === 'no figure' ? (
              <Folded key={g.verdict} group={g} />
            ) : (
              <section class="group" key={g.title} aria-label={`${g.title}: ${g.words}`}>
                <h2>
                  {g.title} <small>{g.words}</small>
                </h2>
                <Rows rows={g.rows} />
              </section>
            ),
          )
        ) : (
          <section class="group" aria-label="What it holds">
            <h2>
              Holds <small>no verdict is given</small>
            </h2>
            <Rows rows={c.nutrients.filter((n) => n.amount !== null)} />
          </section>
        )}
      </div>
      <Beside />
      <Balance check={c} />
    </>
  );
}

/** What must not be fed stands before every number, wherever the reasons are: on a phone they are far below. */
function Dangers() {
  return (
    <>
      {review.value.filter((f) => f.danger).map((f) => (
        <p key={f.text} class="refused" role="note">
          {f.text}
        </p>
      ))}
    </>
  );
}

/** The groups that have been unfolded: they stay so while the text changes. */
const unfolded = signal<ReadonlySet<string>>(new Set());

/** Its rails are drawn only while they are seen: they are the most of them, and each costs time with every keystroke. */
function Folded({ group: g }: { group: Group }) {
  const open = unfolded.value.has(g.verdict);
  const toggle = (now: boolean): void => {
    if (now === open) return;
    const next = new Set(unfolded.value);
    if (now) next.add(g.verdict);
    else next.delete(g.verdict);
    unfolded.value = next;
  };
  return (
    <details class="group folded" open={open} onToggle={(e) => toggle(e.currentTarget.open)}>
      <summary>
        <h2>
          {g.title} <b>{g.rows.length}</b> <small>{g.words}</small>
        </h2>
        <span class="names">{g.rows.map((n) => within(n.name)).join(', ')}</span>
      </summary>
      {open && <Rows rows={g.rows} />}
    </details>
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

function Row({ n }: { n: Nutrient }) {
  const chosen = choice.value.kind === 'nutrient' && choice.value.key === n.key;
  const other = beside.value?.nutrients.find((o) => o.key === n.key) ?? null;
  return (
    <li>
      <button
        type="button"
        class={`rail ${(n.verdict ?? 'none').replace(' ', '-')}${chosen ? ' chosen' : ''}`}
        aria-pressed={chosen}
        data-key={n.key}
        onClick={() => {
          choice.value = chosen ? { kind: 'none' } : { kind: 'nutrient', key: n.key };
          if (!chosen) bringReasons();
        }}
      >
        <span class="name">
          {n.name} <small title={`may average over ${days(n.window_days)}`}>{n.window_days} d</small>
        </span>
        <RailDrawing n={n} other={other} />
        <span class="figures">
          {proposed.value !== null && other && figure(other.amount) !== figure(n.amount) && <s>{figure(other.amount)} → </s>}
          <b>{figure(n.amount)}</b> {n.verdict === 'over' && n.upper !== null ? `limit ${figure(n.upper, 2)} ` : n.allowance !== null ? `of ${figure(n.allowance)} ` : ''}
          {n.unit}
        </span>
        <span class="unseen">{sentence(n)}</span>
      </button>
    </li>
  );
}

/** On a narrow page the reasons stand far below: take the reader there. */
export function bringReasons(): void {
  if (window.matchMedia('(max-width: 1099px)').matches)
    requestAnimationFrame(() => document.getElementById('reasons')?.scrollIntoView({ block: 'start' }));
}

export function RailDrawing({ n, other }: { n: Nutrient; other: Nutrient | null }) {
  const r = railOf(n);
  if (!r) return <span class="no-rail" />;
  const o = other ? railOf({ ...other, allowance: other.allowance ?? n.allowance }) : null;
  return (
    <svg class="drawing" aria-hidden="true" width="100%" height="26">
      <line class="ground" x1="0" x2="100%" y1="13" y2="13" />
      {r.band && <rect class="spread" x={`${r.band[0]}%`} width={`${r.band[1] - r.band[0]}%`} y="10" height="6" rx="3" />}
      {r.hatched && (
        <rect class="unknown" x={`${r.hatched[0]}%`} width={`${r.hatched[1] - r.hatched[0]}%`} y="8" height="10" fill="url(#hatching)" />
      )}
      {r.minimum !== null && n.minimum !== null && <line class="minimum" x1={`${r.minimum}%`} x2={`${r.minimum}%`} y1="8" y2="18" />}
      <line class="allowance" x1={`${place(1)}%`} x2={`${place(1)}%`} y1="-1" y2="33" />
      {r.upper !== null && r.upperEnd === 'inside' && (
        <svg x={`${r.upper}%`} y="0" overflow="visible">
          <path class={n.upper_greater_than ? 'limit tested' : 'limit'} d="M-3 7.5 L2 13 L-3 18.5" />
        </svg>
      )}
      {o && (
        <svg x={`${o.mark}%`} y="0" overflow="visible">
          <path class="other" d="M0 6 L5 13 L0 20 L-5 13 Z" />
        </svg>
      )}
      {r.leanest !== null && (
        <svg x={`${r.leanest}%`} y="0" overflow="visible">
          <path class="leanest" d="M0 8.5 L4 13 L0 17.5 L-4 13 Z" />
        </svg>
      )}
      {r.markEnd === 'inside' ? (
        <circle class="mark" cx={`${r.mark}%`} cy="13" r="4.6" />
      ) : (
        <svg x={`${r.mark}%`} y="0" overflow="visible">
          <path class="mark" d={r.markEnd === 'below' ? 'M0 13 L8 8 L8 18 Z' : 'M0 13 L-8 8 L-8 18 Z'} />
        </svg>
      )}
    </svg>
  );
}

function Beside() {
  if (proposed.value !== null) return null;
  const others = texts.value.filter((t) => t.kind === 'recipe' && t.id !== recipe.value?.id);
  if (others.length === 0) return null;
  return (
    <p class="beside no-print">
      <label class="as-text">
        Beside it:{' '}
        <select value={besideId.value} onChange={(e) => (besideId.value = e.currentTarget.value)}>
          <option value="">no other recipe</option>
          {others.map((t) => (
            <option value={t.id}>{titleOf(t.kind, t.body)}</option>
          ))}
        </select>
      </label>
      {beside.value && (
        <span class="legend">
          <svg width="12" height="14" aria-hidden="true">
            <path class="other" d="M6 1 L11 7 L6 13 L1 7 Z" />
          </svg>{' '}
          {beside.value.recipe.name || 'the other'} for {beside.value.animal?.name ?? 'nobody named'}, {figure(beside.value.energy.supply_kcal)} kcal
        </span>
      )}
    </p>
  );
}

const RATIOS = [
  ['ca_p', 'calcium : phosphorus'],
  ['zn_cu', 'zinc : copper'],
  ['n6_n3', 'omega-6 : omega-3'],
  ['k_na', 'potassium : sodium'],
  ['phytate_zn', 'phytate : zinc'],
] as const;
const PARTS: Record<string, string> = {
  muscle: 'muscle meat',
  organ_liver: 'liver',
  organ_secreting: 'other organs',
  bone: 'bone',
  plant: 'plants',
  fish: 'fish',
  egg: 'egg',
  dairy: 'dairy',
  fat_oil: 'fat and oil',
  supplement: 'supplements',
  other: 'other',
};

function Balance({ check: c }: { check: Check }) {
  const parts = Object.entries(c.parts)
    .filter((e): e is [string, number] => typeof e[1] === 'number' && e[1] > 0)
    .sort((a, b) => b[1] - a[1]);
  let left = 0;
  return (
    <section class="made" aria-label="Balance and parts">
      <h2>
        Made of <small>{c.energy.grams_per_day !== null ? `${figure(c.energy.grams_per_day)} g a day, ${figure(c.energy.kcal_per_kg)} kcal per kg` : ''}</small>
      </h2>
      <div class="parts" aria-hidden="true">
        {parts.map(([, share], i) => {
          const x = left;
          left += share * 100;
          return <div class={`part p${i % 7}`} style={{ left: `${x}%`, width: `${share * 100}%` }} />;
        })}
      </div>
      <p class="list">
        {parts.map(([key, share], i) => (
          <span>
            <i class={`part p${i % 7}`} /> {PARTS[key] ?? key} {percent(share)}
          </span>
        ))}
      </p>
      <p class="list ratios">
        {RATIOS.map(([key, name]) => (
          <span>
            {name} <b>{figure(c.balance[key] as number | null)}</b>
          </span>
        ))}
      </p>
    </section>
  );
}
