/** Combinations on the bench: how they are counted and ranked, what is said of the best, and what would settle it. */
import { describe, expect, test } from 'vitest';
import { fittingsOf, MOST_COMBINATIONS, SHOWN, tooManyOn } from '../../src/fitting/fitting.ts';
import { ANSWER_KEYS, assumedShare, spreadOf } from '../../src/fitting/settle.ts';
import { fittingText, rulerText } from '../../src/fitting/text.ts';
import { wheelSite } from '../../src/fitting/wheel.ts';
import { answerLines, choiceTextOf, countText, restsInShort, verdictLine } from '../../src/fitting/words.ts';
import { limitLabel } from '../../src/model/corner/checks.ts';
import { judgedFrequency } from '../../src/model/corner/rates.ts';
import { cornerState } from '../../src/model/corner/state.ts';
import { heightWindow } from '../../src/model/corner/window.ts';
import { PLAIN } from '../../src/report/text/numbers.ts';
import { benchOfText, CORNER_TEXT, PARTS_TEXT } from '../setup/benchScenario.ts';

type Change = readonly [from: string | RegExp, to: string];
const textWith = (changes: readonly Change[], text = PARTS_TEXT) =>
  changes.reduce((all, [from, to]) => {
    const next = all.replace(from, to);
    if (next === all) throw new Error(`not in the text: ${from}`);
    return next;
  }, text);

async function fittingOf(changes: readonly Change[] = [], text = PARTS_TEXT) {
  const { scenario } = await benchOfText(textWith(changes, text));
  const [fitting] = fittingsOf(scenario);
  if (fitting === undefined) throw new Error('no axle');
  return fitting;
}

/** What is said, one line a fact: `about: text`. */
const saidOf = (fitting: Awaited<ReturnType<typeof fittingOf>>) =>
  [verdictLine(fitting, PLAIN), ...answerLines(fitting, PLAIN).map(({ about, text }) => `${about}: ${text}`)].join(
    '\n',
  );

/** Every diameter measured, and nothing meets. */
const MEASURED: readonly Change[] = [
  ['body_length: 318 mm', 'body_length: 318 mm, body_diameter: 50 mm'],
  ['flange_depth: -10 mm', 'flange_depth: -10 mm, bore: 75 mm, washer_diameter: 40 mm'],
  ['closed_fraction: unknown', 'closed_fraction: 0.35, diameter: 46 mm'],
  ['trim: 20 mm', 'trim: 20 mm, bore: 50.5 mm, outer_diameter: 57 mm'],
  ['solid_height: 106 mm', 'solid_height: 106 mm, bore: 60 mm'],
];

