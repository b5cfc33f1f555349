/**
 * Values held against their neighbours in the same file: each gives a band to another field. Shares are common practice,
 * no source; they are wide, so that what lies outside is most likely a slip of the pen.
 */
import { AXLE_NAMES, type AxleName } from '../../domain/scenario.ts';
import type { AxleFields } from '../schema/axle.ts';
import type { ScenarioFields } from '../schema/scenario.ts';
import type { PathKey } from '../source/nodeAt.ts';
import type { FieldDimension } from '../values/dimensions.ts';
import { meanLoad, sideLoads } from '../values/wheelLoads.ts';
import { type Held, shareOf, valueInWords } from './judge.ts';

type Path = readonly PathKey[];
type Shares = readonly [least: number, most: number];

/** Solid height over free length: of a main spring, and of a helper, which may be flat wire. */
export const SOLID_SHARES = { spring: [0.2, 0.75], helper: [0.05, 0.7] } as const;
const SHARES = {
  left_over_right: [0.75, 1.33],
  rear_over_front_load: [0.55, 1.8],
  rear_over_front: [0.5, 2],
  rear_over_front_track: [0.85, 1.18],
  unsprung: [0.05, 0.3],
  compressed_over_extended: [0.45, 0.9],
  body_over_compressed: [0.6, 1],
  gas_in_over_out: [1, 3],
  cut_over_bought: [0.3, 1],
  target_over_tyre_on_arch: [1, 2.2],
  wheelbase_over_track: [1.2, 2.4],
} as const satisfies Record<string, Shares>;
/** The sleeve's top, left whole, over the length of the damper's body. */
const SLEEVE_TOP = 0.5;
/** How far a damper length may lie from the straight line between the pairs beside it: mm, and a share of their height. */
const OFF_LINE = { base: 1.5, share: 0.05 };

export function heldAgainstNeighbours(fields: ScenarioFields): readonly Held[] {
  return [
    ...AXLE_NAMES.flatMap((axle) => ofAxle(fields.axles[axle], ['axles', axle])),
    ...rearAgainstFront(fields.axles),
    ...ofCar(fields),
    ...fields.setups.flatMap((_, i) => AXLE_NAMES.map((axle) => ofTarget(fields, axle, ['setups', i, axle]))),
  ];
}

function ofAxle(axle: AxleFields, at: Path): readonly Held[] {
  return [
    ...ofLoads(axle, at),
    ...ofMotion(axle.motion, [...at, 'motion', 'pairs']),
    ...axle.dampers.flatMap((damper, i) => ofDamper(damper, [...at, 'dampers', i])),
    ...axle.sleeves.flatMap((sleeve, i) => ofSleeve(axle, sleeve, [...at, 'sleeves', i])),
    ...axle.bump_stops.flatMap(({ cut_length, length }, i) =>
      cut_length === undefined
        ? []
        : [share([...at, 'bump_stops', i, 'cut_length'], SHARES.cut_over_bought, length, 'a stop of', 'length')],
    ),
    ...axle.springs.flatMap((spring, i) =>
      'catalogue' in spring || spring.solid_height === undefined
        ? []
        : [share([...at, 'springs', i, 'solid_height'], SOLID_SHARES.spring, spring.free_length, FREE, 'free_length')],
    ),
    ...axle.helpers.flatMap((helper, i) =>
      helper === 'none'
        ? []
        : [share([...at, 'helpers', i, 'block_height'], SOLID_SHARES.helper, helper.free_length, FREE, 'free_length')],
    ),
  ];
}

const FREE = 'a free length of';

function ofLoads({ wheel_load }: AxleFields, at: Path): readonly Held[] {
  const sides = sideLoads(wheel_load);
  const unsprung = share(
    [...at, 'unsprung_mass'],
    SHARES.unsprung,
    [meanLoad(wheel_load)],
    'a wheel load of',
    'wheel_load',
    'mass',
  );
  if (sides === null) return [unsprung];
  const left = share(
    [...at, 'wheel_load', 'left'],
    SHARES.left_over_right,
    [sides.right],
    'a right wheel load of',
    'right',
    'mass',
  );
  return [unsprung, left];
}

function ofDamper(damper: AxleFields['dampers'][number], at: Path): readonly Held[] {
  const { extended, compressed, gas } = damper;
  const isPair = gas !== 'none' && 'out' in gas && gas.in !== undefined && gas.out > 0;
  return [
    share([...at, 'compressed'], SHARES.compressed_over_extended, extended, 'an extended length of', 'extended'),
    share([...at, 'body_length'], SHARES.body_over_compressed, compressed, 'a compressed length of', 'compressed'),
    ...(isPair
      ? [share([...at, 'gas', 'in'], SHARES.gas_in_over_out, [gas.out], 'a force fully out of', 'out', 'force')]
      : []),
  ];
}

