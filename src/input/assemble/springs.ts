/** Main springs: grids, single springs and catalogue rows to resolved springs. */
import type { Spring } from '../../model/parts.ts';
import type { Assumption } from '../../model/scenario.ts';
import {
  bareSpring,
  isBare,
  resolveSpring,
  type SpringFault,
  type SpringGiven,
  springFault,
} from '../../model/spring/spring.ts';
import { catalogueName, type LoadedCatalogue, type LoadedCatalogues } from '../catalogue/catalogue.ts';
import type { CatalogueSpring } from '../catalogue/row.ts';
import { nothingLeft } from '../problems/file.ts';
import type { Complaint } from '../problems/problems.ts';
import { impossibleSpring } from '../problems/rule.ts';
import { COMMON_PRACTICE } from '../schema/leaves.ts';
import { DEFAULT_ENDS } from '../schema/parts.ts';
import type { AxleFields, BenchAxleFields } from '../schema/scenario.ts';
import { DEFAULT_MATERIAL } from '../schema/springs.ts';
import { product } from './parts.ts';

type Entry = (AxleFields | BenchAxleFields)['springs'][number];
type Grid = Extract<Entry, { readonly name: string }>;
type FromCatalogue = Exclude<Entry, Grid>;

export interface SpringProblem {
  /** Index in the scenario's list of springs. */
  readonly entry: number;
  /** The catalogue row at fault; null: the entry itself. */
  readonly row: { readonly catalogue: string; readonly line: number } | null;
  readonly complaint: Complaint;
}

export interface Springs {
  readonly springs: readonly Spring[];
  readonly problems: readonly SpringProblem[];
  readonly assumptions: readonly Assumption[];
}

type Resolved = { readonly spring: Spring } | { readonly problem: SpringProblem };

export function springsOf(entries: readonly Entry[], catalogues: LoadedCatalogues): Springs {
  const assumptions: Assumption[] = [];
  const names = ownNames(entries);
  const resolved = entries.flatMap((entry, i): readonly Resolved[] => {
    if ('catalogue' in entry) {
      const catalogue = catalogues.byName.get(catalogueName(entry.catalogue));
      if (catalogue === undefined) throw new Error(`catalogue ${entry.catalogue} was not loaded`);
      const rows = wantedRows(entry, catalogue);
      if (rows.length === 0) {
        return [{ problem: { entry: i, row: null, complaint: nothingLeft(catalogue.springs.length) } }];
      }
      assumptions.push(...silentCells(rows, entry));
      return rows.map((row) => resolveRow(row, entry, i));
    }
    return resolveGrid({ ...entry, name: names[i] as string }, i);
  });
  return {
    springs: resolved.flatMap((item) => ('spring' in item ? [item.spring] : [])),
    problems: merged(resolved.flatMap((item) => ('problem' in item ? [item.problem] : []))),
    assumptions,
  };
}

/** The names of entries; one that an entry before has, too, is numbered: only names that nobody gave are the same. */
export function ownNames(entries: readonly unknown[]): readonly string[] {
  const taken = new Set<string>();
  return entries.map((entry, i) => {
    const { name = '' } = entry as { readonly name?: string };
    const own = taken.has(name) ? `${name} ${i + 1}` : name;
    taken.add(name);
    return own;
  });
}

/** One problem for each entry of the scenario, however many springs of its grid it is about; rows keep their own. */
function merged(problems: readonly SpringProblem[]): readonly SpringProblem[] {
  const first = new Map<string, SpringProblem>();
  for (const problem of problems) {
    const key = problem.row === null ? `${problem.entry}` : `${problem.entry} ${problem.row.line}`;
    if (!first.has(key)) first.set(key, problem);
  }
  return [...first.values()];
}

