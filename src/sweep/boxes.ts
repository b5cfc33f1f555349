/** Axle plans in boxes of similar frequencies, halved as far as a search wants them. */
import type { Candidate } from '../model/corner/score.ts';
import { type AxlePlan, compareAxlePlans, compareIndices, purchaseOf } from './axlePlan.ts';

/** What the corners of a box have in one setup. */
export interface Span {
  readonly lowest: number;
  readonly highest: number;
  readonly cheapest: number;
  readonly dearest: number;
}

/** What stands in a box: an axle plan, or what bounds many; those say what their corners span. */
export interface Member extends AxlePlan {
  readonly spans?: readonly Span[];
}

export interface Box<M extends Member = AxlePlan> {
  readonly members: M[];
  /** The highest worth of a member, and the member of the lowest indices. */
  readonly worth: number;
  readonly first: AxlePlan;
  /** One a setup. */
  readonly spans: readonly Span[];
  /** Whether all members are one purchase. */
  readonly isOnePurchase: boolean;
  halves: readonly Box<M>[] | null;
}

/** Up to so many pairs of purchases each purchase has a box of its own: they may be too few to fill a list. */
const FEW_PURCHASES = 256;

/** The boxes that a search begins with, of either axle. */
export function rootsOf(
  fronts: readonly AxlePlan[],
  rears: readonly AxlePlan[],
  stacks: Readonly<Record<'front' | 'rear', number>>,
): [Box[], Box[]] {
  const sides = [purchases(fronts, stacks.front), purchases(rears, stacks.rear)] as const;
  const [ofFront, ofRear] = sides;
  if (ofFront.length * ofRear.length <= FEW_PURCHASES) {
    return [ofFront.map((one) => boxOf(one, true)), ofRear.map((one) => boxOf(one, true))];
  }
  return [[boxOf([...fronts], ofFront.length === 1)], [boxOf([...rears], ofRear.length === 1)]];
}

function purchases(plans: readonly AxlePlan[], stacks: number): AxlePlan[][] {
  const groups = new Map<string, AxlePlan[]>();
  for (const plan of plans) {
    const key = purchaseOf(plan, stacks);
    const known = groups.get(key);
    if (known) known.push(plan);
    else groups.set(key, [plan]);
  }
  return [...groups.values()];
}

export function boxOf<M extends Member>(members: M[], isOnePurchase: boolean): Box<M> {
  const [one] = members as [M];
  let first: Member = one;
  let worth = Number.NEGATIVE_INFINITY;
  for (const member of members) {
    if (compareIndices(member, first) < 0) first = member;
    if (member.worth > worth) worth = member.worth;
  }
  const spans = one.corners.map((_, s) => spanOf(members, s));
  const isSingle = members.length === 1 && one.spans === undefined;
  return { members, worth, first, spans, isOnePurchase: isOnePurchase || isSingle, halves: null };
}

function spanOf(members: readonly Member[], s: number): Span {
  let [lowest, cheapest] = [Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY];
  let [highest, dearest] = [0, Number.NEGATIVE_INFINITY];
  for (const { corners, spans } of members) {
    const span = spans?.[s] ?? pointOf(corners[s] as Candidate);
    lowest = Math.min(lowest, span.lowest);
    highest = Math.max(highest, span.highest);
    cheapest = Math.min(cheapest, span.cheapest);
    dearest = Math.max(dearest, span.dearest);
  }
  return { lowest, highest, cheapest, dearest };
}

/** What one corner spans. */
export function pointOf({ frequency, price }: Candidate): Span {
  const cost = price ?? Number.NEGATIVE_INFINITY;
  return { lowest: frequency, highest: frequency, cheapest: cost, dearest: cost };
}

/** What some corners of one setup span. */
export function spanOver(corners: readonly Candidate[]): Span {
  return spanOf(
    corners.map((corner) => ({ corners: [corner], worth: 0 })),
    0,
  );
}

/** Whether the corners of a span are paired alike. */
export function isPoint({ lowest, highest, cheapest, dearest }: Span): boolean {
  return lowest === highest && cheapest === dearest;
}

/** A box of several members in two: by the frequency that differs most, else by worth. */
export function halvesOf<M extends Member>(box: Box<M>): readonly Box<M>[] {
  box.halves ??= halve(box);
  return box.halves;
}

function halve<M extends Member>({ members, spans, isOnePurchase }: Box<M>): Box<M>[] {
  const widths = spans.map(({ lowest, highest }) => highest / lowest);
  const widest = widths.indexOf(Math.max(...widths));
  const at = ({ corners }: Member) => (corners[widest] as Candidate).frequency;
  members.sort((widths[widest] as number) > 1 ? (a, b) => at(a) - at(b) : compareAxlePlans);
  const middle = members.length >> 1;
  return [members.slice(0, middle), members.slice(middle)].map((half) => boxOf(half, isOnePurchase));
}
