import { animalNames, forWhom, nameOf, withAnimal } from './writing/text';
import { computed } from '@preact/signals';
import type { Animal } from './core/answers';
import { animals, animalsBody, basis, check, open, openKind, recipe, standard, sure } from './state';
import { newAnimal } from './animals';
import { showText, write } from './texts';
import { stale } from './view';
import { BASES, STANDARDS } from './words';

const SURE = [50, 75, 90, 95];

const ANOTHER = '\u0000another';
/* Of these alone, so that the head is not drawn anew with every letter. */
const animalText = computed(() => JSON.stringify(check.value?.animal ?? null));
const animalHere = computed(() => JSON.parse(animalText.value) as Animal | null);
const namesHere = computed(() => animalNames(animalsBody.value));
const wantedHere = computed(() => forWhom('recipe', recipe.value?.body ?? ''));

export function Head() {
  const animal = animalHere.value;
  const names = namesHere.value;
  const wanted = wantedHere.value || (names.length === 1 ? (names[0] as string) : '');
  const known = names.find((n) => n.toLowerCase() === wanted.toLowerCase()) ?? '';
  /* Of a text that cannot be read the last animal is still there; it must not stand behind another's name. */
  const told = wanted === '' && animal !== null && !names.includes(animal.name ?? '') && !stale.value;
  const described = animal && (told || (animal.name ?? '').toLowerCase() === known.toLowerCase());
  return (
    <header class="head">
      <h1>Bowlwright</h1>
      <p class="whom">
        <label class="as-text">
          <span class="unseen">The bowl is for</span>
          <select
            class="name"
            value={known}
            onChange={(e) => {
              const r = recipe.value;
              if (e.currentTarget.value === ANOTHER) newAnimal();
              else if (r) write(r.id, withAnimal(r.body, e.currentTarget.value));
            }}
          >
            {known === '' && <option value="">{told ? (animal?.name ?? 'the animal of the text') : 'for whom?'}</option>}
            {names.map((n) => (
              <option value={n}>{n}</option>
            ))}
            <option value={ANOTHER}>another animal …</option>
          </select>
        </label>
        {described && <span class="described">{animal.told}</span>}
        <button
          type="button"
          class="quiet no-print"
          onClick={() => {
            const a = animals.value;
            if (!a) return;
            if (open.value?.id === a.id && recipe.value) showText(recipe.value.id);
            else showText(a.id);
            document.getElementById('field')?.focus();
          }}
        >
          {openKind.value === 'animals' ? `back to ${recipe.value ? nameOf(recipe.value) : ''}` : 'change'}
        </button>
      </p>
      <p class="how">
        <Choose label="Standard" value={standard.value} set={(v) => (standard.value = v)} options={STANDARDS.map((s, i) => [i, s.name])} />
        <Choose label="Allowances by" value={basis.value} set={(v) => (basis.value = v)} options={BASES.map((s, i) => [i, s.name])} />
        <Choose
          label="Confidence wanted"
          value={Math.round(sure.value * 100)}
          set={(v) => (sure.value = v / 100)}
          options={SURE.map((s) => [s, `${s} % sure`])}
        />
      </p>
    </header>
  );
}

function Choose(p: { label: string; value: number; set: (v: number) => void; options: [number, string][] }) {
  return (
    <label class="as-text">
      <span class="unseen">{p.label}</span>
      <select value={p.value} onChange={(e) => p.set(Number(e.currentTarget.value))}>
        {p.options.map(([v, words]) => (
          <option value={v}>{words}</option>
        ))}
      </select>
    </label>
  );
}
