/** The text field. A real one, never rewritten behind the writer's back: what is drawn (underlines, faint remarks, the margin)
 * lies in a second layer with the same letters in the same places. */
import { computed } from '@preact/signals';
import { Component } from 'preact';
import { useEffect, useLayoutEffect, useRef, useState } from 'preact/hooks';
import type { Complaint, Line, TextLine } from '../core/answers';
import { answer, check, choice, complaints, core, open, openComplaints, openKind, pasted, recipeIsOpen, review, said, shelf, shelves, tell } from '../state';
import { step, write } from '../texts';
import { choose, close, linesOf, stale } from '../view';
import { figure, grams } from '../words';
import { OpenChoices } from './Choices';
import { putCaret, replaceInField, setField } from './field-edit';
import { holdsNoFood, indexOf, piecesOf } from './text';
import { textLines } from '../core/here';

/** Beyond this the second layer is left away, so that a book pasted by mistake does not stop the page. */
const MOST_LINES = 600;
const MOST_LETTERS = 60_000;
/** Browsers take longer and longer for a paste of many lines (Chromium half a minute for 1500), and the core reads no more
 * lines than this: it is better to say no. */
const MOST_PASTED_LINES = 500;

/** As much as the program keeps of one text (docs/internals/page-storage.md). */
const MOST_JOURNAL_LETTERS = 4_000_000;

/** Years of a journal in one paste: put into the text itself, for the field would take minutes. Undo knows of it as of everything. */
function pasteLong(id: string, a: HTMLTextAreaElement, words: string): void {
  const [from, to] = [a.selectionStart, a.selectionEnd];
  write(id, a.value.slice(0, from) + words + a.value.slice(to), true);
  putCaret(id, from + words.length);
}

interface Offer {
  key: string;
  main: string;
  detail: string;
  from: number;
  to: number;
  write: string;
}
interface Offers {
  line: number;
  items: Offer[];
  /** The text that they were offered for. */
  body: string;
}

function lineOf(body: string, caret: number): { number: number; start: number; text: string } {
  const start = body.lastIndexOf('\n', caret - 1) + 1;
  const end = body.indexOf('\n', caret);
  return { number: body.slice(0, start).split('\n').length, start, text: body.slice(start, end < 0 ? body.length : end) };
}

