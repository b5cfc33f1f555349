/** Parts on the bench by the command line: a question, one spring, the file of a newcomer, and what is refused. */
import { mkdtemp, readdir, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, afterEach, beforeAll, describe, expect, test, vi } from 'vitest';
import { COMMANDS } from '../../../src/cli/commands.ts';
import { check } from '../../../src/cli/run/check.ts';
import { explain } from '../../../src/cli/run/explain.ts';
import { fit as answer } from '../../../src/cli/run/fit.ts';
import { newScenario } from '../../../src/cli/run/new.ts';
import { sweep } from '../../../src/cli/run/sweep.ts';
import { EXIT, KnownError } from '../../../src/cli/terminal/exit.ts';
import { FORMS, OPTIONS, type Question } from '../../../src/fitting/question.ts';
import { type DrawingThread, draw } from '../../../src/pipeline/drawing.ts';
import { CORNER_TEXT, PARTS_TEXT } from '../../setup/benchScenario.ts';
import { filled } from '../../setup/newcomer.ts';
import { printed } from '../../setup/printed.ts';
import { ROOT } from '../../setup/source-tree.ts';

let folder = '';
beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'springsift-fit-'));
});
afterAll(() => rm(folder, { recursive: true, force: true }));
afterEach(() => vi.restoreAllMocks());

async function refusal(work: Promise<unknown>): Promise<KnownError> {
  const error = await work.then(
    () => null,
    (thrown: unknown) => thrown,
  );
  if (!(error instanceof KnownError)) throw new Error(`no refusal: ${error}`);
  return error;
}

const drawings: DrawingThread = { getReady() {}, sketch() {}, draw, async close() {} };
const NEEDED = Object.fromEntries(
  OPTIONS.filter((option) => FORMS[option].needed).map((option) => [option, FORMS[option].example]),
) as Question;
const ask = (change: object = {}) => answer({ axle: 'front', ...NEEDED, ...change });

async function fileOf(name: string, text: string): Promise<string> {
  const path = join(folder, name);
  await writeFile(path, text);
  return path;
}

describe('fit', () => {
  test('answers yes with both ends and ends with 0; no with what to change and ends with 3', async () => {
    const { out } = printed();
    expect(await ask()).toBe(EXIT.ok);
    // 474 - (12 - 10) - 280
    expect(out()).toMatch(/^Front: YES.*\n {2}perch seat +192\.0 mm/);
    const no = printed();
    expect(await ask({ spring: '280 mm, solid 160 mm', axle: 'rear' })).toBe(EXIT.nothingWorkable);
    expect(no.out()).toMatch(/^Rear: NO, it does not fit\.\n {2}lacks .*\n[\s\S]* {2}change /);
  });

  test('with load and motion tells ride heights and frequency', async () => {
    const { out } = printed();
    const all = Object.fromEntries(OPTIONS.map((option) => [option, FORMS[option].example]));
    expect(await answer({ axle: 'front', ...all })).toBe(EXIT.ok);
    expect(out()).toMatch(/ride height +\d+\.\d mm.* hub to arch/);
    expect(out()).toContain('body frequency');
  });

  test('tells every option that is missing or misspelled at once, each with its form and an example', async () => {
    const { out } = printed();
    const { message, code } = await refusal(answer({ axle: 'front', damper: '474 mm', spring: '280 mm, red' }));
    expect(code).toBe(EXIT.badInput);
    for (const option of ['damper', 'ledge', 'sleeve', 'perch', 'spring', 'mount', 'stop'] as const) {
      expect(message).toContain(
        `--${option}: found ${{ damper: '“474 mm”', spring: '“280 mm, red”' }[option as string] ?? 'nothing'}`,
      );
      expect(message).toContain(`advice: write --${option} "${FORMS[option].example}"`);
    }
    expect(message).not.toContain('--isolator');
    expect(out()).toBe('');
  });

  test('tells every value that cannot be read, each at its option, and what no option is about', async () => {
    const { message, code } = await refusal(ask({ ledge: '150', perch: '19 kg', isolator: 'thick', load: '320' }));
    expect(code).toBe(EXIT.badInput);
    for (const option of ['ledge', 'perch', 'isolator', 'load']) expect(message).toContain(`--${option}: found `);
    // A body longer than the damper fully in, and a ledge above a body.
    expect((await refusal(ask({ damper: '474/324/330 mm' }))).message).toMatch(/^--damper: found .*330/m);
    expect((await refusal(ask({ ledge: '320 mm' }))).message).toMatch(/^--ledge: found .*320/m);
    expect((await refusal(ask({ motion: '340/420 mm, 0' }))).message).toMatch(/^--motion: found /m);
    expect((await refusal(ask({ spring: 'soft' }))).message).toMatch(/^--spring: found /m);
  });

  test('saves the scenario that the question is, once, and that scenario gives the same answer', async () => {
    const { out } = printed();
    const path = join(folder, 'saved', 'asked.yaml');
    expect(await ask({ save: path })).toBe(EXIT.ok);
    const first = await readFile(path, 'utf8');
    expect(first).toMatch(/^springsift: 1\naxles:\n {2}front:\n {4}dampers: /);
    const said = out();
    expect((await refusal(ask({ save: path, ledge: '151 mm' }))).code).toBe(EXIT.failure);
    expect(out()).toBe(said);
    expect(await readFile(path, 'utf8')).toBe(first);
    const answer = /Front: [\s\S]*?(?=\n\n)/.exec(out())?.[0] ?? '';
    const swept = printed();
    expect(await sweep([path], { out: join(folder, 'saved', 'out') }, drawings)).toBe(EXIT.ok);
    expect(answer).not.toBe('');
    expect(swept.out()).toContain(answer);
    expect(await ask({ save: path, ledge: '151 mm', force: true })).toBe(EXIT.ok);
    expect(await readFile(path, 'utf8')).toBe(first.replace('150 mm', '151 mm'));
  });

  test('has an option in its help for every word of a question, each with form and example', () => {
    const command = COMMANDS.find(({ name }) => name === 'fit');
    const flags = command?.options.map(({ flags: written }) => written);
    for (const option of OPTIONS) expect(flags).toContain(`--${option} <text>`);
    expect(flags).toEqual(expect.arrayContaining(['--axle <which>', '--save <file>', '--force']));
  });
});

