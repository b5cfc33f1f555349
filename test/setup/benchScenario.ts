/** Invented parts of one axle, in as few values as will do, and the corner that they make. */
import { type Problem, readAnyLevel } from '../../src/input/readScenario.ts';
import { memoryFiles } from '../../src/input/source/files.ts';
import type { BenchScenario, InputWarning } from '../../src/model/scenario.ts';

export const PARTS_TEXT = `springsift: 1
axles:
  front:
    dampers: [{ extended: 474 mm, compressed: 324 mm, body_length: 318 mm }]
    mounts: [{ raise: 12 mm, flange_depth: -10 mm }]
    bump_stops: [{ length: 60 mm, closed_fraction: unknown }]
    sleeves: [{ ledge_height: 150 mm, length: 160 mm, trim: 20 mm }]
    perches: [{ height: 11 mm }]
    springs: [{ free_length: 280 mm, solid_height: 106 mm }]
`;

export const CORNER_TEXT = `${PARTS_TEXT.replace('106 mm }', '106 mm, rate: 34 N/mm }')}    wheel_load: 268 kg
    motion: { mount_raise: 12 mm, pairs: [{ hub_to_arch: 335 mm, damper_length: 410 mm }], ratio: 0.95 }
`;

const NO_ROWS = 'free_length_mm,rate_n_per_mm,bore_mm,solid_height_mm\n200,40,60,80\n';

/** @param springs the catalogue that lies beside it */
export function readBenchText(text: string, springs = NO_ROWS) {
  return readAnyLevel(
    'scenario.yaml',
    memoryFiles([
      { path: 'scenario.yaml', text },
      { path: 'springs.csv', text: springs },
    ]),
  );
}

export interface SoundBench {
  readonly scenario: BenchScenario;
  readonly warnings: readonly InputWarning[];
}

/** @throws where the text is no sound scenario of the bench */
export async function benchOfText(text: string, springs?: string): Promise<SoundBench> {
  const read = await readBenchText(text, springs);
  if (read.level !== 'bench' || !read.ok) throw new Error(JSON.stringify(read.ok ? read.level : read.problems));
  return read;
}

export async function problemsInBench(text: string): Promise<readonly Problem[]> {
  const read = await readBenchText(text);
  if (read.level !== 'bench') throw new Error('not of the bench');
  return read.ok ? [] : read.problems;
}
