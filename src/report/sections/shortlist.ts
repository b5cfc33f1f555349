/** The best combinations of a setup, and what each criterion makes of them. */
import type { CriterionScore } from '../../model/corner/score.ts';
import { AXLE_NAMES } from '../../model/scenario.ts';
import type { Combination, CornerReport, SetupResult } from '../../result/result.ts';
import { section } from '../frame/section.ts';
import { answerOf } from '../text/answers.ts';
import { anchorOf } from '../text/escape.ts';
import { criterionLabel, rankText } from '../text/labels.ts';
import { count, fixed, PAGE } from '../text/numbers.ts';
import { choiceOf, nameOf } from '../text/parts.ts';
import { cornerView } from './corner.ts';

export const shortlist = section({
  id: 'shortlist',
  link: 'Shortlist',
  title: 'Shortlist',
  view: ({ result, found, isBuild, isPlanned }) => {
    if (isBuild || found.length === 0) return null;
    // Paper shows one build: of a setup that a plan serves, only the plan’s.
    const isPrinted = (setup: SetupResult) => !answerOf(result, setup)?.plan;
    const setups = found.map((setup) => shortlistView(setup, isPrinted(setup), found.length === 1));
    const filtersTight = setups.some(({ anyTight, allTight }) => anyTight && !allTight);
    return { isPlanned, filtersTight, setups };
  },
  prints: ({ setups }) => setups.some(({ isPrinted }) => isPrinted),
  leaves: 'the rest of the shortlist and how the scores come about',
});

/** Combinations of a setup that are printed: of a page with one setup, and with several. */
export const ON_PAPER = { alone: 5, several: 2 } as const;

export function shortlistView(setup: SetupResult, isPrinted = true, isAlone = true) {
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
    /** Full bump is judged under a load, so that the tightest clearance has a second figure. */
    isUnderLoad: rows.some(({ front }) => front.thinnest.closed !== null),
    ...scoresView(shortlist),
    anyTight: shortlist.some(isTight),
    allTight: shortlist.every(isTight),
    /** How many are printed; the style sheet for print knows these numbers. */
    onPaper: String(ON_PAPER[isAlone ? 'alone' : 'several']),
    /** On paper too: nothing else is bought for this setup. */
    isPrinted,
    hasHelper: some(({ parts }) => nameOf(parts.helper) !== null),
    hasCut: some(({ parts }) => choiceOf(parts.sleeve, 'trim_mm') > 0),
    hasSpacer: some(({ parts }) => choiceOf(parts.mount, 'spacer_mm') > 0),
  };
}

function isTight({ axles }: Combination): boolean {
  return AXLE_NAMES.some((axle) => axles[axle].tight.length > 0);
}

function rowOf(setup: SetupResult, combination: Combination) {
  return {
    rank: String(combination.rank),
    id: combination.id,
    anchor: anchorOf(combination.id),
    score: fixed(combination.score, 3, PAGE),
    ratio: fixed(combination.values.frequency_ratio, 2, PAGE),
    /** With every tolerance going the wrong way, a clearance comes to nothing. */
    isTight: isTight(combination),
    front: cornerView(setup, 'front', combination.axles.front),
    rear: cornerView(setup, 'rear', combination.axles.rear),
  };
}

/** Without the criteria by which all are judged the same, as shown: a sentence names them. */
function scoresView(shortlist: readonly Combination[]) {
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

/** One row for all combinations that every criterion judges the same. */
export function scoreRows(shortlist: readonly Combination[]) {
  const groups = new Map<string, { first: Combination; ranks: number[] }>();
  for (const combination of shortlist) {
    const key = JSON.stringify(judgements(combination));
    const group = groups.get(key) ?? { first: combination, ranks: [] };
    group.ranks.push(combination.rank);
    groups.set(key, group);
  }
  return [...groups.values()].map(({ first, ranks }) => ({
    ranks: rankText(ranks),
    /** The first of them. */
    id: first.id,
    anchor: anchorOf(first.id),
    ...judgements(first),
  }));
}

/** As shown: what reads the same is the same. */
function judgements({ score, criteria }: Combination) {
  return { score: fixed(score, 3, PAGE), bars: criteria.map(barOf) };
}

/** `width`: 0 to 100. */
function barOf({ desirability }: CriterionScore) {
  return { width: (100 * Math.min(1, Math.max(0, desirability))).toFixed(1), value: fixed(desirability, 2, PAGE) };
}
