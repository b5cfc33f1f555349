/** Quantities of front and rear together. */
import { wheelStopLabel } from '../../model/corner/contacts.ts';
import { type CorneringResult, cornering, underMultiple, type WheelPosition } from '../../model/corner/loadCases.ts';
import { judgedFrequency } from '../../model/corner/rates.ts';
import { cornerPrice } from '../../model/corner/score.ts';
import { halfCarModes, inStepSpeed } from '../../model/formula/vibration.ts';
import { AXLE_NAMES, type AxleName, type LoadCase, type Setup } from '../../model/scenario.ts';
import { type KeyOf, type PairWorking, pairRows, type Values } from './quantity.ts';
import { standingDampingRatio } from './rates.ts';

const OLLEY = 'Olley’s criterion for a flat ride (from memory), as information';
const IN_STEP =
  'wheelbase crossed in 1.5 cycles of difference; only where a damping ratio at 0.1 m/s is not known or below 0.2, since above it the swings die out before (Crolla & King, “Olley’s ‘flat ride’ revisited”)';
/** Damping ratio from which front and rear swing out before they could fall in step. */
const DAMPED = 0.2;
const HALF_CAR = '2 x 2 eigenproblem of bounce and pitch, wheel rates without the tyre';

// biome-ignore format: one row a quantity
export const PAIR = pairRows('pair', HALF_CAR, [
  ['front_frequency', 'f_front', 'front frequency as the setup judges it', 'frequency', (p) => judgedFrequency(p.front.state), undefined, { source: 'front corner' }],
  ['rear_frequency', 'f_rear', 'rear frequency as the setup judges it', 'frequency', (p) => judgedFrequency(p.rear.state), undefined, { source: 'rear corner' }],
  ['frequency_ratio', 'ratio', 'rear over front frequency', 'ratio', (p) => judgedFrequency(p.rear.state) / judgedFrequency(p.front.state), 'f_rear / f_front', { source: 'ratio of body frequencies' }],
  ['bounce_frequency', 'f_bounce', 'bounce of the whole car', 'frequency', (p) => modes(p).bounce.frequency],
  ['bounce_centre', 'X_bounce', 'bounce centre ahead of the centre of gravity', 'length', (p) => modes(p).bounce.centre],
  ['pitch_frequency', 'f_pitch', 'pitch of the whole car', 'frequency', (p) => modes(p).pitch.frequency],
  ['pitch_centre', 'X_pitch', 'pitch centre ahead of the centre of gravity', 'length', (p) => modes(p).pitch.centre],
  ['in_step_speed', 'v_step', 'road speed at which front and rear fall in step after 1.5 cycles', 'speed', inStep, undefined, { source: IN_STEP }],
  ['ride_rate_front', 'k_ride_f', 'front ride rate, tyre included', 'rate', (p) => p.front.state.rates.ride, undefined, { source: 'front corner' }],
  ['ride_rate_rear', 'k_ride_r', 'rear ride rate, tyre included', 'rate', (p) => p.rear.state.rates.ride, undefined, { source: 'rear corner' }],
  ['ride_rate_below', 'below', 'front ride rate below the rear’s (Olley, from memory: about 30 %)', 'share', rideRateBelow, '100 * (1 - k_ride_f / k_ride_r)', { source: OLLEY }],
  ['bounce_over_pitch', 'f_b_p', 'bounce over pitch (Olley, from memory: below 1.2)', 'ratio', (p) => modes(p).bounce.frequency / modes(p).pitch.frequency, 'f_bounce / f_pitch', { source: OLLEY }],
  ['faster_mode', 'f_faster', 'the faster of bounce and pitch (Olley, from memory: up to about 1.3 Hz)', 'frequency', (p) => Math.max(modes(p).bounce.frequency, modes(p).pitch.frequency), 'max(f_bounce, f_pitch)', { source: OLLEY }],
  ['price_total', 'price', 'price of all parts, both sides', 'money', total, undefined, { better: 'less', source: 'prices given' }],
]);

/** Every quantity of a pair, in order; each load case of the setup brings rows of its own. */
export function pairQuantities(setup: Pick<Setup, 'loadCases'>) {
  return [...PAIR, ...caseQuantities(setup.loadCases)];
}

export type PairKey = KeyOf<ReturnType<typeof pairQuantities>[number]>;
export type PairValues = Values<PairKey>;

