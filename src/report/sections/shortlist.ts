/** Section 2: the best combinations of a setup, and what each criterion makes of them. */
import type { Combination, CornerReport, CriterionScore, SetupResult } from '../../domain/result.ts';
import { AXLE_NAMES } from '../../domain/scenario.ts';
import { anchorOf } from '../escape.ts';
import { criterionLabel, rankText } from '../labels.ts';
import { count, fixed, PAGE } from '../numbers.ts';
import { choiceOf, nameOf } from '../read.ts';
import { type CornerView, cornerView } from './corner.ts';

/** Combinations of a setup that are printed: of a page with one setup, and with several. */
export const ON_PAPER = { alone: 5, several: 2 } as const;

export interface ShortlistView {
  readonly setup: string;
  readonly basis: string;
  readonly shown: string;
  readonly workable: string;
  readonly rows: readonly ShortlistRow[];
  readonly scores: readonly ScoreRow[];
  /** Those by which they differ. */
  readonly criteria: readonly { readonly label: string; readonly weight: string }[];
  /** Those by which all are judged the same. */
  readonly alike: string;
  readonly hasHelper: boolean;
  readonly anyTight: boolean;
  readonly allTight: boolean;
  /** On paper too: nothing else is bought for this setup. */
  readonly isPrinted: boolean;
  readonly hasCut: boolean;
  readonly hasSpacer: boolean;
  /** Full bump is judged under a load, so that the tightest clearance has a second figure. */
  readonly isUnderLoad: boolean;
  /** How many are printed; the style sheet for print knows these numbers. */
  readonly onPaper: string;
}

export interface ShortlistRow {
  readonly rank: string;
  readonly id: string;
  readonly anchor: string;
  readonly score: string;
  readonly ratio: string;
  /** With every tolerance going the wrong way, a clearance comes to nothing. */
  readonly isTight: boolean;
  readonly front: CornerView;
  readonly rear: CornerView;
}

/** One row for all combinations that every criterion judges the same. */
export interface ScoreRow {
  readonly ranks: string;
  /** The first of them. */
  readonly id: string;
  readonly anchor: string;
  readonly score: string;
  readonly bars: readonly BarView[];
}

export interface BarView {
  /** 0 to 100, for the width of the bar. */
  readonly width: string;
  readonly value: string;
}

export function shortlistView(setup: SetupResult, isPrinted = true, isAlone = true): ShortlistView {
  const { shortlist, pairs } = setup;
  const some = (test: (corner: CornerReport) => boolean) =>
    shortlist.some((one) => AXLE_NAMES.some((a) => test(one.axles[a])));
  const rows = shortlist.map((combination) => rowOf(setup, combination));
  return {
    setup: setup.name,
    basis: setup.frequency_basis,
    shown: count(shortlist.length, PAGE),
    workable: count(pairs.workable, PAGE),
    rows,
    isUnderLoad: rows.some(({ front }) => front.thinnest.closed !== null),
    ...scoresView(shortlist),
    anyTight: shortlist.some(isTight),
    allTight: shortlist.every(isTight),
    onPaper: String(ON_PAPER[isAlone ? 'alone' : 'several']),
    isPrinted,
    hasHelper: some(({ parts }) => nameOf(parts.helper) !== null),
    hasCut: some(({ parts }) => choiceOf(parts.sleeve, 'trim_mm') > 0),
    hasSpacer: some(({ parts }) => choiceOf(parts.mount, 'spacer_mm') > 0),
  };
}

function isTight({ axles }: Combination): boolean {
  return AXLE_NAMES.some((axle) => axles[axle].tight.length > 0);
}

function rowOf(setup: SetupResult, combination: Combination): ShortlistRow {
  return {
    rank: String(combination.rank),
    id: combination.id,
    anchor: anchorOf(combination.id),
    score: fixed(combination.score, 3, PAGE),
    ratio: fixed(combination.values.frequency_ratio, 2, PAGE),
    isTight: isTight(combination),
    front: cornerView(setup, 'front', combination.axles.front),
    rear: cornerView(setup, 'rear', combination.axles.rear),
  };
}

/** Without the criteria by which all are judged the same, as shown: a sentence names them. */
function scoresView(shortlist: readonly Combination[]): Pick<ShortlistView, 'scores' | 'criteria' | 'alike'> {
  const scores = scoreRows(shortlist);
  const criteria = (shortlist[0]?.criteria ?? []).map((c) => ({
    label: criterionLabel(c),
    weight: fixed(c.weight, 2, PAGE),
  }));
  const tells = criteria.map(
    (_, k) => scores.length < 2 || scores.some(({ bars }) => bars[k]?.value !== scores[0]?.bars[k]?.value),
  );
  const alike = criteria.flatMap(({ label, weight }, k) =>
    tells[k] ? [] : [`${label} ${scores[0]?.bars[k]?.value} (weight ${weight})`],
  );
  return {
    scores: scores.map((row) => ({ ...row, bars: row.bars.filter((_, k) => tells[k]) })),
    criteria: criteria.filter((_, k) => tells[k]),
    alike: alike.join(', '),
  };
}

export function scoreRows(shortlist: readonly Combination[]): ScoreRow[] {
  const groups = new Map<string, { first: Combination; ranks: number[] }>();
  for (const combination of shortlist) {
    const key = JSON.stringify(judgements(combination));
    const group = groups.get(key) ?? { first: combination, ranks: [] };
    group.ranks.push(combination.rank);
    groups.set(key, group);
  }
  return [...groups.values()].map(({ first, ranks }) => ({
    ranks: rankText(ranks),
    id: first.id,
    anchor: anchorOf(first.id),
    ...judgements(first),
  }));
}

/** As shown: what reads the same is the same. */
function judgements({ score, criteria }: Combination) {
  return { score: fixed(score, 3, PAGE), bars: criteria.map(barOf) };
}

function barOf({ desirability }: CriterionScore): BarView {
  return { width: (100 * Math.min(1, Math.max(0, desirability))).toFixed(1), value: fixed(desirability, 2, PAGE) };
}
