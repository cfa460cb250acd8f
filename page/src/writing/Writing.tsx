/** The place for writing: which text, the text itself, and what is not understood with what to type instead. */
import { computed } from '@preact/signals';
import { useEffect, useRef, useState } from 'preact/hooks';
import { check, choice, open, openComplaints, openKind, recipe, shelf, shownId, texts } from '../state';
import { close, narrow } from '../view';
import { OfLine } from '../reasons/Reasons';
import { addText, exportAll, importFile, removeText, savedAt, showText, unkept, versionsOf, where, write } from '../texts';
import type { Complaint } from '../core/answers';
import type { Kind } from '../store/store';
import type { Version } from '../store/store';
import { act } from '../acting';
import { newAnimal } from '../animals';
import { Fold } from '../Fold';
import { Acts, Proposal } from './Acts';
import { Field } from './Field';
import { Questions, ReadAsPost, ToldHere } from './Post';
import { replaceInField } from './field-edit';
import { ToLine } from './ToLine';
import { forWhom, holdsNoFood, rangeOf, nameOf, remediesOf, withHeader } from './text';

export function Writing() {
  const kind = openKind.value;
  if (!kind)
    return (
      <section class="writing" id="writing" aria-label="Writing">
        <div class="which">
          <Begin />
        </div>
      </section>
    );
  return (
    <section class="writing" id="writing" aria-label="Writing">
      <Which />
      {act.value.kind === 'proposal' && shownId.value === act.value.id ? (
        <Proposal />
      ) : (
        <>
          <Field />
          {kind === 'foods' && <Labels />}
          <LineHere />
          <ReadAsPost />
          <ToldHere />
          <Questions />
          <Acts />
          <Complaints />
        </>
      )}
      <Keeping />
    </section>
  );
}

/** On a narrow page the reasons of a line open under the text. */
function LineHere() {
  const c = check.value;
  const chosen = choice.value;
  const line = narrow.value && chosen.kind === 'line' && openKind.value === 'recipe' ? c?.recipe.lines.find((l) => l.line === chosen.line) : undefined;
  const here = useRef<HTMLDivElement>(null);
  useEffect(() => {
    if (line) here.current?.scrollIntoView({ block: 'start' });
  }, [line?.line]);
  if (!c || !line) return null;
  return (
    <div class="opened reasons-here" ref={here}>
      <p class="back no-print">
        <button type="button" class="quiet" onClick={close}>
          close
        </button>
      </p>
      <OfLine check={c} line={line} />
    </div>
  );
}

const KINDS: [Kind, string][] = [
  ['recipe', 'Recipes'],
  ['larder', 'Larders'],
  ['foods', 'Own foods'],
  ['plan', 'Plans'],
  ['journal', 'Journal'],
  ['animals', 'Animals'],
];
/** What a new text begins with, and what the button says. */
const NEW: [Kind, string, string][] = [
  ['recipe', 'recipe', 'Recipe: \nMakes: 1 day\n\n'],
  ['larder', 'larder', 'Larder: what is at hand\n\n\nLimits: food at most 600 g\n'],
  ['foods', 'label', 'Food: \nPart: supplement\nPer: 1 tablet (0.4 g)\n'],
];

function begin(kind: Kind, body: string): void {
  void addText(kind, body);
  /* As soon as it is drawn. Not when it is kept: that takes its time, and somebody may be writing in it by then. */
  setTimeout(() => {
    const f = document.getElementById('field') as HTMLTextAreaElement | null;
    const at = kind !== 'foods' ? body.indexOf('\n\n') + 2 : body.startsWith('Food: \n') ? body.indexOf('\n') : body.length - 1;
    f?.focus();
    f?.setSelectionRange(at, at);
  }, 0);
}

/** A new text is for the animal whose bowl is being looked at. */
function forTheSame(kind: Kind, body: string): string {
  const who = forWhom('recipe', recipe.value?.body ?? '');
  return kind === 'foods' || who === '' ? body : withHeader(kind, body, 'For', who);
}

/** A label to be filled in, for the words that were not understood. */
function labelOf(line: string, c: Complaint): string {
  const [from, to] = rangeOf(line, c);
  return `Food: ${line.slice(from, to).trim()}\nPart: other\nPer: 100 g\nEnergy: \n`;
}

const inOrder = new Intl.Collator('en');

/** All texts by their titles. It changes when one of these does, and not with every letter that is typed. */
const listed = computed(() =>
  JSON.stringify(
    KINDS.map(([kind, words]) => ({
      words,
      of: texts.value
        .filter((t) => t.kind === kind)
        .map((t) => ({ id: t.id, title: nameOf(t) }))
        .sort((a, b) => inOrder.compare(a.title, b.title) || (a.id < b.id ? -1 : 1)),
    })),
  ),
);
const list = computed(() => JSON.parse(listed.value) as { words: string; of: { id: string; title: string }[] }[]);

function Which() {
  return (
    <div class="which">
      <label class="as-text">
        <span class="unseen">Text</span>
        <select class="title" value={shownId.value} onChange={(e) => showText(e.currentTarget.value)}>
          {list.value.map(({ words, of }) =>
            of.length === 0 ? null : (
              <optgroup label={words}>
                {of.map((t) => (
                  <option value={t.id}>{t.title}</option>
                ))}
              </optgroup>
            ),
          )}
        </select>
      </label>
      <Begin />
    </div>
  );
}

