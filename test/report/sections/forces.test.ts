import { expect, test } from 'vitest';
import { forceCurveOf } from '../../../src/model/corner/forceCurve.ts';
import { forcesView } from '../../../src/report/sections/forces.ts';
import type { Combination } from '../../../src/result/result.ts';
import { plainCorner, plainSite, stopCurve } from '../../setup/corners.ts';
import { judged } from '../drawing/corners.ts';
import { combination, result, setup } from '../fixture.ts';

function withCurve(corner = plainCorner()): Combination {
  const { working, report } = judged(plainSite(), corner);
  const whole = { ...report, force_curve: forceCurveOf(working.state) };
  return { ...combination('low', 1), axles: { front: whole, rear: whole } };
}
const viewOf = (best: Combination) =>
  forcesView(result(), { setup: setup('low'), combination: best, plan: null, builds: null });

test('without curves in the record there is no chart', async () => {
  const bare = judged(plainSite(), plainCorner()).report;
  expect(await viewOf({ ...combination('low', 1), axles: { front: bare, rear: bare } })).toBeNull();
});

test('the metal that would meet first is the one met highest on the way into bump', async () => {
  const view = await viewOf(withCurve());
  // At full bump 333.2 mm: sleeve on isolator at 285 + 12 + 6 + 6 = 309, damper in at 320, tyre on arch at 262 mm.
  expect(view?.charts.map(({ metal }) => metal)).toEqual(['tyre on arch', 'tyre on arch']);
});

test('a stop of unknown force is told apart from one with a curve', async () => {
  expect((await viewOf(withCurve()))?.charts[0]?.isStopKnown).toBe(false);
  const stop = { ...plainCorner().bumpStop, length: 60, curve: stopCurve };
  const known = (await viewOf(withCurve(plainCorner({ bumpStop: stop }))))?.charts[0];
  expect(known?.isStopKnown).toBe(true);
  expect(known?.drawing.body).toContain('>bump stop</text>');
});
