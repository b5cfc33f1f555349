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
import type { InputWarning, Scenario } from '../model/scenario.ts';
import type { InputFile } from '../result/result.ts';
import { type Assembled, assembleScenario } from './assemble/scenario.ts';
import { type LoadedCatalogues, loadCatalogues } from './catalogue/catalogue.ts';
import { furtherProblems } from './problems/file.ts';
import { FILE_START, type PlacedComplaint, type Problem, sortProblems } from './problems/problems.ts';
import { crossChecks } from './rules/crossChecks.ts';
import { complaintsOf, type PathComplaint } from './schema/issues.ts';
import { type ScenarioFields, scenario as schema } from './schema/scenario.ts';
import { warnAbout } from './slips/slips.ts';
import { diskFiles, type FileReader, readText, toPosix, withoutMark } from './source/files.ts';
import { readYaml, type SourceDocument } from './source/yaml.ts';

export { formatProblem } from './problems/problems.ts';

export type { Problem };

export type ReadScenario =
  | {
      readonly ok: true;
      readonly scenario: Scenario;
      readonly files: readonly InputFile[];
      /** As written, field by field, in inner units. */
      readonly fields: ScenarioFields;
      /** What looks like a slip of the pen, with the names of `files`. */
      readonly warnings: readonly InputWarning[];
    }
  | { readonly ok: false; readonly problems: readonly Problem[] };

const SCENARIO_FILE = 'a scenario file (YAML)';
export const MOST_BYTES = 2_000_000;
/** Problems of a scenario that are said one by one. */
const MOST_PROBLEMS = 10_000;

/** Reads the scenario at `path` and the catalogues it names, which must lie in its folder or below. */
export async function readScenario(path: string, read: FileReader = diskFiles): Promise<ReadScenario> {
  const file = toPosix(path);
  const text = await readText(read, path, posix.basename(file), SCENARIO_FILE, MOST_BYTES);
  if ('complaint' in text) return refuse([{ file, ...FILE_START, ...text.complaint }]);
  const yaml = readYaml(withoutMark(text.file.text));
  const inFile = (problem: PlacedComplaint): Problem => ({ file, ...problem });
  if (yaml.document === null) return refuse(yaml.problems.map(inFile));
  const folder = posix.dirname(file);
  const catalogues = await loadCatalogues(yaml.document.data, read, folder);
  const checked = check(yaml.document, catalogues, file);
  const problems = [...yaml.problems.map(inFile), ...checked.problems];
  if (problems.length > 0 || checked.scenario === null || checked.fields === null) return refuse(problems);
  return {
    ok: true,
    scenario: checked.scenario,
    fields: checked.fields,
    warnings: warnAbout(yaml.document, checked.fields, catalogues, text.file.path),
    files: [text.file, ...[...catalogues.byName.values()].map((c) => c.file)],
  };
}

interface Checked {
  readonly scenario: Scenario | null;
  readonly fields: ScenarioFields | null;
  readonly problems: readonly Problem[];
}

function check({ data, place }: SourceDocument, catalogues: LoadedCatalogues, file: string): Checked {
  const parsed = schema.safeParse(data);
  const complaints = [
    ...(parsed.success ? [] : complaintsOf(schema, parsed.error.issues, data)),
    ...crossChecks(data, catalogues),
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
  if (!parsed.success || problems.length > 0) return { scenario: null, fields: null, problems };
  const assembled = assembleScenario(parsed.data, data, catalogues);
  return {
    scenario: assembled.scenario,
    fields: parsed.data,
    problems: assembled.problems.map(placeSpringProblem),
  };

  function placeSpringProblem({ axle, entry, row, complaint }: Assembled['problems'][number]): Problem {
    if (row !== null) return { file: inCatalogue(row.catalogue), line: row.line, column: 1, ...complaint };
    return placed({ path: ['axles', axle, 'springs', entry], at: 'value', complaint });
  }
}

function refuse(problems: readonly Problem[]): ReadScenario {
  return { ok: false, problems: sortProblems(problems) };
}
