/**
 * A sweep shared out over machines: each sweeps one part of every axle's assemblies and writes what it counted and kept;
 * the parts, whichever machine made them, join to the outcome of a single run.
 */
import type { Candidate } from '../model/corner/score.ts';
import { fingerprintOf, fnv1a, tenDigits } from '../model/ids.ts';
import { AXLE_NAMES, type AxleName, type Scenario } from '../model/scenario.ts';
import type { Count, FromOne } from '../model/units.ts';
import type { Chunk, ChunkResult } from './chunk.ts';
import { layoutOf } from './layout.ts';
import { classOf, countFrequency, emptyTally, enter, mergeTallies, type Tally } from './tally.ts';

export const PART_SCHEMA = 'springsift-part';
export const PART_VERSION = 2;

/** More parts than anybody has machines for. */
export const MOST_PARTS = 100_000;

/** Part `index` (from 1) of `count`. */
export interface Share {
  readonly index: FromOne;
  /** @maximum 100000 */
  readonly count: FromOne;
}

export interface Part {
  readonly schema: typeof PART_SCHEMA;
  readonly version: typeof PART_VERSION;
  readonly toolVersion: string;
  /** Digest of the whole scenario, targets and weights included: only parts of the same one join. */
  readonly scenario: string;
  readonly share: Share;
  readonly ranges: readonly PartRange[];
}

export interface PartRange {
  readonly chunk: Chunk;
  readonly judged: Count;
  readonly cells: readonly Count[];
  readonly frequencies: readonly (readonly [frequency: number, count: FromOne])[];
  readonly kept: readonly KeptCandidate[];
}

/** `logScore` null stands for minus infinity, which JSON cannot write. */
export interface KeptCandidate {
  readonly stack: Count;
  readonly index: Count;
  readonly frequency: number;
  readonly price: number | null;
  readonly classPrice: number | null;
  readonly logScore: number | null;
}

/** The assemblies of one share: an even range of every axle in every setup. */
export function shareChunks(scenario: Scenario, { index, count }: Share): Chunk[] {
  const ranges = scenario.setups.flatMap((setup, k) =>
    AXLE_NAMES.map((axle: AxleName) => {
      const { assemblies } = layoutOf(scenario, setup, axle);
      const cut = (part: number) => Math.floor((part * assemblies) / count);
      return { setup: k, axle, from: cut(index - 1), to: cut(index) };
    }),
  );
  return ranges.map((range, number) => ({ number, ...range }));
}

export function partOf(scenario: Scenario, toolVersion: string, share: Share, results: readonly ChunkResult[]): Part {
  return {
    schema: PART_SCHEMA,
    version: PART_VERSION,
    toolVersion,
    scenario: scenarioDigest(scenario),
    share,
    ranges: joinChunks(results).map(({ chunk, judged, tally }) => ({ chunk, judged, ...recordOf(tally) })),
  };
}

/** What the workers on each chunk found, joined, in the order of the chunks: the same whichever took what. */
function joinChunks(results: readonly ChunkResult[]): ChunkResult[] {
  const chunks = new Map(results.map(({ chunk }) => [chunk.number, chunk]));
  return [...chunks.values()]
    .sort((one, other) => one.number - other.number)
    .map((chunk) => {
      const own = results.filter((result) => result.chunk.number === chunk.number);
      const judged = own.reduce((sum, result) => sum + result.judged, 0);
      return { chunk, judged, tally: mergeTallies(own.map(({ tally }) => tally)) };
    });
}

/** A part as the text of its file, sealed with a digest. */
export function partText(part: Part): string {
  return `${JSON.stringify({ ...part, digest: digestOf(JSON.stringify(part)) })}\n`;
}

/** The part in the text of a part file; null when the text is no part, or not the whole of one as it was written. */
export function partIn(text: string): Part | null {
  try {
    const { digest, ...part } = JSON.parse(text) as Part & { readonly digest: unknown };
    const isWhole = digest === digestOf(JSON.stringify(part));
    return isWhole && part.schema === PART_SCHEMA && part.version === PART_VERSION ? part : null;
  } catch {
    return null;
  }
}

/** Digest of everything a sweep depends on. */
export function scenarioDigest(scenario: Scenario): string {
  const { assumptions, ...rest } = scenario;
  return `${fingerprintOf(scenario)}-${digestOf(JSON.stringify(rest, tenDigits))}`;
}

export function resultsOf(scenario: Scenario, parts: readonly Part[]): ChunkResult[] {
  return parts.flatMap((part) =>
    part.ranges.map(({ chunk, judged, cells, frequencies, kept }) => {
      const setup = scenario.setups[chunk.setup];
      if (!setup) throw new RangeError(`no setup ${chunk.setup}`);
      const { stacks, options } = layoutOf(scenario, setup, chunk.axle);
      const tally = emptyTally(options.spring.length, stacks.count);
      tally.cells.set(cells);
      for (const [frequency, count] of frequencies) countFrequency(tally, frequency, count);
      for (const candidate of kept) {
        enter(classOf(tally, candidate.stack, candidate.frequency, candidate.classPrice), restore(candidate));
      }
      return { chunk, tally, judged };
    }),
  );
}

/** @param tally joined from others, so that each of its classes holds a candidate */
function recordOf(tally: Tally) {
  const kept = tally.classes.flatMap((classes, stack) =>
    classes.map(({ price: classPrice, best }) => {
      return keptOf(stack, classPrice, best as Candidate);
    }),
  );
  kept.sort((one, other) => one.index - other.index);
  const frequencies = [...tally.frequencies].sort(([one], [other]) => one - other);
  return { cells: [...tally.cells], frequencies, kept };
}

export function keptOf(
  stack: number,
  classPrice: number | null,
  { index, frequency, price, logScore }: Candidate,
): KeptCandidate {
  return { stack, index, frequency, price, classPrice, logScore: Number.isFinite(logScore) ? logScore : null };
}

function restore({ index, frequency, price, logScore }: KeptCandidate): Candidate {
  return { index, frequency, price, logScore: logScore ?? Number.NEGATIVE_INFINITY };
}

/** Checksums of both halves and the whole: enough against parts mixed up by mistake. */
function digestOf(text: string): string {
  const half = text.length >> 1;
  return [text.slice(0, half), text.slice(half), text].map((t) => fnv1a(t).toString(16).padStart(8, '0')).join('');
}
