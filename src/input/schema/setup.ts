/** Fields of one setup: what each axle shall reach, and under which loads. */

import * as z from 'zod';
import * as say from '../problems/rule.ts';
import { badSetupName } from '../problems/value.ts';
import { COMMON, usual } from './commonBands.ts';
import {
  COMMON_PRACTICE,
  checkedText,
  choice,
  complain,
  fields,
  one,
  optional,
  shortName,
  span,
  withDefault,
  yesNo,
} from './leaves.ts';
import { NAMES_OF_WISHES, WISHES } from './wishes.ts';

export const target = fields({
  target_height: one('length', 'positive', 'ride height to set: hub centre to arch lip', COMMON.hubToArch),
  wanted_range: span(
    'length',
    'positive',
    'ride heights that should be reachable by turning the perch, `[from, to]`',
    COMMON.hubToArch,
  ),
  bump_travel: fields({
    least: one(
      'length',
      'any',
      'remaining bump travel at the wheel below which a combination is rejected; below 0 only where the car may stand on its stops',
      usual(-30, 120),
    ),
    good: one('length', 'positive', 'remaining bump travel beyond which more counts for nothing', usual(10, 200)),
  })
    .superRefine((b, ctx) => {
      if (b.good <= b.least) complain(ctx, ['good'], say.goodNotAboveLeast(b.good, b.least));
    })
    .describe('remaining travel of the wheel from the target height up to the bump stop'),
  droop_travel: fields({
    least: one(
      'length',
      'not_negative',
      'remaining droop travel at the wheel below which a combination is rejected',
      usual(0, 120),
    ),
  }).describe('remaining travel of the wheel from the target height down to full droop'),
  frequency: fields({
    from: one('frequency', 'positive', 'lowest accepted frequency', COMMON.frequency),
    to: one('frequency', 'positive', 'highest accepted frequency', COMMON.frequency),
    wanted: optional(
      one('frequency', 'positive', 'frequency to aim for', COMMON.frequency),
      'no particular frequency is wanted',
    ),
  })
    .superRefine((f, ctx) => {
      if (f.from > f.to) complain(ctx, ['to'], say.endsReversed());
      else if (f.wanted !== undefined && (f.wanted < f.from || f.wanted > f.to)) {
        complain(ctx, ['wanted'], say.valueOutsideWindow(f.wanted, f.from, f.to));
      }
    })
    .describe('window of the frequency, in the sense of `frequency_basis`'),
  allowed_slack: withDefault(
    one('length', 'not_negative', 'how far the spring may come loose at full droop', usual(0, 40)),
    '0 mm',
    'the safe side: the spring stays seated',
  ),
  damping_ratio: optional(
    fields({
      from: one('ratio', 'positive', 'lower end of the window', COMMON.dampingRatio),
      to: one('ratio', 'positive', 'upper end of the window', COMMON.dampingRatio),
    })
      .superRefine((d, ctx) => {
        if (d.from > d.to) complain(ctx, ['to'], say.endsReversed());
      })
      .describe('window of the damping ratio at 0.1 m/s; outside it is a warning'),
    'no warning about the damping ratio at 0.1 m/s',
  ),
}).superRefine((t, ctx) => {
  const [from, to] = t.wanted_range;
  if (from > to) complain(ctx, ['wanted_range'], say.endsReversed());
  else if (t.target_height < from || t.target_height > to) {
    complain(ctx, ['target_height'], say.targetOutsideRange(t.target_height, from, to));
  }
});

const loadState = fields({
  name: shortName('name of the load state, like `two up`'),
  front: one('mass', 'any', 'extra load per front wheel; negative for a lighter car', COMMON.extraLoad),
  rear: one('mass', 'any', 'extra load per rear wheel; negative for a lighter car', COMMON.extraLoad),
});

const multiple = (text: string) => one('ratio', 'not_negative', text, { most: 20, ...COMMON.loadMultiple });

