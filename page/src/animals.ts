/** A new animal at the end of the text about them: with what is told of it, or as a form to be filled in. */
import type { ToldAnimal } from './core/answers';
import { animals, recipe, said, tell } from './state';
import { showText, write } from './texts';
import { putCaret } from './writing/field-edit';
import { animalNames, withAnimal } from './writing/text';

const FORM: ToldAnimal = { species: 'dog', weight_kg: null, age_years: null, neutered: true, activity: 'moderate', ideal_kg: null, status: null };

const age = (years: number | null): string =>
  years === null ? ' years' : years < 2 && years % 1 !== 0 ? `${Math.round(years * 12)} months` : `${Number(years.toFixed(2))} ${years === 1 ? 'year' : 'years'}`;

function block(name: string, t: ToldAnimal): string {
  return [
    `Animal: ${name}`,
    `Species: ${t.species ?? ''}`,
    `Weight: ${t.weight_kg === null ? ' kg' : `${Number(t.weight_kg.toPrecision(4))} kg`}`,
    ...(t.ideal_kg === null ? [] : [`Ideal: ${Number(t.ideal_kg.toPrecision(4))} kg`]),
    `Age: ${age(t.age_years)}`,
    ...(t.neutered === null ? [] : [`Neutered: ${t.neutered ? 'yes' : 'no'}`]),
    ...(t.activity === null ? [] : [`Activity: ${t.activity}`]),
    `Status: ${t.status ?? 'healthy'}`,
    '',
  ].join('\n');
}

/** Is anything told that an animal can be begun with? */
export const isTold = (t: ToldAnimal | null): t is ToldAnimal => t !== null && (t.species !== null || t.weight_kg !== null || t.age_years !== null);

function newName(t: ToldAnimal): string {
  const names = animalNames(animals.value?.body ?? '').map((n) => n.toLowerCase());
  const name = `Posted ${t.species ?? 'animal'}`;
  for (let n = 1; ; n++) {
    const one = n === 1 ? name : `${name} ${n}`;
    if (!names.includes(one.toLowerCase())) return one;
  }
}

/** Where the first thing is missing, else the name. */
function firstGap(name: string, t: ToldAnimal): number {
  const missing = name === '' ? 'Animal: ' : t.species === null ? 'Species: ' : t.weight_kg === null ? 'Weight: ' : t.age_years === null ? 'Age: ' : 'Animal: ';
  return block(name, t).indexOf(missing) + missing.length;
}

/** With what is told, in one click: it is kept, and the recipe is for it from then on. Where something is missing its form is shown. */
export function newAnimal(told: ToldAnimal | null = null): void {
  const a = animals.value;
  if (!a) return;
  const before = a.body.trimEnd() === '' ? '' : `${a.body.trimEnd()}\n\n`;
  const known = isTold(told);
  const name = known ? newName(told) : '';
  const begins = known ? told : FORM;
  const form = block(name, begins);
  const whole = known && told.species !== null && told.weight_kg !== null && told.age_years !== null;
  write(a.id, before + form, true);
  if (known && recipe.value) write(recipe.value.id, withAnimal(recipe.value.body, name), true);
  const fill = (): void => {
    showText(a.id);
    putCaret(a.id, before.length + firstGap(name, begins));
  };
  if (!whole) return fill();
  const words = `${name} is among your animals now, and this bowl is for it.`;
  said.value = words;
  tell({ id: 'animal', words, acts: [{ words: 'Name it', act: fill }] });
}
