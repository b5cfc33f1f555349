import { expect, test } from 'vitest';
import { fittingsOf } from '../../src/fitting/fitting.ts';
import { fittingHtml } from '../../src/fitting/page.ts';
import { answerLines } from '../../src/fitting/words.ts';
import { PLAIN } from '../../src/report/text/numbers.ts';
import { benchOfText } from '../setup/benchScenario.ts';

const textOf = (trim: string, springs: string) => `springsift: 1
axles:
  front:
    dampers: [{ extended: 474 mm, compressed: 324 mm, body_length: 318 mm, body_diameter: 50 mm }]
    sleeves: [{ ledge_height: 150 mm, length: 160 mm, trim: ${trim} }]
    perches: [{ height: 11 mm, lock_ring: 8 mm }]
    mounts: [{ raise: 12 mm, flange_depth: -10 mm, bush_give: 3 mm }]
    bump_stops: [{ length: 60 mm, closed_fraction: 0.35 }]
    springs: [${springs}]
`;
const TALL = '{ free_length: 200 mm, solid_height: 130 mm }, { free_length: 180 mm, solid_height: 90 mm }';

async function fittingOf(text: string) {
  const read = await benchOfText(text);
  const [fitting] = fittingsOf(read.scenario);
  if (fitting === undefined) throw new Error('no axle');
  return { ...read, fitting };
}

/**
 * Rod shoulder at the closed stop: body 318 + 0.35 x 60 = 339 mm. A spring just snug with the damper out, at 474 mm, is
 * then squeezed by 135 mm, 3 mm more where the bush gives, and 6 mm must be left: its travel is 144 mm at least.
 */
const TRAVEL = 474 - (318 + 0.35 * 60) + 3 + 6;
/** What the longer of the generic helpers adds. */
const HELPER = 80 - 18;

test('the tallest solid height of each length is what the travel leaves of it, by hand', async () => {
  const { fitting } = await fittingOf(textOf('[10 mm, 20 mm]', TALL));
  const { springs = [] } = fitting.would ?? {};
  expect(springs.map(({ freeLength }) => freeLength)).toEqual([120, 140, 160, 180, 200, 220, 240, 260]);
  for (const { freeLength, tallest } of springs) {
    expect(tallest.listed).toBe(freeLength < 180 ? null : freeLength - TRAVEL);
    // A longer one rests on the sleeve's lower end before its helper has given all it can.
    if (freeLength <= 200) expect(tallest.helper).toBe(freeLength - TRAVEL + HELPER);
  }
});

test('a generic helper that nobody listed is tried, and said with its numbers', async () => {
  const { fitting, scenario } = await fittingOf(textOf('[10 mm, 20 mm]', TALL));
  expect(fitting.would?.helps).toMatchObject({ change: 'helper', state: { corner: { helper: { freeLength: 80 } } } });
  const said = answerLines(fitting, PLAIN).find(({ about }) => about === 'helps most')?.text;
  expect(said).toMatch(
    /^add generic helper, 80 mm long.*common practice, no source.*8\.0 mm \(0\.31 in\) to turn it in, if what was not measured passes$/,
  );
  const page = await fittingHtml({ scenario, files: [], warnings: [], fittings: [fitting], toolVersion: 'test' });
  expect(page).toContain('Which springs would fit');
  expect(page).toContain('generic helper, 80 mm long');
});

test('with every diameter measured nothing is left open in what helps', async () => {
  const text = textOf('[10 mm, 20 mm]', TALL)
    .replace('flange_depth: -10 mm', 'flange_depth: -10 mm, bore: 75 mm, washer_diameter: 40 mm')
    .replace('closed_fraction: 0.35', 'closed_fraction: 0.35, diameter: 46 mm')
    .replace('length: 160 mm', 'length: 160 mm, bore: 50.5 mm, outer_diameter: 57 mm')
    .replaceAll('solid_height', 'bore: 61 mm, solid_height');
  const { fitting } = await fittingOf(text);
  expect(fitting.would?.helps).toMatchObject({ change: 'helper', isSure: true });
  expect(answerLines(fitting, PLAIN).find(({ about }) => about === 'helps most')?.text).toMatch(/to turn it in$/);
});

test('a sleeve trimmed too far fits again where less is trimmed', async () => {
  const { fitting } = await fittingOf(textOf('130 mm', '{ free_length: 280 mm, solid_height: 116 mm }'));
  expect(fitting.would?.helps?.change).toBe('trim');
  expect(answerLines(fitting, PLAIN).find(({ about }) => about === 'helps most')?.text).toContain(
    'the sleeve trimmed by',
  );
});

test('where no single change helps it says so, and where something fits nothing is tried', async () => {
  const none = await fittingOf(textOf('10 mm', '{ free_length: 120 mm, solid_height: 100 mm }'));
  expect(none.fitting.would?.helps).toBeNull();
  expect(answerLines(none.fitting, PLAIN).map(({ text }) => text)).toContain(
    'neither another trim nor a generic helper alone: another spring, see what would fit',
  );
  const fits = await fittingOf(textOf('20 mm', '{ free_length: 280 mm, solid_height: 116 mm }'));
  expect(fits.fitting.would).toBeNull();
});

test('a listed helper is not doubled', async () => {
  const text = textOf('10 mm', TALL).replace(
    '    springs:',
    '    helpers: [{ free_length: 20 mm, block_height: 15 mm }]\n    springs:',
  );
  const { fitting } = await fittingOf(text);
  expect(fitting.would?.springs.map(({ tallest }) => tallest.helper)).toEqual(fitting.would?.springs.map(() => null));
});