export function Field() {
  const text = open.value;
  const area = useRef<HTMLTextAreaElement>(null);
  const rows = useRef<HTMLDivElement>(null);
  const [offers, setOffers] = useState<Offers | null>(null);
  /* Foods that were asked for and are not wanted any more: put away before they came. */
  const asked = useRef(0);
  const putAway = (): void => {
    asked.current++;
    setOffers(null);
  };
  const [active, setActive] = useState(-1);
  /* What is seen just now, for answers that come later. */
  const seen = useRef<{ offers: Offers | null; active: number }>({ offers, active });
  seen.current = { offers, active };
  const [caretLine, setCaretLine] = useState(0);
  const [spot, setSpot] = useState<Spot>({});
  const list = useRef<HTMLUListElement>(null);
  useEffect(() => {
    setField(area.current, text?.id ?? '');
    return () => setField(null, '');
  });
  useEffect(() => setOffers(null), [text?.id]);
  useLayoutEffect(() => {
    if (!offers) return;
    const row = rows.current?.children[offers.line - 1] as HTMLElement | undefined;
    if (row && list.current) setSpot(spotFor(row, list.current));
  }, [offers]);
  useEffect(() => {
    const moved = (): void => {
      const a = area.current;
      if (!a || document.activeElement !== a) return;
      const { number } = lineOf(a.value, a.selectionStart);
      setCaretLine(number);
      setOffers((o) => (o && o.line !== number ? null : o)); /* they are about the line that was left */
    };
    document.addEventListener('selectionchange', moved);
    return () => document.removeEventListener('selectionchange', moved);
  }, []);
  if (!text) return null;

  const body = text.body;
  const lines = body.split('\n');
  const plain = lines.length > MOST_LINES || body.length > MOST_LETTERS;
  const isRecipe = text.kind === 'recipe';
  const are = plain ? [] : textLines(text.kind, body).lines;
  const byLine = new Map<number, Complaint[]>();
  if (!holdsNoFood(body, text.kind)) for (const c of openComplaints.value) byLine.set(c.line, [...(byLine.get(c.line) ?? []), c]);
  const read = new Map<number, Line>();
  /* The last reading of a text that cannot be read now: its lines may have moved or gone. */
  const stale = answer.value?.check === null;
  if (isRecipe && check.value) for (const l of check.value.recipe.lines) if (!stale || lines[l.line - 1]?.includes(l.text)) read.set(l.line, l);

  const kcals = new Map((isRecipe ? (check.value?.energy.from ?? []) : []).map((f) => [f.line, f.amount]));

  const pins = new Map<string, string>();
  if (text.kind === 'foods')
    for (const f of shelf.value[shelves.value.findIndex((t) => t.id === text.id)]?.foods ?? []) pins.set(f.name, f.food);

  const suggest = (): void => {
    const a = area.current;
    if (!a || !isRecipe || a.selectionStart !== a.selectionEnd) return setOffers(null);
    const here = lineOf(a.value, a.selectionStart);
    const column = a.selectionStart - here.start;
    const typed = a.value;
    const mine = ++asked.current;
    core.suggest(here.text).then(
      (s) => {
        if (!s || area.current?.value !== typed || asked.current !== mine) return;
        if (document.activeElement !== a || lineOf(typed, a.selectionStart).number !== here.number) return setOffers(null);
        const from = indexOf(here.text, s.column);
        const to = indexOf(here.text, s.column + s.width);
        if (s.column === 0 || s.pinned || column < from || column > to + 1) return setOffers(null);
        const words = here.text.slice(from, to).toLowerCase().trim();
        /* What is written is an everyday name already, and none goes on from there: nothing is in doubt. */
        if (s.names.some((n) => n.phrase === words) && s.names.every((n) => n.phrase === words)) return setOffers(null);
        const names: Offer[] = s.names
          .filter((n) => n.phrase !== words)
          .map((n) => ({
            key: n.phrase,
            main: n.phrase,
            detail: n.name,
            from: here.start + from,
            to: here.start + to,
            write: n.phrase,
          }));
        const end = indexOf(here.text, textLines('recipe', here.text).lines[0]?.end_column ?? 1) + here.start;
        const records: Offer[] = s.found.foods
          .filter((f) => !s.names.some((n) => n.food === f.food))
          .map((f) => ({ key: f.food, main: f.name, detail: `[${f.food}]`, from: end, to: end, write: ` [${f.food}]` }));
        const items = [...names.slice(0, 5), ...records].slice(0, 8);
        setActive(stillChosen(seen.current, items));
        setOffers(items.length > 0 ? { line: here.number, items, body: typed } : null);
        said.value = items.length > 0 ? `${items.length} foods offered, arrow down to choose` : '';
      },
      () => undefined,
    );
  };
  const accept = (o: Offer): void => {
    /* A letter may have been typed since, and the foods for it may still be on their way: it belongs to the words that give way. */
    const since = (area.current?.value.length ?? 0) - (offers?.body.length ?? 0);
    putAway();
    replaceInField(text.id, o.from === o.to ? o.from + since : o.from, o.to + since, o.write);
    setOffers(null);
  };
  const key = (e: KeyboardEvent): void => {
    const back = goesBack(e);
    if (back) {
      putAway();
      step(text.id, back);
      return e.preventDefault();
    }
    if (!offers) {
      if (e.key === 'Escape') putAway();
      return;
    }
    const last = offers.items.length - 1;
    if (e.key === 'Escape') putAway();
    else if (e.key === 'ArrowDown') setActive(active >= last ? 0 : active + 1);
    else if (e.key === 'ArrowUp' && active >= 0) setActive(active - 1);
    else if (e.key === 'Enter' && active >= 0) accept(offers.items[active] as Offer);
    else return;
    e.preventDefault();
  };

  const label = LABELS[text.kind];
  /* The first line where something is to be written says what. */
  const empty = holdsNoFood(body, text.kind) && text.kind !== 'animals' ? lines.findIndex((l, i) => i > 0 && l.trim() === '') : -1;
  return (
    <div class={`field${plain ? ' plain' : ''}${isRecipe ? '' : ' small'}${text.kind === 'larder' || text.kind === 'animals' ? ` wide ${text.kind}` : ''}`}>
      <textarea
        id="field"
        ref={area}
        value={body}
        dir="auto"
        spellcheck={false}
        autocapitalize="off"
        autocomplete="off"
        aria-label={label}
        aria-describedby={openComplaints.value.length > 0 ? 'complaints' : undefined}
        aria-autocomplete="list"
        aria-controls={offers ? 'offers' : undefined}
        aria-activedescendant={offers && active >= 0 ? `offer-${active}` : undefined}
        onInput={(e) => {
          write(text.id, e.currentTarget.value);
          if (active >= 0) setActive(-1); /* who writes on has not chosen */
          const kind = (e as InputEvent).inputType ?? '';
          if (kind === 'insertText' || kind === 'deleteContentBackward' || kind === 'insertCompositionText') suggest();
          else putAway();
        }}
        onKeyDown={key}
        onBeforeInput={(e) => {
          const kind = (e as InputEvent).inputType;
          if (kind !== 'historyUndo' && kind !== 'historyRedo') return;
          e.preventDefault();
          step(text.id, kind === 'historyUndo' ? 'undo' : 'redo');
        }}
        onPaste={(e) => {
          const words = e.clipboardData?.getData('text/plain') ?? '';
          if (words.length <= MOST_LETTERS && words.split('\n').length <= MOST_PASTED_LINES) {
            if (isRecipe) pasted.value = text.id;
            return;
          }
          e.preventDefault();
          const a = e.currentTarget;
          if (text.kind !== 'journal') tell({ id: 'long', words: 'That is far more than a recipe holds (500 lines at most). Nothing was pasted.' });
          else if (a.value.length + words.length > MOST_JOURNAL_LETTERS) tell({ id: 'long', words: 'That is more than a journal holds (4 million letters at most). Nothing was pasted.' });
          else pasteLong(text.id, a, words.replace(/\r\n?/g, '\n'));
        }}
        onBlur={() => setTimeout(putAway, 150)}
      />
      {!plain && (
        <div class="rows" ref={rows}>
          {lines.map((line, i) => (
            <Row
              key={i}
              line={line}
              number={i + 1}
              hint={i === empty ? HINTS[text.kind] : ''}
              parts={are[i] ?? NO_PARTS}
              here={caretLine === i + 1}
              complaints={byLine.get(i + 1) ?? NONE}
              read={read.get(i + 1)}
              kcal={kcals.get(i + 1) ?? null}
              pin={are[i]?.header === 'Food' ? pins.get(are[i]?.value ?? '') : undefined}
            />
          ))}
        </div>
      )}
      {offers && (
        <ul class="offers" id="offers" ref={list} role="listbox" aria-label="Foods" tabIndex={0} style={spot}>
          {offers.items.map((o, i) => (
            <li
              key={o.key}
              id={`offer-${i}`}
              role="option"
              aria-selected={i === active}
              onMouseDown={(e) => {
                e.preventDefault();
                accept(o);
              }}
            >
              <span>{o.main}</span> <small>{o.detail}</small>
            </li>
          ))}
        </ul>
      )}
    </div>
  );
}

