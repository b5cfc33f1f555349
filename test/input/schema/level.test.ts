/** What each level of a scenario can do without, and what it takes for what nobody knows. */
import { describe, expect, test } from 'vitest';
import { parse } from 'yaml';
import { z } from 'zod';
import { fittingsOf } from '../../../src/fitting/fitting.ts';
import { bare } from '../../../src/input/schema/issues.ts';
import { UNKNOWNS, type Unknown } from '../../../src/input/schema/leaves.ts';
import { benchAxle, axle as carAxle } from '../../../src/input/schema/scenario.ts';
import { cornerAt } from '../../../src/model/corner/options.ts';
import { siteOf } from '../../../src/model/corner/site.ts';
import type { AxleOptions } from '../../../src/model/scenario.ts';
import { toleranceBands } from '../../../src/result/tolerance/bands.ts';
import { assumedField, TOLERANCE_INPUTS } from '../../../src/result/tolerance/inputs.ts';
import { benchOfText, CORNER_TEXT, PARTS_TEXT, problemsInBench } from '../../setup/benchScenario.ts';
import { realScenario, SCENARIOS } from '../../setup/scenarios.ts';
import { type Edit, edited, problemsOf, readEdited, SCENARIO, scenarioOf } from '../edit.ts';

/** Numbers and words that somebody wrote down: the format's version is none. */
function valuesIn(node: unknown): unknown[] {
  return typeof node === 'object' && node !== null ? Object.values(node).flatMap(valuesIn) : [node];
}
const countIn = (text: string) => valuesIn(parse(text).axles).length;

describe('few values answer', () => {
  test('of parts: at most 20, a verdict, both ends of the perch and no heights', async () => {
    expect(countIn(PARTS_TEXT)).toBeLessThanOrEqual(20);
    const [fitting, ...others] = fittingsOf((await benchOfText(PARTS_TEXT)).scenario);
    expect(others).toEqual([]);
    expect(fitting).toMatchObject({ axle: 'front', level: 'parts', combinations: 1, counts: { works: 1 } });
    // a_seat = 12 - 10 = 2. Lowest: down on a ring of 8 mm, 150 + 8 + 11 = 169, or 474 - 2 - 280 = 192.
    expect(fitting?.best[0]?.state.low).toEqual({ perch: 192, limit: 'spring_loose' });
    // 318 + 60 x 0.35 = 339, less 2, 106 and a give of 3; the usual margin to coil bind comes on top.
    const { high, corner } = fitting?.best[0]?.state ?? {};
    expect(high?.limit).toBe('coil_bind');
    expect(high?.perch).toBeLessThan(339 - 2 - 106 - 3);
    expect(corner?.isolator).toBeNull();
    expect(fitting?.best[0]?.wheel).toBeNull();
  });

  test('of a corner: at most 30, with ride heights and a frequency', async () => {
    expect(countIn(CORNER_TEXT)).toBeLessThanOrEqual(30);
    const [fitting] = fittingsOf((await benchOfText(CORNER_TEXT)).scenario);
    const { wheel } = fitting?.best[0] ?? {};
    expect(fitting?.level).toBe('corner');
    expect(wheel?.low.height).toBeLessThan(wheel?.high.height ?? 0);
    expect(wheel?.isTyreJudged).toBe(false);
    // k_w = 34 x 0.95^2, on 268 - 32 kg; the gas adds little: f = sqrt(k_w / m) / 2 pi.
    const bareHertz = Math.sqrt((34000 * 0.95 ** 2) / (268 - 32)) / (2 * Math.PI);
    expect(Math.abs((wheel?.middle.frequency ?? 0) - bareHertz)).toBeLessThan(0.05);
  });
});

test('the bench knows every field of a car’s axle, and no other', () => {
  expect(Object.keys(benchAxle.shape).sort()).toEqual(Object.keys(carAxle.shape).sort());
});

