/**
 * Checks that span several entries of a scenario. They go over every entry that is sound by itself, whatever is wrong
 * elsewhere, so that all problems come at once.
 */

import * as z from 'zod';
import { AXLE_NAMES } from '../../model/scenario.ts';
import { catalogueName, type LoadedCatalogues } from '../catalogue/catalogue.ts';
import { type Complaint, nearestWord } from '../problems/problems.ts';
import * as say from '../problems/rule.ts';
import { type PathComplaint, valueAt } from '../schema/issues.ts';
import { one } from '../schema/leaves.ts';
import { PARTS, type partsAt } from '../schema/parts.ts';
import { BENCH_PARTS, BENCH_SPRING_PARTS, wheelLoad } from '../schema/scenario.ts';
import { setup } from '../schema/setup.ts';
import { catalogueEntry, SPRING_PARTS, type springPartsAt } from '../schema/springs.ts';
import type { Aspect, PathKey } from '../source/yaml.ts';
import { leastLoad } from '../values/swept.ts';

type Path = readonly PathKey[];

/** The parts of an axle at one level, each with the schema that reads it. */
type Schemas = ReturnType<typeof partsAt> & ReturnType<typeof springPartsAt>;

/** The part lists of an axle: what one entry is called, and its schema; 'none' is an entry that stands for itself. */
const partLists = (of: Schemas): Readonly<Record<string, { readonly word: string; readonly entry: z.ZodType }>> => ({
  dampers: { word: 'damper', entry: of.damper },
  mounts: { word: 'mount', entry: of.mount },
  isolators: { word: 'isolator', entry: of.isolator },
  bump_stops: { word: 'bump stop', entry: of.bumpStop },
  rod_ends: { word: 'rod end', entry: of.rodEnd },
  sleeves: { word: 'sleeve', entry: of.sleeve },
  perches: { word: 'perch', entry: of.perch },
  helpers: { word: 'helper spring', entry: of.helper },
  springs: { word: 'spring', entry: z.union([catalogueEntry, of.spring]) },
});

const OF_CAR: Schemas = { ...PARTS, ...SPRING_PARTS };
const ON_BENCH: Schemas = { ...BENCH_PARTS, ...BENCH_SPRING_PARTS };

/** Of a car. */
export function crossChecks(data: unknown, catalogues: LoadedCatalogues): readonly PathComplaint[] {
  return [
    ...checkParts(data, OF_CAR, catalogues),
    ...checkCurves(data),
    ...checkLoadStates(data),
    ...checkCornering(data),
    ...checkWantedFrequencies(data),
    ...checkPlan(data),
    ...checkPrices(data, catalogues),
  ];
}

/** Of parts on the bench. */
export function benchChecks(data: unknown, catalogues: LoadedCatalogues): readonly PathComplaint[] {
  return [...checkParts(data, ON_BENCH, catalogues), ...checkCurrency(data, entriesOf(data), catalogues)];
}

function checkParts(data: unknown, schemas: Schemas, catalogues: LoadedCatalogues): readonly PathComplaint[] {
  return [
    ...AXLE_NAMES.flatMap((axle) => checkBodies(data, ['axles', axle], schemas)),
    ...AXLE_NAMES.flatMap((axle) => checkPartNames(data, ['axles', axle])),
    ...AXLE_NAMES.flatMap((axle) => checkOptionCounts(data, ['axles', axle], schemas, catalogues)),
  ];
}

function refuse(path: Path, complaint: Complaint, at: Aspect = 'value'): PathComplaint {
  return { path, at, complaint };
}

/** The entries of a list that their schema accepts, read. */
function readSound<T>(
  data: unknown,
  path: Path,
  schema: z.ZodType<T>,
): readonly { readonly value: T; readonly path: Path }[] {
  return listAt(data, path).flatMap((item, i) => {
    const read = schema.safeParse(item);
    return read.success ? [{ value: read.data, path: [...path, i] }] : [];
  });
}

function listAt(data: unknown, path: Path): readonly unknown[] {
  const value = valueAt(data, path);
  return Array.isArray(value) ? value : [];
}

/**
 * Every sleeve of an axle may come onto every damper. The ledge it stands on is part of the body, below its top; a single
 * tube is never grooved.
 */
function checkBodies(data: unknown, axle: Path, { damper, sleeve }: Schemas): readonly PathComplaint[] {
  const read = readSound(data, [...axle, 'dampers'], damper).map(({ value }) => value);
  const bodyOf = ({ body_length }: (typeof read)[number]) => Math.min(...body_length);
  const [shortest] = [...read].sort((a, b) => bodyOf(a) - bodyOf(b));
  const single = read.find(({ body }) => body === 'single_tube');
  return readSound(data, [...axle, 'sleeves'], sleeve).flatMap(({ value, path }) => {
    const [ledge, drop] = [Math.max(...value.ledge_height), Math.max(...value.groove_drop)];
    const found: PathComplaint[] = [];
    if (shortest !== undefined && ledge >= bodyOf(shortest)) {
      found.push(refuse([...path, 'ledge_height'], say.ledgeAboveBody(ledge, shortest.name, bodyOf(shortest))));
    }
    if (single !== undefined && drop !== 0) {
      found.push(refuse([...path, 'groove_drop'], say.grooveInSingleTube(drop, single.name)));
    }
    return found;
  });
}

