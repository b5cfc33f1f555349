/** Sentences about values that contradict each other. Lengths mm, rates N/mm, masses kg, forces N. */
import type { SpringFault } from '../../model/spring/spring.ts';
import { type Complaint, state } from './problems.ts';
import { plainNumber, quote, suggest } from './value.ts';

const mm = (value: number): string => `${plainNumber(value)} mm`;
const newton = (value: number): string => `${plainNumber(value)} N`;
const kg = (value: number): string => `${plainNumber(value)} kg`;

export const exactlyOne = (a: string, b: string) =>
  state(
    `both or neither of ${quote(a)} and ${quote(b)}`,
    `exactly one of ${quote(a)} and ${quote(b)}`,
    'give the one that was measured',
  );

// Damper
export const compressedNotShorter = (compressed: number, extended: number) =>
  state(
    `a compressed length of ${mm(compressed)} beside an extended length of ${mm(extended)}`,
    'the compressed length below the extended length, for every listed value',
    'check that both are taken from the lower eye centre to the rod shoulder',
  );
export const bodyLongerThanCompressed = (body: number, compressed: number) =>
  state(
    `a body of ${mm(body)} beside a compressed length of ${mm(compressed)}`,
    'the body not longer than the compressed length: the rod shoulder stays above the body top',
    'check that both are taken from the lower eye centre',
  );
export const gasForceFalls = (out: number, inside: number) =>
  state(
    `a gas force of ${newton(inside)} fully in and ${newton(out)} fully out`,
    'the force fully in not below the force fully out: the gas is compressed on the way in',
    'exchange the two values',
  );
export const gasSqueezedAway = (volume: number, rod: number, least: number) =>
  state(
    `a gas volume of ${plainNumber(volume)} mm3 for a rod that takes ${plainNumber(Math.round(rod))} mm3 of it when fully in`,
    `at least ${least} times the volume of the rod`,
    'check the gas volume (damper fully out), the rod, and the lengths out and in',
  );
export const repeatedVelocity = (velocity: number) =>
  state(`the velocity ${plainNumber(velocity)} m/s a second time`, 'each velocity once', 'keep one row per velocity');

// Sleeve
export const trimTakesAll = (trim: number, length: number) =>
  state(
    `a trim of ${mm(trim)} on a sleeve of ${mm(length)}`,
    'every trim below every sleeve length',
    'reduce the largest trim',
  );
export const grooveBelowEye = (drop: number, ledge: number) =>
  state(
    `a groove lowered by ${mm(drop)} from a ledge at ${mm(ledge)}`,
    'a new groove above the lower eye',
    'give how much lower the groove is, not where it is',
  );
export const grooveInSingleTube = (drop: number, damper: string) =>
  state(
    `a groove lowered by ${mm(drop)} on the axle of the single-tube damper ${quote(damper)}`,
    'no new groove: the piston runs on the inside of that wall, gas pressure behind it',
    'leave the field out; never groove or weld such a body. Use a shorter sleeve, or a damper with a twin-tube body',
  );
export const boreNotInside = (bore: number, outer: number) =>
  state(
    `a bore of ${mm(bore)} in an outer diameter of ${mm(outer)}`,
    'the bore below the outer diameter',
    'exchange or measure again',
  );
export const ledgeAboveBody = (ledge: number, damper: string, body: number) =>
  state(
    `a ledge at ${mm(ledge)}, not below the top of the body of damper ${quote(damper)} at ${mm(body)}`,
    "the sleeve's ledge below the top of the damper body",
    'check that both are taken from the lower eye centre',
  );

// Rod end
export const threadReversed = (start: number, end: number) =>
  state(
    `a thread from ${mm(start)} to ${mm(end)}`,
    'the end of the thread above its start',
    'take both from the rod shoulder upwards',
  );

// Bump stop
export const squeezeNotRising = (squeeze: number, before: number) =>
  state(
    `${mm(squeeze)} after ${mm(before)}`,
    'squeezes that rise from row to row',
    'sort the rows and keep one per squeeze',
  );
export const stopForceFalls = (force: number, before: number) =>
  state(
    `${newton(force)} after ${newton(before)}`,
    'a force that does not fall as the stop is squeezed',
    'use the loading branch of the measurement only',
  );
export const squeezedAway = (squeeze: number, length: number) =>
  state(
    `a squeeze of ${mm(squeeze)} of a stop of ${mm(length)}`,
    'a squeeze below the measured free length',
    'give how far it was squeezed, not what was left',
  );
