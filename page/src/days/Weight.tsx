/** The weight with its band, the animal's own need, and a weight plan where there is too much of it. */
import { useState } from 'preact/hooks';
import type { Slim, Trend } from '../core/answers';
import { Fold } from '../Fold';
import { unfolded } from '../view';
import { addText, write } from '../texts';
import { animals, animalsBody, recipe, tell } from '../state';
import { complaintsInWords, nameOf } from '../writing/text';
import { figure } from '../words';
import { DRAWN_DAYS, held, slim, slimBowl, trend, weighing, weightComplaints, who } from './ask';
import { areaOf, dayNumber, pathOf, ticks } from './chart';
import { Who } from './Weeks';

export function Weight() {
  const t = trend.value;
  if ((held.value?.animals.length ?? 0) === 0) return null;
  const older = weighing.value ? 'old' : '';
  const why = weightComplaints.value.find((c) => c.level === 'error');
  return (
    <section class="weight" aria-labelledby="weight-title">
      <h3 id="weight-title">
        The weight{' '}
        <small>
          <Who />
        </small>
      </h3>
      {!t && weighing.value && (
        <p class="hint" role="status">
          Working out the weight …
        </p>
      )}
      {!t && !weighing.value && why && (
        <p class="hint">
          {why.text === 'journal' && why.line > 0 ? `The weight is drawn as soon as line ${why.line} of the journal is understood.` : complaintsInWords([why])}
        </p>
      )}
      <div class={older} aria-busy={weighing.value}>
        {t && <TrendOf t={t} />}
        {slim.value && <SlimOf key={who.value} s={slim.value} />}
      </div>
    </section>
  );
}

function TrendOf({ t }: { t: Trend }) {
  return (
    <>
      {t.refused && <p class="refused">{t.refused}</p>}
      {[t.says, t.says_need, t.says_eaten, t.says_ahead].filter(Boolean).map((words) => (
        <p class="prose">{words}</p>
      ))}
      {t.surer && t.need_kcal?.mean != null && <TakeNeed name={t.animal.name ?? ''} kcal={Math.round(t.need_kcal.mean)} />}
      <Chart t={t} />
      {t.remarks.length > 0 && (
        <ul class="remarks">
          {t.remarks.map((r) => (
            <li class={`finding of-${r.weight}`}>{r.text}</li>
          ))}
        </ul>
      )}
    </>
  );
}

/** Stated in the animal's own text, it is what every bowl is measured against. */
function TakeNeed({ name, kcal }: { name: string; kcal: number }) {
  const lines = animalsBody.value.split('\n');
  const from = lines.findIndex((l) => l.trim().toLowerCase() === `animal: ${name.toLowerCase()}`);
  const next = lines.findIndex((l, i) => i > from && /^\s*animal:/i.test(l));
  const end = next < 0 ? lines.length : next;
  const at = lines.findIndex((l, i) => i > from && i < end && /^\s*energy:/i.test(l));
  const line = `Energy: ${kcal} kcal/day   # its own need, from the journal`;
  const a = animals.value;
  if (from < 0 || !a || lines[at] === line) return null;
  const take = (): void => {
    write(a.id, [...lines.slice(0, at < 0 ? from + 1 : at), line, ...lines.slice(at < 0 ? from + 1 : at + 1)].join('\n'), true);
    tell({ id: 'need', words: `${name}’s text states ${kcal} kcal a day now: every bowl is measured against that. An earlier version has it as it was.` });
  };
  return (
    <p class="no-print">
      <button type="button" class="deed" onClick={take}>
        Measure bowls against {kcal} kcal
      </button>
    </p>
  );
}

// ---- the drawing --------------------------------------------------------------------------------------------------------

const MONTH = new Intl.DateTimeFormat('en-GB', { day: 'numeric', month: 'short', timeZone: 'UTC' });
const said = (date: string): string => MONTH.format(new Date(`${date}T00:00:00Z`));

