/**
 * What was measured, saved back into the scenario it was measured against: values replaced where they stand, comments,
 * order and everything else left byte for byte. A catalogue is left alone; what to enter there is listed. Writes nothing.
 */

import { isDeepStrictEqual } from 'node:util';
import { parse } from 'csv-parse/sync';
import { bumpStopsOf, dampersOf, helpersOf, mountsOf, perchesOf, sleevesOf } from '../../input/assemble/parts.ts';
import { springsOf, wantedRows } from '../../input/assemble/springs.ts';
import {
  catalogueName,
  type LoadedCatalogue,
  type LoadedCatalogues,
  loadCatalogues,
} from '../../input/catalogue/catalogue.ts';
import {
  type CatalogueSpring,
  type ColumnName,
  type NumberSpec,
  newColumn,
  readHeader,
} from '../../input/catalogue/row.ts';
import { valueAt } from '../../input/schema/issues.ts';
import { type AxleFields, scenario as schema } from '../../input/schema/scenario.ts';
import { memoryFiles, withoutMark } from '../../input/source/files.ts';
import { type PathKey, readYaml, type SourceDocument } from '../../input/source/yaml.ts';
import { clearly } from '../../input/values/digits.ts';
import { NUMBER } from '../../input/values/quantity.ts';
import type { WheelLoad } from '../../input/values/swept.ts';
import { type NumberField, numberFields } from '../../measure/measurable.ts';
import type { Corner } from '../../model/corner/site.ts';
import type { Family } from '../../model/scenario.ts';
import { type Dimension, findUnit, fromInner, innerUnit, type Unit } from '../../model/units.ts';
import type { InputFile } from '../../result/result.ts';
import type { AxleAdoption } from '../fit/adoption.ts';
import type { ParameterName } from '../fit/parameters.ts';

export interface Adopted {
  /** The scenario with the measured values. */
  readonly text: string;
  /** What is left to enter by hand. */
  readonly cells: readonly CellToEnter[];
  /** The catalogues as they are once it is entered. */
  readonly catalogues: readonly Pick<InputFile, 'path' | 'text'>[];
}

/** @param files the scenario first, then its catalogues, as they were read without a problem */
export async function adoptText(files: readonly InputFile[], adoptions: readonly AxleAdoption[]): Promise<Adopted> {
  const marked = files[0]?.text ?? '';
  const text = withoutMark(marked);
  const document = readYaml(text).document as SourceDocument;
  const { axles } = schema.parse(document.data);
  const catalogues = await loadCatalogues(document.data, memoryFiles(files, true), '.');
  const changes = adoptions.flatMap((adoption) => axleChanges(axles[adoption.axle], adoption, catalogues));
  const edits = changes.filter((change) => 'path' in change).map((edit) => textEdit(document, text, edit));
  const rows = changes.filter((change) => 'spring' in change);
  const entered = [...catalogues.byName.values()].map((catalogue) => cellsToEnter(catalogue, rows));
  return {
    text: marked.slice(0, marked.length - text.length) + applyEdits(text, edits),
    cells: entered.flatMap(({ cells }) => cells),
    catalogues: entered.filter(({ cells }) => cells.length > 0).map(({ file }) => file),
  };
}

/** Whether a text is a scenario of the same name and car as another. */
export function isSameCar(text: string, scenario: string): boolean {
  const [one, other] = [text, scenario].map((each) => readYaml(withoutMark(each)).document?.data);
  const isScenario = ['axles', 'setups'].every((key) => valueAt(one, [key]) !== undefined);
  const isSame = (key: string) => isDeepStrictEqual(valueAt(one, [key]), valueAt(other, [key]));
  return isScenario && ['springsift', 'name', 'car'].every(isSame);
}

type Fields = Readonly<Record<string, unknown>>;

