/** Fields of the threaded sleeve and of the perch on it. */
import { z } from 'zod';
import * as say from '../messages/rule.ts';
import { complain, fields, one, optional, shortName, swept } from './leaves.ts';
import { price, zeroUnlessGiven } from './shared.ts';
import { USUAL, usual } from './usual.ts';

export const sleeve = fields({
  name: shortName('name of the sleeve in the report'),
  ledge_height: swept('length', 'positive', 'lower eye centre to the ledge the sleeve stands on', usual(40, 350)),
  length: swept('length', 'positive', 'length of the sleeve as bought', USUAL.sleeveLength),
  bore: swept('length', 'positive', 'bore of the sleeve', usual(25, 85)),
  outer_diameter: swept('length', 'positive', 'outer diameter over the thread', usual(30, 95)),
  trim: swept('length', 'not_negative', 'length cut off the top of the sleeve; `0 mm` leaves it whole', usual(0, 120)),
  groove_drop: zeroUnlessGiven('how much lower a new groove for the ledge has been machined'),
  thread_pitch: optional(
    one('length', 'positive', 'rise of the perch per turn', usual(0.75, 4)),
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

export const perch = fields({
  name: shortName('name of the perch in the report'),
  lock_ring: swept(
    'length',
    'not_negative',
    'height of the lock ring under the perch; `0 mm` when there is none',
    usual(0, 25),
  ),
  height: swept('length', 'positive', 'lower face of the perch to the perch seat', usual(3, 40)),
  inset: zeroUnlessGiven('how far below the sleeve top the perch seat must stay', USUAL.spigot),
  spigot_diameter: optional(
    swept('length', 'positive', 'outer diameter of the spigot that enters the spring', USUAL.seatBore),
    'the perch has no spigot',
  ),
  engagement: swept('length', 'not_negative', "how deep the seats' spigots hold the spring", usual(0, 25)),
  price,
});

export const sleeves = z.array(sleeve).min(1).describe('threaded sleeves to choose from');
export const perches = z.array(perch).min(1).describe('perches to choose from');
