/** Mutations of a catalogue: separators, quotes, headers, rows, cells. */
import { changeText } from './mutateText.ts';
import { type Change, pick } from './mutateTree.ts';

type Mutator = (text: string, change: Change) => string;

export function changeCsv(text: string, change: Change): string {
  return pick(MUTATORS, change.kind)(text, change);
}

const CELLS = [
  ...[
    '',
    ' ',
    '0',
    '-1',
    '-0',
    '1e12',
    '1e-12',
    '1e999',
    '1e308',
    'NaN',
    '17,5',
    '"17,5"',
    '"a""b"',
    '"a\nb"',
    '"a\r\nb"',
    '"',
  ],
  ...[
    '=1+1',
    '+1',
    '-x',
    '@a',
    '\t1',
    'none',
    'x'.repeat(2000),
    '<b>',
    '\u001b[1m',
    '\u202e',
    '٣',
    '200 mm',
    '1 000',
    '1_000',
    '0x10',
  ],
  ...['closed_ground', 'open', 'music_wire', '60', '200', '199.99', '61.7', '300', '50', '1', '0.5', '99999'],
];
const HEADERS = [
  ...[
    'name',
    'free_length_mm',
    'free_length_in',
    'free_length',
    'rate_n_per_mm',
    'rate_lbf_per_in',
    'rate_kg',
    'bore_mm',
    '',
  ],
  ...[
    'bore',
    'wire_mm',
    'coils',
    'coils_mm',
    'solid_height_mm',
    'ends',
    'material',
    'coating_mm',
    'price',
    'price_eur',
    'Rate_N_Per_mm',
  ],
];

const cells =
  (change: (rows: string[][], row: number, k: number) => void): Mutator =>
  (text, { at, with: k }) => {
    const rows = text.split('\n').map((line) => line.split(','));
    change(rows, at % rows.length, k);
    return rows.map((row) => row.join(',')).join('\n');
  };
const replaceCell = cells((rows, row, k) => {
  const line = rows[row] ?? [];
  line[Math.floor(k / CELLS.length) % Math.max(1, line.length)] = pick(CELLS, k);
});
const replaceHeader = cells((rows, row, k) => {
  const header = rows[0] ?? [];
  header[row % Math.max(1, header.length)] = pick(HEADERS, k);
});
const removeRow = cells((rows, row) => rows.splice(row, 1));
const repeatRow = cells((rows, row) => rows.splice(row, 0, [...(rows[row] ?? [])]));
const addCell = cells((rows, row, k) => rows[row]?.push(pick(CELLS, k)));
const dropCell = cells((rows, row) => rows[row]?.pop());
const dropColumn = cells((rows, row) => {
  const column = row % Math.max(1, rows[0]?.length ?? 1);
  for (const cellsOfRow of rows) cellsOfRow.splice(column, 1);
});
const scaleColumn = cells((rows, row, k) => {
  const column = row % Math.max(1, rows[0]?.length ?? 1);
  const factor = pick([0.1, 0.5, 0.8, 1.2, 2, 10, -1, 0], k);
  for (const line of rows.slice(1)) {
    if (line[column] && Number.isFinite(Number(line[column]))) line[column] = String(Number(line[column]) * factor);
  }
});

const separator: Mutator = (text, { with: k }) => text.replaceAll(',', pick([';', '\t', '|', ' ', ',,', ', '], k));
const commas: Mutator = (text) => text.replaceAll(/(\d)\.(\d)/g, '$1,$2');
const semicolonsAndCommas: Mutator = (text) => text.replaceAll(',', ';').replaceAll('.', ',');
const headerOnly: Mutator = (text) => text.split('\n', 1)[0] ?? '';
const empty: Mutator = (_, { with: k }) => pick(['', '\n', ',,,\n,,,', '\ufeff', ' ', '""', '"'], k);
const quoteAll = cells((rows) => {
  for (const row of rows)
    row.forEach((cell, k) => {
      row[k] = `"${cell}"`;
    });
});

const MUTATORS: readonly Mutator[] = [
  ...[
    replaceCell,
    replaceCell,
    replaceCell,
    replaceCell,
    replaceHeader,
    replaceHeader,
    removeRow,
    repeatRow,
    addCell,
    dropCell,
  ],
  ...[
    dropColumn,
    scaleColumn,
    scaleColumn,
    separator,
    commas,
    semicolonsAndCommas,
    headerOnly,
    empty,
    quoteAll,
    changeText,
    changeText,
  ],
];