/** Somebody may be choosing while other foods arrive, for the last letter: the same one stays chosen, or else the first. */
function stillChosen({ offers, active }: { offers: Offers | null; active: number }, items: Offer[]): number {
  const chosen = offers?.items[active];
  return chosen ? Math.max(0, items.findIndex((o) => o.key === chosen.key)) : -1;
}

const NONE: Complaint[] = [];
/** Of a line that the core has not been asked about. */
const NO_PARTS = textLines('recipe', '').lines[0] as TextLine;
const HINTS = {
  recipe: 'Write here, one food a line: 200 g lamb heart',
  larder: 'Write here, one food a line: lamb heart   up to 300 g',
  animals: '',
  foods: '',
  plan: '',
  journal: '',
} as const;

type Spot = { top?: string; bottom?: string; maxHeight?: string };
const LEAST_ROOM = 120;

/** Under the line, or above it where the window ends; never beyond its edge. */
function spotFor(row: HTMLElement, list: HTMLElement): Spot {
  const seen = window.visualViewport;
  const [top, bottom] = [seen?.offsetTop ?? 0, (seen?.offsetTop ?? 0) + (seen?.height ?? window.innerHeight)];
  const at = row.getBoundingClientRect();
  const [above, below] = [at.top - top - 8, bottom - at.bottom - 8];
  const wanted = list.scrollHeight + 2;
  const field = row.offsetParent?.getBoundingClientRect();
  if (below >= Math.min(wanted, LEAST_ROOM) && (below >= wanted || below >= above))
    return { top: `${row.offsetTop + row.offsetHeight}px`, maxHeight: `${below}px` };
  return { bottom: `${(field?.height ?? 0) - row.offsetTop}px`, maxHeight: `${Math.max(above, LEAST_ROOM)}px` };
}

/** The keys that take back and do again, on every system. */
function goesBack(e: KeyboardEvent): 'undo' | 'redo' | null {
  if (!(e.ctrlKey || e.metaKey) || e.altKey) return null;
  const k = e.key.toLowerCase();
  if (k === 'z') return e.shiftKey ? 'redo' : 'undo';
  return k === 'y' && !e.shiftKey ? 'redo' : null;
}
const LABELS = {
  recipe: 'The recipe, one ingredient a line',
  larder: 'The larder, one food a line',
  animals: 'The animals',
  foods: 'Own foods, as their labels say',
  plan: 'The plan, which day has which recipe',
  journal: 'The journal, one fact a line',
} as const;

