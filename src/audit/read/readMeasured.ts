/**
 * From a file of measurements to what was measured in inner units, or to all its problems.
 *
 *   measured.yaml --readText--> text --readYaml--> data with places --schema, checks--> Measured
 */
import { posix } from 'node:path';
import { FILE_START, type Problem, sortProblems } from '../../input/problems/problems.ts';
import { complaintsOf, type PathComplaint } from '../../input/schema/issues.ts';
import { takenDefaults } from '../../input/schema/takenDefaults.ts';
import { warnAboutMeasured } from '../../input/slips/slips.ts';
import { diskFiles } from '../../input/source/disk.ts';
import { type FileReader, readText, toPosix, withoutMark } from '../../input/source/files.ts';
import { type PathKey, readYaml } from '../../input/source/yaml.ts';
import { greatestSolidHeight } from '../../model/formula/coil.ts';
import { fingerprintOf, parsePairId } from '../../model/ids.ts';
import {
  type Assumption,
  AXLE_NAMES,
  type AxleName,
  FAMILIES,
  type InputWarning,
  type Scenario,
  SIDE_NAMES,
  type SideName,
} from '../../model/scenario.ts';
import type { InputFile } from '../../result/result.ts';
import { type Measured, type MeasuredUnit, unmeasured } from '../fit/measured.ts';
import {
  type AxleFields,
  MEASURED_FILE,
  type MeasuredFields,
  noSuchSetup,
  nothingMeasured,
  notThisBuild,
  measured as schema,
  solidAboveFree,
  type UnitFields,
} from './schema.ts';

export type ReadMeasured =
  | {
      readonly ok: true;
      readonly measured: Measured;
      readonly file: InputFile;
      /** Readings that were taken for granted. */
      readonly assumptions: readonly Assumption[];
      /** Values that are probably slips of the pen. */
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
  const text = await readText(read, path, posix.basename(file), MEASURED_FILE, MOST_BYTES);
  if ('complaint' in text) return refuse([{ file, ...FILE_START, ...text.complaint }]);
  const yaml = readYaml(withoutMark(text.file.text));
  const early = yaml.problems.map((problem) => ({ file, ...problem }));
  if (yaml.document === null) return refuse(early);
  const { place } = yaml.document;
  const data = dropEmpty(yaml.document.data);
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
  if (measured === null || problems.length > 0) return refuse(problems);
  const warnings = warnAboutMeasured(schema, { ...yaml.document, data }, text.file.path);
  return { ok: true, measured, file: text.file, assumptions: assumptionsOf(data, measured), warnings };
}

/** `front:` with every line below it commented out is a front that was not measured. */
function dropEmpty(data: unknown): unknown {
  if (typeof data !== 'object' || data === null) return data;
  const kept = Object.entries(data).filter(([key, value]) => !(value === null && UNIT_KEYS.has(key)));
  return Object.fromEntries(
    kept.map(([key, value]) => [key, key === 'front' || key === 'rear' ? dropEmpty(value) : value]),
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
    return known ? [] : [{ path: ['best_of'], at: 'value', complaint: noSuchSetup(build.setup, names) }];
  }
  const fault = idFault(build.id, scenario);
  return fault === null ? [] : [{ path: ['combination'], at: 'value', complaint: notThisBuild(build.id, fault) }];
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
  if (sources.length === 0) return [{ path: [], at: 'value', complaint: nothingMeasured() }];
  return sources.flatMap(({ path, unit }) => {
    if (unit.coil === null || unit.freeLength === null) return [];
    const solid = greatestSolidHeight(unit.coil.wire, unit.coil.coils, unit.coil.ends);
    if (solid < unit.freeLength) return [];
    return [{ path, at: 'owner' as const, complaint: solidAboveFree(solid, unit.freeLength) }];
  });
}

function refuse(problems: readonly Problem[]): ReadMeasured {
  return { ok: false, problems: sortProblems(problems) };
}

interface UnitSource {
  /** Where the unit stands in the file. */
  readonly path: readonly PathKey[];
  readonly unit: MeasuredUnit;
}

function measuredOf(fields: MeasuredFields): {
  readonly measured: Measured;
  readonly sources: readonly UnitSource[];
} {
  const sources = AXLE_NAMES.flatMap((axle) => {
    const mine = fields[axle];
    return mine === undefined ? [] : unitsOf(axle, mine);
  });
  const { readings, combination, best_of: setup } = fields;
  const measured: Measured = {
    build: combination === undefined ? { kind: 'best', setup: setup ?? '' } : { kind: 'id', id: combination },
    readings: {
      length: readings.length,
      rideHeight: readings.ride_height,
      wheelLoad: readings.wheel_load,
      wire: readings.wire,
      coils: readings.coils,
      rateShare: readings.rate,
    },
    units: sources.map(({ unit }) => unit),
  };
  return { measured, sources };
}

function unitsOf(axle: AxleName, { left, right, ...both }: AxleFields): UnitSource[] {
  const sides = { left, right };
  const named = SIDE_NAMES.filter((side) => sides[side] !== undefined);
  if (named.length === 0) return sourceOf([axle], unitOf(axle, null, both));
  return named.flatMap((side) =>
    sourceOf([axle, side], unitOf(axle, side, mergeSides(both, sides[side] as UnitFields))),
  );
}

/** An axle or side under which nothing was written is not measured. */
function sourceOf(path: readonly PathKey[], unit: MeasuredUnit): UnitSource[] {
  const empty = JSON.stringify(unit) === JSON.stringify(unmeasured(unit.axle, unit.side));
  return empty ? [] : [{ path, unit }];
}

/** What was measured on a side goes before what holds for both. */
function mergeSides(both: UnitFields, side: UnitFields): UnitFields {
  const given = Object.entries(side).filter(
    ([, value]) => value !== undefined && !(Array.isArray(value) && value.length === 0),
  );
  const ends = side.coils === undefined ? { ends: both.ends } : {};
  return { ...both, ...Object.fromEntries(given), ...ends };
}

function unitOf(axle: AxleName, side: SideName | null, f: UnitFields): MeasuredUnit {
  const coil = f.wire === undefined || f.coils === undefined ? null : { wire: f.wire, coils: f.coils, ends: f.ends };
  const seat = f.sleeve_to_isolator;
  return {
    axle,
    side,
    freeLength: f.free_length ?? null,
    rate: f.rate ?? null,
    coil,
    helperFreeLength: f.helper_free_length ?? null,
    sleeveLength: f.sleeve_length ?? null,
    stopLength: f.stop_length ?? null,
    lowestPerch: f.lowest_perch ?? null,
    sleeveToSeat: seat === undefined ? null : { distance: seat.distance, damperLength: seat.damper_length ?? null },
    extendedGap: f.extended_gap ?? null,
    snugGaps: f.snug_gaps,
    standing: f.standing.map(({ perch, ride_height: rideHeight }) => ({ perch, rideHeight })),
    wheelLoad: f.wheel_load ?? null,
  };
}
