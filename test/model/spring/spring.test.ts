/** What is known about a spring, turned into rate and solid height; estimates against what defines them. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { springRate, uncorrectedStress } from '../../../src/model/formula/coil.ts';
import type { Spring, WireData } from '../../../src/model/parts.ts';
import { type Grade, MATERIAL_NAMES, shearModulusOf } from '../../../src/model/spring/materials.ts';
import { bareSpring, isBare, resolveSpring, type SpringGiven, springFault } from '../../../src/model/spring/spring.ts';
import { ultimateStrengthOf } from '../../../src/model/spring/strength.ts';
import { between, forAny } from '../../setup/random.ts';

const ESTIMATE = {
  material: 'chrome_silicon',
  grade: null,
  shearModulus: null,
  thinStressShare: 0.56,
  thickStressShare: 0.45,
};
const ENDS = ['plain', 'plain_ground', 'closed', 'closed_ground'] as const;

function given(change: Partial<SpringGiven>): SpringGiven {
  return {
    ...{ name: 'S', price: 70, freeLength: 200, rate: 50, bore: 62, solidHeight: null, wire: null, totalCoils: null },
    ...{ ends: 'closed_ground', coating: 0, estimate: ESTIMATE, ...change },
  };
}

function wireOf(spring: Spring): WireData {
  if (spring.wire === null) throw new Error('no wire');
  return spring.wire;
}

const gridSpring = fc.record({
  freeLength: between(120, 350),
  rate: between(15, 180),
  bore: between(55, 75),
  ends: fc.constantFrom(...ENDS),
  coating: between(0, 0.2),
  estimate: fc.constantFrom(...MATERIAL_NAMES).map((material) => ({ ...ESTIMATE, material })),
});

describe('a spring whose wire nobody knows', () => {
  test('is solid at the stated shares of its wire’s strength, and has its rate', () => {
    forAny([gridSpring], (change) => {
      const { freeLength, rate, bore, coating, estimate } = change;
      const { solid, wire } = resolveSpring(given(change));
      for (const [d, height, share] of [
        [solid.thinWire, solid.least, 0.56],
        [solid.thickWire, solid.height, 0.45],
      ] as const) {
        const stress = uncorrectedStress(rate * (freeLength - height), bore + 2 * coating + (d ?? 0), d ?? 0);
        expect(stress / ultimateStrengthOf(estimate.material, d ?? 0)).toBeCloseTo(share, 9);
      }
      const D = bore + 2 * coating + (wire?.diameter ?? 0);
      const G = shearModulusOf(estimate.material, 10);
      expect(springRate(G, wire?.diameter ?? 0, D, wire?.activeCoils ?? 0) / rate).toBeCloseTo(1, 9);
    });
  });

  test('is judged on its thick end, which is never shorter than its thin one', () => {
    forAny([gridSpring], (change) => {
      const { solid, wire } = resolveSpring(given(change));
      expect(solid.source).toBe('estimated');
      expect(solid.least).toBeLessThan(solid.height);
      expect(solid.height).toBeLessThan(change.freeLength);
      expect(solid.thinWire ?? 0).toBeLessThan(solid.thickWire ?? 0);
      expect(wire).toMatchObject({ diameter: solid.thickWire, estimated: true });
    });
  });

  test('is crossed by the stress of exactly one wire at each share', () => {
    forAny([gridSpring], 50, (change) => {
      // The excess of stress over strength, straight from the formulas, changes sign once on a fine grid.
      const s = given(change);
      const coats = 2 * change.coating;
      const wires = Array.from({ length: 400 }, (_, k) => 3.5 + k * 0.05);
      const over = wires.map((d) => {
        const D = s.bore + coats + d;
        const active = (shearModulusOf(s.estimate.material, 10) * d ** 4) / (8 * D ** 3 * change.rate);
        const unground = change.ends === 'plain' || change.ends === 'closed';
        const dead = { plain: 0, plain_ground: 1, closed: 2, closed_ground: 2 }[change.ends];
        const height = (d + coats) * (active + dead + (unground ? 1.5 : 0));
        return (
          uncorrectedStress(change.rate * (s.freeLength - height), D, d) >
          0.45 * ultimateStrengthOf(s.estimate.material, d)
        );
      });
      expect(over.filter((value, k) => k > 0 && value !== over[k - 1]).length).toBeLessThanOrEqual(1);
      const thick = resolveSpring(s).solid.thickWire ?? 0;
      expect(over.filter(Boolean).length).toBe(wires.filter((d) => d < thick).length);
    });
  });

  test('grows with the assumed shear modulus as the equation says', () => {
    const soft = resolveSpring(given({ estimate: { ...ESTIMATE, shearModulus: 77_200 } }));
    const stiff = resolveSpring(given({ estimate: { ...ESTIMATE, shearModulus: 79_500 } }));
    expect(soft.solid.height).toBe(resolveSpring(given({})).solid.height);
    expect(stiff.solid.height).toBeGreaterThan(soft.solid.height);
  });
});

describe('the tall side of an estimate', () => {
  const unstated = (grade: Grade, change: Partial<SpringGiven> = {}) =>
    given({ ends: null, estimate: { ...ESTIMATE, grade }, ...change });

  /** A and m of R_m = A/d^m, and G of thick wire: Shigley, Tables 10-4 and 10-5; dead coils and d more by the ends: Table 10-1, EN 13906-1. */
  const STEELS = {
    music_wire: [2211, 0.145, 80_000],
    hard_drawn: [1783, 0.19, 78_600],
    oil_tempered: [1855, 0.187, 77_200],
    chrome_vanadium: [2005, 0.168, 77_200],
    chrome_silicon: [1974, 0.108, 77_200],
    chrome_silicon_en: [1974, 0.108, 79_500],
  } as const;
  const DEAD = { plain: [0, 1.5], plain_ground: [1, 0], closed: [2, 1.5], closed_ground: [2, 0] } as const;

  /** The solid height at 0.45 R_m by halving, straight from k = G d^4/(8 D^3 n) and tau = 8 F D/(pi d^3). */
  function solidAt(steel: keyof typeof STEELS, ends: keyof typeof DEAD, s: SpringGiven): number {
    const [A, m, G] = STEELS[steel];
    const [dead, taller] = DEAD[ends];
    const k = s.rate as number;
    const coats = 2 * (s.coating as number);
    const height = (d: number) => {
      const D = s.bore + coats + d;
      return (d + coats) * ((G * d ** 4) / (8 * D ** 3 * k) + dead + taller);
    };
    const tooThin = (d: number) => {
      const stress = (8 * k * (s.freeLength - height(d)) * (s.bore + coats + d)) / (Math.PI * d ** 3);
      return stress > 0.45 * A * d ** -m;
    };
    let [thin, thick] = [1, 40];
    for (let i = 0; i < 80; i++) {
      const middle = (thin + thick) / 2;
      if (tooThin(middle)) thin = middle;
      else thick = middle;
    }
    return height(thin);
  }
  const tallest = (s: SpringGiven, steels: readonly (keyof typeof STEELS)[], ends: readonly (keyof typeof DEAD)[]) =>
    Math.max(...steels.flatMap((steel) => ends.map((end) => solidAt(steel, end, s))));
  const ALL = Object.keys(STEELS) as (keyof typeof STEELS)[];

  test('is the tallest of every steel and shape of ends that nobody excludes, each solved by itself', () => {
    forAny([gridSpring], 40, (change) => {
      const free = { freeLength: change.freeLength, rate: change.rate, bore: change.bore, coating: change.coating };
      for (const [grade, steels] of [
        ['any', ALL],
        ['tempered', ALL.filter((name) => name !== 'hard_drawn')],
        ['alloy', ['chrome_vanadium', 'chrome_silicon', 'chrome_silicon_en']],
      ] as const) {
        const s = unstated(grade, free);
        expect(resolveSpring(s).solid.most).toBeCloseTo(tallest(s, steels, ENDS), 6);
        const stated = { ...s, ends: change.ends };
        const own = tallest(stated, steels, [change.ends]);
        const { solid } = resolveSpring(stated);
        expect(solid.most).toBeCloseTo(Math.max(own, solid.height), 6);
      }
    });
  });

  test('is hard-drawn, unground wire where nothing is stated: about a fifth taller than what coil bind is judged on', () => {
    const nobodys = unstated('any', { freeLength: 254, rate: 30.65, bore: 63.5 });
    const { solid } = resolveSpring(nobodys);
    expect(solid.most).toBeCloseTo(solidAt('hard_drawn', 'closed', nobodys), 6);
    expect(solid.most / solid.height).toBeGreaterThan(1.15);
    expect(solid.most / solid.height).toBeLessThan(1.3);
    expect(solid.least).toBeLessThan(solid.height);
  });

  test('is the thick end itself where material and ends are stated', () => {
    const { solid } = resolveSpring(given({}));
    expect(solid.most).toBe(solid.height);
  });

  test('leaves out ends that leave no room: coating so thick that unground coils would be longer than the spring', () => {
    // 3.5 coats of 5 mm each side are 35 mm: as long as the spring; two are 20 mm.
    const short = { freeLength: 35, rate: 400, bore: 60, coating: 5 };
    const { solid } = resolveSpring(unstated('any', short));
    expect(solid.most).toBe(solid.height);
    const longer = resolveSpring(unstated('any', { ...short, freeLength: 60 })).solid;
    expect(longer.most).toBeGreaterThan(longer.height);
  });

  test('of a spring whose wire is known and whose coils are not is 1.5 wires of unground ends', () => {
    const { solid } = resolveSpring(unstated('any', { wire: 10.5 }));
    expect(solid.most - solid.height).toBeCloseTo(1.5 * 10.5, 8);
    // Counted coils and no wire: 8 and a half more, of the thickest wire that has the rate.
    const counted = resolveSpring(unstated('any', { totalCoils: 8 })).solid;
    expect(counted.most).toBeCloseTo(9.5 * (counted.thickWire ?? 0), 8);
    // Where unground ends would be longer than the spring, it has none.
    const room = resolveSpring(unstated('any', { wire: 10.5, freeLength: solid.height + 10 })).solid;
    expect(room.most).toBe(room.height);
  });
});

