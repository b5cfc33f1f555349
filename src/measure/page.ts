/**
 * A sheet to print before the tape measure comes out: every number the scenario format asks for, where to measure it,
 * how well it is usually read, room for it, and what hangs on it.
 *
 *   fields --rows say how--> groups with figures --template--> page
 */
import { CONTACT } from '../model/corner/contacts.ts';
import { AXLE_NAMES, type AxleName, type Tolerances } from '../model/scenario.ts';
import { type Dimension, imperialUnit, innerUnit } from '../model/units.ts';
import { glossaryDrawing } from '../report/drawing/glossary.ts';
import { pageScript, renderPage } from '../report/frame/templates.ts';
import { jsonInScript, mapStrings, visibleInPage } from '../report/text/escape.ts';
import { glossaryViews } from '../report/text/glossary.ts';
import { fixed, PAGE, unitSymbol } from '../report/text/numbers.ts';
import { measure } from '../report/text/parts.ts';
import { type GroupName, isPrice, NOT_MEASURED, ROWS, type Row } from '../result/measuring.ts';
import { STANDS_AT } from '../result/tolerance/bands.ts';
import type { AxleEffects, Effect } from '../result/tolerance/settling.ts';
import { FIGURES, figureSvg, LEVER } from './figures.ts';
import type { MeasuredField, MeasureSheet } from './measurable.ts';

export const TITLES: Readonly<Record<GroupName, string>> = {
  car: 'Car',
  damper: 'Damper',
  sleeve: 'Sleeve and perch',
  mount: 'Mount and isolator',
  stop: 'Bump stop',
  spring: 'Spring and helper',
  rodEnd: 'Rod end',
};
const GROUPS = Object.keys(TITLES) as GroupName[];

export async function measureHtml(given: MeasureSheet): Promise<string> {
  const scripts = [await pageScript('form')];
  return renderPage('measure', { ...sheetView(mapStrings(given, visibleInPage)), form: formData(given) }, scripts);
}

/** What the form on the sheet begins with, and how each field is measured. */
function formData({ files }: MeasureSheet): string {
  const [scenario, ...catalogues] = files;
  const measured = GROUPS.flatMap((group) => {
    const letter = lettersOf(group);
    // What is read together is told once.
    return ROWS[group].flatMap(({ paths, how }) =>
      paths.map((path, k) => [path, { letter: letter(path), how: k === 0 ? how : '', group }]),
    );
  });
  return jsonInScript({
    draft: {
      scenario: scenario?.text ?? '',
      catalogues: Object.fromEntries(catalogues.map(({ path, text }) => [path, text])),
    },
    groups: GROUPS.map((name) => ({ name, title: TITLES[name] })),
    measured: Object.fromEntries(measured),
  });
}

export function sheetView(sheet: MeasureSheet) {
  const { scenario, bests, tool } = sheet;
  return {
    tool,
    scenario,
    bests: bests.map(({ setup, id }) => ({ setup, id })),
    groups: GROUPS.map((name) => groupView(sheet, name)),
    glossary: { picture: glossaryDrawing(), words: glossaryViews() },
    lever: leverView(),
    pairs: pairsView(sheet.fields),
    lines: Array.from({ length: 8 }, (_, k) => String(k + 1)),
  };
}

export interface RowView {
  readonly letter: string;
  readonly fields: string;
  readonly isNeeded: boolean;
  readonly how: string;
  readonly effects: string;
  readonly accuracy: string;
  readonly isOwn: boolean;
  readonly boxes: Boxes;
}

function groupView(sheet: MeasureSheet, name: GroupName) {
  const rows = [...ROWS[name], ...unexplained(sheet.fields, name)];
  const letter = lettersOf(name, rows);
  return {
    name,
    title: TITLES[name],
    isCar: name === 'car',
    isStop: name === 'stop',
    figure: figureSvg(FIGURES[name], letter),
    rows: rows.map((row) => rowView(sheet, row, letter)),
  };
}

/** A row before anybody knows what it takes. */
type Asked = Omit<Row, 'takes'>;

/** A letter for each path that the group's figure shows, in the order of the rows. */
export function lettersOf(name: GroupName, rows: readonly Asked[] = ROWS[name]): (path: string) => string {
  const drawn = new Set(FIGURES[name].dims.map(({ path }) => path));
  const paths = rows.flatMap((row) => row.paths).filter((path) => drawn.has(path));
  return (path) => {
    const place = paths.indexOf(path);
    return place < 0 ? '' : String.fromCharCode(65 + place);
  };
}