const BENCH_SLIPS: readonly (readonly [title: string, from: string, to: string, usual: RegExp])[] = [
  ['a ledge of 15 mm', 'ledge_height: 150 mm', 'ledge_height: 15 mm', /^40 mm to 350 mm/],
  ['a load of 591 kg', 'wheel_load: 268 kg', 'wheel_load: 591 kg', /^80 kg to 550 kg/],
  ['a rate of 194 N/mm', 'rate: 34 N/mm', 'rate: 194 N/mm', /^8 N\/mm to 160 N\/mm/],
  ['a solid height of 10.6 mm', 'solid_height: 106 mm', 'solid_height: 10.6 mm', /^20 mm to 260 mm/],
  // 0.2 and 0.75 of 280 mm.
  ['a solid height beside its free length', 'solid_height: 106 mm', 'solid_height: 50 mm', /^56 mm to 210 mm beside/],
  [
    'an unsprung mass beside its load',
    'wheel_load: 268 kg',
    'wheel_load: 268 kg\n    unsprung_mass: 70 kg',
    /^10 kg|beside/,
  ],
];

describe('slips of the pen on the bench', () => {
  test.each(BENCH_SLIPS.slice(0, 5))('%s warns with its place and what is usual', async (_, from, to, usual) => {
    const text = edited(CORNER_TEXT, [[from, to]]);
    const { warnings } = await benchOfText(text);
    expect(warnings).toHaveLength(1);
    expect(warnings[0]?.usual).toMatch(usual);
    expect(warnings[0]).toMatchObject({ file: 'scenario.yaml' });
    expect(text.split('\n')[(warnings[0]?.line ?? 0) - 1]).toContain(to);
  });

  test('a row of a catalogue and loads of both axles warn, too, and what is sound or left out does not', async () => {
    const text = CORNER_TEXT.replace(/springs: .*/, 'springs: [{ catalogue: springs.csv }]');
    const rows = 'free_length_mm,rate_n_per_mm,bore_mm,solid_height_mm\n280,34,60,10.6\n';
    expect((await benchOfText(text, rows)).warnings.map(({ file, found }) => [file, found])).toEqual([
      ['springs.csv', expect.stringContaining('10.6 mm')],
    ]);
    const [, , front = ''] = CORNER_TEXT.split(/(?=^axles:)|(?<=^axles:\n)/m);
    const both = `${CORNER_TEXT}${front.replace('front:', 'rear:').replace('268 kg', '100 kg')}`;
    expect((await benchOfText(both)).warnings.map(({ found, usual }) => [found, usual])).toEqual([
      // 0.55 of 268 kg.
      ['`wheel_load` of `100 kg`', expect.stringMatching(/^147 kg to .* beside a front wheel load of 268 kg/)],
    ]);
    const rearOnly = both.replace('    wheel_load: 268 kg\n', '');
    for (const sound of [PARTS_TEXT, CORNER_TEXT, rearOnly]) expect((await benchOfText(sound)).warnings).toEqual([]);
  });
});

/** Every field of an axle that takes `unknown` for a usual value: `bump_stops[].closed_fraction`. */
function unknownsOf(schema: z.core.$ZodType, path = ''): [string, Unknown][] {
  const inner = bare(schema);
  const own = UNKNOWNS.get(inner as z.ZodType)?.unknown;
  if (own !== undefined) return own === null ? [] : [[path, own]];
  if (inner instanceof z.ZodArray) return unknownsOf(inner.element, `${path}[]`);
  if (inner instanceof z.ZodUnion) return inner.options.flatMap((option) => unknownsOf(option, path));
  if (!(inner instanceof z.ZodObject)) return [];
  return Object.entries(inner.shape).flatMap(([key, field]) =>
    unknownsOf(field as z.core.$ZodType, path === '' ? key : `${path}.${key}`),
  );
}

interface Assumable {
  readonly value: string;
  /** What half-width in which unit; as the model names part and field, and what it then is. */
  readonly by: string;
  readonly half: number;
  readonly at?: readonly [family: keyof AxleOptions, field: string];
  readonly input?: string;
}