export const forceWithoutSqueeze = (force: number) =>
  state(`${newton(force)} at no squeeze`, '0 N at 0 mm', 'start the curve at the first touch');
export const curveTooShort = () =>
  state('a curve of the point at 0 mm alone', 'at least one point beyond 0 mm', 'add the measured points');
export const closedFractionNeeded = () =>
  state(
    'a stop without `closed_fraction` and without `curve`',
    'one of the two',
    'measure the closed length and divide it by the free length',
  );
export const neverCloses = (share: number) =>
  state(
    `a closed fraction of ${plainNumber(share)}`,
    'a closed fraction above 0 and below 1',
    'divide the closed length by the free length',
  );
export const cutLongerThanBought = (cut: number, length: number) =>
  state(
    `a cut length of ${mm(cut)} of a stop of ${mm(length)}`,
    'the cut length not above the length as bought',
    'a stop can only be shortened',
  );
export const packerDiameterNeeded = () =>
  state('a packer without `packer_diameter`', 'the outer diameter of the packer', 'add `packer_diameter`');

// Springs
export const rateNeeded = () =>
  state(
    'a spring without `rate` and without `wire` and `coils`',
    'the rate, or wire diameter and coils to compute it from',
    'add `rate`, or add both `wire` and `coils`',
  );
export const solidNeeded = () =>
  state(
    'a spring whose solid height nothing tells',
    'the solid height, or wire diameter and coils, or rate and bore to estimate it from',
    'add `solid_height`, or both `wire` and `coils`, or both `rate` and `bore`',
  );
export const axleNeeded = () =>
  state('neither axle', 'at least one axle', 'add `front:` or `rear:` below `axles`, with its parts');
export const solidNotShorter = (solid: number, free: number) =>
  state(
    `a solid height of ${mm(solid)} beside a free length of ${mm(free)}`,
    'the solid height below the free length',
    'check both lengths',
  );
export const stressSharesReversed = (thick: number, thin: number) =>
  state(
    `${plainNumber(thick)} at the thick end and ${plainNumber(thin)} at the thin end`,
    'the thick end at the lower stress',
    'exchange the two shares',
  );
export const endsReversed = () =>
  state('an upper end below the lower end', '`to` not below `from`', 'exchange `from` and `to`');
export function impossibleSpring(
  spring: { readonly name: string; readonly freeLength: number },
  fault: SpringFault | null,
): Complaint {
  const reasons: Readonly<Record<SpringFault, string>> = {
    rate_unknown: 'neither its rate nor wire and coils are known',
    no_active_coils: 'its end coils leave no active coil',
    solid_not_shorter: `it would be solid at its free length of ${mm(spring.freeLength)}`,
  };
  const reason = fault === null ? 'no wire has both this rate and this solid height' : reasons[fault];
  return state(
    `a spring that cannot exist: ${quote(spring.name)}: ${reason}`,
    'free length, rate, bore, wire, coils and solid height that fit together',
    'check the numbers and their units; in a grid, leave out the shortest lengths',
  );
}

// Motion and loads
export const raiseNeeded = () =>
  state(
    'a pair without `mount_raise`',
    'the raise of the rod shoulder when the pair was taken',
    'add `mount_raise` to `motion`, or to each pair',
  );
export const ratioNeeded = () =>
  state(
    'a single pair without `ratio`',
    'a motion ratio, or at least two pairs',
    'measure a second pair, or add `ratio` to `motion`',
  );
export const ratioNotNeeded = (pairs: number) =>
  state(
    `a motion ratio beside ${pairs} pairs`,
    'a ratio with a single pair only',
    'remove `ratio`: the pairs already give it',
  );
export const repeatedHeight = (height: number) =>
  state(
    `the ride height ${mm(height)} a second time`,
    'each ride height once',
    'keep one damper length per ride height',
  );
export const motionNotRising = (height: number, below: number) =>
  state(
    `a damper not longer at ride height ${mm(height)} than at ${mm(below)}, mount raise taken out`,
    'damper lengths that grow with ride height',
    'measure both pairs again',
  );
export const unsprungNotLess = (unsprung: number, load: number) =>
  state(
    `an unsprung mass of ${kg(unsprung)} under a wheel load of ${kg(load)}`,
    'the unsprung mass below the wheel load',
    'check both; they are for one wheel',
  );
