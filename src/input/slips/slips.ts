/** What is sound by every rule and still looks like a slip of the pen: warnings, which never refuse a scenario. */

import type * as z from 'zod';
import { AXLE_NAMES, type InputWarning } from '../../model/scenario.ts';
import { wantedRows } from '../assemble/springs.ts';
import { catalogueName, type LoadedCatalogues } from '../catalogue/catalogue.ts';
import { type Problem, sortProblems } from '../problems/problems.ts';
import { quote } from '../problems/value.ts';
import { type PathComplaint, valueAt, writtenIn } from '../schema/issues.ts';
import { COMMON_BANDS, COMMON_PRACTICE, DIMENSIONS } from '../schema/leaves.ts';
import type { BenchScenarioFields, ScenarioFields } from '../schema/scenario.ts';
import type { SourceDocument } from '../source/yaml.ts';
import { unusualRows } from './catalogue.ts';
import { type Held, unusualIn } from './judge.ts';
import { heldAgainstNeighbours } from './neighbours.ts';

type Fields = ScenarioFields | BenchScenarioFields;

/** Warnings that are said one by one. */
const MOST_WARNINGS = 200;

/** All warnings about a sound scenario and the rows it takes from its catalogues, sorted by file and place. */
export function warnAbout(
  schema: z.core.$ZodType,
  { data, place }: SourceDocument,
  fields: Fields,
  catalogues: LoadedCatalogues,
  name: string,
): readonly InputWarning[] {
  const held = [...listOwnBands(schema, data), ...heldAgainstNeighbours(fields)];
  const found = [...findUnusual(data, held), ...findChargedBodies(fields)];
  return sortWarnings([...placeAll(found, place, name), ...checkRowsUsed(fields, catalogues)]);
}

/** Every field that is given, held against its own band. */
function* listOwnBands(of: z.core.$ZodType, data: unknown): Generator<Held> {
  for (const { leaf, path } of writtenIn(of, data)) {
    const band = COMMON_BANDS.get(leaf);
    const kind = DIMENSIONS.get(leaf);
    if (band !== undefined && kind !== undefined) yield { path, ...kind, ...band };
  }
}

/** One complaint a field: what is unusual by itself is not also held against its neighbours, nor they against it. */
function findUnusual(data: unknown, all: Iterable<Held>): readonly PathComplaint[] {
  const found = new Map<string, PathComplaint>();
  for (const held of all) {
    const key = held.path.join('.');
    const isSaid = found.has(key) || (held.by !== undefined && found.has(held.by.join('.')));
    const complaint = isSaid ? null : unusualIn(valueAt(data, held.path), held);
    if (complaint !== null) found.set(key, complaint);
  }
  return [...found.values()];
}

/** Warnings about a sound file of measurements: each value against its own band. */
export function warnAboutMeasured(
  of: z.core.$ZodType,
  { data, place }: SourceDocument,
  name: string,
): readonly InputWarning[] {
  return sortWarnings(placeAll(findUnusual(data, listOwnBands(of, data)), place, name));
}

function placeAll(found: readonly PathComplaint[], place: SourceDocument['place'], file: string): readonly Problem[] {
  return found.map(({ path, at, complaint }) => ({ file, ...place(path, at), ...complaint }));
}

/** Gas given as a charge pressure, in a body that is not said to be a single tube. */
function findChargedBodies({ axles }: Fields): readonly PathComplaint[] {
  return AXLE_NAMES.flatMap((axle) =>
    (axles[axle]?.dampers ?? []).flatMap(({ gas, body }, i): PathComplaint[] => {
      if (gas === 'none' || !('charge' in gas) || body === 'single_tube') return [];
      return [{ path: ['axles', axle, 'dampers', i, 'gas'], at: 'value', complaint: chargeSuggestsSingleTube(body) }];
    }),
  );
}

function checkRowsUsed({ axles }: Fields, catalogues: LoadedCatalogues): readonly Problem[] {
  const entries = AXLE_NAMES.flatMap((axle) => (axles[axle]?.springs ?? []).filter((entry) => 'catalogue' in entry));
  return [...catalogues.byName].flatMap(([file, catalogue]) => {
    const rows = entries
      .filter((entry) => catalogueName(entry.catalogue) === file)
      .flatMap((entry) => wantedRows(entry, catalogue));
    return unusualRows(catalogue, [...new Set(rows)]).map((complaint) => ({ file, ...complaint }));
  });
}

function sortWarnings(found: readonly Problem[]): readonly InputWarning[] {
  return sortProblems(found)
    .slice(0, MOST_WARNINGS)
    .map(({ expected, ...rest }) => ({ ...rest, usual: expected }));
}

const UNDER_PRESSURE =
  'the piston of a single tube runs on the inside of the body’s wall, gas pressure behind it: such a body is never grooved or welded';
const chargeSuggestsSingleTube = (body: string) => ({
  found: `gas given as a charge pressure beside ${quote(`body: ${body}`)}`,
  expected: `${quote('body: single_tube')}: most dampers charged to a pressure are single tubes (${COMMON_PRACTICE})`,
  advice: `find out which it is and write ${quote('body')}: ${UNDER_PRESSURE}`,
});
