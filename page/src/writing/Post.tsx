/** A text that somebody posted: the core turns it into a recipe, with what it assumed as remarks; what only the owner can tell is a list
 * of questions, to be copied into a reply. */
import { signal } from '@preact/signals';
import type { PageAnswer } from '../core/answers';
import { core, open, openComplaints, question, said, tell } from '../state';
import { write } from '../texts';
import { writeReply } from './Reply';

/** What is to be asked about a text that was read as a post, until another is. */
const toAsk = signal<{ id: string; questions: string[] } | null>(null);
const COULD_NOT = 'No food with an amount was found in this text.';

async function readAsPost(id: string, body: string): Promise<void> {
  const { answer } = await core.tell<PageAnswer>('post', 'page', [body, { posted: true }], question());
  const check = answer?.check;
  const text = check?.as_recipe;
  if (open.value?.id !== id || open.value.body !== body) return; /* written on meanwhile */
  if (!text) return tell({ id: 'post', words: COULD_NOT });
  write(id, text, true);
  toAsk.value = { id, questions: (check?.questions ?? []).map((q) => q.ask) };
  const [questions, left] = [toAsk.value.questions.length, check?.left_out?.length ?? 0];
  const words = `Read as a post. What was assumed stands behind each line${left > 0 ? `; ${left} ${left === 1 ? 'thing is' : 'things are'} fed and not counted` : ''}${
    questions > 0 ? `; ${questions} ${questions === 1 ? 'question is' : 'questions are'} left for the owner` : ''
  }.`;
  said.value = words;
  tell({ id: 'post', words, acts: [{ words: 'Copy a reply', act: () => void writeReply() }] });
}

/** Offered where a line is not understood: a recipe that somebody is just writing is rarely wrong in two of them. */
export function ReadAsPost() {
  const text = open.value;
  const wrong = openComplaints.value.filter((c) => c.level === 'error' && c.text === 'recipe' && c.line > 0).length;
  if (text?.kind !== 'recipe' || wrong < 2) return null;
  return (
    <p class="ask no-print">
      <button type="button" class="deed" onClick={() => void readAsPost(text.id, text.body)}>
        Read it as a post
      </button>
      <span class="with">sentences, handfuls and all; undo brings the text back</span>
    </p>
  );
}

async function copy(words: string): Promise<void> {
  try {
    await navigator.clipboard.writeText(words);
    tell({ id: 'copied', words: 'Copied.' });
  } catch {
    tell({ id: 'copied', words: 'This browser does not let the page copy: mark the questions and copy them.' });
  }
}

/** What to ask the owner, most telling first. */
export function Questions() {
  const a = toAsk.value;
  if (!a || a.id !== open.value?.id || a.questions.length === 0) return null;
  return (
    <section class="questions" aria-label="Questions for the owner">
      <h2>To ask the owner</h2>
      <ol>
        {a.questions.map((q) => (
          <li>{q}</li>
        ))}
      </ol>
      <p class="no-print">
        <button type="button" class="deed" onClick={() => void copy(a.questions.map((q, i) => `${i + 1}. ${q}`).join('\n'))}>
          Copy the questions
        </button>
      </p>
    </section>
  );
}
