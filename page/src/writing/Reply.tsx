/** The answer to whoever posted the recipe: written by the core, copied with the click that asks for it, and shown, for it is to be read
 * before it is sent. */
import { signal } from '@preact/signals';
import { useEffect, useRef } from 'preact/hooks';
import { replyTo } from '../acts';
import { open, ready, said } from '../state';

/** The reply and the text that it was written about: a reply to another text is not shown. */
const written = signal<{ id: string; body: string; text: string; copied: boolean } | null>(null);

async function copied(text: string): Promise<boolean> {
  try {
    await navigator.clipboard.writeText(text);
    return true;
  } catch {
    return false;
  }
}

export async function writeReply(): Promise<void> {
  const r = open.value;
  if (r?.kind !== 'recipe') return;
  const text = await replyTo(r);
  if (text === null) return;
  written.value = { id: r.id, body: r.body, text, copied: await copied(text) };
  said.value = written.value.copied ? 'A reply is written and copied.' : 'A reply is written.';
}

export function ReplyButton() {
  return (
    <button type="button" class="deed" disabled={!ready.value} onClick={() => void writeReply()}>
      Copy a reply
    </button>
  );
}

export function Reply() {
  const w = written.value;
  const shown = w !== null && w.id === open.value?.id && w.body === open.value.body;
  const head = useRef<HTMLHeadingElement>(null);
  useEffect(() => {
    if (shown && (document.activeElement === null || document.activeElement === document.body)) head.current?.focus({ preventScroll: true });
  }, [shown, w]);
  if (!w || !shown) return null;
  return (
    <section class="reply no-print" aria-label="The reply">
      <h2 tabIndex={-1} ref={head}>
        {w.copied ? 'Copied: a reply to the owner' : 'A reply to the owner'}
      </h2>
      <p class="hint">{w.copied ? 'Read it before you send it.' : 'This browser does not let the page copy: mark it and copy it, and read it before you send it.'}</p>
      <textarea class="letter" readOnly aria-label="The reply" value={w.text} rows={Math.min(24, w.text.split('\n').length + 6)} />
      <p>
        <button type="button" class="quiet" onClick={() => (written.value = null)}>
          close
        </button>
      </p>
    </section>
  );
}
