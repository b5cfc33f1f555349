/**
 * The changed values as lines of a scenario: each part family and each target in place of what stands there. Lists
 * hold the one part on the bench, so that `check` accepts the scenario and a sweep judges just this build.
 */
import { snakeKey } from '../../model/keys.ts';
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
    ...lengthsOf(sleeve, 'ledgeHeight', 'length', 'bore', 'outerDiameter', 'trim', 'grooveDrop', 'threadPitch'),
  ];
}

function mountFields(mount: Mount): Field[] {
  return [
    ...nameFields(mount),
    ['raise', length(mount.bareRaise)],
    ...lengthsOf(mount, 'spacer', 'flangeDepth', 'bore'),
    ['seat', mount.seat],
    ['bolted', mount.bolted],
    ...lengthsOf(mount, 'spigot', 'lowerBush', 'washers', 'washerDiameter', 'bushGive'),
  ];
}

function stopFields(stop: BumpStop): Field[] {
  const { curve } = stop;
  const points = curve?.points.map(
    ({ squeeze, force }) => `{ squeeze: ${length(squeeze)}, force: ${quantity(force, 'N')} }`,
  );
  return [
    ...nameFields(stop),
    ['length', length(stop.uncutLength)],
    ['cut_length', length(stop.length)],
    ...lengthsOf(stop, 'diameter'),
    ['closed_fraction', digits(stop.closedFraction)],
    ['closed_at_force', stop.closedAtForce === null ? null : quantity(stop.closedAtForce, 'N')],
    ...(stop.packer > 0 ? lengthsOf(stop, 'packer', 'packerDiameter') : []),
    ['curve', curve && `{ measured_length: ${length(curve.measuredLength)}, points: [${points?.join(', ') ?? ''}] }`],
  ];
}

/** A solid height that is an estimate stays one: it is left out, and estimated again from the same spring. */
function springFields(spring: Spring): Field[] {
  const { wire, solid } = spring;
  const given = wire !== null && !wire.estimated ? wire : null;
  return [
    ...nameFields(spring),
    ...lengthsOf(spring, 'freeLength'),
    ['rate', spring.rateEstimated ? null : quantity(spring.rate, 'N/mm')],
    ...lengthsOf(spring, 'bore'),
    ['solid_height', solid.source === 'estimated' ? null : length(solid.height)],
    ['wire', given && length(given.diameter)],
    ['coils', given && digits(given.totalCoils)],
  ];
}

function helperFields(helper: Helper): Field[] {
  const coupler = `{ thickness: ${length(helper.coupler)}, bore: ${length(helper.couplerBore)} }`;
  return [
    ...nameFields(helper),
    ...lengthsOf(helper, 'freeLength', 'blockHeight'),
    ['rate', quantity(helper.rate, 'N/mm')],
    ...lengthsOf(helper, 'bore'),
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

/** Lengths that are written under the model's own names. */
function lengthsOf<K extends string>(part: Readonly<Record<K, number | null>>, ...keys: readonly K[]): Field[] {
  return keys.map((key) => [snakeKey(key), length(part[key])]);
}

function length(value: number | null): string | null {
  return value === null ? null : quantity(value, 'mm');
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
