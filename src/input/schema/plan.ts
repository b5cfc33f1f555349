/** Fields of the plan over several setups: what is bought and cut once for all of them. */
import { z } from 'zod';
import type { Family } from '../../domain/scenario.ts';
import { badSetupName } from '../messages/shape.ts';
import { checkedText, choice, fields, one, optional, withDefault } from './leaves.ts';

/** The part lists of an axle by their names in the file, and the family each one holds. */
export const FAMILY_OF_LIST = {
  dampers: 'damper',
  mounts: 'mount',
  isolators: 'isolator',
  bump_stops: 'bumpStop',
  rod_ends: 'rodEnd',
  sleeves: 'sleeve',
  perches: 'perch',
  helpers: 'helper',
  springs: 'spring',
} as const satisfies Readonly<Record<string, Family>>;

type ListName = keyof typeof FAMILY_OF_LIST;
const LIST_NAMES = Object.keys(FAMILY_OF_LIST) as [ListName, ...ListName[]];

export const DEFAULT_KEEP = 5;

export const planFields = fields({
  setups: optional(
    z
      .array(checkedText('name of a setup', /^[a-z0-9_]{1,12}$/, badSetupName))
      .min(2)
      .max(8)
      .describe('names of the setups to plan for, two or more'),
    'all setups',
  ),
  swapped: withDefault(
    z
      .array(choice(LIST_NAMES, 'a part list of the axles'))
      .max(LIST_NAMES.length)
      .describe(
        'part lists whose parts may be swapped between setups, like `[springs, helpers]`; all others are shared',
      ),
    [],
    'the cheapest: every part is bought and cut once',
  ),
  keep: withDefault(one('count', 'positive', 'how many plans are kept', { whole: true, most: 100 }), DEFAULT_KEEP),
});

export const plan = z
  .union([choice(['none'], 'no plan'), planFields])
  .describe('the plan over several setups: which of them, and what may be swapped between them; `none` for no plan');

export type PlanFields = z.output<typeof plan>;
