/** Writing into the field as if typed, so that the browser's own undo knows of it. */

let field: HTMLTextAreaElement | null = null;
let shown = '';

/** The field tells which text it shows. */
export function setField(element: HTMLTextAreaElement | null, id: string): void {
  field = element;
  shown = id;
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
