/** Fields of the parts at the rod's upper end: mount, isolator, rod end. */
import { z } from 'zod';
import * as say from '../messages/rule.ts';
import { choice, complain, fields, optional, shortName, swept } from './leaves.ts';
import { price, zeroUnlessGiven } from './shared.ts';
import { USUAL, usual } from './usual.ts';

export const mount = fields({
  name: shortName('name of the top mount in the report'),
  raise: optional(
    swept(
      'length',
      'any',
      'rod shoulder above the tower plane without spacer; either this or `plate_height`',
      USUAL.raise,
    ),
  ),
  plate_height: optional(
    swept(
      'length',
      'any',
      "the mount's inner plate above the tower plane: raise = plate height - lower bush - washers",
      USUAL.raise,
    ),
  ),
  spacer: zeroUnlessGiven(
    'spacer between mount and tower: it raises a mount bolted above, lowers one bolted below',
    usual(0, 60),
  ),
  flange_depth: swept('length', 'any', 'spring seat flange below the tower plane', usual(-60, 80)),
  bore: swept('length', 'positive', 'bore of the seat flange and of the cavity above it', USUAL.seatBore),
  spigot: zeroUnlessGiven('how far a locating spigot hangs below the flange face', USUAL.spigot),
  seat: choice(['fixed', 'moving'], '`fixed`: the spring seat stays at the tower; `moving`: it moves with the spacer'),
  bolted: choice(['above', 'below'], 'whether the mount is bolted above or below the tower'),
  lower_bush: swept(
    'length',
    'not_negative',
    'height of the lower bush between rod shoulder and inner plate',
    USUAL.bush,
  ),
  washers: swept('length', 'not_negative', 'height of the washers between rod shoulder and lower bush', USUAL.washers),
  washer_diameter: swept('length', 'positive', 'widest of the washers and the lower bush', usual(15, 80)),
  bush_give: zeroUnlessGiven('how far the rod shoulder can rise in the bush under full bump load', usual(0, 10)),
  price,
}).superRefine((m, ctx) => {
  if ((m.raise === undefined) === (m.plate_height === undefined))
    complain(ctx, [], say.exactlyOne('raise', 'plate_height'));
});

const isolatorPart = fields({
  name: shortName('name of the isolator in the report'),
  thickness: swept('length', 'positive', 'thickness under the spring', usual(1, 25)),
  bore: swept('length', 'positive', 'bore of the isolator', USUAL.seatBore),
  spigot: zeroUnlessGiven('how far a locating spigot hangs below the upper seat', USUAL.spigot),
  price,
});

const rodEndPart = fields({
  name: shortName('name of the rod end in the report'),
  thread_start: swept('length', 'not_negative', 'where the full thread starts above the rod shoulder', usual(0, 80)),
  thread_end: swept('length', 'positive', 'where the thread ends above the rod shoulder', usual(10, 120)),
  plate_thickness: swept('length', 'positive', "thickness of the mount's inner plate", usual(1.5, 15)),
  upper_bush: swept('length', 'not_negative', 'height of the upper bush', USUAL.bush),
  upper_washers: swept('length', 'not_negative', 'height of the upper washers', USUAL.washers),
  nut: swept('length', 'positive', 'height of the nut', usual(4, 20)),
  jam_nut: swept('length', 'not_negative', 'height of the jam nut; `0 mm` when there is none', usual(0, 15)),
  price,
}).superRefine((r, ctx) => {
  const [start, end] = [Math.max(...r.thread_start), Math.min(...r.thread_end)];
  if (start >= end) complain(ctx, ['thread_end'], say.threadReversed(start, end));
});

export const mounts = z.array(mount).min(1).describe('top mounts to choose from');
export const isolators = z
  .array(z.union([choice(['none'], 'no isolator'), isolatorPart]))
  .min(1)
  .describe('isolators between flange and spring; `none` is a choice of its own');
export const rodEnds = z
  .array(z.union([choice(['none'], 'the rod end is not checked'), rodEndPart]))
  .min(1)
  .describe('thread and nuts at the upper end of the rod; `none`: not checked');
