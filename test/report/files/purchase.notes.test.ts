/** What a catalogue says of a spring besides its numbers, in the order list: as text, whatever it holds. */
import { beforeAll, expect, test } from 'vitest';
import { formatProblem } from '../../../src/input/readScenario.ts';
import { draw, type Pages } from '../../../src/pipeline/drawing.ts';
import { sift } from '../../../src/pipeline.ts';
import type { Result } from '../../../src/result/result.ts';
import { SEEDS } from '../../fuzz/corpus.ts';
import { readTexts } from '../../input/edit.ts';
import { sweptScenario } from '../../setup/scenarios.ts';

const LINK = 'https://springs.example/a|b?q=<script>alert(1)</script>';
const NOTES = ['shop', 'link', 'e-mail', 'part number'];

const SEED = SEEDS.find(({ name }) => name === 'loaded-estate');
const { scenario = '', catalogue = '' } = SEED ?? {};
/** The catalogue of the estate with columns of text behind it. */
const noted = catalogue
  .trim()
  .split('\n')
  .map((row, k) => `${row},${k === 0 ? NOTES : `Federhof,${LINK},order@springs.example www.springs.example,=${k}`}`)
  .join('\n');

let plain: Result;
let result: Result;
let pages: Pages;

beforeAll(async () => {
  const read = await readTexts(scenario, noted);
  if (!read.ok) throw new Error(read.problems.map(formatProblem).join('\n'));
  [plain, result] = [await sweptScenario('loaded-estate'), await sift(read, 'test')];
  pages = await draw(result);
});

const linesOf = ({ setups }: Result) => setups[0]?.advice?.purchases[0]?.order.lines ?? [];

test('the springs of the order carry the columns, other parts none, and nothing else of the result changes', () => {
  const springs = linesOf(result).filter(({ family }) => family === 'spring');
  expect(springs.length).toBeGreaterThan(0);
  for (const { notes } of springs) expect(notes?.map(({ column }) => column)).toEqual(NOTES);
  expect(linesOf(result).some(({ notes }) => notes === undefined)).toBe(true);
  const without = (all: Result) =>
    JSON.stringify({ ...all, inputs: [] }, (key, value) => (key === 'notes' ? undefined : value));
  expect(without(result)).toBe(without(plain));
});

test('Markdown shows them in columns of their own, and nothing in them is a link, a tag or the end of a cell', () => {
  const table = pages['purchase.md'].split('\n').filter((row) => row.startsWith('|'));
  const header = table.find((row) => row.includes('| part | what |')) ?? '';
  expect(header).toContain('| shop | link | e-mail | part number |');
  const spring = table.find((row) => row.includes('Federhof')) ?? '';
  expect(spring).toContain('https\\://springs.example/a\\|b?q=\\<script\\>alert(1)\\</script\\>');
  expect(spring).toContain('order@<!-- -->springs.example www\\.springs.example');
  const cells = (row: string) => row.split(/(?<!\\)\|/).length;
  expect(cells(spring)).toBe(cells(header));
});

test('the page shows them as text, without a link to anywhere', () => {
  const html = pages['report.html'];
  expect(html).toContain('<th scope="col">part number</th>');
  expect(html).toContain(
    '<td class="said">https://springs.example/a|b?q&#x3D;&lt;script&gt;alert(1)&lt;/script&gt;</td>',
  );
  expect(html).not.toMatch(/href="[^"#]*springs\.example/);
});
