// Sheets of every kind, as [name, arguments, text on standard input].
import { execFileSync } from 'node:child_process';
import { mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

const lamb = '300 g lamb heart, raw\n20 g lamb liver, raw\n';
const many = Array.from({ length: 200 }, (_, i) => `${i + 1} g lamb heart, raw`).join('\n');

export function kinds(source) {
  const example = (name) => join(source, 'examples', name);
  const whom = ['--for', example('saltmarsh.animals')];
  const hebrew = join(mkdtempSync(join(tmpdir(), 'sheets-')), 'hebrew.animals');
  writeFileSync(hebrew, 'Animal: \u05e2\u05e8\u05e2\u05e8\nSpecies: dog\nAge: 4 years\nWeight: 18 kg\n');
  const larder = ['--larder', example('chest-freezer.larder')];
  return [
    ['bowl', [example('weeknight-bowl.recipe'), ...whom, ...larder], ''],
    ['pot-us-large', [example('rice-pot.recipe'), ...whom, '--units', 'us', '--paper', 'letter', '--large', '--days', '10'], ''],
    ['cat', [example('pims-plate.recipe'), ...whom], ''],
    ['posted', ['--posted', example('posted.txt'), '--dog', '18'], ''],
    ['danger', ['-'], `Recipe: Bad\nDog: 18 kg\n\n${lamb}30 g raisins\n200 g chicken wings, roasted\n`],
    ['pup', ['-'], `Recipe: Pup\nDog: 6 kg, 5 months\n\n${lamb}`],
    ['nobody', ['-'], `Recipe: Nobody's\n\n${lamb}`],
    ['hebrew', ['-', '--for', hebrew], `Recipe: \u05e7\u05e2\u05e8\u05ea \u05d4\u05e2\u05e8\u05d1\n\n${lamb}? 1 scoop \u05d0\u05d1\u05e7\u05d4\n`],
    ['arabic', ['-'], `Recipe: \u0637\u0628\u0642 <b>& "\nDog: 18 kg\n\n${lamb}`],
    ['two-hundred', ['-'], `Recipe: ${'Long '.repeat(40)}\nDog: 18 kg\n\n${many}\n`],
    ['empty-unknown', ['-'], `Recipe: U\nDog: 18 kg\n\n0 g lamb heart, raw\n? 1 scoop of a multivitamin\n`],
  ];
}

/** The answer, whatever the exit code: an animal that is not judged has one of its own. */
export function sheet(build, words, text, ...more) {
  try {
    return execFileSync(join(build, 'bowlwright'), ['sheet', ...words, '--quiet', ...more], {
      input: text,
      maxBuffer: 1 << 28,
      env: { ...process.env, BOWLWRIGHT_TODAY: '2026-11-28' },
    });
  } catch (e) {
    if (e.status === 4) return e.stdout;
    throw e;
  }
}
