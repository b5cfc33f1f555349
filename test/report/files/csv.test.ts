import { parse } from 'csv-parse/sync';
import { expect, test } from 'vitest';
import { shortlistCsv } from '../../../src/report/files/csv.ts';
import { build, combination, HOSTILE, hostile, result, setup } from '../fixture.ts';

/** csv-parse reads RFC 4180 and is the independent witness here. */
function read(text: string): Record<string, string>[] {
  return parse(text, { columns: true, record_delimiter: '\r\n' });
}

test('one row a combination and setup, in the order of the shortlist', () => {
  const two = result({ setups: [setup('low'), setup('street')] });
  const rows = read(shortlistCsv(two));
  expect(rows.map(({ setup: name, rank }) => `${name} ${rank}`)).toEqual(
    ['low', 'street'].flatMap((name) => [1, 2, 3, 4, 5].map((rank) => `${name} ${rank}`)),
  );
});

test('headers name setup, rank, id and score first, then carry axle and unit', () => {
  const header = shortlistCsv(result()).split('\r\n')[0]?.split(',') ?? [];
  expect(header.slice(0, 5)).toEqual(['setup', 'rank', 'id', 'workable', 'score']);
  for (const column of [
    ...['front_perch_mm', 'rear_bump_travel_mm', 'front_body_frequency_hz', 'front_rate_n_per_mm'],
    ...['desirability_bump_travel_front', 'desirability_balance', 'front_sleeve_chosen_trim_mm', 'rear_spring_name'],
    'front_bump_stop_chosen_cut_length_mm',
  ]) {
    expect(header).toContain(column);
  }
  expect(new Set(header).size).toBe(header.length);
});

test('numbers are written in full, negative ones without an apostrophe; what does not exist is empty', () => {
  const [row] = read(shortlistCsv(result()));
  expect(row?.front_sprung_load_n).toBe('2422.24255');
  expect(row?.front_slack_mm).toBe('-4.2');
  expect(row?.bounce_centre_mm).toBe('-2140');
  expect(row?.front_bush_rate_n_per_mm).toBe('');
  expect(row?.workable).toBe('true');
});

test('lines end in CRLF, the last one too', () => {
  const text = shortlistCsv(result());
  expect(text.endsWith('\r\n')).toBe(true);
  expect(text.replaceAll('\r\n', '')).not.toMatch(/[\r\n]/);
});

test('hostile names come back whole behind an apostrophe', () => {
  const [row] = read(shortlistCsv(hostile()));
  expect(row?.front_spring_name).toBe(`'${HOSTILE}`);
  expect(row?.setup).toBe(`'${HOSTILE}`);
  const cells = Object.values(row ?? {}).filter((cell) => /^[=+\-@\t\r]/.test(cell));
  expect(cells.filter((cell) => Number.isNaN(Number(cell)))).toEqual([]);
});

test.each([',', ';', '\t'])('read with %j between cells no text begins a formula', (delimiter) => {
  const names = ['a;=1+1', 'a\t@sum', 'a; "=1', '-b', 'a;+b\t=c', 'a\n=1', ';=1', '"=1'];
  for (const name of names) {
    const text = shortlistCsv(result({ setups: [{ ...setup('low'), name }] }));
    const rows = parse(text, {
      delimiter,
      relax_quotes: true,
      relax_column_count: true,
      record_delimiter: ['\r\n', '\n'],
    });
    const cells = rows.flat().map((cell) => cell.replace(/^["\s]+/, ''));
    // A row of a file with commas, read with others, is one long cell or more; a number may begin with its minus.
    const formulas = cells.filter((cell) => /^[=+\-@]/.test(cell) && Number.isNaN(Number(cell.split(',')[0])));
    expect(formulas, JSON.stringify(name)).toEqual([]);
  }
});

test('setups with different quantities share one header', () => {
  const odd = combination('street', 1);
  const more = { ...odd, values: { ...odd.values, only_here_mm: 3 } };
  const rows = read(shortlistCsv(result({ setups: [setup('low'), setup('street', { shortlist: [more] })] })));
  expect(rows[0]?.only_here_mm).toBe('');
  expect(rows.at(-1)?.only_here_mm).toBe('3');
});

test('a build that does not work says so; nothing found is a header alone', () => {
  expect(read(shortlistCsv(build()))[0]?.workable).toBe('false');
  expect(shortlistCsv(result({ setups: [] }))).toBe('setup,rank,id,workable,score\r\n');
});
