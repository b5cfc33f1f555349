/**
 * How far what is measured on the bench may lie from its value, the perch held at the height it was set to. Elsewhere
 * the perch is set anew for the target height; whoever holds a ruler to a built corner wants to know what it may show.
 */
import { heightOn } from '../../model/corner/balance.ts';
import { geometryOf } from '../../model/corner/geometry.ts';
import { snugAt } from '../../model/corner/snug.ts';
import type { Tolerances } from '../../model/scenario.ts';
import { solidForce } from '../../model/stack.ts';
import { type Band, bandFrom, extent, type Move, STANDS_AT } from './bands.ts';
import { type Model, TOLERANCE_INPUTS } from './inputs.ts';

/** Setting the perch seat by ruler or caliper is as good as perch and lock ring are known. */
const SETTING: Move['input'] = {
  id: 'perch_setting',
  label: 'height the perch is set to',
  measure: 'lower eye to the perch seat, as set',
};

/** A car stands anywhere between the balance of its load less friction and that of its load with it. */
const FRICTION: Move['input'] = {
  id: 'friction',
  label: 'friction at the wheel',
  measure: 'hub to arch after pressing the car down and after lifting it: half the difference',
};

/** Reads a model with its perch at a height; `held` N of the load at the wheel carried by friction. */
type Read = (model: Model, perch: number, held: number) => number;

const standsAt: Read = ({ site, corner }, perch, held) =>
  heightOn(site, corner, geometryOf(site, corner), site.sprungLoad - held, perch);

const READINGS: Readonly<Record<string, Read>> = {
  [STANDS_AT]: standsAt,
  gap_out_mm: ({ site, corner }) => corner.damper.extended - geometryOf(site, corner).stopLength,
  gap_snug_mm: ({ site, corner }, perch) => snugAt(corner, geometryOf(site, corner), perch).gap,
  block_load_n: ({ site, corner }) => solidForce(geometryOf(site, corner).stack),
};

/**
 * Bands of the ride height, of the gap to the bump stop, damper fully out and spring just snug, and of the stack's solid
 * force, by key of their quantities; none where every tolerance is 0.
 *
 * Equation: see `bandFrom`; friction F moves the ride height to the balances of W - F and W + F, F / k_w to first order
 * Units: `model` in mm, N, kg and N/mm; `tolerances` half-widths in the same or as shares; `perch` P mm; result mm and N.
 * Valid: inputs independent of each other; whole steps, since what the stop meets may change.
 * Source: see `toleranceBands`.
 */
export function benchBands(model: Model, tolerances: Tolerances, perch: number): Record<string, Band> {
  const bands: Record<string, Band> = {};
  for (const [key, read] of Object.entries(READINGS)) {
    const band = bandOf(read, model, tolerances, perch);
    if (band) bands[key] = band;
  }
  return bands;
}

/**
 * The band of the ride height alone, the perch held; null where every tolerance is 0.
 *
 * Units: as `benchBands`; result mm.
 * Valid: as `benchBands`.
 */
export function standingBand(model: Model, tolerances: Tolerances, perch: number): Band | null {
  return bandOf(standsAt, model, tolerances, perch);
}

function bandOf(read: Read, model: Model, tolerances: Tolerances, perch: number): Band | null {
  const moves = movesOf(read, model, tolerances, perch);
  return moves.length > 0 ? bandFrom(read(model, perch, 0), moves) : null;
}

/**
 * What moves the height the car stands at, the perch held.
 *
 * Units: as `benchBands`; result mm.
 * Valid: as `benchBands`.
 */
export function standingMoves(model: Model, tolerances: Tolerances, perch: number): Move[] {
  return movesOf(standsAt, model, tolerances, perch);
}

/** Those that are felt at all. */
function movesOf(read: Read, model: Model, tolerances: Tolerances, perch: number): Move[] {
  const value = read(model, perch, 0);
  const { perch: setting, friction } = tolerances;
  const inputs = TOLERANCE_INPUTS.flatMap((input) => {
    const width = input.width(model, tolerances);
    if (width === null) return [];
    const ends = [-width.down, width.up].map((by) => read(input.moved(model, by), perch, 0));
    return [{ input, ...extent(value, ends) }];
  });
  const set = [perch - setting, perch + setting].map((at) => read(model, at, 0));
  const held = [-friction, friction].map((by) => read(model, perch, by));
  const others = [
    { input: SETTING, ...extent(value, set) },
    { input: FRICTION, ...extent(value, held) },
  ];
  return [...inputs, ...others].filter(({ down, up }) => down > 0 || up > 0);
}
