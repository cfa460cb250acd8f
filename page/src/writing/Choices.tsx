/** What a line leaves open, at its end in the margin: how much a handful was, which record, weighed dry or cooked. Another way to read it is
 * written into the text with one choice; the core wrote every option, and read each of them before. */
import type { Choice } from '../core/answers';
import { choices, open, said } from '../state';
import { write } from '../texts';
import { indexOf, lineAt } from './text';

const ABOUT: Record<Choice['about'], string> = { amount: 'How much it was', size: 'Which size', state: 'How it was weighed', record: 'Which record' };

function take(line: number, column: number, option: Choice): void {
  const t = open.value;
  if (!t) return;
  const lines = t.body.split('\n');
  const old = lines[line - 1] ?? '';
  lines[line - 1] = old.slice(0, indexOf(old, column)) + option.write;
  write(t.id, lines.join('\n'), true);
  said.value = `Line ${line}: ${option.write}`;
}

export function OpenChoices({ number, line }: { number: number; line: string }) {
  const c = choices.value.get(line);
  if (!c) return null;
  const kinds = [...new Set(c.options.map((o) => o.about))];
  return (
    <select
      class="open-choice no-print"
      aria-label={`What “${line.trim()}” leaves open`}
      title="What this line leaves open"
      value=""
      onChange={(e) => {
        const option = c.options[Number(e.currentTarget.value)];
        e.currentTarget.value = '';
        if (option && lineAt(open.value?.body ?? '', number) === line) take(number, c.column, option);
      }}
    >
      <option value="" hidden>
        ▾
      </option>
      {kinds.map((kind) => (
        <optgroup label={ABOUT[kind]}>
          {c.options.map((o, i) =>
            o.about !== kind ? null : (
              <option value={String(i)}>
                {o.label}
                {o.taken ? ', as it is read' : ''}
              </option>
            ),
          )}
        </optgroup>
      ))}
    </select>
  );
}
