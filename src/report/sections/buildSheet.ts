/** The build sheet: what to cut, where to set what, and what a ruler should find, for the bench. */
import { AXLE_NAMES, type AxleName, type Family, SIDE_NAMES } from '../../model/scenario.ts';
import type { CornerKey } from '../../result/quantities/corner.ts';
import type { BandReport, Combination, CornerReport, PartChoice, Result } from '../../result/result.ts';
import { STANDS_AT } from '../../result/tolerance/bands.ts';
import { section } from '../frame/section.ts';
import { type Build, type BuildSetup, buildsOf, type Choice, choicesOf } from '../text/answers.ts';
import { sheetCautions } from '../text/cautions.ts';
import { FAMILY_LABELS } from '../text/labels.ts';
import { fixed, PAGE, withUnits } from '../text/numbers.ts';
import { choiceOf, type Measure, measure, nameOf, quantityOf, wordOf } from '../text/parts.ts';

export const buildSheet = section({
  id: 'build-sheet',
  link: 'Build sheet',
  title: 'Build sheet',
  view: ({ result }) => {
    const builds = buildSheetViews(result);
    return builds.length > 0 ? { builds } : null;
  },
  prints: true,
  leaves: null,
});

export function buildSheetViews(result: Result) {
  return buildsOf(result).map((build) => ({
    id: build.id,
    isPlan: build.isPlan,
    setups: build.setups.map(({ setup }) => setup.name),
    /** Ids of the combinations, one a setup. */
    ids: build.setups.map(({ combination }) => combination.id),
    parts: partRows(build),
    columns: heightColumns(build),
    rows: heightRows(build),
    work: workOf(build),
    /** What to beware of at the bench. */
    cautions: sheetCautions(),
  }));
}

/** What of the work there is: the steps that a build does not need are left out. */
export function workOf({ setups }: Build) {
  const corners = setups.flatMap(({ combination }) => AXLE_NAMES.map((axle) => combination.axles[axle]));
  const some = (test: (corner: (typeof corners)[number]) => boolean) => corners.some(test);
  return {
    cutsSleeve: some(({ parts }) => choiceOf(parts.sleeve, 'trim_mm') > 0),
    cutsStop: some(
      ({ parts: { bumpStop } }) => choiceOf(bumpStop, 'cut_length_mm') < choiceOf(bumpStop, 'uncut_length_mm'),
    ),
    lowersGroove: some(({ parts }) => choiceOf(parts.sleeve, 'groove_drop_mm') > 0),
    hasPacker: some(({ parts }) => choiceOf(parts.bumpStop, 'packer_mm') > 0),
    hasSpacer: some(({ parts }) => choiceOf(parts.mount, 'spacer_mm') > 0),
    hasHelper: some(({ parts }) => nameOf(parts.helper) !== null),
    hasIsolator: some(({ parts }) => nameOf(parts.isolator) !== null),
    isPreloaded: some(({ values }) => (quantityOf(values, 'bench_slack_mm') ?? 0) < 0),
    isLoose: some(({ values }) => (quantityOf(values, 'bench_slack_mm') ?? 0) > 0),
    stopMeetsSleeve: some((corner) => wordOf(corner, 'stop_meets') !== 'body'),
    /** The thread on every rod was given, so that its nuts were checked. */
    knowsRodEnds: corners.every(({ parts }) => nameOf(parts.rodEnd) !== null),
    isEstimated: some((corner) => wordOf(corner, 'solid_height_source') === 'estimated'),
    /** At which force the stops count as closed, front and rear, where either is stated; else null. */
    closedAt: closedAt(setups[0]?.combination),
    hasManySetups: setups.length > 1,
  };
}

/** Closed is geometry: a harder hit squeezes foam further. The stop is the same in every setup, or its foam is. */
function closedAt(combination: Combination | undefined): string | null {
  const forces = AXLE_NAMES.map((axle) => combination?.axles[axle].values.closed_at_force_n ?? null);
  if (forces.every((force) => force === null)) return null;
  return AXLE_NAMES.map((axle, k) => `${axle} ${withUnits(forces[k], 'force', PAGE)}`).join(', ');
}

/** `trim 20.0 mm (0.79 in)` */
export interface Figure {
  readonly label: string;
  readonly measure: Measure;
  /** What someone saws, cuts or adds. */
  readonly isCut: boolean;
}

interface PartShape {
  readonly family: Family;
  readonly isMeasured?: boolean;
  readonly figures: (choice: Choice, axle: AxleName) => readonly Figure[];
}

