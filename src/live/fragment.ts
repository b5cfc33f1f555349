/**
 * The changed values as lines of a scenario: each part family and each target in place of what stands there. Lists
 * hold the one part on the bench, so that `check` accepts the scenario and a sweep judges just this build.
 */
import type { BumpStop, Helper, Mount, Sleeve, Spring } from '../domain/parts.ts';
import { AXLE_NAMES, type AxleName } from '../domain/scenario.ts';
import { type Bench, judge } from './bench.ts';
import { partsOn } from './controls.ts';
import { FRAGMENT } from './words.ts';

type Field = readonly [key: string, value: string | null];

/** Empty where nothing differs. */
export function fragmentOf(bench: Bench, swept: Bench): string {
  const axles = AXLE_NAMES.flatMap((axle) => indented(axleLines(bench, swept, axle), axle));
  const setup = setupLines(bench, swept);
  if (axles.length + setup.length === 0) return '';
  const named = setup.length > 0 ? ['setups:', `  - name: ${bench.setup.name}`, ...setup.map(spaced(4))] : [];
  const heads = FRAGMENT.head(bench.setup.name, bench.start.id).map((line) => `# ${line}`);
  return [...heads, ...(axles.length > 0 ? ['axles:', ...axles.map(spaced(2))] : []), ...named, ''].join('\n');
}

function axleLines(bench: Bench, swept: Bench, axle: AxleName): string[] {
  const [values, were] = [bench.axles[axle], swept.axles[axle]];
  const { sleeve, mount, bumpStop, spring, helper } = partsOn(bench, axle);
  const lines: string[] = [];
  const list = (key: string, isChanged: boolean, fields: () => readonly Field[] | null) => {
    if (isChanged) lines.push(`${key}:`, `  - ${flow(fields())}`);
  };
  if (values.wheelLoad !== were.wheelLoad) lines.push(`wheel_load: ${quantity(values.wheelLoad, 'kg')}`);
  list('sleeves', values.trim !== were.trim, () => sleeveFields(sleeve));
  list('mounts', values.spacer !== were.spacer, () => mountFields(mount));
  list('bump_stops', values.stop !== were.stop, () => stopFields(bumpStop));
  if (values.spring !== were.spring) lines.push(...FRAGMENT.spring(spring).map((line) => `# ${line}`));
  list('springs', values.spring !== were.spring, () => springFields(spring));
  list('helpers', values.helper !== were.helper, () => helper && helperFields(helper));
  return lines;
}

/** Target heights, with the wanted range stretched to hold them, and the bump policy. */
function setupLines(bench: Bench, swept: Bench): string[] {
  const heights = AXLE_NAMES.flatMap((axle) => {
    const height = judge(bench, axle).state.standing.height;
    const { targetHeight, wantedFrom, wantedTo } = bench.setup.axles[axle];
    if (Math.abs(height - targetHeight) < 1e-6) return [];
    const range = [Math.min(wantedFrom, height), Math.max(wantedTo, height)].map((end) => quantity(end, 'mm'));
    return indented([`target_height: ${quantity(height, 'mm')}`, `wanted_range: [${range.join(', ')}]`], axle);
  });
  const { bumpLoad } = bench;
  const bump = bumpLoad === null ? 'bump: closed' : `bump: { load: ${digits(bumpLoad)} }`;
  return bumpLoad === swept.bumpLoad ? heights : [...heights, bump];
}

function sleeveFields(sleeve: Sleeve): Field[] {
  return [
    ...named(sleeve),
    ...lengths({ ledge_height: sleeve.ledgeHeight, length: sleeve.length, bore: sleeve.bore }),
    ...lengths({ outer_diameter: sleeve.outerDiameter, trim: sleeve.trim, groove_drop: sleeve.grooveDrop }),
    ...lengths({ thread_pitch: sleeve.threadPitch }),
  ];
}

function mountFields(mount: Mount): Field[] {
  return [
    ...named(mount),
    ...lengths({ raise: mount.bareRaise, spacer: mount.spacer, flange_depth: mount.flangeDepth, bore: mount.bore }),
    ...([
      ['seat', mount.seat],
      ['bolted', mount.bolted],
    ] as const),
    ...lengths({ spigot: mount.spigot, lower_bush: mount.lowerBush, washers: mount.washers }),
    ...lengths({ washer_diameter: mount.washerDiameter, bush_give: mount.bushGive }),
  ];
}

function stopFields(stop: BumpStop): Field[] {
  const { curve } = stop;
  const points = curve?.points.map(
    ({ squeeze, force }) => `{ squeeze: ${quantity(squeeze, 'mm')}, force: ${quantity(force, 'N')} }`,
  );
  return [
    ...named(stop),
    ...lengths({ length: stop.uncutLength, cut_length: stop.length, diameter: stop.diameter }),
    ['closed_fraction', digits(stop.closedFraction)],
    ['closed_at_force', stop.closedAtForce === null ? null : quantity(stop.closedAtForce, 'N')],
    ...(stop.packer > 0 ? lengths({ packer: stop.packer, packer_diameter: stop.packerDiameter }) : []),
    [
      'curve',
      curve && `{ measured_length: ${quantity(curve.measuredLength, 'mm')}, points: [${points?.join(', ') ?? ''}] }`,
    ],
  ];
}

/** A solid height that is an estimate stays one: it is left out, and estimated again from the same spring. */
function springFields(spring: Spring): Field[] {
  const { wire, solid } = spring;
  const isWireGiven = wire !== null && !wire.estimated;
  return [
    ...named(spring),
    ...lengths({ free_length: spring.freeLength }),
    ['rate', spring.rateEstimated ? null : quantity(spring.rate, 'N/mm')],
    ...lengths({ bore: spring.bore, solid_height: solid.source === 'estimated' ? null : solid.height }),
    ...(isWireGiven ? lengths({ wire: wire.diameter }) : []),
    ...(isWireGiven ? [['coils', digits(wire.totalCoils)] as const] : []),
  ];
}

function helperFields(helper: Helper): Field[] {
  const coupler = `{ thickness: ${quantity(helper.coupler, 'mm')}, bore: ${quantity(helper.couplerBore, 'mm')} }`;
  return [
    ...named(helper),
    ...lengths({ free_length: helper.freeLength, block_height: helper.blockHeight }),
    ['rate', quantity(helper.rate, 'N/mm')],
    ...lengths({ bore: helper.bore }),
    ['coupler', helper.coupler > 0 ? coupler : null],
  ];
}

/** A JSON text is a YAML text in double quotes. */
function named({ name, price }: { readonly name: string; readonly price: number | null }): Field[] {
  return [
    ['name', JSON.stringify(name)],
    ['price', price === null ? null : digits(price)],
  ];
}

function lengths(values: Readonly<Record<string, number | null>>): Field[] {
  return Object.entries(values).map(([key, value]) => [key, value === null ? null : quantity(value, 'mm')]);
}

function flow(fields: readonly Field[] | null): string {
  if (fields === null) return 'none';
  const given = fields.filter(([, value]) => value !== null);
  return `{ ${given.map(([key, value]) => `${key}: ${value}`).join(', ')} }`;
}

function indented(lines: readonly string[], key: string): string[] {
  return lines.length === 0 ? [] : [`${key}:`, ...lines.map(spaced(2))];
}

function spaced(spaces: number): (line: string) => string {
  return (line) => ' '.repeat(spaces) + line;
}

function quantity(value: number, unit: string): string {
  return `${digits(value)} ${unit}`;
}

/** Rounding noise of inches left out. */
function digits(value: number): string {
  return String(Number(value.toPrecision(12)));
}
