import fc from 'fast-check';
import { expect, test } from 'vitest';
import { cornerId, fingerprintOf, fnv1a, fromBase32, pairId, parsePairId, toBase32 } from '../../src/domain/ids.ts';
import type { Damper, DamperBody } from '../../src/domain/parts.ts';
import type { Scenario } from '../../src/domain/scenario.ts';
import { realScenario } from '../setup/scenarios.ts';

test('indices and base 32 undo each other', () => {
  fc.assert(
    fc.property(fc.nat({ max: 2 ** 31 - 1 }), (n) => {
      expect(fromBase32(toBase32(n))).toBe(n);
    }),
  );
  expect(fromBase32('1O')).toBeNaN();
  expect(fromBase32('')).toBeNaN();
  expect(cornerId('rear', 33)).toBe('R11');
});

test('an id is read back in either case, and belongs to one version of the parts', () => {
  const id = pairId({ setup: 'low', front: 4711, rear: 815 }, 'abcd0123');
  expect(parsePairId(id.toLowerCase(), 'abcd0123')).toEqual({ ok: true, id: { setup: 'low', front: 4711, rear: 815 } });
  expect(parsePairId(id, 'ffffffff')).toEqual({ ok: false, reason: 'check' });
  expect(parsePairId('low-F1-R', 'abcd0123')).toEqual({ ok: false, reason: 'form' });
  // No letter O among our digits: well formed to the eye, but no number.
  for (const text of ['low-FO-R1-00', 'low-F1-RO-00']) {
    expect(parsePairId(text, 'abcd0123')).toEqual({ ok: false, reason: 'form' });
  }
});

test('a mistyped character is noticed', () => {
  const id = pairId({ setup: 'street', front: 900, rear: 77 }, 'abcd0123');
  const wrong = id.replace(/F(.)/, (_, c: string) => `F${c === '1' ? '2' : '1'}`);
  expect(parsePairId(wrong, 'abcd0123').ok).toBe(false);
});

test('FNV-1a gives its published test vectors', () => {
  // Fowler, Noll & Vo, reference test vectors (IETF draft-eastlake-fnv, appendix C).
  expect(fnv1a('')).toBe(0x811c9dc5);
  expect(fnv1a('a')).toBe(0xe40c292c);
  expect(fnv1a('foobar')).toBe(0xbf9cf968);
});

test('the last bit of a number, which engines round differently, makes no other scenario; a tenth digit does', async () => {
  const scenario = await realScenario('hill-hatch');
  const moved = (factor: number): Scenario => {
    const { front } = scenario.axles;
    const spring = front.options.spring.map((s) => ({ ...s, freeLength: s.freeLength * factor }));
    return { ...scenario, axles: { ...scenario.axles, front: { ...front, options: { ...front.options, spring } } } };
  };
  expect(moved(1 + 2 ** -52).axles.front.options.spring).not.toEqual(scenario.axles.front.options.spring);
  expect(fingerprintOf(moved(1 + 2 ** -52))).toBe(fingerprintOf(scenario));
  expect(fingerprintOf(moved(1 + 1e-8))).not.toBe(fingerprintOf(scenario));
});

test('finding out what a damper’s body is changes no id: it is no other part', async () => {
  const scenario = await realScenario('hill-hatch');
  const as = (body: DamperBody | undefined): Scenario => {
    const { front } = scenario.axles;
    const damper = front.options.damper.map((one) => ({ ...one, body }) as Damper);
    return { ...scenario, axles: { ...scenario.axles, front: { ...front, options: { ...front.options, damper } } } };
  };
  // Undefined: written to no JSON, as before bodies were told apart.
  for (const body of ['unknown', 'twin_tube', 'single_tube', undefined] as const) {
    expect(fingerprintOf(as(body))).toBe(fingerprintOf(scenario));
  }
});
