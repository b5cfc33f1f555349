/** Fields of one axle: loads, measured motion, limits of the wheel, and its parts. */

import * as z from 'zod';
import * as say from '../problems/rule.ts';
import { badText, badVersion } from '../problems/value.ts';
import { leastLoad } from '../values/swept.ts';
import { ASSUMABLE } from './assumedValues.ts';
import { COMMON, usual } from './commonBands.ts';
import { checkedText, complain, fields, longText, one, optional, shortName, withDefault, yesNo } from './leaves.ts';
import { BENCH, CAR, type Level } from './level.ts';
import { listsAt, PARTS, partsAt } from './parts.ts';
import { margins, measuredBeforeCutting, plan, ranking, tolerances } from './settings.ts';
import { setup } from './setup.ts';
import { SPRING_PARTS, springListsAt, springPartsAt } from './springs.ts';

const pair = fields({
  hub_to_arch: one('length', 'positive', 'ride height: hub centre to arch lip', COMMON.hubToArch),
  damper_length: one(
    'length',
    'positive',
    'lower eye centre to rod shoulder at that height, the spring out',
    COMMON.damperLength,
  ),
  mount_raise: optional(
    one('length', 'any', 'raise of the rod shoulder when this pair was taken, if it differs', COMMON.raise),
  ),
});

const motion = fields({
  mount_raise: optional(
    one('length', 'any', 'rod shoulder above the tower plane when the pairs were taken', COMMON.raise),
  ),
  pairs: z.array(pair).min(1).max(1000).describe('measured pairs of ride height and damper length'),
  ratio: optional(
    one('ratio', 'positive', 'damper travel per wheel travel; with a single pair only', {
      most: 5,
      ...usual(0.3, 1.3),
    }),
  ),
})
  .superRefine((m, ctx) => {
    m.pairs.forEach((p, i) => {
      if (p.mount_raise === undefined && m.mount_raise === undefined) complain(ctx, ['pairs', i], say.raiseNeeded());
    });
    const first = m.pairs[0];
    if (m.pairs.length === 1 && m.ratio === undefined) complain(ctx, ['pairs'], say.ratioNeeded());
    if (m.pairs.length > 1 && m.ratio !== undefined) complain(ctx, ['ratio'], say.ratioNotNeeded(m.pairs.length), true);
    if (first === undefined || m.pairs.length === 1) return;
    const sorted = m.pairs
      .map((p, i) => ({ i, height: p.hub_to_arch, base: p.damper_length - (p.mount_raise ?? m.mount_raise ?? 0) }))
      .sort((a, b) => a.height - b.height);
    sorted.slice(1).forEach(({ i, height, base }, k) => {
      const below = sorted[k];
      if (below === undefined) return;
      if (height === below.height)
        complain(ctx, ['pairs', Math.max(i, below.i), 'hub_to_arch'], say.repeatedHeight(height));
      else if (base <= below.base)
        complain(ctx, ['pairs', i, 'damper_length'], say.motionNotRising(height, below.height));
    });
  })
  .describe('how the damper moves with the wheel');

const bushes = fields({
  rate: one('rate', 'positive', 'rate of the twisted rubber bushes at the wheel', usual(0.5, 30)),
  unloaded_height: one('length', 'positive', 'ride height at which the bushes are not twisted', COMMON.hubToArch),
}).describe('rubber bushes that act as springs');

const roll = fields({
  track: one('length', 'positive', 'track width', { least: 100, ...usual(1000, 1900) }),
  roll_centre_height: one('length', 'any', 'roll centre above ground', usual(-150, 500)),
  at_height: optional(
    one(
      'length',
      'positive',
      'hub-to-arch height of this axle at which the heights of roll centre and sprung centre of gravity were taken',
      COMMON.hubToArch,
    ),
    'the heights of roll centre and sprung centre of gravity are taken as those at each setup’s target height',
  ),
  bar_rate: one(
    'rate',
    'not_negative',
    'anti-roll bar rate at one wheel, the other held; `0 N/mm` without a bar',
    usual(0, 80),
  ),
}).describe('what cornering needs to know');

export const wheelLoad = z
  .union([
    fields({
      left: one('mass', 'positive', 'load on the left wheel at the design load, driver included', COMMON.wheelLoad),
      right: one('mass', 'positive', 'load on the right wheel at the design load, driver included', COMMON.wheelLoad),
    }),
    one('mass', 'positive', 'load on one wheel', COMMON.wheelLoad),
  ])
  .describe(
    'load on one wheel at the design load, driver included; where the sides differ `{ left, right }`: swept at their mean, metal may not meet at either, the shortlist is judged at both',
  );

const unsprungAt = (level: Level) =>
  level.usual(one('mass', 'positive', 'unsprung mass of one corner', usual(10, 70)), ASSUMABLE.unsprungMass);
const tyreOnArch = one('length', 'positive', 'ride height at which the tyre meets the arch', usual(100, 500));
const tyreRate = CAR.usual(
  one('rate', 'positive', 'vertical rate of the tyre', { least: 10, ...usual(100, 400) }),
  ASSUMABLE.tyreRate,
);

const tyreWidth = optional(
  one('length', 'positive', 'width of the tyre as its size names it; it tells the usual tyre rate', usual(125, 335)),
);
const driven = optional(yesNo('whether the axle is driven; it tells the usual unsprung mass'));

/** What is the same at both levels. */
const OWN = {
  lowest_wheel: optional(
    one('length', 'positive', 'ride height at which a strap, joint or driveshaft ends the droop', COMMON.hubToArch),
    'the damper alone ends the droop',
  ),
  bushes: optional(bushes, 'no rubber bush acts as a spring'),
  roll: optional(roll, 'cornering not computed'),
};

