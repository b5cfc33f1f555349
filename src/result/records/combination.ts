/** From judged corners to the records of the result object. */

import { limitLabel } from '../../model/corner/checks.ts';
import { coilBindMargin, MARGIN_BASES } from '../../model/corner/coilGaps.ts';
import { CONTACT, wheelStopLabel } from '../../model/corner/contacts.ts';
import { type Finding, findingsOf, pairFindingsOf } from '../../model/corner/findings.ts';
import * as flags from '../../model/corner/flagMessages.ts';
import { forceCurveOf } from '../../model/corner/forceCurve.ts';
import { heldAtRest } from '../../model/corner/loadCases.ts';
import { STOP_FORCE_UNKNOWN } from '../../model/corner/messages.ts';
import { isWithinLimits } from '../../model/corner/pairBalance.ts';
import { judgedFrequency } from '../../model/corner/rates.ts';
import { candidateOf, cornerCriteria, pairCriteria, scoreOf, unpricedParts } from '../../model/corner/score.ts';
import type { Corner, Site } from '../../model/corner/site.ts';
import {
  type CornerState,
  cornerState,
  isStopForceKnown,
  thinnestContact,
  thinnestMetal,
} from '../../model/corner/state.ts';
import { heightWindow, type Working } from '../../model/corner/window.ts';
import { cornerId, pairId } from '../../model/ids.ts';
import type { Spring } from '../../model/parts.ts';
import {
  AXLE_NAMES,
  type AxleName,
  type Family,
  type Scenario,
  type Setup,
  type Tolerances,
} from '../../model/scenario.ts';
import { cornerQuantities } from '../quantities/corner.ts';
import { caseWords, type PairValues, pairQuantities } from '../quantities/pair.ts';
import { valuesOf } from '../quantities/quantity.ts';
import type { BandReport, Combination, CornerReport, Flag, PartChoice, TightClearance } from '../result.ts';
import { type Band, STANDS_AT, toleranceBands } from '../tolerance/bands.ts';
import { standingBand } from '../tolerance/bench.ts';
import { TOLERANCE_INPUTS, type ToleranceInput } from '../tolerance/inputs.ts';
import { pairBands, settlingOf } from '../tolerance/settling.ts';
import { cornerFlags } from './flags.ts';
import { type PartOf, sizesOf } from './partSizes.ts';
import { failureOf, sideFlags, sidesOf } from './sides.ts';

/** Everything a combination is read from: both corners judged, with their windows. */
export interface JudgedPair {
  readonly scenario: Scenario;
  readonly setup: Setup;
  readonly indices: Readonly<Record<AxleName, number>>;
  readonly workings: Readonly<Record<AxleName, Working>>;
}

export function workingOf(site: Site, corner: Corner): Working {
  const state = cornerState(site, corner);
  return { state, window: heightWindow(state) };
}

/** Reports of corners: pairs and plans share corners, and bands take the whole model often. */
const reports = new WeakMap<Working, CornerReport>();

/** @param isShown it is shown in full, with its forces over the travel */
export function combinationOf(pair: JudgedPair, rank: number, fingerprint: string, isShown = rank === 1): Combination {
  const { scenario, setup, indices, workings } = pair;
  const report = (axle: AxleName) => cornerReport(pair, axle, isShown);
  const axles = { front: report('front'), rear: report('rear') };
  const criteria = allCriteria(pair);
  const balance = balanceFindings(pair).map(failureOf);
  const working = { scenario, ...workings };
  const values = valuesOf(pairQuantities(setup), working);
  const words = caseWords(setup.loadCases, working);
  const settling = isShown ? settlingOf(working) : null;
  const bands = isShown ? Object.entries(pairBands(working)) : [];
  const works = balance.length + axles.front.failures.length + axles.rear.failures.length === 0;
  return {
    id: pairId({ setup: setup.name, ...indices }, fingerprint),
    rank,
    workable: works,
    score: works ? scoreOf(criteria) : 0,
    criteria,
    values,
    ...(Object.keys(words).length > 0 ? { words } : {}),
    axles,
    ...(bands.length > 0 ? { bands: Object.fromEntries(bands.map(([key, band]) => [key, bandReport(band)])) } : {}),
    ...(settling === null ? {} : { settling }),
    failures: balance,
    flags: [
      ...priceFlags(pair),
      ...balanceFlags(pair),
      ...olleyFlags(values),
      ...stopFlags(pair, values),
      ...corneringFlags(pair, values),
      ...rollHeightFlags(pair),
    ],
  };
}

