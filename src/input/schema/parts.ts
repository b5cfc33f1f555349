/** Fields that several parts have. */

import * as z from 'zod';
import type { EndType } from '../../model/formula/coil.ts';
import type { DamperBody } from '../../model/parts.ts';
import { COMMON_SPRING } from '../../model/spring/spring.ts';
import * as say from '../problems/rule.ts';
import { UNKNOWN } from '../values/quantity.ts';
import { ASSUMABLE } from './assumedValues.ts';
import { COMMON, type CommonBand, usual } from './commonBands.ts';
import { choice, complain, fields, one, optional, orUnknown, shortName, swept, withDefault } from './leaves.ts';
import { CAR, type Level } from './level.ts';

export const price = optional(one('money', 'not_negative', "price of one piece in the scenario's currency"));

/** A dimension of a part that is 0 unless something else was measured. */
function zeroUnlessGiven(text: string, band: { readonly usual: CommonBand } = usual(0, 40)) {
  return withDefault(swept('length', 'not_negative', text, band), '0 mm');
}

// Fields of a damper.

const gasOfForces = fields({
  out: one('force', 'not_negative', 'force of the gas on the rod, damper fully out', usual(0, 600)),
  in: optional(
    one('force', 'not_negative', 'the same, damper fully in', usual(0, 1000)),
    'the gas force is taken as constant',
  ),
}).superRefine((gas, ctx) => {
  if (gas.in !== undefined && gas.in < gas.out) complain(ctx, ['in'], say.gasForceFalls(gas.out, gas.in));
});

const gasOfCharge = fields({
  charge: one('stress', 'positive', 'charge pressure as read on a gauge, damper fully out', {
    most: 100,
    ...usual(0.2, 4),
  }),
  temperature: one('temperature', 'any', 'temperature at which the charge pressure was read', {
    least: -60,
    ...usual(-10, 45),
  }),
  working_temperature: withDefault(
    one('temperature', 'any', 'temperature of the damper at which everything is computed', {
      least: -60,
      ...usual(-30, 120),
    }),
    '20 degC',
    'own choice: a damper at rest in a workshop',
  ),
  rod_diameter: optional(
    one('length', 'positive', 'diameter of the damper rod; either this or `rod_area`', {
      ...{ least: 0.5, most: 100 },
      ...usual(8, 30),
    }),
  ),
  rod_area: optional(
    one('area', 'positive', 'cross-section of the damper rod; either this or `rod_diameter`', {
      ...{ least: 0.2, most: 8000 },
      ...usual(50, 700),
    }),
  ),
  volume: one('volume', 'positive', 'gas volume, damper fully out', usual(10_000, 500_000)),
}).superRefine((gas, ctx) => {
  if ((gas.rod_diameter === undefined) === (gas.rod_area === undefined)) {
    complain(ctx, [], say.exactlyOne('rod_diameter', 'rod_area'));
  }
});

const gas = z
  .union([choice(['none'], 'no gas push'), gasOfForces, gasOfCharge])
  .describe(
    'gas push on the rod: `none`, two forces `{ out, in }`, or the charge `{ charge, temperature, rod_diameter, volume }` as read, computed at `working_temperature`',
  );

export const BODY_NAMES = ['twin_tube', 'single_tube', 'unknown'] as const satisfies readonly DamperBody[];

const forceVelocity = z
  .array(
    fields({
      velocity: one('velocity', 'positive', 'damper velocity', usual(0.005, 2)),
      bump: one('force', 'not_negative', 'damping force in bump at that velocity', usual(5, 6000)),
      rebound: one('force', 'not_negative', 'damping force in rebound at that velocity, also positive', usual(5, 9000)),
    }),
  )
  .min(1)
  .superRefine((rows, ctx) => {
    rows.forEach((row, i) => {
      const first = rows.findIndex((other) => other.velocity === row.velocity);
      if (first !== i) complain(ctx, [i, 'velocity'], say.repeatedVelocity(row.velocity));
    });
  })
  .describe('force against velocity from a test bench, the gas push left out');

/** Gas volume over that of the rod that enters: below it the gas is squeezed to more than eleven times its pressure (own choice). */
const LEAST_GAS = 1.1;

