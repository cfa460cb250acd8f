import journal from '@examples/autumn.journal?raw';
import plan from '@examples/november.plan?raw';
import pim from '@examples/pims-plate-mended.recipe?raw';
import rice from '@examples/rice-pot-mended.recipe?raw';
import weeknight from '@examples/weeknight-bowl-mended.recipe?raw';

export const EXAMPLES: [string, string, string][] = [
  ['example-weeknight-bowl-mended', 'recipe', weeknight],
  ['example-rice-pot-mended', 'recipe', rice],
  ['example-pims-plate-mended', 'recipe', pim],
  ['example-november', 'plan', plan],
  ['journal', 'journal', journal],
];