function Chart({ t }: { t: Trend }) {
  const last = t.forecast[t.forecast.length - 1]?.date ?? t.days[t.days.length - 1]?.date;
  if (!last || t.days.length === 0) return null;
  const end = dayNumber(last);
  const days = t.days.filter((d) => dayNumber(d.date) >= end - DRAWN_DAYS);
  const begin = dayNumber(days[0]!.date);
  const readings = t.readings.filter((r) => dayNumber(r.date) >= begin);
  const bounds = [
    ...days.flatMap((d) => [d.low_kg, d.high_kg]),
    ...readings.filter((r) => !r.outlier).map((r) => r.kg),
    ...t.forecast.flatMap((f) => [f.low_kg, f.high_kg]),
  ].filter((x): x is number => x !== null);
  const [low, high] = [Math.min(...bounds), Math.max(...bounds)];
  const room = Math.max(0.005 * high, 0.06 * (high - low));
  const y = (kg: number): number => Math.min(100, Math.max(0, (100 * (kg - low + room)) / (high - low + 2 * room)));
  const x = (date: string): number => (100 * (dayNumber(date) - begin)) / Math.max(1, end - begin);
  const band = (list: { date: string; low_kg: number | null; high_kg: number | null }[]): string =>
    areaOf(list.flatMap((d) => (d.low_kg === null || d.high_kg === null ? [] : [{ x: x(d.date), low: y(d.low_kg), high: y(d.high_kg) }])));
  const line = (list: { date: string; kg: number | null }[]): string => pathOf(list.map((d) => (d.kg === null ? null : [x(d.date), y(d.kg)])));
  const now = t.weight_kg;
  const outliers = readings.filter((r) => r.outlier);
  const ahead = t.forecast[t.forecast.length - 1];
  const words =
    `Weight from ${days[0]!.date} to ${t.until}` +
    (now ? `: now ${figure(now.mean)} kg, nine times in ten between ${figure(now.low)} and ${figure(now.high)} kg` : '') +
    `; ${readings.length} weighings${outliers.length > 0 ? `, ${outliers.length} far off` : ''}` +
    (ahead ? `; on ${ahead.date} between ${figure(ahead.low_kg)} and ${figure(ahead.high_kg)} kg` : '');
  const marks = ticks(low - room, high + room, 4);
  return (
    <figure class="weight-chart">
      <div class="plot">
        <svg role="img" aria-label={words} viewBox="0 0 100 100" preserveAspectRatio="none">
          {marks.map((m) => (
            <line class="grid" x1="0" x2="100" y1={100 - y(m)} y2={100 - y(m)} />
          ))}
          <path class="band" d={band(days)} />
          <path class="ahead" d={band(t.forecast)} />
          <path class="edge" d={pathOf(t.forecast.map((f) => (f.low_kg === null ? null : [x(f.date), y(f.low_kg)])))} />
          <path class="edge" d={pathOf(t.forecast.map((f) => (f.high_kg === null ? null : [x(f.date), y(f.high_kg)])))} />
          <path class="mean" d={line(days)} />
          <path class="mean later" d={line(t.forecast)} />
          <line class="today" x1={x(t.until)} x2={x(t.until)} y1="0" y2="100" />
          <path class="readings" d={readings.filter((r) => !r.outlier).map((r) => `M${x(r.date)} ${100 - y(r.kg)}l0.01 0`).join('')} />
        </svg>
        {outliers.map((r) => (
          <span class="outlier" style={{ left: `${x(r.date)}%`, bottom: `${y(r.kg)}%` }} title={`${r.date}: ${figure(r.kg)} kg`} aria-hidden="true">
            ×
          </span>
        ))}
        {marks.map((m) => (
          <span class="kg" style={{ bottom: `${y(m)}%` }} aria-hidden="true">
            {m}
          </span>
        ))}
      </div>
      <p class="dates" aria-hidden="true">
        <span>{said(days[0]!.date)}</span>
        <span>{said(last)}</span>
      </p>
      <figcaption class="hint">
        kg. Dots: what the scale said; × far off, kept and hardly counted. Line and band: the animal’s own weight, nine times in ten within the band. Dashed: what comes next, if it goes on like
        this.
      </figcaption>
      <Fold name="weighings" summary={`The weighings as a list (${readings.length})`}>
        {unfolded.value.has('weighings') && (
        <table class="weighings">
          <thead>
            <tr>
              <th scope="col">day</th>
              <th scope="col">the scale</th>
              <th scope="col">off the line</th>
            </tr>
          </thead>
          <tbody>
            {[...readings].reverse().map((r) => (
              <tr>
                <th scope="row">{r.date}</th>
                <td>{figure(r.kg)} kg</td>
                <td>
                  {r.off_kg < 0 ? '−' : '+'}
                  {Math.round(1000 * Math.abs(r.off_kg))} g
                  {r.outlier ? ' (far off)' : ''}
                </td>
              </tr>
            ))}
          </tbody>
        </table>
        )}
      </Fold>
    </figure>
  );
}

// ---- a weight plan ---------------------------------------------------------------------------------------------------------

function SlimOf({ s }: { s: Slim }) {
  const [working, setWorking] = useState('');
  if (s.status === null || s.status === 'not-needed' || s.status === 'a-little') return s.says && s.status ? <p class="hint">{s.says}</p> : null;
  const r = recipe.value;
  const mend = async (): Promise<void> => {
    setWorking('Looking for the smallest change that meets every allowance at the lower energy …');
    const told = await slimBowl();
    const text = told?.answer?.text;
    if (text) {
      await addText('recipe', text);
      setWorking('The mended bowl is a new recipe now.');
    } else if (told?.answer?.already_met) setWorking('Fed at that energy, this bowl meets every allowance as it is.');
    else setWorking((told && complaintsInWords(told.complaints)) || 'No change of this bowl meets every allowance at that energy; mend or compose may say what would help.');
  };
  return (
    <div class="slim">
      <h4>A weight plan</h4>
      {s.says && <p class="prose">{s.says}</p>}
      {s.weighings.length > 0 && (
        <table class="weighings">
          <caption class="unseen">Days to weigh, what to feed from then on, and the weight to expect</caption>
          <thead>
            <tr>
              <th scope="col">weigh on</th>
              <th scope="col">feed, kcal a day</th>
              <th scope="col">expect, kg</th>
              <th scope="col">too light below, kg</th>
            </tr>
          </thead>
          <tbody>
            {s.weighings.map((w) => (
              <tr>
                <th scope="row">{w.date}</th>
                <td>{Math.round(w.kcal)}</td>
                <td>
                  {figure(w.kg)} <small>({figure(w.low_kg)} to {figure(w.high_kg)})</small>
                </td>
                <td>{figure(w.too_light_kg)}</td>
              </tr>
            ))}
          </tbody>
        </table>
      )}
      {s.meanwhile.length > 0 && (
        <ul class="told-list">
          {s.meanwhile.map((m) => (
            <li>{m}</li>
          ))}
        </ul>
      )}
      {s.stop.length > 0 && (
        <>
          <h4>When to stop and see the vet</h4>
          <ul class="told-list">
            {s.stop.map((m) => (
              <li>{m}</li>
            ))}
          </ul>
        </>
      )}
      {r && s.status === 'found' && (
        <p class="no-print">
          <button type="button" class="deed" onClick={() => void mend()}>
            Mend {nameOf(r)} for it
          </button>
        </p>
      )}
      {working && <p role="status">{working}</p>}
    </div>
  );
}