/** The record to keep of what is not shown in full: bands are long. */
export function withoutBands(combination: Combination): Combination {
  const { front, rear } = combination.axles;
  return { ...combination, axles: { front: { ...front, bands: {} }, rear: { ...rear, bands: {} } } };
}

/** The criteria in a fixed order: front, rear, then what only the pair decides. */
export function allCriteria({ setup, scenario, indices, workings }: JudgedPair) {
  const { ranking } = scenario;
  const front = candidateOf(indices.front, workings.front, ranking);
  const rear = candidateOf(indices.rear, workings.rear, ranking);
  return [
    ...cornerCriteria(workings.front, ranking),
    ...cornerCriteria(workings.rear, ranking),
    ...pairCriteria(front, rear, setup, ranking),
  ];
}

/** The balance check of the pair; nothing to judge where a corner has no frequency. */
export function balanceFindings({ setup, workings }: JudgedPair): Finding[] {
  const [front, rear] = [judgedFrequency(workings.front.state), judgedFrequency(workings.rear.state)];
  return pairFindingsOf(front, rear, setup.balance);
}

/** The quantities of one axle's corner in this setup. */
export function quantitiesOf({ scenario, setup }: Pick<JudgedPair, 'scenario' | 'setup'>, axle: AxleName) {
  const names = setup.loadStates.map((state) => state.name);
  return cornerQuantities(names, scenario.axles[axle].roll?.track ?? null);
}

function cornerReport(pair: JudgedPair, axle: AxleName, isShown: boolean): CornerReport {
  const working = pair.workings[axle];
  const report = reports.get(working) ?? reportOf(pair, axle);
  reports.set(working, report);
  return isShown ? { ...report, force_curve: forceCurveOf(working.state) } : report;
}

function reportOf(pair: JudgedPair, axle: AxleName): CornerReport {
  return { ...plainCornerReport(pair, axle), ...sureness(pair.workings[axle], pair.scenario) };
}

/** One axle's corner of a pair, without how sure its numbers are. */
export function plainCornerReport(pair: JudgedPair, axle: AxleName): CornerReport {
  const working = pair.workings[axle];
  const quantities = quantitiesOf(pair, axle);
  const sides = sidesOf(pair, axle, quantities);
  return {
    id: cornerId(axle, pair.indices[axle]),
    parts: partsOf(working.state.corner),
    values: valuesOf(quantities, working),
    words: wordsOf(working),
    failures: findingsOf(working.state).map(failureOf),
    flags: [...(sides ? sideFlags(axle, sides) : []), ...cornerFlags(working)],
    ...(sides ? { sides } : {}),
    bands: {},
    tight: [],
  };
}

/** How sure the corner's numbers are: bands, the clearances that tolerances could use up, and a spring they let out. */
function sureness({ state }: Working, { tolerances }: Scenario): Pick<CornerReport, 'bands' | 'tight'> {
  const stands = standingBand(state, tolerances, state.standing.perch);
  const bands: Record<string, Band> = {
    ...(stands ? { [STANDS_AT]: stands } : {}),
    ...toleranceBands(state, tolerances),
  };
  const clearances = state.contacts.flatMap(({ name, clearance }) => {
    const band = bands[`clearance_${name}_mm`];
    if (!band || band.worstLow >= 0) return [];
    const { measure } = band.contributor;
    return [{ contact: CONTACT[name].label, clearance_mm: short(clearance), worst_mm: short(band.worstLow), measure }];
  });
  const reports = Object.entries(bands).map(([key, band]) => [key, bandReport(band)]);
  return {
    bands: Object.fromEntries(reports),
    tight: [...clearances, ...leavingSeat(state, bands.slack_mm, tolerances)],
  };
}

