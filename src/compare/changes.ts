/**
 * What changed from one report to another, on one page that asks for nothing and needs no script.
 *
 *   two results, changes of their inputs --> views of the sections --> page
 */
import { CHECK, CORNER_CHECKS } from '../model/corner/checks.ts';
import type { InputChange, InputChanges } from '../model/differences.ts';
import { AXLE_NAMES } from '../model/scenario.ts';
import { renderPage } from '../report/frame/templates.ts';
import { answerOf, combinationOf, springsOf } from '../report/text/answers.ts';
import { mapStrings, visibleInPage } from '../report/text/escape.ts';
import { count, PAGE } from '../report/text/numbers.ts';
import type { AxleTally, PlanRecord, Result, SetupResult } from '../result/result.ts';
import { amountView, gain, winnerView } from './winner.ts';

export interface ReadReport {
  /** The file as it was named. */
  readonly path: string;
  readonly result: Result;
}

export async function changesHtml(before: ReadReport, after: ReadReport, changes: InputChanges): Promise<string> {
  const shown = mapStrings({ before, after, changes }, visibleInPage);
  return renderPage('changes', viewsOf(shown.before, shown.after, shown.changes));
}

function viewsOf(one: ReadReport, other: ReadReport, changes: InputChanges) {
  const [before, after] = [one.result, other.result];
  const pairs = setupPairs(before, after);
  const sideOf = (result: Result, setup: SetupResult | null) => setup && { setup, answer: answerOf(result, setup) };
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

/** The best plan before and after; null where neither report was asked for one. */
export function planChangeView(before: Result, after: Result) {
  if (!before.plans && !after.plans) return null;
  const [was, is] = [before.plans?.plans[0] ?? null, after.plans?.plans[0] ?? null];
  return {
    verdict: verdictOf(before, after, was, is),
    rows: [
      { label: 'plan', before: was?.id ?? 'none', after: is?.id ?? 'none' },
      ...springRows(before, after, was, is),
    ],
    amounts: [
      amountView('score (0 to 1)', 'ratio', was?.score, is?.score),
      amountView(`price of all parts`, 'money', was?.price, is?.price),
      amountView(`of it springs and helpers`, 'money', was?.springs_price, is?.springs_price),
    ],
  };
}

function verdictOf(before: Result, after: Result, was: PlanRecord | null, is: PlanRecord | null): string {
  if (!before.plans) return 'Only the second report looked for one build for all setups.';
  if (!after.plans) return 'Only the first report looked for one build for all setups.';
  if (was === null && is === null) return 'No one build works in every setup, before and after.';
  if (was === null) return 'Before, no one build worked in every setup; now one does.';
  if (is === null) return 'Before, one build worked in every setup; now none does.';
  const same = springsIn(before, was) === springsIn(after, is);
  return same ? 'The same springs win.' : 'Other springs win.';
}

function springRows(before: Result, after: Result, was: PlanRecord | null, is: PlanRecord | null) {
  const springsFor = (result: Result, plan: PlanRecord | null, setup: string) => {
    const part = plan?.setups.find((one) => one.setup === setup);
    return part ? springsOf(combinationOf(result, part)) : 'none';
  };
  const names = [...new Set([was, is].flatMap((plan) => plan?.setups.map(({ setup }) => setup) ?? []))];
  return names.map((setup) => ({
    label: `springs, setup ${setup}`,
    before: springsFor(before, was, setup),
    after: springsFor(after, is, setup),
  }));
}

function springsIn(result: Result, { setups }: PlanRecord): string {
  return setups.map((part) => springsOf(combinationOf(result, part))).join('; ');
}

/** How many combinations passed and fell; cells: before, after and difference, front and then rear. */
function talliesView(before: SetupResult, after: SetupResult) {
  const of = (read: (tally: AxleTally) => number) =>
    AXLE_NAMES.flatMap((axle) => counts(read(before.axles[axle]), read(after.axles[axle])));
  const rejecting = CORNER_CHECKS.filter((check) =>
    [before, after].some(({ axles }) => AXLE_NAMES.some((axle) => (axles[axle].rejected[check] ?? 0) > 0)),
  );
  return {
    setup: before.name,
    rows: [
      { label: 'combinations looked at', isSum: true, cells: of(({ combinations }) => combinations) },
      ...rejecting.map((check) => ({
        label: `fell at: ${CHECK[check].label}`,
        isSum: false,
        cells: of(({ rejected }) => rejected[check] ?? 0),
      })),
      { label: 'pass every check of their axle', isSum: true, cells: of(({ passed }) => passed) },
    ],
    pairs: [
      ['passing front times passing rear', before.pairs.considered, after.pairs.considered],
      ['out of balance', before.pairs.rejected_by_balance, after.pairs.rejected_by_balance],
      ['workable', before.pairs.workable, after.pairs.workable],
    ].map(([label, was, is]) => ({ label: String(label), cells: counts(Number(was), Number(is)) })),
  };
}

function counts(before: number, after: number): string[] {
  const [was, is] = [count(before, PAGE), count(after, PAGE)];
  return [was, is, gain(was, is)];
}

/** A catalogue of thousands of rows that is another one would make the page endless. */
const MOST_ROWS = 400;

function inputsView(before: Result, after: Result, { changes, reworded }: InputChanges) {
  const shown = changes.slice(0, MOST_ROWS);
  const digests = ({ inputs }: Result) => inputs.map(({ sha256 }) => sha256).join();
  const files = [...new Set(shown.map(({ file }) => file))];
  return {
    /** Nothing at all differs, a comment neither. */
    same: digests(before) === digests(after),
    reworded,
    shown: count(changes.length, PAGE),
    one: changes.length === 1,
    files: files.map((file) => ({ file, rows: shown.filter((change) => change.file === file).map(rowOf) })),
    /** How many more there are; null where all are shown. */
    more: changes.length > shown.length ? count(changes.length - shown.length, PAGE) : null,
  };
}

/** `within`: the parts and groups the value belongs to. Names of fields are words joined by underscores; a part's own name stays as it is written. */
function rowOf({ names, before, after }: InputChange) {
  const spoken = names.map((name) => (/^[a-z]+(?:_[a-z0-9]+)*$/.test(name) ? name.replaceAll('_', ' ') : name));
  return { within: spoken.slice(0, -1).join(' / '), name: spoken.at(-1) ?? 'whole file', before, after };
}