/** A sleeve that ends below half of the body would hold the spring where nobody puts it. */
function ofSleeve({ dampers }: AxleFields, { length }: AxleFields['sleeves'][number], at: Path): readonly Held[] {
  const body = Math.min(...dampers.flatMap((damper) => damper.body_length));
  const longest = Math.max(...length);
  const least = SLEEVE_TOP * body - longest;
  if (least <= 0) return [];
  const sleeve = `a sleeve of ${valueInWords(longest, 'length')} and a body of ${valueInWords(body, 'length')}`;
  const beside = `${sleeve}, whose half it should reach`;
  return [{ path: [...at, 'ledge_height'], dimension: 'length', usual: { least, most: body }, beside }];
}

/** The pair farthest off the line between the pairs beside it: a slip moves its neighbours' lines as well, by half. */
function ofMotion({ pairs, mount_raise = 0 }: AxleFields['motion'], at: Path): readonly Held[] {
  const sorted = pairs
    .map((pair, i) => ({
      i,
      height: pair.hub_to_arch,
      length: pair.damper_length,
      raise: pair.mount_raise ?? mount_raise,
    }))
    .sort((a, b) => a.height - b.height);
  const inner = sorted.slice(1, -1).map((pair, k) => {
    const [before, after] = [sorted[k], sorted[k + 2]] as [typeof pair, typeof pair];
    const span = after.height - before.height;
    const rise = after.length - after.raise - (before.length - before.raise);
    const line = before.length - before.raise + (rise * (pair.height - before.height)) / span + pair.raise;
    return { i: pair.i, line, within: OFF_LINE.base + OFF_LINE.share * span, off: Math.abs(pair.length - line) };
  });
  const [worst] = inner.sort((a, b) => b.off - a.off);
  if (worst === undefined) return [];
  const { i, line, within } = worst;
  const usual = { least: line - within, most: line + within };
  return [{ path: [...at, i, 'damper_length'], dimension: 'length', usual, beside: 'the pairs next to it' }];
}

function rearAgainstFront({ front, rear }: ScenarioFields['axles']): readonly Held[] {
  const at = (...keys: PathKey[]): Path => ['axles', 'rear', ...keys];
  const before = (...keys: PathKey[]): Path => ['axles', 'front', ...keys];
  const isSides = sideLoads(rear.wheel_load) !== null;
  const load = [meanLoad(front.wheel_load)];
  const loads = isSides ? ['left', 'right'].map((side) => at('wheel_load', side)) : [at('wheel_load')];
  return [
    ...loads.map((path) =>
      share(path, SHARES.rear_over_front_load, load, 'a front wheel load of', before('wheel_load'), 'mass'),
    ),
    share(
      at('unsprung_mass'),
      SHARES.rear_over_front,
      [front.unsprung_mass],
      'a front unsprung mass of',
      before('unsprung_mass'),
      'mass',
    ),
    share(
      at('tyre_rate'),
      SHARES.rear_over_front,
      [front.tyre_rate],
      'a front tyre rate of',
      before('tyre_rate'),
      'rate',
    ),
    ...(front.roll && rear.roll
      ? [
          share(
            at('roll', 'track'),
            SHARES.rear_over_front_track,
            [front.roll.track],
            'a front track of',
            before('roll', 'track'),
          ),
        ]
      : []),
  ];
}

function ofCar({ axles: { front } }: ScenarioFields): readonly Held[] {
  return front.roll
    ? [
        share(['car', 'wheelbase'], SHARES.wheelbase_over_track, [front.roll.track], 'a track of', [
          'axles',
          'front',
          'roll',
          'track',
        ]),
      ]
    : [];
}

function ofTarget({ axles }: ScenarioFields, axle: AxleName, at: Path): Held {
  const arch = [axles[axle].tyre_on_arch];
  return share([...at, 'target_height'], SHARES.target_over_tyre_on_arch, arch, 'a tyre that meets the arch at', [
    'axles',
    axle,
    'tyre_on_arch',
  ]);
}

/** @param by the field beside which it is held, in the same mapping, or its whole path */
function share(
  path: Path,
  [least, most]: Shares,
  others: readonly number[],
  words: string,
  by: string | Path,
  dimension: FieldDimension = 'length',
): Held {
  const ends = [...new Set([Math.min(...others), Math.max(...others)])].map((value) => valueInWords(value, dimension));
  const usual = shareOf(least, most, others);
  const neighbour = typeof by === 'string' ? [...path.slice(0, -1), by] : by;
  return { path, dimension, usual, beside: `${words} ${ends.join(' to ')}`, by: neighbour };
}