const PART_ROWS: readonly PartShape[] = [
  { family: 'spring', figures: springFigures },
  { family: 'helper', figures: ({ part }) => some(part, 'free_length_mm', 'free length') },
  { family: 'damper', figures: () => [] },
  { family: 'mount', figures: ({ part }) => some(part, 'spacer_mm', 'spacer', true) },
  { family: 'isolator', figures: ({ part }) => some(part, 'thickness_mm', 'thick') },
  { family: 'bumpStop', isMeasured: true, figures: stopFigures },
  { family: 'sleeve', isMeasured: true, figures: sleeveFigures },
  { family: 'perch', figures: () => [] },
  { family: 'rodEnd', figures: rodEndFigures },
];

/** Families that nobody has on either axle are left out. */
export function partRows(build: Build) {
  return PART_ROWS.flatMap(({ family, isMeasured = false, figures }) => {
    const cells = AXLE_NAMES.map((axle) => ({
      entries: choicesOf(build, axle, family).map((choice) => entryOf(choice, figures(choice, axle), axle, family)),
    }));
    const exists = cells.some(({ entries }) => entries.some(({ name }) => name !== null));
    return exists ? [{ label: FAMILY_LABELS[family], isMeasured, cells }] : [];
  });
}

function entryOf(choice: Choice, figures: readonly Figure[], axle: AxleName, family: Family) {
  const corner = choice.built.combination.axles[axle];
  return {
    /** The setups it is for; null: for all of them. */
    who: choice.who,
    /** Null where the choice is to have none. */
    name: nameOf(choice.part),
    figures,
    isEstimated: family === 'spring' && wordOf(corner, 'solid_height_source') === 'estimated',
  };
}

function springFigures({ part, built }: Choice, axle: AxleName): Figure[] {
  const solid = quantityOf(built.combination.axles[axle].values, 'solid_height_mm');
  return [
    figure('free length', measure(choiceOf(part, 'free_length_mm'), 'length')),
    figure('rate', measure(choiceOf(part, 'rate_n_per_mm'), 'rate')),
    figure('solid', measure(solid, 'length')),
  ];
}

function stopFigures({ part }: Choice): Figure[] {
  const length = choiceOf(part, 'cut_length_mm');
  const isCut = length < choiceOf(part, 'uncut_length_mm');
  return [
    figure(isCut ? 'cut to' : 'uncut, as bought', measure(length, 'length'), isCut),
    ...some(part, 'packer_mm', 'packer above it', true),
  ];
}

function sleeveFigures({ part, built }: Choice, axle: AxleName): Figure[] {
  const left = measure(quantityOf(built.combination.axles[axle].values, 'sleeve_left_mm'), 'length');
  const drop = some(part, 'groove_drop_mm', 'new groove lower by', true);
  const cut = some(part, 'trim_mm', 'trim', true);
  return [...cut, figure(cut.length > 0 ? 'left' : 'untrimmed', left), ...drop];
}

/** What the fit of the rod end found: full thread beyond nut and jam nut. */
function rodEndFigures({ built }: Choice, axle: AxleName): Figure[] {
  const spare = quantityOf(built.combination.axles[axle].values, 'fit_thread_end_mm');
  return spare === null ? [] : [figure('full thread beyond the jam nut', measure(spare, 'length'))];
}

function some(part: PartChoice, key: string, label: string, isCut = false): Figure[] {
  const value = choiceOf(part, key);
  return value > 0 ? [figure(label, measure(value, 'length'), isCut)] : [];
}

function figure(label: string, value: Measure, isCut = false): Figure {
  return { label, measure: value, isCut };
}

/** `to 185.4`: words, then a figure; either may be missing. */
export interface Piece {
  readonly text: string | null;
  readonly measure: Measure | null;
}

type Values = CornerReport['values'];
type Read = (values: Values) => readonly Piece[];

interface HeightShape {
  readonly id: string;
  readonly label: string;
  readonly isKey?: boolean;
  readonly isMeasured?: boolean;
  readonly read: Read;
  /** Key of the band of what is measured on the bench. */
  readonly band?: string;
  readonly note?: (corner: CornerReport) => string;
}

