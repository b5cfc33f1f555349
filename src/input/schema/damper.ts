/** Fields of a damper. */
import { z } from 'zod';
import type { DamperBody } from '../../domain/parts.ts';
import * as say from '../messages/rule.ts';
import { choice, complain, fields, one, optional, shortName, swept, withDefault } from './leaves.ts';
import { price } from './shared.ts';
import { USUAL, usual } from './usual.ts';

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
    one('length', 'positive', 'diameter of the damper rod; either this or `rod_area`', usual(8, 30)),
  ),
  rod_area: optional(
    one('area', 'positive', 'cross-section of the damper rod; either this or `rod_diameter`', usual(50, 700)),
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

export const damper = fields({
  name: shortName('name of the damper in the report'),
  extended: swept('length', 'positive', 'lower eye centre to rod shoulder, damper fully out', USUAL.damperLength),
  compressed: swept(
    'length',
    'positive',
    'lower eye centre to rod shoulder, fully in, metal on metal inside',
    USUAL.damperLength,
  ),
  body_length: swept('length', 'positive', 'lower eye centre to the top of the body', usual(100, 600)),
  body_diameter: swept('length', 'positive', 'outer diameter of the body', usual(25, 80)),
  body: withDefault(
    choice(
      BODY_NAMES,
      '`single_tube`: the piston runs on the inside of the body’s wall, which is never grooved or welded',
    ),
    'unknown',
    'not given: a groove is the last of the cures',
  ),
  gas,
  force_velocity: optional(forceVelocity, 'damping ratio at 0.1 m/s not computed'),
  price,
}).superRefine((d, ctx) => {
  const [most, least] = [Math.max(...d.compressed), Math.min(...d.extended)];
  if (most >= least) complain(ctx, ['compressed'], say.compressedNotShorter(most, least));
  const body = Math.max(...d.body_length);
  const shortest = Math.min(...d.compressed);
  if (body > shortest) complain(ctx, ['body_length'], say.bodyLongerThanCompressed(body, shortest));
});

export const dampers = z.array(damper).min(1).describe('dampers to choose from');
