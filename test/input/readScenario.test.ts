import { createHash } from 'node:crypto';
import { fileURLToPath } from 'node:url';
import { expect, test } from 'vitest';
import { readScenario } from '../../src/input/readScenario.ts';
import { diskFiles } from '../../src/input/source/disk.ts';
import { CATALOGUE, type Edit, edited, editOf, placeOf, problemsOf, readEdited, SCENARIO, scenarioOf } from './edit.ts';

const FIXTURE = fileURLToPath(new URL('fixture/scenario.yaml', import.meta.url));

test('the fixture reads from the disk as it does from memory', async () => {
  const read = await readScenario(FIXTURE, diskFiles);
  expect(read).toEqual(await readEdited([]));
  expect(read.ok).toBe(true);
});

test('the files read are carried along with their digests', async () => {
  const read = await readScenario(FIXTURE, diskFiles);
  const digest = (text: string) => createHash('sha256').update(text).digest('hex');
  expect(read.ok && read.files).toEqual([
    { path: 'scenario.yaml', sha256: digest(SCENARIO), bytes: Buffer.byteLength(SCENARIO), text: SCENARIO },
    { path: 'springs.csv', sha256: digest(CATALOGUE), bytes: Buffer.byteLength(CATALOGUE), text: CATALOGUE },
  ]);
});

test('quantities arrive in inner units', async () => {
  const { axles } = await scenarioOf();
  // 590 lb of 0.45359237 kg; 7 in and 5 in of 25.4 mm; 20 bar of 0.1 MPa; pi/4 x 14^2 mm2 (NIST SP 811).
  expect(axles.rear.wheelLoad).toBeCloseTo(267.6194983, 7);
  expect(axles.rear.options.sleeve[0]).toMatchObject({ length: expect.closeTo(177.8, 10), ledgeHeight: 127 });
  expect(axles.rear.options.damper[0]?.gas).toEqual({
    kind: 'charge',
    chargePressure: 2,
    gasVolume: 120_000,
    rodArea: expect.closeTo(153.938, 3),
  });
  expect(axles.rear.options.spring[8]).toMatchObject({ name: 'grid', freeLength: 8 * 25.4 });
  expect(axles.rear.options.spring[8]?.rate).toBeCloseTo(61.29438, 4);
});

test('parts are written out, the last dimension fastest', async () => {
  const { front, rear } = (await scenarioOf()).axles;
  expect(front.options.sleeve.map((sleeve) => sleeve.trim)).toEqual([0, 20, 40]);
  expect(front.options.bumpStop.map((stop) => [stop.uncutLength, stop.length])).toEqual([
    [60, 30],
    [60, 40],
    [60, 50],
    [60, 60],
  ]);
  expect(front.options.spring.map((spring) => spring.name)).toEqual(['A 160-50', 'A 180-50', 'A 180-60', 'A 200-60']);
  const grid = rear.options.spring.map((spring) => [Math.round(spring.freeLength), Math.round(spring.rate)]);
  expect(grid.slice(0, 4)).toEqual([
    [152, 44],
    [152, 53],
    [152, 61],
    [178, 44],
  ]);
  expect(rear.options.isolator[0]).toBeNull();
  expect(rear.options.helper.map((helper) => helper?.couplerBore ?? null)).toEqual([null, 57]);
});

test('a spacer raises a mount bolted above and lowers one bolted below', async () => {
  const below = (await scenarioOf()).axles.front.options.mount.map((mount) => mount.raise);
  const above = (await scenarioOf([['bolted: below', 'bolted: above']])).axles.front.options.mount;
  expect(below).toEqual([12, 6]);
  expect(above.map((mount) => mount.raise)).toEqual([12, 18]);
  expect(above.map((mount) => mount.bareRaise)).toEqual([12, 12]);
});

test('the raise of a plate is its height less lower bush and washers', async () => {
  expect((await scenarioOf()).axles.rear.options.mount[0]?.raise).toBe(30 - 12 - 4);
});

test('with a curve the closed fraction follows from its last point, and the curve starts at no squeeze', async () => {
  const curve =
    'curve: { measured_length: 60 mm, points: [{ squeeze: 18 mm, force: 500 N }, { squeeze: 36 mm, force: 4 kN }] }';
  const [stop] = (await scenarioOf([['closed_fraction: 0.4', curve]])).axles.front.options.bumpStop;
  expect(stop?.closedFraction).toBeCloseTo(0.4, 12);
  expect(stop?.curve?.points.map((point) => point.force)).toEqual([0, 500, 4000]);
});

