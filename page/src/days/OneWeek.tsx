/** One animal's days: a small calendar, what averaging buys, and every nutrient's windows as a line against the allowance. */
import { useState } from 'preact/hooks';
import type { Week, WeekDay, WeekNutrient } from '../core/answers';
import { Fold } from '../Fold';
import { days as inDays, figure, percent } from '../words';
import { dayAt, heightOf, lettersOf, pathOf } from './chart';

const WEEK = 7;

const dayName = (d: WeekDay): string => d.date ?? d.weekday;
/** Of a day that is not known: nobody wrote, or it is written that nobody knows. */
const noEntry = (d: WeekDay): string => (d.menu ? 'unknown' : 'no entry');

export function OneWeek({ week: w, several }: { week: Week; several: boolean }) {
  const [day, setDay] = useState(-1);
  const name = w.animal?.name ?? null;
  return (
    <article class="one-week" aria-label={`Days of ${name ?? w.name ?? 'the bowl'}`}>
      {(several || name) && <h4>{name ?? w.name}</h4>}
      {w.refused && <p class="refused">{w.refused}</p>}
      {w.dangers.map((d) => (
        <p class="refused" role="alert">
          {d}
        </p>
      ))}
      {w.says && <p class="prose">{w.says}</p>}
      {w.assumed.map((a) => (
        <p class="hint">{a}</p>
      ))}
      <Calendar week={w} day={day} setDay={setDay} />
      <Nutrients week={w} />
    </article>
  );
}

/** On how many days, and which: in words. */
function failingWords(d: WeekDay, w: Week): string {
  if (!d.known) return d.menu ? 'nobody knows how much of it was eaten' : 'nobody wrote down what was eaten';
  const names = new Map(w.nutrients.map((n) => [n.key, n.name]));
  const always = new Set(w.nutrients.filter((n) => w.calendar.every((o) => !o.known || o.failing.includes(n.key))).map((n) => n.key));
  const own = d.failing.filter((k) => !always.has(k)).map((k) => names.get(k) ?? k);
  if (d.says) return d.says;
  return own.length === 0 ? 'nothing fails that does not fail on all days' : own.join(', ');
}

function Calendar({ week: w, day, setDay }: { week: Week; day: number; setDay: (i: number) => void }) {
  const { letter, menus } = lettersOf(w.calendar.map((d) => d.menu));
  const names = w.calendar.length > 0 ? ['Mon', 'Tue', 'Wed', 'Thu', 'Fri', 'Sat', 'Sun'] : [];
  const before = Math.max(0, names.indexOf(w.calendar[0]?.weekday ?? 'Mon'));
  const cells: (number | null)[] = [...Array<null>(before).fill(null), ...w.calendar.keys()];
  const rows = Array.from({ length: Math.ceil(cells.length / WEEK) }, (_, r) => cells.slice(r * WEEK, (r + 1) * WEEK));
  const always = new Set(w.nutrients.filter((n) => w.calendar.some((d) => d.known) && w.calendar.every((o) => !o.known || o.failing.includes(n.key))).map((n) => n.key));
  const chosen = w.calendar[day];
  return (
    <div class="calendar-place">
      <table class="calendar">
        <caption>
          {inDays(w.known_days)} known{w.days > w.known_days ? ` of ${w.days}` : ''}
          {w.days_failing !== null && `; on ${w.days_failing === 0 ? 'none' : w.days_failing} something fails that does not fail on all`}
          {w.repeats ? '; over and over' : ''}
        </caption>
        <thead>
          <tr>
            {names.map((n) => (
              <th scope="col">{n}</th>
            ))}
          </tr>
        </thead>
        <tbody>
          {rows.map((row) => (
            <tr>
              {Array.from({ length: WEEK }, (_, c) => row[c] ?? null).map((i) => {
                const d = i === null ? undefined : w.calendar[i];
                if (i === null || !d) return <td />;
                const fails = d.failing.filter((k) => !always.has(k)).length;
                return (
                  <td class={!d.known ? 'unknown-day' : fails > 0 ? 'failing' : ''}>
                    <button type="button" aria-pressed={day === i} onClick={() => setDay(day === i ? -1 : i)}>
                      {d.date && <small>{d.date.slice(8).replace(/^0/, '')}</small>}
                      <b aria-hidden="true">{d.known ? (letter.get(d.menu ?? '') ?? '') : '?'}</b>
                      <span class="kcal">{d.known ? `${figure(d.kcal === null ? null : Math.round(d.kcal))}` : ''}</span>
                      <span class="mark">{!d.known ? noEntry(d) : fails > 0 ? `${fails} fail` : d.uncounted ? '+ ?' : ''}</span>
                      <span class="unseen">
                        {dayName(d)}: {d.known ? `${d.menu ?? 'nothing'}, ${d.kcal === null ? 'energy not known' : `${Math.round(d.kcal)} kcal`}` : noEntry(d)}
                      </span>
                    </button>
                  </td>
                );
              })}
            </tr>
          ))}
        </tbody>
      </table>
      {chosen && (
        <p class="of-day" role="status">
          <b>{dayName(chosen)}</b>: {chosen.known ? (chosen.menu ?? 'nothing') : noEntry(chosen)}
          {chosen.uncounted ? ', and something that nobody can count' : ''}. {cap(failingWords(chosen, w))}.
        </p>
      )}
      {menus.length > 0 && (
        <ol class="menus" aria-label="What is fed">
          {menus.map((m) => (
            <li>
              <b aria-hidden="true">{letter.get(m)}</b> {m}
            </li>
          ))}
        </ol>
      )}
      <p class="hint">
        A letter is a menu, the figure its kcal. “4 fail”: so many needs fall short (or are passed) on that day and in a window that fails, and not on every other day too. Choose a day to see
        which.
      </p>
    </div>
  );
}