describe('a solid height that was measured or catalogued', () => {
  test('is taken as it stands, whatever wire and coils say', () => {
    for (const change of [{}, { wire: 10 }, { wire: 10, totalCoils: 9 }, { totalCoils: 9 }]) {
      const { solid } = resolveSpring(given({ solidHeight: 88, ...change }));
      expect(solid).toEqual({ source: 'catalogue', height: 88, least: 88, most: 88, thinWire: null, thickWire: null });
    }
  });

  test('tells the wire, as an estimate: the one with that height and that rate', () => {
    const wire = wireOf(resolveSpring(given({ solidHeight: 88 })));
    expect(wire.estimated).toBe(true);
    expect(wire.diameter * wire.totalCoils).toBeCloseTo(88, 8);
    expect(springRate(77_200, wire.diameter, 62 + wire.diameter, wire.activeCoils)).toBeCloseTo(50, 8);
  });
});

test('a solid height below that of any wire is an error, whoever asks first', () => {
  const impossible = given({ solidHeight: 0.5, coating: 0.2 });
  expect(() => springFault(impossible)).toThrow(/no wire has both/);
  expect(() => resolveSpring(impossible)).toThrow(RangeError);
});

describe('wire and counted coils', () => {
  test.each([
    ['closed_ground', 0, 85],
    ['closed', 0, 100],
    ['plain', 0, 100],
    ['plain_ground', 0, 85],
    // Coating: twice its thickness on every wire of the stack.
    ['closed_ground', 0.1, 10.2 * 8.5],
    ['closed', 0.1, 10.2 * 10],
  ] as const)('with %s ends and %d mm of coating give the solid height %d mm', (ends, coating, height) => {
    const { solid } = resolveSpring(given({ wire: 10, totalCoils: 8.5, ends, coating }));
    expect(solid).toMatchObject({ source: 'wire x coils', thinWire: null, thickWire: null });
    expect(solid.height).toBeCloseTo(height, 9);
    expect(solid.least).toBe(solid.height);
  });

  test('give the rate too where none is given: D. Wright’s design notes, problem 2, 110 N/mm', () => {
    const spring = resolveSpring(
      given({
        rate: null,
        freeLength: 140,
        wire: 12.5,
        bore: 63.5,
        totalCoils: 7,
        estimate: { ...ESTIMATE, shearModulus: 79_000 },
      }),
    );
    expect(spring.rate).toBeCloseTo(109.8, 1);
    expect(spring.rateEstimated).toBe(true);
    expect(spring.solid.height).toBe(87.5);
    expect(wireOf(spring)).toMatchObject({ activeCoils: 5, totalCoils: 7, estimated: false });
  });
});