/** How the parts of a family are written down: their list in an axle, and what is measured of them. */
interface MeasuredFamily {
  readonly family: Family;
  readonly list: keyof AxleFields;
  /** All parts that an entry of the list stands for. */
  readonly expand: (entry: never, catalogues: LoadedCatalogues) => readonly unknown[];
  /** The fields that hold a measured number, with their values in a corner as built. */
  readonly fields: (corner: Corner) => Readonly<Partial<Record<ParameterName, Readonly<Record<string, number>>>>>;
}

const FAMILIES: readonly MeasuredFamily[] = [
  {
    ...{ family: 'damper', list: 'dampers', expand: dampersOf },
    fields: ({ damper }) => ({ body_length: { body_length: damper.bodyLength } }),
  },
  {
    ...{ family: 'mount', list: 'mounts', expand: mountsOf },
    fields: ({ mount }) => ({ flange_depth: { flange_depth: mount.flangeDepth } }),
  },
  {
    ...{ family: 'bumpStop', list: 'bump_stops', expand: bumpStopsOf },
    fields: ({ bumpStop }) => ({ stop_length: { length: bumpStop.uncutLength, cut_length: bumpStop.length } }),
  },
  {
    ...{ family: 'sleeve', list: 'sleeves', expand: sleevesOf },
    fields: ({ sleeve: { length, trim, ledgeHeight } }) => ({
      ...{ sleeve_length: { length, trim }, ledge_height: { ledge_height: ledgeHeight } },
    }),
  },
  {
    ...{ family: 'perch', list: 'perches', expand: perchesOf },
    fields: ({ perch }) => ({ perch_height: { height: perch.height } }),
  },
  {
    ...{ family: 'helper', list: 'helpers' },
    expand: (entry: Parameters<typeof helpersOf>[0] | 'none') => (entry === 'none' ? [null] : helpersOf(entry)),
    fields: ({ helper }) => (helper === null ? {} : { helper_free_length: { free_length: helper.freeLength } }),
  },
  {
    ...{ family: 'spring', list: 'springs' },
    expand: (entry: AxleFields['springs'][number], catalogues) => springsOf([entry], catalogues).springs,
    fields: ({ spring: { freeLength, rate, solid } }) => ({
      ...{ free_length: { free_length: freeLength }, rate: { rate }, solid_height: { solid_height: solid.height } },
    }),
  },
];

/** A new value for a field of the scenario. */
interface Edit {
  readonly path: readonly PathKey[];
  readonly value: WheelLoad;
}

function axleChanges(axle: AxleFields, adoption: AxleAdoption, catalogues: LoadedCatalogues): (Edit | MeasuredRow)[] {
  const within = ({ path, value }: Edit): Edit => ({ path: ['axles', adoption.axle, ...path], value });
  return [
    ...FAMILIES.flatMap((family) => partChanges(axle, adoption, catalogues, family)),
    ...siteEdits(axle, adoption),
  ].map((change) => ('path' in change ? within(change) : change));
}

function partChanges(
  axle: AxleFields,
  { changed, corner, digits }: AxleAdoption,
  catalogues: LoadedCatalogues,
  { family, list, expand, fields }: MeasuredFamily,
): (Edit | MeasuredRow)[] {
  const measured = Object.entries(fields(corner)).filter(([name]) => changed[name as ParameterName] !== undefined);
  if (measured.length === 0) return [];
  const values = Object.fromEntries(measured.flatMap(([, each]) => Object.entries(each)));
  const parts = (entry: Fields) => expand(entry as never, catalogues);
  const options = (axle[list] as readonly Fields[]).flatMap((entry, place) =>
    parts(entry).map((part, k) => ({ entry, place, part, k })),
  );
  const { entry, place, part, k } = options[digits[family]] as (typeof options)[number];
  if (typeof entry.catalogue === 'string') {
    const catalogue = catalogues.byName.get(catalogueName(entry.catalogue)) as LoadedCatalogue;
    return wantedRows(entry as never, catalogue)
      .slice(k, k + 1)
      .map((spring) => ({ spring, values }));
  }
  return Object.entries({ ...choiceOf(entry, part, parts), ...values })
    .map(([field, value]) => ({ field: field.split('.'), value }))
    .filter(({ field, value }) => !isDeepStrictEqual(valueAt(entry, field), [value]))
    .map(({ field, value }) => ({ path: [list, place, ...field], value }));
}

