/**
 * The changed values as lines of a scenario: each part family and each target in place of what stands there. Lists
 * hold the one part on the bench, so that `check` accepts the scenario and a sweep judges just this build.
 */
import type { BumpStop, Helper, Mount, Sleeve, Spring } from '../../model/parts.ts';
import { AXLE_NAMES, type AxleName } from '../../model/scenario.ts';
import { type Bench, cornerOf, judge } from './bench.ts';
import { FRAGMENT } from './words.ts';

type Field = readonly [key: string, value: string | null];

/** Empty where nothing differs. */
export function fragmentOf(bench: Bench, swept: Bench): string {
  const axles = AXLE_NAMES.flatMap((axle) => indentUnder(axleLines(bench, swept, axle), axle));
  const setup = setupLines(bench, swept);
  if (axles.length + setup.length === 0) return '';
  const named = setup.length > 0 ? ['setups:', `  - name: ${bench.setup.name}`, ...setup.map(indentBy(4))] : [];
  const comments = FRAGMENT.heading(bench.setup.name, bench.start.id).map((line) => `# ${line}`);
  return [...comments, ...(axles.length > 0 ? ['axles:', ...axles.map(indentBy(2))] : []), ...named, ''].join('\n');
}

function axleLines(bench: Bench, swept: Bench, axle: AxleName): string[] {
  const [values, were] = [bench.axles[axle], swept.axles[axle]];
  const { sleeve, mount, bumpStop, spring, helper } = cornerOf(bench, axle, values);
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
    return indentUnder([`target_height: ${quantity(height, 'mm')}`, `wanted_range: [${range.join(', ')}]`], axle);
  });
  const { bumpLoad } = bench;
  const bump = bumpLoad === null ? 'bump: closed' : `bump: { load: ${digits(bumpLoad)} }`;
  return bumpLoad === swept.bumpLoad ? heights : [...heights, bump];
}

function sleeveFields(sleeve: Sleeve): Field[] {
  return [
    ...nameFields(sleeve),
    ...lengths({ ledge_height: sleeve.ledgeHeight, length: sleeve.length, bore: sleeve.bore }),
    ...lengths({ outer_diameter: sleeve.outerDiameter, trim: sleeve.trim, groove_drop: sleeve.grooveDrop }),
    ...lengths({ thread_pitch: sleeve.threadPitch }),
  ];
}

function mountFields(mount: Mount): Field[] {
  return [
    ...nameFields(mount),
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
    ...nameFields(stop),
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
    ...nameFields(spring),
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
    ...nameFields(helper),
    ...lengths({ free_length: helper.freeLength, block_height: helper.blockHeight }),
    ['rate', quantity(helper.rate, 'N/mm')],
    ...lengths({ bore: helper.bore }),
    ['coupler', helper.coupler > 0 ? coupler : null],
  ];
}

/** A JSON text is a YAML text in double quotes. */
function nameFields({ name, price }: { readonly name: string; readonly price: number | null }): Field[] {
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

function indentUnder(lines: readonly string[], key: string): string[] {
  return lines.length === 0 ? [] : [`${key}:`, ...lines.map(indentBy(2))];
}

function indentBy(spaces: number): (line: string) => string {
  return (line) => ' '.repeat(spaces) + line;
}

function quantity(value: number, unit: string): string {
  return `${digits(value)} ${unit}`;
}

/** Rounding noise of inches left out. */
function digits(value: number): string {
  return String(Number(value.toPrecision(12)));
}
