/** For a second opinion: the formulas with this car's numbers, what a workshop inspects, what is not checked. */
import { AXLE_NAMES, type AxleName, SIDE_NAMES } from '../../model/scenario.ts';
import { type Dimension, innerUnit } from '../../model/units.ts';
import type { CornerKey } from '../../result/quantities/corner.ts';
import type { WorkingLine } from '../../result/quantities/quantity.ts';
import type { BandReport, CornerReport, Result } from '../../result/result.ts';
import { section } from '../frame/section.ts';
import { type Build, type BuildSetup, buildsOf } from '../text/answers.ts';
import { count, fixed, inInner, PAGE, unitSymbol } from '../text/numbers.ts';
import { choiceOf, measure, nameOf, quantityOf, wordOf } from '../text/parts.ts';
import { heightColumns } from './buildSheet.ts';
import { assumedGroups } from './given.ts';

export const workshop = section({
  id: 'workshop',
  link: 'For the workshop',
  title: 'For the workshop',
  view: ({ result }) => workshopView(result),
  prints: true,
  leaves: null,
});

export function workshopView(result: Result) {
  const builds = buildsOf(result);
  if (builds.length === 0) return null;
  return {
    builds: builds.map(workshopBuild),
    /** How many values were assumed; the list stands with what was given. */
    assumed: count(result.assumptions.length, PAGE),
    assumedGroups: assumedGroups(result.assumptions),
    /** A load on each side was given, front and rear. */
    knowsSides: AXLE_NAMES.every((axle) => result.scenario.axles[axle].wheel_loads_kg !== undefined),
  };
}

function workshopBuild(build: Build) {
  const [first] = build.setups;
  return {
    setups: build.setups.map(({ setup }) => setup.name),
    /** The setup whose numbers stand in the formulas, and the id that brings those of any other. */
    first: first?.setup.name ?? '',
    ids: build.setups.map(({ combination }) => combination.id),
    formulas: formulaRows(build),
    columns: heightColumns(build),
    rows: inspectionRows(build),
    /** Sentences about formulas and measured curves used outside the range where they are known to hold. */
    ranges: rangesOf(build),
    asks: asksOf(build),
  };
}

/** Lines of the first setup; one that only one axle has leaves the other's place empty. */
function formulaRows({ setups: [first] }: Build) {
  if (first === undefined) return [];
  const { axles, pair } = first.sheet.working;
  const symbols = [...new Set(AXLE_NAMES.flatMap((axle) => axles[axle].map(({ symbol }) => symbol)))];
  const place = (symbol: string) => {
    return Math.max(...AXLE_NAMES.map((axle) => axles[axle].findIndex((line) => line.symbol === symbol)));
  };
  const own = symbols
    .sort((a, b) => place(a) - place(b))
    .map((symbol) => {
      return formulaRow(AXLE_NAMES.map((axle) => axles[axle].find((line) => line.symbol === symbol)));
    });
  return [...own, ...pair.map((line) => formulaRow([line]))];
}

function formulaRow(lines: readonly (WorkingLine | undefined)[]) {
  const line = lines.find((one) => one !== undefined);
  return {
    symbol: line?.symbol ?? '',
    label: line?.label ?? '',
    expression: typeset(longest(lines.map((one) => one?.expression ?? null))),
    how: line?.source ?? '',
    cells: lines.map(formulaCell),
    isPair: lines.length === 1,
  };
}

/** A helper makes a formula longer; the longer one holds for both. */
function longest(expressions: readonly (string | null)[]): string | null {
  return expressions.reduce((a, b) => ((b?.length ?? 0) > (a?.length ?? 0) ? b : a), null);
}

function formulaCell(line: WorkingLine | undefined) {
  if (line === undefined) return null;
  if (line.value === null) return { filled: null, value: line.source, unit: '' };
  return {
    /** The formula with numbers put in. */
    filled: typeset(line.filled),
    value: inInner(line.value, line.dimension, PAGE),
    unit: unitSymbol(innerUnit(line.dimension), PAGE),
  };
}

/** `k_d * MR^2` as a person writes it. */
function typeset(formula: string | null): string | null {
  if (formula === null) return null;
  return formula.replaceAll(' * ', ' · ').replaceAll('^2', '²').replaceAll('^3', '³').replaceAll(' - ', ' − ');
}

function rangesOf({ setups }: Build): string[] {
  const flags = setups.flatMap(({ combination: { axles, flags: own } }) => [
    ...AXLE_NAMES.flatMap((axle) => axles[axle].flags),
    ...own,
  ]);
  return [...new Set(flags.filter(({ topic }) => topic === 'range').map(({ message }) => message))];
}

