/**
 * Warnings, notes and estimates about a corner or a pair, each as a function of its numbers. One by one, so that the
 * page's bench carries only those it shows.
 */
import type { SolidHeight } from '../parts.ts';
import type { Breach } from '../spring/details.ts';
import { CHECK, type CheckName } from './checks.ts';
import { capital, mm, stressSentence } from './messages.ts';
import type { StressDoubt } from './stress.ts';

export const sideFails = (
  axle: string,
  side: string,
  load: number,
  check: CheckName,
  { message, shortfall, unit }: Missing,
) =>
  `${capital(axle)} ${side}, at its own load of ${load.toFixed(1)} kg: ${CHECK[check].label}${shortfall === null ? '' : `, by ${formatShortfall(shortfall, unit)}`}. ${message}`;

export const outsideMotion = (axle: string, places: readonly (readonly [string, number])[]) =>
  `${capital(axle)}: outside the measured motion, where the curve goes on straight: ${places.map(([place, height]) => `${place} (${mm(height)})`).join(', ')}.`;

export const outsideValidity = (axle: string, name: string, breach: Breach) =>
  `${capital(axle)}: ${name}: ${describeBreach(breach)}.`;

export const estimateBeyondRange = (axle: string, name: string, breach: Breach) =>
  `${capital(axle)}: ${name}: by estimate its ${describeBreach(breach)}: its solid height is an extrapolation, and its stress is not checked.`;

export const stressDoubts = (axle: string, name: string, doubts: readonly StressDoubt[]) =>
  [
    `${capital(axle)}: ${name}:`,
    ...doubts.map(({ place, line }) => stressSentence(place, line)),
    ...(doubts.some((d) => d.isMaterialTaken) ? ['Its material is not given, so this only warns.'] : []),
    ...(doubts.some((d) => d.isSolidDoubtful) ? ['The solid height given may be too low: ask, or measure it.'] : []),
  ].join(' ');

export const gapsMissed = (axle: string, name: string, { clearance, least }: GapsMissed, isEstimated: boolean) =>
  `${capital(axle)}: ${name} comes within ${mm(clearance)} of coil bind at full bump; its least sum of gaps between coils is ${mm(least)} (EN 13906-1, from memory${isEstimated ? ', estimated wire' : ''}), ${mm(1.5 * least)} under repeated load. Less will do only where it is reached rarely.`;

export const fewPairs = (axle: string, pairs: number) =>
  `${capital(axle)}: with ${pairs} measured ${pairs === 1 ? 'pair' : 'pairs'} the slope of the motion ratio is taken as 0; four or more pairs would show it.`;

export const estimatedSolid = (axle: string, name: string, { least, height, most }: SolidHeight) =>
  `${capital(axle)}: the solid height of ${name} is an estimate, ${mm(least)} to ${mm(most)}; coil bind is judged on ${mm(height)}${most > height ? ', and weaker steel or unground ends would make it taller' : ''}. Measure or ask before you buy.`;

export const shortStop = (axle: string, name: string, length: number, uncut: number, why: string) =>
  `${capital(axle)}: ${name} is fitted ${mm(length)} long, ${why} (bought ${mm(uncut)}), and has no force curve: how far so short a piece closes does not follow from the whole one, and it takes little of a hit. Press the piece as cut and give its curve.`;

export const estimatedRate = (axle: string, name: string, rate: number, share: number) =>
  `${capital(axle)}: the rate of ${name}, ${rate.toFixed(1)} N/mm, is an estimate from wire, coils and bore, good to ${(100 * share).toFixed(0)} % either way. Measure it in a press before you fit it.`;

export const wireTimesCoils = (axle: string, name: string) =>
  `${capital(axle)}: the solid height of ${name} is wire times coils; half a coil miscounted is half a wire diameter.`;

export const stressNotChecked = (axle: string, name: string) =>
  `${capital(axle)}: the stress of ${name} is not checked, its wire is not known.`;

export const rodEndNotChecked = (axle: string) =>
  `${capital(axle)}: thread and nuts on the rod end are not checked, no rod end is given.`;

export const beyondFull = (where: string, what: string, left: number, margin: number) =>
  left < 0
    ? `${capital(where)}: beyond the bump load, ${what} comes ${mm(-left)} before the stop is fully closed: a harder hit finds metal.`
    : `${capital(where)}: beyond the bump load, ${what} has ${mm(left)} left with the stop fully closed: a harder hit eats into its margin of ${mm(margin)}.`;

