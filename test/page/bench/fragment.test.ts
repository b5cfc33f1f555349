import { cp, mkdtemp, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, expect, test } from 'vitest';
import { parse, stringify } from 'yaml';
import { readScenario } from '../../../src/input/readScenario.ts';
import { diskFiles } from '../../../src/input/source/disk.ts';
import { AXLE_NAMES, type AxleName } from '../../../src/model/scenario.ts';
import { type Bench, cornerOf, judge, withValues } from '../../../src/page/bench/bench.ts';
import { fragmentOf } from '../../../src/page/bench/fragment.ts';
import { SCENARIOS, type ScenarioName } from '../../setup/scenarios.ts';
import { benchWith, recorded } from './records.ts';

type Yaml = Record<string, unknown>;

const folder = await mkdtemp(join(tmpdir(), 'springsift-bench-'));
afterAll(() => rm(folder, { recursive: true, force: true }));

const fileOf = (name: ScenarioName) =>
  fileURLToPath(new URL(`../../../scenarios/${name}/scenario.yaml`, import.meta.url));

/** As a person would: each list and value of the lines goes where its name stands in the scenario. */
function put(into: Yaml, lines: Yaml): Yaml {
  const done = { ...into };
  for (const [key, value] of Object.entries(lines)) {
    const there = done[key];
    if (key === 'setups') done[key] = setupsWith(there as Yaml[], value as Yaml[]);
    else done[key] = isMap(there) && isMap(value) && key !== 'bump' ? put(there, value) : value;
  }
  return done;
}

function setupsWith(setups: readonly Yaml[], lines: readonly Yaml[]): Yaml[] {
  return setups.map((setup) => put(setup, lines.find(({ name }) => name === setup.name) ?? {}));
}

function isMap(value: unknown): value is Yaml {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}

async function readWith(name: ScenarioName, fragment: string) {
  const text = stringify(put(parse(await readFile(fileOf(name), 'utf8')) as Yaml, parse(fragment) as Yaml));
  // Beside the original's catalogue, as a person would keep it.
  const own = join(folder, name);
  await cp(dirname(fileOf(name)), own, { recursive: true });
  await writeFile(join(own, 'scenario.yaml'), text);
  return readScenario(join(own, 'scenario.yaml'), diskFiles);
}

function changedBench(bench: Bench): Bench {
  const changed = AXLE_NAMES.reduce((now, axle) => {
    const { stop, trim, spacer, wheelLoad, helper, spring } = bench.axles[axle];
    const { options } = bench.record.axles[axle];
    const values = { trim: trim + 1.3, spacer: spacer + 2.1, stop: stop - 5.2, wheelLoad: wheelLoad + 7.7 };
    const place = bench.axles[axle].place + (axle === 'front' ? 31.7 : -3.3);
    return withValues(now, axle, {
      ...values,
      place,
      helper: next(helper, options.helper.length),
      spring: next(spring, options.spring.length),
    });
  }, bench);
  return { ...changed, bumpLoad: bench.bumpLoad === null ? null : 2.75 };
}

const next = (place: number, size: number) => (place + 1) % size;

/** A table of one part leaves no other to choose. */
function isAsSwept(bench: Bench, swept: Bench, axle: AxleName, family: string): boolean {
  const key = family as keyof Bench['axles']['front'];
  return bench.axles[axle][key] !== undefined && bench.axles[axle][key] === swept.axles[axle][key];
}

/** Inches and rounding to twelve digits apart. */
function expectAlike(found: unknown, wanted: unknown): void {
  if (typeof wanted === 'number') expect(found as number).toBeCloseTo(wanted, 7);
  else if (isMap(wanted)) for (const [key, value] of Object.entries(wanted)) expectAlike((found as Yaml)[key], value);
  else expect(found).toEqual(wanted);
}

