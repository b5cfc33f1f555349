/** Passing loads: where each axle's wheels go in each load case of the setup. */
import { type CorneringResult, cornering } from '../cases/cornering.ts';
import { underMultiple, type WheelPosition } from '../cases/multiple.ts';
import { WHEEL_STOP_LABELS } from '../corner/contactLabels.ts';
import { AXLE_NAMES, type AxleName, type LoadCase } from '../scenario.ts';
import { type PairWorking, type Quantity, quantities } from './quantity.ts';

const SOLVED = 'balance of forces with the real spring, gas and stop, perch unchanged';

type PairQuantity = Quantity<PairWorking>;
type PositionOf = (p: PairWorking) => WheelPosition | null;
type CorneringOf = (p: PairWorking) => CorneringResult | null;

export function caseQuantities(cases: readonly LoadCase[]): readonly PairQuantity[] {
  return cases.flatMap((loadCase, k) => {
    return loadCase.kind === 'multiple' ? multipleRows(loadCase, k + 1) : corneringRows(loadCase, k + 1);
  });
}

/** A wheel of a load case: what it is called, the key of its rows, and where it is. */
interface CaseWheel {
  readonly label: string;
  readonly key: string;
  readonly at: PositionOf;
}

/** What stops each wheel of the load cases that something stops, by key. */
export function caseWords(cases: readonly LoadCase[], pair: PairWorking): Record<string, string> {
  const wheels = cases.flatMap((loadCase, k) => wheelsOf(loadCase, k + 1));
  return Object.fromEntries(
    wheels.flatMap(({ key, at }) => {
      const stop = at(pair)?.at ?? null;
      return stop === null ? [] : [[`case_${key}_stopped_by`, WHEEL_STOP_LABELS[stop]]];
    }),
  );
}

function wheelsOf(loadCase: LoadCase, n: number): CaseWheel[] {
  if (loadCase.kind === 'multiple') return multipleWheels(loadCase, n);
  const solved = remembered((p: PairWorking) => corneringOf(p, loadCase.lateral));
  return AXLE_NAMES.flatMap((axle) => corneringWheels(loadCase.name, n, axle, solved));
}

function multipleWheels({ name, factor }: Extract<LoadCase, { kind: 'multiple' }>, n: number): CaseWheel[] {
  return AXLE_NAMES.map((axle) => {
    return { label: `${name}: ${axle}`, key: `${n}_${axle}`, at: (p) => underMultiple(p[axle].state, factor[axle]) };
  });
}

function corneringWheels(name: string, n: number, axle: AxleName, solved: CorneringOf): CaseWheel[] {
  return (['outer', 'inner'] as const).map((side) => {
    const at: PositionOf = (p) => solved(p)?.axles[axle][side] ?? null;
    return { label: `${name}: ${axle} ${side}`, key: `${n}_${axle}_${side}`, at };
  });
}

function multipleRows(loadCase: Extract<LoadCase, { kind: 'multiple' }>, n: number): PairQuantity[] {
  return multipleWheels(loadCase, n).flatMap(positionRows);
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
      ...corneringWheels(name, n, axle, solved).flatMap(positionRows),
      ...shareRows(name, n, axle, solved),
    ]),
  ];
}

// biome-ignore format: one row a quantity
function positionRows({ label, key, at }: CaseWheel): PairQuantity[] {
  const stopped = (p: PairWorking) => {
    const stop = at(p)?.at ?? null;
    return stop === null ? SOLVED : `${SOLVED}; stopped by: ${WHEEL_STOP_LABELS[stop]}`;
  };
  return quantities<PairWorking>('load cases', SOLVED, [
    [`case_${key}_height`, `H_case_${key}`, `${label}, hub to arch`, 'length', (p) => at(p)?.height ?? null, undefined, { source: stopped }],
    [`case_${key}_length`, `l_case_${key}`, `${label}, damper length`, 'length', (p) => at(p)?.damperLength ?? null],
    [`case_${key}_to_stop`, `z_case_${key}`, `${label}, wheel travel left to the stop`, 'length', (p) => at(p)?.travelToStop ?? null],
    [`case_${key}_to_droop`, `y_case_${key}`, `${label}, wheel travel left to full droop`, 'length', (p) => at(p)?.travelToDroop ?? null],
    [`case_${key}_into_stop`, `c_case_${key}`, `${label}, squeeze of the stop`, 'length', (p) => at(p)?.intoStop ?? null],
  ]);
}

// biome-ignore format: one row a quantity
function shareRows(name: string, n: number, axle: AxleName, solved: CorneringOf): PairQuantity[] {
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