function rowView(sheet: MeasureSheet, row: Asked, letter: (path: string) => string): RowView {
  const fields = row.paths.flatMap((path) => sheet.fields.find((field) => field.path === path) ?? []);
  const letters = row.paths.map(letter).filter((text) => text !== '');
  return {
    letter: letters.join(' '),
    fields: row.paths
      .filter((path) => !path.startsWith('wheel_load.'))
      .map(shortPath)
      .join(', '),
    isNeeded: row.instead !== true && fields.some((field) => field.isNeeded),
    how: row.how,
    effects: effectsText(sheet.effects, row.inputs ?? []),
    ...accuracyOf(sheet, row),
    boxes: boxesOf(row, fields),
  };
}

/** Lists whose name the group's title does not say. */
const NAMED_LISTS: Readonly<Record<string, string>> = {
  helpers: 'helper ',
  isolators: 'isolator ',
  perches: 'perch ',
  pairs: 'pairs.',
};

/** Without the part that the group's title says: `dampers[].gas.out` is `gas.out`. */
function shortPath(path: string): string {
  const inside = path.replace(/^(?:car|motion)\./, '');
  return inside.replace(/^(\w+)\[\]\./, (_, list: string) => NAMED_LISTS[list] ?? '').replaceAll('[]', '');
}

/** Numbers of the format that no row explains yet: they are asked for in the words of the table of fields. */
function unexplained(fields: readonly MeasuredField[], name: GroupName): Asked[] {
  return withoutRow(fields)
    .filter(({ path }) => groupOf(path) === name)
    .map(({ path, text }) => ({ paths: [path], how: text }));
}

/** Numbers that are neither on the sheet nor on the list of what is not measured. */
export function withoutRow(fields: readonly MeasuredField[]): readonly MeasuredField[] {
  const explained = new Set(GROUPS.flatMap((name) => ROWS[name].flatMap((row) => row.paths)));
  return fields.filter(({ path }) => {
    return !explained.has(path) && !isPrice(path) && !NOT_MEASURED.some(({ start }) => path.startsWith(start));
  });
}

const LISTS: readonly (readonly [start: RegExp, group: GroupName])[] = [
  [/^dampers/, 'damper'],
  [/^(sleeves|perches)/, 'sleeve'],
  [/^(mounts|isolators)/, 'mount'],
  [/^bump_stops/, 'stop'],
  [/^(springs|helpers)/, 'spring'],
  [/^rod_ends/, 'rodEnd'],
];

function groupOf(path: string): GroupName {
  return LISTS.find(([start]) => start.test(path))?.[1] ?? 'car';
}

const EXAMPLE = { reading: 95, tare: 7, a: 500, b: 1500 };

function leverView() {
  const { reading, tare, a, b } = EXAMPLE;
  const load = fixed(leverLoad(reading, tare, a, b), 0, PAGE);
  return { figure: figureSvg(LEVER, (path) => path), ...EXAMPLE, net: reading - tare, load };
}

function pairsView(fields: readonly MeasuredField[]) {
  const heights = fields.find(({ path }) => path === 'motion.pairs[].hub_to_arch');
  const text = (axle: 'front' | 'rear') => (heights ? givenText(heights.values[axle], 'length') : '');
  return { front: text('front'), rear: text('rear') };
}

// Room to write in, with the units to write in, and what the scenario holds already.

interface Boxes {
  /** No box: a table of its own follows. */
  readonly isElsewhere: boolean;
  /** One box for the car, else front and rear. */
  readonly isOne: boolean;
  readonly columns: readonly (readonly Entry[])[];
}

export interface Entry {
  readonly axle: AxleName;
  readonly path: string;
  readonly label: string;
  readonly unit: string;
  readonly given: string;
}

export function boxesOf({ boxes }: Asked, fields: readonly MeasuredField[]): Boxes {
  const isOne = boxes === 'car';
  const axles: readonly AxleName[] = isOne ? ['front'] : AXLE_NAMES;
  const entries = boxes === 'wheels' ? wheelEntries : plainEntries;
  return { isElsewhere: boxes === 'none', isOne, columns: axles.map((axle) => entries(fields, axle)) };
}

function plainEntries(fields: readonly MeasuredField[], axle: AxleName): Entry[] {
  return fields.map(({ path, dimension, values }) => ({
    ...{ axle, path },
    label: fields.length > 1 ? (path.split('.').at(-1) ?? '') : '',
    unit: unitText(dimension),
    given: givenText(values[axle], dimension),
  }));
}

/** One load stands for both wheels, or each has its own. */
function wheelEntries(fields: readonly MeasuredField[], axle: AxleName): Entry[] {
  const valuesOf = (path: string) => fields.find((field) => field.path === path)?.values[axle] ?? [];
  const both = valuesOf('wheel_load');
  return (['left', 'right'] as const).map((side) => {
    const own = valuesOf(`wheel_load.${side}`);
    return {
      axle,
      path: `wheel_load.${side}`,
      label: side,
      unit: unitText('mass'),
      given: givenText(own.length > 0 ? own : both, 'mass'),
    };
  });
}