test.each(SCENARIOS)(
  'put in place, the lines make %s a scenario that is read and has the very parts of the bench',
  async (name) => {
    const { record } = await recorded(name);
    const swept = benchWith(record, 1);
    const bench = changedBench(swept);
    const read = await readWith(name, fragmentOf(bench, swept));
    if (!read.ok) throw new Error(JSON.stringify(read.problems, null, 1));
    const setup = read.scenario.setups.find((one) => one.name === swept.setup.name);
    expect(setup?.bump).toEqual(bench.bumpLoad === null ? { kind: 'closed' } : { kind: 'load', multiple: 2.75 });
    for (const axle of AXLE_NAMES) {
      const { options, wheelLoad } = read.scenario.axles[axle];
      const corner = cornerOf(bench, axle, bench.axles[axle]);
      expect(wheelLoad).toBeCloseTo(bench.axles[axle].wheelLoad, 9);
      expect(setup?.axles[axle].targetHeight).toBeCloseTo(judge(bench, axle).state.standing.height, 7);
      for (const family of ['sleeve', 'mount', 'bumpStop', 'helper', 'spring'] as const) {
        if (isAsSwept(bench, swept, axle, family)) continue;
        expect(options[family], family).toHaveLength(1);
        const found = { wire: null as unknown, ...(options[family][0] as unknown as Yaml) };
        const wanted = { wire: null as unknown, ...(corner[family] as unknown as Yaml) };
        expectAlike(found, sourceless(wanted));
        if (isMap(wanted.wire) && wanted.wire.estimated === false) {
          expectAlike((found.wire as Yaml).diameter, wanted.wire.diameter);
        }
      }
    }
  },
);

/** A solid height from wire and coils is written as a number: from then on it counts as given. */
function sourceless(part: Yaml): Yaml {
  const { solid, wire: _, ...rest } = part;
  return isMap(solid) ? { ...rest, solid: { height: solid.height, least: solid.least } } : rest;
}

test.each(AXLE_NAMES)('one changed value of the %s axle gives just the lines about it', async (axle: AxleName) => {
  const { record } = await recorded('hill-hatch');
  const swept = benchWith(record);
  const lines = parse(fragmentOf(withValues(swept, axle, { stop: 33 }), swept)) as { axles: Yaml };
  expect(Object.keys(lines)).toEqual(['axles']);
  expect(Object.keys(lines.axles)).toEqual([axle]);
  expect(lines.axles[axle]).toMatchObject({ bump_stops: [{ cut_length: '33 mm' }] });
  expect(Object.keys(lines.axles[axle] as Yaml)).toEqual(['bump_stops']);
});

test('a height beyond the wanted range stretches that range, so that the scenario stays whole', async () => {
  const { record } = await recorded('hill-hatch');
  const swept = benchWith(record);
  const { wantedTo, wantedFrom } = swept.setup.axles.front;
  const text = fragmentOf(withValues(swept, 'front', { place: wantedTo + 8 }), swept);
  expect(text).toContain(`target_height: ${wantedTo + 8} mm`);
  expect(text).toContain(`wanted_range: [${wantedFrom} mm, ${wantedTo + 8} mm]`);
});

test('names that YAML would take for something else stay names', async () => {
  const { record } = await recorded('hill-hatch');
  const name = 'null: "x" # {y}';
  const sleeve = record.axles.front.options.sleeve.map((one) => ({ ...one, name }));
  const front = { ...record.axles.front, options: { ...record.axles.front.options, sleeve } };
  const swept = benchWith({ ...record, axles: { ...record.axles, front } });
  const lines = parse(fragmentOf(withValues(swept, 'front', { trim: 7 }), swept)) as { axles: { front: Yaml } };
  expect(lines.axles.front.sleeves).toMatchObject([{ name, trim: '7 mm' }]);
});

test('nothing changed, no lines', async () => {
  const { record } = await recorded('kit-two-seater');
  const swept = benchWith(record);
  expect(fragmentOf(swept, swept)).toBe('');
});

test('a packer, an estimated rate and a helper without a coupler are written as what they are', async () => {
  const { record } = await recorded('hill-hatch');
  const { front } = record.axles;
  const { bumpStop, spring, helper } = front.options;
  const tender = { name: 'tender', freeLength: 60, rate: 10, blockHeight: 22, bore: 61, coupler: 0, couplerBore: 0 };
  const options = {
    ...front.options,
    bumpStop: bumpStop.map((part) => ({ ...part, packer: 5, packerDiameter: 40 })),
    spring: [...spring, { ...spring[0], rateEstimated: true }],
    helper: [...helper, { ...tender, price: null }],
  } as typeof front.options;
  const swept = benchWith({ ...record, axles: { ...record.axles, front: { ...front, options } } });
  const values = { stop: 33, spring: spring.length, helper: helper.length };
  const lines = parse(fragmentOf(withValues(swept, 'front', values), swept)) as { axles: { front: Yaml } };
  expect(lines.axles.front).toMatchObject({ bump_stops: [{ packer: '5 mm', packer_diameter: '40 mm' }] });
  expect(lines.axles.front.springs).toEqual([expect.not.objectContaining({ rate: expect.anything() })]);
  expect(lines.axles.front.helpers).toEqual([expect.not.objectContaining({ coupler: expect.anything() })]);
});
