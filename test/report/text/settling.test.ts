/** What is said of assumed values: on the page, in the terminal, and in whose order. */
import { expect, test } from 'vitest';
import { sweepSummary } from '../../../src/report/files/summary.ts';
import { reportHtml } from '../../../src/report/html.ts';
import { surenessView } from '../../../src/report/sections/sureness.ts';
import { PAGE, PLAIN } from '../../../src/report/text/numbers.ts';
import {
  firstMeasurements,
  mostResting,
  restsInShort,
  restsText,
  restsView,
  takesText,
} from '../../../src/report/text/settling.ts';
import type { Settling, SettlingMeasurement } from '../../../src/result/result.ts';
import { combination, firstAnswer, result, setup } from '../fixture.ts';
import { planned } from '../planFixture.ts';

const plain = (text: string | undefined | null) => text?.replace(/[\u00a0\u202f]/g, ' ');
const one = (input: string, share: number, change: Partial<SettlingMeasurement> = {}): SettlingMeasurement => ({
  ...{ input, axle: 'front', label: input, field: 'unsprung_mass', how: `Weigh ${input}.`, tool: 'scale', minutes: 90 },
  ...{ assumed: false, share },
  ...change,
});
const settling: Settling = {
  assumed: ['axles.front.unsprung_mass', 'car.pitch_inertia_ratio'],
  assumed_share: 0.71,
  numbers: [
    { key: 'ride_height_mm', axle: 'front', half_width: 6.3, assumed_share: 0.68 },
    { key: 'bump_travel_mm', axle: 'front', half_width: 2, assumed_share: 0 },
  ],
  measurements: [one('mass', 0.6, { assumed: true }), one('load', 0.3), one('rate', 0.096), one('bore', 0.004)],
};
const resting = combination('low', 1, { settling });
const low = setup('low', { shortlist: [resting] });
const swept = result({ setups: [low] });

test('the sentence says how many, of the whole, and of each height that anything moves', () => {
  expect(restsText(settling, PLAIN)).toBe(
    '2 values are assumed, and make 71 % of the spread of this answer; of that of the front height, +- 6.3 mm (0.25 in), 68 %.',
  );
  const single = { ...settling, assumed: ['x'], numbers: [] };
  expect(plain(restsText(single, PAGE))).toBe('One value is assumed, and makes 71 % of the spread of this answer.');
  expect(plain(restsText(settling, PAGE))).toContain('± 6.3 mm');
});

test('three stand first, the greatest of the assumed ones among them', () => {
  const inputs = (all: Settling['measurements']) =>
    firstMeasurements({ ...settling, measurements: all }).map((m) => m.input);
  expect(inputs(settling.measurements)).toEqual(['mass', 'load', 'rate']);
  const given = [one('a', 0.4), one('b', 0.3), one('c', 0.2), one('mass', 0.1, { assumed: true })];
  expect(inputs(given)).toEqual(['a', 'b', 'mass']);
  expect(inputs(given.slice(0, 3))).toEqual(['a', 'b', 'c']);
});

test('what it takes is said where anybody says it', () => {
  expect(takesText({ tool: 'scale', minutes: 90 })).toBe('scale, about 90 minutes');
  expect(takesText({ tool: null, minutes: null })).toBe('');
});

test('of several setups the one that rests on them most is told of, by its name', () => {
  const answer = firstAnswer(swept);
  const less = { ...answer, combination: { ...resting, settling: { ...settling, assumed_share: 0.1 } } };
  expect(mostResting([less, answer])?.settling).toBe(settling);
  expect(plain(restsInShort([answer]))).toBe(
    '71 % of the spread of this answer rests on assumed values (2). What settles it most: front: mass 60 %, front: load 30 %, front: rate 10 %.',
  );
  expect(plain(restsInShort([less, answer]))).toContain('this answer in setup low rests');
  expect(restsInShort([{ ...answer, combination: combination('low', 1) }])).toBeNull();
  expect(restsView(combination('low', 1))).toBeNull();
});

test('the page says it with the answer and under how sure, which leaves out what hardly tells', async () => {
  const page = await reportHtml(swept);
  const at = page.indexOf('2 values are assumed');
  expect(at).toBeGreaterThan(page.indexOf('id="answer"'));
  expect(page).toContain('rests-short');
  expect(page).toContain('Weigh mass.');
  const view = surenessView(low, resting);
  expect(view.settling?.measurements.map(({ name }) => name)).toEqual(['front: mass', 'front: load', 'front: rate']);
  expect(view.settling?.assumed).toEqual(settling.assumed);
  const without = await reportHtml(result());
  expect(without).not.toContain('class="rests');
  expect(surenessView(setup('low'), combination('low', 1)).settling).toBeNull();
});

test('a plan says it once, for the setup that rests on it most', async () => {
  const before = planned();
  const [first] = before.setups;
  if (first === undefined) throw new Error('no setup');
  const shortlist = first.shortlist.map((c) => ({ ...c, settling }));
  const page = await reportHtml({ ...before, setups: [{ ...first, shortlist }, ...before.setups.slice(1)] });
  const answer = page.slice(page.indexOf('id="answer"'), page.indexOf('id="plan"'));
  expect(answer.match(/2 values are assumed/g)).toHaveLength(1);
  expect(answer).toContain(`Setup ${first.name}: <b>2 values`);
});

test('the pair’s own bands are a table of the whole car', () => {
  const band = {
    ...{ worst_low: 1, worst_high: 2, rss_low: 1.1, rss_high: 1.9 },
    contributor: 'x',
    contributes: 0.4,
    measure: 'y',
  };
  const whole = surenessView(low, {
    ...resting,
    bands: { pitch_frequency_hz: band },
  }).axles.at(-1);
  expect(whole?.title).toBe('Whole car');
  expect(whole?.rows[0]).toMatchObject({ label: 'pitch of the whole car', contributor: 'x', isTight: false });
});

test('the terminal says it below the random builds, and nothing where nothing is assumed', () => {
  const text = sweepSummary(swept).replace(/\s+/g, ' ');
  expect(text).toContain('rests on 2 values are assumed, and make 71 %');
  expect(text).toContain(
    'settle front: mass 60 %, front: load 30 %, front: rate 10 %. Weigh mass. Takes: scale, about 90 minutes.',
  );
  expect(sweepSummary(result())).not.toContain('rests on');
  const none = { ...settling, measurements: [] };
  expect(
    sweepSummary(result({ setups: [setup('low', { shortlist: [combination('low', 1, { settling: none })] })] })),
  ).not.toContain('settle ');
});
