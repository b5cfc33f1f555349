/** Fields of a file of measurements: the one table of them, as the scenario's is. */

import * as z from 'zod';
import { badText } from '../../input/problems/value.ts';
import { COMMON, type CommonBand, usual } from '../../input/schema/commonBands.ts';
import { checkedText, choice, complain, fields, one, optional, withDefault } from '../../input/schema/leaves.ts';
import { DEFAULT_ENDS, END_NAMES } from '../../input/schema/parts.ts';
import * as say from './messages.ts';
import { badVersion } from './messages.ts';

export const MEASURED_VERSION = 1;

const version = z
  .unknown()
  .transform((value, ctx): typeof MEASURED_VERSION => {
    if (value !== MEASURED_VERSION) complain(ctx, [], badVersion(value));
    return MEASURED_VERSION;
  })
  .meta({ const: MEASURED_VERSION, description: 'version of this format' });

const length = (text: string, band: { readonly usual: CommonBand }) => optional(one('length', 'positive', text, band));

const snugGap = fields({
  perch: one('length', 'positive', 'lower eye centre to the perch seat', COMMON.perch),
  gap: one(
    'length',
    'not_negative',
    'what the bump stop meets (top of the body, or of a proud sleeve) to the stop, the spring just snug',
    COMMON.gap,
  ),
});

const standingHeight = fields({
  perch: one('length', 'positive', 'lower eye centre to the perch seat', COMMON.perch),
  ride_height: one(
    'length',
    'positive',
    'hub centre to arch lip, the car on its wheels, settled, at the design load',
    COMMON.hubToArch,
  ),
});

const sleeveToIsolator = fields({
  distance: one(
    'length',
    'any',
    'sleeve top to the face of the isolator (without one: of the mount) the spring rests on',
    usual(-50, 300),
  ),
  damper_length: optional(
    one('length', 'positive', 'lower eye centre to rod shoulder at that moment', COMMON.damperLength),
    'taken with the damper fully extended',
  ),
});

const measurements = {
  free_length: length('main spring, lying free', COMMON.freeLength),
  wire: length('wire diameter of the main spring, over its coating', COMMON.wire),
  coils: optional(one('ratio', 'positive', 'all coils of the main spring, counted', { most: 100, ...COMMON.coils })),
  ends: withDefault(choice(END_NAMES, 'shape of the spring ends'), DEFAULT_ENDS),
  rate: optional(one('rate', 'positive', 'rate of the main spring, in a press over two lengths', COMMON.rate)),
  helper_free_length: length('helper spring, lying free', COMMON.helperFreeLength),
  sleeve_length: length('length of the sleeve, once cut', usual(20, 350)),
  stop_length: length('length of the bump stop, once cut', COMMON.stopLength),
  lowest_perch: length(
    'lower eye centre to the perch seat, the perch down on its lock ring at the sleeve’s foot',
    COMMON.perch,
  ),
  sleeve_to_isolator: optional(
    sleeveToIsolator.describe('sleeve top to isolator, along the damper, with the unit assembled'),
  ),
  extended_gap: optional(
    one(
      'length',
      'not_negative',
      'what the bump stop meets to the stop, the damper fully extended; the spring may be in or out',
      COMMON.gap,
    ),
  ),
  snug_gaps: withDefault(
    z
      .array(snugGap)
      .max(2)
      .describe('the gap to the bump stop with the spring just snug, at one or two places of the perch'),
    [],
    'not measured',
  ),
  standing: withDefault(
    z.array(standingHeight).max(6).describe('ride heights reached, and where the perch was'),
    [],
    'not measured',
  ),
  wheel_load: optional(
    one('mass', 'positive', 'this wheel on the scales at the design load, driver included', COMMON.wheelLoad),
  ),
};

const unit = fields(measurements).superRefine(checkUnit);
export type UnitFields = z.output<typeof unit>;

const axle = fields({
  ...measurements,
  left: optional(unit.describe('what was measured on the left alone')),
  right: optional(unit.describe('what was measured on the right alone')),
}).superRefine(checkUnit);
export type AxleFields = z.output<typeof axle>;

const readings = fields({
  length: withDefault(one('length', 'positive', 'lengths with a rule or caliper', usual(0.01, 3)), '0.5 mm'),
  ride_height: withDefault(one('length', 'positive', 'ride heights', usual(0.1, 10)), '2 mm'),
  wheel_load: withDefault(one('mass', 'positive', 'wheel loads on the scales', usual(0.1, 20)), '2 kg'),
  wire: withDefault(one('length', 'positive', 'wire diameter with a caliper', usual(0.01, 0.5)), '0.05 mm'),
  coils: withDefault(one('ratio', 'positive', 'coils counted', { most: 2, ...usual(0.01, 0.5) }), 0.1),
  rate: withDefault(one('share', 'positive', 'rate in a press', usual(0.1, 10)), '2 %'),
}).describe('half-widths: how well each kind of thing was read');

export const measured = fields({
  springsift_measured: version,
  combination: optional(
    checkedText('id of the combination that was built, e.g. `low-F4F7-R2KD-7Q`', /^\S{1,80}$/u, badText),
  ),
  best_of: optional(checkedText('name of the setup whose best combination was built', /^\S{1,12}$/u, badText)),
  readings: withDefault(readings, {}),
  front: optional(axle.describe('what was measured on the front units'), 'not measured'),
  rear: optional(axle.describe('what was measured on the rear units'), 'not measured'),
}).superRefine((m, ctx) => {
  if ((m.combination === undefined) === (m.best_of === undefined)) complain(ctx, [], say.oneBuild());
});
export type MeasuredFields = z.output<typeof measured>;

function checkUnit(u: z.output<z.ZodObject<typeof measurements>>, ctx: z.core.$RefinementCtx): void {
  if ((u.wire === undefined) !== (u.coils === undefined)) {
    complain(ctx, [u.wire === undefined ? 'coils' : 'wire'], say.wireWithCoils(), true);
  }
  const [one, other] = u.snug_gaps;
  if (one && other && one.perch === other.perch) complain(ctx, ['snug_gaps', 1, 'perch'], say.samePerch(one.perch));
}