/** Common practice, no source: what such parts usually are, and how far off that may be. */
const USUAL: Readonly<Record<string, Assumable>> = {
  unsprung_mass: { value: '32 kg', by: '12 kg', half: 12, input: 'unsprung_mass' },
  'dampers[].gas': { value: '150 N', by: '90 %', half: 0.9, at: ['damper', 'gas'], input: 'gas' },
  'mounts[].lower_bush': { value: '15 mm', by: '6 mm', half: 6, at: ['mount', 'lowerBush'] },
  'mounts[].washers': { value: '3 mm', by: '2 mm', half: 2, at: ['mount', 'washers'] },
  'mounts[].bush_give': { value: '3 mm', by: '2 mm', half: 2, at: ['mount', 'bushGive'], input: 'bush_give' },
  'isolators[].thickness': {
    value: '6 mm',
    by: '3 mm',
    half: 3,
    at: ['isolator', 'thickness'],
    input: 'isolator_thickness',
  },
  'bump_stops[].closed_fraction': {
    value: '0.35',
    by: '0.15',
    half: 0.15,
    at: ['bumpStop', 'closedFraction'],
    input: 'closed_fraction',
  },
  'perches[].lock_ring': { value: '8 mm', by: '4 mm', half: 4, at: ['perch', 'lockRing'], input: 'perch_height' },
  'perches[].engagement': { value: '6 mm', by: '4 mm', half: 4, at: ['perch', 'engagement'] },
};
const USUAL_OF_A_CAR: Readonly<Record<string, Assumable>> = {
  ...USUAL,
  tyre_rate: { value: '215 N/mm', by: '50 N/mm', half: 50 },
};

test('the fields that have a usual value are these, at either level', () => {
  expect(
    unknownsOf(benchAxle)
      .map(([path]) => path)
      .sort(),
  ).toEqual(Object.keys(USUAL_OF_A_CAR).sort());
  expect(
    unknownsOf(carAxle)
      .map(([path]) => path)
      .sort(),
  ).toEqual(Object.keys(USUAL_OF_A_CAR).sort());
});

/** A field of the front axle set to `unknown`: in its first place in the text, or as the first of its part. */
function unknownIn(text: string, path: string): string {
  const [list = '', field] = path.split('[].');
  if (field === undefined) {
    const line = new RegExp(`^    ${list}: .*$`, 'm');
    return line.test(text) ? text.replace(line, `    ${list}: unknown`) : `${text}    ${list}: unknown\n`;
  }
  if (list === 'isolators' && !text.includes('isolators: [{')) {
    return text.replace('    perches:', `    isolators: [{ ${field}: unknown }]\n    perches:`);
  }
  const written = new RegExp(`${field}: [^,}\n]+`);
  const line = new RegExp(`^    ${list}: \\[\\{ .*$`, 'm').exec(text)?.[0] ?? '';
  return text.replace(
    line,
    written.test(line) ? line.replace(written, `${field}: unknown`) : line.replace('{ ', `{ ${field}: unknown, `),
  );
}

