/** Published values of gas, lever and joined springs: how each is computed with the program's own parts. */
import { gasForceAt, standingAt } from '../../../src/model/corner/balance.ts';
import { geometryOf } from '../../../src/model/corner/geometry.ts';
import { ratesAt } from '../../../src/model/corner/rates.ts';
import { springRate } from '../../../src/model/formula/coil.ts';
import { gasForceCharge, gasRate } from '../../../src/model/formula/gas.ts';
import { type MotionCurve, motionCurve, ratioAt, ratioSlopeAt } from '../../../src/model/motion.ts';
import { deflectionUnder, type SpringStack } from '../../../src/model/stack.ts';
import { plainCorner, plainSite } from '../../setup/corners.ts';
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
  return { curve, ratio: ratioAt(curve, 0), slope: ratioSlopeAt(curve, 0), force };
}

function leverRatio(i: Inputs): number {
  i.number('ks');
  i.number('L0');
  return lever(i).ratio;
}

/** Wheel rate of a corner with this motion, a plain spring and nothing else, at the height where the arm is level. */
function leverWheelRate(i: Inputs): number {
  const { curve, ratio, force } = lever(i);
  return bareRates(curve, i.number('ks'), ratio * force).wheel;
}

/** The model's rates under a load at the wheel, N, with one spring on a damper without gas, stop curve or raise. */
function bareRates(motion: MotionCurve, rate: number, load: number, tyreRate = 190, mass = 300) {
  const { spring, damper, mount } = plainCorner();
  const corner = plainCorner({
    spring: { ...spring, rate, freeLength: 400, solid: { ...spring.solid, height: 10, least: 10 } },
    damper: { ...damper, gas: { kind: 'none' } },
    mount: { ...mount, raise: 0, bareRaise: 0 },
  });
  const site = plainSite({ motion, tyreRate });
  const geometry = { ...geometryOf(site, corner), stopLength: 0 };
  return ratesAt(site, corner, geometry, standingAt(site, corner, geometry, 0, load), mass);
}

/** Constant motion ratio: spring foot over wheel on a straight arm, small displacements. */
function constantRatio(ratio: number): MotionCurve {
  return motionCurve({ pairs: [{ hubToArch: 0, damperLength: 360, raise: 0 }], ratio });
}

/** Gas push of a corner's charged damper, standing. */
function cornerGasForce(i: Inputs): number {
  const { damper } = plainCorner();
  const gasVolume = (Math.PI / 4) * i.number('bore') ** 2 * i.number('column');
  const rodArea = (Math.PI / 4) * i.number('rod') ** 2;
  const charge = { kind: 'charge', chargePressure: i.number('p'), rodArea, gasVolume } as const;
  return gasForceAt({ ...damper, gas: charge }, damper.extended - i.number('s'));
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
  arm_wheel_rate: (i) => bareRates(constantRatio(i.number('c') / i.number('b')), i.number('ks'), 2000).wheel,
  corner_ride_rate: (i) => bareRates(constantRatio(1), i.number('kw'), 2000, i.number('kt')).ride,
  corner_gas_force: cornerGasForce,
  joined_deflection: (i) => joined(i).deflection,
  joined_inner_deflection: (i) => joined(i).deflection - joined(i).gap,
  joined_outer_load: (i) => joined(i).outer * joined(i).deflection,
  joined_inner_load: (i) => joined(i).inner * (joined(i).deflection - joined(i).gap),
} as const satisfies Record<string, (i: Inputs) => number>;
