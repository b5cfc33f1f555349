/** Published values of gas, lever and joined springs: how each is computed with the program's own parts. */
import { springRate } from '../../../src/domain/formula/coil.ts';
import { gasForceCharge, gasRate } from '../../../src/domain/formula/gas.ts';
import { motionCurve, ratioAt, ratioSlopeAt } from '../../../src/domain/motion.ts';
import { deflectionUnder, type SpringStack } from '../../../src/domain/stack.ts';
import type { Inputs } from '../rows.ts';

function gas(i: Inputs): readonly [number, number, number, number, number] {
  const rod = (Math.PI / 4) * i.number('rod') ** 2;
  const volume = (Math.PI / 4) * i.number('bore') ** 2 * i.number('column');
  return [i.number('p'), rod, volume, i.number('s'), i.number('n')];
}

/**
 * The lever of the source, measured like a car: spring length and wheel height at five positions half a millimetre apart. Heights
 * grow in droop, so that the arm turning up lowers them.
 */
function lever(i: Inputs) {
  const [foot, wheel] = [i.number('c'), i.number('b')];
  const spring = (angle: number) =>
    Math.hypot(i.number('topX') - foot * Math.cos(angle), i.number('topY') - foot * Math.sin(angle));
  const pairs = [-1, -0.5, 0, 0.5, 1].map((height) => {
    const damperLength = spring(Math.asin(-height / wheel));
    return { hubToArch: height, damperLength, raise: 0 };
  });
  const curve = motionCurve({ pairs, ratio: null });
  const force = i.number('ks') * (i.number('L0') - spring(0));
  return { ratio: ratioAt(curve, 0), slope: ratioSlopeAt(curve, 0), force };
}

function leverRatio(i: Inputs): number {
  i.number('ks');
  i.number('L0');
  return lever(i).ratio;
}

/** Wheel rate, dMR/dz = -dMR/dH since z is counted in bump. */
function leverWheelRate(i: Inputs): number {
  const { ratio, slope, force } = lever(i);
  return i.number('ks') * ratio ** 2 - force * slope;
}

/**
 * Two springs side by side, the second joining after a gap, have the kinked line of two springs in series of which one
 * goes solid: rate k1, then k1 + k2. So the stack is given the parts with that line.
 */
function joined(i: Inputs) {
  const outer = springRate(i.number('G'), i.number('d1'), i.number('D1'), i.number('n1'));
  const inner = springRate(i.number('G'), i.number('d2'), i.number('D2'), i.number('n2'));
  const both = outer + inner;
  const helperRate = (both * outer) / (both - outer);
  const helperTravel = (outer * i.number('gap')) / helperRate;
  const rest = { freeLength: 0, solidLength: 0, mainTravel: 1000 };
  const stack: SpringStack = { ...rest, mainRate: both, helperRate, helperTravel };
  return { outer, inner, deflection: deflectionUnder(stack, i.number('F')), gap: i.number('gap') };
}

export const CORNER = {
  gas_force: (i) => gasForceCharge(...gas(i)),
  gas_rate: (i) => gasRate(...gas(i)),
  lever_ratio: leverRatio,
  lever_ratio_slope: (i) => -lever(i).slope,
  lever_wheel_rate: leverWheelRate,
  joined_deflection: (i) => joined(i).deflection,
  joined_inner_deflection: (i) => joined(i).deflection - joined(i).gap,
  joined_outer_load: (i) => joined(i).outer * joined(i).deflection,
  joined_inner_load: (i) => joined(i).inner * (joined(i).deflection - joined(i).gap),
} as const satisfies Record<string, (i: Inputs) => number>;
