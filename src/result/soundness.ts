/**
 * What a result says in two places is the same in both: sums, counts, ids and places in lists. A digest says that a result
 * is as it was written, not who wrote it.
 */
import { cornerId, parsePairId } from '../model/ids.ts';
import { AXLE_NAMES, type AxleName, FAMILIES } from '../model/scenario.ts';
import type { LiveRecord } from './live.ts';
import type { Combination, PlanPart, Result, SetupResult } from './result.ts';
import type { ShapeFault } from './shape.ts';

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