/** What there is to ask: each question stands only where this build gives reason to. */
function asksOf({ setups }: Build) {
  const corners = setups.flatMap(({ combination }) => AXLE_NAMES.map((axle) => ({ axle, ...combination.axles[axle] })));
  const undamped = corners.filter(({ values }) => quantityOf(values, 'damping_ratio') === null);
  return {
    groove: corners.some(({ parts }) => choiceOf(parts.sleeve, 'groove_drop_mm') > 0),
    estimated: corners.some((corner) => wordOf(corner, 'solid_height_source') === 'estimated'),
    tight: corners.some(({ tight }) => tight.length > 0),
    /** Axles without a force-velocity table. */
    unknownDamping: [...new Set(undamped.map(({ axle }) => axle))],
    knownDamping: undamped.length < corners.length,
    rodEnds: corners.some(({ parts }) => nameOf(parts.rodEnd) === null),
  };
}

interface InspectionShape {
  readonly label: string;
  /** One figure, or several with a stroke between. */
  readonly keys: readonly CornerKey[];
  readonly dimension: Dimension;
  readonly unknown?: string;
  readonly note?: (corner: CornerReport, built: BuildSetup, axle: AxleName) => string | null;
}

// biome-ignore format: one row a line of the table
const INSPECTION: readonly InspectionShape[] = [
  { label: 'wheel load, driver aboard', keys: ['wheel_load_kg'], dimension: 'mass' },
  { label: 'stroke used, standing', keys: ['stroke_used_pct'], dimension: 'share' },
  { label: 'damper travel left to stop / to droop', keys: ['damper_bump_travel_mm', 'damper_droop_travel_mm'], dimension: 'length' },
  { label: 'spring force standing / at full bump', keys: ['spring_force_n', 'full_spring_force_n'], dimension: 'force' },
  { label: 'force at solid', keys: ['block_load_n'], dimension: 'force', note: blockNote },
  { label: 'force at which the stop is closed', keys: ['closed_at_force_n'], dimension: 'force', unknown: 'force not stated' },
  { label: 'damping ratio at 0.1 m/s / in rebound alone', keys: ['damping_ratio', 'rebound_ratio'], dimension: 'ratio', unknown: 'no damper table given' },
  { label: 'stress: solid / allowed / full bump / allowed', keys: ['stress_solid_mpa', 'stress_solid_allowed_mpa', 'stress_full_mpa', 'stress_allowed_mpa'], dimension: 'stress', unknown: 'wire not known', note: wireNote },
  { label: 'hub to arch at full bump / tyre on arch', keys: ['height_full_mm', 'tyre_on_arch_mm'], dimension: 'length' },
];

export function inspectionRows({ setups }: Build) {
  return INSPECTION.map((row) => ({
    label: row.label,
    unit: measure(0, row.dimension).unit,
    imperialUnit: measure(0, row.dimension).imperialUnit,
    cells: setups.flatMap((built) => AXLE_NAMES.map((axle) => inspectionCell(row, built, axle))),
  }));
}

function inspectionCell({ keys, dimension, unknown, note }: InspectionShape, built: BuildSetup, axle: AxleName) {
  const corner = built.combination.axles[axle];
  const isKnown = keys.every((key) => quantityOf(corner.values, key) !== null);
  return {
    readings: isKnown ? readingsOf(corner, keys, dimension) : [],
    /** Stands where the model does not know. */
    unknown: isKnown ? null : (unknown ?? PAGE.none),
    note: isKnown ? (note?.(corner, built, axle) ?? null) : null,
  };
}

/** Left and right where each side has its own. */
function readingsOf({ values, sides }: CornerReport, keys: readonly CornerKey[], dimension: Dimension) {
  const figures = (own: CornerReport['values']) => keys.map((key) => measure(quantityOf(own, key), dimension));
  if (sides === undefined || keys.every((key) => sides.left.values[key] === undefined)) {
    return [{ side: null, figures: figures(values) }];
  }
  return SIDE_NAMES.map((side) => ({ side, figures: figures({ ...values, ...sides[side].values }) }));
}

function wireNote({ words }: CornerReport): string | null {
  return words.wire_source === 'estimated' ? 'wire estimated' : null;
}

function blockNote(corner: CornerReport, { sheet }: BuildSetup, axle: AxleName): string | null {
  const band: BandReport | undefined = sheet.bands[axle].block_load_n;
  const estimated = corner.words.solid_height_source === 'estimated' ? ', solid height estimated' : '';
  if (band === undefined) return estimated === '' ? null : estimated.slice(2);
  return `at worst ${fixed(band.worst_low, 0, PAGE)} to ${fixed(band.worst_high, 0, PAGE)} N${estimated}`;
}
