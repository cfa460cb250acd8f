/** A text that somebody posted: the core turns it into a recipe, with what it assumed as remarks and as choices in the margin; what only the
 * owner can tell is a list of questions, to be copied into a reply. */
import { computed, signal } from '@preact/signals';
import { useEffect, useState } from 'preact/hooks';
import { isTold, newAnimal } from '../animals';
import { textLines } from '../core/here';
import type { PageAnswer, Post, ToldAnimal } from '../core/answers';
import { check, core, open, openComplaints, pasted, question, said, tell } from '../state';
import { write } from '../texts';
import { Fold } from '../Fold';
import { stale } from '../view';
import { figure, list } from '../words';
import { writeReply } from './Reply';

/** What a post was read as, until another is. */
const readAs = signal<{ id: string; post: Post } | null>(null);
const COULD_NOT = 'No food with an amount was found in this text.';

const read = async (kind: string, body: string): Promise<Post | null> =>
  (await core.tell<PageAnswer>(kind, 'page', [body, { posted: true, 'numbers-only': true }], question())).answer?.post ?? null;

const many = (n: number, one: string, more: string): string => `${n} ${n === 1 ? one : more}`;

/** "2 things assumed, 1 left out, 3 questions for the owner" */
function inShort(p: Post): string {
  const parts = [
    p.assumed > 0 ? many(p.assumed, 'amount is assumed', 'amounts are assumed') : '',
    p.left_out.length > 0 ? many(p.left_out.length, 'thing is not counted', 'things are not counted') : '',
    p.questions.length > 0 ? many(p.questions.length, 'question is left for the owner', 'questions are left for the owner') : '',
  ];
  return list(parts.filter((w) => w !== ''));
}

async function readAsPost(id: string, body: string): Promise<void> {
  const post = await read('post', body);
  if (open.value?.id !== id || open.value.body !== body) return; /* written on meanwhile */
  if (!post?.text) return tell({ id: 'post', words: post?.sorry ?? COULD_NOT });
  write(id, post.text, true);
  pasted.value = '';
  readAs.value = { id, post };
  const short = inShort(post);
  const words = `Read as a post${short === '' ? '' : `: ${short}`}.${post.assumed > 0 ? ' What is assumed can be chosen otherwise at the end of its line.' : ''}`;
  said.value = words;
  tell({ id: 'post', words, acts: [{ words: 'Copy a reply', act: () => void writeReply() }] });
}

/** Offered where a pasted line is not understood. A recipe that somebody is just writing is rarely wrong in two lines. */
export function ReadAsPost() {
  const text = open.value;
  const wrong = openComplaints.value.filter((c) => c.level === 'error' && c.text === 'recipe' && c.line > 0).length;
  const offered = text?.kind === 'recipe' && wrong >= (pasted.value === text.id ? 1 : 2);
  const [told, setTold] = useState<{ body: string; post: Post | null } | null>(null);
  const body = offered ? text.body : null;
  useEffect(() => {
    if (body === null) return;
    let alive = true;
    read('preview', body).then(
      (post) => alive && setTold({ body, post }),
      () => undefined,
    );
    return () => {
      alive = false;
    };
  }, [body]);
  if (!offered) return null;
  const short = told?.body === text.body && told.post?.text ? inShort(told.post) : '';
  return (
    <p class="ask post no-print">
      <button type="button" class="deed" onClick={() => void readAsPost(text.id, text.body)}>
        Read it as a post
      </button>
      <span class="with">{short === '' ? 'sentences, handfuls and all' : short}; undo gives the text back</span>
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

const asksHere = computed(() => JSON.stringify(open.value?.kind === 'recipe' ? textLines('recipe', open.value.body).lines.flatMap((l) => l.ask ?? []) : []));

/** What to ask the owner, most telling first: it stands in the text itself. */
export function Questions() {
  const asks = JSON.parse(asksHere.value) as string[];
  if (asks.length === 0) return null;
  return (
    <section class="questions" aria-label="Questions for the owner">
      <p class="ask no-print">
        <button type="button" class="deed" onClick={() => void copy(asks.map((q, i) => `${i + 1}. ${q}`).join('\n'))}>
          {asks.length === 1 ? 'Copy the question' : `Copy the ${asks.length} questions`}
        </button>
        <span class="with">for the owner</span>
      </p>
      {/* They stand in the text already: here without the rest of it. */}
      <Fold name="questions" class="no-print" summary="as a list">
        <ol>
          {asks.map((q) => (
            <li>{q}</li>
          ))}
        </ol>
      </Fold>
    </section>
  );
}

const AS_STATED = 'as stated';

/** The animal that the open recipe tells of and that has no name here; null when there is none. */
function toldHere(): ToldAnimal | null {
  const a = check.value?.animal ?? null;
  if (open.value?.kind !== 'recipe') return null;
  if (a && !stale.value) return a.name ? null : { ...a, ideal_kg: a.ideal_from === AS_STATED ? a.ideal_kg : null };
  return readAs.value?.id === open.value.id ? readAs.value.post.animal : null;
}

/** "dog, 22 kg, 4 years, neutered" */
function inWords(t: ToldAnimal): string {
  const years = t.age_years === null ? '' : t.age_years < 2 ? many(Math.round(t.age_years * 12), 'month', 'months') : `${figure(t.age_years)} years`;
  const said = [
    t.species ?? '',
    t.weight_kg === null ? '' : `${figure(t.weight_kg)} kg`,
    years,
    t.neutered === null ? '' : t.neutered ? 'neutered' : 'not neutered',
    t.activity === null ? '' : `${t.activity} activity`,
    t.status === null || t.status === 'healthy' ? '' : t.status,
  ];
  return said.filter((w) => w !== '').join(', ');
}

/** One click keeps the animal that is told in passing, in the words of the text. */
export function ToldHere() {
  const told = toldHere();
  if (!isTold(told)) return null;
  return (
    <p class="ask told no-print">
      <button type="button" class="deed" onClick={() => newAnimal(told)}>
        New animal
      </button>
      <span class="with">{inWords(told)}, as the text tells</span>
    </p>
  );
}
