/**
 * From a scenario file to a finished report, in one screen. Writes nothing.
 *
 *   file --read--> Scenario --plan--> options --sweep--> candidates --rank--> best pairs --build--> Result
 *                                                                          Result --report--> pages
 */
import type { RankBy } from './domain/advice/types.ts';
import { type Difference, differencesOf } from './domain/differences.ts';
import type { Explanation } from './domain/explanation.ts';
import { fingerprintOf, type PairId, parsePairId } from './domain/ids.ts';
import { explanationOf } from './domain/reporting/explain.ts';
import type { InputFile, Result } from './domain/result.ts';
import type { InputWarning, Scenario } from './domain/scenario.ts';
import { finish } from './domain/steps.ts';
import { inputChanges } from './input/changes.ts';
import { memoryFiles } from './input/files.ts';
import { type Problem, readScenario } from './input/readScenario.ts';
import { type BuildWishes, built } from './pipeline/build.ts';
import { inTurns } from './pipeline/turns.ts';
import type { ReadReport } from './report/changes.ts';
import type { Embedded } from './report/embed.ts';
import { judgeChoice } from './sweep/choice.ts';
import { type JoinFault, joinFault, type Part, partOf, resultsOf, type Share, shareChunks } from './sweep/shard.ts';
import { joinAll, planOf, QUIET_RUN, type RunOptions, sizeOf, sweepAll, sweepChunks } from './sweep/sweep.ts';

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
  { rankBy = 'nominal', keepPartial = false, onFound = null }: SiftWishes = {},
): Promise<Result> {
  const swept = await sweepAll(checked.scenario, run);
  // Asked to stop during its last chunk, a sweep has judged everything and is stopped all the same.
  const isStopped = swept.judged < swept.of || run.signal?.aborted === true;
  if (isStopped && !keepPartial) throw new SweepStopped(swept.judged, swept.of);
  return inTurns(built(checked, toolVersion, swept, { rankBy, onFound }), run.onStep);
}

export interface SiftWishes {
  readonly rankBy?: RankBy;
  /** A stopped sweep gives an incomplete result; without this it throws `SweepStopped`. */
  readonly keepPartial?: boolean;
  /** Told of the result as far as it is known, before the advice of each setup. */
  readonly onFound?: BuildWishes['onFound'];
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
  wishes: BuildWishes = {},
): Result | JoinFault {
  const fault = joinFault(checked.scenario, parts);
  if (fault !== null) return fault;
  return finish(built(checked, toolVersion, joinAll(checked.scenario, resultsOf(checked.scenario, parts)), wishes));
}

/** One page over the results of several scenarios, each beside its own report. */
export async function compare(results: readonly { readonly name: string; readonly result: Result }[]): Promise<string> {
  const { comparisonHtml } = await import('./report/comparison.ts');
  return comparisonHtml(results);
}

/** One page of what changed from one report to another, inputs included. */
export async function changesBetween(before: ReadReport, after: ReadReport): Promise<string> {
  const { changesHtml } = await import('./report/changes.ts');
  return changesHtml(before, after, inputChanges(before.result.inputs, after.result.inputs));
}

/** The result that a report carries, or why it can't be had. */
export async function reopen(page: string): Promise<Embedded> {
  const { embeddedIn } = await import('./report/embed.ts');
  return embeddedIn(page);
}

export type Again =
  | { readonly ok: true; readonly result: Result; readonly differences: readonly Difference[] }
  | { readonly ok: false; readonly problems: readonly Problem[] };

/** Sweeps the inputs that a result carries once more, without touching the disk, and says what differs. */
export async function siftAgain(before: Result, toolVersion: string, run: RunOptions = QUIET_RUN): Promise<Again> {
  const read = await readScenario(before.inputs[0]?.path ?? '', memoryFiles(before.inputs, true));
  if (!read.ok) return read;
  const rankBy = before.setups.find((setup) => setup.advice)?.advice?.ranked_by ?? 'nominal';
  const result = await sift(read, toolVersion, run, { rankBy });
  const { writtenOf } = await import('./report/written.ts');
  // Who swept, and how it was read, is no part of what was found.
  const { upgraded_from, ...told } = before;
  const all = differencesOf(writtenOf({ ...told, tool: null }), plain(writtenOf({ ...result, tool: null })));
  return { ok: true, result, differences: upgraded_from === undefined ? all : all.filter(wasTold) };
}

/** An earlier version says nothing, or null, where it did not tell. */
function wasTold({ before }: Difference): boolean {
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
  const { combinations } = planOf(scenario);
  return id.front < combinations.front && id.rear < combinations.rear;
}