describe('one of wire and coils', () => {
  test('the wire alone gives its coils from the rate, as sure as the shear modulus', () => {
    const { solid, wire } = resolveSpring(given({ wire: 10.5 }));
    expect(solid).toMatchObject({ source: 'estimated', thinWire: 10.5, thickWire: 10.5 });
    const [D, d] = [72.5, 10.5];
    const coils = (G: number) => (G * d ** 4) / (8 * D ** 3 * 50) + 2;
    expect(solid.height).toBeCloseTo(d * coils(77_200 * 1.03), 8);
    expect(solid.least).toBeCloseTo(d * coils(77_200 / 1.03), 8);
    expect(wire).toMatchObject({ diameter: 10.5, estimated: false });
    expect(wire?.totalCoils).toBeCloseTo(coils(77_200), 8);
  });

  test('the coils alone give the wire from the rate, thicker for a lower shear modulus', () => {
    const { solid, wire } = resolveSpring(given({ totalCoils: 8 }));
    expect(solid.source).toBe('estimated');
    expect(wire?.estimated).toBe(true);
    for (const [d, G] of [
      [solid.thickWire ?? 0, 77_200 / 1.03],
      [solid.thinWire ?? 0, 77_200 * 1.03],
      [wire?.diameter ?? 0, 77_200],
    ] as const) {
      expect(springRate(G, d, 62 + d, 6)).toBeCloseTo(50, 8);
    }
    expect(solid.height).toBeCloseTo(8 * (solid.thickWire ?? 0), 8);
    expect(solid.least).toBeLessThan(solid.height);
  });
});

