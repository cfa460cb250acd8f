/** Writing into the field as if typed, so that the browser's own undo knows of it. */

let field: HTMLTextAreaElement | null = null;
let shown = '';

/** The field tells which text it shows. */
export function setField(element: HTMLTextAreaElement | null, id: string): void {
  field = element;
  shown = id;
  if (field && wanted?.id === id) caretThere();
}

/** False when the field does not show this text just now; nothing is changed then. */
export function replaceInField(id: string, from: number, to: number, text: string): boolean {
  if (!field || shown !== id) return false;
  field.focus();
  field.setSelectionRange(from, to);
  const typed = text === '' ? document.execCommand('delete') : document.execCommand('insertText', false, text);
  if (!typed) {
    field.setRangeText(text, from, to, 'end');
    field.dispatchEvent(new Event('input', { bubbles: true }));
  }
  return true;
}

/** A long text is a field that scrolls by itself, without rows beside it: its lines are of one height where none is broken, and what is
 * broken is spread evenly enough. */
function scrollTo(line: number, lines: string[]): void {
  if (!field) return;
  field.scrollTop = (field.scrollHeight * (line - 0.5)) / lines.length - field.clientHeight / 2;
  field.scrollIntoView({ block: 'nearest' });
}

/** Shows a line of the text, with the caret in it; 'from' and 'to' are letters of that line to be selected. Lines count from 1. */
export function selectInField(line: number, from = 0, to?: number): void {
  if (!field) return;
  const lines = field.value.split('\n');
  const start = lines.slice(0, line - 1).reduce((n, l) => n + l.length + 1, 0);
  field.focus({ preventScroll: true });
  field.setSelectionRange(start + from, start + (to ?? lines[line - 1]?.length ?? 0));
  const row = document.querySelector(`.rows .row:nth-child(${line})`);
  if (row) row.scrollIntoView({ block: 'center' });
  else scrollTo(line, lines);
}

/** Where the caret stands while this text is being typed in; null otherwise. */
export function caretIn(id: string): number | null {
  return field && shown === id && document.activeElement === field ? field.selectionStart : null;
}

let wanted: { id: string; at: number } | null = null;

function caretThere(): void {
  if (!field || !wanted || shown !== wanted.id) return;
  field.focus({ preventScroll: true });
  field.setSelectionRange(wanted.at, wanted.at);
  wanted = null;
}

/** Puts the caret there as soon as the field shows this text, with what was written. */
export function putCaret(id: string, at: number): void {
  wanted = { id, at };
  requestAnimationFrame(caretThere);
}