/** Standing on the stop, and full bump under a load, need the force of every stop. */
function checkCurves(data: unknown): readonly PathComplaint[] {
  const stops = AXLE_NAMES.flatMap((axle) => readSound(data, ['axles', axle, 'bump_stops'], PARTS.bumpStop));
  const without = stops.filter(({ value }) => value.curve === undefined).map(({ value }) => value.name);
  const names = [...new Set(without)];
  if (names.length === 0) return [];
  return listAt(data, ['setups']).flatMap((entry, i) => {
    const bump = valueAt(entry, ['bump']);
    const isByLoad = typeof bump === 'object' && bump !== null;
    const isStanding = valueAt(entry, ['standing_on_stop']) === true;
    return [
      ...(isByLoad ? [refuse(['setups', i, 'bump'], say.curvesNeeded('bump: { load }', names))] : []),
      ...(isStanding ? [refuse(['setups', i, 'standing_on_stop'], say.curvesNeeded('standing_on_stop', names))] : []),
    ];
  });
}

/** No load state may take away the whole sprung mass of a wheel. */
function checkLoadStates(data: unknown): readonly PathComplaint[] {
  const mass = one('mass', 'positive', '');
  return AXLE_NAMES.flatMap((axle) => {
    const load = wheelLoad.safeParse(valueAt(data, ['axles', axle, 'wheel_load']));
    const unsprung = mass.safeParse(valueAt(data, ['axles', axle, 'unsprung_mass']));
    if (!load.success || !unsprung.success || leastLoad(load.data) <= unsprung.data) return [];
    const sprung = leastLoad(load.data) - unsprung.data;
    return readSound(data, ['setups'], setup).flatMap(({ value, path }) =>
      value.load_states.flatMap((state, i) =>
        state[axle] > -sprung
          ? []
          : [refuse([...path, 'load_states', i, axle], say.stateLighterThanWheel(state[axle], sprung))],
      ),
    );
  });
}

/** What cornering is computed from: the height of the sprung mass and the roll data of both axles. */
const CORNERING_NEEDS = [['car', 'sprung_centre_height'], ...AXLE_NAMES.map((axle) => ['axles', axle, 'roll'])];

function checkCornering(data: unknown): readonly PathComplaint[] {
  const lacking = CORNERING_NEEDS.filter((path) => valueAt(data, path) === undefined).map((path) => path.join('.'));
  if (lacking.length === 0) return [];
  return listAt(data, ['setups']).flatMap((_, i) =>
    listAt(data, ['setups', i, 'load_cases']).flatMap((loadCase, k) =>
      valueAt(loadCase, ['lateral']) === undefined
        ? []
        : [refuse(['setups', i, 'load_cases', k, 'lateral'], say.corneringNeeds(lacking))],
    ),
  );
}

function isWeighed(data: unknown, path: Path): boolean {
  const weight = valueAt(data, path);
  return typeof weight === 'number' && weight > 0;
}

/** A weight on the front frequency means nothing without a wanted one in every setup. */
function checkWantedFrequencies(data: unknown): readonly PathComplaint[] {
  const path = ['ranking', 'weights', 'front_frequency'];
  const isWanted = (entry: unknown) => valueAt(entry, ['front', 'frequency', 'wanted']) !== undefined;
  if (!isWeighed(data, path) || listAt(data, ['setups']).every(isWanted)) return [];
  return [refuse(path, say.weightWithout('front_frequency', '`front.frequency.wanted` in every setup'))];
}

/** The report tells parts apart by name: within a family of an axle no name may stand twice. */
function checkPartNames(data: unknown, axle: Path): readonly PathComplaint[] {
  return Object.entries(partLists(OF_CAR)).flatMap(([list, { word }]) => {
    // `none` is an alternative like the others and has no name of its own.
    const entries = listAt(data, [...axle, list]);
    const names = entries.map((entry) => (entry === 'none' ? 'none' : valueAt(entry, ['name'])));
    return findRepeats(names).map(({ name, i }) =>
      refuse([...axle, list, i, ...(entries[i] === 'none' ? [] : ['name'])], say.repeatedName(name, word)),
    );
  });
}

/** The names that stood before in the list. */
function findRepeats(list: readonly unknown[]): readonly { readonly name: string; readonly i: number }[] {
  const seen = new Set<string>();
  return list.flatMap((name, i) => {
    if (typeof name !== 'string') return [];
    if (seen.has(name)) return [{ name, i }];
    seen.add(name);
    return [];
  });
}