export const droopAboveArch = (lowest: number, arch: number) =>
  state(
    `the wheel lowest at ride height ${mm(lowest)}, and the tyre on the arch at ${mm(arch)}`,
    'the lowest wheel position at a larger hub-to-arch height than the tyre on the arch',
    'hub-to-arch height grows as the wheel droops',
  );

// Setups
export const targetOutsideRange = (target: number, from: number, to: number) =>
  state(
    `a target height of ${mm(target)} and a wanted range from ${mm(from)} to ${mm(to)}`,
    'the target inside the wanted range',
    'move the target or widen the range',
  );
export const valueOutsideWindow = (value: number, from: number, to: number) =>
  state(
    `${plainNumber(value)} outside ${plainNumber(from)} to ${plainNumber(to)}`,
    'the wanted value inside its own window',
    'move the value or widen the window',
  );
export const limitInsideWindow = (limit: number, from: number, to: number) =>
  state(
    `a limit of ${plainNumber(limit)} inside the wanted window, ${plainNumber(from)} to ${plainNumber(to)}`,
    'limits that hold the wanted window',
    'move the limit out or narrow the window',
  );
export const goodNotAboveLeast = (good: number, least: number) =>
  state(
    `good bump travel of ${mm(good)} and least bump travel of ${mm(least)}`,
    '`good` above `least`',
    'raise `good`, or lower `least`',
  );
export const standsOnStop = (least: number) =>
  state(
    `a least bump travel of ${mm(least)}: the car may stand in its bump stop`,
    '0 mm or more, unless `standing_on_stop: true`',
    'raise `least`, or allow standing on the stop (its force-travel curve is then needed)',
  );
export const stateLighterThanWheel = (extra: number, sprung: number) =>
  state(
    `${kg(extra)} on a sprung mass of ${kg(sprung)} per wheel`,
    'a load state that leaves some sprung mass',
    'give what is added or removed per wheel',
  );
export const curvesNeeded = (why: string, stops: readonly string[]) =>
  state(
    `${quote(why)} with bump stops that have no force-travel curve: ${stops.map(quote).join(', ')}`,
    'a `curve` for every bump stop of both axles',
    'add the curves, or leave the stop out of standing and full bump (`bump: closed`, `standing_on_stop: false`)',
  );
export const corneringNeeds = (missing: readonly string[]) =>
  state(
    `a cornering load case without ${missing.map(quote).join(', ')}`,
    'the height of the sprung centre of gravity, and `roll` for both axles',
    `add ${missing.map(quote).join(', ')}, or remove the load case`,
  );
export const repeatedName = (name: string, what: string) =>
  state(
    `the name ${quote(name)} a second time`,
    `a different name for each ${what}`,
    'rename one of the two: the report tells them apart by name',
  );

// Plan
export const unknownSetup = (name: string, nearest: string | null, known: readonly string[]) =>
  state(
    `the unknown setup ${quote(name)}`,
    `one of the setups: ${known.map(quote).join(', ')}`,
    suggest(nearest, 'name a setup of this file'),
  );
export const repeatedInPlan = (name: string) =>
  state(`${quote(name)} a second time`, 'each entry once', 'remove one of the two');
export const tooFewSetups = (count: number) =>
  state(
    `a plan for ${count === 0 ? 'no setup' : 'a single setup'}`,
    'two or more setups: a plan shares parts between them',
    'add a setup, or remove `plan`',
  );

// Ranking
export const goodPriceNotLower = () =>
  state('a good price not below the worst price', '`good` below `worst`', 'exchange the two');
export const allWeightsZero = () =>
  state('only weights of 0', 'at least one weight above 0', 'give one criterion a weight');
export const weightWithout = (criterion: string, needed: string) =>
  state(
    `a weight for ${quote(criterion)} without ${needed}`,
    `${needed}, or the weight 0`,
    `add ${needed}, or set the weight to 0`,
  );
export const currencyNeeded = () =>
  state(
    'prices without a currency',
    'the currency all prices are in',
    'add `currency: EUR`, or whichever it is, at the top',
  );
export const tooManyOptions = (count: number, most: number) =>
  state(
    `${plainNumber(count)} alternatives`,
    `at most ${plainNumber(most)} alternatives per part family`,
    'sweep fewer dimensions of one part, or use larger steps',
  );
