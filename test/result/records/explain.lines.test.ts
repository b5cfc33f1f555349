import { evaluate } from 'mathjs';
import { expect, test } from 'vitest';
import type { Site } from '../../../src/model/corner/site.ts';
import type { LoadCase } from '../../../src/model/scenario.ts';
import { cornerQuantities } from '../../../src/result/quantities/corner.ts';
import { PAIR, pairQuantities } from '../../../src/result/quantities/pair.ts';
import { keyOf, type WorkingLine } from '../../../src/result/quantities/quantity.ts';
import { workingOf } from '../../../src/result/records/combination.ts';
import { EXPRESSION_CONSTANTS, fillIn, workingLines } from '../../../src/result/records/explain.ts';
import {
  anyFullCorner,
  anyFullSite,
  type CornerChange,
  loadState,
  plainCharge,
  plainCorner,
  plainPair,
  plainSetup,
  plainSite,
  plainWire,
  type SiteChange,
  sprung,
  stopCurve,
} from '../../setup/corners.ts';
import { between, forAny } from '../../setup/random.ts';

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
  const velocities = [0.05, 0.2].map((velocity) => ({ velocity, bump: 2500 * velocity, rebound: 4500 * velocity }));
  const loaded = { loads: [loadState('two up', 277)], heaviestLoad: sprung(277).sprungLoad };
  const cases: readonly (readonly [SiteChange, CornerChange])[] = [
    [{}, {}],
    [
      { ...loaded, bushes: { rate: 4, unloadedHeight: 345 } },
      {
        damper: { gas: { ...plainCharge, chargePressure: 1.2 }, forceVelocity: velocities },
        ...{ helper: {}, spring: { wire: plainWire }, rodEnd: {} },
      },
    ],
    [
      { bump: { kind: 'load', multiple: 2.5 }, frequencyBasis: 'ride' },
      {
        bumpStop: { curve: stopCurve, packer: 6, packerDiameter: 52 },
        mount: { seat: 'moving', spacer: 8, raise: 20, spigot: 4 },
        isolator: null,
      },
    ],
    [{}, { damper: { gas: { kind: 'none' } } }],
    [{}, { sleeve: { ledgeHeight: 200, trim: 0 }, bumpStop: { diameter: 55 } }],
  ];
  const met = new Set<string>();
  for (const [change, parts] of cases) {
    const site = plainSite(change);
    const lines = workingLines(cornerQuantities(namesOf(site), 1460), workingOf(site, plainCorner(parts)));
    workOut(lines, (symbol) => met.add(symbol));
  }
  expect(met.size).toBeGreaterThan(90);
});

const namesOf = (site: Site) => site.loads.map((load) => load.name);

test('every printed formula, worked out by mathjs on the printed values, gives the printed value', () => {
  const checked = new Map<string, Set<string>>();
  const met = (symbol: string, expression: string) => {
    checked.set(symbol, (checked.get(symbol) ?? new Set()).add(expression));
  };
  forAny([anyFullSite, anyFullCorner], 300, (site, corner) => {
    workOut(workingLines(cornerQuantities(namesOf(site), 1460), workingOf(site, corner)), met);
  });
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
});

test('the printed formulas of front and rear together give the printed values', () => {
  const checked = new Set<string>();
  forAny([between(25, 70)], 50, (rate) => {
    const { scenario, workings } = plainPair(plainCorner(), plainCorner({ spring: { rate } }));
    workOut(workingLines(PAIR, { scenario, ...workings }), (symbol) => checked.add(symbol));
  });
  expect([...checked].sort()).toEqual(['below', 'f_b_p', 'f_faster', 'ratio']);
});

test('where the wire is an estimate, everything that follows from it says so', () => {
  const lines = (estimated: boolean) => {
    const wire = { ...plainWire, activeCoils: 5, totalCoils: 7, estimated };
    return workingLines(cornerQuantities([]), workingOf(plainSite(), plainCorner({ spring: { wire } })));
  };
  const told = (all: readonly WorkingLine[]) => all.filter((l) => /estimated/.test(l.source)).map((l) => l.symbol);
  expect(told(lines(false))).toEqual([]);
  const symbols = 'd_wire n_a n_t D_mean m_spring f_surge tau_solid x_buckle F_n tau_full_c'.split(' ');
  for (const symbol of symbols) expect(told(lines(true)), symbol).toContain(symbol);
});

test('symbols and keys are each used once', () => {
  const loadCases: LoadCase[] = [
    { name: 'kerb', kind: 'multiple', factor: { front: 2, rear: 2 } },
    { name: 'bend', kind: 'cornering', lateral: 0.8 },
  ];
  const all = [...cornerQuantities(['two up', 'luggage'], 1460), ...pairQuantities(plainSetup({ loadCases }))];
  const symbols = all.map((q) => q.symbol);
  const keys = all.map(keyOf);
  expect(symbols.filter((s, k) => symbols.indexOf(s) !== k)).toEqual([]);
  expect(keys.filter((s, k) => keys.indexOf(s) !== k)).toEqual([]);
});

test('numbers go in for symbols, negative ones in brackets, functions and unknown names stay', () => {
  const values = new Map(Object.entries({ a: 1.23456789, b: -2 }));
  expect(fillIn('min(a, b) + c', values)).toBe('min(1.23457, (-2)) + c');
});
