/** The wire materials a spring may name. */

import * as z from 'zod';
import { GRADE_NAMES, MATERIAL_NAMES, type MaterialName } from '../../model/spring/materials.ts';
import { COMMON_SPRING } from '../../model/spring/spring.ts';
import { badPath } from '../problems/file.ts';
import * as say from '../problems/rule.ts';
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
  swept,
  withDefault,
} from './leaves.ts';
import { CAR, type Level } from './level.ts';
import { DEFAULT_ENDS, END_NAMES, price } from './parts.ts';

/** Taken for wire of which nobody named the material. */
export const DEFAULT_MATERIAL: MaterialName = COMMON_SPRING.estimate.material;

function materialName(text: string) {
  return choice(MATERIAL_NAMES, text);
}

// Fields of main springs (given one by one, as a grid, or from a catalogue) and of helper springs.

const FROM_MEMORY = 'EN 13906-1, from memory';

/** Where a solid height has to be estimated. */
export const estimate = fields({
  material: optional(
    materialName(
      'wire of springs that name none; given here, an estimate counts no other steel, and a spring of known wire is rejected where it is overstressed',
    ),
    `${DEFAULT_MATERIAL} (${COMMON_PRACTICE}): stress only warns then, and for the tall end of an estimate every steel of \`grade\` counts`,
  ),
  grade: withDefault(
    choice(
      GRADE_NAMES,
      'steels that the tall end of an estimate may be of, where no material is given: `any` hard-drawn included, `tempered` oil-tempered or alloyed, `alloy` chrome-vanadium or chrome-silicon',
    ),
    COMMON_SPRING.estimate.grade,
    'what a catalogue does not say, it does not exclude',
  ),
  shear_modulus: optional(
    one('stress', 'positive', 'shear modulus of the wire', { least: 10_000, most: 300_000, ...usual(40_000, 85_000) }),
    "the material's own value",
  ),
  thin_stress_share: withDefault(
    one('ratio', 'positive', 'stress at solid over tensile strength at the thin end of the estimate', {
      most: 1,
      ...COMMON.stressShare,
    }),
    COMMON_SPRING.estimate.thinStressShare,
    FROM_MEMORY,
  ),
  thick_stress_share: withDefault(
    one('ratio', 'positive', 'the same at the thick end, on which coil bind is judged, and at the tall end', {
      most: 1,
      ...COMMON.stressShare,
    }),
    COMMON_SPRING.estimate.thickStressShare,
    'from memory',
  ),
})
  .superRefine((e, ctx) => {
    if (e.thick_stress_share > e.thin_stress_share) {
      complain(ctx, ['thick_stress_share'], say.stressSharesReversed(e.thick_stress_share, e.thin_stress_share));
    }
  })
  .describe('how wire and solid height are estimated where they are not known');

const ends = choice(END_NAMES, 'shape of the spring ends');
const ENDS_LEFT_OUT = `${DEFAULT_ENDS} (${COMMON_PRACTICE}), and for the tall end of an estimate ends that are not ground`;

