/** What to measure and how, group by group: one row a field, or a few fields read together. */
import type { Tolerances } from '../model/scenario.ts';

/** What is measured together, each with a figure. */
export type GroupName = 'car' | 'damper' | 'sleeve' | 'mount' | 'stop' | 'spring' | 'rodEnd';

export interface Row {
  /** Paths of the fields; the first is the one that figures and boxes belong to. */
  readonly paths: readonly string[];
  readonly how: string;
  /** The tool, and about how many minutes an axle takes. Common practice, no source. */
  readonly takes: readonly [tool: string, minutes: number];
  /** Kind of tolerance whose default is the usual accuracy. */
  readonly tolerance?: keyof Tolerances;
  /** Assumable accuracy where no tolerance is studied. */
  readonly accuracy?: string;
  /** Inputs of the tolerance study that this measurement settles. */
  readonly inputs?: readonly string[];
  /** Inputs of the study whose width holds what this one may be off by. */
  readonly within?: readonly string[];
  /** Taken as exact where neither a tolerance nor `unknown` is written. */
  readonly isExact?: true;
  /** Stands in for another row: never a must. */
  readonly instead?: boolean;
  /** One box for the car, one a wheel, or none because a table of its own follows; else one an axle. */
  readonly boxes?: 'car' | 'wheels' | 'none';
}

const CALIPER = '0.1 mm, caliper';
const RULE = '1 mm, steel rule';
const CATALOGUE = 'as the seller states';

type Takes = Row['takes'];

const row = (
  path: string | readonly string[],
  how: string,
  takes: Takes,
  more: Omit<Row, 'paths' | 'how' | 'takes'>,
): Row => {
  return { paths: typeof path === 'string' ? [path] : path, how, takes, ...more };
};