const damperAt = (level: Level) =>
  fields({
    name: level.assumed(shortName('name of the damper in the report'), 'damper'),
    extended: swept('length', 'positive', 'lower eye centre to rod shoulder, damper fully out', COMMON.damperLength),
    compressed: swept(
      'length',
      'positive',
      'lower eye centre to rod shoulder, fully in, metal on metal inside',
      COMMON.damperLength,
    ),
    body_length: swept('length', 'positive', 'lower eye centre to the top of the body', usual(100, 600)),
    body_diameter: level.measured(swept('length', 'positive', 'outer diameter of the body', usual(25, 80))),
    body: withDefault(
      choice(
        BODY_NAMES,
        '`single_tube`: the piston runs on the inside of the body’s wall, which is never grooved or welded',
      ),
      'unknown',
      'not given: a groove is the last of the cures',
    ),
    gas: level.usual(gas, ASSUMABLE.gas),
    force_velocity: optional(forceVelocity, 'damping ratio at 0.1 m/s not computed'),
    price,
  }).superRefine((d, ctx) => {
    const [most, least] = [Math.max(...d.compressed), Math.min(...d.extended)];
    if (most >= least) complain(ctx, ['compressed'], say.compressedNotShorter(most, least));
    const body = Math.max(...d.body_length);
    const shortest = Math.min(...d.compressed);
    if (body > shortest) complain(ctx, ['body_length'], say.bodyLongerThanCompressed(body, shortest));
    if (d.gas === 'none' || !('charge' in d.gas)) return;
    const { rod_area = (Math.PI * (d.gas.rod_diameter ?? 0) ** 2) / 4, volume } = d.gas;
    const rod = rod_area * (Math.max(...d.extended) - shortest);
    if (volume < LEAST_GAS * rod) complain(ctx, ['gas', 'volume'], say.gasSqueezedAway(volume, rod, LEAST_GAS));
  });

// Fields of the bump stop.

const point = fields({
  squeeze: one('length', 'not_negative', 'how far the stop is squeezed', usual(0, 120)),
  force: one('force', 'not_negative', 'force at that squeeze', usual(0, 30_000)),
});

const curve = fields({
  measured_length: one('length', 'positive', 'free length of the stop that was measured', COMMON.stopLength),
  points: z.array(point).min(1).describe('force against squeeze, from the first touch to closed'),
})
  .superRefine((c, ctx) => {
    c.points.forEach((p, i) => {
      const before = c.points[i - 1] ?? { squeeze: -1, force: 0 };
      if (p.squeeze <= before.squeeze)
        complain(ctx, ['points', i, 'squeeze'], say.squeezeNotRising(p.squeeze, before.squeeze));
      else if (p.force < before.force) complain(ctx, ['points', i, 'force'], say.stopForceFalls(p.force, before.force));
      if (p.squeeze >= c.measured_length)
        complain(ctx, ['points', i, 'squeeze'], say.squeezedAway(p.squeeze, c.measured_length));
      if (p.squeeze === 0 && p.force > 0) complain(ctx, ['points', i, 'force'], say.forceWithoutSqueeze(p.force));
    });
    const last = c.points[c.points.length - 1];
    if (last !== undefined && last.squeeze === 0) complain(ctx, ['points'], say.curveTooShort());
  })
  .describe('measured force-travel curve; a stop cut to another length scales it by strain');

const bumpStopAt = (level: Level) =>
  fields({
    name: level.assumed(shortName('name of the bump stop in the report'), 'bump stop'),
    length: swept('length', 'positive', 'length as bought', COMMON.stopLength),
    cut_length: optional(swept('length', 'positive', 'length as fitted', COMMON.stopLength), 'not cut'),
    closed_fraction: optional(
      orUnknown(
        swept('ratio', 'positive', 'closed length over free length, between 0 and 1; with a curve it may be left out', {
          most: 1,
          ...usual(0.15, 0.6),
        }),
        ASSUMABLE.closedFraction,
      ),
      'from the curve: 1 - last squeeze / measured length',
    ),
    material: optional(choice(['foam', 'rubber'], 'what the stop is made of; it tells the usual closed fraction')),
    closed_at_force: optional(
      one(
        'force',
        'positive',
        'force at which the stop counted as closed; a harder hit squeezes foam further',
        usual(500, 30_000),
      ),
      'from the curve, where one is given; else not stated',
    ),
    curve: optional(curve, 'no force is computed for the stop'),
    diameter: level.measured(swept('length', 'positive', 'outer diameter of the stop', usual(25, 80))),
    packer: zeroUnlessGiven('packer between rod shoulder and stop'),
    packer_diameter: optional(
      level.known(swept('length', 'positive', 'outer diameter of the packer; needed with a packer', usual(20, 80))),
    ),
    price,
  }).superRefine((b, ctx) => {
    if (b.closed_fraction === undefined && b.curve === undefined) complain(ctx, [], say.closedFractionNeeded());
    b.closed_fraction?.forEach((share) => {
      if (share >= 1) complain(ctx, ['closed_fraction'], say.neverCloses(share));
    });
    const [cut, length] = [Math.max(...(b.cut_length ?? [0])), Math.min(...b.length)];
    if (cut > length) complain(ctx, ['cut_length'], say.cutLongerThanBought(cut, length));
    if (Math.max(...b.packer) > 0 && b.packer_diameter === undefined && !level.isBench)
      complain(ctx, ['packer'], say.packerDiameterNeeded());
  });

