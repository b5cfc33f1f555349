/**
 * Values held against their neighbours in the same file: each gives a band to another field. Shares are common practice,
 * no source; they are wide, so that what lies outside is most likely a slip of the pen.
 */
import { AXLE_NAMES, type AxleName } from '../../model/scenario.ts';
import type { AxleFields, BenchAxleFields, BenchScenarioFields, ScenarioFields } from '../schema/scenario.ts';
import type { PathKey } from '../source/yaml.ts';
import type { FieldDimension } from '../values/quantity.ts';
import { meanLoad, sideLoads } from '../values/swept.ts';
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

export function heldAgainstNeighbours(fields: ScenarioFields | BenchScenarioFields): readonly Held[] {
  const { front, rear } = fields.axles;
  return [
    ...AXLE_NAMES.flatMap((axle) => ofAxle(fields.axles[axle], ['axles', axle])),
    ...(front && rear ? rearAgainstFront(front, rear) : []),
    ...('setups' in fields ? ofWishes(fields) : []),
  ];
}

function ofWishes(fields: ScenarioFields): readonly Held[] {
  return [
    ...ofCar(fields),
    ...fields.setups.flatMap((_, i) => AXLE_NAMES.map((axle) => ofTarget(fields, axle, ['setups', i, axle]))),
  ];
}

type AnyAxle = AxleFields | BenchAxleFields;

function ofAxle(axle: AnyAxle | undefined, at: Path): readonly Held[] {
  if (axle === undefined) return [];
  const ofEach = <T>(list: string, entries: readonly T[], of: (entry: T, at: Path) => readonly Held[]) =>
    entries.flatMap((entry, i) => of(entry, [...at, list, i]));
  return [
    ...ofLoads(axle, at),
    ...ofMotion(axle.motion, [...at, 'motion', 'pairs']),
    ...ofEach('dampers', axle.dampers, ofDamper),
    ...ofEach('sleeves', axle.sleeves, (sleeve, path) => ofSleeve(axle, sleeve, path)),
    ...ofEach('bump_stops', axle.bump_stops, ({ cut_length, length }, path) =>
      cut_length === undefined
        ? []
        : [share(path, 'cut_length', SHARES.cut_over_bought, length, 'a stop of', 'length')],
    ),
    ...ofEach('springs', axle.springs, (spring, path) =>
      'catalogue' in spring || spring.solid_height === undefined
        ? []
        : [share(path, 'solid_height', SOLID_SHARES.spring, spring.free_length, FREE, 'free_length')],
    ),
    ...ofEach('helpers', axle.helpers, (helper, path) =>
      helper === 'none'
        ? []
        : [share(path, 'block_height', SOLID_SHARES.helper, helper.free_length, FREE, 'free_length')],
    ),
  ];
}

const FREE = 'a free length of';

function ofLoads({ wheel_load }: AnyAxle, at: Path): readonly Held[] {
  if (wheel_load === undefined) return [];
  const [sides, mean] = [sideLoads(wheel_load), [meanLoad(wheel_load)]];
  const unsprung = share(at, 'unsprung_mass', SHARES.unsprung, mean, 'a wheel load of', 'wheel_load', 'mass');
  if (sides === null) return [unsprung];
  const words = 'a right wheel load of';
  const left = [...at, 'wheel_load'];
  return [unsprung, share(left, 'left', SHARES.left_over_right, [sides.right], words, 'right', 'mass')];
}

function ofDamper({ extended, compressed, gas }: AnyAxle['dampers'][number], at: Path): readonly Held[] {
  const out = gas !== 'none' && 'out' in gas && gas.in !== undefined && gas.out > 0 ? [gas.out] : [];
  return [
    share(at, 'compressed', SHARES.compressed_over_extended, extended, 'an extended length of', 'extended'),
    share(at, 'body_length', SHARES.body_over_compressed, compressed, 'a compressed length of', 'compressed'),
    ...out.map((force) =>
      share([...at, 'gas'], 'in', SHARES.gas_in_over_out, [force], 'a force fully out of', 'out', 'force'),
    ),
  ];
}

