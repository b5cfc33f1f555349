/** One spring asked for in a few words, among the parts of a scenario, whichever level it is of. */
import { expect, test } from 'vitest';
import { fittingsOf } from '../../src/fitting/fitting.ts';
import { askedSpring, benchOf, withSprings } from '../../src/fitting/oneSpring.ts';
import { benchOfText, CORNER_TEXT, PARTS_TEXT } from '../setup/benchScenario.ts';
import { realScenario } from '../setup/scenarios.ts';

const springsIn = (asked: ReturnType<typeof askedSpring>) => {
  if (asked === null || !('springs' in asked)) throw new Error('no spring');
  return asked;
};

test('a spring in a few words takes the bore of the scenario’s own, and says so', async () => {
  const car = benchOf(await realScenario('hill-hatch'));
  const { springs, taken } = springsIn(askedSpring('220 mm, 40 N/mm, solid 90 mm', car));
  expect(springs).toMatchObject([{ freeLength: 220, rate: 40, bore: 60, solid: { height: 90 } }]);
  expect(taken).toBe('bore 60.0 mm, as the scenario’s own springs');
  expect(springsIn(askedSpring('220 mm, solid 90 mm, bore 65 mm', car))).toMatchObject({
    springs: [{ bore: 65, rate: Number.NaN }],
    taken: null,
  });
});

test('where no bore is known none is taken', async () => {
  const { scenario } = await benchOfText(PARTS_TEXT);
  expect(springsIn(askedSpring('280 mm, solid 100 mm', scenario))).toMatchObject({
    springs: [{ bore: Number.NaN }],
    taken: null,
  });
});

test('what cannot be told is null, what can be and is wrong says every problem', async () => {
  const { scenario } = await benchOfText(PARTS_TEXT);
  const foundIn = (text: string) => {
    const asked = askedSpring(text, scenario);
    return asked !== null && 'complaints' in asked ? asked.complaints.map(({ found }) => found) : asked;
  };
  expect(askedSpring('soft', scenario)).not.toBeNull();
  expect(askedSpring('280 mm, soft', scenario)).toBeNull();
  expect(foundIn('28, solid 3')).toHaveLength(2);
  expect(foundIn('280 mm')).toEqual([expect.stringContaining('solid height nothing tells')]);
  expect(foundIn('100 mm, solid 120 mm')).toEqual([expect.stringContaining('solid height of 120')]);
  // 9 mm x 40 coils are far more than 100 mm.
  expect(foundIn('100 mm, wire 9 mm, 40 coils, bore 60 mm')).toHaveLength(1);
  // The same of a wire whose spring has no bore: only its lengths are known.
  expect(foundIn('100 mm, wire 9 mm, 40 coils')).toHaveLength(1);
});

test('wire and coils alone give the solid height', async () => {
  const { scenario } = await benchOfText(PARTS_TEXT);
  // Closed and ground ends: as many coils as were counted, and half a coil that the ends may add.
  const { springs } = springsIn(askedSpring('280 mm, wire 10 mm, 8 coils', scenario));
  expect(springs[0]?.solid.height).toBeGreaterThanOrEqual(80);
  expect(springs[0]?.solid.height).toBeLessThanOrEqual(90);
});

test('among the parts of a car, without its wishes, on both axles; of one axle on that', async () => {
  const car = benchOf(await realScenario('loaded-estate'));
  expect(Object.keys(car.axles)).toEqual(['front', 'rear']);
  const { springs } = springsIn(askedSpring('220 mm, 40 N/mm, solid 90 mm', car));
  const asked = withSprings(car, springs);
  expect(asked.axles.rear?.options.spring).toBe(springs);
  expect(asked.axles.rear?.options.damper).toBe(car.axles.rear?.options.damper);
  const { scenario } = await benchOfText(CORNER_TEXT);
  expect(fittingsOf(withSprings(scenario, springs)).map(({ axle, level }) => [axle, level])).toEqual([
    ['front', 'corner'],
  ]);
});