const cap = (s: string): string => s.charAt(0).toUpperCase() + s.slice(1);

// ---- the windows ----------------------------------------------------------------------------------------------------------

/** What the reader must look at; the others unfold. */
const UNFOLDED = new Set(['not-enough', 'short-anyway', 'helps']);

function Nutrients({ week: w }: { week: Week }) {
  const of = new Map(w.nutrients.map((n) => [n.key, n]));
  const groups = (w.groups ?? []).map((g) => ({ ...g, of: g.nutrients.map((k) => of.get(k)).filter((n) => n !== undefined) }));
  if (groups.every((g) => g.of.length === 0)) return null;
  return (
    <div class="windows">
      <p class="hint">
        One line a need: the mean of the window that begins on each day, against the allowance (the line across); small dots are single days. The scale goes from a quarter of the allowance to
        eight times it.
      </p>
      {groups.map(({ key, title, of }) =>
        of.length === 0 ? null : UNFOLDED.has(key) ? (
          <div class="group">
            <h4>
              {title} <small>{of.length}</small>
            </h4>
            {of.map((n) => (
              <WindowLine n={n} week={w} />
            ))}
          </div>
        ) : (
          <Fold
            name={`days-${key}`}
            class="folded group"
            print
            summary={
              <h4>
                {title} <small>{of.length}</small>
              </h4>
            }
          >
            {of.map((n) => (
              <WindowLine n={n} week={w} />
            ))}
          </Fold>
        ),
      )}
    </div>
  );
}

/** "62 % from Tue", the leanest window, or the richest where there is too much. */
function worst(n: WeekNutrient, w: Week): string {
  const at = n.too_much ? n.richest : n.leanest;
  if (!at) return 'no run of known days is long enough';
  const day = w.calendar[at.first];
  const share = at.amount === null ? 'not known' : at.ratio !== null ? percent(at.ratio) : `${figure(at.amount)} ${n.unit}`;
  const inPart = at.amount !== null && Array.from({ length: n.window_days }, (_, i) => n.by_day[(at.first + i) % w.days]).includes(null);
  return `${n.too_much ? 'richest' : 'leanest'} ${inPart ? 'at least ' : ''}${share}${day && n.window_days < w.days ? ` from ${dayName(day)}` : ''}`;
}

function WindowLine({ n, week: w }: { n: WeekNutrient; week: Week }) {
  const count = w.days;
  const base = n.allowance ?? n.minimum ?? n.upper;
  if (base === null) return null;
  const at = (x: number | null, i: number): readonly [number, number] | null => (x === null ? null : [dayAt(i, count), heightOf(x / base)]);
  const windows = n.by_window.map(at);
  const single = n.by_day.map(at);
  const words = `${worst(n, w)}; ${n.windows_failing} of ${n.windows} ${n.windows === 1 ? 'window fails' : 'windows fail'}${n.days_below === null ? '' : `; ${inDays(n.days_below)} below the allowance`}`;
  return (
    <figure class={`window-line ${n.verdict ?? ''}`}>
      <figcaption>
        <b>{n.name}</b> <small>{inDays(n.window_days)}</small>
        <span class="told">
          {worst(n, w)}
          {n.too_much ? ' · too much of it' : ''}
        </span>
      </figcaption>
      <svg role="img" aria-label={`${n.name}, windows of ${inDays(n.window_days)}: ${words}`} viewBox="0 0 100 100" preserveAspectRatio="none">
        <line class="allowance" x1="0" x2="100" y1={100 - heightOf(1)} y2={100 - heightOf(1)} />
        {n.upper !== null && n.upper !== base && <line class="upper" x1="0" x2="100" y1={100 - heightOf(n.upper / base)} y2={100 - heightOf(n.upper / base)} />}
        <path class="singles" d={single.map((p) => (p ? `M${p[0]} ${100 - p[1]}l0.01 0` : '')).join('')} />
        <path class="mean" d={pathOf(windows)} />
      </svg>
    </figure>
  );
}