describe('a field that nobody knows', () => {
  test.each(Object.entries(USUAL))(
    '%s on the bench takes its usual value, says so, and is no surer than that',
    async (path, usual) => {
      const { scenario } = await benchOfText(unknownIn(CORNER_TEXT, path));
      const bench = scenario.axles.front;
      const said = scenario.assumptions.find(({ field }) => field === `axles.front.${path.replace('[]', '[1]')}`);
      expect(said?.value).toContain(`${usual.value}, assumed: ${usual.by} either way`);
      expect(said?.source).toContain('common practice, no source');
      if (bench?.wheel === null || bench === undefined) throw new Error('no corner');
      const corner = cornerAt(bench.options, 0);
      const part = usual.at ? corner[usual.at[0]] : bench.own;
      expect(part?.assumed?.[usual.at?.[1] ?? 'unsprungMass']).toBe(usual.half);
      if (usual.input === undefined) return;
      const axle = { ...bench.own, ...bench.wheel };
      const wheel = { front: axle, rear: axle };
      const setup = {
        axles: {},
        bump: { kind: 'closed' },
        standingOnStop: false,
        frequencyBasis: 'body',
        loadStates: [],
      };
      const site = siteOf({ margins: scenario.margins, axles: wheel }, setup as never, 'front');
      const width = TOLERANCE_INPUTS.find(({ id }) => id === usual.input)?.width({ site, corner }, scenario.tolerances);
      const half = path === 'unsprung_mass' ? 12 / 32 : usual.half;
      expect(width).toEqual({ down: half, up: half });
      if (usual.at) expect(assumedField(usual.input, { corner })).toEqual(usual.at);
    },
  );

  const OF_FIXTURE: readonly (readonly [path: string, edit: Edit])[] = [
    ['unsprung_mass', ['unsprung_mass: 31 kg', 'unsprung_mass: unknown']],
    ['tyre_rate', ['tyre_rate: 190 N/mm', 'tyre_rate: unknown']],
    ['dampers[].gas', ['gas: { out: 180 N, in: 240 N }', 'gas: unknown']],
    ['mounts[].lower_bush', ['lower_bush: 10 mm', 'lower_bush: unknown']],
    ['mounts[].washers', ['washers: 3 mm', 'washers: unknown']],
    ['mounts[].bush_give', ['washers: 3 mm', 'washers: 3 mm\n        bush_give: unknown']],
    ['bump_stops[].closed_fraction', ['closed_fraction: 0.4', 'closed_fraction: unknown']],
    ['perches[].lock_ring', ['lock_ring: 8 mm', 'lock_ring: unknown']],
    ['perches[].engagement', ['engagement: 5 mm', 'engagement: unknown']],
  ];
  test.each(OF_FIXTURE)('%s of a car takes its usual value, says so, and is no surer than that', async (path, edit) => {
    const usual = USUAL_OF_A_CAR[path] as Assumable;
    const { assumptions, axles } = await scenarioOf([edit]);
    const open = path.replace('[]', String.raw`\[1?\]`);
    const said = assumptions.find(({ field }) => new RegExp(`^axles\\.front\\.${open}$`).test(field));
    expect(said?.value).toContain(`${usual.value}, assumed: ${usual.by} either way`);
    const { front } = axles;
    const part = usual.at ? front.options[usual.at[0]][0] : front;
    const field = usual.at?.[1] ?? (path === 'tyre_rate' ? 'tyreRate' : 'unsprungMass');
    expect(part?.assumed?.[field]).toBe(usual.half);
  });

  test('the pitch inertia of a car may be unknown, and says what is taken', async () => {
    const { car, assumptions } = await scenarioOf([['pitch_inertia_ratio: 0.95', 'pitch_inertia_ratio: unknown']]);
    expect(car.pitchInertiaRatio).toBe(0.95);
    expect(assumptions).toContainEqual(
      expect.objectContaining({ field: 'car.pitch_inertia_ratio', value: '0.95, assumed: 0.1 either way' }),
    );
  });

  test('a raise that is worked out from its plate is as sure as bush and washers together', async () => {
    const { scenario } = await benchOfText(CORNER_TEXT.replace('raise: 12 mm, flange', 'plate_height: 30 mm, flange'));
    const [mount] = scenario.axles.front?.options.mount ?? [];
    // 30 - 15 - 3; 6 and 2 mm to either side.
    expect(mount).toMatchObject({ raise: 12, assumed: { lowerBush: 6, washers: 2, raise: 8 } });
  });

  test('widens the bands of a car: an unsprung mass and a stop that nobody weighed and pressed', async () => {
    const bandsWith = async (edits: readonly Edit[]) => {
      const scenario = await scenarioOf(edits);
      const [setup] = scenario.setups;
      if (setup === undefined) throw new Error('no setup');
      const site = siteOf(scenario, setup, 'front');
      return toleranceBands({ site, corner: cornerAt(scenario.axles.front.options, 0) }, scenario.tolerances);
    };
    // The same figures, weighed and pressed.
    const known = await bandsWith([
      ['unsprung_mass: 31 kg', 'unsprung_mass: 32 kg'],
      ['closed_fraction: 0.4', 'closed_fraction: 0.35'],
    ]);
    const unknown = await bandsWith([
      ['unsprung_mass: 31 kg', 'unsprung_mass: unknown'],
      ['closed_fraction: 0.4', 'closed_fraction: unknown'],
    ]);
    const width = (bands: typeof known, key: string) => (bands[key]?.rssHigh ?? 0) - (bands[key]?.rssLow ?? 0);
    const moved = Object.keys(known).filter((key) => width(unknown, key) > width(known, key) + 1e-9);
    expect(Object.keys(known).filter((key) => width(unknown, key) < width(known, key) - 1e-9)).toEqual([]);
    expect(moved).toEqual(expect.arrayContaining(['body_frequency_hz', 'clearance_damper_mm']));
    for (const key of moved) expect(unknown[key]?.nominal).toBe(known[key]?.nominal);
  });
});

