/** The journal: one line to write in, with what may come next, and what stands in it already. */
import { useEffect, useRef, useState } from 'preact/hooks';
import type { Complaint, EntryAnswer, JournalFact } from '../core/answers';
import { said } from '../state';
import type { Text } from '../store/store';
import { showText, write } from '../texts';
import { selectInField } from '../writing/field-edit';
import { lineAt, rangeOf, remediesOf } from '../writing/text';
import { addLine, held, inPart, journal, journalAsked, suggest, trouble } from './ask';
import { beginWithExample } from './example';

const DAYS_FIRST = 5;
const DAYS_MORE = 30;

export function Journal() {
  const [line, setLine] = useState('');
  const input = useRef<HTMLInputElement>(null);
  const put = (text: string): void => {
    setLine(text);
    input.current?.focus();
  };
  return (
    <section class="journal" aria-labelledby="journal-title">
      <h3 id="journal-title">The journal</h3>
      {trouble.value !== '' && <p role="alert">The days cannot be worked out just now: {trouble.value}.</p>}
      <Entry line={line} setLine={setLine} input={input} />
      <Facts correct={(f) => put(`${f.date} ${f.animal} correction: ${f.says.replace(/^correction: /, '')}`)} />
    </section>
  );
}

// ---- one line -----------------------------------------------------------------------------------------------------------

interface EntryProps {
  line: string;
  setLine: (line: string) => void;
  input: preact.RefObject<HTMLInputElement>;
}

function Entry({ line, setLine, input }: EntryProps) {
  const [told, setTold] = useState<{ of: string; answer: EntryAnswer; complaints: Complaint[] } | null>(null);
  const [active, setActive] = useState(-1);
  const [shown, setShown] = useState(false);
  /** The line that was sent off before the core had looked at it. */
  const wanted = useRef('');
  const body = journal.value?.body;
  useEffect(() => {
    let alive = true;
    void suggest(line).then((t) => {
      if (!alive || !t?.answer) return;
      setTold({ of: line, answer: t.answer, complaints: t.complaints });
      setActive(-1);
    });
    return () => {
      alive = false;
    };
  }, [line, body]);
  const now = told?.of === line ? told : null;
  const offers = shown ? (now?.answer.offers ?? []) : [];
  const whole = now?.answer.line ?? null;
  useEffect(() => {
    if (shown && offers.length > 0 && line !== '') said.value = `${offers.length} offered, arrow down to choose`;
  }, [now]);
  const take = (i: number): void => {
    const o = offers[i];
    if (!o) return;
    setLine(o.write);
    setActive(-1);
    input.current?.focus();
  };
  const add = (): void => {
    wanted.current = now ? '' : line;
    if (!whole) return;
    addLine(whole);
    said.value = `Written: ${whole}`;
    setLine('');
    input.current?.focus();
  };
  useEffect(() => {
    if (whole && wanted.current === line) add();
  }, [now]);
  const key = (e: KeyboardEvent): void => {
    if (e.key === 'ArrowDown' || e.key === 'ArrowUp') {
      if (!shown) return setShown(true);
      if (offers.length === 0) return;
      e.preventDefault();
      const step = e.key === 'ArrowDown' ? 1 : -1;
      setActive((active + step + offers.length + 1) % (offers.length + 1) === offers.length ? -1 : (active + step + offers.length + 1) % (offers.length + 1));
    } else if (e.key === 'Escape' && offers.length > 0) {
      e.preventDefault();
      setShown(false);
    } else if (e.key === 'Enter') {
      e.preventDefault();
      if (active >= 0) take(active);
      else add();
    }
  };
  return (
    <div class="entry no-print">
      <label for="entry">A new line: who ate what, what was left, what the scale said</label>
      <div class="entry-line">
        <input
          id="entry"
          ref={input}
          type="text"
          value={line}
          autoComplete="off"
          autoCapitalize="off"
          spellcheck={false}
          placeholder="Juniper ate 430 g Weeknight bowl"
          role="combobox"
          aria-expanded={offers.length > 0}
          aria-controls="entry-offers"
          aria-autocomplete="list"
          aria-activedescendant={active >= 0 ? `entry-offer-${active}` : undefined}
          aria-describedby="entry-says"
          onInput={(e) => (setLine(e.currentTarget.value), setShown(true))}
          onFocus={() => setShown(true)}
          onBlur={() => setTimeout(() => setShown(false), 150)}
          onKeyDown={key}
        />
        <button type="button" class="deed" disabled={!whole} onClick={add}>
          Add
        </button>
        <ul class="offers" id="entry-offers" role="listbox" aria-label="What may come next" hidden={offers.length === 0}>
          {offers.map((o, i) => (
            <li
              id={`entry-offer-${i}`}
              role="option"
              aria-selected={i === active}
              onPointerDown={(e) => {
                e.preventDefault();
                take(i);
              }}
            >
              <span>{o.label}</span>
              {o.detail && <small>{o.detail}</small>}
            </li>
          ))}
        </ul>
      </div>
      <div id="entry-says" class="entry-says" role="status">
        {whole && <p>Will be in the journal as “{whole}”.</p>}
        {(now?.complaints ?? []).map((c) => (
          <p class={c.level}>
            {sentence(c.message)}
            {remediesOf(c, [line]).map((r) => (
              <button
                type="button"
                class="remedy"
                onClick={() => {
                  setLine(line.slice(0, r.from) + r.write + line.slice(r.to));
                  input.current?.focus();
                }}
              >
                {r.words}
              </button>
            ))}
          </p>
        ))}
      </div>
    </div>
  );
}

