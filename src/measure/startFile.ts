/** The file that a newcomer fills in: the parts of one axle in the order of the measuring sheet, every value `unknown`. */

import * as z from 'zod';
import { assumedInWords } from '../input/schema/assumedValues.ts';
import { bare, unknownOf } from '../input/schema/issues.ts';
import { benchAxle } from '../input/schema/scenario.ts';
import { UNKNOWN } from '../input/values/quantity.ts';
import { type GroupName, ROWS } from '../result/measuring.ts';
import { lettersOf, TITLES } from './page.ts';

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