interface RowOf {
  line: string;
  number: number;
  hint: string;
  parts: TextLine;
  here: boolean;
  complaints: Complaint[];
  read: Line | undefined;
  kcal: number | null;
  pin: string | undefined;
}

/** What of a line's reading is drawn beside it. */
const drawnOf = (l: Line | undefined): string => (l ? [l.text, l.telling, l.grams_per_day, l.low_g, l.high_g, l.rivals.length].join(' ') : '');

/** A line is drawn anew when something of it is different. */
class Row extends Component<RowOf> {
  override shouldComponentUpdate(next: RowOf): boolean {
    const p = this.props;
    return (
      p.line !== next.line ||
      p.number !== next.number ||
      p.hint !== next.hint ||
      p.here !== next.here ||
      p.pin !== next.pin ||
      p.kcal !== next.kcal ||
      p.parts.kind !== next.parts.kind ||
      p.parts.key_width !== next.parts.key_width ||
      (p.complaints !== next.complaints && JSON.stringify(p.complaints) !== JSON.stringify(next.complaints)) ||
      drawnOf(p.read) !== drawnOf(next.read)
    );
  }
  override render() {
    return <RowDrawn {...this.props} />;
  }
}

function RowDrawn(p: RowOf) {
  const chosen = choice.value.kind === 'line' && choice.value.line === p.number && recipeIsOpen.value;
  const errors = p.complaints.some((c) => c.level === 'error');
  const danger = dangerous(p.number);
  return (
    <div class={`row${p.parts.kind === 'food' || p.parts.kind === 'uncounted' ? '' : ' header'}${p.here ? ' here' : ''}${chosen ? ' chosen' : ''}${danger ? ' dangerous' : ''}`}>
      {(errors || danger) && (
        <span class="number" aria-hidden="true">
          {p.number}
        </span>
      )}
      <div class="letters" aria-hidden="true">
        {p.line === '' && p.hint !== '' ? <span class="write-here">{p.hint}</span> : null}
        {p.line === ''
          ? '\u200b'
          : piecesOf(p.line, p.complaints, p.parts).map((piece) => (piece.is ? <span class={piece.is}>{piece.text}</span> : piece.text))}
      </div>
      {errors ? (
        <div class="margin wrong" aria-hidden="true">
          {danger ? 'not to be fed' : 'not understood'}
        </div>
      ) : danger && !p.read ? (
        <div class="margin wrong" aria-hidden="true">
          not to be fed
        </div>
      ) : p.read ? (
        <>
          <LineMargin line={p.read} kcal={p.kcal} chosen={chosen} danger={danger} />
          {!danger && <OpenChoices number={p.number} line={p.line} />}
        </>
      ) : (
        <div class="margin">{p.pin && <span class="of-own">[{p.pin}]</span>}</div>
      )}
    </div>
  );
}

/** Lines of the recipe that hold what must not be fed. */
const dangers = computed(() =>
  [
    ...(stale.value ? [] : review.value.filter((f) => f.danger).flatMap((f) => linesOf(f))),
    ...complaints.value.filter((c) => c.text === 'recipe' && c.code === 'danger').map((c) => c.line),
  ].join(' '),
);
const dangerLines = computed(() => new Set(dangers.value.split(' ').map(Number)));
const dangerous = (line: number): boolean => openKind.value === 'recipe' && dangerLines.value.has(line);

/** A weight that is known no better than this is shown as a range. */
const SURE_WITHIN = 1.02;

function LineMargin({ line: l, kcal, chosen, danger }: { line: Line; kcal: number | null; chosen: boolean; danger: boolean }) {
  const unsure = l.high_g > SURE_WITHIN * l.low_g;
  return (
    <button
      type="button"
      class="margin"
      aria-pressed={chosen}
      title={l.name}
      data-line={l.line}
      onClick={() => (chosen ? close() : choose({ kind: 'line', line: l.line }))}
    >
      <span class="amounts">
        {grams(l.grams_per_day)}
        {kcal === null ? '' : ` · ${figure(kcal)} kcal`}
      </span>
      {danger ? (
        <span class="not-fed">not to be fed</span>
      ) : (
        <span class="record">
          {(l.rivals.length > 0 || unsure) && <i>?</i>}
          {unsure ? `${figure(l.low_g)} to ${figure(l.high_g)} g` : l.telling}
        </span>
      )}
      <span class="unseen">for {l.text}: what it gives, other records</span>
    </button>
  );
}
