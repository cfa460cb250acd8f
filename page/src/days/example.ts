/** The Saltmarsh household's journal and plan, with the recipes that they name: for a first look. */
import { tell, texts } from '../state';
import { addText } from '../texts';
import type { Kind } from '../store/store';

export async function beginWithExample(): Promise<void> {
  const { EXAMPLES } = await import('./examples');
  const there = new Set(texts.value.map((t) => t.id));
  for (const [id, kind, body] of EXAMPLES) if (!there.has(id)) await addText(kind as Kind, body, false, id);
  tell({ id: 'days-example', words: 'The journal of the Saltmarsh household is here now, with its plan and the recipes that they name. Every line of it is invented; remove it when you begin your own.' });
}