// biome-ignore format: one row a line of the sheet
const HEIGHT_ROWS: readonly HeightShape[] = [
  { id: 'height', label: 'ride height, hub to arch', isMeasured: true, read: lengths(['ride_height_mm']), band: STANDS_AT },
  { id: 'perch', label: 'perch seat above lower eye', isKey: true, isMeasured: true, read: lengths(['perch_mm']) },
  { id: 'thread', label: 'sleeve above perch seat / below lock ring', read: lengths(['perch_below_top_mm', 'thread_below_mm'], ['/']) },
  { id: 'turns', label: 'collar turns from lowest; height a turn of both perches of the axle together', read: turns },
  { id: 'range', label: 'workable perch, lowest to highest', read: lengths(['lowest_perch_mm', 'highest_perch_mm'], ['to']) },
  { id: 'spring', label: 'spring, seat to seat, at ride height', read: lengths(['spring_length_mm']) },
  { id: 'seats', label: 'seat to seat, damper out, spring off', isMeasured: true, read: lengths(['seats_out_mm']) },
  { id: 'slack', label: 'spring there, damper out', read: slack },
  { id: 'out', label: 'gap to the stop, damper fully out', isMeasured: true, read: lengths(['gap_out_mm']), band: 'gap_out_mm' },
  { id: 'snug', label: 'gap to the stop, spring just snug', isKey: true, isMeasured: true, read: lengths(['gap_snug_mm']), band: 'gap_snug_mm' },
  { id: 'snug-range', label: 'the same, perch lowest to highest', read: lengths(['gap_lowest_mm', 'gap_highest_mm'], ['to']) },
  { id: 'spare', label: 'to solid − to stop fully closed = coils keep, give still in it', read: lengths(['spring_travel_snug_mm', 'stop_travel_snug_mm', 'snug_spare_mm', 'least_gap_sum_mm'], ['−', '=', '; least']) },
  { id: 'bump', label: 'hub to arch, stop closed, spring out', isMeasured: true, read: lengths(['height_closed_mm']) },
  { id: 'metal', label: 'least clearance there, spring apart, give off', read: lengths(['closed_metal_clearance_mm']), note: (corner) => wordOf(corner, 'thinnest_metal') },
];

export function heightColumns({ setups }: Build) {
  return setups.flatMap(({ setup }) => AXLE_NAMES.map((axle) => ({ setup: setup.name, axle })));
}

export function heightRows({ setups }: Build) {
  return HEIGHT_ROWS.map((row) => ({
    /** Names the row's words in the template. */
    id: row.id,
    label: row.label,
    isKey: row.isKey ?? false,
    isMeasured: row.isMeasured ?? false,
    cells: setups.flatMap((built) => AXLE_NAMES.map((axle) => cellOf(row, built, axle))),
  }));
}

function cellOf(row: HeightShape, { combination, sheet }: BuildSetup, axle: AxleName) {
  const corner = combination.axles[axle];
  const band = row.band === undefined ? undefined : sheet.bands[axle][row.band];
  return {
    /** One, or left and right where each has its own load. */
    readings: readingsOf(row.read, corner),
    band: band ? halfWidths(band) : null,
    /** What the figure belongs to, e.g. which parts come nearest. */
    note: row.note?.(corner) ?? null,
  };
}

/** Left and right where they differ as shown; what only the parts decide is the same on both. */
function readingsOf(read: Read, { values, sides }: CornerReport) {
  const both = { side: null, pieces: read(values) };
  if (sides === undefined) return [both];
  const own = SIDE_NAMES.map((side) => ({ side, pieces: read({ ...values, ...sides[side].values }) }));
  const [left, right] = own.map(({ pieces }) => JSON.stringify(pieces));
  return left === right ? [both] : own;
}

/** Half-widths, the wider side of each: what `± 1.7 mm` says. */
export function halfWidths({ rss_low, rss_high, worst_low, worst_high }: BandReport) {
  return {
    likely: measure((rss_high - rss_low) / 2, 'length'),
    worst: measure((worst_high - worst_low) / 2, 'length'),
  };
}

/** Lengths one after the other, with words before the second, third... */
function lengths(keys: readonly CornerKey[], words: readonly string[] = []): Read {
  return (values) =>
    keys.map((key, k) => ({ text: words[k - 1] ?? null, measure: measure(quantityOf(values, key), 'length') }));
}

function turns(values: Values): Piece[] {
  const count = quantityOf(values, 'collar_turns');
  if (count === null) return [{ text: 'pitch not given', measure: null }];
  const height = measure(quantityOf(values, 'height_per_turn_mm'), 'length');
  return [
    { text: `${fixed(count, 1, PAGE)};`, measure: height },
    { text: 'a turn', measure: null },
  ];
}

/** `squeezed by`, `loose by` */
function slack(values: Values): Piece[] {
  const loose = quantityOf(values, 'bench_slack_mm');
  const by = measure(loose === null ? null : Math.abs(loose), 'length');
  return [{ text: (loose ?? 0) < 0 ? 'squeezed by' : 'loose by', measure: by }];
}
