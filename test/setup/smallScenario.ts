/** The kit two-seater with few of its options: for tests in which what is found does not matter. */
import { mkdir, readFile, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';

const KIT = fileURLToPath(new URL('../../scenarios/kit-two-seater/scenario.yaml', import.meta.url));
/** What is coarser than in the demo. */
const COARSE = [
  [/(free_length: \{ from: 8 in, to: 12 in), step: 1 in/g, '$1, step: 2 in'],
  [/(rate: \{ from: [^}]*), step: \d+ lbf\/in/g, '$1, step: 100 lbf/in'],
  [/(trim: \{ from: [^}]*), step: 0\.25 in/g, '$1, step: 0.5 in'],
  [/(spacer: \{ from: [^}]*), step: 0\.25 in/g, '$1, step: 0.75 in'],
  [/cut_length: \[1\.4 in, 1\.7 in, 2 in\]/g, 'cut_length: [1.4 in, 1.7 in]'],
  [/keep: 12/g, 'keep: 2'],
] as const;

/** Writes it into a folder of its own and gives its path. */
export async function smallScenario(folder: string): Promise<string> {
  await mkdir(folder, { recursive: true });
  const text = await readFile(KIT, 'utf8');
  const path = join(folder, 'scenario.yaml');
  await writeFile(
    path,
    COARSE.reduce((slimmer, [from, to]) => slimmer.replaceAll(from, to), text),
  );
  return path;
}
