/** A scenario that sweeps for half an hour on any machine of today: to be stopped, killed or starved. */
import { cp, readFile, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';

const DEMO = fileURLToPath(new URL('../../scenarios/hill-hatch', import.meta.url));
const GRID =
  '- { name: grid, free_length: { from: 180 mm, to: 280 mm, step: 5 mm }, rate: { from: 22 N/mm, to: 64 N/mm, step: 0.1 N/mm }, bore: 60 mm, solid_height: 90 mm, price: 70 }';

/** Writes it into a folder of its own and gives its path. */
export async function largeScenario(folder: string): Promise<string> {
  await cp(DEMO, folder, { recursive: true });
  const text = await readFile(join(folder, 'scenario.yaml'), 'utf8');
  const path = join(folder, 'large.yaml');
  await writeFile(
    path,
    text
      .replaceAll('- catalogue: springs.csv', GRID)
      .replaceAll(/trim: \{ from: 0 mm, to: (\d+) mm, step: 5 mm \}/g, 'trim: { from: 0 mm, to: $1 mm, step: 0.1 mm }')
      .replaceAll(/cut_length: \[(\d+) mm, (\d+) mm\]/g, 'cut_length: { from: $1 mm, to: $2 mm, step: 0.1 mm }')
      .replaceAll(/spacer: \[0 mm,[^\]]*\]/g, 'spacer: { from: 0 mm, to: 12 mm, step: 0.1 mm }'),
  );
  return path;
}
