/**
 * What changed from one report to another, on one page that asks for nothing and needs no script.
 *
 *   two results, changes of their inputs --> views of the sections --> page
 */
import type { InputChanges } from '../domain/differences.ts';
import type { Result, SetupResult } from '../domain/result.ts';
import { answerOf } from './answers.ts';
import { inputsView } from './changes/inputs.ts';
import { planChangeView } from './changes/plan.ts';
import { talliesView } from './changes/tallies.ts';
import { type WinnerSide, winnerView } from './changes/winner.ts';
import { mapStrings, visibleInPage } from './escape.ts';
import { contentPolicy, minified } from './html.ts';
import { count, PAGE } from './numbers.ts';
import { loadTemplates } from './templates.ts';
import { themeCss } from './theme.ts';

export interface ReadReport {
  /** The file as it was named. */
  readonly path: string;
  readonly result: Result;
}

export async function changesHtml(before: ReadReport, after: ReadReport, changes: InputChanges): Promise<string> {
  const templates = await loadTemplates();
  const css = minified(`${themeCss()}\n${templates.css}\n${templates.changesCss}`);
  const shown = mapStrings({ before, after, changes }, visibleInPage);
  return templates.changes({ ...viewsOf(shown.before, shown.after, shown.changes), css, policy: contentPolicy(css) });
}

function viewsOf(one: ReadReport, other: ReadReport, changes: InputChanges) {
  const [before, after] = [one.result, other.result];
  const pairs = setupPairs(before, after);
  return {
    title: before.scenario.name === after.scenario.name ? before.scenario.name : 'Two scenarios',
    reports: [reportView('before', one), reportView('after', other)],
    sameTool: before.tool.version === after.tool.version,
    sameScenario: before.scenario.fingerprint === after.scenario.fingerprint,
    inputs: inputsView(before, after, changes),
    winners: pairs.map(([was, is]) => winnerView(sideOf(before, was), sideOf(after, is))),
    plan: planChangeView(before, after),
    tallies: pairs.flatMap(([was, is]) => (was && is ? [talliesView(was, is)] : [])),
  };
}

type SetupPair = readonly [before: SetupResult | null, after: SetupResult | null];

/** Setups of one name, in the order of the first report; then those that only the second has. */
function setupPairs(before: Result, after: Result): SetupPair[] {
  const find = ({ setups }: Result, name: string) => setups.find((setup) => setup.name === name) ?? null;
  return [
    ...before.setups.map((setup) => [setup, find(after, setup.name)] as const),
    ...after.setups.filter(({ name }) => find(before, name) === null).map((setup) => [null, setup] as const),
  ];
}

function sideOf(result: Result, setup: SetupResult | null): WinnerSide | null {
  return setup && { setup, answer: answerOf(result, setup) };
}

function reportView(when: string, { path, result }: ReadReport) {
  const { scenario, tool, inputs, incomplete, mode } = result;
  return {
    when,
    path,
    scenario: scenario.name,
    tool: tool.version,
    what: mode === 'build' ? 'one given build' : 'sweep',
    fingerprint: scenario.fingerprint,
    inputs: inputs.map(({ path: file, sha256 }) => ({ file, sha256: sha256.slice(0, 12) })),
    incomplete: incomplete ? { judged: count(incomplete.judged, PAGE), of: count(incomplete.of, PAGE) } : null,
    notes: result.notes ?? [],
  };
}
