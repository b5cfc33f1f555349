/** Causes on lists of parts made for the purpose: which there are, and what each would leave. */

import { expect, test } from 'vitest';
import { partCauses } from '../../../src/audit/fit/causes.ts';
import type { Corner } from '../../../src/model/corner/site.ts';
import { type AxleOptions, FAMILIES } from '../../../src/model/scenario.ts';
import { plainCorner, plainSite } from '../../setup/corners.ts';

const base = plainCorner();
const spring = (freeLength: number, rate: number, name = 'spring', bore = 60) => ({
  ...base.spring,
  ...{ freeLength, rate, name, bore },
});

function causesOf(corner: Corner, more: Partial<AxleOptions> = {}) {
  const single = Object.fromEntries(FAMILIES.map((family) => [family, [corner[family]]]));
  const options = { ...single, ...more } as unknown as AxleOptions;
  return partCauses({ site: plainSite(), corner }, options).map(({ kind, detail, model }) => ({
    kind,
    detail,
    corner: model.corner,
  }));
}
const told = (...given: Parameters<typeof causesOf>) =>
  causesOf(...given).map(({ kind, detail }) => `${kind}: ${detail}`);

test('the neighbours of a spring are the next in length at its rate and the next in rate at its length', () => {
  const list = [
    ...[spring(180, 38), spring(200, 38), spring(220, 38), spring(240, 38), spring(260, 38)],
    ...[spring(220, 30), spring(220, 34), spring(220, 42), spring(220, 46, 'blue'), spring(200, 34)],
    // Another bore is no mix-up: it would not fit the seats.
    ...[spring(210, 38, 'wide', 65), spring(220, 40, 'wide', 65)],
  ];
  const springs = told(base, { spring: list }).filter((text) => /^spring_/.test(text));
  expect(springs).toEqual([
    'spring_length: 200.0 mm, 38.0 N/mm',
    'spring_length: 240.0 mm, 38.0 N/mm',
    'spring_rate: 220.0 mm, 34.0 N/mm',
    'spring_rate: 220.0 mm, 42.0 N/mm',
  ]);
  const without = list.filter(({ rate }) => rate !== 42);
  expect(told(base, { spring: without })).toContain('spring_rate: blue, 220.0 mm, 46.0 N/mm');
  // Of two alike the first of the list is named.
  const twins = [spring(240, 38, 'one'), spring(240, 38, 'other')];
  expect(told(base, { spring: twins })).toContain('spring_length: one, 240.0 mm, 38.0 N/mm');
  expect(told(base, { spring: twins }).join()).not.toContain('other, 240');
  // Equal but for rounding is no neighbour.
  const same = [spring(220, 38), spring(220 + 1e-7, 38), spring(220, 38 - 1e-8)];
  expect(told(base, { spring: same }).filter((text) => /^spring_/.test(text))).toEqual([]);
});

test('a sleeve may be left whole or be cut twice, where there is enough of it, its groove left where it was', () => {
  const sleeve = { ...base.sleeve, trim: 15, grooveDrop: 4 };
  expect(told({ ...base, sleeve })).toEqual(
    expect.arrayContaining(['groove_not_lowered: 4.0 mm', 'sleeve_not_cut: 15.0 mm', 'sleeve_cut_twice: 15.0 mm']),
  );
  const found = causesOf({ ...base, sleeve });
  const trimOf = (kind: string) => found.find((cause) => cause.kind === kind)?.corner.sleeve.trim;
  expect([trimOf('sleeve_not_cut'), trimOf('sleeve_cut_twice')]).toEqual([0, 30]);
  const half = told({ ...base, sleeve: { ...sleeve, trim: 70 } }).join();
  expect(half).not.toMatch(/sleeve_cut_twice/);
  const whole = told({ ...base, sleeve: { ...base.sleeve, trim: 0 } }).join();
  expect(whole).not.toMatch(/sleeve|groove/);
});

test('a spacer may be missing or be another one of its mount, lifting a mount above the tower and lowering one below', () => {
  const mount = (spacer: number, bolted: 'above' | 'below', name = 'mount') => ({
    ...base.mount,
    ...{ name, spacer, bolted, raise: bolted === 'above' ? 12 + spacer : 12 - spacer },
  });
  for (const [bolted, raises] of [
    ['above', [12, 18]],
    ['below', [12, 6]],
  ] as const) {
    const list = [mount(0, bolted), mount(6, bolted), mount(10, bolted), mount(8, bolted, 'other')];
    const found = causesOf({ ...base, mount: mount(10, bolted) }, { mount: list }).filter(({ kind }) =>
      /spacer/.test(kind),
    );
    expect(found.map(({ kind, detail }) => `${kind}: ${detail}`)).toEqual([
      'spacer_missing: 10.0 mm',
      'other_spacer: 6.0 mm',
    ]);
    expect(found.map(({ corner }) => corner.mount.raise)).toEqual(raises);
  }
  expect(told(base).join()).not.toMatch(/spacer/);
});

test('what a corner does not have can not be missing', () => {
  expect(told(base)).toContain('isolator_missing: 6.0 mm');
  expect(told({ ...base, isolator: null }).join()).not.toMatch(/isolator|helper|coupler|packer/);
});
