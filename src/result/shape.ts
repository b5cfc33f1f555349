/** Plain data against the JSON Schema that the build makes of its type: the first place that does not fit, and why. */
import { cornerId, parsePairId } from '../model/ids.ts';
import { AXLE_NAMES, type AxleName, FAMILIES } from '../model/scenario.ts';
import type { LiveRecord } from './live.ts';
import type { Combination, PlanPart, Result, SetupResult } from './result.ts';

/** The part of JSON Schema that the build writes; descriptions and names are read over. */
export interface Shape {
  readonly $ref?: string;
  readonly anyOf?: readonly Shape[];
  readonly type?: TypeName | readonly TypeName[];
  readonly const?: unknown;
  readonly enum?: readonly unknown[];
  readonly minimum?: number;
  readonly maximum?: number;
  readonly pattern?: string;
  readonly properties?: Readonly<Record<string, Shape>>;
  readonly required?: readonly string[];
  readonly additionalProperties?: boolean | Shape;
  readonly prefixItems?: readonly Shape[];
  readonly items?: Shape;
  readonly minItems?: number;
  readonly maxItems?: number;
}

export interface RootShape extends Shape {
  readonly $defs: Readonly<Record<string, Shape>>;
}

type TypeName = 'null' | 'boolean' | 'integer' | 'number' | 'string' | 'array' | 'object';

export interface ShapeFault {
  /** Like `setups[0].axles.front.passed`. */
  readonly where: string;
  readonly what: string;
}

/** More than any number but a count. */
const MOST = 1e13;

const WORDS: Readonly<Record<TypeName, string>> = {
  null: 'nothing',
  boolean: 'yes or no',
  integer: 'a whole number',
  number: 'a number',
  string: 'a text',
  array: 'a list',
  object: 'a record',
};

/** Null where the data fit. */
export function shapeFault(value: unknown, shape: RootShape): ShapeFault | null {
  return faultAt(value, shape, '', shape.$defs);
}

function faultAt(value: unknown, shape: Shape, where: string, named: RootShape['$defs']): ShapeFault | null {
  const what = wrongWith(value, shape);
  if (what !== null) return { where, what };
  if (shape.$ref !== undefined) {
    return faultAt(value, named[shape.$ref.slice('#/$defs/'.length)] as Shape, where, named);
  }
  if (shape.anyOf !== undefined) return bestOf(shape.anyOf.map((one) => faultAt(value, one, where, named)));
  if (Array.isArray(value)) {
    return first(value.entries(), ([k, item]) => {
      return faultAt(item, shape.prefixItems?.[k] ?? shape.items ?? {}, `${where}[${k}]`, named);
    });
  }
  if (typeof value !== 'object' || value === null) return null;
  return recordFault(value as Readonly<Record<string, unknown>>, shape, where, named);
}

function recordFault(
  value: Readonly<Record<string, unknown>>,
  { properties = {}, required = [], additionalProperties }: Shape,
  where: string,
  named: RootShape['$defs'],
): ShapeFault | null {
  const below = (key: string) => (where === '' ? key : `${where}.${key}`);
  const missing = required.find((key) => !Object.hasOwn(value, key));
  if (missing !== undefined) return { where: below(missing), what: 'nothing stands there' };
  return first(Object.entries(value), ([key, item]) => {
    const shape = Object.hasOwn(properties, key) ? properties[key] : additionalProperties;
    if (typeof shape === 'object') return faultAt(item, shape, below(key), named);
    return { where: below(key), what: 'no such key is known' };
  });
}

/** What is wrong with a value itself, whatever it holds. */
function wrongWith(value: unknown, shape: Shape): string | null {
  const { type, minItems = 0, maxItems = Number.POSITIVE_INFINITY } = shape;
  const wants = (what: string) => `${shown(value)} where ${what} belongs`;
  if (type !== undefined && !isOf(value, type)) return wants([type].flat().map(inWords).join(' or '));
  const words = shape.const === undefined ? shape.enum : [shape.const];
  if (words !== undefined && !words.includes(value)) return wants(words.map(shown).join(' or '));
  if (typeof value === 'number') {
    const isNumber = type === 'number' || Array.isArray(type);
    const most = shape.maximum ?? (isNumber ? MOST : Number.POSITIVE_INFINITY);
    const least = shape.minimum ?? (isNumber ? -MOST : Number.NEGATIVE_INFINITY);
    if (value < least) return wants(`${least} or more`);
    if (value > most) return wants(`${most} or less`);
  }
  if (typeof value === 'string' && shape.pattern !== undefined && !new RegExp(shape.pattern, 'u').test(value)) {
    return wants(`a text like ${shape.pattern}`);
  }
  const isFull = !Array.isArray(value) || (value.length >= minItems && value.length <= maxItems);
  return isFull ? null : `${(value as unknown[]).length} entries are too few or too many`;
}

const inWords = (type: TypeName) => WORDS[type];

function isOf(value: unknown, type: TypeName | readonly TypeName[]): boolean {
  if (typeof type !== 'string') return type.some((one) => isOf(value, one));
  if (type === 'integer') return Number.isInteger(value);
  const own: string = value === null ? 'null' : Array.isArray(value) ? 'array' : typeof value;
  return own === type;
}

