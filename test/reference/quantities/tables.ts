/** Published tables: units, wire and the scope of the standard, against the program's own tables. */
import { VALIDITY } from '../../../src/model/spring/details.ts';
import { elasticModulusOf, materialOf, shearModulusOf } from '../../../src/model/spring/materials.ts';
import { tensileStrength, ultimateStrengthOf } from '../../../src/model/spring/strength.ts';
import { type Dimension, findUnit, STANDARD_GRAVITY, toInner } from '../../../src/model/units.ts';
import type { Inputs } from '../rows.ts';

function unit(i: Inputs): number {
  const found = findUnit(i.text('dimension') as Dimension, i.text('unit'));
  return found === null ? Number.NaN : toInner(1, found);
}

function validity(i: Inputs): number {
  const row = VALIDITY.find((candidate) => candidate.id === i.text('row'));
  return row?.[i.text('end') as 'from' | 'to'] ?? Number.NaN;
}

const strength = (i: Inputs) => tensileStrength(i.number('A'), i.number('m'), i.number('d'));
const materialStrength = (i: Inputs) => ultimateStrengthOf(i.text('material'), i.number('d'));
const yieldShare = (i: Inputs) => materialOf(i.text('material')).torsionalYieldShare;

export const TABLES = {
  unit,
  standard_gravity: () => STANDARD_GRAVITY,
  strength,
  half_strength: (i) => 0.5 * strength(i),
  material_strength: materialStrength,
  material_yield: (i) => yieldShare(i) * materialStrength(i),
  yield_share: yieldShare,
  material_density: (i) => materialOf(i.text('material')).density,
  material_E: (i) => elasticModulusOf(i.text('material'), i.number('d')),
  material_G: (i) => shearModulusOf(i.text('material'), i.number('d')),
  validity,
} as const satisfies Record<string, (i: Inputs) => number>;