function modes({ scenario, front, rear }: PairWorking) {
  const { car } = scenario;
  const massFront = 2 * front.state.site.sprungMass;
  const massRear = 2 * rear.state.site.sprungMass;
  const mass = massFront + massRear;
  const a = (car.wheelbase * massRear) / mass;
  const b = car.wheelbase - a;
  const radius = Math.sqrt(car.pitchInertiaRatio * a * b);
  return halfCarModes(mass, radius, a, b, 2 * front.state.rates.wheel, 2 * rear.state.rates.wheel);
}

function rideRateBelow({ front, rear }: PairWorking): number {
  return 100 * (1 - front.state.rates.ride / rear.state.rates.ride);
}

function inStep({ scenario, front, rear }: PairWorking): number | null {
  const isDamped = [front, rear].every((w) => (standingDampingRatio(w) ?? 0) >= DAMPED);
  if (isDamped) return null;
  return inStepSpeed(scenario.car.wheelbase, judgedFrequency(front.state), judgedFrequency(rear.state));
}

function total({ front, rear }: PairWorking): number | null {
  const a = cornerPrice(front.state.corner);
  const b = cornerPrice(rear.state.corner);
  return a === null || b === null ? null : 2 * (a + b);
}

// Passing loads: where each axle's wheels go in each load case of the setup.

const SOLVED = 'balance of forces with the real spring, gas and stop, perch unchanged';

type PositionOf = (p: PairWorking) => WheelPosition | null;
type CorneringOf = (p: PairWorking) => CorneringResult | null;

export function caseQuantities(cases: readonly LoadCase[]) {
  return cases.flatMap((loadCase, k) => {
    return loadCase.kind === 'multiple' ? multipleRows(loadCase, k + 1) : corneringRows(loadCase, k + 1);
  });
}

export type WheelKey = `${number}_${AxleName}` | `${number}_${AxleName}_${'outer' | 'inner'}`;

/** A wheel of a load case: what it is called, the key of its rows, and where it is. */
interface CaseWheel {
  readonly label: string;
  readonly key: WheelKey;
  readonly at: PositionOf;
}

/** What stops each wheel of the load cases that something stops, by key. */
export function caseWords(cases: readonly LoadCase[], pair: PairWorking): Record<string, string> {
  const wheels = cases.flatMap((loadCase, k) => wheelsOf(loadCase, k + 1));
  return Object.fromEntries(
    wheels.flatMap(({ key, at }) => {
      const stop = at(pair)?.at ?? null;
      return stop === null ? [] : [[`case_${key}_stopped_by`, wheelStopLabel(stop)]];
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

function multipleRows(loadCase: Extract<LoadCase, { kind: 'multiple' }>, n: number) {
  return multipleWheels(loadCase, n).flatMap(positionRows);
}

function corneringRows(loadCase: Extract<LoadCase, { kind: 'cornering' }>, n: number) {
  const solved = remembered((p: PairWorking) => corneringOf(p, loadCase.lateral));
  const { name } = loadCase;
  return [
    ...pairRows('load cases', SOLVED, [
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
function positionRows({ label, key, at }: CaseWheel) {
  const stopped = (p: PairWorking) => {
    const stop = at(p)?.at ?? null;
    return stop === null ? SOLVED : `${SOLVED}; stopped by: ${wheelStopLabel(stop)}`;
  };
  return pairRows('load cases', SOLVED, [
    [`case_${key}_height`, `H_case_${key}`, `${label}, hub to arch`, 'length', (p) => at(p)?.height ?? null, undefined, { source: stopped }],
    [`case_${key}_length`, `l_case_${key}`, `${label}, damper length`, 'length', (p) => at(p)?.damperLength ?? null],
    [`case_${key}_to_stop`, `z_case_${key}`, `${label}, wheel travel left to the stop`, 'length', (p) => at(p)?.travelToStop ?? null],
    [`case_${key}_to_droop`, `y_case_${key}`, `${label}, wheel travel left to full droop`, 'length', (p) => at(p)?.travelToDroop ?? null],
    [`case_${key}_into_stop`, `c_case_${key}`, `${label}, squeeze of the stop`, 'length', (p) => at(p)?.intoStop ?? null],
  ]);
}

// biome-ignore format: one row a quantity
function shareRows(name: string, n: number, axle: AxleName, solved: CorneringOf) {
  const key: WheelKey = `${n}_${axle}`;
  return pairRows('load cases', SOLVED, [
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