/** A plan names setups that exist, each once, and at least two are there to plan for. */
function checkPlan(data: unknown): readonly PathComplaint[] {
  const plan = valueAt(data, ['plan']);
  if (typeof plan !== 'object' || plan === null) return [];
  const setups = listAt(data, ['setups']).map((entry) => valueAt(entry, ['name']));
  const names = setups.filter((name) => typeof name === 'string');
  const repeats = ['setups', 'swapped'].flatMap((list) =>
    findRepeats(listAt(plan, [list])).map(({ name, i }) => refuse(['plan', list, i], say.repeatedInPlan(name))),
  );
  // Where a setup's own name is wrong, the plan may mean that one.
  if (names.length < setups.length) return repeats;
  const unknown = listAt(plan, ['setups']).flatMap((name, i) =>
    typeof name !== 'string' || names.includes(name)
      ? []
      : [refuse(['plan', 'setups', i], say.unknownSetup(name, nearestWord(name, names), names))],
  );
  return [
    ...(names.length < 2 ? [refuse(['plan'], say.tooFewSetups(names.length), 'key')] : []),
    ...unknown,
    ...repeats,
  ];
}

interface Entry {
  readonly path: Path;
  readonly part: unknown;
}

function entriesOf(data: unknown): readonly Entry[] {
  return AXLE_NAMES.flatMap((axle) =>
    Object.keys(partLists(OF_CAR)).flatMap((list) =>
      listAt(data, ['axles', axle, list]).map((part, i): Entry => ({ path: ['axles', axle, list, i], part })),
    ),
  );
}

/** Prices need a currency, and a weight on the price needs the price of every part. */
function checkPrices(data: unknown, catalogues: LoadedCatalogues): readonly PathComplaint[] {
  const entries = entriesOf(data);
  return [...checkCurrency(data, entries, catalogues), ...checkPriceWeight(data, entries, catalogues)];
}

function checkCurrency(
  data: unknown,
  entries: readonly Entry[],
  catalogues: LoadedCatalogues,
): readonly PathComplaint[] {
  if (valueAt(data, ['currency']) !== undefined) return [];
  const written = entries.find(({ part }) => valueAt(part, ['price']) !== undefined);
  if (written !== undefined) return [refuse([...written.path, 'price'], say.currencyNeeded(), 'key')];
  const priced = entries.find(({ part }) => rowsOf(part, catalogues)?.some((spring) => spring.price !== null));
  return priced === undefined ? [] : [refuse([...priced.path, 'catalogue'], say.currencyNeeded())];
}

function checkPriceWeight(
  data: unknown,
  entries: readonly Entry[],
  catalogues: LoadedCatalogues,
): readonly PathComplaint[] {
  const path = ['ranking', 'weights', 'price'];
  const isUnpriced = ({ part }: Entry) => {
    if (typeof part !== 'object' || part === null) return false;
    if (valueAt(part, ['catalogue']) === undefined) return valueAt(part, ['price']) === undefined;
    return rowsOf(part, catalogues)?.some((spring) => spring.price === null) ?? false;
  };
  if (!isWeighed(data, path) || !entries.some(isUnpriced)) return [];
  return [refuse(path, say.weightWithout('price', 'a `price` for every part (0 for what you have)'))];
}

/** The rows of the catalogue that an entry names; none where it could not be read, null where it names none. */
function rowsOf(part: unknown, { byName }: LoadedCatalogues) {
  const catalogue = valueAt(part, ['catalogue']);
  return typeof catalogue === 'string' ? (byName.get(catalogueName(catalogue))?.springs ?? []) : null;
}

/** Alternatives per part family of an axle. */
export const MOST_OPTIONS = 200_000;

/** Swept dimensions multiply: a family's alternatives are counted before they are written out. */
function checkOptionCounts(
  data: unknown,
  axle: Path,
  schemas: Schemas,
  catalogues: LoadedCatalogues,
): readonly PathComplaint[] {
  return Object.entries(partLists(schemas)).flatMap(([list, { entry }]) => {
    const path = [...axle, list];
    const counts = readSound(data, path, entry).map(({ value }) => countAlternatives(value, catalogues));
    const count = counts.reduce((sum, one) => sum + one, 0);
    return count > MOST_OPTIONS ? [refuse(path, say.tooManyOptions(count, MOST_OPTIONS), 'key')] : [];
  });
}

/** The product of the number of values of every swept dimension. */
function countAlternatives(part: unknown, catalogues: LoadedCatalogues): number {
  if (typeof part !== 'object' || part === null) return 1;
  const values = [...Object.values(part), ...Object.values(valueAt(part, ['coupler']) ?? {})];
  const product = values.reduce<number>((count, value) => (isSweep(value) ? count * value.length : count), 1);
  return rowsOf(part, catalogues)?.length ?? product;
}

function isSweep(value: unknown): value is readonly number[] {
  return Array.isArray(value) && value.every((item) => typeof item === 'number');
}
