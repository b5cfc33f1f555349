/** Lines offered beside problems: of what may be meant, what passes. Tried on many more in test/fuzz/mend.test.ts. */
import { describe, expect, test } from 'vitest';
import { mend } from '../../../src/input/mend/mend.ts';
import { formatMended, type Problem } from '../../../src/input/problems/problems.ts';
import { readAnyLevel, readScenario } from '../../../src/input/readScenario.ts';
import { memoryFiles } from '../../../src/input/source/files.ts';
import { CATALOGUE, type Edit, edited, SCENARIO } from '../edit.ts';

async function offersIn(text: string, catalogue = CATALOGUE): Promise<readonly (readonly [Problem, string])[]> {
  const files = memoryFiles([
    { path: 'scenario.yaml', text },
    { path: 'springs.csv', text: catalogue },
  ]);
  const read = await readScenario('scenario.yaml', files);
  const problems = read.ok ? [] : read.problems;
  const mended = await mend('scenario.yaml', problems, files, SCENARIO);
  return problems.map((problem) => {
    const lines = mended.get(problem);
    return [problem, lines === undefined ? 'none' : formatMended(lines)] as const;
  });
}

const offers = async (...edits: Edit[]) => (await offersIn(edited(SCENARIO, edits))).map(([, offer]) => offer);

describe('a line is offered whole, with what stands around on it', () => {
  test('a unit put behind a number', async () => {
    const [offer] = await offers(['wheelbase: 2460 mm', 'wheelbase: 2460']);
    expect(offer).toMatch(/^ {2}passes: line \d+ as\n.*wheelbase: 2460 mm/);
  });

  test('a decimal comma in brackets', async () => {
    const [offer] = await offers(['{ out: 180 N, in: 240 N }', '{ out: 180,5 N, in: 240 N }']);
    expect(offer).toContain('{ out: 180.5 N, in: 240 N }');
  });

  test('a misspelt field and the missing one are the same line', async () => {
    const [one = '', other, ...more] = await offers(['compressed: 320 mm', 'compresed: 320 mm']);
    expect(more).toEqual([]);
    expect(one).toBe(other);
    expect(one).toContain('compressed: 320 mm');
  });

  test('a sign that slipped in', async () => {
    expect(await offers(['lowest_wheel: 410 mm', 'lowest_wheel: -410 mm'])).toEqual([
      expect.stringContaining('    lowest_wheel: 410 mm'),
    ]);
  });

  test('the ends of a range exchanged', async () => {
    const [offer] = await offers(['from: 1.6 Hz, to: 2.6 Hz', 'from: 2.7 Hz, to: 2.6 Hz']);
    expect(offer).toContain('from: 2.6 Hz, to: 2.7 Hz');
  });

  test('a list of parts that is missing is put in without prices of no currency; the axle is never left out', async () => {
    const text = 'springsift: 1\naxles:\n  front:\n    dampers: [{ extended: 474 mm, compressed: 324 mm }]\n';
    const files = memoryFiles([{ path: 'scenario.yaml', text }]);
    const read = await readAnyLevel('scenario.yaml', files);
    const problems = read.ok ? [] : read.problems;
    const mended = await mend('scenario.yaml', problems, files, SCENARIO);
    const offered = (name: string) => {
      const lines = mended.get(problems.find(({ found }) => found === `no field \`${name}\``) as Problem);
      return lines === undefined ? 'none' : formatMended(lines);
    };
    expect(offered('perches')).toMatch(/^ {2}passes: in front of line 4\n {4}perches: \[\{ .* \}\]$/);
    expect(offered('perches')).not.toContain('price');
    for (const lines of mended.values()) expect(formatMended(lines)).toMatch(/: \[?\{?.*\w/);
  });

  test('an unknown field left out, of a block and of brackets', async () => {
    const [block] = await offers(['car:', 'zzzz: 1\ncar:']);
    expect(block).toMatch(/^ {2}passes: without line \d+$/);
    const [flow] = await offers(['{ out: 180 N, in: 240 N }', '{ out: 180 N, qqqq: 1, in: 240 N }']);
    expect(flow).toContain('{ out: 180 N, in: 240 N }');
  });

  test('a field that is missing, written as it is elsewhere', async () => {
    const [offer] = await offers(['    lowest_wheel: 410 mm\n', ''], ['tyre_on_arch: 250 mm', 'tyre_on_arch: 250']);
    expect(offer).toContain('tyre_on_arch: 250 mm');
    const [missing] = await offers(['pitch_inertia_ratio: 0.95', 'unknown: 1']);
    expect(missing).toMatch(/pitch_inertia_ratio|without/);
  });
});

describe('YAML that cannot be read', () => {
  test.each<[string, Edit, RegExp]>([
    ['a tab', ['    dampers:', '\tdampers:'], /as\n {4}dampers:/],
    ['a bracket that is not closed', ['{ out: 180 N, in: 240 N }', '{ out: 180 N, in: 240 N'], /240 N ?\}/],
    ['a bracket too many', ['{ out: 180 N, in: 240 N }', '{ out: 180 N, in: 240 N }}'], /240 N \}$/],
    ['a comma left out', ['{ out: 180 N, in: 240 N }', '{ out: 180 N in: 240 N }'], /180 N, in: 240 N \}/],
    ['a quote that is not closed', ['name: ', 'name: "'], /^ {2}passes: /],
  ])('%s', async (_, edit, offered) => {
    expect(await offers(edit)).toEqual([expect.stringMatching(offered)]);
  });
});

test('nothing is offered for a catalogue, a large file, one that is no text, or one that is not there', async () => {
  const [[problem, offer] = []] = await offersIn(SCENARIO, CATALOGUE.replace('180,50,61', '180,x,61'));
  expect([problem?.file, offer]).toEqual(['springs.csv', 'none']);
  const files = memoryFiles([{ path: 'large.yaml', text: `a: ${'x'.repeat(300_000)}` }]);
  for (const path of ['large.yaml', 'nowhere.yaml']) {
    const read = await readScenario(path, files);
    const problems = read.ok ? [] : read.problems;
    expect(problems.length).toBeGreaterThan(0);
    expect((await mend(path, problems, files, SCENARIO)).size).toBe(0);
  }
});

test('no line is offered that a terminal would obey', async () => {
  const [[, offer] = []] = await offersIn(edited(SCENARIO, [['tyre_on_arch: 250 mm', 'tyre_on_arch: 250 # \u202e']]));
  expect(offer).not.toContain('\u202e');
});

test('Windows line ends are no part of what is offered', async () => {
  const text = edited(SCENARIO, [['wheelbase: 2460 mm', 'wheelbase: 2460']]).replaceAll('\n', '\r\n');
  const [[, offer] = []] = await offersIn(text);
  expect(offer).toContain('wheelbase: 2460 mm');
  expect(offer).not.toContain('\r');
});