const sentence = (words: string): string => words.charAt(0).toUpperCase() + words.slice(1) + (/[.?!]$/.test(words) ? '' : '.');

// ---- what stands in it ---------------------------------------------------------------------------------------------------

const WEEKDAY = new Intl.DateTimeFormat('en-GB', { weekday: 'short', day: 'numeric', month: 'short', year: 'numeric', timeZone: 'UTC' });

function byDay(facts: JournalFact[]): [string, JournalFact[]][] {
  const days = new Map<string, JournalFact[]>();
  for (const f of facts) days.set(f.date, [...(days.get(f.date) ?? []), f]);
  return [...days];
}

/** The whole text, with what the complaint is about. */
function showLine(text: Text, c: Complaint): void {
  const [from, to] = rangeOf(lineAt(text.body, c.line), c);
  showText(text.id);
  requestAnimationFrame(() => selectInField(c.line, from, to));
}

function repair(text: Text, c: Complaint, i: number): void {
  const r = remediesOf(c, text.body.split('\n'))[i];
  if (r) write(text.id, text.body.slice(0, r.from) + r.write + text.body.slice(r.to), true);
}

function Facts({ correct }: { correct: (f: JournalFact) => void }) {
  const [most, setMost] = useState(DAYS_FIRST);
  const facts = held.value?.facts ?? [];
  const text = journal.value;
  if (!text || (facts.length === 0 && text.body.trim() === ''))
    return (
      <p class="hint">
        Nothing is written down yet. A line says one thing: “Pim weighs 4.6 kg”, “yesterday Juniper left 60 g”. A day without a line is not known, and never counts as a day without food.{' '}
        <button type="button" class="quiet no-print" onClick={() => void beginWithExample()}>
          Begin with the Saltmarsh household’s
        </button>
      </p>
    );
  /* Enough of a long journal for the days that are shown. */
  const days = byDay(facts.slice(0, most * 40)).slice(0, most);
  /* What is not understood before what is only asked about. */
  const asked = [...journalAsked.value].sort((a, b) => Number(b.level === 'error') - Number(a.level === 'error'));
  return (
    <>
      {inPart.value && (
        <p class="hint reading-on" role="status">
          The newest days; the rest of the journal is being read …
        </p>
      )}
      {asked.length > 0 && (
        <ul class="complaints" aria-label="What the journal is asked about">
          {asked.slice(0, 6).map((c) => (
            <li class={c.level}>
              {c.line > 0 && (
                <button type="button" class="to-line no-print" onClick={() => showLine(text, c)}>
                  Line {c.line}:
                </button>
              )}{' '}
              {sentence(c.message)}
              {c.fix.map((f, i) => (
                <button type="button" class="remedy no-print" onClick={() => repair(text, c, i)}>
                  {f.label}
                </button>
              ))}
            </li>
          ))}
          {asked.length > 6 && <li>{asked.length - 6} more; they are beside the text.</li>}
        </ul>
      )}
      <dl class="facts">
        {days.map(([date, of]) => (
          <div>
            <dt>
              <time dateTime={date}>{WEEKDAY.format(new Date(`${date}T00:00:00Z`))}</time>
            </dt>
            {of.map((f) => (
              <dd class={f.replaced ? 'replaced' : ''}>
                <span>
                  {f.replaced ? (
                    <del>
                      <b>{f.animal}</b> {f.says}
                    </del>
                  ) : (
                    <>
                      <b>{f.animal}</b> {f.says}
                    </>
                  )}
                  {f.asked && <em> is this right?</em>}
                  {f.remark && <small> {f.remark}</small>}
                </span>
                {!f.replaced && (
                  <button type="button" class="quiet no-print" onClick={() => correct(f)}>
                    correct
                    <span class="unseen">
                      {' '}
                      {f.date} {f.animal} {f.says}
                    </span>
                  </button>
                )}
              </dd>
            ))}
          </div>
        ))}
      </dl>
      <p class="no-print">
        {days.length >= most && !inPart.value && (
          <button type="button" class="quiet" onClick={() => setMost(most + DAYS_MORE)}>
            earlier days
          </button>
        )}{' '}
        <button
          type="button"
          class="quiet"
          onClick={() => {
            showText(text.id);
            document.getElementById('writing')?.scrollIntoView();
            document.getElementById('field')?.focus();
          }}
        >
          the whole text
        </button>
      </p>
    </>
  );
}