const ENGAGEMENT = TOLERANCE_INPUTS.find(({ id }) => id === 'engagement') as ToleranceInput;

/** At worst looser at full droop than its seats hold it. */
function leavingSeat(state: CornerState, band: Band | undefined, tolerances: Tolerances): TightClearance[] {
  const { slack, corner } = state;
  const { engagement } = corner.perch;
  const least = engagement - (ENGAGEMENT.width(state, tolerances)?.down ?? 0);
  if (!band || band.worstHigh <= least) return [];
  const seat = { slack_mm: short(slack), worst_slack_mm: short(band.worstHigh), held_mm: short(engagement) };
  const left = { clearance_mm: short(engagement - slack), worst_mm: short(least - band.worstHigh) };
  return [{ contact: 'spring leaving its seat', ...left, measure: band.contributor.measure, seat }];
}

export function bandReport({ worstLow, worstHigh, rssLow, rssHigh, contributor }: Band): BandReport {
  return {
    worst_low: short(worstLow),
    worst_high: short(worstHigh),
    rss_low: short(rssLow),
    rss_high: short(rssHigh),
    contributor: contributor.label,
    contributes: short(contributor.by),
    measure: contributor.measure,
  };
}

/** Bands are no surer than their tolerances: six digits. */
function short(value: number): number {
  return Number(value.toPrecision(6));
}

function wordsOf({ state, window }: Working): Record<string, string> {
  const margin = coilBindMargin(state.site.margins.coilBind, state.corner.spring);
  return {
    stop_meets: state.geometry.stopMeets,
    full_bump_force: isStopForceKnown(state) ? 'known' : STOP_FORCE_UNKNOWN,
    solid_height_source: state.corner.spring.solid.source,
    wire_source: wireSource(state.corner.spring),
    coil_bind_margin: MARGIN_BASES[margin.basis],
    mount_seat: state.corner.mount.seat,
    mount_bolted: state.corner.mount.bolted,
    lowest_height_limit: window ? limitLabel(window.low.limit) : 'no stable window',
    highest_height_limit: window ? limitLabel(window.high.limit) : 'no stable window',
    window: window?.usable ? 'usable' : 'empty',
    thinnest_contact: CONTACT[thinnestContact(state).name].label,
    thinnest_metal: CONTACT[thinnestMetal(state).name].label,
  };
}

function wireSource({ wire }: Spring): string {
  if (wire === null) return 'unknown';
  return wire.estimated ? 'estimated' : 'given';
}

/** Every family's choice, with the dimensions that a person picks among. */
export function partsOf(corner: Corner): Record<Family, PartChoice> {
  const { damper, mount, isolator, bumpStop, rodEnd, sleeve, perch, helper, spring } = corner;
  return {
    damper: chosen('damper', damper, {}),
    mount: chosen('mount', mount, { raise_mm: mount.raise, spacer_mm: mount.spacer }),
    isolator: isolator ? chosen('isolator', isolator, { thickness_mm: isolator.thickness }) : NO_PART,
    bumpStop: chosen('bumpStop', bumpStop, {
      cut_length_mm: bumpStop.length,
      uncut_length_mm: bumpStop.uncutLength,
      packer_mm: bumpStop.packer,
    }),
    rodEnd: rodEnd ? chosen('rodEnd', rodEnd, {}) : NO_PART,
    sleeve: chosen('sleeve', sleeve, {
      trim_mm: sleeve.trim,
      groove_drop_mm: sleeve.grooveDrop,
      length_mm: sleeve.length,
    }),
    perch: chosen('perch', perch, { height_mm: perch.height }),
    helper: helper
      ? chosen('helper', helper, { free_length_mm: helper.freeLength, rate_n_per_mm: helper.rate })
      : NO_PART,
    spring: chosen('spring', spring, {
      free_length_mm: spring.freeLength,
      rate_n_per_mm: spring.rate,
      bore_mm: spring.bore,
    }),
  };
}

