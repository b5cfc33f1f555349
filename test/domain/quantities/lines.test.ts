import fc from 'fast-check';
import { evaluate } from 'mathjs';
import { expect, test } from 'vitest';
import type { Corner, Site } from '../../../src/domain/corner/site.ts';
import { cornerQuantities } from '../../../src/domain/quantities/corner.ts';
import { EXPRESSION_CONSTANTS, fillIn, workingLines } from '../../../src/domain/quantities/lines.ts';
import { PAIR, pairQuantities } from '../../../src/domain/quantities/pair.ts';
import { keyOf } from '../../../src/domain/quantities/quantity.ts';
import { workingOf } from '../../../src/domain/reporting/combination.ts';
import type { Scenario, Setup } from '../../../src/domain/scenario.ts';
import type { WorkingLine } from '../../../src/domain/workingLine.ts';
import { anyFullCorner, anyFullSite, plainCorner, plainSite, stopCurve } from '../../setup/corners.ts';

/** Works out every line that has an expression; what it says of symbols is told to `met`. */
function workOut(lines: readonly WorkingLine[], met: (symbol: string, expression: string) => void) {
  const scope = { ...EXPRESSION_CONSTANTS, ...Object.fromEntries(lines.map((l) => [l.symbol, l.value])) };
  for (const line of lines) {
    if (line.expression === null || line.value === null || !Number.isFinite(line.value)) continue;
    met(line.symbol, line.expression);
    const value = evaluate(line.expression, { ...scope }) as number;
    const size = Math.max(1, Math.abs(line.value));
    expect(Math.abs(value - line.value) / size, `${line.symbol} = ${line.expression}`).toBeLessThan(1e-9);
  }
}

/** Corners that between them print most formulas: few, so that they are worked out in an instant. */
test('the printed formulas of a handful of corners give the printed values', () => {
  const plain = plainCorner();
  const helper = { name: 'helper', price: null, freeLength: 50, blockHeight: 12, rate: 3, bore: 60 };
  const wire = {
    diameter: 9,
    activeCoils: 5.8,
    totalCoils: 7.8,
    material: 'chrome_silicon',
    materialGiven: true,
    estimated: false,
  };
  const charge = { chargePressure: 1.2, rodArea: 150, gasVolume: 110_000 };
  const velocities = [0.05, 0.2].map((velocity) => ({ velocity, bump: 2500 * velocity, rebound: 4500 * velocity }));
  const rodEnd = {
    ...{ name: 'rod end', price: null, threadStart: 28, threadEnd: 62, plateThickness: 4, upperBush: 12 },
    ...{ upperWashers: 3, nut: 8, jamNut: 6 },
  };
  const loads = [{ name: 'two up', sprungMass: 277, sprungLoad: 277 * 9.80665 }];
  const loaded = { loads, heaviestLoad: 277 * 9.80665 };
  const corners: readonly (readonly [Site, Corner])[] = [
    [plainSite(), plain],
    [
      plainSite({ ...loaded, bushes: { rate: 4, unloadedHeight: 345 } }),
      plainCorner({
        damper: { ...plain.damper, gas: { kind: 'charge', ...charge }, forceVelocity: velocities },
        helper: { ...helper, coupler: 4, couplerBore: 60 },
        spring: { ...plain.spring, wire },
        rodEnd,
      }),
    ],
    [
      plainSite({ bump: { kind: 'load', multiple: 2.5 }, frequencyBasis: 'ride' }),
      plainCorner({
        bumpStop: { ...plain.bumpStop, curve: stopCurve, packer: 6, packerDiameter: 52 },
        mount: { ...plain.mount, seat: 'moving', spacer: 8, raise: 20, spigot: 4 },
        isolator: null,
      }),
    ],
    [plainSite(), plainCorner({ damper: { ...plain.damper, gas: { kind: 'none' } } })],
    [
      plainSite(),
      plainCorner({
        sleeve: { ...plain.sleeve, ledgeHeight: 200, trim: 0 },
        bumpStop: { ...plain.bumpStop, diameter: 55 },
      }),
    ],
  ];
  const met = new Set<string>();
  for (const [site, corner] of corners) {
    workOut(workingLines(cornerQuantities(namesOf(site), 1460), workingOf(site, corner)), (symbol) => met.add(symbol));
  }
  expect(met.size).toBeGreaterThan(90);
});

