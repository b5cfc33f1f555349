/** What must hold for every input: a result in which every number is a number, or problems that have a place. */
import { audit, blank, drawAudit } from '../../src/audit/audit.ts';
import { unmeasured } from '../../src/audit/fit/measured.ts';
import { auditSummary } from '../../src/audit/page/view.ts';
import { fittingsOf, tooManyOn } from '../../src/fitting/fitting.ts';
import { fittingHtml } from '../../src/fitting/page.ts';
import { type Question, scenarioOf } from '../../src/fitting/question.ts';
import { fittingText } from '../../src/fitting/text.ts';
import { formatWarning } from '../../src/input/problems/problems.ts';
import { formatProblem, type Problem, type ReadAnyLevel, readAnyLevel } from '../../src/input/readScenario.ts';
import type { FileReader } from '../../src/input/source/files.ts';
import { drawMeasure, measureSheetOf } from '../../src/measure/measure.ts';
import { AXLE_NAMES } from '../../src/model/scenario.ts';
import { draw } from '../../src/pipeline/drawing.ts';
import { type Checked, explain, sift } from '../../src/pipeline.ts';
import { resultsJson } from '../../src/report/embed.ts';
import { explainText } from '../../src/report/files/explain.ts';
import { sweepSummary } from '../../src/report/files/summary.ts';
import type { Result } from '../../src/result/result.ts';
import { sizesOf } from '../../src/sweep/outcome.ts';
import { validate } from '../setup/resultSchema.ts';
import { bytesOf, type Input } from './corpus.ts';

export type Verdict = 'refused' | 'clean' | 'swept';

/** Combinations over all setups beyond which a clean mutant is not swept. */
const MOST_TO_SWEEP = 10_000;
/** Longest an input may keep a processor busy, ms: reading takes some milliseconds, a small sweep about a second. */
export const LONGEST = 10_000;

/** @throws an error that says what is wrong with what came out */
export async function judge(input: Input, isSwept: boolean): Promise<Verdict> {
  const start = process.cpuUsage();
  const verdict = await outcomeOf(input, isSwept);
  const { user, system } = process.cpuUsage(start);
  const took = (user + system) / 1000;
  if (took > LONGEST) throw new Error(`took ${Math.round(took)} ms`);
  return verdict;
}

async function outcomeOf(input: Input, isSwept: boolean): Promise<Verdict> {
  const read = await readAnyLevel('scenario.yaml', readerOf(input));
  if (!read.ok) {
    if (read.problems.length === 0) throw new Error('refused without a problem');
    for (const problem of read.problems) judgeProblem(problem, input);
    return 'refused';
  }
  judgeText('warnings', read.warnings.map(formatWarning).join('\n'), input);
  if (read.level === 'bench') return judgeBench(read, input, isSwept);
  judgeNumbers(read.scenario, 'scenario');
  const { judged } = sizesOf(read.scenario);
  if (!Number.isSafeInteger(judged)) throw new Error(`${judged} combinations cannot be counted`);
  if (!isSwept || judged > MOST_TO_SWEEP) return 'clean';
  const result = await sift(read, 'test');
  await judgeResult(result);
  judgeTexts({ ...(await draw(result)), terminal: sweepSummary(result) }, input);
  judgeText('measure.html', await drawMeasure(await measureSheetOf(read, 'test')), input);
  for (const { shortlist } of result.setups) {
    if (shortlist[0] === undefined) continue;
    const explained = explain(read.scenario, shortlist[0].id);
    if (!explained.ok) throw new Error(`${shortlist[0].id} cannot be explained: ${explained.reason}`);
    judgeText('explain', explainText(explained.explanation), input);
    await judgeAudit(read, shortlist[0].id, input);
  }
  return 'swept';
}

/** Parts and corners on the bench, as text and as a page. */
async function judgeBench(read: ReadAnyLevel, input: Input, isFitted: boolean): Promise<Verdict> {
  if (!read.ok || read.level !== 'bench') throw new Error('not of the bench');
  const { scenario, files, warnings } = read;
  if (!isFitted || tooManyOn(scenario).length > 0) return 'clean';
  const fittings = fittingsOf(scenario);
  const page = await fittingHtml({ scenario, files, warnings, fittings, toolVersion: 'test' });
  judgeTexts({ 'report.html': page, terminal: fittingText(scenario, fittings) }, input);
  return 'swept';
}

/** A question in a few words. */
export async function judgeQuestion(question: Question): Promise<Verdict> {
  const asked = scenarioOf(question);
  if (asked.faults.length > 0) return 'refused';
  return judge({ scenario: bytesOf(asked.text), catalogue: bytesOf('') }, true);
}

/** Units measured as nobody would build them: some of it far off, some as predicted. */
async function judgeAudit(checked: Checked, id: string, input: Input): Promise<void> {
  const [setup] = checked.scenario.setups;
  const units = AXLE_NAMES.map((axle) => {
    const standing = { perch: 200, rideHeight: setup?.axles[axle].targetHeight ?? 300 };
    return { ...unmeasured(axle, null), freeLength: 200, rate: 40, lowestPerch: 150, standing: [standing] };
  });
  const readings = { length: 0.5, rideHeight: 2, wheelLoad: 2, wire: 0.05, coils: 0.1, rateShare: 0.02 };
  const measured = { build: { kind: 'id' as const, id }, readings, units };
  const file = { path: 'measured.yaml', sha256: '', bytes: 0, text: '' };
  const audited = await audit(checked, { measured, file, assumptions: [] }, 'test');
  if (audited === null) return;
  judgeNumbers(audited.result, 'audit');
  const form = (await blank(checked.scenario, measured.build)) ?? '';
  judgeTexts({ ...(await drawAudit(audited.result)), terminal: auditSummary(audited.result), form }, input);
}

