/** What must hold for every input: a result in which every number is a number, or problems that have a place. */
import { audit, drawAudit } from '../../src/audit/audit.ts';
import { unmeasured } from '../../src/audit/fit/measured.ts';
import { formatProblem, type Problem, readScenario } from '../../src/input/readScenario.ts';
import type { FileReader } from '../../src/input/source/files.ts';
import { draw } from '../../src/pipeline/drawing.ts';
import { type Checked, explain, sift } from '../../src/pipeline.ts';
import { resultsJson } from '../../src/report/embed.ts';
import { explainText } from '../../src/report/files/explain.ts';
import { sweepSummary } from '../../src/report/files/summary.ts';
import type { Result } from '../../src/result/result.ts';
import { sizesOf } from '../../src/sweep/sweep.ts';
import { validate } from '../setup/resultSchema.ts';
import type { Input } from './corpus.ts';

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
  const read = await readScenario('scenario.yaml', readerOf(input));
  if (!read.ok) {
    if (read.problems.length === 0) throw new Error('refused without a problem');
    for (const problem of read.problems) judgeProblem(problem, input);
    return 'refused';
  }
  judgeNumbers(read.scenario, 'scenario');
  const { judged } = sizesOf(read.scenario);
  if (!Number.isSafeInteger(judged)) throw new Error(`${judged} combinations cannot be counted`);
  if (!isSwept || judged > MOST_TO_SWEEP) return 'clean';
  const result = await sift(read, 'test');
  await judgeResult(result);
  const best = result.setups.flatMap(({ shortlist }) => shortlist)[0];
  if (best !== undefined) {
    const explained = explain(read.scenario, best.id);
    if (!explained.ok) throw new Error(`${best.id} cannot be explained: ${explained.reason}`);
    judgeText('explain', explainText(explained.explanation), input);
    await judgeAudit(read, input);
  }
  for (const [name, text] of Object.entries({ ...(await draw(result)), terminal: sweepSummary(result) })) {
    judgeText(name, text, input);
  }
  return 'swept';
}

/** A front unit measured as nobody would build it: some of it far off, some as predicted. */
async function judgeAudit(checked: Checked, input: Input): Promise<void> {
  const [setup] = checked.scenario.setups;
  const standing = { perch: 200, rideHeight: setup?.axles.front.targetHeight ?? 300 };
  const unit = { ...unmeasured('front', null), freeLength: 200, rate: 40, lowestPerch: 150, standing: [standing] };
  const readings = { length: 0.5, rideHeight: 2, wheelLoad: 2, wire: 0.05, coils: 0.1, rateShare: 0.02 };
  const measured = { build: { kind: 'best' as const, setup: setup?.name ?? '' }, readings, units: [unit] };
  const file = { path: 'measured.yaml', sha256: '', bytes: 0, text: '' };
  const audited = await audit(checked, { measured, file, assumptions: [] }, 'test');
  if (audited === null) return;
  judgeNumbers(audited.result, 'audit');
  for (const [name, text] of Object.entries(await drawAudit(audited.result))) judgeText(name, text, input);
}

async function judgeResult(result: Result): Promise<void> {
  judgeNumbers(result, 'result');
  // As a reader of results.json gets it.
  if (!validate(JSON.parse(resultsJson(result)))) {
    const [first] = validate.errors ?? [];
    throw new Error(`result breaks its schema: ${first?.instancePath} ${first?.message}`);
  }
}

/** More than any quantity, and than any count of what is swept here. */
const MOST = 1e13;

/** JSON would write null for what is no number, and nobody would notice. */
export function judgeNumbers(value: unknown, path: string): void {
  if (typeof value === 'number' && !(Math.abs(value) <= MOST)) throw new Error(`${path} is ${value}`);
  if (typeof value !== 'object' || value === null) return;
  for (const [key, item] of Object.entries(value)) judgeNumbers(item, `${path}.${key}`);
}

/** Words that only a slip of the program prints, unless the input holds them itself. */
function judgeText(name: string, text: string, { scenario, catalogue }: Input): void {
  // The page's own scripts are code, and the data in it were judged as numbers.
  const shown = name.endsWith('.html') ? text.replace(/<script\b[\s\S]*?<\/script>/g, '') : text;
  const found =
    /\bNaN\b|Infinity\b|\bundefined\b|\[object \w+\]|(?<![\w#])\d(?:\.\d+)?e\+\d+\b|(?<![\w.#])\d{14,}(?!\w)/.exec(
      shown,
    );
  if (found === null) return;
  const given = new TextDecoder().decode(scenario) + new TextDecoder().decode(catalogue);
  if (given.includes(found[0])) return;
  throw new Error(`${name} says ${JSON.stringify(shown.slice(Math.max(0, found.index - 80), found.index + 40))}`);
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