/** None where any of several shapes fits, else of the shape that fits furthest. */
function bestOf(faults: readonly (ShapeFault | null)[]): ShapeFault | null {
  return faults.reduce((best, fault) => {
    if (best === null || fault === null) return null;
    return fault.where.length > best.where.length ? fault : best;
  }) as ShapeFault | null;
}

function first<T>(items: Iterable<T>, faultIn: (item: T) => ShapeFault | null): ShapeFault | null {
  for (const item of items) {
    const fault = faultIn(item);
    if (fault !== null) return fault;
  }
  return null;
}

function shown(value: unknown): string {
  const text = JSON.stringify(value);
  return text.length > 60 ? `${text.slice(0, 57)}...` : text;
}

// What a result says in two places is the same in both: sums, counts, ids and places in lists. A digest says that a result
// is as it was written, not who wrote it.

/** Two numbers or texts that have to be equal. */
interface Claim {
  readonly where: string;
  readonly said: number | string;
  readonly is: number | string;
}

/** The first place where a result of the right shape contradicts itself; null: none does. */
export function soundnessFault(result: Result): ShapeFault | null {
  for (const { where, said, is } of claimsOf(result)) {
    if (said !== is) return { where, what: `${said} where ${is} belongs` };
  }
  return null;
}

function* claimsOf(result: Result): Generator<Claim> {
  const { scenario, setups, plans, live } = result;
  for (const axle of AXLE_NAMES) {
    const { options, combinations } = scenario.axles[axle];
    const is = Object.values(options).reduce((product, count) => product * count, 1);
    yield { where: `scenario.axles.${axle}.combinations`, said: combinations, is };
  }
  for (const [k, setup] of setups.entries()) {
    yield* claimsOfCounts(result, setup, `setups[${k}]`);
    yield* claimsOfShortlist(result, setup, `setups[${k}]`);
  }
  for (const [k, plan] of (plans?.plans ?? []).entries()) {
    for (const [j, part] of plan.setups.entries()) yield* claimsOfPair(result, part, `plans.plans[${k}].setups[${j}]`);
  }
  if (live) yield* claimsOfBench(live);
}

function* claimsOfBench({ setups, axles }: LiveRecord): Generator<Claim> {
  for (const [k, { starts }] of setups.entries()) {
    for (const [j, start] of starts.entries()) {
      for (const axle of AXLE_NAMES) {
        const tables = FAMILIES.map((family) => axles[axle].options[family].length);
        const said = start[axle].findIndex((place, family) => place >= (tables[family] as number));
        yield { where: `live.setups[${k}].starts[${j}].${axle}`, said: said + 1, is: 0 };
      }
    }
  }
}

function* claimsOfCounts(
  { scenario, incomplete }: Result,
  { axles, pairs }: SetupResult,
  where: string,
): Generator<Claim> {
  for (const axle of AXLE_NAMES) {
    const { combinations, passed, rejected, spring_cells: cells } = axles[axle];
    const at = `${where}.axles.${axle}`;
    const all = scenario.axles[axle].combinations;
    yield { where: `${at}.combinations`, said: combinations, is: incomplete ? Math.min(combinations, all) : all };
    yield { where: `${at}.passed`, said: passed, is: combinations - sum(Object.values(rejected)) };
    yield { where: `${at}.spring_cells`, said: sum(cells.map(({ workable }) => workable)), is: passed };
    for (const [check, count] of Object.entries(rejected)) {
      const ofSprings = cells.map((cell) => new Map(Object.entries(cell.rejected)).get(check) ?? 0);
      yield { where: `${at}.rejected.${check}`, said: count, is: sum(ofSprings) };
    }
  }
  const { considered, workable, rejected_by_balance: unbalanced } = pairs;
  yield { where: `${where}.pairs.considered`, said: considered, is: axles.front.passed * axles.rear.passed };
  yield { where: `${where}.pairs.workable`, said: workable, is: considered - unbalanced };
}

function* claimsOfShortlist(result: Result, { name, shortlist, advice }: SetupResult, where: string): Generator<Claim> {
  for (const [k, combination] of shortlist.entries()) {
    const at = `${where}.shortlist[${k}]`;
    const { rank, id, axles } = combination;
    yield { where: `${at}.rank`, said: rank, is: k + 1 };
    yield* claimsOfPair(result, { setup: name, id, front: axles.front.id, rear: axles.rear.id }, at);
  }
  for (const [k, purchase] of (advice?.purchases ?? []).entries()) {
    const is = (shortlist[k] as Combination | undefined)?.id ?? 'none';
    yield { where: `${where}.advice.purchases[${k}].id`, said: purchase.id, is };
  }
}

/** An id is one of this scenario, and made of those of its corners. */
function* claimsOfPair(
  { scenario }: Result,
  part: Pick<PlanPart, 'setup' | 'id' | AxleName>,
  where: string,
): Generator<Claim> {
  const parsed = parsePairId(part.id, scenario.fingerprint);
  if (!parsed.ok) yield { where: `${where}.id`, said: `${part.id} (${parsed.reason})`, is: part.id };
  else {
    yield { where: `${where}.id`, said: parsed.id.setup, is: part.setup };
    for (const axle of AXLE_NAMES) {
      yield { where: `${where}.${axle}`, said: part[axle], is: cornerId(axle, parsed.id[axle]) };
    }
  }
}

function sum(counts: readonly number[]): number {
  return counts.reduce((all, count) => all + count, 0);
}
