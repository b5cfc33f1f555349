/**
 * A sheet to print before the tape measure comes out: every number the scenario format asks for, where to measure it,
 * how well it is usually read, room for it, and what hangs on it.
 *
 *   fields --rows say how--> groups with figures --template--> page
 */
import { leverLoad } from '../../domain/formula/lever.ts';
import type { MeasuredField, MeasureSheet } from '../../domain/measuring.ts';
import { mapStrings, visibleInPage } from '../escape.ts';
import { contentPolicy, minified } from '../html.ts';
import { fixed, PAGE } from '../numbers.ts';
import { loadTemplates } from '../templates.ts';
import { themeCss } from '../theme.ts';
import { accuracyOf } from './accuracy.ts';
import { type Boxes, boxesOf, givenText } from './boxes.ts';
import { effectsText } from './effects.ts';
import { figureSvg } from './figure.ts';
import { FIGURES, type GroupName, LEVER } from './figures.ts';
import { isPrice, NOT_MEASURED, ROWS, type Row } from './rows.ts';

const TITLES: Readonly<Record<GroupName, string>> = {
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
  const templates = await loadTemplates();
  const css = minified(`${themeCss()}\n${templates.css}\n${templates.measureCss}`);
  return templates.measure({ ...sheetView(mapStrings(given, visibleInPage)), css, policy: contentPolicy(css) });
}

export function sheetView(sheet: MeasureSheet) {
  const { scenario, bests, tool } = sheet;
  return {
    tool,
    scenario,
    bests: bests.map(({ setup, id }) => ({ setup, id })),
    groups: GROUPS.map((name) => groupView(sheet, name)),
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

/** A letter for each path that the group's figure shows, in the order of the rows. */
export function lettersOf(name: GroupName, rows: readonly Row[] = ROWS[name]): (path: string) => string {
  const drawn = new Set(FIGURES[name].dims.map(({ path }) => path));
  const paths = rows.flatMap((row) => row.paths).filter((path) => drawn.has(path));
  return (path) => {
    const place = paths.indexOf(path);
    return place < 0 ? '' : String.fromCharCode(65 + place);
  };
}

function rowView(sheet: MeasureSheet, row: Row, letter: (path: string) => string): RowView {
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
function unexplained(fields: readonly MeasuredField[], name: GroupName): Row[] {
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