const NO_PART: PartChoice = { name: 'none', price: null, choice: {}, sizes: {} };

function chosen<F extends Family>(family: F, part: PartOf<F>, choice: Record<string, number>): PartChoice {
  return { name: part.name, price: part.price, choice, sizes: sizesOf(family, part) };
}

function priceFlags({ workings }: JudgedPair): Flag[] {
  const names = [
    ...new Set([...unpricedParts(workings.front.state.corner), ...unpricedParts(workings.rear.state.corner)]),
  ];
  const someone = Object.values(workings).some((w) => w.state.corner.spring.price !== null);
  return names.length > 0 && someone ? [{ kind: 'note', message: flags.unpriced(names) }] : [];
}

/** A ratio outside the wanted window that its limits let pass. */
function balanceFlags({ setup: { balance }, workings }: JudgedPair): Flag[] {
  const ratio = judgedFrequency(workings.rear.state) / judgedFrequency(workings.front.state);
  const isNoted = isWithinLimits(ratio, balance) && (ratio < balance.from || ratio > balance.to);
  return isNoted ? [{ kind: 'note', message: flags.balanceOutsideWindow(ratio, balance.from, balance.to) }] : [];
}

/** How the pair stands to Olley's criterion; nothing to say where a mode does not exist. */
function olleyFlags(values: PairValues): Flag[] {
  const { ride_rate_below_pct: below, bounce_over_pitch: ratio, faster_mode_hz: faster } = values;
  if (below == null || ratio == null || faster == null) return [];
  return [{ kind: 'note', message: flags.olley(below, ratio, faster) }];
}

/** Load cases that squeeze a stop whose force is not known: they end at the closed stop, wherever it would hold. */
function stopFlags({ workings }: JudgedPair, values: PairValues): Flag[] {
  return AXLE_NAMES.filter((axle) => {
    const squeezed = new RegExp(`^case_\\d+_${axle}.*_into_stop_mm$`);
    const reached = Object.entries(values).some(([key, value]) => squeezed.test(key) && (value ?? 0) > 0);
    return reached && workings[axle].state.corner.bumpStop.curve === null;
  }).map((axle) => ({ kind: 'note', message: flags.stopForceUnknown(axle) }));
}

/** Bends without an answer, and why. */
function corneringFlags({ setup, workings }: JudgedPair, values: PairValues): Flag[] {
  const names = setup.loadCases.flatMap((loadCase, k) => {
    return loadCase.kind === 'cornering' && values[`case_${k + 1}_roll_deg`] === null ? [loadCase.name] : [];
  });
  if (names.length === 0) return [];
  const held = AXLE_NAMES.flatMap((axle) => {
    const stop = heldAtRest(workings[axle].state);
    return stop === null ? [] : [flags.heldAtRest(axle, wheelStopLabel(stop), names)];
  });
  return (held.length > 0 ? held : [flags.rollsOver(names)]).map((message) => ({ kind: 'warning', message }));
}

/** Heights of roll centre and centre of gravity belong to one ride height; farther from it than this they are flagged, mm. */
const ROLL_HEIGHT_APART = 10;

/** For setups with a bend whose target is not the height at which roll centre and centre of gravity were taken. */
function rollHeightFlags({ scenario, setup }: JudgedPair): Flag[] {
  if (!setup.loadCases.some(({ kind }) => kind === 'cornering')) return [];
  return AXLE_NAMES.flatMap((axle) => {
    const { targetHeight } = setup.axles[axle];
    const taken = scenario.axles[axle].roll?.atHeight ?? targetHeight;
    const isApart = Math.abs(taken - targetHeight) >= ROLL_HEIGHT_APART;
    return isApart ? [{ kind: 'warning', message: flags.rollHeights(axle, taken, targetHeight) }] : [];
  });
}
