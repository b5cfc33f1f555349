/** What the walk starts from: the scenarios that come with the tool, every field that they leave out, the bench, a question. */
import type { Question } from '../../src/fitting/question.ts';
import { SEEDS, slim } from './corpus.ts';

export interface Start {
  readonly name: string;
  readonly tree: Fields;
  readonly catalogue: string;
}

export type Fields = Readonly<Record<string, unknown>>;

/** Springs that work, so that there is something to say of them. */
const SPRINGS = /^(?:name|HS280-34|HS220-58|HS260-58|LE320-44|LE280-58)\b/;

/** The scenarios with very few options, and one build shown of each setup. */
const CARS: readonly Start[] = SEEDS.filter(({ small, name }) => !small && name !== 'fixture').map(
  ({ name, tree, catalogue }) => {
    const few = slim(tree, catalogue.includes('HS') || catalogue.includes('LE') ? 4 : 2) as Fields;
    const springs = catalogue.split('\n').filter((line) => SPRINGS.test(line));
    return {
      name,
      tree: { ...few, ranking: { ...(few.ranking as Fields), keep: 1 } },
      catalogue: `${springs.join('\n')}\n`,
    };
  },
);

const GAS = { charge: '8 bar', temperature: '20 degC', working_temperature: '40 degC', rod_area: '201 mm2' };
const LIMITS = { limits: { from: 0.8, to: 1.5 } };
const NAMED = (names: readonly string[], value: string) => Object.fromEntries(names.map((name) => [name, value]));

/** Numbers of the format that none of them gives, over the first. */
const REST = {
  axles: {
    front: {
      motion: { pairs: [{ mount_raise: '12 mm' }] },
      tyre_width: '195 mm',
      bushes: { rate: '0.5 N/mm', unloaded_height: '332 mm' },
      roll: { at_height: '332 mm' },
      dampers: [{ gas: { out: undefined, in: undefined, ...GAS, volume: '120 cm3' } }],
      mounts: [{ spigot: '1 mm' }],
      isolators: [{ spigot: '1 mm' }],
      bump_stops: [
        {
          ...{ closed_at_force: '8 kN', packer: '1 mm', packer_diameter: '40 mm' },
          curve: {
            measured_length: '60 mm',
            points: [
              { squeeze: '20 mm', force: '1 kN' },
              { squeeze: '38 mm', force: '4 kN' },
            ],
          },
        },
      ],
      sleeves: [{ groove_drop: '1 mm' }],
      perches: [{ inset: '1 mm' }],
      springs: [
        {
          only: {
            free_length: { from: '150 mm', to: '330 mm' },
            rate: { from: '20 N/mm', to: '80 N/mm' },
            bore: { from: '55 mm', to: '65 mm' },
          },
        },
        {
          ...{ name: 'single', free_length: '280 mm', rate: '34 N/mm', bore: '60 mm', solid_height: '116 mm' },
          ...{ wire: '10.25 mm', coils: 11.3, coating: '0.1 mm', price: 50 },
        },
        {
          ...{ name: 'of wire', free_length: '285 mm', bore: '60 mm', wire: '10.25 mm', coils: 11.3, price: 51 },
          estimate: { shear_modulus: '79 GPa', thin_stress_share: 0.56, thick_stress_share: 0.45 },
        },
      ],
    },
    rear: { lowest_wheel: '400 mm' },
  },
  setups: [{ balance: LIMITS }, { balance: LIMITS }],
  plan: { keep: 1 },
  tolerances: {
    ...NAMED(['free_length', 'solid_height', 'body', 'damper_length', 'sleeve', 'perch', 'stop_length'], '1 mm'),
    ...NAMED(
      ['mount', 'bush_give', 'isolator', 'spring_bore', 'diameter', 'tyre_on_arch', 'lowest_wheel', 'engagement'],
      '1 mm',
    ),
    ...NAMED(['rate', 'stop_force', 'wheel_load', 'unsprung_mass', 'motion_ratio', 'gas', 'tyre_rate'], '3 %'),
    ...{ closed_fraction: 0.05, pitch_inertia_ratio: 0.1, friction: '80 N', reading: '0.4 mm', reading_share: '2 %' },
  },
};

const [first] = CARS as readonly [Start];
const everyField: Start = { ...first, tree: merged(first.tree, REST) as Fields };

/** Parts, and corners, of a car without its wishes. */
function onTheBench(name: string, axles: Fields): Start {
  return { ...first, name, tree: { springsift: 1, currency: 'EUR', axles } };
}

const OF_THE_WHEEL = [
  'wheel_load',
  'unsprung_mass',
  'tyre_rate',
  'tyre_width',
  'tyre_on_arch',
  'motion',
  'bushes',
  'roll',
];
const parts = Object.entries((everyField.tree.axles as Record<string, Fields>).front ?? {}).filter(
  ([field]) => !OF_THE_WHEEL.includes(field),
);
const axles = first.tree.axles as Record<string, Fields>;
const ONE_PAIR = { mount_raise: '12 mm', pairs: [{ hub_to_arch: '335 mm', damper_length: '409.5 mm' }], ratio: 0.94 };

export const STARTS: readonly Start[] = [
  everyField,
  ...CARS.slice(1),
  onTheBench('parts', { front: Object.fromEntries(parts) }),
  onTheBench('corners', { front: { ...axles.front, motion: ONE_PAIR }, rear: axles.rear }),
];

/** Asked without a file. */
export const QUESTION: Question = {
  damper: '474/324/318/50 mm',
  ledge: '150 mm',
  sleeve: '160-20 mm',
  perch: '19 mm',
  spring: '280 mm, 34 N/mm, solid 116 mm, wire 10.5 mm, bore 60 mm, 8.1 coils',
  mount: '12/-10 mm',
  stop: '60/21 mm',
  isolator: '6 mm',
  load: '268 kg',
  motion: '340/420 mm, 0.95',
};

/** One tree over another, lists item by item; what is undefined above is taken away where it names a field. */
function merged(below: unknown, above: unknown): unknown {
  if (Array.isArray(below) && Array.isArray(above)) {
    return Array.from({ length: Math.max(below.length, above.length) }, (_, k) =>
      above[k] === undefined ? below[k] : merged(below[k], above[k]),
    );
  }
  if (typeof below !== 'object' || below === null || typeof above !== 'object' || above === null) return above;
  const both = Object.entries(above).map(([key, value]) => [key, merged((below as Fields)[key], value)]);
  return Object.fromEntries(
    Object.entries({ ...below, ...Object.fromEntries(both) }).filter(([, value]) => value !== undefined),
  );
}