function judgeTexts(texts: Readonly<Record<string, string>>, input: Input): void {
  for (const [name, text] of Object.entries(texts)) judgeText(name, text, input);
}

async function judgeResult(result: Result): Promise<void> {
  judgeNumbers(result, 'result');
  // As a reader of results.json gets it.
  if (!validate(JSON.parse(resultsJson(result)))) {
    const [first] = validate.errors ?? [];
    throw new Error(`result breaks its schema: ${first?.instancePath} ${first?.message}`);
  }
}

/** More than any price, and than any count of what is swept here; and than any quantity: 10 km, or 1,000 t. */
const MOST = 1e13;
const MOST_OF_A_QUANTITY = 1e7;
const QUANTITY = /_(?:mm|mm2|n|n_per_mm|n_per_mm2|mpa|kg|hz|m_per_s|deg|s|degc|ns_per_m)$/;

/** JSON would write null for what is no number, and nobody would notice. */
export function judgeNumbers(value: unknown, path: string, key = ''): void {
  const most = QUANTITY.test(key) ? MOST_OF_A_QUANTITY : MOST;
  if (typeof value === 'number' && !(Math.abs(value) <= most)) throw new Error(`${path} is ${value}`);
  if (typeof value !== 'object' || value === null) return;
  for (const [k, item] of Object.entries(value))
    judgeNumbers(item, `${path}.${k}`, Array.isArray(value) || /^(?:rss|worst)_/.test(k) ? key : k);
}

/** Words that only a slip of the program prints, in attributes, too. */
const SLIP =
  /\bNaN\b|Infinity\b|\bundefined\b|\[object \w+\]|(?<![\w#])\d+(?:\.\d+)?e\+\d+\b|(?<![\w.#])\d{14,}(?!\w)/g;
/** What no reader should see besides: an exponent but that of a remainder, and more than eight digits before the point. */
const SHOWN = /\bnull\b|(?<![\w#])\d+(?:\.\d+)?e-(?!1\d\b)\d+\b|(?<![\w.#])\d{9,}(?!\w)/g;

/** Unless the input holds it itself. */
function judgeText(name: string, text: string, { scenario, catalogue }: Input): void {
  // The page's own scripts are code, and the data in them and in JSON were judged as numbers.
  const marked = name.endsWith('.html') ? text.replace(/<(script|style)\b[\s\S]*?<\/\1>/g, '') : text;
  const shown = name.endsWith('.json') ? '' : name.endsWith('.html') ? marked.replace(/<[^>]*>/g, ' ') : marked;
  const found = [...marked.matchAll(SLIP), ...shown.matchAll(SHOWN)];
  if (found.length === 0) return;
  const given = new TextDecoder().decode(scenario) + new TextDecoder().decode(catalogue);
  const own = found.find(([word]) => !given.includes(word));
  if (own === undefined) return;
  throw new Error(`${name} says ${JSON.stringify(own.input.slice(Math.max(0, own.index - 80), own.index + 40))}`);
}

function judgeProblem(problem: Problem, { scenario, catalogue }: Input): void {
  const { file, line, column, found, expected, advice } = problem;
  const said = formatProblem(problem);
  if (found === '' || expected === '' || advice === '') throw new Error(`says nothing: ${said}`);
  if (/\bNaN\b|Infinity\b|\bundefined\b|\[object/.test(said.replace(/`[^`]*`/g, ''))) throw new Error(`says: ${said}`);
  if (/[\p{Cc}\p{Bidi_Control}]/u.test(said.replaceAll('\n', ''))) throw new Error(`control character in: ${said}`);
  const isYaml = file === 'scenario.yaml';
  const text = new TextDecoder().decode(isYaml ? scenario : catalogue);
  const lines = text.split(isYaml ? '\n' : /\r\n|\r|\n/);
  const width = lines[line - 1]?.length ?? 0;
  if (!(line >= 1 && line <= lines.length && column >= 1 && column <= width + 1)) {
    throw new Error(`${line}:${column} lies outside of ${file}, ${lines.length} lines: ${said}`);
  }
}

/** The two files of an input, as if they lay in one folder. */
export function readerOf({ scenario, catalogue }: Input): FileReader {
  const files: Readonly<Record<string, Uint8Array>> = { 'scenario.yaml': scenario, 'springs.csv': catalogue };
  const find = (path: string): Uint8Array => {
    const bytes = files[path.replace(/^(?:\/|\.\/)/, '')];
    if (bytes === undefined) throw Object.assign(new Error('not there'), { code: 'ENOENT' });
    return bytes;
  };
  return {
    anywhere: false,
    async realPath(path) {
      if (path !== '.') find(path);
      return path === '.' ? '/' : `/${path}`;
    },
    async bytes(path) {
      return find(path);
    },
  };
}