// Fields of the threaded sleeve and of the perch on it.

const sleeveAt = (level: Level) =>
  fields({
    name: level.assumed(shortName('name of the sleeve in the report'), 'sleeve'),
    ledge_height: swept('length', 'positive', 'lower eye centre to the ledge the sleeve stands on', usual(40, 350)),
    length: swept('length', 'positive', 'length of the sleeve as bought', COMMON.sleeveLength),
    bore: level.measured(swept('length', 'positive', 'bore of the sleeve', usual(25, 85))),
    outer_diameter: level.measured(swept('length', 'positive', 'outer diameter over the thread', usual(30, 95))),
    trim: level.assumed(
      swept('length', 'not_negative', 'length cut off the top of the sleeve; `0 mm` leaves it whole', usual(0, 120)),
      '0 mm',
    ),
    groove_drop: zeroUnlessGiven('how much lower a new groove for the ledge has been machined'),
    thread_pitch: optional(
      one('length', 'positive', 'rise of the perch per turn', { least: 0.1, ...usual(0.75, 4) }),
      'collar turns not computed',
    ),
    price,
  }).superRefine((s, ctx) => {
    const [trim, length] = [Math.max(...s.trim), Math.min(...s.length)];
    if (trim >= length) complain(ctx, ['trim'], say.trimTakesAll(trim, length));
    const [drop, ledge] = [Math.max(...s.groove_drop), Math.min(...s.ledge_height)];
    if (drop > ledge) complain(ctx, ['groove_drop'], say.grooveBelowEye(drop, ledge));
    const [bore, outer] = [Math.max(...s.bore), Math.min(...s.outer_diameter)];
    if (bore >= outer) complain(ctx, ['bore'], say.boreNotInside(bore, outer));
  });

const perchAt = (level: Level) =>
  fields({
    name: level.assumed(shortName('name of the perch in the report'), 'perch'),
    lock_ring: level.usual(
      swept(
        'length',
        'not_negative',
        'height of the lock ring under the perch; `0 mm` when there is none',
        usual(0, 25),
      ),
      ASSUMABLE.lockRing,
    ),
    height: swept('length', 'positive', 'lower face of the perch to the perch seat', usual(3, 40)),
    inset: zeroUnlessGiven('how far below the sleeve top the perch seat must stay', COMMON.spigot),
    spigot_diameter: optional(
      swept('length', 'positive', 'outer diameter of the spigot that enters the spring', COMMON.seatBore),
      'the perch has no spigot',
    ),
    engagement: level.usual(
      swept('length', 'not_negative', "how deep the seats' spigots hold the spring", usual(0, 25)),
      ASSUMABLE.engagement,
    ),
    price,
  });

// Fields of the parts at the rod's upper end: mount, isolator, rod end.

/** A bush gives nothing unless something else was measured; on the bench, where nobody measured it, the usual amount. */
function giveOf({ isBench }: Level) {
  const give = orUnknown(
    swept('length', 'not_negative', 'how far the rod shoulder can rise in the bush under full bump load', usual(0, 10)),
    ASSUMABLE.bushGive,
  );
  return withDefault(give, isBench ? UNKNOWN : '0 mm');
}

