/**
 * From a scenario, or none, to a sheet of everything to measure. Writes nothing.
 *
 *   fields of the format, values of the scenario --sift--> best of each setup --tolerances stepped--> sheet --> page
 */
import * as z from 'zod';
import { assumedInWords } from '../input/schema/assumedValues.ts';
import { bare, unknownOf } from '../input/schema/issues.ts';
import { benchAxle, type ScenarioFields } from '../input/schema/scenario.ts';
import { UNKNOWN } from '../input/values/quantity.ts';
import { cornerAt } from '../model/corner/options.ts';
import { siteOf } from '../model/corner/site.ts';
import { fingerprintOf, pairId } from '../model/ids.ts';
import { AXLE_NAMES, type AxleName, type Scenario, type Setup } from '../model/scenario.ts';
import { type Checked, SweepStopped } from '../pipeline.ts';
import { type GroupName, ROWS } from '../result/measuring.ts';
import { type AxleEffects, effectsOf } from '../result/tolerance/settling.ts';
import type { SetupOutcome } from '../sweep/outcome.ts';
import { QUIET_RUN, type RunOptions, sweepAll } from '../sweep/sweep.ts';
import { defaultTolerances, type MeasureSheet, measuredFields } from './measurable.ts';
import { lettersOf, TITLES } from './page.ts';

/** The sheet of a scenario: its values beside the boxes, and what each measurement decides for its best purchases. */
export async function measureSheetOf(
  read: Checked & { readonly fields: ScenarioFields },
  tool: string,
  run: RunOptions = QUIET_RUN,
): Promise<MeasureSheet> {
  const { scenario } = read;
  const swept = await sweepAll(scenario, run);
  if (swept.judged < swept.of || run.signal?.aborted === true) throw new SweepStopped(swept.judged, swept.of);
  const found = swept.setups.flatMap((outcome) => bestOf(scenario, outcome) ?? []);
  return {
    ...blankSheet(tool),
    scenario: scenario.name,
    fields: measuredFields(read),
    files: read.files,
    tolerances: scenario.tolerances,
    bests: found.map(({ setup, id }) => ({ setup: setup.name, id })),
    effects: found.flatMap(({ effects }) => effects),
  };
}

export function blankSheet(tool: string): MeasureSheet {
  const tolerances = defaultTolerances();
  return {
    tool,
    scenario: null,
    fields: measuredFields(null),
    files: [{ path: 'scenario.yaml', text: startFile() }],
    tolerances,
    defaults: tolerances,
    bests: [],
    effects: [],
  };
}

/** The sheet as a page. */
export async function drawMeasure(sheet: MeasureSheet): Promise<string> {
  const { measureHtml } = await import('./page.ts');
  return measureHtml(sheet);
}

interface Best {
  readonly setup: Setup;
  readonly id: string;
  readonly effects: readonly AxleEffects[];
}

/** The best pair of a setup with its effects; null where nothing works. */
function bestOf(scenario: Scenario, { setup, pairs }: SetupOutcome): Best | null {
  const [best] = pairs.best;
  if (!best) return null;
  const index = { front: best.front.index, rear: best.rear.index };
  const effects = (axle: AxleName): AxleEffects => {
    const model = { site: siteOf(scenario, setup, axle), corner: cornerAt(scenario.axles[axle].options, index[axle]) };
    return { setup: setup.name, axle, effects: effectsOf(model, scenario.tolerances) };
  };
  const id = pairId({ setup: setup.name, ...index }, fingerprintOf(scenario));
  return { setup, id, effects: AXLE_NAMES.map(effects) };
}

// The file that a newcomer fills in: the parts of one axle in the order of the measuring sheet, every value `unknown`.

const OPENING = `# Parts on the bench: will they fit, and how high can the perch go?
# Fill in what you have measured, each value with its unit: 474 mm, 18.7 in. What has a usual value may stay unknown; the
# others are needed. A letter is that of the measuring sheet, measure.html, which lies beside this file.
# Several choices of one length are a list: trim: [0 mm, 10 mm, 20 mm]. Several springs are several entries.
springsift: 1
name: my parts
axles:
  front:
`;

