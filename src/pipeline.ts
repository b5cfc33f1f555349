/**
 * From a scenario file to a finished report, in one screen. Writes nothing.
 *
 *   file --read--> Scenario --plan--> options --sweep--> candidates --rank--> best pairs --build--> Result
 *                                                                          Result --report--> pages
 */

import { setImmediate } from 'node:timers/promises';
import type { ReadReport } from './compare/changes.ts';
import { inputChanges } from './compare/inputChanges.ts';
import { type Problem, readScenario } from './input/readScenario.ts';
import { memoryFiles } from './input/source/files.ts';
import { type Difference, differencesOf } from './model/differences.ts';
import { fingerprintOf, type PairId, parsePairId } from './model/ids.ts';
import type { InputWarning, Scenario } from './model/scenario.ts';
import { finish, type Step, type Steps } from './model/steps.ts';
import { type BuildOptions, buildResult } from './pipeline/build.ts';
import type { Embedded } from './report/embed.ts';
import type { RankBy } from './result/advice.ts';
import { type Explanation, explanationOf } from './result/records/explain.ts';
import type { InputFile, Result } from './result/result.ts';
import { judgeChoice } from './sweep/choice.ts';
import { type JoinFault, joinFault } from './sweep/joinFault.ts';
import { type LimitFault, limitFault, MOST_COMBINATIONS } from './sweep/limits.ts';
import { sizesOf } from './sweep/outcome.ts';
import { type Part, partOf, resultsOf, type Share, shareChunks } from './sweep/shard.ts';
import { joinAll, QUIET_RUN, type RunOptions, sizeOf, sweepAll, sweepChunks } from './sweep/sweep.ts';

/** A scenario that was read without a problem, with the files it came from. */
export interface Checked {
  readonly scenario: Scenario;
  readonly files: readonly InputFile[];
  /** Inputs that look like slips of the pen. */
  readonly warnings?: readonly InputWarning[];
}

/** Sweeps a checked scenario and builds its result: plan -> sweep -> rank -> build. */
export async function sift(
  checked: Checked,
  toolVersion: string,
  run: RunOptions = QUIET_RUN,
  { rankBy = 'nominal', keepPartial = false, onFound = null }: SiftOptions = {},
): Promise<Result> {
  const swept = await sweepAll(checked.scenario, run);
  // Asked to stop during its last chunk, a sweep has judged everything and is stopped all the same.
  const isStopped = swept.judged < swept.of || run.signal?.aborted === true;
  if (isStopped && !keepPartial) throw new SweepStopped(swept.judged, swept.of);
  return inTurns(buildResult(checked, toolVersion, swept, { rankBy, onFound }), run.onStep);
}

export interface SiftOptions {
  readonly rankBy?: RankBy;
  /** A stopped sweep gives an incomplete result; without this it throws `SweepStopped`. */
  readonly keepPartial?: boolean;
  /** Told of each setup before its advice, as a result of its own. */
  readonly onFound?: BuildOptions['onFound'];
}

/** The sweep was stopped before its end. */
export class SweepStopped extends Error {
  readonly judged: number;
  readonly of: number;

  constructor(judged: number, of: number) {
    super(`stopped after ${judged} of ${of}`);
    this.judged = judged;
    this.of = of;
  }
}

/** Sweeps one share of a scenario, to be joined with the others by `join`. */
export async function siftShare({ scenario }: Checked, toolVersion: string, share: Share, run: RunOptions) {
  const chunks = shareChunks(scenario, share);
  const results = await sweepChunks(scenario, chunks, run);
  const judged = results.reduce((sum, result) => sum + result.judged, 0);
  const of = sizeOf(scenario, chunks);
  if (judged < of) throw new SweepStopped(judged, of);
  return partOf(scenario, toolVersion, share, results);
}

/** Joins the parts of a shared-out sweep to the result of a single run, or says why they don't join. */
export function join(
  checked: Checked,
  toolVersion: string,
  parts: readonly Part[],
  options: BuildOptions = {},
): Result | JoinFault {
  const fault = joinFault(checked.scenario, parts);
  if (fault !== null) return fault;
  return finish(
    buildResult(checked, toolVersion, joinAll(checked.scenario, resultsOf(checked.scenario, parts)), options),
  );
}

