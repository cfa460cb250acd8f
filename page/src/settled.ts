/** Is anything still on its way? The document says so, for whoever drives the page: data-core is "busy" while the core has
 * questions, data-kept while something written is not kept yet; both are "still" otherwise. */
type What = 'core' | 'kept';

const under: Record<What, number> = { core: 0, kept: 0 };
/** Long enough for what the last answer changed to be drawn. */
const DRAWN_AFTER_MS = 40;

/* Without a document (tests of single pieces) nobody asks. */
const mark = (what: What, words: string): void => {
  if (typeof document !== 'undefined') document.documentElement.dataset[what] = words;
};

export function begin(what: What): void {
  if (under[what]++ === 0) mark(what, 'busy');
}

export function end(what: What): void {
  under[what]--;
  setTimeout(() => {
    if (under[what] === 0) mark(what, 'still');
  }, DRAWN_AFTER_MS);
}