export const stopMayMeetSleeve = (axle: string, spare: number, passing: number, apart: number) =>
  `${capital(axle)}: the bump stop has ${mm(spare)} to spare in the bore of a sleeve that stands ${mm(apart)} proud of the body, less than the passing clearance of ${mm(passing)}: it may land on the sleeve or enter it. Travel is judged with the sleeve, clearances with the body. Try it by hand.`;

export const helperLonger = (axle: string) => `${capital(axle)}: the helper outlasts the main spring, an odd choice.`;

export const helperNearStanding = (axle: string, share: number) =>
  `${capital(axle)}: the helper closes at ${(100 * share).toFixed(0)} % of the standing spring force: the rate jumps between load states.`;

export const damping = (axle: string, zeta: number, from: number, to: number) =>
  `${capital(axle)}: the damping ratio at 0.1 m/s, ${zeta.toFixed(2)}, lies outside ${from.toFixed(2)} to ${to.toFixed(2)}.`;

export const balanceOutsideWindow = (ratio: number, from: number, to: number) =>
  `Rear over front frequency is ${ratio.toFixed(2)}, outside the wanted ${from.toFixed(2)} to ${to.toFixed(2)}: it ranks lower and is not rejected, since at the damping of most cars this changes the pitch behind a bump by about 10 % or less (Crolla & King, “Olley’s ‘flat ride’ revisited”).`;

export const olley = (below: number, bounceOverPitch: number, faster: number) =>
  `Olley’s criterion for a flat ride (from memory, information only): the front ride rate is ${Math.abs(below).toFixed(0)} % ${below < 0 ? 'above' : 'below'} the rear’s, about 30 % below is asked for; bounce is ${bounceOverPitch.toFixed(2)} times pitch, below 1.2 is asked for; the faster of the two is ${faster.toFixed(2)} Hz, up to about 1.3 Hz is asked for. Firm cars miss it knowingly.`;

export const stopForceUnknown = (axle: string) =>
  `${capital(axle)}: the bump stop has no force curve, so a load case that reaches it is shown with the stop fully closed.`;

export const heldAtRest = (axle: string, stop: string, names: readonly string[]) =>
  `${capital(axle)}: at rest the axle is held by something other than its springs (${stop}), so no roll is computed for ${names.join(', ')}.`;

export const rollHeights = (axle: string, taken: number, target: number) =>
  `${capital(axle)}: the heights of roll centre and centre of gravity were taken at ${mm(taken)} hub to arch, the target is ${mm(target)}: a roll centre moves by more than the car does, so measure both again there before you trust the roll.`;

export const rollsOver = (names: readonly string[]) =>
  `Springs and bars hold the body at no roll up to 20 degrees, so there is no answer for ${names.join(', ')}: it would roll over, or its roll rates, track or heights are not those of a car.`;

export const unpriced = (names: readonly string[]) => `No price for ${names.join(', ')}: no total is given.`;

export const looseSleeve = (axle: string, slop: number) =>
  `${capital(axle)}: the sleeve is ${mm(slop)} wider than the damper body: a shim takes it up. A wrap of tape is a slip fit (common practice, no source), never what carries side load.`;

export const noWindow = (axle: string) =>
  `${capital(axle)}: no height window, the balance is not stable over the range.`;

interface GapsMissed {
  readonly clearance: number;
  readonly least: number;
}

/** What a failing check lacks, with its sentence. */
interface Missing {
  readonly message: string;
  readonly shortfall: number | null;
  readonly unit: string;
}

function formatShortfall(shortfall: number, unit: string): string {
  return `${shortfall.toFixed(unit === 'mm' ? 1 : 3)} ${unit}`.trim();
}

function describeBreach({ row, value }: Breach): string {
  const found = `${row.quantity} ${`${value.toFixed(1)} ${row.unit}`.trim()}`;
  return `${found} lies outside the range of ${row.what}, ${describeRange(row)} (${row.source})`;
}

function describeRange({ from, to, unit }: Breach['row']): string {
  const bounds = from === null ? `up to ${to}` : to === null ? `from ${from}` : `${from} to ${to}`;
  return `${bounds} ${unit}`.trim();
}