/** Order: free length, rate, bore, solid height, wire, coils, coating. */
function resolveGrid(grid: Grid, entry: number): readonly Resolved[] {
  const dimensions = {
    freeLength: grid.free_length,
    rate: knownOrNull(grid.rate),
    bore: grid.bore,
    solidHeight: knownOrNull(grid.solid_height),
    wire: knownOrNull(grid.wire),
    totalCoils: knownOrNull(grid.coils),
    coating: grid.coating,
  };
  return product(dimensions).map((choice) =>
    resolve(
      {
        ...choice,
        name: grid.name,
        price: grid.price ?? null,
        ends: grid.ends ?? null,
        estimate: estimateOf(grid.estimate, null),
      },
      { entry, row: null },
    ),
  );
}

/** `unknown`, which only the bench takes, is as good as left out. */
function knownOrNull(values: readonly number[] = [Number.NaN]): readonly (number | null)[] {
  return values.map((value) => (Number.isNaN(value) ? null : value));
}

function resolveRow(row: CatalogueSpring, from: FromCatalogue, entry: number): Resolved {
  const { line, notes, material } = row;
  const given = { ...row, estimate: estimateOf(from.estimate, material) };
  const resolved = resolve(given, { entry, row: { catalogue: catalogueName(from.catalogue), line } });
  if (notes.length === 0 || 'problem' in resolved) return resolved;
  return { spring: { ...resolved.spring, notes } };
}

/** A range error means that no such spring exists; anything else is a fault of the program. */
function resolve(given: SpringGiven, place: Pick<SpringProblem, 'entry' | 'row'>): Resolved {
  try {
    return { spring: isBare(given) ? bareSpring(given) : resolveSpring(given) };
  } catch (error) {
    if (!(error instanceof RangeError)) throw error;
    return { problem: { ...place, complaint: impossibleSpring(given, faultOf(given)) } };
  }
}

/** Null where no wire fits the given solid height. */
function faultOf(given: SpringGiven): SpringFault | null {
  try {
    return springFault(given);
  } catch {
    return null;
  }
}

function estimateOf(estimate: Entry['estimate'], material: string | null): SpringGiven['estimate'] {
  const stated = material ?? estimate.material;
  return {
    material: stated ?? DEFAULT_MATERIAL,
    grade: stated === undefined ? estimate.grade : null,
    shearModulus: estimate.shear_modulus ?? null,
    thinStressShare: estimate.thin_stress_share,
    thickStressShare: estimate.thick_stress_share,
  };
}

export function wantedRows({ only }: FromCatalogue, { springs }: LoadedCatalogue): readonly CatalogueSpring[] {
  const inside = (value: number | null, range: { readonly from: number; readonly to: number } | undefined) =>
    // A rate still to be computed can't be compared: such a row is kept out of a filter by rate.
    range === undefined || (value !== null && value >= range.from - SLACK && value <= range.to + SLACK);
  return springs.filter(
    (row) => inside(row.freeLength, only?.free_length) && inside(row.rate, only?.rate) && inside(row.bore, only?.bore),
  );
}

/** Inches converted to mm differ from typed mm by rounding alone. */
const SLACK = 1e-9;

/** Defaults taken where a catalogue is silent, one line per column. */
function silentCells(rows: readonly CatalogueSpring[], { catalogue, estimate }: FromCatalogue): readonly Assumption[] {
  const columns = [
    { column: 'ends', value: DEFAULT_ENDS, silent: rows.filter((row) => row.ends === null) },
    { column: 'coating', value: '0 mm', silent: rows.filter((row) => row.coating === null) },
    {
      column: 'material',
      value: estimate.material ?? DEFAULT_MATERIAL,
      silent: rows.filter((row) => row.material === null),
    },
  ];
  return columns
    .filter(({ silent }) => silent.length > 0)
    .map(({ column, value, silent }) => ({
      field: `${catalogueName(catalogue)}: ${column}`,
      value: `${value} (${silent.length} of ${rows.length} springs)`,
      source: COMMON_PRACTICE,
    }));
}
