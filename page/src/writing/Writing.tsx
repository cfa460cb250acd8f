/** The place for writing: which text, the text itself, and what is not understood with what to type instead. */
import { useEffect, useRef, useState } from 'preact/hooks';
import {
  addText,
  exportAll,
  importFile,
  open,
  openComplaints,
  recipe,
  removeText,
  savedAt,
  showText,
  texts,
  versionsOf,
  where,
  write,
} from '../state';
import type { Version } from '../store/store';
import { act } from '../acts';
import { Acts, Proposal } from './Acts';
import { Field, replaceInField } from './Field';
import { remediesOf, titleOf } from './text';

export function Writing() {
  const text = open.value;
  if (!text) return <section class="writing" id="writing" aria-label="Writing" />;
  return (
    <section class="writing" id="writing" aria-label="Writing">
      <Which />
      {act.value.kind === 'proposal' && text.id === act.value.id ? (
        <Proposal />
      ) : (
        <>
          <Field />
          <Acts />
          <Complaints />
        </>
      )}
      <Keeping />
    </section>
  );
}

function Which() {
  const text = open.value;
  if (!text) return null;
  const kinds = [
    ['recipe', 'Recipes'],
    ['larder', 'Larders'],
    ['animals', 'Animals'],
  ] as const;
  return (
    <p class="which">
      <label class="as-text">
        <span class="unseen">Text</span>
        <select class="title" value={text.id} onChange={(e) => showText(e.currentTarget.value)}>
          {kinds.map(([kind, words]) => (
            <optgroup label={words}>
              {texts.value
                .filter((t) => t.kind === kind)
                .map((t) => (
                  <option value={t.id}>{titleOf(t.kind, t.body)}</option>
                ))}
            </optgroup>
          ))}
        </select>
      </label>
      <button
        type="button"
        class="quiet no-print"
        onClick={() => {
          void addText('recipe', 'Recipe: \n\n').then(() => {
            const f = document.getElementById('field') as HTMLTextAreaElement | null;
            f?.focus();
            f?.setSelectionRange(f.value.length, f.value.length);
          });
        }}
      >
        new
      </button>
      <button
        type="button"
        class="quiet no-print"
        onClick={() => {
          void addText('larder', 'Larder: what is at hand\n\n\nLimits: food at most 600 g\n').then(() => document.getElementById('field')?.focus());
        }}
      >
        new larder
      </button>
    </p>
  );
}

function Complaints() {
  const text = open.value;
  const all = openComplaints.value;
  if (!text || all.length === 0) return null;
  const lines = text.body.split('\n');
  const starts: number[] = [];
  let at = 0;
  for (const l of lines) {
    starts.push(at);
    at += l.length + 1;
  }
  return (
    <ul class="complaints" id="complaints" aria-label="What is not understood">
      {all.slice(0, 20).map((c) => {
        const line = lines[c.line - 1] ?? '';
        const start = starts[c.line - 1] ?? 0;
        return (
          <li class={c.level}>
            {c.line > 0 && <b>Line {c.line}.</b>} {c.message}
            {c.level === 'error' &&
              c.line > 0 &&
              remediesOf(c, line).map((r) => (
                <button
                  type="button"
                  class="remedy no-print"
                  onClick={() => replaceInField(start + r.from, start + r.to, r.write)}
                >
                  {r.words}
                </button>
              ))}
          </li>
        );
      })}
      {all.length > 20 && <li>{all.length - 20} more like these.</li>}
    </ul>
  );
}

function Keeping() {
  const file = useRef<HTMLInputElement>(null);
  const text = open.value;
  if (!text) return null;
  return (
    <div class="keeping no-print">
      <p>
        {savedAt.value ? 'Kept' : 'Texts are kept'} {where.value}.{' '}
        <button type="button" class="quiet" onClick={() => window.print()}>
          print
        </button>{' '}
        <button type="button" class="quiet" onClick={() => void exportAll()}>
          export all
        </button>{' '}
        <button type="button" class="quiet" onClick={() => file.current?.click()}>
          read a file
        </button>{' '}
        {text.kind !== 'animals' && (
          <button type="button" class="quiet" onClick={() => void removeText(text.id)}>
            remove
          </button>
        )}
        <input
          ref={file}
          type="file"
          hidden
          accept=".json,.recipe,.txt,text/plain,application/json"
          aria-label="A file to read"
          onChange={(e) => {
            const f = e.currentTarget.files?.[0];
            if (f) void importFile(f);
            e.currentTarget.value = '';
          }}
        />
      </p>
      <Earlier id={text.id} rev={text.rev} />
    </div>
  );
}

function Earlier({ id, rev }: { id: string; rev: number }) {
  const [list, setList] = useState<Version[]>([]);
  const [wanted, setWanted] = useState(false);
  useEffect(() => {
    if (!wanted) return;
    let alive = true;
    versionsOf(id).then(
      (v) => alive && setList(v),
      () => undefined,
    );
    return () => {
      alive = false;
    };
  }, [id, rev, wanted]);
  return (
    <details onToggle={(e) => setWanted(e.currentTarget.open)}>
      <summary>Earlier versions</summary>
      {list.length === 0 ? (
        <p>None yet: a version is kept every minute and a half of writing, and before every larger change.</p>
      ) : (
        <ol class="versions">
          {list.slice(0, 50).map((v) => (
            <li>
              <time dateTime={v.saved}>{new Date(v.saved).toLocaleString()}</time>{' '}
              <button type="button" class="quiet" onClick={() => write(id, v.body, true)}>
                bring back
              </button>
              <span class="glimpse">{glimpse(v.body, recipe.value?.body ?? '')}</span>
            </li>
          ))}
        </ol>
      )}
    </details>
  );
}

/** The first line of an older text that the present one does not hold. */
function glimpse(old: string, now: string): string {
  const lines = new Set(now.split('\n'));
  const other = old.split('\n').find((l) => l.trim() !== '' && !lines.has(l));
  return other ? `had “${other.slice(0, 60)}”` : 'had fewer lines';
}