describe('a field without a usual value', () => {
  const SENTENCE = /^measure it: no usual value can stand for it/;

  test.each(['extended', 'length', 'free_length', 'raise', 'ledge_height'])(
    '%s refuses `unknown` on the bench',
    async (field) => {
      const text = PARTS_TEXT.replace(new RegExp(`\\b${field}: [^,}]+`), `${field}: unknown `);
      const [problem, ...others] = await problemsInBench(text);
      expect(others).toEqual([]);
      expect(problem).toMatchObject({
        found: '`unknown`',
        expected: expect.stringContaining('a length with its unit'),
      });
      expect(problem?.advice).toMatch(SENTENCE);
    },
  );

  test.each([
    ['body_diameter: 48 mm', 'body_diameter: unknown'],
    ['wheel_load: 268 kg', 'wheel_load: unknown'],
    ['wheelbase: 2460 mm', 'wheelbase: unknown'],
  ] as const)('of a car refuses it where %s stood', async (from, to) => {
    const [problem, ...others] = await problemsOf([[from, to]]);
    expect(others).toEqual([]);
    expect(problem?.advice).toMatch(SENTENCE);
  });

  test('another word, a bare number and a wrong unit are told as they were in a field that takes `unknown`', async () => {
    for (const [value, found] of [
      ['8', /`8`|number/],
      ['8 kg', /8 kg/],
      ['nobody', /nobody/],
    ] as const) {
      const [problem, ...others] = await problemsInBench(
        PARTS_TEXT.replace('height: 11 mm', `height: 11 mm, lock_ring: ${value}`),
      );
      expect(others).toEqual([]);
      expect(problem?.found).toMatch(found);
      expect(problem?.expected).toContain('a length with its unit');
    }
  });
});

describe('what is not given on the bench', () => {
  test('is told of each problem at once: neither axle, a spring that nothing tells the solid height of, an axle too heavy', async () => {
    const text = CORNER_TEXT.replace(', solid_height: 106 mm', '').replace(
      '268 kg',
      '268 kg\n    unsprung_mass: 300 kg',
    );
    expect((await problemsInBench(text)).map(({ found }) => found)).toEqual([
      expect.stringContaining('a spring whose solid height nothing tells'),
      expect.stringContaining('300 kg'),
    ]);
    const strap = CORNER_TEXT.replace('268 kg', '268 kg\n    tyre_on_arch: 260 mm\n    lowest_wheel: 250 mm');
    expect((await problemsInBench(strap)).map(({ found }) => found)).toEqual([expect.stringMatching(/250 mm.*260 mm/)]);
    const [neither] = await problemsInBench('springsift: 1\naxles: {}\n');
    expect(neither?.found).toBe('neither axle');
  });

  test('a packer of unknown diameter has none that would pass', async () => {
    const { scenario } = await benchOfText(
      PARTS_TEXT.replace('{ length: 60 mm,', '{ length: 60 mm, packer: [0 mm, 5 mm],'),
    );
    const diameters = scenario.axles.front?.options.bumpStop.map(({ packerDiameter }) => packerDiameter);
    expect(diameters).toEqual([0, Number.NaN]);
  });

  test('parts that nobody named are numbered, and a file with `setups` is a car', async () => {
    const springs =
      'springs: [{ free_length: 280 mm, solid_height: 106 mm }, { free_length: 260 mm, solid_height: 100 mm }]';
    const { scenario } = await benchOfText(PARTS_TEXT.replace(/springs: .*/, springs));
    expect(scenario.axles.front?.options.spring.map(({ name }) => name)).toEqual(['spring', 'spring 2']);
    expect(scenario.axles.rear).toBeUndefined();
    const read = await readEdited([]);
    expect(read.ok).toBe(true);
    expect(SCENARIO).toContain('setups:');
  });
});

test.each(SCENARIOS)('%s, which uses no `unknown`, has nothing assumed in it', async (name) => {
  expect(JSON.stringify(await realScenario(name))).not.toContain('"assumed"');
});
