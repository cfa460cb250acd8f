/** The sheet for the kitchen wall, as the core writes it (src/sheet): chosen, looked at, printed and taken along in a window of its own. */
import plain from '@fontsource/atkinson-hyperlegible/files/atkinson-hyperlegible-latin-400-normal.woff2?url';
import bold from '@fontsource/atkinson-hyperlegible/files/atkinson-hyperlegible-latin-700-normal.woff2?url';
import { effect, signal, untracked } from '@preact/signals';
import { useEffect, useRef } from 'preact/hooks';
import { sheetOf, type SheetWish } from '../acts';
import type { SheetPage } from '../core/answers';
import { open, ready, said, texts } from '../state';
import { titleOf } from './text';

/** The text whose sheet is looked at; '' none. */
const of = signal('');
const wish = signal<SheetWish>({ paper: 'a4', units: 'metric', days: 0, meals: 0, large: false, larder: '' });
const written = signal<SheetPage | null>(null);
const trouble = signal('');

effect(() => {
  const id = of.value;
  const wanted = wish.value;
  if (id === '') return;
  const text = untracked(() => texts.value.find((t) => t.id === id));
  if (!text) return;
  void sheetOf(text.body, wanted).then((told) => {
    if (of.value !== id || wish.value !== wanted || told === null) return;
    trouble.value = typeof told === 'string' ? told : '';
    written.value = typeof told === 'string' ? null : told;
  });
});

function show(): void {
  const text = open.value;
  if (text?.kind !== 'recipe') return;
  written.value = null;
  trouble.value = '';
  of.value = text.id;
}

const STYLE = /<style>([^]*?)<\/style>/;

/** The page's policy takes no style out of a text: the frame has it as a style sheet of its own, and widths as what they are. */
const unstyled = (html: string): string => html.replace(STYLE, '').replace(/<col style="width:(\d+%)">/g, '<col width="$1">');

const face = (url: string, weight: number): string =>
  `@font-face{font-family:'Atkinson Hyperlegible';font-weight:${weight};src:url('${new URL(url, document.baseURI).href}') format('woff2')}`;

function dress(frame: HTMLIFrameElement, html: string): void {
  const inside = frame.contentWindow as (Window & { CSSStyleSheet: typeof CSSStyleSheet }) | null;
  const style = STYLE.exec(html)?.[1];
  if (!inside || !style) return;
  const sheet = new inside.CSSStyleSheet();
  sheet.replaceSync(face(plain, 400) + face(bold, 700) + style);
  inside.document.adoptedStyleSheets = [sheet];
}

/** A file's name out of a title, in any script. */
const fileName = (title: string): string => `${title.replace(/[^\p{L}\p{N}]+/gu, '-').replace(/^-+|-+$/g, '').slice(0, 60) || 'sheet'}.html`;

function download(sheet: SheetPage): void {
  const url = URL.createObjectURL(new Blob([sheet.html], { type: 'text/html' }));
  const a = document.createElement('a');
  a.href = url;
  a.download = fileName(sheet.title);
  a.click();
  setTimeout(() => URL.revokeObjectURL(url), 10_000);
  said.value = `${a.download} is written.`;
}

export function SheetButton() {
  return (
    <button type="button" class="deed" disabled={!ready.value} onClick={show}>
      Sheet
    </button>
  );
}

export function SheetView() {
  const place = useRef<HTMLDialogElement>(null);
  const frame = useRef<HTMLIFrameElement>(null);
  const shown = of.value !== '';
  useEffect(() => {
    if (shown && place.current && !place.current.open) place.current.showModal();
  }, [shown]);
  if (!shown) return null;
  const w = wish.value;
  const set = (change: Partial<SheetWish>): void => void (wish.value = { ...wish.peek(), ...change }); // two changes may come before a drawing
  const sheet = written.value;
  return (
    <dialog class="sheet-view no-print" ref={place} aria-label="A sheet for the kitchen wall" onClose={() => (of.value = '')}>
      <form class="wishes" onSubmit={(e) => e.preventDefault()}>
        <Choice label="paper" value={w.paper} options={[['a4', 'A4'], ['letter', 'Letter']]} set={(paper) => set({ paper })} />
        <Choice label="units" value={w.units} options={[['metric', 'metric'], ['us', 'US']]} set={(units) => set({ units })} />
        <Count label="days" value={w.days} most={28} set={(days) => set({ days })} />
        <Count label="meals a day" value={w.meals} most={12} set={(meals) => set({ meals })} />
        <Choice
          label="prices"
          value={w.larder}
          options={[['', 'none'], ...texts.value.filter((t) => t.kind === 'larder').map((t): [string, string] => [t.id, titleOf(t.kind, t.body)])]}
          set={(larder) => set({ larder })}
        />
        <label>
          <input type="checkbox" checked={w.large} onChange={(e) => set({ large: e.currentTarget.checked })} /> large print
        </label>
        <span class="do">
          <button type="button" class="deed strong" disabled={!sheet} onClick={() => frame.current?.contentWindow?.print()}>
            Print
          </button>
          <button type="button" class="deed" disabled={!sheet} onClick={() => sheet && download(sheet)}>
            Download
          </button>
          <button type="button" class="deed" onClick={() => place.current?.close()}>
            Close
          </button>
        </span>
      </form>
      {trouble.value !== '' && <p role="status">{trouble.value}</p>}
      {sheet ? (
        <iframe
          ref={frame}
          title={`${sheet.title}: the sheet`}
          sandbox="allow-same-origin allow-modals"
          srcdoc={unstyled(sheet.html)}
          onLoad={(e) => dress(e.currentTarget, sheet.html)}
        />
      ) : (
        trouble.value === '' && (
          <p role="status">
            <span class="moving" aria-hidden="true" /> Writing the sheet.
          </p>
        )
      )}
    </dialog>
  );
}

function Choice<T extends string>(p: { label: string; value: T; options: [T, string][]; set: (v: T) => void }) {
  return (
    <label>
      {p.label}{' '}
      <select value={p.value} onChange={(e) => p.set(e.currentTarget.value as T)}>
        {p.options.map(([v, words]) => (
          <option value={v}>{words}</option>
        ))}
      </select>
    </label>
  );
}

/** Empty: as the recipe says. */
function Count(p: { label: string; value: number; most: number; set: (n: number) => void }) {
  return (
    <label>
      {p.label}{' '}
      <input
        type="number"
        min="1"
        max={p.most}
        placeholder="as written"
        value={p.value || ''}
        /* With every digit: a sheet that arrives meanwhile draws anew, and would put back what is not yet told. */
        onInput={(e) => p.set(Math.min(p.most, Math.max(0, Math.floor(Number(e.currentTarget.value)) || 0)))}
      />
    </label>
  );
}
