/**
 * From a scenario file to a checked scenario in inner units, or to all its problems.
 *
 *   scenario.yaml --readText--> text --readYaml--> data with places
 *   springs.csv   --loadCatalogues--> springs            |
 *                        schema + cross checks: all problems at once
 *                                                         |
 *                                  assembleScenario: every part written out
 *                                  warningsOf: what looks like a slip of the pen
 */

import { posix } from 'node:path';
import type * as z from 'zod';
import type { Assumption, BenchScenario, InputWarning, Scenario } from '../model/scenario.ts';
import type { InputFile } from '../result/result.ts';
import { type Assembled, assembleBench, assembleScenario } from './assemble/scenario.ts';
import { type LoadedCatalogues, loadCatalogues } from './catalogue/catalogue.ts';
import { furtherProblems } from './problems/file.ts';
import { FILE_START, type PlacedComplaint, type Problem, sortProblems } from './problems/problems.ts';
import { benchChecks, crossChecks } from './rules/crossChecks.ts';
import { complaintsOf, isMapping, type PathComplaint } from './schema/issues.ts';
import {
  type BenchScenarioFields,
  benchScenario as benchSchema,
  type ScenarioFields,
  scenario as schema,
} from './schema/scenario.ts';
import { fillWishes } from './schema/wishes.ts';
import { refuseUnknown, silentlyLeftOut, withAssumed, withoutUnknown } from './schema/withoutUnknown.ts';
import { warnAbout } from './slips/slips.ts';
import { type FileReader, readText, toPosix, withoutMark } from './source/files.ts';
import { readYaml, type SourceDocument } from './source/yaml.ts';

export { formatProblem } from './problems/problems.ts';

export type { Problem };

interface Refused {
  readonly ok: false;
  readonly problems: readonly Problem[];
}

interface Sound<F, S> {
  readonly ok: true;
  readonly scenario: S;
  readonly files: readonly InputFile[];
  /** As written, field by field, in inner units. */
  readonly fields: F;
  /** What looks like a slip of the pen, with the names of `files`. */
  readonly warnings: readonly InputWarning[];
}

export type ReadScenario = Sound<ScenarioFields, Scenario> | Refused;
export type ReadBench = Sound<BenchScenarioFields, BenchScenario> | Refused;

const SCENARIO_FILE = 'a scenario file (YAML)';
export const MOST_BYTES = 2_000_000;
/** Problems of a scenario that are said one by one. */
const MOST_PROBLEMS = 10_000;

/** Reads the scenario at `path` and the catalogues it names, which must lie in its folder or below. */
export async function readScenario(path: string, read: FileReader): Promise<ReadScenario> {
  const opened = await open(path, read);
  return 'problems' in opened ? refuse(opened.problems) : readAs(CAR, opened);
}

/** What a file holds: parts or corners on the bench, or a whole car with wishes. */
export type ReadAnyLevel = ({ readonly level: 'car' } & ReadScenario) | ({ readonly level: 'bench' } & ReadBench);

/** The same for a file of either level: without setups, plan and ranking, so without wishes, it is one of the bench. */
export async function readAnyLevel(path: string, read: FileReader): Promise<ReadAnyLevel> {
  const opened = await open(path, read);
  if ('problems' in opened) return { level: 'car', ...refuse(opened.problems) };
  return isOfBench(opened.document.data)
    ? { level: 'bench', ...readAs(BENCH, opened) }
    : { level: 'car', ...readAs(CAR, opened) };
}

const OF_A_CAR = ['setups', 'plan', 'ranking'];

export function isOfBench(data: unknown): boolean {
  return isMapping(data) && Object.hasOwn(data, 'axles') && !OF_A_CAR.some((key) => Object.hasOwn(data, key));
}

interface Opened {
  readonly file: string;
  readonly own: InputFile;
  readonly document: SourceDocument;
  readonly catalogues: LoadedCatalogues;
  readonly inYaml: readonly Problem[];
}

async function open(path: string, read: FileReader): Promise<Opened | { readonly problems: readonly Problem[] }> {
  const file = toPosix(path);
  const text = await readText(read, path, posix.basename(file), SCENARIO_FILE, MOST_BYTES);
  if ('complaint' in text) return { problems: [{ file, ...FILE_START, ...text.complaint }] };
  const yaml = readYaml(withoutMark(text.file.text));
  const inYaml = yaml.problems.map((problem: PlacedComplaint): Problem => ({ file, ...problem }));
  if (yaml.document === null) return { problems: inYaml };
  const catalogues = await loadCatalogues(yaml.document.data, read, posix.dirname(file));
  return { file, own: text.file, document: yaml.document, catalogues, inYaml };
}

