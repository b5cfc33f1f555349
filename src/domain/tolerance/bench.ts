/**
 * How far what is measured on the bench may lie from its value, the perch held at the height it was set to. Elsewhere
 * the perch is set anew for the target height; whoever holds a ruler to a built corner wants to know what it may show.
 */
import { geometryOf } from '../corner/geometry.ts';
import { snugAt } from '../corner/snug.ts';
import type { Tolerances } from '../scenario.ts';
import { solidForce } from '../stack.ts';
import { type Band, bandFrom, type Move } from './bands.ts';
import { type Model, TOLERANCE_INPUTS } from './inputs.ts';

/** Setting the seat face by ruler or caliper is as good as perch and lock ring are known. */
const SETTING: Move['input'] = {
  id: 'perch_setting',
  label: 'height the perch is set to',
  measure: 'lower eye to the perch’s seat face, as set',
};

interface BenchReading {
  readonly key: string;
  readonly read: (model: Model, perch: number) => number;
}

const READINGS: readonly BenchReading[] = [
  { key: 'gap_out_mm', read: ({ site, corner }) => corner.damper.extended - geometryOf(site, corner).stopLength },
  { key: 'gap_snug_mm', read: ({ site, corner }, perch) => snugAt(corner, geometryOf(site, corner), perch).gap },
  { key: 'block_load_n', read: ({ site, corner }) => solidForce(geometryOf(site, corner).stack) },
];

/**
 * Bands of the gap to the bump stop, damper fully out and spring just snug, and of the stack's solid force, by key of their quantities; none
 * where every tolerance is 0.
 *
 * Equation: see `bandFrom`
 * Units: `model` in mm, N, kg and N/mm; `tolerances` half-widths in the same or as shares; `perch` P mm; result mm and N.
 * Valid: inputs independent of each other; whole steps, since what the stop meets may change.
 * Source: see `toleranceBands`.
 */
export function benchBands(model: Model, tolerances: Tolerances, perch: number): Record<string, Band> {
  const bands: Record<string, Band> = {};
  for (const { key, read } of READINGS) {
    const value = read(model, perch);
    const moves = [...movesOfInputs(read, model, tolerances, perch), ...settingMove(read, model, tolerances, perch)];
    const felt = moves.filter(({ down, up }) => down > 0 || up > 0);
    if (felt.length > 0) bands[key] = bandFrom(value, felt);
  }
  return bands;
}

function movesOfInputs(read: BenchReading['read'], model: Model, tolerances: Tolerances, perch: number): Move[] {
  return TOLERANCE_INPUTS.flatMap((input) => {
    const halfWidth = input.halfWidth(model, tolerances);
    if (halfWidth === null) return [];
    return [
      moveBetween(
        input,
        read(model, perch),
        [-halfWidth, halfWidth].map((by) => read(input.moved(model, by), perch)),
      ),
    ];
  });
}

function settingMove(read: BenchReading['read'], model: Model, { perch: error }: Tolerances, perch: number): Move[] {
  if (error === 0) return [];
  return [moveBetween(SETTING, read(model, perch), [read(model, perch - error), read(model, perch + error)])];
}

function moveBetween(input: Move['input'], value: number, ends: readonly number[]): Move {
  const changes = ends.map((end) => end - value);
  return { input, down: Math.max(0, ...changes.map((c) => -c)), up: Math.max(0, ...changes) };
}
