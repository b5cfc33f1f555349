/**
 * From a file of measurements to what was measured in inner units, or to all its problems.
 *
 *   measured.yaml --readText--> text --readYaml--> data with places --schema, checks--> Measured
 */
import { posix } from 'node:path';
import type { Measured } from '../../domain/audit/measured.ts';
import { greatestSolidHeight } from '../../domain/formula/coil.ts';
import { fingerprintOf, parsePairId } from '../../domain/ids.ts';
import type { InputFile } from '../../domain/result.ts';
import { type Assumption, AXLE_NAMES, FAMILIES, type InputWarning, type Scenario } from '../../domain/scenario.ts';
import { diskFiles, type FileReader, readText, toPosix, withoutMark } from '../files.ts';
import * as say from '../messages/measured.ts';
import { FILE_START, type Problem, sortProblems } from '../problems.ts';
import { complaintsOf, type PathComplaint } from '../schema/issues.ts';
import { takenDefaults } from '../schema/takenDefaults.ts';
import { measuredWarnings } from '../slips/slips.ts';
import { readYaml } from '../source/yamlDocument.ts';
import { measuredOf, type UnitSource } from './assemble.ts';
import { measured as schema } from './schema.ts';

export type ReadMeasured =
  | {
      readonly ok: true;
      readonly measured: Measured;
      readonly file: InputFile;
      /** Readings that were taken for granted. */
      readonly assumptions: readonly Assumption[];
      /** What looks like a slip of the pen. */
      readonly warnings: readonly InputWarning[];
    }
  | { readonly ok: false; readonly problems: readonly Problem[] };

const MOST_BYTES = 1_000_000;

/** Reads the measurements at `path` of a build of a checked scenario. */
export async function readMeasured(
  path: string,
  scenario: Scenario,
  read: FileReader = diskFiles,
): Promise<ReadMeasured> {
  const file = toPosix(path);
  const text = await readText(read, path, posix.basename(file), say.MEASURED_FILE, MOST_BYTES);
  if ('complaint' in text) return refused([{ file, ...FILE_START, ...text.complaint }]);
  const yaml = readYaml(withoutMark(text.file.text));
  const early = yaml.problems.map((problem) => ({ file, ...problem }));
  if (yaml.document === null) return refused(early);
  const { place } = yaml.document;
  const data = withoutEmpty(yaml.document.data);
  const parsed = schema.safeParse(data);
  const { measured, sources } = parsed.success ? measuredOf(parsed.data) : { measured: null, sources: [] };
  const complaints = [
    ...(parsed.success ? [] : complaintsOf(schema, parsed.error.issues, data)),
    ...(measured === null ? [] : [...buildComplaints(measured, scenario), ...unitComplaints(sources)]),
  ];
  const problems = [
    ...early,
    ...complaints.map(({ path: at, at: aspect, complaint }) => ({ file, ...place(at, aspect), ...complaint })),
  ];
  if (measured === null || problems.length > 0) return refused(problems);
  const warnings = measuredWarnings(schema, { ...yaml.document, data }, text.file.path);
  return { ok: true, measured, file: text.file, assumptions: assumptionsOf(data, measured), warnings };
}

/** `front:` with every line below it commented out is a front that was not measured. */
function withoutEmpty(data: unknown): unknown {
  if (typeof data !== 'object' || data === null) return data;
  const kept = Object.entries(data).filter(([key, value]) => !(value === null && UNIT_KEYS.has(key)));
  return Object.fromEntries(
    kept.map(([key, value]) => [key, key === 'front' || key === 'rear' ? withoutEmpty(value) : value]),
  );
}

const UNIT_KEYS = new Set(['front', 'rear', 'left', 'right']);

/** Readings and ends taken for granted; what was not measured is no assumption. */
function assumptionsOf(data: unknown, { units }: Measured): readonly Assumption[] {
  const taken = takenDefaults(schema, data);
  const ends = taken.find(({ field }) => field.endsWith('.ends'));
  const counted = units.some(({ coil }) => coil !== null);
  return [
    ...taken.filter(({ field }) => field.startsWith('readings.')),
    ...(ends && counted ? [{ ...ends, field: 'ends' }] : []),
  ];
}

function buildComplaints({ build }: Measured, scenario: Scenario): PathComplaint[] {
  if (build.kind === 'best') {
    const names = scenario.setups.map((setup) => setup.name);
    const known = names.includes(build.setup);
    return known ? [] : [{ path: ['best_of'], at: 'value', complaint: say.noSuchSetup(build.setup, names) }];
  }
  const fault = idFault(build.id, scenario);
  return fault === null ? [] : [{ path: ['combination'], at: 'value', complaint: say.notThisBuild(build.id, fault) }];
}

function idFault(id: string, scenario: Scenario) {
  const parsed = parsePairId(id, fingerprintOf(scenario));
  if (!parsed.ok) return parsed.reason;
  if (scenario.setups.every((setup) => setup.name !== parsed.id.setup)) return 'setup';
  const exists = AXLE_NAMES.every((axle) => {
    const { options } = scenario.axles[axle];
    return parsed.id[axle] < FAMILIES.reduce((product, family) => product * options[family].length, 1);
  });
  return exists ? null : 'index';
}

function unitComplaints(sources: readonly UnitSource[]): PathComplaint[] {
  if (sources.length === 0) return [{ path: [], at: 'value', complaint: say.nothingMeasured() }];
  return sources.flatMap(({ path, unit }) => {
    if (unit.coil === null || unit.freeLength === null) return [];
    const solid = greatestSolidHeight(unit.coil.wire, unit.coil.coils, unit.coil.ends);
    if (solid < unit.freeLength) return [];
    return [{ path, at: 'owner' as const, complaint: say.solidAboveFree(solid, unit.freeLength) }];
  });
}

function refused(problems: readonly Problem[]): ReadMeasured {
  return { ok: false, problems: sortProblems(problems) };
}
