/** The whole scenario file. */
import { z } from 'zod';
import * as say from '../messages/rule.ts';
import { badText, badVersion } from '../messages/shape.ts';
import { axle } from './axle.ts';
import { checkedText, complain, fields, longText, one, optional, shortName, withDefault } from './leaves.ts';
import { plan } from './plan.ts';
import { margins, ranking, tolerances } from './settings.ts';
import { setup } from './setup.ts';
import { usual } from './usual.ts';

export const FORMAT_VERSION = 1;

const version = z
  .unknown()
  .transform((value, ctx): typeof FORMAT_VERSION => {
    if (value !== FORMAT_VERSION) complain(ctx, [], badVersion(value));
    return FORMAT_VERSION;
  })
  .meta({ const: FORMAT_VERSION, description: 'version of this format' });

const car = fields({
  wheelbase: one('length', 'positive', 'wheelbase', usual(1600, 3800)),
  pitch_inertia_ratio: one(
    'ratio',
    'positive',
    'radius of gyration in pitch squared over the product of the distances of the axles from the centre of gravity',
    { most: 5, ...usual(0.6, 1.3) },
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
});

export type ScenarioFields = z.output<typeof scenario>;
