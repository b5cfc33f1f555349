/**
 * Visits every combination of an axle that works in all of the given setups, head by head, on the kernel's columns:
 * one desk a setup, all with the same options. What fails in one setup is not looked at in the next, and nothing is
 * allocated for a single combination.
 */
import { bodySlop } from '../../domain/corner/fit.ts';
import { geometryOf, perchLimits, sleeveStopsBumpStop, sleeveTopOf } from '../../domain/corner/geometry.ts';
import type { Corner } from '../../domain/corner/site.ts';
import type { Steps } from '../../domain/steps.ts';
import type { Desk } from '../desk.ts';
import { enterHead, fillLate, headFitsAll } from '../head.ts';
import { mostTravelFirst } from '../kernel.ts';
import { type AxleLayout, headCorner } from '../layout.ts';
import { fitMask, sleeveClears } from '../sleeveFit.ts';
import { PASS } from '../tally.ts';
import { openHead, openRound, type PlanRound } from './score.ts';

export interface Visitor {
  /** A new head, or new sleeves or perches of it: one round a desk. */
  begin(rounds: readonly PlanRound[]): void;
  visit(rounds: readonly PlanRound[], sleeve: number, perch: number, stack: number): void;
}

export function* visitWorkable(desks: readonly [Desk, ...Desk[]], visitor: Visitor): Steps<void> {
  const { layout } = desks[0];
  const alive: Alive = {
    count: 0,
    stacks: new Int32Array(layout.stacks.count),
    lowest: new Float64Array(layout.stacks.count),
    highest: new Float64Array(layout.stacks.count),
  };
  const heads = mostTravelFirst(layout, 0, layout.heads);
  for (const [done, number] of heads.entries()) {
    yield { what: `parts shared between setups, ${layout.site.axle}`, done, of: heads.length };
    const corner = headCorner(layout, number);
    for (const sleeves of sleeveGroups(layout, corner)) visitSleeves(desks, visitor, alive, number, corner, sleeves);
  }
}

/** Stacks that nothing but sleeve and perch could still reject, with their lowest and highest perch over the setups. */
interface Alive {
  count: number;
  readonly stacks: Int32Array;
  readonly lowest: Float64Array;
  readonly highest: Float64Array;
}

/** Sleeves that let the stop meet the body share columns; each that meets it itself has its own. */
function sleeveGroups({ site, sleeves }: AxleLayout, corner: Corner): number[][] {
  const proud = sleeves.map((sleeve) => sleeveStopsBumpStop(site, { ...corner, sleeve }, sleeveTopOf(sleeve)));
  const numbers = sleeves.map((_, k) => k);
  const plain = numbers.filter((k) => !proud[k]);
  return [...(plain.length > 0 ? [plain] : []), ...numbers.filter((k) => proud[k]).map((k) => [k])];
}

function visitSleeves(
  desks: readonly [Desk, ...Desk[]],
  visitor: Visitor,
  alive: Alive,
  number: number,
  first: Corner,
  sleeves: readonly number[],
): void {
  const { layout } = desks[0];
  const corner = { ...first, sleeve: layout.sleeves[sleeves[0] as number] as Corner['sleeve'] };
  const geometries = desks.map((desk) => geometryOf(desk.layout.site, corner));
  const fits = desks.every((desk, s) => headFitsAll(desk.layout, corner, geometries[s] as (typeof geometries)[0]));
  if (!fits) return;
  const heads = desks.map((desk, s) => {
    const head = enterHead(desk.layout, desk.room, corner, geometries[s] as (typeof geometries)[0]);
    return openHead(desk, number, head, sleeves);
  });
  for (const engagement of new Set(layout.perches.map((p) => p.engagement))) {
    const perches = layout.perches.flatMap((p, k) => (p.engagement === engagement ? [k] : []));
    const rounds = heads.map((head) => openRound(head, perches, engagement));
    for (const { desk, head } of rounds) fillLate(desk.layout, desk.room, head, engagement);
    gatherAlive(desks, alive);
    if (alive.count === 0) continue;
    visitor.begin(rounds);
    for (const sleeve of sleeves) visitSleeve(rounds, visitor, alive, sleeve);
  }
}

function gatherAlive(desks: readonly Desk[], alive: Alive): void {
  const stacks = alive.stacks.length;
  alive.count = 0;
  for (let stack = 0; stack < stacks; stack++) {
    let lowest = Number.POSITIVE_INFINITY;
    let highest = Number.NEGATIVE_INFINITY;
    let lives = true;
    for (const { room } of desks) {
      lives = lives && room.early[stack] === PASS && room.late[stack] === PASS;
      const place = room.perch[stack] as number;
      lowest = Math.min(lowest, place);
      highest = Math.max(highest, place);
    }
    if (!lives) continue;
    alive.stacks[alive.count] = stack;
    alive.lowest[alive.count] = lowest;
    alive.highest[alive.count] = highest;
    alive.count++;
  }
}

function visitSleeve(rounds: readonly PlanRound[], visitor: Visitor, alive: Alive, sleeveNumber: number): void {
  const { desk, head, perches } = rounds[0] as PlanRound;
  const { layout } = desk;
  const sleeve = layout.sleeves[sleeveNumber] as Corner['sleeve'];
  if (!(bodySlop(sleeve, head.corner.damper) >= 0)) return;
  const clears = rounds.map((round) => sleeveTest(round, sleeveNumber));
  if (!clears.every((test) => test.always !== false)) return;
  const open = clears.filter((test) => test.always === null);
  for (const perch of perches) {
    // Fit knows no setup: margins are the scenario's.
    const { fitting, none } = fitMask(desk, sleeveNumber, perch);
    if (none) continue;
    const limits = perchLimits(sleeve, layout.perches[perch] as Corner['perch']);
    for (let k = 0; k < alive.count; k++) {
      if (!((alive.lowest[k] as number) >= limits.perchLowest)) continue;
      if (!((alive.highest[k] as number) <= limits.perchHighest)) continue;
      const stack = alive.stacks[k] as number;
      if (fitting[stack] === 0 || !open.every((test) => test.clears(stack))) continue;
      visitor.visit(rounds, sleeveNumber, perch, stack);
    }
  }
}

interface SleeveTest {
  /** The one answer for all stacks where they share their full bump, else null. */
  readonly always: boolean | null;
  readonly clears: (stack: number) => boolean;
}

/** A sleeve that clears at one full bump clears at every longer one, so few are worked out. */
function sleeveTest({ desk, head }: PlanRound, sleeve: number): SleeveTest {
  const { leastFull } = desk.room;
  let clearsFrom = Number.POSITIVE_INFINITY;
  let meetsUpTo = Number.NEGATIVE_INFINITY;
  const clears = (stack: number) => {
    const full = leastFull[stack] as number;
    if (full >= clearsFrom) return true;
    if (full <= meetsUpTo) return false;
    const clear = sleeveClears(desk, head, sleeve, full);
    if (clear) clearsFrom = full;
    else meetsUpTo = full;
    return clear;
  };
  return { always: head.uniform ? clears(0) : null, clears };
}
