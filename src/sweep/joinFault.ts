/**
 * Whether parts join to one whole. A digest says that a file is as it was written, not who wrote it: before a part is
 * used, its shape, ranges, counts and sums are held against the scenario, and each candidate is judged again.
 */

import { readFileSync } from 'node:fs';
import { firstFailure } from '../model/corner/findings.ts';
import { cornerAt, stackOf } from '../model/corner/options.ts';
import { candidateOf } from '../model/corner/score.ts';
import { cornerState } from '../model/corner/state.ts';
import { heightWindow } from '../model/corner/window.ts';
import { differencesOf } from '../model/differences.ts';
import type { Scenario, Setup } from '../model/scenario.ts';
import { type RootShape, type ShapeFault, shapeFault } from '../result/shape.ts';
import type { Chunk } from './chunk.ts';
import { type AxleLayout, layoutOf } from './layout.ts';
import { type KeptCandidate, keptOf, type Part, type PartRange, scenarioDigest, shareChunks } from './shard.ts';
import { PASS, VERDICTS } from './tally.ts';

/** Why parts do not join to one whole; null when they do. */
export type JoinFault =
  /** `place`: the part's among those given, from 0. */
  | ({ readonly kind: 'unsound'; readonly place: number } & ShapeFault)
  | { readonly kind: 'other scenario'; readonly part: number }
  | { readonly kind: 'other count'; readonly part: number }
  | { readonly kind: 'twice'; readonly part: number }
  | { readonly kind: 'missing'; readonly parts: readonly number[] };

export function joinFault(scenario: Scenario, parts: readonly Part[]): JoinFault | null {
  const unsound = (faultIn: (part: Part) => ShapeFault | null): JoinFault | null => {
    for (const [place, part] of parts.entries()) {
      const fault = faultIn(part);
      if (fault !== null) return { kind: 'unsound', place, ...fault };
    }
    return null;
  };
  const shape = partShape();
  return (
    unsound((part) => shapeFault(part, shape)) ??
    shareFault(scenario, parts) ??
    unsound((part) => contentFault(scenario, part))
  );
}

/** Of the type `Part`, made by the build; `dist` lies two folders up, from the sources and from the compiled files. */
function partShape(): RootShape {
  return JSON.parse(readFileSync(new URL('../../dist/part.schema.json', import.meta.url), 'utf8'));
}

function shareFault(scenario: Scenario, parts: readonly Part[]): JoinFault | null {
  const digest = scenarioDigest(scenario);
  const count = parts[0]?.share.count ?? 0;
  const seen = new Set<number>();
  for (const part of parts) {
    const { index } = part.share;
    if (part.scenario !== digest) return { kind: 'other scenario', part: index };
    if (part.share.count !== count) return { kind: 'other count', part: index };
    if (seen.has(index)) return { kind: 'twice', part: index };
    seen.add(index);
  }
  const missing = Array.from({ length: count }, (_, k) => k + 1).filter((k) => !seen.has(k));
  return missing.length > 0 ? { kind: 'missing', parts: missing } : null;
}

function contentFault(scenario: Scenario, { share, ranges }: Part): ShapeFault | null {
  const chunks = shareChunks(scenario, share);
  if (ranges.length !== chunks.length) return { where: 'ranges', what: `${ranges.length} of ${chunks.length}` };
  for (const [k, range] of ranges.entries()) {
    const chunk = chunks[k] as Chunk;
    const [other] = differencesOf(chunk, range.chunk);
    if (other !== undefined) return { where: `ranges[${k}].chunk.${other.path}`, what: `not ${other.before}` };
    const layout = layoutOf(scenario, scenario.setups[chunk.setup] as Setup, chunk.axle);
    const fault = countsFault(layout, range) ?? keptFault(layout, range) ?? frequenciesFault(layout, range);
    if (fault !== null) return { where: `ranges[${k}].${fault.where}`, what: fault.what };
  }
  return null;
}

/** Every spring stands in as many combinations as every other. */
function countsFault({ assemblySize, options }: AxleLayout, { chunk, judged, cells }: PartRange): ShapeFault | null {
  const size = (chunk.to - chunk.from) * assemblySize;
  const springs = options.spring.length;
  if (judged !== size) return { where: 'judged', what: `${judged} of ${size} combinations` };
  if (cells.length !== springs * VERDICTS) return { where: 'cells', what: `${cells.length} for ${springs} springs` };
  for (let spring = 0; spring < springs; spring++) {
    const from = spring * VERDICTS;
    const sum = cells.slice(from, from + VERDICTS).reduce((all, count) => all + count, 0);
    if (sum !== size / springs) return { where: `cells[${from}]`, what: `${sum} of ${size / springs} combinations` };
  }
  return null;
}

function keptFault(layout: AxleLayout, { chunk, kept }: PartRange): ShapeFault | null {
  const { assemblySize } = layout;
  let before = chunk.from * assemblySize - 1;
  for (const [k, candidate] of kept.entries()) {
    const { index } = candidate;
    if (index <= before || index >= chunk.to * assemblySize) return { where: `kept[${k}].index`, what: `${index}` };
    before = index;
    const judged = judgedAgain(layout, index);
    const key = KEPT.find((name) => judged === null || !isAlike(judged[name], candidate[name]));
    if (key !== undefined) {
      return { where: `kept[${k}].${key}`, what: `${candidate[key]}, judged again ${judged?.[key] ?? 'nothing'}` };
    }
  }
  return null;
}

const KEPT = ['stack', 'frequency', 'price', 'classPrice', 'logScore'] as const satisfies (keyof KeptCandidate)[];

/** Null where the combination does not work. */
function judgedAgain({ site, options, ranking, stacks }: AxleLayout, index: number): KeptCandidate | null {
  const state = cornerState(site, cornerAt(options, index));
  if (firstFailure(state) !== null) return null;
  const candidate = candidateOf(index, { state, window: heightWindow(state) }, ranking);
  return keptOf(stackOf(index, stacks.count), ranking.price === null ? null : candidate.price, candidate);
}

/** Machines round the last digits of a power each in their own way. */
function isAlike(one: number | null, other: number | null): boolean {
  if (one === null || other === null) return one === other;
  return Math.abs(one - other) <= 1e-9 * (1 + Math.abs(one));
}

/** Each frequency that works has a best combination, and all that work have a frequency. */
function frequenciesFault({ options }: AxleLayout, { cells, kept, frequencies }: PartRange): ShapeFault | null {
  const known = new Set(kept.map(({ frequency }) => frequency));
  const odd = frequencies.findIndex(
    ([frequency], k) => !known.has(frequency) || frequency <= (frequencies[k - 1]?.[0] ?? 0),
  );
  if (odd >= 0) return { where: `frequencies[${odd}]`, what: 'no candidate has it, or it stands there twice' };
  const works = options.spring.reduce((sum, _, k) => sum + (cells[k * VERDICTS + PASS] as number), 0);
  const counted = frequencies.reduce((sum, [, count]) => sum + count, 0);
  if (counted !== works || frequencies.length !== known.size) {
    return { where: 'frequencies', what: `${counted} combinations where ${works} work` };
  }
  return null;
}