/** A sleeve that ends below half of the body would hold the spring where nobody puts it. */
function ofSleeve(
  { dampers }: Pick<AnyAxle, 'dampers'>,
  { length }: AnyAxle['sleeves'][number],
  at: Path,
): readonly Held[] {
  const body = Math.min(...dampers.flatMap((damper) => damper.body_length));
  const longest = Math.max(...length);
  const least = SLEEVE_TOP * body - longest;
  if (least <= 0) return [];
  const sleeve = `a sleeve of ${valueInWords(longest, 'length')} and a body of ${valueInWords(body, 'length')}`;
  const beside = `${sleeve}, whose half it should reach`;
  return [{ path: [...at, 'ledge_height'], dimension: 'length', usual: { least, most: body }, beside }];
}

/** The pair farthest off the line between the pairs beside it: a slip moves its neighbours' lines as well, by half. */
function ofMotion(motion: AnyAxle['motion'], at: Path): readonly Held[] {
  const { pairs = [], mount_raise = 0 } = motion ?? {};
  const sorted = pairs
    .map(({ hub_to_arch: height, damper_length: length, mount_raise: raise = mount_raise }, i) => ({
      ...{ i, height, length, raise, bare: length - raise },
    }))
    .sort((a, b) => a.height - b.height);
  const inner = sorted.slice(1, -1).map((pair, k) => {
    const [before, after] = [sorted[k], sorted[k + 2]] as [typeof pair, typeof pair];
    const span = after.height - before.height;
    const rise = after.bare - before.bare;
    const line = before.bare + (rise * (pair.height - before.height)) / span + pair.raise;
    return { i: pair.i, line, within: OFF_LINE.base + OFF_LINE.share * span, off: Math.abs(pair.length - line) };
  });
  const [worst] = inner.sort((a, b) => b.off - a.off);
  if (worst === undefined) return [];
  const { i, line, within } = worst;
  const usual = { least: line - within, most: line + within };
  return [{ path: [...at, i, 'damper_length'], dimension: 'length', usual, beside: 'the pairs next to it' }];
}

const AXLES: Path = ['axles'];

function rearAgainstFront(front: AnyAxle, rear: AnyAxle): readonly Held[] {
  const held = (field: string, shares: Shares, other: number, words: string, dimension?: FieldDimension, by = field) =>
    share(AXLES, `rear.${field}`, shares, [other], `a front ${words} of`, `front.${by}`, dimension);
  const load = front.wheel_load === undefined ? null : meanLoad(front.wheel_load);
  const isSided = rear.wheel_load !== undefined && sideLoads(rear.wheel_load) !== null;
  const loads = isSided ? ['wheel_load.left', 'wheel_load.right'] : ['wheel_load'];
  const { rear_over_front_load, rear_over_front, rear_over_front_track } = SHARES;
  return [
    ...loads.flatMap((field) =>
      load === null ? [] : [held(field, rear_over_front_load, load, 'wheel load', 'mass', 'wheel_load')],
    ),
    held('unsprung_mass', rear_over_front, front.unsprung_mass, 'unsprung mass', 'mass'),
    ...(front.tyre_rate === undefined
      ? []
      : [held('tyre_rate', rear_over_front, front.tyre_rate, 'tyre rate', 'rate')]),
    ...(front.roll ? [held('roll.track', rear_over_front_track, front.roll.track, 'track')] : []),
  ];
}

function ofCar({ axles: { front } }: ScenarioFields): readonly Held[] {
  if (!front.roll) return [];
  const { track } = front.roll;
  return [share([], 'car.wheelbase', SHARES.wheelbase_over_track, [track], 'a track of', 'axles.front.roll.track')];
}

function ofTarget({ axles }: ScenarioFields, axle: AxleName, at: Path): Held {
  const words = 'a tyre that meets the arch at';
  const by = ['axles', axle, 'tyre_on_arch'];
  return share(at, 'target_height', SHARES.target_over_tyre_on_arch, [axles[axle].tyre_on_arch], words, by);
}

/**
 * @param at the mapping that `field` is in
 * @param by the field beside which it is held, in the same mapping, or its whole path
 */
function share(
  at: Path,
  field: string,
  [least, most]: Shares,
  others: readonly number[],
  words: string,
  by: string | Path,
  dimension: FieldDimension = 'length',
): Held {
  const ends = [...new Set([Math.min(...others), Math.max(...others)])].map((value) => valueInWords(value, dimension));
  const beside = `${words} ${ends.join(' to ')}`;
  const path = [...at, ...field.split('.')];
  const neighbour = typeof by === 'string' ? [...at, ...by.split('.')] : by;
  return { path, dimension, usual: shareOf(least, most, others), beside, by: neighbour };
}