test('motion pairs are sorted by height, and a pair may have its own mount raise', async () => {
  const { pairs } = (
    await scenarioOf([
      [
        '- { hub_to_arch: 280 mm, damper_length: 330 mm }',
        '- { hub_to_arch: 440 mm, damper_length: 490 mm, mount_raise: 20 mm }',
      ],
    ])
  ).axles.front.motion;
  expect(pairs.map((pair) => [pair.hubToArch, pair.raise])).toEqual([
    [320, 12],
    [360, 12],
    [400, 12],
    [440, 20],
  ]);
});

test('load cases are multiples or a lateral acceleration', async () => {
  const cases = 'load_cases: [{ name: braking, front: 1.4, rear: 0.6 }, { name: bend, lateral: 0.8 }]';
  const roll = 'roll: { track: 1480 mm, roll_centre_height: 60 mm, bar_rate: 12 N/mm }';
  const { setups } = await scenarioOf([
    ['pitch_inertia_ratio: 0.95', 'pitch_inertia_ratio: 0.95, sprung_centre_height: 540 mm'],
    ['tyre_on_arch: 250 mm', `tyre_on_arch: 250 mm\n    ${roll}`],
    ['tyre_on_arch: 245 mm', `tyre_on_arch: 245 mm\n    ${roll}`],
    ['    balance:', `    ${cases}\n    balance:`],
  ]);
  expect(setups[0]?.loadCases).toEqual([
    { name: 'braking', kind: 'multiple', factor: { front: 1.4, rear: 0.6 } },
    { name: 'bend', kind: 'cornering', lateral: 0.8 },
  ]);
});

test('balance is rejected beyond 0.8 to 1.4 or the wanted window, unless limits are given', async () => {
  const written = 'balance: { target: 1.12, from: 1.02, to: 1.25 }';
  const balanceOf = async (text: string) => (await scenarioOf([[written, `balance: ${text}`]])).setups[0]?.balance;
  expect((await scenarioOf()).setups[0]?.balance.limits).toEqual({ from: 0.8, to: 1.4 });
  expect((await balanceOf('{ target: 1, from: 0.7, to: 1.5 }'))?.limits).toEqual({ from: 0.7, to: 1.5 });
  const own = '{ target: 1, from: 0.9, to: 1.1, limits: { from: 0.9, to: 1.2 } }';
  expect((await balanceOf(own))?.limits).toEqual({ from: 0.9, to: 1.2 });
  const { assumptions } = await scenarioOf();
  expect(assumptions.find(({ field }) => /balance\.limits$/.test(field))?.value).toMatch(/below 0.8 and above 1.4/);
  const inside = '{ target: 1, from: 0.9, to: 1.1, limits: { from: 0.95, to: 1.05 } }';
  const problems = await problemsOf([[written, `balance: ${inside}`]]);
  expect(problems.map(({ found }) => found)).toEqual([
    'a limit of 0.95 inside the wanted window, 0.9 to 1.1',
    'a limit of 1.05 inside the wanted window, 0.9 to 1.1',
  ]);
});

test('a charge counts at the working temperature, which is an assumption where it is not given', async () => {
  const gasOf = async (more: string) => {
    const charge = `gas: { charge: 20 bar, temperature: 0 degC, rod_diameter: 14 mm, volume: 100 cm3${more} }`;
    const { axles, assumptions } = await scenarioOf([[/gas: .*/.exec(SCENARIO)?.[0] ?? '', charge]]);
    const gas = axles.front.options.damper[0]?.gas;
    return { pressure: gas?.kind === 'charge' ? gas.chargePressure : Number.NaN, assumptions };
  };
  // 20 bar gauge and 1.01325 bar of air, from 273.15 K to 293.15 K or 323.15 K.
  const at = (kelvin: number) => (2.101325 * kelvin) / 273.15 - 0.101325;
  const found = await gasOf('');
  expect(found.pressure).toBeCloseTo(at(293.15), 12);
  expect(found.assumptions.map(({ field, value }) => `${field} ${value}`).join()).toMatch(
    /gas.working_temperature 20 degC/,
  );
  expect((await gasOf(', working_temperature: 50 degC')).pressure).toBeCloseTo(at(323.15), 12);
});

test('the height that roll centre and centre of gravity belong to is read, and an assumption where it is not', async () => {
  const rollOf = async (more: string) => {
    const roll = `roll: { track: 1480 mm, roll_centre_height: 60 mm, bar_rate: 12 N/mm${more} }`;
    return scenarioOf([['tyre_on_arch: 250 mm', `tyre_on_arch: 250 mm\n    ${roll}`]]);
  };
  expect((await rollOf(', at_height: 33 cm')).axles.front.roll?.atHeight).toBe(330);
  const { axles, assumptions } = await rollOf('');
  expect(axles.front.roll).toEqual({ track: 1480, rollCentreHeight: 60, barRate: 12 });
  expect(assumptions.map(({ field }) => field)).toContain('axles.front.roll.at_height');
});