const CLOSING = `
    # What lies between flange and spring, and a second spring below it, where there are any:
    # isolators: [{ thickness: 6 mm }]
    # helpers: [none, { free_length: 60 mm, block_height: 14 mm }]

    # With these there are ride heights and frequencies, too; the rate of the spring is then needed.
    # wheel_load: 300 kg
    # motion: { mount_raise: 10 mm, pairs: [{ hub_to_arch: 340 mm, damper_length: 410 mm }], ratio: 0.95 }
`;

/** Fields that are chosen, not measured, and say more where they are given. */
const CHOSEN: Readonly<Record<string, string>> = {
  'sleeves[].trim': 'How much you would trim its upper end; 0 mm leaves it whole',
};

interface Entry {
  readonly field: string;
  readonly isNeeded: boolean;
  /** What is then taken; empty where nothing is. */
  readonly usual: string;
  readonly comment: string;
}

export function startFile(): string {
  const groups = Object.keys(ROWS) as GroupName[];
  const lists = new Map<string, Entry[]>();
  for (const group of groups) {
    const letter = lettersOf(group);
    for (const { paths, how, instead } of ROWS[group]) {
      for (const path of paths) {
        const [, list, field] = /^(\w+)\[\]\.(\w+)$/.exec(path) ?? [];
        if (list === undefined || field === undefined || instead) continue;
        const own = askedOf(list, field);
        if (own === null) continue;
        const mark = letter(path) === '' ? TITLES[group] : `${TITLES[group]} ${letter(path)}`;
        const comment = path === paths[0] || paths.length === 1 ? `${mark}: ${how}` : `${mark}: see above`;
        lists.set(list, [...(lists.get(list) ?? []), { field, isNeeded: own.isNeeded, usual: own.usual, comment }]);
      }
    }
  }
  for (const [path, comment] of Object.entries(CHOSEN)) {
    const [list = '', field = ''] = path.split('[].');
    lists.get(list)?.push({ field, isNeeded: false, usual: ' (0 mm)', comment });
  }
  const blocks = [...lists].map(([list, entries]) => blockOf(list, entries));
  return OPENING + blocks.join('') + CLOSING;
}

function blockOf(list: string, entries: readonly Entry[]): string {
  const sorted = [...entries].sort((a, b) => Number(b.isNeeded) - Number(a.isNeeded));
  const rows = sorted.map(({ field, isNeeded, usual, comment }, k) => {
    const written = `${k === 0 ? '- ' : '  '}${field}: ${UNKNOWN}`.padEnd(WIDTH);
    return `      ${written} # ${isNeeded ? '' : `may stay unknown${usual}. `}${comment}\n`;
  });
  return `    ${list}:\n${rows.join('')}`;
}

const WIDTH = 28;

/** What the bench asks of a part: what it needs, and what it has a usual value for or judges more with. */
function askedOf(list: string, field: string): Pick<Entry, 'isNeeded' | 'usual'> | null {
  const shape = benchAxle.shape as Readonly<Record<string, z.core.$ZodType>>;
  const found = shape[list];
  if (found === undefined) return null;
  const element = elementOf(found);
  const leaf = element?.shape[field] as z.core.$ZodType | undefined;
  if (leaf === undefined || OPTIONAL_LISTS.has(list)) return null;
  const unknown = unknownOf(leaf);
  const usual = unknown ? ` (${assumedInWords(unknown)})` : '';
  if (unknown !== undefined) return { isNeeded: isMust(list, field), usual };
  const isOpen = leaf instanceof z.ZodPrefault || (leaf instanceof z.ZodOptional && !isMust(list, field));
  return isOpen ? null : { isNeeded: true, usual };
}

/** Where one of two fields is needed, the one that is asked for. */
const isMust = (list: string, field: string) => ['mounts.raise', 'springs.solid_height'].includes(`${list}.${field}`);

const OPTIONAL_LISTS: ReadonlySet<string> = new Set(['helpers', 'isolators', 'rod_ends']);

function elementOf(schema: z.core.$ZodType): z.ZodObject | null {
  const array = bare(schema);
  if (!(array instanceof z.ZodArray)) return null;
  const element = bare(array.element as z.core.$ZodType);
  const options = element instanceof z.ZodUnion ? element.options : [element];
  return (options.findLast((option) => option instanceof z.ZodObject) as z.ZodObject | undefined) ?? null;
}
