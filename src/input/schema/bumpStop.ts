/** Fields of the bump stop. */
import { z } from 'zod';
import * as say from '../messages/rule.ts';
import { complain, fields, one, optional, shortName, swept } from './leaves.ts';
import { price, zeroUnlessGiven } from './shared.ts';
import { USUAL, usual } from './usual.ts';

const point = fields({
  squeeze: one('length', 'not_negative', 'how far the stop is squeezed', usual(0, 120)),
  force: one('force', 'not_negative', 'force at that squeeze', usual(0, 30_000)),
});

const curve = fields({
  measured_length: one('length', 'positive', 'free length of the stop that was measured', USUAL.stopLength),
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

export const bumpStop = fields({
  name: shortName('name of the bump stop in the report'),
  length: swept('length', 'positive', 'length as bought', USUAL.stopLength),
  cut_length: optional(swept('length', 'positive', 'length as fitted', USUAL.stopLength), 'not cut'),
  closed_fraction: optional(
    swept('ratio', 'positive', 'closed length over free length, between 0 and 1; with a curve it may be left out', {
      most: 1,
      ...usual(0.15, 0.6),
    }),
    'from the curve: 1 - last squeeze / measured length',
  ),
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
  diameter: swept('length', 'positive', 'outer diameter of the stop', usual(25, 80)),
  packer: zeroUnlessGiven('packer between rod shoulder and stop'),
  packer_diameter: optional(
    swept('length', 'positive', 'outer diameter of the packer; needed with a packer', usual(20, 80)),
  ),
  price,
}).superRefine((b, ctx) => {
  if (b.closed_fraction === undefined && b.curve === undefined) complain(ctx, [], say.closedFractionNeeded());
  b.closed_fraction?.forEach((share) => {
    if (share >= 1) complain(ctx, ['closed_fraction'], say.neverCloses(share));
  });
  const [cut, length] = [Math.max(...(b.cut_length ?? [0])), Math.min(...b.length)];
  if (cut > length) complain(ctx, ['cut_length'], say.cutLongerThanBought(cut, length));
  if (Math.max(...b.packer) > 0 && b.packer_diameter === undefined)
    complain(ctx, ['packer'], say.packerDiameterNeeded());
});

export const bumpStops = z.array(bumpStop).min(1).describe('bump stops to choose from');