describe('a spring that can’t be worked with is named, not computed', () => {
  test.each([
    ['rate_unknown', { rate: null }],
    ['rate_unknown', { rate: null, wire: 10 }],
    ['no_active_coils', { totalCoils: 2 }],
    ['solid_not_shorter', { wire: 12, totalCoils: 17 }],
    ['solid_not_shorter', { solidHeight: 200 }],
    ['solid_not_shorter', { freeLength: 0.5, coating: 0.2 }],
  ] as const)('%s', (fault, change) => {
    expect(springFault(given(change))).toBe(fault);
    expect(() => resolveSpring(given(change))).toThrow(RangeError);
  });

  test('and a sound one has no fault', () => {
    expect(springFault(given({}))).toBeNull();
  });
});

describe('a spring of which only lengths are known', () => {
  const BARE = { rate: null, bore: Number.NaN } as const;

  test('is bare without a bore, or with neither a rate nor what it would follow from', () => {
    expect(isBare(given({}))).toBe(false);
    expect(isBare(given({ bore: Number.NaN }))).toBe(true);
    expect(isBare(given({ rate: null }))).toBe(true);
    expect(isBare(given({ rate: null, wire: 9 }))).toBe(true);
    expect(isBare(given({ rate: null, totalCoils: 8 }))).toBe(true);
    expect(isBare(given({ rate: null, wire: 9, totalCoils: 8 }))).toBe(false);
  });

  test('keeps its lengths and its rate, where that is known, and no wire', () => {
    expect(bareSpring(given({ ...BARE, solidHeight: 90 }))).toMatchObject({
      ...{ name: 'S', price: 70, freeLength: 200, rate: Number.NaN, bore: Number.NaN, wire: null },
      ...{ rateEstimated: false, solid: { height: 90, least: 90, most: 90, source: 'catalogue' } },
    });
    expect(bareSpring(given({ bore: Number.NaN, solidHeight: 90 })).rate).toBe(50);
  });

  test('is solid at wire times coils, coated, where nobody measured it, as the whole spring would be', () => {
    const counted = { wire: 9, totalCoils: 8, coating: 0.1 };
    const bare = bareSpring(given({ ...BARE, ...counted }));
    // 8 coils of 9.2 mm, ends ground.
    expect(bare.solid).toMatchObject({ height: expect.closeTo(73.6, 9), source: 'wire x coils' });
    for (const ends of ENDS) {
      const whole = resolveSpring(given({ ...counted, rate: null, ends }));
      expect(bareSpring(given({ ...BARE, ...counted, ends })).solid.height).toBeGreaterThanOrEqual(whole.solid.height);
    }
    expect(bareSpring(given({ ...BARE, ...counted, solidHeight: 80 })).solid).toMatchObject({
      ...{ height: 80, source: 'catalogue' },
    });
  });

  test('does not exist where it is as long solid as free, or where nothing tells', () => {
    for (const change of [{ solidHeight: 200 }, { wire: 20, totalCoils: 10 }, {}, { wire: 9 }]) {
      expect(() => bareSpring(given({ ...BARE, ...change }))).toThrow(RangeError);
    }
  });
});