// biome-ignore format: one row a field
export const ROWS: Readonly<Record<GroupName, readonly Row[]>> = {
  car: [
    row(['wheel_load', 'wheel_load.left', 'wheel_load.right'], 'Car level, usual fuel, tyres at pressure, driver’s weight in the seat, steering straight, brakes off. Roll it back and forth first, so that nothing binds. A scale under each wheel, or one and three pads as high.', ['four scales, or one and pads', 60], { tolerance: 'wheelLoadShare', inputs: ['wheel_load'], boxes: 'wheels' }),
    row('unsprung_mass', 'Weigh wheel, brake, hub and upright; add half of arms, driveshaft, damper and spring.', ['bathroom scale, wheel and hub off', 90], { tolerance: 'unsprungMassShare', inputs: ['unsprung_mass'] }),
    row(['motion.pairs[].hub_to_arch', 'motion.pairs[].damper_length'], 'Spring out, axle on stands, damper on its mount. Raise the wheel with a jack in steps of about 25 mm. Read hub centre to arch lip, and lower eye centre to rod shoulder, together. Six pairs a side are good, four the least. A table for them follows.', ['jack, stands, steel rule', 60], { tolerance: 'damperLength', inputs: ['motion_length', 'motion_ratio'], boxes: 'none' }),
    row(['motion.mount_raise', 'motion.pairs[].mount_raise'], 'Rod shoulder above the tower’s mounting face while the pairs are read. Note beside the pair if it was changed.', ['straight edge, steel rule', 5], { accuracy: '1 mm' }),
    row('motion.ratio', 'Only with a single pair: change of damper length over change of ride height.', ['the same pairs', 5], { tolerance: 'motionRatioShare', within: ['motion_ratio'] }),
    row('tyre_on_arch', 'Spring out: raise the wheel until the widest tyre you will run touches arch or liner, straight and on lock; read hub to arch.', ['jack, steel rule', 15], { tolerance: 'tyreOnArch', inputs: ['tyre_on_arch'] }),
    row('lowest_wheel', 'Where strap, joint or driveshaft ends the droop before the damper does: hub to arch there.', ['jack, steel rule', 10], { tolerance: 'lowestWheel', inputs: ['lowest_wheel'] }),
    row('tyre_rate', 'From the tyre’s maker; or hub height at two known loads: extra load over what the hub comes down.', ['steel rule, two known loads', 20], { accuracy: '10 %', inputs: ['tyre_rate'], isExact: true }),
    row('tyre_width', 'As the tyre’s wall says, 205 for 205 mm: only where its rate is not known.', ['a look at the tyre', 1], { accuracy: 'as it says', within: ['tyre_rate'] }),
    row('car.wheelbase', 'Hub centre to hub centre, steering straight; mean of both sides.', ['tape', 5], { accuracy: '3 mm', boxes: 'car' }),
    row('car.pitch_inertia_ratio', 'Not measured at home: about 0.9 to 1.0 for cars (common practice, no source).', ['a swing rig; else leave it assumed', 240], { accuracy: '0.1', boxes: 'car', inputs: ['pitch_inertia_ratio'], isExact: true }),
    row('car.sprung_centre_height', 'Only for cornering: from a handbook, or two weighings with one axle raised.', ['scales, jack', 60], { accuracy: '20 mm', boxes: 'car' }),
    row(['roll.track', 'roll.roll_centre_height', 'roll.bar_rate', 'roll.at_height'], 'Only for cornering: track between tyre middles; roll centre from a drawing of the arms, with the hub-to-arch height it was drawn at; bar rate at one wheel, the other held: load over movement.', ['tape, drawing of the arms', 60], { accuracy: '5 mm, 20 mm, 10 %' }),
    row(['bushes.rate', 'bushes.unloaded_height'], 'Rubber bushes that hold the wheel up with spring and damper out: load over movement at the hub, and hub to arch where they hold nothing.', ['jack, spring scale, steel rule', 30], { accuracy: '10 %, 5 mm' }),
  ],
  damper: [
    row('dampers[].extended', 'Rod pulled out. Lower eye centre to the shoulder that the washers rest on, along the rod.', ['steel rule', 5], { tolerance: 'damperLength', inputs: ['damper_extended'] }),
    row('dampers[].compressed', 'Bump stop off, rod pushed in slowly until metal stops it. The same two places.', ['steel rule', 5], { tolerance: 'damperLength', inputs: ['damper_compressed'] }),
    row('dampers[].body_length', 'Lower eye centre to the top of the body, or to whatever the stop will meet.', ['steel rule', 5], { tolerance: 'body', inputs: ['body_length'] }),
    row('dampers[].body_diameter', 'Where the sleeve slides over: the widest place, paint and welds included. Ask the maker whether the body is a twin or a single tube (`body`): the latter is never grooved or welded.', ['caliper', 2], { tolerance: 'diameter', inputs: ['body_diameter'] }),
    row(['dampers[].gas.out', 'dampers[].gas.in'], 'Press the rod down on a scale, upright: read just in from fully out, and just short of fully in, both moving slowly each way, and take the mean. In kg or N.', ['bathroom scale', 10], { tolerance: 'gasShare', inputs: ['gas'] }),
    row(['dampers[].gas.charge', 'dampers[].gas.temperature', 'dampers[].gas.volume'], 'Instead of the push: charge on the gauge, its temperature, gas volume with the rod out. Never open a charged damper.', ['the maker’s data', 10], { accuracy: CATALOGUE, instead: true, within: ['gas'] }),
    row(['dampers[].gas.rod_diameter', 'dampers[].gas.rod_area'], 'Only with the charge: the bright part of the rod.', ['caliper', 2], { accuracy: '0.05 mm, caliper', within: ['gas'] }),
  ],
  sleeve: [
    row('sleeves[].ledge_height', 'Lower eye centre to the face the sleeve stands on.', ['steel rule', 5], { tolerance: 'sleeve', inputs: ['ledge_height'] }),
    row('sleeves[].length', 'Whole, before any cut; once cut, measure again.', ['caliper', 2], { tolerance: 'sleeve', inputs: ['sleeve_cut'] }),
    row('sleeves[].bore', 'Inside, at both ends.', ['caliper', 2], { tolerance: 'diameter', inputs: ['sleeve_bore'] }),
    row('sleeves[].outer_diameter', 'Over the thread.', ['caliper', 2], { tolerance: 'diameter', inputs: ['sleeve_diameter'] }),
    row('sleeves[].thread_pitch', 'Turn the perch ten times; a tenth of its way.', ['caliper', 5], { accuracy: '0.02 mm' }),
    row('perches[].lock_ring', 'Height of the ring under the perch; 0 without one.', ['caliper', 2], { tolerance: 'perch', inputs: ['perch_height'] }),
    row('perches[].height', 'Lower face to the face the spring sits on.', ['caliper', 2], { tolerance: 'perch', inputs: ['perch_height'] }),
    row('perches[].inset', 'How far below the sleeve’s top the perch seat must stay, so that the nut keeps its thread.', ['steel rule', 2], { accuracy: RULE }),
    row('perches[].spigot_diameter', 'What enters the spring, at its widest.', ['caliper', 2], { tolerance: 'diameter', inputs: ['spigot_diameter'] }),
    row('perches[].engagement', 'How deep the spigots of both seats hold the spring: the lesser.', ['caliper', 5], { accuracy: '0.5 mm', inputs: ['engagement'], isExact: true }),
  ],
  mount: [
    row('mounts[].raise', 'Mount fitted without spacer: a straight edge on the tower’s face, down or up to the rod shoulder. Above counts as plus.', ['straight edge, steel rule', 10], { tolerance: 'mount', inputs: ['raise'] }),
    row('mounts[].plate_height', 'Instead of the raise: tower’s face to the underside of the mount’s inner plate.', ['straight edge, steel rule', 10], { tolerance: 'mount', inputs: ['raise'] }),
    row('mounts[].flange_depth', 'Tower’s face to the flange’s face that isolator or spring bears on. Below counts as plus.', ['straight edge, steel rule', 5], { tolerance: 'mount', inputs: ['flange_depth'] }),
    row('mounts[].bore', 'Narrowest place that sleeve or body could have to pass.', ['caliper', 2], { tolerance: 'diameter', inputs: ['mount_bore'] }),
    row('mounts[].spigot', 'How far a locating lip hangs below the flange’s face.', ['caliper', 2], { accuracy: '0.5 mm' }),
    row('mounts[].lower_bush', 'Shoulder washers to inner plate, under the car’s weight.', ['caliper', 5], { accuracy: '1 mm' }),
    row('mounts[].washers', 'All washers between shoulder and lower bush.', ['caliper', 2], { accuracy: CALIPER }),
    row('mounts[].washer_diameter', 'The widest of washers and lower bush.', ['caliper', 2], { tolerance: 'diameter', inputs: ['washer_diameter'] }),
    row('mounts[].bush_give', 'Press the mount with about three times the wheel’s load: how far the shoulder comes up. Soft rubber: 2 to 5 mm.', ['press with a scale, dial gauge', 30], { tolerance: 'bushGive', inputs: ['bush_give'] }),
    row('isolators[].thickness', 'Squeezed as by the standing spring, not free.', ['caliper, the spring on it', 15], { tolerance: 'isolator', inputs: ['isolator_thickness'] }),
    row('isolators[].bore', 'Inside, squeezed.', ['caliper', 2], { tolerance: 'diameter', inputs: ['isolator_bore'] }),
    row('isolators[].spigot', 'How far a lip hangs below the face the spring bears on.', ['caliper', 2], { accuracy: '0.5 mm' }),
  ],
  stop: [
    row('bump_stops[].length', 'As bought; once cut, measure again.', ['caliper', 2], { tolerance: 'stopLength', inputs: ['stop_length'] }),
    row(['bump_stops[].closed_fraction', 'bump_stops[].closed_at_force'], 'Squeeze the stop, as cut, in a press until more load hardly moves it: that height over the free height of the same piece, and the force there. A harder hit squeezes foam further.', ['press with a scale, caliper', 30], { tolerance: 'closedFraction', inputs: ['closed_fraction'] }),
    row(['bump_stops[].curve.points[].force', 'bump_stops[].curve.points[].squeeze', 'bump_stops[].curve.measured_length'], 'For full bump under a load: press on a scale in steps, free length noted. A table for the points follows.', ['press with a scale, caliper', 45], { tolerance: 'stopForceShare', inputs: ['stop_force'], boxes: 'none' }),
    row('bump_stops[].diameter', 'Widest place, free.', ['caliper', 2], { tolerance: 'diameter', inputs: ['stop_diameter'] }),
    row('bump_stops[].packer', 'Between shoulder and stop; 0 without one.', ['caliper', 2], { accuracy: CALIPER }),
    row('bump_stops[].packer_diameter', 'Widest place.', ['caliper', 2], { tolerance: 'diameter', inputs: ['packer_diameter'] }),
  ],
  spring: [
    row('springs[].free_length', 'Upright on a flat face, nothing on it, four readings around; the mean.', ['steel rule', 5], { tolerance: 'freeLength', inputs: ['free_length'] }),
    row('springs[].rate', 'In a press with a scale, a cage around the spring: the load at two lengths, about a third and two thirds of the travel; difference of loads over difference of lengths.', ['press with a scale, cage', 30], { tolerance: 'rateShare', inputs: ['rate'] }),
    row('springs[].bore', 'Inside, at both ends; the lesser.', ['caliper', 2], { tolerance: 'springBore', inputs: ['spring_bore'] }),
    row('springs[].wire', 'Over the paint, three places; less the coating twice.', ['caliper', 5], { accuracy: '0.05 mm, caliper', within: ['rate', 'solid_height'] }),
    row('springs[].coils', 'Follow the wire from tip to tip: whole turns and the part of one, to a quarter.', ['chalk', 5], { accuracy: 'a quarter coil', within: ['rate', 'solid_height'] }),
    row('springs[].coating', 'Scrape one spot at an end: over paint less bare, halved.', ['caliper, scraper', 5], { accuracy: '0.1 mm', within: ['solid_height'] }),
    row('springs[].solid_height', 'Ask the seller, or press it solid in a cage; else wire and coils. Never against the car.', ['press with a cage, or the seller', 30], { tolerance: 'solidHeight', inputs: ['solid_height'] }),
    row('helpers[].free_length', 'Nothing on it.', ['steel rule', 2], { tolerance: 'freeLength', inputs: ['helper_free_length'] }),
    row('helpers[].block_height', 'Pressed flat.', ['vice, caliper', 5], { tolerance: 'solidHeight', inputs: ['helper_block'] }),
    row('helpers[].rate', 'Lay known masses on it: load over travel.', ['known masses, steel rule', 15], { tolerance: 'rateShare', inputs: ['helper_rate'] }),
    row('helpers[].bore', 'Inside.', ['caliper', 2], { tolerance: 'springBore', inputs: ['helper_bore'] }),
    row('helpers[].coupler.thickness', 'What it adds between the two springs.', ['caliper', 2], { accuracy: CALIPER }),
    row('helpers[].coupler.bore', 'Inside.', ['caliper', 2], { tolerance: 'diameter', inputs: ['coupler_bore'] }),
  ],
  rodEnd: [
    row('rod_ends[].thread_start', 'Shoulder to the first full thread.', ['caliper', 2], { accuracy: '0.5 mm' }),
    row('rod_ends[].thread_end', 'Shoulder to the end of the thread.', ['caliper', 2], { accuracy: '0.5 mm' }),
    row('rod_ends[].plate_thickness', 'Where the bushes bear on it.', ['caliper', 2], { accuracy: CALIPER }),
    row('rod_ends[].upper_bush', 'Tightened as it will be.', ['caliper', 2], { accuracy: '1 mm' }),
    row('rod_ends[].upper_washers', 'All of them.', ['caliper', 2], { accuracy: CALIPER }),
    row('rod_ends[].nut', 'Height.', ['caliper', 2], { accuracy: CALIPER }),
    row('rod_ends[].jam_nut', 'Height; 0 without one.', ['caliper', 2], { accuracy: CALIPER }),
  ],
};