describe('combinations', () => {
  const MANY: Change = ['trim: 20 mm', 'trim: { from: 0 mm, to: 100 mm, step: 2 mm }'];

  test('are all counted, the best shown best first, and none behind that is better', async () => {
    const { combinations, counts, best, failing } = await fittingOf([MANY]);
    expect(combinations).toBe(51);
    expect(counts.works + counts.depends + counts.fails).toBe(51);
    expect(best).toHaveLength(SHOWN);
    const order = { works: 0, depends: 1, fails: 2 };
    best.slice(1).forEach((one, k) => {
      const before = best[k];
      const rise = order[one.verdict] - order[before?.verdict ?? 'works'];
      expect(rise > 0 || (rise === 0 && one.score <= (before?.score ?? 0))).toBe(true);
    });
    expect(failing.reduce((sum, { count }) => sum + count, 0)).toBe(counts.fails);
  });

  test('are scored by range and thinnest clearance: good from 40 and 10 mm on', async () => {
    const { best } = await fittingOf([...MEASURED, ['solid_height: 106 mm', 'solid_height: 100 mm']]);
    const { state, score } = best[0] ?? {};
    const spare = Math.min(...(state?.contacts ?? []).map(({ clearance, margin }) => clearance - margin));
    const share = (value: number, good: number) => Math.min(1, Math.max(0, value / good));
    expect(score).toBeCloseTo(Math.sqrt(share(state?.range ?? 0, 40) * share(spare, 10)), 9);
  });

  test('of which all fail are ranked by what they lack', async () => {
    const { best, counts } = await fittingOf([['solid_height: 106 mm', 'solid_height: [180 mm, 160 mm, 200 mm]']]);
    expect(counts.fails).toBe(3);
    expect(best.map(({ judgement }) => judgement.state.corner.spring.solid.height)).toEqual([160, 180, 200]);
    expect(best.every(({ score }) => score < 0)).toBe(true);
  });

  test('that are too many are not judged', async () => {
    const wide = 'length: { from: 100 mm, to: 200 mm, step: 0.1 mm }, trim: { from: 0 mm, to: 50 mm, step: 0.5 mm }';
    const { scenario } = await benchOfText(
      textWith([
        ['length: 160 mm, trim: 20 mm', wide],
        ['compressed: 324 mm', 'compressed: [322 mm, 323 mm, 324 mm, 325 mm, 326 mm]'],
      ]),
    );
    const [found] = tooManyOn(scenario);
    expect(found).toEqual({ axle: 'front', count: 1001 * 101 * 5 });
    expect(found?.count).toBeGreaterThan(MOST_COMBINATIONS);
    expect(tooManyOn((await benchOfText(PARTS_TEXT)).scenario)).toEqual([]);
  });

  test('say which alternatives they take, and which family has none', async () => {
    const { bench, best } = await fittingOf([
      [
        '{ height: 11 mm }]',
        '{ height: 11 mm }]\n    helpers: [none, { name: soft, free_length: 60 mm, block_height: 14 mm }]',
      ],
      ['{ raise', '{ spacer: [0 mm, 5 mm], raise'],
    ]);
    const said = best.map(({ judgement }) => choiceTextOf(bench.options, judgement.state.corner, PLAIN));
    expect(said).toContainEqual(expect.stringMatching(/^top mount spacer 5\.0 mm.*, helper spring soft 60\.0 mm/));
    expect(said).toContainEqual(expect.stringMatching(/^top mount spacer 0\.0 mm.*, no helper spring$/));
    const single = await fittingOf();
    expect(choiceTextOf(single.bench.options, single.best[0]?.judgement.state.corner as never, PLAIN)).toMatch(
      /^main spring 280\.0 mm/,
    );
  });
});