function unitText(dimension: Dimension): string {
  const imperial = imperialUnit(dimension);
  const units = [innerUnit(dimension), ...(imperial ? [imperial] : [])].map((unit) => unitSymbol(unit, PAGE));
  return units.filter((unit) => unit !== '').join(' · ');
}

/** Up to this many values are written out one by one. */
const MOST_LISTED = 3;

export function givenText(values: readonly number[], dimension: Dimension): string {
  if (values.length === 0) return '';
  const shown = values.map((value) => measure(value, dimension));
  const [first, last] = [shown[0], shown.at(-1)];
  if (!first || !last) return '';
  const many = values.length > MOST_LISTED;
  const join = (texts: readonly (string | null)[]) => (many ? `${texts[0]} to ${texts.at(-1)}` : texts.join(', '));
  const metric = `${join(shown.map((one) => one.metric))} ${first.unit}`.trim();
  const imperial = first.imperial === null ? '' : ` (${join(shown.map((one) => one.imperial))} ${first.imperialUnit})`;
  return `${metric}${imperial}${many ? `, ${values.length} values` : ''}`;
}

// How well a number is usually read: the tolerance taken for its kind, or what common practice expects of the tool.

const SHARES: readonly (keyof Tolerances)[] = [
  ...(['rateShare', 'wheelLoadShare', 'unsprungMassShare', 'motionRatioShare', 'gasShare', 'stopForceShare'] as const),
];

function accuracyOf({ tolerances, defaults }: MeasureSheet, { tolerance, accuracy }: Asked) {
  if (tolerance === undefined) return { accuracy: accuracy ?? '', isOwn: false };
  const value = tolerances[tolerance];
  return { accuracy: toleranceText(tolerance, value), isOwn: value !== defaults[tolerance] };
}

function toleranceText(kind: keyof Tolerances, value: number): string {
  if (SHARES.includes(kind)) return `${fixed(100 * value, 1, PAGE)} %`;
  if (kind === 'closedFraction') return fixed(value, 2, PAGE);
  const { metric, unit, imperial, imperialUnit } = measure(value, 'length');
  return `${metric} ${unit} (${imperial} ${imperialUnit})`;
}

// What a measurement decides, in words: the numbers it moves most when it is off by its tolerance.

const LABELS: Readonly<Record<string, string>> = {
  [STANDS_AT]: 'height it stands at',
  perch_mm: 'perch height',
  bump_travel_mm: 'bump travel',
  droop_travel_mm: 'droop travel',
  slack_mm: 'looseness at droop',
  body_frequency_hz: 'body frequency',
  ...Object.fromEntries(Object.entries(CONTACT).map(([name, { label }]) => [`clearance_${name}_mm`, label])),
};

/** How many numbers are named an axle, and below which part of the whole uncertainty none is. */
const MOST_NAMED = 2;
const LEAST_SHARE = 0.1;

/** Empty where the inputs decide nothing, or no combination is known. Of several setups the greater effect counts. */
function effectsText(all: readonly AxleEffects[], inputs: readonly string[]): string {
  return AXLE_NAMES.flatMap((axle) => {
    const named = greatest(all, axle, inputs).slice(0, MOST_NAMED);
    return named.length > 0 ? [`${axle} ${named.map(effectText).join(', ')}`] : [];
  }).join('; ');
}

function greatest(all: readonly AxleEffects[], axle: AxleName, inputs: readonly string[]): Effect[] {
  const mine = all
    .filter((one) => one.axle === axle)
    .flatMap(({ effects }) => effects)
    .filter(({ input, key, share }) => inputs.includes(input) && share >= LEAST_SHARE && LABELS[key] !== undefined)
    .sort((a, b) => b.share - a.share);
  return mine.filter(({ key }, k) => mine.findIndex((other) => other.key === key) === k);
}

function effectText({ key, dimension, by, share }: Effect): string {
  const { metric, unit } = measure(by, dimension);
  return `${LABELS[key]} ${metric} ${unit} (${fixed(100 * share, 0, PAGE)} %)`;
}

// Weighing a wheel with a scale too small for it.

/**
 * Load on a wheel that stands on a level plank between a pivot and a scale.
 *
 * Equation: m = (reading - tare) * b / a
 * Units: `reading` and `tare` (the scale with the plank alone) in kg; `wheelArm` a and `scaleArm` b, level distances from the pivot to the middle of the tyre's contact and to the middle of the scale's bearing, mm; result kg.
 * Valid: 0 < a <= b, the plank level, every wheel of the car raised to the same height; a plank that sags or binds at the pivot reads wrong.
 * Example: leverLoad(95, 7, 500, 1500) = 264
 * Source: moments about the pivot, statics (the law of the lever; Archimedes, On the Equilibrium of Planes, book I, propositions 6 and 7).
 */
export function leverLoad(reading: number, tare: number, wheelArm: number, scaleArm: number): number {
  return ((reading - tare) * scaleArm) / wheelArm;
}