const loadCase = z.union([
  fields({
    name: shortName('name of the load case, like `braking` or `2.5 times the load, slowly`'),
    front: multiple('load at the front axle as a multiple of the sprung load'),
    rear: multiple('load at the rear axle as a multiple of the sprung load'),
  }),
  fields({
    name: shortName('name of the load case, like `fast bend`'),
    lateral: one('ratio', 'positive', 'lateral acceleration as a multiple of standard gravity', {
      most: 3,
      ...usual(0.1, 1.5),
    }),
  }),
]);

export const setup = fields({
  name: checkedText('short name; part of every combination id', /^[a-z0-9_]{1,12}$/, badSetupName).meta({
    pattern: '^[a-z0-9_]{1,12}$',
  }),
  wishes: optional(
    choice(
      NAMES_OF_WISHES,
      `a named set of wishes (${COMMON_PRACTICE}) for what this setup leaves out: ${NAMES_OF_WISHES.map((name) => `\`${name}\` ${WISHES[name].says}`).join(', ')}`,
    ),
  ),
  front: target.describe('what the front axle shall reach'),
  rear: target.describe('what the rear axle shall reach'),
  balance: fields({
    target: one('ratio', 'positive', 'wanted ratio of rear to front frequency', COMMON.balance),
    from: one('ratio', 'positive', 'lower end of the wanted window; outside it a pair ranks lower', COMMON.balance),
    to: one('ratio', 'positive', 'upper end of the wanted window', COMMON.balance),
    limits: optional(
      fields({
        from: one('ratio', 'positive', 'lowest ratio that is not rejected', COMMON.balanceLimit),
        to: one('ratio', 'positive', 'highest ratio that is not rejected', COMMON.balanceLimit),
      }).describe('ratios beyond which a pair is rejected; they hold the wanted window'),
      'rejected below 0.8 and above 1.4, or where the wanted window ends if that is farther out (own choice)',
    ),
  })
    .superRefine((b, ctx) => {
      if (b.from > b.to) complain(ctx, ['to'], say.endsReversed());
      else if (b.target < b.from || b.target > b.to)
        complain(ctx, ['target'], say.valueOutsideWindow(b.target, b.from, b.to));
      if (b.limits !== undefined && b.limits.from > b.from)
        complain(ctx, ['limits', 'from'], say.limitInsideWindow(b.limits.from, b.from, b.to));
      if (b.limits !== undefined && b.limits.to < b.to)
        complain(ctx, ['limits', 'to'], say.limitInsideWindow(b.limits.to, b.from, b.to));
    })
    .describe('rear over front frequency: the wanted window ranks, the limits reject'),
  bump: withDefault(
    z
      .union([
        choice(['closed'], 'the bump stop fully closed'),
        fields({
          load: one('ratio', 'positive', 'load at full bump as a multiple of the sprung load', {
            most: 20,
            ...usual(1.2, 6),
          }),
        }),
      ])
      .describe('what full bump means: the stop `closed`, or the balance under `{ load: 3 }` times the sprung load'),
    'closed',
    'geometry: the stop fully closed, at whatever force that was; a harder hit squeezes foam further',
  ),
  standing_on_stop: withDefault(yesNo('whether the car may stand on its bump stops'), false),
  frequency_basis: withDefault(
    choice(['body', 'ride'], '`body`: frequencies without the tyre; `ride`: with it'),
    'body',
  ),
  load_states: withDefault(
    z.array(loadState).max(20).describe('other loads to check at the same perch height'),
    [],
    'no other load is checked',
  ),
  load_cases: withDefault(
    z
      .array(loadCase)
      .max(20)
      .describe('passing loads: `{ name, front, rear }` multiples, or cornering `{ name, lateral }`'),
    [],
    'no load case is computed',
  ),
}).superRefine((setup, ctx) => {
  if (setup.standing_on_stop) return;
  for (const axle of ['front', 'rear'] as const) {
    const { least } = setup[axle].bump_travel;
    if (least < 0) complain(ctx, [axle, 'bump_travel', 'least'], say.standsOnStop(least));
  }
});

export type SetupFields = z.output<typeof setup>;