function readAs<F extends ScenarioFields | BenchScenarioFields, S extends Assuming>(
  level: LevelReader<F, S>,
  opened: Opened,
): Sound<F, S> | Refused {
  const { document, catalogues, own, inYaml } = opened;
  const checked = check(opened, level);
  const problems = [...inYaml, ...checked.problems];
  if (problems.length > 0 || checked.read === null) return refuse(problems);
  const { scenario, fields } = checked.read;
  const warnings = warnAbout(level.schema, document, fields, catalogues, own.path);
  const files = [own, ...[...catalogues.byName.values()].map((c) => c.file)];
  return { ok: true, scenario, fields, warnings, files };
}

interface Assuming {
  readonly assumptions: readonly Assumption[];
}

/** How a level is read. */
interface LevelReader<F, S> {
  readonly schema: z.ZodType<F>;
  readonly rules: typeof crossChecks;
  readonly assemble: (
    fields: F,
    data: unknown,
    catalogues: LoadedCatalogues,
  ) => { readonly scenario: S; readonly problems: Assembled['problems'] };
}

const CAR: LevelReader<ScenarioFields, Scenario> = { schema, rules: crossChecks, assemble: assembleScenario };
const BENCH: LevelReader<BenchScenarioFields, BenchScenario> = {
  schema: benchSchema,
  rules: benchChecks,
  assemble: assembleBench,
};

interface Checked<F, S> {
  readonly read: { readonly scenario: S; readonly fields: F } | null;
  readonly problems: readonly Problem[];
}

/** What a set of wishes gave, and what nobody knows, stands first among what was taken. */
function withTaken<S extends Assuming>(scenario: S, taken: readonly Assumption[]): S {
  return taken.length === 0 ? scenario : { ...scenario, assumptions: [...taken, ...scenario.assumptions] };
}

function check<F, S extends Assuming>(
  { document: { data: written, place }, catalogues, file }: Opened,
  { schema, rules, assemble }: LevelReader<F, S>,
): Checked<F, S> {
  const wished = fillWishes(written);
  const { data, leftOut } = withoutUnknown(schema, wished.data);
  const parsed = schema.safeParse(withAssumed(schema, data));
  const complaints = [
    ...(parsed.success ? [] : refuseUnknown(complaintsOf(schema, parsed.error.issues, data), data)),
    ...rules(data, catalogues),
    ...catalogues.complaints,
  ];
  const placed = ({ path, at, complaint }: PathComplaint): Problem => ({ file, ...place(path, at), ...complaint });
  const inCatalogue = (name: string) => posix.join(posix.dirname(file), name);
  const inCatalogues = [...catalogues.byName].flatMap(([name, catalogue]) =>
    catalogue.problems.map((problem) => ({ file: inCatalogue(name), ...problem })),
  );
  const [further] = complaints.slice(MOST_PROBLEMS);
  const rest = further
    ? [{ ...further, complaint: furtherProblems(complaints.length - MOST_PROBLEMS, 'a scenario') }]
    : [];
  const problems = [...[...complaints.slice(0, MOST_PROBLEMS), ...rest].map(placed), ...inCatalogues];
  if (!parsed.success || problems.length > 0) return { read: null, problems };
  const assembled = assemble(parsed.data, data, catalogues);
  return {
    read: {
      scenario: withTaken(assembled.scenario, [...wished.assumptions, ...leftOut.flatMap(silentlyLeftOut)]),
      fields: parsed.data,
    },
    problems: assembled.problems.map(placeSpringProblem),
  };

  function placeSpringProblem({ axle, entry, row, complaint }: Assembled['problems'][number]): Problem {
    if (row !== null) return { file: inCatalogue(row.catalogue), line: row.line, column: 1, ...complaint };
    return placed({ path: ['axles', axle, 'springs', entry], at: 'value', complaint });
  }
}

function refuse(problems: readonly Problem[]): Refused {
  return { ok: false, problems: sortProblems(problems) };
}