describe('the answer', () => {
  test('says yes, both ends with their limits, and what to measure first', async () => {
    const fitting = await fittingOf([...MEASURED, ['solid_height: 106 mm', 'solid_height: 90 mm']]);
    const said = saidOf(fitting);
    expect(said).toMatch(/^Front: YES, it fits\./);
    // 474 - 2 - 280 = 192; see the bench’s own tests for the sums.
    expect(said).toContain('perch seat: 192.0 mm (7.56 in) +- ');
    expect(said).toContain(`: lowest: ${limitLabel('spring_loose')}; highest: ${limitLabel('coil_bind')}`);
    expect(said).toContain('thinnest: ');
    expect(said).toContain('measure first: ');
    expect(said).not.toContain('not measured: ');
  });

  test('is not sure of lengths alone, nor of a range that the spread is wider than', async () => {
    expect(saidOf(await fittingOf())).toMatch(
      /^Front: YES by its lengths; what has to pass through what was not measured/,
    );
    const close = await fittingOf([...MEASURED, ['solid_height: 106 mm', 'solid_height: 134 mm']]);
    expect(close.best[0]?.verdict).toBe('works');
    expect(saidOf(close)).toMatch(/^Front: PERHAPS: there is \d\.\d mm .*Measure first\./);
    const short = await fittingOf([...MEASURED, ['solid_height: 106 mm', 'solid_height: 138 mm']]);
    expect(short.best[0]?.verdict).toBe('fails');
    expect(saidOf(short)).toMatch(/^Front: PERHAPS NOT: \d\.\d mm .* are lacking, sure to .*Measure first\./);
  });

  test('that depends names what was not measured and what it decides', async () => {
    // The sleeve 20 mm proud of its seat: 310 + 2 mm against 339 - give 3 - margin, if it does not pass the flange.
    const fitting = await fittingOf([
      ['ledge_height: 150 mm, length: 160 mm, trim: 20 mm', 'ledge_height: 150 mm, length: 160 mm, trim: 0 mm'],
      ['closed_fraction: unknown', 'closed_fraction: 0.1'],
      ['compressed: 324 mm, body_length: 318 mm', 'compressed: 300 mm, body_length: 300 mm'],
      ['solid_height: 106 mm', 'solid_height: 60 mm'],
    ]);
    expect(fitting.counts.depends).toBe(1);
    const said = saidOf(fitting);
    expect(said).toMatch(/^Front: IT DEPENDS on what was not measured\./);
    expect(said).toMatch(/not measured: .*sleeve \(bore, outer diameter\).*It decides: .*sleeve on mount flange/);
    expect(countText(fitting, PLAIN)).toBe('0 of 1 fit, 1 depend on what was not measured');
  });

  test.each<[string, readonly Change[], RegExp, RegExp]>([
    [
      'a spring too tall solid',
      [['solid_height: 106 mm', 'solid_height: 150 mm']],
      /no safe place for the perch: “spring loose at droop” lies \d+\.\d mm .* above “coil bind”/,
      /a spring with .* more between free length and solid height, a helper spring/,
    ],
    [
      'a spring too short',
      [
        ['free_length: 280 mm', 'free_length: 150 mm'],
        ['solid_height: 106 mm', 'solid_height: 30 mm'],
      ],
      /“spring loose at droop” lies .* above “perch at its highest”/,
      /a spring .* longer, or the sleeve trimmed that much less/,
    ],
    [
      'a spring too long solid for the lowest perch',
      [
        ['free_length: 280 mm', 'free_length: 330 mm'],
        ['solid_height: 106 mm', 'solid_height: 165 mm'],
      ],
      /“perch at its lowest” lies .* above “coil bind”/,
      /a spring .* shorter when solid, a perch and lock ring that much lower/,
    ],
    [
      'a sleeve too short for its perch',
      [
        ['free_length: 280 mm', 'free_length: 330 mm'],
        ['trim: 20 mm', 'trim: 150 mm'],
      ],
      /“perch at its lowest” lies .* above “perch at its highest”/,
      /the sleeve trimmed .* less/,
    ],
    [
      'a damper that bottoms',
      [['closed_fraction: unknown', 'closed_fraction: 0.1']],
      /damper bottoming inside: \d+\.\d mm .* short of the clearance asked for/,
      /a packer of .* above the bump stop, or a stop that closes that much earlier/,
    ],
    [
      'a sleeve too tall',
      [...MEASURED, ['bore: 75 mm', 'bore: 55 mm'], ['length: 160 mm, trim: 20 mm', 'length: 200 mm, trim: 0 mm']],
      /sleeve on mount flange: \d+\.\d mm .* short/,
      /trim the sleeve .* more, or a packer/,
    ],
    [
      'a spring that does not go over its sleeve',
      [...MEASURED, ['bore: 60 mm', 'bore: 57.5 mm']],
      /spring on sleeve: 0\.5 mm .* short/,
      /other parts: spring on sleeve needs 0\.5 mm .* more/,
    ],
  ])('no: %s says what it lacks and what would change it', async (_, changes, lacks, change) => {
    const fitting = await fittingOf(changes);
    expect(fitting.best[0]?.verdict).toBe('fails');
    const said = saidOf(fitting);
    expect(said).toMatch(/^Front: (?:NO, it does not fit\.|PERHAPS NOT: .* Measure first\.)/);
    expect(said).toMatch(lacks);
    expect(said).toMatch(change);
    expect(countText(fitting, PLAIN)).toMatch(/^0 of 1 fit; most fail at: .*, 1$/);
  });

  test('in the terminal it fits the width, has a ruler with a letter for each contact, and both axles', async () => {
    const rear = CORNER_TEXT.slice(CORNER_TEXT.indexOf('  front:')).replace('front:', 'rear:');
    const { scenario } = await benchOfText(`${CORNER_TEXT}${rear.replace('trim: 20 mm', 'trim: [0 mm, 20 mm]')}`);
    const text = fittingText(scenario, fittingsOf(scenario));
    expect(text).toMatch(/^parts on the bench\n\nFront: [\s\S]*\n\nRear: /);
    expect(text).toContain('ride height');
    expect(text).toMatch(/combinations +\d of 2 fit/);
    expect(Math.max(...text.split('\n').map((line) => line.length))).toBeLessThanOrEqual(100);
    const [bar = '', , legend = ''] = rulerText(fittingsOf(scenario)[0]?.best[0]?.state as never);
    expect(bar).toMatch(/^\|[-#a-z]{72}\|$/);
    for (const sign of new Set(bar.replace(/[|#-]/g, ''))) expect(legend).toContain(`; ${sign} `);
    // What meets at one place of the ruler shares its letter.
    const signs = [...legend.matchAll(/; ([a-z]) /g)].map(([, sign]) => sign ?? '');
    expect(signs.filter((sign) => !bar.includes(sign))).toEqual([]);
  });

  test('of a perch without any place the ruler has it on the sleeve’s ledge', async () => {
    const { best } = await fittingOf([['closed_fraction: unknown', 'closed_fraction: 0.1']]);
    expect(best[0]?.state.range).toBe(Number.NEGATIVE_INFINITY);
    // P = 150: solid at 150 + 2 + 106.
    expect(rulerText(best[0]?.state as never)[2]).toContain('coil bind 258');
  });
});

describe('at the wheel', () => {
  test('heights are those of the full model without wishes, and the frequency in the middle is its own', async () => {
    const { scenario } = await benchOfText(CORNER_TEXT);
    const [{ best, bench } = {}] = fittingsOf(scenario);
    const { wheel, state } = best?.[0] ?? {};
    if (!wheel || !state || !bench?.wheel) throw new Error('no corner');
    const site = wheelSite(scenario.margins, 'front', { ...bench.own, ...bench.wheel });
    const middle = { ...site, target: { ...site.target, targetHeight: wheel.middle.height } };
    const window = heightWindow(cornerState(middle, state.corner));
    expect([wheel.low.height, wheel.high.height]).toEqual([window?.low.height, window?.high.height]);
    expect(wheel.middle.frequency).toBe(judgedFrequency(cornerState(middle, state.corner)));
    expect(wheel.middle.height).toBe((wheel.low.height + wheel.high.height) / 2);
    expect(wheel.low.perch).toBeGreaterThanOrEqual(state.low.perch - 1e-6);
    expect(wheel.high.perch).toBeLessThanOrEqual(state.high.perch + 1e-6);
  });

  test('nothing is said without a rate, of a helper without one, or where no height is safe; a tyre is judged where known', async () => {
    const rateless = await fittingOf([[', rate: 34 N/mm', '']], CORNER_TEXT);
    expect([rateless.level, rateless.best[0]?.wheel]).toEqual(['corner', null]);
    const helper = '{ height: 11 mm }]\n    helpers: [{ free_length: 60 mm, block_height: 14 mm }]';
    const helped = await fittingOf([['{ height: 11 mm }]', helper]], CORNER_TEXT);
    expect(helped.best[0]?.wheel).toBeNull();
    expect(saidOf(helped)).toContain('the rate of the helper spring was not given');
    const light = await fittingOf([['268 kg', '40 kg']], CORNER_TEXT);
    expect(light.best[0]?.wheel).toBeNull();
    expect(saidOf(light)).toContain('ride height: none is safe');
    expect(saidOf(rateless)).toContain('ride height: not known: the rate of the spring was not given');
    const loaded = await fittingOf([['    dampers:', '    wheel_load: 268 kg\n    dampers:']]);
    expect(saidOf(loaded)).toContain('ride height: not known: the motion of the wheel was not given');
    expect(saidOf(await fittingOf())).not.toContain('ride height');
    const tyre = await fittingOf([['268 kg', '268 kg\n    tyre_on_arch: 200 mm']], CORNER_TEXT);
    expect(tyre.best[0]?.wheel?.isTyreJudged).toBe(true);
    expect(saidOf(tyre)).not.toContain('not judged');
    expect(saidOf(await fittingOf([], CORNER_TEXT))).toContain('tyre against arch not judged');
  });
});

describe('what to measure first', () => {
  test('shares sum to 1, greatest first; what is assumed says so, with the field it goes into', async () => {
    const { settlings } = await fittingOf();
    expect(settlings.reduce((sum, { share }) => sum + share, 0)).toBeCloseTo(1, 9);
    expect(settlings.map(({ share }) => share)).toEqual(settlings.map(({ share }) => share).sort((a, b) => b - a));
    const stop = settlings.find(({ id }) => id === 'closed_fraction');
    // 60 mm x 0.15: the highest perch and the thinnest clearance move by as much.
    expect(stop).toMatchObject({
      isAssumed: true,
      field: 'bump_stops[].closed_fraction',
      tool: 'press with a scale, caliper',
      minutes: 30,
    });
    expect(stop?.moves.high).toBeCloseTo(9, 9);
    expect(stop?.moves.low).toBe(0);
    expect(settlings.find(({ id }) => id === 'bush_give')?.isAssumed).toBe(true);
    expect(settlings.find(({ id }) => id === 'free_length')).toMatchObject({
      isAssumed: false,
      field: 'springs[].free_length',
    });
    expect(assumedShare(settlings)).toBeGreaterThan(0.5);
    expect(settlings.map(({ id }) => id)).not.toContain('wheel_load');
  });

  test('the head of the page says in short what rests on assumed values, and nothing where nothing does', async () => {
    const fitting = await fittingOf();
    expect(restsInShort(fitting)).toMatch(
      /^Front: \d+\D% of the spread of this answer rests on assumed values\. What settles it most: how far the bump stop closes \d+\D% \(assumed\), /,
    );
    const measured = fitting.settlings.filter(({ isAssumed }) => !isAssumed);
    expect(restsInShort({ ...fitting, settlings: measured })).toBeNull();
  });

  test('the spread of a number is the root of the sum of squares of its moves', async () => {
    const { settlings } = await fittingOf([], CORNER_TEXT);
    for (const key of ANSWER_KEYS) {
      const squares = settlings.map(({ moves }) => (moves[key] ?? 0) ** 2);
      expect(spreadOf(settlings, key)).toBeCloseTo(Math.sqrt(squares.reduce((a, b) => a + b, 0)), 9);
    }
    // With a wheel its load and the unsprung mass nobody weighed move the heights, and nothing else.
    const unsprung = settlings.find(({ id }) => id === 'unsprung_mass');
    expect(unsprung?.isAssumed).toBe(true);
    expect(unsprung?.moves.lowHeight).toBeGreaterThan(0);
    expect(unsprung?.moves.low ?? 0).toBe(0);
  });

  test('of parts that have no place nothing is said that moves no number', async () => {
    const { settlings } = await fittingOf([['closed_fraction: unknown', 'closed_fraction: 0.1']]);
    expect(settlings.every(({ share }) => share > 0 && Number.isFinite(share))).toBe(true);
  });
});