/** Fields that are not on the sheet, by the start of their paths, and why; what is given of the car may still be off. */
export const NOT_MEASURED: readonly { readonly start: string; readonly why: string; readonly isGiven?: true }[] = [
  { start: 'setups[].', why: 'a wish: what the car shall do, not what it is' },
  { start: 'margins.', why: 'a choice: how much must be left' },
  { start: 'ranking.', why: 'a choice: what counts how much' },
  { start: 'tolerances.', why: 'how well the sheet was filled in' },
  { start: 'plan.', why: 'a choice' },
  { start: 'springs[].only.', why: 'picks rows of a catalogue' },
  { start: 'springs[].estimate.', why: 'a constant of the material, with its source', isGiven: true },
  { start: 'sleeves[].trim', why: 'a choice: what is to be cut off' },
  { start: 'sleeves[].groove_drop', why: 'a choice: how much lower a new groove would sit' },
  { start: 'bump_stops[].cut_length', why: 'a choice: what the stop is to be cut to' },
  { start: 'mounts[].spacer', why: 'a choice: what is to be put between mount and tower' },
  { start: 'dampers[].force_velocity[].', why: 'read off a test bench’s sheet', isGiven: true },
  { start: 'dampers[].gas.working_temperature', why: 'a choice: how warm the damper is taken to be', isGiven: true },
];

