import { expect, test } from 'vitest';
import { snakeKey } from '../../../src/model/keys.ts';
import { FAMILIES } from '../../../src/model/scenario.ts';
import { resultsJson } from '../../../src/report/embed.ts';
import { reportHtml } from '../../../src/report/html.ts';
import { planView } from '../../../src/report/sections/plan.ts';
import { combinationOf, gainText } from '../../../src/report/text/answers.ts';
import { resultSchema, validate } from '../../setup/resultSchema.ts';
import { combination, HIDDEN, HOSTILE, result, setup } from '../fixture.ts';
import { oneSet, ownSets, planned, planPart, plans } from '../planFixture.ts';

const textOf = (html: string, id = 'answer') =>
  (new RegExp(`<section id="${id}"[\\s\\S]*?</section>`).exec(html)?.[0] ?? '')
    .replace(/<[^>]*>/g, ' ')
    .replace(/&nbsp;/g, ' ')
    .replace(/\s+/g, ' ');

test('the plan is the answer: parts that all setups share stand once, perch heights and travel per setup', async () => {
  const text = textOf(await reportHtml(planned()));
  expect(text).toMatch(
    /^ What to buy One build for low and street The plan, bought and cut once: in front coil 60 x 190 x 50/,
  );
  expect(text.match(/sleeve 150 trimmed by/g)).toHaveLength(1);
  expect(text).toContain('plan-0000001 score 0.400 of 1 all parts , both sides 800.00 EUR');
  expect(text).toMatch(
    /Setup street street-F4F1-R2K1-7Q rear over front frequency 1\.13 .*perch above lower eye 213\.3 mm/,
  );
});

test('a setup’s own best stands behind the plan, folded, and not on paper', async () => {
  const html = await reportHtml(planned());
  expect(html).toMatch(/<section id="alone" class="on-screen"/);
  const text = textOf(html, 'alone');
  expect(text).toMatch(/^ If the car had only one of the setups/);
  expect(text.match(/Only (low|street) ?: /g)).toHaveLength(2);
  expect(await reportHtml(result())).not.toContain('id="alone"');
});

test('the table sets one set against a set each, with the gain of the figures shown and the setup alone', () => {
  const view = planView(planned());
  const [low, street] = view?.comparison.setups ?? [];
  expect(low?.rows.at(-1)).toMatchObject({
    label: 'score',
    one: '0.500',
    own: '0.600',
    gain: '+0.100',
    alone: '0.700',
  });
  expect(low?.rows[4]).toMatchObject({
    label: 'front-rear balance',
    one: '0.88',
    own: '0.88',
    gain: '0.00',
    alone: '0.83',
  });
  expect(street?.rows.at(-1)?.alone).toBe('–');
  expect(view?.comparison.total).toMatchObject({ one: '0.400', own: '0.600', gain: '+0.200', alone: '–' });
  expect(view?.comparison.money).toBe(
    'Springs and helpers cost 600.50 EUR with a set each, 300.00 EUR with one; all parts together +300.50 EUR.',
  );
});

test('a gain is the difference of what is shown, with a true minus', () => {
  expect(gainText(0.4449, 0.4451, 2)).toBe('+0.01');
  expect(gainText(0.9, 0.7, 2)).toBe('\u22120.20');
  expect(gainText(0.3, 0.3, 3)).toBe('0.000');
  expect(gainText(null, 0.3, 3)).toBe('–');
});

test.each([
  [
    'no set for all',
    { one_set: null },
    'No single set of springs works in every setup; with a set for each the plan scores 0.600 of 1.',
  ],
  ['nothing at all', { one_set: null, own_sets: null }, 'Neither one set of springs nor a set for each setup works'],
  ['the same set', { own_sets: { ...oneSet } }, 'A set of springs for each setup gains nothing'],
  ['a gain', {}, 'A set of springs for each setup lifts the plan from 0.400 to 0.600 of 1 (+0.200).'],
])('the verdict says so: %s', (_, change, verdict) => {
  const { comparison } = plans();
  expect(planView(planned({ comparison: { ...comparison, ...change } }))?.comparison.verdict).toContain(verdict);
});

test('setups with springs of their own are told apart', async () => {
  const text = textOf(await reportHtml(planned({ swapped: ['helper', 'spring'], plans: [ownSets] })));
  expect(text).toMatch(/in front for low coil 60 x 190 x 50 .*; for street coil 60 x 190 x 50/);
  expect(text).toContain('May be swapped between setups: helper spring, main spring.');
});

test('where no plan works the answer’s first line says so, and each setup shows its own best', async () => {
  const text = textOf(await reportHtml(planned({ plans: [] })));
  expect(text).toMatch(
    /^ What to buy No plan works in every setup: each needs a build of its own\. With everything shared, 1.204 front and 77 rear combinations/,
  );
  expect(text.match(/Best of [\d\s]+ workable pairs/g)).toHaveLength(2);
});

test('estimates of all setups stand once, and are called estimates', async () => {
  const text = textOf(await reportHtml(planned()));
  expect(
    text.match(
      /estimate : front: the solid height of coil 60 x 190 x 50|estimate front: the solid height of coil 60 x 190 x 50/g,
    ),
  ).toHaveLength(1);
  // Beside the tightest clearance of both corners of both setups.
  expect(text.match(/the spring’s solid height is an estimate/g)).toHaveLength(4);
});

test('a result without plans has no section', async () => {
  expect(planView(result())).toBeNull();
  const html = await reportHtml(result());
  expect(html).not.toContain('id="plan"');
  expect(html).not.toContain('class="answer planned"');
});

test('a plan whose combination is not in the result is a mistake of the program', () => {
  expect(() => combinationOf(planned(), planPart('low', 9, 0.5))).toThrow('no combination');
});

test('hostile names stay names', async () => {
  const part = { ...planPart('low', 1, 0.5), setup: HOSTILE };
  const evil = { ...oneSet, setups: [part, part] };
  const given = result({
    setups: [setup(HOSTILE, { shortlist: [combination('low', 1)] })],
    plans: plans({
      setups: [HOSTILE, HOSTILE],
      plans: [evil],
      comparison: { one_set: evil, own_sets: evil, alone: [part, part] },
      combinations: [],
    }),
  });
  const html = (await reportHtml(given)).replace(/<script type="application\/json"[\s\S]*?<\/script>/, '');
  expect(html).not.toMatch(/<b onclick|<script>alert/);
  expect(HIDDEN.filter((character) => html.includes(character))).toEqual([]);
});

test('the schema accepts plans, refuses a key too many, and knows every family', () => {
  const good = JSON.parse(resultsJson(planned()));
  validate(good);
  expect(validate.errors).toBeNull();
  expect(validate({ ...good, plans: { ...good.plans, extra: 1 } })).toBe(false);
  expect(resultSchema.$defs.PlansResult.properties.swapped.items).toEqual({ $ref: '#/$defs/Family' });
  expect(resultSchema.$defs.Family.enum).toEqual(FAMILIES.map(snakeKey));
});
