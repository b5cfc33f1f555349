/** Fields of a damper. */
import { z } from 'zod';
import * as say from '../messages/rule.ts';
import { choice, complain, fields, one, optional, shortName, swept } from './leaves.ts';
import { price } from './shared.ts';

const gasOfForces = fields({
  out: one('force', 'not_negative', 'force of the gas on the rod, damper fully out'),
  in: optional(one('force', 'not_negative', 'the same, damper fully in'), 'the gas force is taken as constant'),
}).superRefine((gas, ctx) => {
  if (gas.in !== undefined && gas.in < gas.out) complain(ctx, ['in'], say.gasForceFalls(gas.out, gas.in));
});

const gasOfCharge = fields({
  charge: one('stress', 'positive', 'charge pressure as read on a gauge, damper fully out', { most: 100 }),
  temperature: one('temperature', 'any', 'temperature at which the charge pressure was read', { least: -60 }),
  rod_diameter: optional(one('length', 'positive', 'diameter of the damper rod; either this or `rod_area`')),
  rod_area: optional(one('area', 'positive', 'cross-section of the damper rod; either this or `rod_diameter`')),
  volume: one('volume', 'positive', 'gas volume, damper fully out'),
}).superRefine((gas, ctx) => {
  if ((gas.rod_diameter === undefined) === (gas.rod_area === undefined)) {
    complain(ctx, [], say.exactlyOne('rod_diameter', 'rod_area'));
  }
});

const gas = z
  .union([choice(['none'], 'no gas push'), gasOfForces, gasOfCharge])
  .describe(
    'gas push on the rod: `none`, two forces `{ out, in }`, or the charge `{ charge, temperature, rod_diameter, volume }`',
  );

const forceVelocity = z
  .array(
    fields({
      velocity: one('velocity', 'positive', 'damper velocity'),
      bump: one('force', 'not_negative', 'damping force in bump at that velocity'),
      rebound: one('force', 'not_negative', 'damping force in rebound at that velocity, also positive'),
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
  extended: swept('length', 'positive', 'lower eye centre to rod shoulder, damper fully out'),
  compressed: swept('length', 'positive', 'lower eye centre to rod shoulder, fully in, metal on metal inside'),
  body_length: swept('length', 'positive', 'lower eye centre to the top of the body'),
  body_diameter: swept('length', 'positive', 'outer diameter of the body'),
  gas,
  force_velocity: optional(forceVelocity, 'damping ratio not computed'),
  price,
}).superRefine((d, ctx) => {
  const [most, least] = [Math.max(...d.compressed), Math.min(...d.extended)];
  if (most >= least) complain(ctx, ['compressed'], say.compressedNotShorter(most, least));
  const body = Math.max(...d.body_length);
  const shortest = Math.min(...d.compressed);
  if (body > shortest) complain(ctx, ['body_length'], say.bodyLongerThanCompressed(body, shortest));
});

export const dampers = z.array(damper).min(1).describe('dampers to choose from');