describe('check', () => {
  test('of parts says how many combinations each axle has, and refuses a file that is wrong', async () => {
    const { out } = printed();
    expect(await check(await fileOf('parts.yaml', PARTS_TEXT.replace('20 mm', '[0 mm, 20 mm]')), {})).toBe(EXIT.ok);
    expect(out()).toBe(
      'parts on the bench: no problems. front 2 combinations. Parts are judged among themselves, without wishes.\n',
    );
    const wrong = await fileOf('wrong.yaml', PARTS_TEXT.replace('474 mm', '474'));
    const { message } = await refusal(check(wrong, {}));
    expect(message).toContain(`${wrong}:4:27: found `);
  });

  test('--spring asks for one spring among the parts, of the bench or of a car', async () => {
    const parts = await fileOf('corner.yaml', CORNER_TEXT);
    const { out } = printed();
    expect(await check(parts, { spring: '280 mm, 34 N/mm, solid 100 mm' })).toBe(EXIT.ok);
    expect(out()).toMatch(/^Front: YES/);
    expect(await check(parts, { spring: '280 mm, solid 200 mm' })).toBe(EXIT.nothingWorkable);
    const car = printed();
    await check(join(ROOT, 'scenarios', 'loaded-estate', 'scenario.yaml'), { spring: '220 mm, solid 60 mm' });
    expect(car.out()).toMatch(/^Taken: bore [\d.]+ mm, as the scenario’s own springs\.\n\nFront: [\s\S]*\n\nRear: /);
    const bad = await refusal(check(parts, { spring: '280 mm, soft' }));
    expect(bad).toMatchObject({
      code: EXIT.badInput,
      message: expect.stringContaining('--spring: found “280 mm, soft”'),
    });
    expect((await refusal(check(parts, { spring: '280' }))).message).toMatch(/^--spring: found /);
  });
});