/** Prices are asked, not measured. */
export const isPrice = (path: string): boolean => path.endsWith('.price');

// What the tolerance study does not move, for sentences that would else say "everything": read from the rows of the
// measuring sheet, which hold every number of the scenario format and the inputs of the study that each one settles.

/** `car: tyre rate, wheelbase; mount: spigot, washers`, in the order of the sheet. */
export function untoleranced(): string {
  const parts = new Map<string, string[]>();
  for (const path of pathsWithout()) {
    const { part, name } = namesOf(path);
    parts.set(part, [...(parts.get(part) ?? []), name]);
  }
  return [...parts].map(([part, names]) => `${part}: ${names.join(', ')}`).join('; ');
}

function pathsWithout(): string[] {
  const rows = Object.values(ROWS).flat();
  const unmoved = rows.filter(({ inputs, within, isExact }) => isExact || (inputs ?? within) === undefined);
  const given = NOT_MEASURED.filter(({ isGiven }) => isGiven).map(({ start }) => start.replace(/(?:\[\])?\.$/, ''));
  return [...unmoved.flatMap(({ paths }) => paths), ...given];
}

/** `rod_ends[].jam_nut` is the jam nut of the rod end; what names no part is the car's. */
function namesOf(path: string): { readonly part: string; readonly name: string } {
  const words = path.replaceAll('[]', '').replaceAll('_', ' ').split('.');
  const [first = '', ...rest] = words;
  return rest.length === 0 ? { part: 'car', name: first } : { part: single(first), name: rest.join(' ') };
}

function single(list: string): string {
  return list.replace(/(?<=sh|ch)es$/, '').replace(/(?<!s)s$/, '');
}
