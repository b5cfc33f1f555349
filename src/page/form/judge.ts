/**
 * What is said of a draft: problems and warnings, each with the field it is about, in the words of `check`; and for each
 * axle that is complete as far as the bench asks, its answer. The same functions run under Node, where tests compare.
 *
 *   texts --read--> problems and warnings --by their places--> fields
 *     an axle's own fields --read as of the bench--> answer, drawing
 */
import { benchDrawing } from '../../fitting/drawing.ts';
import { type AxleFitting, fittingsOf } from '../../fitting/fitting.ts';
import { answerLines, choiceTextOf, countText, type Line, verdictLine } from '../../fitting/words.ts';
import { lackingField, quote } from '../../input/problems/value.ts';
import { isOfBench, type Problem, type ReadAnyLevel, readAnyLevel } from '../../input/readScenario.ts';
import { valueAt } from '../../input/schema/issues.ts';
import { memoryFiles } from '../../input/source/files.ts';
import { type PathKey, readYaml, type SourceDocument } from '../../input/source/yaml.ts';
import { UNKNOWN } from '../../input/values/quantity.ts';
import { combinationCount } from '../../model/corner/options.ts';
import { AXLE_NAMES, type AxleName, type BenchScenario, type InputWarning } from '../../model/scenario.ts';
import { AXLE_TITLES } from '../../report/text/labels.ts';
import { PAGE } from '../../report/text/numbers.ts';
import { type Draft, filesOf, SCENARIO_NAME } from './draft.ts';

/** A problem or a warning about a draft. */
export interface Said {
  readonly kind: 'problem' | 'warning';
  readonly file: string;
  readonly line: number;
  readonly column: number;
  readonly found: string;
  /** What should stand there, or what usually does. */
  readonly expected: string;
  readonly advice: string;
  /** The field it is about; null for what is about a file. */
  readonly path: readonly PathKey[] | null;
  /** Nothing stands there yet. */
  readonly isLacking: boolean;
}

/** Nothing was measured there yet, which is no mistake. */
export function isOpen({ kind, isLacking, found }: Said): boolean {
  return kind === 'problem' && (isLacking || found === quote(UNKNOWN));
}

export interface AxleAnswer {
  readonly axle: AxleName;
  readonly level: AxleFitting['level'];
  readonly verdict: string;
  readonly fails: boolean;
  readonly choice: string;
  readonly count: string;
  readonly lines: readonly Line[];
  readonly svg: string;
}

export interface JudgedDraft {
  readonly level: 'bench' | 'car';
  readonly said: readonly Said[];
  /** Combinations of each axle of a sound scenario. */
  readonly combinations: Readonly<Partial<Record<AxleName, number>>>;
}

/** Combinations of an axle that a page judges; more are for the sweep. */
export const MOST_IN_PAGE = 20_000;

/** Combinations of an axle that are judged between two keystrokes. */
export const MOST_AT_ONCE = 100;

export async function judgeDraft(draft: Draft): Promise<JudgedDraft> {
  const read = await readDraft(draft);
  const { document } = readYaml(draft.scenario);
  const data = document?.data ?? null;
  const fieldAt = document === null ? () => null : fieldsByPlace(document);
  const said = read.ok
    ? read.warnings.map((warning) => ofWarning(warning, fieldAt))
    : read.problems.map((problem) => ofProblem(problem, fieldAt));
  return { level: isOfBench(data) ? 'bench' : 'car', said, combinations: countsOf(read) };
}

export function readDraft(draft: Draft): Promise<ReadAnyLevel> {
  return readAnyLevel(SCENARIO_NAME, memoryFiles(filesOf(draft)));
}

function countsOf(read: ReadAnyLevel): JudgedDraft['combinations'] {
  if (!read.ok) return {};
  return Object.fromEntries(
    AXLE_NAMES.flatMap((axle) => {
      const options = read.scenario.axles[axle]?.options;
      return options === undefined ? [] : [[axle, combinationCount(options)]];
    }),
  );
}

// One axle by itself: what it says is read as if it were the whole of a file of the bench.

/** The answers of the axles that are complete and hold more than `above` combinations, at most `most`. */
export async function answersOf(draft: Draft, above: number, most: number): Promise<readonly AxleAnswer[]> {
  const data = readYaml(draft.scenario).document?.data ?? null;
  const answers: AxleAnswer[] = [];
  for (const axle of AXLE_NAMES) {
    const scenario = await benchOf(draft, data, axle);
    const options = scenario?.axles[axle]?.options;
    if (scenario === null || options === undefined) continue;
    const count = combinationCount(options);
    if (count > above && count <= most) answers.push(...fittingsOf(scenario).flatMap(answerOf));
  }
  return answers;
}

async function benchOf(draft: Draft, data: unknown, axle: AxleName): Promise<BenchScenario | null> {
  const own = valueAt(data, ['axles', axle]);
  if (own === undefined) return null;
  const further = ['currency', 'margins', 'tolerances'].flatMap((key) => {
    const value = valueAt(data, [key]);
    return value === undefined ? [] : [[key, value]];
  });
  const text = JSON.stringify({ springsift: 1, ...Object.fromEntries(further), axles: { [axle]: own } });
  const read = await readDraft({ ...draft, scenario: text });
  return read.ok && read.level === 'bench' ? read.scenario : null;
}

function answerOf(fitting: AxleFitting): AxleAnswer[] {
  const { axle, level, bench } = fitting;
  const [first] = fitting.best;
  if (first === undefined) return [];
  return [
    {
      axle,
      level,
      verdict: verdictLine(fitting, PAGE),
      fails: first.verdict === 'fails',
      choice: choiceTextOf(bench.options, first.judgement.state.corner, PAGE),
      count: countText(fitting, PAGE),
      lines: answerLines(fitting, PAGE),
      svg: benchDrawing(first.state, `${AXLE_TITLES[axle]} corner on the bench, to scale`),
    },
  ];
}

// Which field a problem is about: the one that stands at its place.

type FieldAt = (line: number, column: number) => readonly PathKey[] | null;

function fieldsByPlace({ data, place }: SourceDocument): FieldAt {
  const fields = new Map<string, readonly PathKey[]>();
  const note = (path: readonly PathKey[], at: 'key' | 'value') => {
    const { line, column } = place(path, at);
    fields.set(`${line}:${column}`, path);
  };
  const walk = (value: unknown, path: readonly PathKey[]) => {
    if (path.length > 0) {
      note(path, 'key');
      note(path, 'value');
    }
    if (typeof value !== 'object' || value === null) return;
    // What begins at the same place is a part of it: the last one noted is the innermost.
    for (const [key, item] of Object.entries(value)) walk(item, [...path, Array.isArray(value) ? Number(key) : key]);
  };
  walk(data, []);
  return (line, column) => fields.get(`${line}:${column}`) ?? null;
}

function ofProblem({ file, line, column, ...complaint }: Problem, fieldAt: FieldAt): Said {
  const owner = file === SCENARIO_NAME ? fieldAt(line, column) : null;
  const lacking = lackingField(complaint);
  const path = lacking === null ? owner : [...(owner ?? []), lacking];
  return { kind: 'problem', file, line, column, ...complaint, path, isLacking: lacking !== null };
}

function ofWarning({ file, line, column, usual, ...said }: InputWarning, fieldAt: FieldAt): Said {
  const path = file === SCENARIO_NAME ? fieldAt(line, column) : null;
  return { kind: 'warning', file, line, column, ...said, expected: usual, path, isLacking: false };
}
