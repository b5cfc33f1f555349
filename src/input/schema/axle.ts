/** Fields of one axle: loads, measured motion, limits of the wheel, and its parts. */
import { z } from 'zod';
import * as say from '../messages/rule.ts';
import { leastLoad } from '../values/wheelLoads.ts';
import { bumpStops } from './bumpStop.ts';
import { dampers } from './damper.ts';
import { complain, fields, one, optional, withDefault } from './leaves.ts';
import { perches, sleeves } from './sleeveAndPerch.ts';
import { helpers, springs } from './springs.ts';
import { isolators, mounts, rodEnds } from './upperParts.ts';
import { USUAL, usual } from './usual.ts';

const pair = fields({
  hub_to_arch: one('length', 'positive', 'ride height: hub centre to arch lip', USUAL.hubToArch),
  damper_length: one(
    'length',
    'positive',
    'lower eye centre to rod shoulder at that height, the spring out',
    USUAL.damperLength,
  ),
  mount_raise: optional(
    one('length', 'any', 'raise of the rod shoulder when this pair was taken, if it differs', USUAL.raise),
  ),
});

const motion = fields({
  mount_raise: optional(
    one('length', 'any', 'rod shoulder above the tower plane when the pairs were taken', USUAL.raise),
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
  unloaded_height: one('length', 'positive', 'ride height at which the bushes are not twisted', USUAL.hubToArch),
}).describe('rubber bushes that act as springs');

const roll = fields({
  track: one('length', 'positive', 'track width', usual(1000, 1900)),
  roll_centre_height: one('length', 'any', 'roll centre above ground', usual(-150, 500)),
  at_height: optional(
    one(
      'length',
      'positive',
      'hub-to-arch height of this axle at which the heights of roll centre and sprung centre of gravity were taken',
      USUAL.hubToArch,
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
      left: one('mass', 'positive', 'load on the left wheel at the design load, driver included', USUAL.wheelLoad),
      right: one('mass', 'positive', 'load on the right wheel at the design load, driver included', USUAL.wheelLoad),
    }),
    one('mass', 'positive', 'load on one wheel', USUAL.wheelLoad),
  ])
  .describe(
    'load on one wheel at the design load, driver included; where the sides differ `{ left, right }`: swept at their mean, metal may not meet at either, the shortlist is judged at both',
  );

export const axle = fields({
  wheel_load: wheelLoad,
  unsprung_mass: one('mass', 'positive', 'unsprung mass of one corner', usual(10, 70)),
  tyre_rate: one('rate', 'positive', 'vertical rate of the tyre', usual(100, 400)),
  motion,
  tyre_on_arch: one('length', 'positive', 'ride height at which the tyre meets the arch', usual(100, 500)),
  lowest_wheel: optional(
    one('length', 'positive', 'ride height at which a strap, joint or driveshaft ends the droop', USUAL.hubToArch),
    'the damper alone ends the droop',
  ),
  bushes: optional(bushes, 'no rubber bush acts as a spring'),
  roll: optional(roll, 'cornering not computed'),
  dampers,
  mounts,
  isolators,
  bump_stops: bumpStops,
  rod_ends: withDefault(rodEnds, ['none'], 'not given: the rod end is not checked'),
  sleeves,
  perches,
  helpers: withDefault(helpers, ['none'], 'not given: no helper spring'),
  springs,
}).superRefine((a, ctx) => {
  const load = leastLoad(a.wheel_load);
  if (a.unsprung_mass >= load) complain(ctx, ['unsprung_mass'], say.unsprungNotLess(a.unsprung_mass, load));
  if (a.lowest_wheel !== undefined && a.lowest_wheel <= a.tyre_on_arch) {
    complain(ctx, ['lowest_wheel'], say.droopAboveArch(a.lowest_wheel, a.tyre_on_arch));
  }
});

export type AxleFields = z.output<typeof axle>;