describe('sweep', () => {
  test('of parts writes one page, ends with 3 where nothing fits, and refuses more than are judged', async () => {
    const { out } = printed();
    const none = await fileOf('none.yaml', PARTS_TEXT.replace('106 mm', '170 mm'));
    expect(await sweep([none], { out: join(folder, 'none') }, drawings)).toBe(EXIT.nothingWorkable);
    // The claim of a run stands until its process ends.
    expect((await readdir(join(folder, 'none'))).filter((name) => !name.endsWith('.claim'))).toEqual(['report.html']);
    expect(out()).toContain('Front: NO, it does not fit.');
    const wide = 'length: { from: 100 mm, to: 200 mm, step: 0.1 mm }, trim: { from: 0 mm, to: 60 mm, step: 0.5 mm }';
    const many = await fileOf(
      'many.yaml',
      PARTS_TEXT.replace('length: 160 mm, trim: 20 mm', wide).replace(
        '324 mm',
        '[320 mm, 321 mm, 322 mm, 323 mm, 324 mm]',
      ),
    );
    const { message, code } = await refusal(sweep([many], { out: join(folder, 'many') }, drawings));
    expect(code).toBe(EXIT.badInput);
    // 1001 x 121 x 5
    expect(message).toContain('605 605'.replace(' ', message.includes('605,605') ? ',' : ' '));
  });

  test('takes parts and a car side by side', async () => {
    const { out } = printed();
    const parts = await fileOf('beside.yaml', PARTS_TEXT);
    const car = join(ROOT, 'scenarios', 'loaded-estate', 'scenario.yaml');
    expect(await sweep([parts, car], { out: join(folder, 'two'), quiet: true }, drawings)).toBe(EXIT.ok);
    expect((await readdir(join(folder, 'two'))).sort()).toEqual(['beside', 'loaded-estate']);
    expect(out()).toContain('Front: YES');
  });

  test('what asks for a car says what is missing', async () => {
    const { message, code } = await refusal(explain(await fileOf('no-car.yaml', PARTS_TEXT), 'x', {} as never));
    expect(code).toBe(EXIT.badInput);
    expect(message).toContain('for this command add `car` and `setups`');
  });
});

describe('new', () => {
  test('a newcomer fills in what is needed, checks, sweeps, and reads the lowest and the highest perch', async () => {
    const { out } = printed();
    const home = join(folder, 'newcomer');
    expect(await newScenario(home, {})).toBe(EXIT.ok);
    expect((await readdir(home)).sort()).toEqual(['measure.html', 'scenario.yaml']);
    expect(out()).toContain('Open measure.html');
    const path = join(home, 'scenario.yaml');
    const text = await readFile(path, 'utf8');
    expect(text).toMatch(/^# yaml-language-server: \$schema=file:.*bench\.schema\.json\n/);
    // As written nothing is measured: each needed value is asked for at its place.
    expect((await refusal(check(path, {}))).message).toMatch(/scenario\.yaml:\d+:\d+: found `unknown`/);
    await writeFile(path, filled(text));
    expect(await check(path, {})).toBe(EXIT.ok);
    const swept = printed();
    expect(await sweep([path], { out: join(home, 'out') }, drawings)).toBe(EXIT.ok);
    const page = await readFile(join(home, 'out', 'report.html'), 'utf8');
    const [range = ''] = /192\.0 mm[^<]*to [\d.]+ mm[^<]*above the lower eye/.exec(page) ?? [];
    expect(range).not.toBe('');
    expect(page.indexOf(range)).toBeLessThan(page.indexOf('<figure'));
    expect(swept.out()).toMatch(/perch seat +192\.0 mm/);
    expect((await refusal(newScenario(home, {}))).message).toContain('not empty');
    expect(await newScenario(home, { force: true })).toBe(EXIT.ok);
  });

  test('--example is a whole car whose title says that it is invented', async () => {
    const { out } = printed();
    const home = join(folder, 'example');
    expect(await newScenario(home, { example: true })).toBe(EXIT.ok);
    expect((await readdir(home)).sort()).toEqual(['scenario.yaml', 'springs.csv']);
    expect(await readFile(join(home, 'scenario.yaml'), 'utf8')).toMatch(/^name: Hill hatch \(invented\)$/m);
    expect(await check(join(home, 'scenario.yaml'), {})).toBe(EXIT.ok);
    expect(out()).toContain('Hill hatch (invented): no problem');
  });
});
