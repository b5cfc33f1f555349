/** Fields with defaults for the whole scenario: margins, ranking, tolerances. */

import * as z from 'zod';
import { CRITERIA, CRITERION_NAMES, type CriterionName } from '../../model/criteria.ts';
import { type Family, MEASURABLE } from '../../model/scenario.ts';
import * as say from '../problems/rule.ts';
import { badSetupName } from '../problems/value.ts';
import { COMMON, usual } from './commonBands.ts';
import { COMMON_PRACTICE, checkedText, choice, complain, fields, one, optional, withDefault } from './leaves.ts';

const margin = (text: string, value: string) => withDefault(one('length', 'not_negative', text, COMMON.margin), value);
const weight = (text: string, value: number) => withDefault(one('ratio', 'not_negative', text), value);
const within = (dimension: keyof typeof HALF_WIDTHS, text: string, value: string) =>
  withDefault(one(dimension, 'not_negative', text, HALF_WIDTHS[dimension]), value);
const HALF_WIDTHS = { length: usual(0, 10), share: usual(0, 30), force: usual(0, 300) };
const EXACT = 'taken as exact where neither this nor `unknown` is written';

/** How well a stop's closed fraction is known without, and with a force curve from a press. Common practice, no source. */
export const CLOSED_FRACTION = 0.06;
export const CLOSED_FRACTION_OF_CURVE = 0.03;

export const margins = fields({
  coil_bind: optional(
    z
      .union([
        choice(['en_13906'], 'the least sum of gaps between coils of each spring (EN 13906-1, from memory)'),
        one('length', 'not_negative', 'least clearance to coil bind, along the damper', COMMON.margin),
      ])
      .describe(
        'least clearance to coil bind, along the damper; `en_13906`: each spring’s least sum of gaps between coils',
      ),
    'the greater of 6 mm (common practice, no source) and half of the least sum of gaps between coils (EN 13906-1, from memory) where the wire is known, else 6 mm',
  ),
  damper: margin('least clearance before the damper bottoms inside', '3 mm'),
  sleeve: margin('least clearance between sleeve and the parts above it', '4 mm'),
  body: margin('least clearance between damper body and the parts above it', '4 mm'),
  tyre: margin('least clearance between tyre and arch, along the damper', '8 mm'),
  passing: margin('least difference in diameter for one part to pass through another', '1 mm'),
}).describe('clearances at full bump that a combination must keep');

const weights = Object.fromEntries(
  CRITERION_NAMES.map((name) => [name, weight(CRITERIA[name].asks, CRITERIA[name].weight)]),
) as Readonly<Record<CriterionName, ReturnType<typeof weight>>>;

export const ranking = fields({
  weights: withDefault(
    fields(weights).superRefine((w, ctx) => {
      if (Object.values(w).every((value) => value === 0)) complain(ctx, [], say.allWeightsZero());
    }),
    {},
  ).describe('weight of each criterion in the score; 0 leaves it out'),
  price: optional(
    fields({
      good: one('money', 'not_negative', 'price per car at which the criterion is fully met'),
      worst: one('money', 'positive', 'price per car at which it is not met at all'),
    })
      .superRefine((p, ctx) => {
        if (p.good >= p.worst) complain(ctx, ['good'], say.goodPriceNotLower());
      })
      .describe('scale of the price criterion'),
    'price does not count in the score',
  ),
  good_clearance: withDefault(
    one('length', 'positive', 'thinnest clearance beyond its margin at which the criterion is fully met', usual(2, 50)),
    '10 mm',
  ),
  keep: withDefault(
    one('count', 'positive', 'how many combinations the shortlist keeps', { whole: true, most: 1000 }),
    20,
  ),
})
  .superRefine((r, ctx) => {
    if (r.weights.price > 0 && r.price === undefined)
      complain(ctx, ['weights', 'price'], say.weightWithout('price', '`ranking.price`'));
  })
  .describe('how workable combinations are put in order');

export const tolerances = fields({
  free_length: within('length', 'free length of a spring', '2 mm'),
  rate: within('share', 'rate of a spring', '5 %'),
  solid_height: within('length', 'solid height that is known', '2 mm'),
  body: within('length', 'damper body length', '1 mm'),
  damper_length: within('length', 'extended and compressed damper length', '1 mm'),
  sleeve: within('length', 'sleeve length, ledge and trim', '0.5 mm'),
  perch: within('length', 'perch and lock ring height', '0.5 mm'),
  stop_length: within('length', 'bump stop length', '1 mm'),
  closed_fraction: optional(
    one('ratio', 'not_negative', 'closed fraction of the bump stop, as a number', { most: 1, ...usual(0, 0.2) }),
    `${CLOSED_FRACTION}, or ${CLOSED_FRACTION_OF_CURVE} for a stop whose force curve was measured (${COMMON_PRACTICE})`,
  ),
  stop_force: within('share', 'force of the bump stop over its whole curve', '20 %'),
  mount: within('length', 'raise and flange depth of the mount', '1 mm'),
  bush_give: within('length', 'give of the mount’s bush', '1 mm'),
  isolator: within('length', 'isolator thickness', '1 mm'),
  spring_bore: within('length', 'bore of a spring', '0.3 mm'),
  diameter: within('length', 'bores and outer diameters of all other parts', '0.1 mm'),
  wheel_load: within('share', 'wheel load', '3 %'),
  unsprung_mass: within('share', 'unsprung mass', '20 %'),
  tyre_on_arch: within('length', 'ride height at which the tyre meets the arch', '4 mm'),
  lowest_wheel: within('length', 'ride height at which something else than the damper ends the droop', '4 mm'),
  friction: within(
    'force',
    'friction of joints, bushes and seals at the wheel, for the height a car stands at',
    '80 N',
  ),
  motion_ratio: within('share', 'motion ratio', '2 %'),
  gas: within('share', 'gas force', '10 %'),
  tyre_rate: optional(one('share', 'not_negative', `rate of the tyre; ${EXACT}`, HALF_WIDTHS.share)),
  engagement: optional(
    one('length', 'not_negative', `depth the seats hold the spring by; ${EXACT}`, HALF_WIDTHS.length),
  ),
  pitch_inertia_ratio: optional(
    one('ratio', 'not_negative', `pitch inertia ratio, as a number; ${EXACT}`, { most: 1, ...usual(0, 0.3) }),
  ),
  reading: within('length', 'what is read on the bench before cutting, lengths', '0.5 mm'),
  reading_share: within('share', 'the same, rates, forces and loads', '1 %'),
}).describe('half-widths: how far each measured or bought dimension may be off, either way');

export const measuredBeforeCutting = withDefault(
  z
    .array(choice(MEASURABLE, 'what is measured'))
    .max(MEASURABLE.length)
    .describe(
      'what is measured on the bench, parts in hand, before anything is cut: `lengths` with ruler and caliper, `rates` of springs and `forces` of stops and gas in a press, `loads` under the wheels',
    ),
  ['lengths'],
);

export type MarginFields = z.output<typeof margins>;
export type RankingFields = z.output<typeof ranking>;
export type ToleranceFields = z.output<typeof tolerances>;

// Fields of the plan over several setups: what is bought and cut once for all of them.

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

export const DEFAULT_SHORTLIST = 5;

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
  keep: withDefault(one('count', 'positive', 'how many plans are kept', { whole: true, most: 100 }), DEFAULT_SHORTLIST),
});

export const plan = z
  .union([choice(['none'], 'no plan'), planFields])
  .describe('the plan over several setups: which of them, and what may be swapped between them; `none` for no plan');

export type PlanFields = z.output<typeof plan>;