const springAt = (level: Level) =>
  fields({
    name: level.assumed(shortName('name of the spring in the report'), 'spring'),
    free_length: swept('length', 'positive', 'free length', COMMON.freeLength),
    rate: optional(
      level.known(swept('rate', 'positive', 'spring rate; may be left out with wire and coils', COMMON.rate)),
    ),
    bore: level.measured(swept('length', 'positive', 'inner diameter', COMMON.springBore)),
    solid_height: optional(
      level.known(swept('length', 'positive', 'solid (block) height, measured or catalogued', COMMON.solidHeight)),
    ),
    wire: optional(level.known(swept('length', 'positive', 'wire diameter', COMMON.wire))),
    coils: optional(
      level.known(swept('ratio', 'positive', 'total number of coils, counted', { most: 100, ...COMMON.coils })),
    ),
    ends: optional(ends, ENDS_LEFT_OUT),
    coating: withDefault(
      swept('length', 'not_negative', 'thickness of the coating on the wire', { most: 5, ...COMMON.coating }),
      '0 mm',
    ),
    price,
    estimate: withDefault(estimate, {}),
  }).superRefine((s, ctx) => {
    const lacks = (...keys: ('rate' | 'bore' | 'wire' | 'coils' | 'solid_height')[]) =>
      keys.some((key) => s[key] === undefined || s[key].some(Number.isNaN));
    if (!level.isBench && s.rate === undefined && lacks('wire', 'coils')) complain(ctx, [], say.rateNeeded());
    // On the bench a solid height is enough; it may follow from wire and coils, or be estimated from rate and bore.
    if (level.isBench && lacks('solid_height') && lacks('wire', 'coils') && lacks('rate', 'bore')) {
      complain(ctx, [], say.solidNeeded());
    }
    const [solid, free] = [Math.max(...(s.solid_height ?? [0])), Math.min(...s.free_length)];
    if (solid >= free) complain(ctx, ['solid_height'], say.solidNotShorter(solid, free));
  });

const interval = (dimension: 'length' | 'rate', text: string) =>
  fields({ from: one(dimension, 'positive', 'lower end'), to: one(dimension, 'positive', 'upper end') })
    .superRefine((r, ctx) => {
      if (r.from > r.to) complain(ctx, ['to'], say.endsReversed());
    })
    .describe(text);

export const catalogueEntry = fields({
  catalogue: checkedText('CSV file of springs, relative to the scenario', /^[^\p{Cc}]{1,400}$/u, badPath),
  only: optional(
    fields({
      free_length: optional(interval('length', 'only springs of these free lengths')),
      rate: optional(interval('rate', 'only springs of these rates')),
      bore: optional(interval('length', 'only springs of these bores')),
    }).describe('which rows to use'),
    'all rows of the catalogue are used',
  ),
  estimate: withDefault(estimate, {}),
});

const springsAt = (spring: ReturnType<typeof springAt>) =>
  z
    .array(z.union([catalogueEntry, spring]))
    .min(1)
    .describe(
      'main springs: catalogues `{ catalogue: springs.csv }`, single springs, or grids of free length and rate',
    );

const helperAt = (level: Level) =>
  fields({
    name: level.assumed(shortName('name of the helper spring in the report'), 'helper spring'),
    free_length: swept('length', 'positive', 'free length', COMMON.helperFreeLength),
    block_height: swept('length', 'positive', 'solid (block) height', usual(3, 80)),
    rate: level.measured(swept('rate', 'positive', 'rate', usual(0.5, 60))),
    bore: level.measured(swept('length', 'positive', 'inner diameter', COMMON.springBore)),
    coupler: optional(
      fields({
        thickness: swept('length', 'positive', 'thickness between helper and main spring', usual(1, 20)),
        bore: level.measured(swept('length', 'positive', 'bore of the coupler', COMMON.seatBore)),
      }).describe('ring between helper and main spring'),
      'no coupler between helper and main spring',
    ),
    price,
  }).superRefine((h, ctx) => {
    const [block, free] = [Math.max(...h.block_height), Math.min(...h.free_length)];
    if (block >= free) complain(ctx, ['block_height'], say.solidNotShorter(block, free));
  });

const helpersAt = (helper: ReturnType<typeof helperAt>) =>
  withDefault(
    z
      .array(z.union([choice(['none'], 'no helper spring'), helper]))
      .min(1)
      .describe('helper springs; `none` is a choice of its own'),
    ['none'],
    'not given: no helper spring',
  );

/** Main springs and helpers at a level. */
export function springPartsAt(level: Level) {
  return { spring: springAt(level), helper: helperAt(level) };
}

/** Their lists. */
export function springListsAt({ spring, helper }: ReturnType<typeof springPartsAt>) {
  return { helpers: helpersAt(helper), springs: springsAt(spring) };
}

/** Of a car. */
export const SPRING_PARTS = springPartsAt(CAR);