const mountAt = (level: Level) =>
  fields({
    name: level.assumed(shortName('name of the top mount in the report'), 'mount'),
    raise: optional(
      swept(
        'length',
        'any',
        'rod shoulder above the tower plane without spacer; either this or `plate_height`',
        COMMON.raise,
      ),
    ),
    plate_height: optional(
      swept(
        'length',
        'any',
        "the mount's inner plate above the tower plane: raise = plate height - lower bush - washers",
        COMMON.raise,
      ),
    ),
    spacer: zeroUnlessGiven(
      'spacer between mount and tower: it raises a mount bolted above, lowers one bolted below',
      usual(0, 60),
    ),
    flange_depth: swept('length', 'any', 'spring seat flange below the tower plane', usual(-60, 80)),
    bore: level.measured(
      swept('length', 'positive', 'bore of the seat flange and of the cavity above it', COMMON.seatBore),
    ),
    spigot: zeroUnlessGiven('how far a locating spigot hangs below the flange face', COMMON.spigot),
    seat: level.assumed(
      choice(['fixed', 'moving'], '`fixed`: the spring seat stays at the tower; `moving`: it moves with the spacer'),
      'fixed',
    ),
    bolted: level.assumed(choice(['above', 'below'], 'whether the mount is bolted above or below the tower'), 'above'),
    lower_bush: level.usual(
      swept('length', 'not_negative', 'height of the lower bush between rod shoulder and inner plate', COMMON.bush),
      ASSUMABLE.lowerBush,
    ),
    washers: level.usual(
      swept('length', 'not_negative', 'height of the washers between rod shoulder and lower bush', COMMON.washers),
      ASSUMABLE.washers,
    ),
    washer_diameter: level.measured(
      swept('length', 'positive', 'widest of the washers and the lower bush', usual(15, 80)),
    ),
    bush_give: giveOf(level),
    price,
  }).superRefine((m, ctx) => {
    if ((m.raise === undefined) === (m.plate_height === undefined))
      complain(ctx, [], say.exactlyOne('raise', 'plate_height'));
  });

const isolatorAt = (level: Level) =>
  fields({
    name: level.assumed(shortName('name of the isolator in the report'), 'isolator'),
    thickness: level.usual(swept('length', 'positive', 'thickness under the spring', usual(1, 25)), ASSUMABLE.isolator),
    bore: level.measured(swept('length', 'positive', 'bore of the isolator', COMMON.seatBore)),
    spigot: zeroUnlessGiven('how far a locating spigot hangs below the upper seat', COMMON.spigot),
    price,
  });

const rodEndAt = (level: Level) =>
  fields({
    name: level.assumed(shortName('name of the rod end in the report'), 'rod end'),
    thread_start: swept('length', 'not_negative', 'where the full thread starts above the rod shoulder', usual(0, 80)),
    thread_end: swept('length', 'positive', 'where the thread ends above the rod shoulder', usual(10, 120)),
    plate_thickness: swept('length', 'positive', "thickness of the mount's inner plate", usual(1.5, 15)),
    upper_bush: swept('length', 'not_negative', 'height of the upper bush', COMMON.bush),
    upper_washers: swept('length', 'not_negative', 'height of the upper washers', COMMON.washers),
    nut: swept('length', 'positive', 'height of the nut', usual(4, 20)),
    jam_nut: swept('length', 'not_negative', 'height of the jam nut; `0 mm` when there is none', usual(0, 15)),
    price,
  }).superRefine((r, ctx) => {
    const [start, end] = [Math.max(...r.thread_start), Math.min(...r.thread_end)];
    if (start >= end) complain(ctx, ['thread_end'], say.threadReversed(start, end));
  });

/** The parts of an axle but its springs, at a level. */
export function partsAt(level: Level) {
  const [isolator, rodEnd] = [isolatorAt(level), rodEndAt(level)];
  return {
    damper: damperAt(level),
    bumpStop: bumpStopAt(level),
    sleeve: sleeveAt(level),
    perch: perchAt(level),
    mount: mountAt(level),
    isolator,
    rodEnd,
  };
}

type Parts = ReturnType<typeof partsAt>;

/** Their lists. */
export function listsAt(level: Level, { damper, mount, isolator, bumpStop, rodEnd, sleeve, perch }: Parts) {
  const isolators = z
    .array(z.union([choice(['none'], 'no isolator'), isolator]))
    .min(1)
    .describe('isolators between flange and spring; `none` is a choice of its own');
  return {
    dampers: z.array(damper).min(1).describe('dampers to choose from'),
    mounts: z.array(mount).min(1).describe('top mounts to choose from'),
    isolators: level.isBench ? withDefault(isolators, ['none'], 'not given: no isolator') : isolators,
    bump_stops: z.array(bumpStop).min(1).describe('bump stops to choose from'),
    rod_ends: withDefault(
      z
        .array(z.union([choice(['none'], 'the rod end is not checked'), rodEnd]))
        .min(1)
        .describe('thread and nuts at the upper end of the rod; `none`: not checked'),
      ['none'],
      'not given: the rod end is not checked',
    ),
    sleeves: z.array(sleeve).min(1).describe('threaded sleeves to choose from'),
    perches: z.array(perch).min(1).describe('perches to choose from'),
  };
}

/** Of a car. */
export const PARTS = partsAt(CAR);

// Shapes of spring ends.

export const END_NAMES: readonly EndType[] = ['plain', 'plain_ground', 'closed', 'closed_ground'];
export const DEFAULT_ENDS: EndType = COMMON_SPRING.ends;