/** The one value of each field with several that gives a part as built: what was cut can't be uncut. */
function choiceOf(
  entry: Fields,
  part: unknown,
  parts: (entry: Fields) => readonly unknown[],
): Readonly<Record<string, number>> {
  const choice: Record<string, number> = {};
  let left = entry;
  for (const path of severalIn(entry)) {
    const only = (value: number) => withValue(left, path, [value]);
    const built = (valueAt(entry, path) as number[]).find((value) =>
      parts(only(value)).some((each) => isDeepStrictEqual(each, part)),
    );
    choice[path.join('.')] = built as number;
    left = only(built as number);
  }
  return choice;
}

/** Paths of the fields that hold several numbers. */
function severalIn(fields: object): readonly string[][] {
  return Object.entries(fields).flatMap(([key, value]): string[][] => {
    if (Array.isArray(value)) return value.length > 1 && typeof value[0] === 'number' ? [[key]] : [];
    return typeof value === 'object' && value !== null ? severalIn(value).map((path) => [key, ...path]) : [];
  });
}

function withValue(fields: Fields, [key = '', ...rest]: readonly string[], value: unknown): Fields {
  return { ...fields, [key]: rest.length === 0 ? value : withValue(fields[key] as Fields, rest, value) };
}

/** Load on the wheels, and damper lengths measured against ride height. */
function siteEdits(axle: AxleFields, { wheelLoad, changed: { motion_offset: offset } }: AxleAdoption): readonly Edit[] {
  const pairs = offset === undefined ? [] : axle.motion.pairs;
  const lengths = pairs.map(({ damper_length }, i) => ({
    path: ['motion', 'pairs', i, 'damper_length'],
    value: damper_length + (offset as number),
  }));
  if (wheelLoad === null) return lengths;
  if (typeof wheelLoad === 'number' || typeof axle.wheel_load === 'number') {
    return [...lengths, { path: ['wheel_load'], value: wheelLoad }];
  }
  return [...lengths, ...Object.entries(wheelLoad).map(([side, value]) => ({ path: ['wheel_load', side], value }))];
}

interface TextEdit {
  readonly start: number;
  /** First sign that stays; equal to `start` for what is put in. */
  readonly end: number;
  readonly text: string;
}