const namesOf = (site: Site) => site.loads.map((load) => load.name);

test('every printed formula, worked out by mathjs on the printed values, gives the printed value', () => {
  const checked = new Map<string, Set<string>>();
  const met = (symbol: string, expression: string) => {
    checked.set(symbol, (checked.get(symbol) ?? new Set()).add(expression));
  };
  fc.assert(
    fc.property(anyFullSite, anyFullCorner, (site, corner) => {
      workOut(workingLines(cornerQuantities(namesOf(site), 1460), workingOf(site, corner)), met);
    }),
    { numRuns: 300 },
  );
  const formulas = (symbol: string) => [...(checked.get(symbol) ?? [])].sort();
  expect(formulas('F_g')).toHaveLength(3);
  expect(formulas('k_w')).toHaveLength(2);
  expect(formulas('a_fl')).toEqual(['r + s', 'r_bare + s']);
  expect(formulas('a_seat')).toEqual(['a_fl', 'a_fl + i']);
  expect(formulas('B_stop')).toEqual(['B', 'T']);
  expect(formulas('l_sleeve_washers')).toEqual(['T', 'T + p']);
  expect(formulas('fit_spring_over_spigot')).toHaveLength(2);
  for (const symbol of ['fit_thread_end', 'fit_stop_in_isolator', 'F_bush', 'zeta', 'gap_spare', 'tau_range']) {
    expect(formulas(symbol), symbol).toHaveLength(1);
  }
  expect(checked.size).toBeGreaterThan(90);
}, 60_000);

test('the printed formulas of front and rear together give the printed values', () => {
  const checked = new Set<string>();
  const car = { wheelbase: 2460, pitchInertiaRatio: 0.92, sprungCentreHeight: 545 };
  fc.assert(
    fc.property(fc.double({ min: 25, max: 70, noNaN: true }), (rate) => {
      const spring = { ...plainCorner().spring, rate };
      const front = workingOf(plainSite(), plainCorner());
      const rear = workingOf(plainSite({ axle: 'rear' }), plainCorner({ spring }));
      const pair = { scenario: { car } as unknown as Scenario, front, rear };
      workOut(workingLines(PAIR, pair), (symbol) => checked.add(symbol));
    }),
    { numRuns: 50 },
  );
  expect([...checked].sort()).toEqual(['below', 'f_b_p', 'f_faster', 'ratio']);
});

test('where the wire is an estimate, everything that follows from it says so', () => {
  const wire = { diameter: 9, activeCoils: 5, totalCoils: 7, material: 'chrome_silicon', materialGiven: true };
  const lines = (estimated: boolean) => {
    const spring = { ...plainCorner().spring, wire: { ...wire, estimated } };
    return workingLines(cornerQuantities([]), workingOf(plainSite(), plainCorner({ spring })));
  };
  const told = (all: readonly WorkingLine[]) => all.filter((l) => /estimated/.test(l.source)).map((l) => l.symbol);
  expect(told(lines(false))).toEqual([]);
  const symbols = [
    'd_wire',
    'n_a',
    'n_t',
    'D_mean',
    'm_spring',
    'f_surge',
    'tau_solid',
    'x_buckle',
    'F_n',
    'tau_full_c',
  ];
  for (const symbol of symbols) expect(told(lines(true)), symbol).toContain(symbol);
});

test('symbols and keys are each used once', () => {
  const setup = {
    loadCases: [
      { name: 'kerb', kind: 'multiple', factor: { front: 2, rear: 2 } },
      { name: 'bend', kind: 'cornering', lateral: 0.8 },
    ],
  } as unknown as Setup;
  const all = [...cornerQuantities(['two up', 'luggage'], 1460), ...pairQuantities(setup)];
  const symbols = all.map((q) => q.symbol);
  const keys = all.map(keyOf);
  expect(symbols.filter((s, k) => symbols.indexOf(s) !== k)).toEqual([]);
  expect(keys.filter((s, k) => keys.indexOf(s) !== k)).toEqual([]);
});

test('numbers go in for symbols, negative ones in brackets, functions and unknown names stay', () => {
  const values = new Map([
    ['a', 1.23456789],
    ['b', -2],
  ]);
  expect(fillIn('min(a, b) + c', values)).toBe('min(1.23457, (-2)) + c');
});
