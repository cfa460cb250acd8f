/** The answer to whoever posted the recipe: written by the core, copied with the click that asks for it, and shown, for it is to be read
 * before it is sent. */
import { signal } from '@preact/signals';
import { useEffect, useRef } from 'preact/hooks';
import { replyTo } from '../acts';
import { open, ready, said } from '../state';

/** How long it is: what the core is asked for. */
const LENGTHS = [
  { words: 'five lines', asked: { lines: 5 } },
  { words: 'a letter', asked: {} },
  { words: 'everything', asked: { full: true } },
];
const A_LETTER = 1;

/** The reply and the text that it was written about: a reply to another text is not shown. 'text' is as the person has it now, 'copied' as it
 * was copied last. */
const written = signal<{ id: string; body: string; text: string; length: number; copied: string | null } | null>(null);

async function copied(text: string): Promise<string | null> {
  try {
    await navigator.clipboard.writeText(text);
    return text;
  } catch {
    return null;
  }
}

export async function writeReply(length = A_LETTER): Promise<void> {
  const r = open.value;
  if (r?.kind !== 'recipe') return;
  const text = await replyTo(r, LENGTHS[length]!.asked);
  if (text === null) return;
  written.value = { id: r.id, body: r.body, text, length, copied: await copied(text) };
  said.value = written.value.copied !== null ? 'A reply is written and copied.' : 'A reply is written.';
}

async function copyAgain(): Promise<void> {
  const w = written.value;
  if (!w) return;
  const now = await copied(w.text);
  if (written.value) written.value = { ...written.value, copied: now };
  said.value = now !== null ? 'The reply is copied as it stands.' : 'This browser does not let the page copy.';
}

export function ReplyButton() {
  return (
    <button type="button" class="deed" disabled={!ready.value} onClick={() => void writeReply()}>
      Copy a reply
    </button>
  );
}

const NO_COPY = 'This browser does not let the page copy: mark it and copy it, and read it before you send it.';

export function Reply() {
  const w = written.value;
  const shown = w !== null && w.id === open.value?.id && w.body === open.value.body;
  const head = useRef<HTMLHeadingElement>(null);
  useEffect(() => {
    if (shown && (document.activeElement === null || document.activeElement === document.body)) head.current?.focus({ preventScroll: true });
  }, [shown]);
  if (!w || !shown) return null;
  const changed = w.copied !== null && w.copied !== w.text;
  return (
    <section class="reply no-print" aria-label="The reply">
      <h2 tabIndex={-1} ref={head}>
        {w.copied === null ? 'A reply to the owner' : changed ? 'A reply to the owner, changed since it was copied' : 'Copied: a reply to the owner'}
      </h2>
      <p class="hint">{w.copied === null ? NO_COPY : 'Read it before you send it; what you change here is yours to copy again.'}</p>
      <textarea
        class="letter"
        aria-label="The reply"
        value={w.text}
        rows={Math.min(24, w.text.split('\n').length + 6)}
        onInput={(e) => (written.value = { ...w, text: e.currentTarget.value })}
      />
      <p class="ask">
        <button type="button" class="deed" onClick={() => void copyAgain()}>
          {changed ? 'Copy it as it stands' : 'Copy it again'}
        </button>
        <label class="as-text with">
          as{' '}
          <select aria-label="How long the reply is" value={w.length} onChange={(e) => void writeReply(Number(e.currentTarget.value))}>
            {LENGTHS.map((l, i) => (
              <option value={i}>{l.words}</option>
            ))}
          </select>
        </label>
        <button type="button" class="quiet" onClick={() => (written.value = null)}>
          close
        </button>
      </p>
    </section>
  );
}