/** One page over the results of several scenarios, each beside its own report. */
export async function compare(results: readonly { readonly name: string; readonly result: Result }[]): Promise<string> {
  const { comparisonHtml } = await import('./compare/comparison.ts');
  return comparisonHtml(results);
}

/** One page of what changed from one report to another, inputs included. */
export async function changesBetween(before: ReadReport, after: ReadReport): Promise<string> {
  const { changesHtml } = await import('./compare/changes.ts');
  return changesHtml(before, after, inputChanges(before.result.inputs, after.result.inputs));
}

/** The result that a report carries, or why it can't be had. */
export async function reopen(page: string): Promise<Embedded> {
  const { embeddedIn } = await import('./report/embed.ts');
  return embeddedIn(page);
}

export type Again =
  | { readonly ok: true; readonly result: Result; readonly differences: readonly Difference[] }
  | { readonly ok: false; readonly problems: readonly Problem[] }
  | { readonly ok: false; readonly tooMuch: LimitFault };

/** Sweeps the inputs that a result carries once more, without touching the disk, and says what differs. */
export async function siftAgain(
  before: Result,
  toolVersion: string,
  run: RunOptions = QUIET_RUN,
  limit: number = MOST_COMBINATIONS,
): Promise<Again> {
  const read = await readScenario(before.inputs[0]?.path ?? '', memoryFiles(before.inputs, true));
  if (!read.ok) return read;
  const fault = limitFault(read.scenario, limit);
  if (fault !== null) return { ok: false, tooMuch: fault };
  const rankBy = before.setups.find((setup) => setup.advice)?.advice?.ranked_by ?? 'nominal';
  const result = await sift(read, toolVersion, run, { rankBy });
  const { writtenOf } = await import('./report/embed.ts');
  // Who swept, and how it was read, is no part of what was found.
  const { upgraded_from, ...found } = before;
  const all = differencesOf(writtenOf({ ...found, tool: null }), plain(writtenOf({ ...result, tool: null })));
  return { ok: true, result, differences: upgraded_from === undefined ? all : all.filter(isStored) };
}

/** An earlier version has nothing, or null, for what it did not store. */
function isStored({ before }: Difference): boolean {
  return before !== null && before !== 'null';
}

/** As it is once it has been written and read. */
function plain(result: object): unknown {
  return JSON.parse(JSON.stringify(result));
}

/** Whether any setup has an answer. */
export function hasAnswer(result: Result): boolean {
  return result.setups.some((setup) => setup.shortlist.some((combination) => combination.workable));
}

export type ExplainOutcome =
  | { readonly ok: true; readonly explanation: Explanation }
  | { readonly ok: false; readonly reason: 'form' | 'check' | 'setup' | 'index' };

/** The full working of one combination, found by its id. */
export function explain(scenario: Scenario, text: string): ExplainOutcome {
  const fingerprint = fingerprintOf(scenario);
  const parsed = parsePairId(text, fingerprint);
  if (!parsed.ok) return parsed;
  const setup = scenario.setups.find((s) => s.name === parsed.id.setup);
  if (!setup) return { ok: false, reason: 'setup' };
  if (!exists(scenario, parsed.id)) return { ok: false, reason: 'index' };
  return { ok: true, explanation: explanationOf(judgeChoice(scenario, setup, parsed.id), fingerprint) };
}

function exists(scenario: Scenario, id: PairId): boolean {
  const { combinations } = sizesOf(scenario);
  return id.front < combinations.front && id.rear < combinations.rear;
}

// Long work done bit by bit, so that messages of other threads and signals are heard meanwhile.

/** How long nothing else is heard, ms. */
const TURN = 20;

/** Runs work to its end, telling `onStep` how far it is. */
export async function inTurns<T>(work: Steps<T>, onStep: ((step: Step) => void) | null = null): Promise<T> {
  let since = performance.now();
  for (;;) {
    const next = work.next();
    if (next.done) return next.value;
    onStep?.(next.value);
    if (performance.now() - since < TURN) continue;
    await setImmediate();
    since = performance.now();
  }
}