test('every default taken is listed with its value and source', async () => {
  const { assumptions, margins } = await scenarioOf();
  expect(margins.coilBind).toEqual({ kind: 'default', lowered: 0 });
  expect(assumptions).toContainEqual({
    field: 'margins.coil_bind',
    value: expect.stringMatching(/^not given: the greater of 6 mm .* and half of the least sum of gaps/),
    source: 'left out of the scenario',
  });
  expect(assumptions).toContainEqual({
    field: 'margins.damper',
    value: '3 mm',
    source: 'common practice, no source',
  });
  expect(assumptions).toContainEqual({
    field: 'springs.csv: ends',
    value: 'closed_ground (4 of 4 springs)',
    source: 'common practice, no source',
  });
  expect(assumptions.every(({ field, value, source }) => field !== '' && value !== '' && source !== '')).toBe(true);
});

test('a value given by the user is no assumption', async () => {
  const { assumptions, margins } = await scenarioOf([['setups:', 'margins: { coil_bind: 10 mm }\n\nsetups:']]);
  expect(margins).toMatchObject({ coilBind: { kind: 'fixed', value: 10 }, damper: 3 });
  const fields = assumptions.map((assumption) => assumption.field);
  expect(fields).not.toContain('margins.coil_bind');
  expect(fields).toContain('margins.damper');
});

test('the same default in several parts is one line', async () => {
  const second = `    bump_stops:
      - { name: a, length: 50 mm, closed_fraction: 0.4, diameter: 45 mm, price: 1 }
      - { name: b, length: 50 mm, closed_fraction: 0.5, diameter: 45 mm, price: 1 }`;
  const { assumptions } = await scenarioOf([['    bump_stops: [*stop]', second]]);
  expect(assumptions).toContainEqual({
    field: 'axles.front.bump_stops[].packer',
    value: '0 mm (2 times)',
    source: 'common practice, no source',
  });
});

test('merge keys and anchors fill fields in', async () => {
  const merged = '    bump_stops: [{ <<: *stop, name: soft cone, closed_fraction: 0.3 }]';
  const { front } = (await scenarioOf([['    bump_stops: [*stop]', merged]])).axles;
  expect(front.options.bumpStop[0]).toMatchObject({ name: 'soft cone', uncutLength: 60, closedFraction: 0.3 });
});

test('ten different mistakes are reported at once, each at its line and column', async () => {
  const mistakes: readonly (readonly [edit: string | Edit, piece: string, found: string])[] = [
    ['wheelbase: 2460', '2460,', '`2460` without a unit'],
    ['wheel_load: 268 mm', '268 mm', '`mm` does not fit'],
    ['unsprung_mass: 31,5 kg', '31,5 kg', 'with a comma'],
    [['extended: 455 mm', 'extnded: 455 mm'], 'extnded', 'unknown field `extnded`'],
    ['seat: fixd', 'fixd', '`fixd`'],
    ['trim: { from: 0 mm, to: 40 mm, step: 0 mm }', '0 mm }\n        thread', 'the step `0 mm`'],
    [['tyre_on_arch: 245 mm', 'tyre_on_arch: -245 mm'], '-245 mm', '`-245 mm`'],
    [['body_length: 295 mm', 'body_length: 335 mm'], '335 mm', 'a body of 335 mm'],
    ['wanted_range: [335 mm, 345 mm]', '325 mm\n      wanted', 'a target height of 325 mm'],
    ['balance: { target: 1.12, from: 1.3, to: 1.25 }', '1.25 }', 'an upper end below'],
  ];
  const edits = mistakes.map(([edit]) => editOf(SCENARIO, edit));
  const text = edited(SCENARIO, edits);
  const problems = await problemsOf(edits);
  for (const [, piece, found] of mistakes) {
    const place = placeOf(text, piece);
    expect(problems).toContainEqual(
      expect.objectContaining({ file: 'scenario.yaml', ...place, found: expect.stringContaining(found) }),
    );
  }
  // The misspelt field is also missing under its right name.
  const missing = { ...placeOf(text, 'name: short'), found: 'no field `extended`' };
  expect(problems).toContainEqual(expect.objectContaining(missing));
  expect(problems).toHaveLength(11);
  const places = problems.map(({ line, column }) => line * 1000 + column);
  expect(places).toEqual(places.toSorted((a, b) => a - b));
});

test('a mistyped field is answered with the nearest known one', async () => {
  const [problem] = await problemsOf([['price: 90', 'prize: 90']]);
  expect(problem?.advice).toBe('did you mean `price`?');
});

test('a mistake behind an alias is reported where the value is written', async () => {
  const edit: Edit = ['diameter: 45 mm', 'diameter: 45'];
  const problems = await problemsOf([edit]);
  // Both axles use the stop: one place, one problem.
  expect(problems).toHaveLength(1);
  expect(problems[0]).toMatchObject(placeOf(edited(SCENARIO, [edit]), '45\n'));
});

