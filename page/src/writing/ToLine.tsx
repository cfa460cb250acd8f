/** "line 9", as a way to that line of the text. */
import { open, recipe } from '../state';
import { showText } from '../texts';
import { selectInField } from './field-edit';

export function ToLine({ line, from, to, words }: { line: number; from?: number; to?: number; words?: string }) {
  return (
    <button
      type="button"
      class="to-line"
      onClick={() => {
        if (from === undefined && recipe.value && open.value?.id !== recipe.value.id) showText(recipe.value.id);
        requestAnimationFrame(() => selectInField(line, from, to));
      }}
    >
      {words ?? `line ${line}`}
    </button>
  );
}