/** Another value at a path, or the field put in there. */
function textEdit({ data, range }: SourceDocument, text: string, { path, value }: Edit): TextEdit {
  const owner = path.slice(0, -1);
  const standing = valueAt(data, path);
  const content = contentOf(path, value, standing ?? valueAt(data, owner));
  if (standing !== undefined) {
    const [start, behind] = range(path, 'value');
    const written = text.slice(start, behind).trimEnd();
    const [quote = ''] = typeof value === 'number' ? (/^["']/.exec(written) ?? []) : [];
    return { start, end: start + written.length, text: `${quote}${content}${quote}` };
  }
  // Before the second field, so that the part's name stays the first.
  const [start] = range([...owner, Object.keys(valueAt(data, owner) as object)[1] as string], 'key');
  const indent = ' '.repeat(start - text.lastIndexOf('\n', start - 1) - 1);
  const then = text[range(owner, 'inside')[0]] === '{' ? ', ' : `\n${indent}`;
  return { start, end: start, text: `${path[path.length - 1]}: ${content}${then}` };
}

/** Where two edits want different values of one place the first is done; reading it back tells. */
function applyEdits(text: string, edits: readonly TextEdit[]): string {
  const same = (one: TextEdit, other: TextEdit) =>
    one.start === other.start && (one.end > one.start || one.text === other.text);
  return edits
    .filter((edit, k) => edits.findIndex((other) => same(edit, other)) === k)
    .sort((one, other) => other.start - one.start)
    .reduce((done, { start, end, text: put }) => done.slice(0, start) + put + done.slice(end), text);
}

/** A value in the first unit of its kind that is found in `beside`, else in the inner unit. */
function contentOf(path: readonly PathKey[], value: WheelLoad, beside: unknown): string {
  if (typeof value === 'object') {
    const sides = Object.entries(value).map(([side, load]) => `${side}: ${contentOf([...path, side], load, beside)}`);
    return `{ ${sides.join(', ')} }`;
  }
  // As the table of fields has it: without the axle, `[]` for the place in a list.
  const field = path.slice(2).reduce((above, key) => `${above}${typeof key === 'number' ? '[]' : `.${key}`}`, '');
  const { dimension } = numberFields().find((each) => `.${each.path}` === field) as NumberField;
  const unit = unitIn(beside, dimension) ?? innerUnit(dimension);
  return `${numberIn(value, unit)} ${unit.symbol}`.trimEnd();
}

function unitIn(value: unknown, dimension: Dimension): Unit | null {
  if (typeof value === 'string') return findUnit(dimension, NUMBER.exec(value)?.[2]?.trim() ?? '');
  if (typeof value !== 'object' || value === null) return null;
  return Object.values(value).reduce<Unit | null>((found, each) => found ?? unitIn(each, dimension), null);
}

/** A measured value that has to be entered into a catalogue. */
export interface CellToEnter {
  readonly file: string;
  /** As a spreadsheet counts them, from 1. */
  readonly row: number;
  readonly spring: string;
  /** The column's title. */
  readonly column: string;
  readonly isNewColumn: boolean;
  /** As written; '' where nothing stands. */
  readonly before: string;
  readonly after: string;
}

interface MeasuredRow {
  readonly spring: CatalogueSpring;
  /** By column, in inner units. */
  readonly values: Readonly<Record<string, number>>;
}

export interface Entered {
  readonly cells: readonly CellToEnter[];
  /** The catalogue once they are entered. */
  readonly file: Pick<InputFile, 'path' | 'text'>;
}

/** @param catalogue one without a problem */
export function cellsToEnter(catalogue: LoadedCatalogue, measured: readonly MeasuredRow[]): Entered {
  const { file, springs, separator, hasCommas } = catalogue;
  const rows: string[][] = parse(withoutMark(file.text), { relax_column_count: true, delimiter: separator });
  const full = rows.filter((row) => row.some((cell) => cell.trim() !== ''));
  const [header = []] = full;
  const cells: CellToEnter[] = [];
  for (const { spring, values } of measured.filter((each) => springs.includes(each.spring))) {
    const row = full[springs.indexOf(spring) + 1] as string[];
    for (const [name, value] of Object.entries(values)) {
      const known = readHeader(header).columns.get(name as ColumnName);
      const { index, header: title, unit, spec } = known ?? newColumn(name as ColumnName, header.length);
      if (known === undefined) for (const each of full) each.push(each === header ? title : '');
      // A column without a unit has one in each cell.
      const inCell = unit ?? innerUnit((spec as NumberSpec).dimension);
      const number = numberIn(value, inCell);
      const [before = '', after] = [
        row[index]?.trim(),
        `${hasCommas ? clearly(number) : number} ${unit === null ? inCell.symbol : ''}`.trim(),
      ];
      const place = { file: file.path, row: rows.indexOf(row) + 1, spring: spring.name, column: header[index] ?? '' };
      // Both axles may have measured the same.
      if (before !== after) cells.push({ ...place, isNewColumn: known === undefined, before, after });
      row[index] = after;
    }
  }
  return { cells, file: { path: file.path, text: rows.map((row) => row.map(quote).join(separator)).join('\n') } };
}

/** With enough digits that reading it back gives the same number to a part in 1e12. */
export function numberIn(value: number, unit: Unit): string {
  return String(Number(fromInner(value, unit).toPrecision(13)));
}

function quote(cell: string): string {
  return `"${cell.replaceAll('"', '""')}"`;
}
