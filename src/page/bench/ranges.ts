/**
 * Between which values of one control everything passes, the others held, and the limit that ends it at either side.
 * Looked for on evenly spaced values and then halved down to a hundredth of a millimetre.
 */
import type { Finding } from '../../model/corner/findings.ts';

/** What fails first at a value; null: nothing. */
export type Probe = (value: number) => Finding | null;

export interface WorkableEnd {
  readonly value: number;
  /** What fails just beyond; null: the control itself ends here. */
  readonly limit: Finding | null;
}

export interface WorkableRange {
  readonly from: WorkableEnd;
  readonly to: WorkableEnd;
  /** False: the value itself lies outside, and this is the nearest range that works. */
  readonly holdsValue: boolean;
}

const SAMPLES = 40;
/** How far an end may lie inside the true one, in the control's unit. */
export const SURE_TO = 0.01;

/** Null: no looked-at value works. */
export function workableRange(probe: Probe, value: number, least: number, most: number): WorkableRange | null {
  const step = (most - least) / SAMPLES;
  const holdsValue = probe(value) === null;
  const inside = holdsValue ? value : nearestWorking(probe, value, least, most, step);
  if (inside === null) return null;
  const from = endFrom(probe, inside, least, -step);
  return { from, to: endFrom(probe, inside, most, step), holdsValue };
}

function nearestWorking(probe: Probe, value: number, least: number, most: number, step: number): number | null {
  const values = Array.from({ length: SAMPLES + 1 }, (_, k) => least + k * step);
  const byDistance = values.sort((a, b) => Math.abs(a - value) - Math.abs(b - value));
  return byDistance.find((one) => one >= least && one <= most && probe(one) === null) ?? null;
}

/** Walks out from a value that works to the first that does not, and halves the step between the two. */
function endFrom(probe: Probe, inside: number, end: number, step: number): WorkableEnd {
  const way = Math.sign(step);
  let works = inside;
  for (;;) {
    if (way * (end - works) <= 0) return { value: end, limit: null };
    const next = way * (works + step - end) >= 0 ? end : works + step;
    const limit = probe(next);
    if (limit !== null) return halveStep(probe, works, next, limit);
    works = next;
  }
}

function halveStep(probe: Probe, works: number, fails: number, limit: Finding): WorkableEnd {
  let [inside, outside, first] = [works, fails, limit];
  while (Math.abs(outside - inside) > SURE_TO) {
    const middle = (inside + outside) / 2;
    const found = probe(middle);
    if (found === null) inside = middle;
    else [outside, first] = [middle, found];
  }
  return { value: inside, limit: first };
}