function Begin() {
  return (
    <p class="begin no-print" role="group" aria-label="New text">
      <span aria-hidden="true">new</span>
      {NEW.map(([kind, words, body]) => (
        <button type="button" class="quiet" aria-label={`new ${words}`} onClick={() => begin(kind, forTheSame(kind, body))}>
          {words}
        </button>
      ))}
      <button type="button" class="quiet" aria-label="new animal" onClick={() => newAnimal()}>
        animal
      </button>
    </p>
  );
}

/** What a label is for, where one is written. */
function Labels() {
  const first = shelf.value.flatMap((s) => s.foods)[0]?.food ?? 'mine:zinc-tablets';
  return (
    <p class="hint">
      These foods are known to every recipe and larder here: by their words, or by their pin, such as [{first}]. What a label does not say stays unknown.
    </p>
  );
}

function Complaints() {
  const text = open.value;
  /* Dangers stand above everything already. */
  const all = openComplaints.value.filter((c) => c.code !== 'danger');
  /* A text that is only begun needs no telling that it is not finished. */
  if (!text || all.length === 0 || holdsNoFood(text.body, text.kind)) return null;
  const lines = text.body.split('\n');
  return (
    <ul class="complaints" id="complaints" aria-label="What is not understood">
      {all.slice(0, 20).map((c) => {
        const line = lines[c.line - 1] ?? '';
        return (
          <li class={c.level}>
            {c.line > 0 && <ToLine line={c.line} words={`Line ${c.line}:`} from={rangeOf(line, c)[0]} to={rangeOf(line, c)[1]} />} <span>{c.message}</span>
            {remediesOf(c, lines).map((r) => (
              <button type="button" class="remedy no-print" onClick={() => replaceInField(text.id, r.from, r.to, r.write)}>
                {r.words}
              </button>
            ))}
            {(c.code === 'which-animal' || c.code === 'animal-needed') && (
              <button type="button" class="remedy no-print" onClick={() => newAnimal()}>
                a new animal
              </button>
            )}
            {(c.code === 'not-in-library' || c.code === 'label-needed') && (
              <button type="button" class="remedy no-print" onClick={() => begin('foods', labelOf(line, c))}>
                write its label
              </button>
            )}
          </li>
        );
      })}
      {all.length > 20 && <li>{all.length - 20} more like these.</li>}
    </ul>
  );
}

const savedRev = computed(() => open.value?.rev ?? 0);

function Keeping() {
  const file = useRef<HTMLInputElement>(null);
  const id = shownId.value;
  if (id === '') return null;
  return (
    <div class="keeping no-print">
      <p>
        {unkept.value !== '' ? <b class="unkept">Not kept yet.</b> : `${savedAt.value ? 'Kept' : 'Texts are kept'} ${where.value}.`}{' '}
        <button type="button" class="quiet" onClick={() => window.print()}>
          print
        </button>{' '}
        <button type="button" class="quiet" onClick={() => void exportAll()}>
          export all
        </button>{' '}
        <button type="button" class="quiet" onClick={() => file.current?.click()}>
          read a file
        </button>{' '}
        {openKind.value !== 'animals' && (
          <button type="button" class="quiet" onClick={() => void removeText(id)}>
            remove
          </button>
        )}
        <input
          ref={file}
          type="file"
          hidden
          accept=".json,.recipe,.foods,.plan,.journal,.txt,text/plain,application/json"
          aria-label="A file to read"
          onChange={(e) => {
            const f = e.currentTarget.files?.[0];
            if (f) void importFile(f);
            e.currentTarget.value = '';
          }}
        />
      </p>
      <Earlier id={id} rev={savedRev.value} />
    </div>
  );
}

function Earlier({ id, rev }: { id: string; rev: number }) {
  const [list, setList] = useState<Version[]>([]);
  const [wanted, setWanted] = useState(false);
  const [fault, setFault] = useState('');
  useEffect(() => {
    if (!wanted) return;
    let alive = true;
    versionsOf(id).then(
      (v) => alive && (setList(v), setFault('')),
      (e: unknown) => alive && setFault(`They cannot be read just now: ${e instanceof Error ? e.message : String(e)}.`),
    );
    return () => {
      alive = false;
    };
  }, [id, rev, wanted]);
  return (
    <Fold name="earlier" summary="Earlier versions" seen={setWanted}>
      {fault !== '' ? (
        <p>{fault}</p>
      ) : list.length === 0 ? (
        <p>None yet: a version is kept every minute and a half of writing, and before every larger change.</p>
      ) : (
        <ol class="versions">
          {list.slice(0, 50).map((v) => (
            <li>
              <time dateTime={v.saved}>{new Date(v.saved).toLocaleString()}</time>{' '}
              <button type="button" class="quiet" onClick={() => write(id, v.body, true)}>
                put back
              </button>
              <span class="glimpse">{glimpse(v.body, recipe.value?.body ?? '')}</span>
            </li>
          ))}
        </ol>
      )}
    </Fold>
  );
}

/** The first line of an older text that the present one does not hold. */
function glimpse(old: string, now: string): string {
  const lines = new Set(now.split('\n'));
  const other = old.split('\n').find((l) => l.trim() !== '' && !lines.has(l));
  return other ? `had “${other.slice(0, 60)}”` : 'had fewer lines';
}

