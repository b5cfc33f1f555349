/** Published spring values: how each is computed with the program's formulas. */
import {
  activeCoilsForRate,
  bergstraesserFactor,
  criticalDeflection,
  directShearFactor,
  type EndType,
  inactiveCoils,
  slendernessLimit,
  slendernessRatio,
  solidHeight,
  springIndex,
  springMass,
  springRate,
  surgeFrequency,
  uncorrectedStress,
  wahlFactor,
} from '../../../src/model/formula/coil.ts';
import type { Inputs } from '../rows.ts';

const FACTORS: Readonly<Record<string, (index: number) => number>> = {
  none: () => 1,
  wahl: wahlFactor,
  bergstraesser: bergstraesserFactor,
  direct_shear: directShearFactor,
};

const ends = (i: Inputs) => i.text('ends') as EndType;
const solid = (i: Inputs) => solidHeight(i.number('d'), i.number('Nt'), ends(i));
const activeOf = (i: Inputs) => i.number('Nt') - inactiveCoils(ends(i));
const rateOf = (i: Inputs, n: number) => springRate(i.number('G'), i.number('d'), i.number('D'), n);
const coilsForRate = (i: Inputs) => activeCoilsForRate(i.number('G'), i.number('d'), i.number('D'), i.number('k'));

function stressUnder(i: Inputs, force: number): number {
  const factor = FACTORS[i.text('factor')];
  if (factor === undefined) throw new Error(`no stress factor ${i.text('factor')}`);
  return factor(springIndex(i.number('D'), i.number('d'))) * uncorrectedStress(force, i.number('D'), i.number('d'));
}

const loadAtSolid = (i: Inputs) => rateOf(i, activeOf(i)) * (i.number('L0') - solid(i));
const loadAtStress = (i: Inputs) => i.number('tau') / stressUnder(i, 1);
const tableLoad = (i: Inputs) => i.number('S') / uncorrectedStress(1, i.number('D'), i.number('d'));
const stable = (i: Inputs) =>
  criticalDeflection(i.number('L0'), i.number('D'), i.number('alpha'), i.number('E'), i.number('G')) === Infinity;

function surge(i: Inputs): number {
  const density = i.number('gamma') / i.number('g');
  return surgeFrequency(i.number('k'), springMass(i.number('d'), i.number('D'), i.number('n'), density));
}

export const COIL = {
  spring_index: (i) => springIndex(i.number('D'), i.number('d')),
  wahl_over_bergstraesser_pct: (i) => 100 * (1 - bergstraesserFactor(i.number('C')) / wahlFactor(i.number('C'))),
  bergstraesser: (i) => bergstraesserFactor(i.number('C')),
  active_coils: activeOf,
  total_coils: (i) => i.number('n') + inactiveCoils(ends(i)),
  rate: (i) => rateOf(i, i.number('n')),
  solid_height: solid,
  coils_for_rate: coilsForRate,
  coils_for_rate_total: (i) => coilsForRate(i) + inactiveCoils(ends(i)),
  stress: (i) => stressUnder(i, i.number('F')),
  load_at_stress: loadAtStress,
  length_to_stress: (i) => solid(i) + loadAtStress(i) / rateOf(i, activeOf(i)),
  length_to_load: (i) => solid(i) + i.number('F') / i.number('k'),
  load_at_solid: loadAtSolid,
  load_at_deflection: (i) => i.number('k') * i.number('x'),
  load_at_deflection_geometry: (i) => rateOf(i, activeOf(i)) * i.number('x'),
  stress_at_solid: (i) => stressUnder(i, loadAtSolid(i)),
  yield_over_stress: (i) => i.number('Ssy') / stressUnder(i, i.number('F')),
  yield_over_stress_at_solid: (i) => i.number('Ssy') / stressUnder(i, loadAtSolid(i)),
  load_share: (i) => i.number('F') / tableLoad(i),
  deflection_per_coil: (i) => tableLoad(i) / rateOf(i, 1),
  longest_stable: (i) =>
    slendernessLimit(i.number('E'), i.number('G')) / slendernessRatio(1, i.number('D'), i.number('alpha')),
  slenderness: (i) => slendernessRatio(i.number('L0'), i.number('D'), i.number('alpha')),
  is_stable: (i) => Number(stable(i)),
  surge,
} as const satisfies Record<string, (i: Inputs) => number>;
