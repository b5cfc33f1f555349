/** Passing loads: where each axle's wheels go in each load case of the setup. */
import { type CorneringResult, cornering } from '../cases/cornering.ts';
import { underMultiple, type WheelPosition } from '../cases/multiple.ts';
import { AXLE_NAMES, type AxleName, type LoadCase } from '../scenario.ts';
import { type PairWorking, type Quantity, quantities } from './quantity.ts';

const SOLVED = 'balance of forces with the real spring, gas and stop, perch unchanged';

type PairQuantity = Quantity<PairWorking>;
type PositionOf = (p: PairWorking) => WheelPosition | null;

export function caseQuantities(cases: readonly LoadCase[]): readonly PairQuantity[] {
  return cases.flatMap((loadCase, k) => {
    return loadCase.kind === 'multiple' ? multipleRows(loadCase, k + 1) : corneringRows(loadCase, k + 1);
  });
}

function multipleRows(loadCase: Extract<LoadCase, { kind: 'multiple' }>, n: number): PairQuantity[] {
  return AXLE_NAMES.flatMap((axle) => {
    const position: PositionOf = (p) => underMultiple(p[axle].state, loadCase.factor[axle]);
    return positionRows(`${loadCase.name}: ${axle}`, `${n}_${axle}`, position);
  });
}

function corneringRows(loadCase: Extract<LoadCase, { kind: 'cornering' }>, n: number): PairQuantity[] {
  const solved = remembered((p: PairWorking) => corneringOf(p, loadCase.lateral));
  const { name } = loadCase;
  return [
    ...quantities<PairWorking>('load cases', SOLVED, [
      [`case_${n}_roll`, `roll_${n}`, `${name}: roll of the body`, 'angle', (p) => solved(p)?.rollAngle ?? null],
      [
        `case_${n}_roll_small`,
        `roll_small_${n}`,
        `${name}: the same by small-angle arithmetic`,
        'angle',
        (p) => solved(p)?.smallAngleRoll ?? null,
      ],
    ]),
    ...AXLE_NAMES.flatMap((axle) => [
      ...positionRows(`${name}: ${axle} outer`, `${n}_${axle}_outer`, (p) => solved(p)?.axles[axle].outer ?? null),
      ...positionRows(`${name}: ${axle} inner`, `${n}_${axle}_inner`, (p) => solved(p)?.axles[axle].inner ?? null),
      ...shareRows(name, n, axle, solved),
    ]),
  ];
}

// biome-ignore format: one row a quantity
function positionRows(label: string, key: string, at: PositionOf): PairQuantity[] {
  return quantities<PairWorking>('load cases', SOLVED, [
    [`case_${key}_height`, `H_case_${key}`, `${label}, hub to arch`, 'length', (p) => at(p)?.height ?? null],
    [`case_${key}_length`, `l_case_${key}`, `${label}, damper length`, 'length', (p) => at(p)?.damperLength ?? null],
    [`case_${key}_to_stop`, `z_case_${key}`, `${label}, wheel travel left to the stop`, 'length', (p) => at(p)?.travelToStop ?? null],
    [`case_${key}_into_stop`, `c_case_${key}`, `${label}, squeeze of the stop`, 'length', (p) => at(p)?.intoStop ?? null],
  ]);
}

// biome-ignore format: one row a quantity
function shareRows(name: string, n: number, axle: AxleName, solved: (p: PairWorking) => CorneringResult | null): PairQuantity[] {
  const key = `${n}_${axle}`;
  return quantities<PairWorking>('load cases', SOLVED, [
    [`case_${key}_jacking`, `jack_${key}`, `${name}: ${axle} axle rises by`, 'length', (p) => solved(p)?.axles[axle].jacking ?? null],
    [`case_${key}_spring_share`, `dW_spring_${key}`, `${name}: ${axle} load moved through the springs`, 'force', (p) => solved(p)?.axles[axle].springShare ?? null],
    [`case_${key}_bar_share`, `dW_bar_${key}`, `${name}: ${axle} load moved through the bar`, 'force', (p) => solved(p)?.axles[axle].barShare ?? null],
    [`case_${key}_centre_share`, `dW_centre_${key}`, `${name}: ${axle} load moved through the roll centre`, 'force', (p) => solved(p)?.axles[axle].rollCentreShare ?? null],
  ]);
}

function corneringOf({ scenario, front, rear }: PairWorking, lateral: number): CorneringResult | null {
  const { sprungCentreHeight } = scenario.car;
  const frontRoll = scenario.axles.front.roll;
  const rearRoll = scenario.axles.rear.roll;
  if (sprungCentreHeight === null || frontRoll === null || rearRoll === null) return null;
  const axles = { front: { state: front.state, roll: frontRoll }, rear: { state: rear.state, roll: rearRoll } };
  return cornering(axles, sprungCentreHeight, lateral);
}

/** Solves once for the same pair, which many rows then read. */
function remembered<T>(solve: (p: PairWorking) => T): (p: PairWorking) => T {
  let last: { readonly p: PairWorking; readonly solved: T } | null = null;
  return (p) => {
    if (last?.p !== p) last = { p, solved: solve(p) };
    return last.solved;
  };
}