interface WheelFields {
  readonly wheel_load?: z.output<typeof wheelLoad> | undefined;
  readonly unsprung_mass: number;
  readonly tyre_on_arch?: number | undefined;
  readonly lowest_wheel?: number | undefined;
}

function checkWheel(
  { wheel_load, unsprung_mass, tyre_on_arch, lowest_wheel }: WheelFields,
  ctx: z.RefinementCtx,
): void {
  const load = wheel_load === undefined ? Number.POSITIVE_INFINITY : leastLoad(wheel_load);
  if (unsprung_mass >= load) complain(ctx, ['unsprung_mass'], say.unsprungNotLess(unsprung_mass, load));
  if (lowest_wheel !== undefined && tyre_on_arch !== undefined && lowest_wheel <= tyre_on_arch) {
    complain(ctx, ['lowest_wheel'], say.droopAboveArch(lowest_wheel, tyre_on_arch));
  }
}

export const axle = fields({
  wheel_load: wheelLoad,
  unsprung_mass: unsprungAt(CAR),
  driven,
  tyre_rate: tyreRate,
  tyre_width: tyreWidth,
  motion,
  tyre_on_arch: tyreOnArch,
  ...OWN,
  ...listsAt(CAR, PARTS),
  ...springListsAt(SPRING_PARTS),
}).superRefine(checkWheel);

export type AxleFields = z.output<typeof axle>;

// An axle on the bench: parts alone, or with the load and motion of a corner.

export const BENCH_PARTS = partsAt(BENCH);
export const BENCH_SPRING_PARTS = springPartsAt(BENCH);

export const benchAxle = fields({
  wheel_load: optional(wheelLoad, 'no ride height and no frequency is computed'),
  unsprung_mass: unsprungAt(BENCH),
  driven,
  tyre_rate: optional(tyreRate, 'not asked for: frequencies are those without the tyre'),
  tyre_width: tyreWidth,
  motion: optional(motion, 'no ride height and no frequency is computed'),
  tyre_on_arch: optional(tyreOnArch, 'whether the tyre meets the arch is not judged'),
  ...OWN,
  ...listsAt(BENCH, BENCH_PARTS),
  ...springListsAt(BENCH_SPRING_PARTS),
}).superRefine(checkWheel);

export type BenchAxleFields = z.output<typeof benchAxle>;

// The whole scenario file.

export const FORMAT_VERSION = 1;

const version = z
  .unknown()
  .transform((value, ctx): typeof FORMAT_VERSION => {
    if (value !== FORMAT_VERSION) complain(ctx, [], badVersion(value));
    return FORMAT_VERSION;
  })
  .meta({ const: FORMAT_VERSION, description: 'version of this format' });

export const car = fields({
  wheelbase: one('length', 'positive', 'wheelbase', { least: 100, ...usual(1600, 3800) }),
  pitch_inertia_ratio: CAR.usual(
    one(
      'ratio',
      'positive',
      'radius of gyration in pitch squared over the product of the distances of the axles from the centre of gravity',
      { least: 0.01, most: 5, ...usual(0.6, 1.3) },
    ),
    ASSUMABLE.pitchInertiaRatio,
  ),
  sprung_centre_height: optional(
    one('length', 'positive', 'sprung centre of gravity above ground', usual(300, 900)),
    'cornering not computed',
  ),
}).describe('the car as a whole');

const setups = z
  .array(setup)
  .min(1)
  .max(8)
  .superRefine((list, ctx) => {
    list.forEach(({ name }, i) => {
      const first = list.findIndex((other) => other.name === name);
      if (first !== i && name !== '') complain(ctx, [i, 'name'], say.repeatedName(name, 'setup'));
    });
  })
  .describe('what the car shall do, one entry per way of using it');

export const scenario = fields({
  springsift: version,
  name: shortName('name of the scenario, shown in the report'),
  description: withDefault(longText('a few words about the car and the question'), '', 'left out'),
  currency: optional(checkedText('currency of all prices, like EUR', /^\S{1,8}$/u, badText), 'no prices'),
  shared: optional(z.unknown().describe('a place to put YAML anchors; not read by itself')),
  car,
  axles: fields({ front: axle.describe('front axle'), rear: axle.describe('rear axle') }).describe('both axles'),
  setups,
  plan: optional(plan, 'two or more setups share every part, and the best 5 plans over all setups are kept'),
  margins: withDefault(margins, {}),
  ranking: withDefault(ranking, {}),
  tolerances: withDefault(tolerances, {}),
  measured_before_cutting: measuredBeforeCutting,
});

export type ScenarioFields = z.output<typeof scenario>;

/** A scenario of parts, or of corners: one axle or both, no wishes. */
export const benchScenario = fields({
  springsift: version,
  name: withDefault(shortName('name of the scenario, shown in the report'), 'parts on the bench', 'left out'),
  description: withDefault(longText('a few words about the parts and the question'), '', 'left out'),
  currency: optional(checkedText('currency of all prices, like EUR', /^\S{1,8}$/u, badText), 'no prices'),
  shared: optional(z.unknown().describe('a place to put YAML anchors; not read by itself')),
  axles: fields({
    front: optional(benchAxle.describe('front axle'), 'left out'),
    rear: optional(benchAxle.describe('rear axle'), 'left out'),
  })
    .superRefine((axles, ctx) => {
      if (axles.front === undefined && axles.rear === undefined) complain(ctx, [], say.axleNeeded());
    })
    .describe('one axle, or both'),
  car: optional(car, 'nothing of the whole car is computed'),
  margins: withDefault(margins, {}),
  tolerances: withDefault(tolerances, {}),
});

export type BenchScenarioFields = z.output<typeof benchScenario>;