test('a mistake that a merge key brings in is reported where it is written', async () => {
  const edits: Edit[] = [
    ['closed_fraction: 0.4', 'closed_fraction: 1.4'],
    ['    bump_stops: [*stop]', '    bump_stops: [{ <<: *stop, name: other }]'],
  ];
  const [problem, ...others] = await problemsOf(edits);
  expect(problem).toMatchObject(placeOf(edited(SCENARIO, edits), '1.4'));
  expect(others).toEqual([]);
});

test('a missing field is reported at its parent with its meaning', async () => {
  const [problem] = await problemsOf([['    tyre_rate: 190 N/mm\n', '']]);
  expect(problem).toMatchObject({ ...placeOf(SCENARIO, 'front:'), found: 'no field `tyre_rate`' });
  expect(problem?.expected).toContain('vertical rate of the tyre');
});

test('a field without a value is reported as empty', async () => {
  const [problem] = await problemsOf([['body_diameter: 48 mm', 'body_diameter:']]);
  expect(problem?.found).toBe('nothing');
});

test.each<[string, Edit, string]>([
  ['a list where a mapping belongs', ['car: {', 'car: [1]\nshared2: {'], 'a mapping of fields'],
  ['one mapping where a list belongs', ['perches: [*perch]', 'perches: *perch'], 'a list of entries'],
  ['an empty list of parts', ['perches: [*perch]', 'perches: []'], 'at least one entry'],
  ['a number as a name', ['name: short', 'name: 7'], 'text of 1 to 80'],
  ['a setup name with capitals', ['name: low', 'name: Low'], 'a setup name'],
  ['a number where gas belongs', ['gas: { out: 180 N, in: 240 N }', 'gas: 180'], 'gas push'],
  ['a mistyped word for gas', ['gas: { out: 180 N, in: 240 N }', 'gas: non'], '`none`'],
  ['a half-written charge', [', rod_diameter: 14 mm', ''], 'exactly one of `rod_diameter` and `rod_area`'],
  ['an unknown format version', ['springsift: 1', 'springsift: 2'], 'the format version `1`'],
  ['text where yes or no belongs', ['    balance:', '    standing_on_stop: maybe\n    balance:'], 'true or false'],
])('%s is explained', async (_, edit, expected) => {
  const problems = await problemsOf([edit]);
  expect(problems.map((problem) => problem.expected).join('\n')).toContain(expected);
});

test('a catalogue that is missing is reported where it is named', async () => {
  const [problem] = await problemsOf([['catalogue: springs.csv', 'catalogue: sprigs.csv']]);
  expect(problem).toMatchObject({ ...placeOf(SCENARIO, 'springs.csv'), found: 'no such file' });
});

test('problems of the catalogue come together with those of the scenario', async () => {
  const problems = await problemsOf(
    [['wheel_load: 268 kg', 'wheel_load: 268']],
    CATALOGUE.replace('160,50', '160,abc'),
  );
  expect(problems.map(({ file, line, column }) => [file, line, column])).toEqual([
    ['scenario.yaml', 21, 17],
    ['springs.csv', 2, 14],
  ]);
});

test('a filter that leaves no spring of a catalogue is a problem', async () => {
  const [problem] = await problemsOf([['from: 50 N/mm, to: 60 N/mm', 'from: 51 N/mm, to: 59 N/mm']]);
  expect(problem?.found).toContain('none of the 4 springs');
});

test('the margin to coil bind is a length or the word for each spring’s own, and what is neither is answered in its own terms', async () => {
  const read = async (value: string) =>
    (await scenarioOf([['setups:', `margins: { coil_bind: ${value} }\n\nsetups:`]])).margins;
  expect((await read('en_13906')).coilBind).toEqual({ kind: 'en_13906', lowered: 0 });
  expect((await read('0.25 in')).coilBind).toEqual({ kind: 'fixed', value: 6.35 });
  const expectedOf = async (value: string) => {
    const [problem] = await problemsOf([['setups:', `margins: { coil_bind: ${value} }\n\nsetups:`]]);
    return problem?.expected;
  };
  expect(await expectedOf('en_13907')).toContain('en_13906');
  expect(await expectedOf('10 mmm')).toMatch(/^a length with its unit/);
  expect(await expectedOf('[1]')).toMatch(/^a length with its unit/);
});

test('a material counts as given where row or scenario name it, not where the default is taken', async () => {
  const given = async (edits: readonly Edit[]) =>
    (await scenarioOf(edits)).axles.front.options.spring.map(({ wire }) => wire?.materialGiven);
  expect(new Set(await given([]))).toEqual(new Set([false]));
  expect(new Set(await given([['only:', 'estimate: { material: chrome_silicon }\n        only:']]))).toEqual(
    new Set([true]),
  );
});
