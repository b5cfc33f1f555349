/** A figure of the sheet: parts, and dimensions that name the field they measure. Letters come from the table beside it. */
import { dimensionLine } from '../report/drawing/dimensions.ts';
import { circle, escaped, group, hatching, lineThrough, n, path, rect } from '../report/drawing/shapes.ts';
import type { GroupName } from '../result/measuring.ts';

interface Figure {
  readonly width: number;
  readonly height: number;
  /** What a reader who cannot see it is told. */
  readonly title: string;
  readonly parts: string;
  readonly dims: readonly Dim[];
}

/** A dimension upright at `at` (across), or across at `at` (upright), between two places on the other axis. */
export interface Dim {
  readonly path: string;
  readonly way: 'upright' | 'across' | 'tag';
  readonly at: number;
  readonly low: number;
  readonly high: number;
  /** The part's edge, from which thin lines run to the dimension. */
  readonly edge: number;
}

/** Lengths along the damper: from `low` to `high`, measured downwards in the drawing. */
const upright = (path: string, at: number, low: number, high: number, edge = at): Dim => {
  return { path, way: 'upright', at, low, high, edge };
};

const across = (path: string, at: number, low: number, high: number, edge = at): Dim => {
  return { path, way: 'across', at, low, high, edge };
};

/** A letter beside what it measures, with a thin line to it: what is no length of its own in the drawing. */
const tag = (path: string, x: number, y: number, toX: number, toY: number): Dim => {
  return { path, way: 'tag', at: x, low: y, high: toX, edge: toY };
};

/** The figure as SVG; `letter` gives each path's letter. */
export function figureSvg(figure: Figure, letter: (path: string) => string): string {
  const { width, height, title, parts, dims } = figure;
  const lines = dims.map((dim) => extension(dim) + lineOf(dim));
  const letters = dims.map((dim) => letterAt(...placeOf(dim), letter(dim.path)));
  const box = `viewBox="0 0 ${n(width)} ${n(height)}" role="img"`;
  return `<svg class="drawing measured" ${box} aria-label="${escaped(title)}">${group('f', [parts])}${group('dims', lines)}${letters.join('')}</svg>`;
}

function lineOf({ way, at, low, high }: Dim): string {
  if (way === 'tag') return '';
  const thinLine = dimensionLine({ x: at, low, high, emphasis: 'plain' });
  // Exchanges the axes, so that one arrow serves both ways.
  return way === 'upright' ? thinLine : `<g transform="matrix(0 1 1 0 0 0)">${thinLine}</g>`;
}

function extension({ way, at, low, high, edge }: Dim): string {
  if (way === 'tag') return path(thinLine([at, low], [high, edge]), 'ext');
  if (edge === at) return '';
  const beyond = at + 3 * Math.sign(at - edge);
  const ends = [low, high].map((end) =>
    way === 'upright' ? thinLine([edge, end], [beyond, end]) : thinLine([end, edge], [end, beyond]),
  );
  return path(ends.join(''), 'ext');
}

function thinLine(from: readonly [number, number], to: readonly [number, number]): string {
  return lineThrough([from, to]);
}

/** Room a letter needs on its line; on shorter ones it stands beside it, away from the part. */
const ROOM = 26;
const BESIDE = 11;

function placeOf({ way, at, low, high, edge }: Dim): readonly [x: number, y: number] {
  if (way === 'tag') return [at, low];
  const middle = (low + high) / 2;
  const beside = Math.abs(high - low) >= ROOM ? at : at + BESIDE * (at < edge ? -1 : 1);
  return way === 'upright' ? [beside, middle] : [middle, beside];
}

function letterAt(x: number, y: number, text: string): string {
  return `<g class="letter"><circle cx="${n(x)}" cy="${n(y)}" r="6.5"/><text x="${n(x)}" y="${n(y + 3.2)}" text-anchor="middle">${escaped(text)}</text></g>`;
}

// The figures, one a group: parts as usual, not to scale. Each dimension names the field it measures.

/** Both walls of a ring cut open about an axis. */
const ring = (axis: number, inner: number, outer: number, top: number, bottom: number, name: string) =>
  rect(axis - outer, top, axis - inner, bottom, name) + rect(axis + inner, top, axis + outer, bottom, name);
const block = (axis: number, half: number, top: number, bottom: number, name: string) =>
  rect(axis - half, top, axis + half, bottom, name);
const line = (...points: (readonly [number, number])[]) => lineThrough(points);
const eye = (x: number, y: number) => circle(x, y, 8, 'body') + circle(x, y, 3.5, 'hole');
/** Rod below its shoulder, thread above it. */
const rod = (x: number, shoulder: number, foot: number, tip: number) =>
  block(x, 5, shoulder, foot, 'rod') + block(x, 3.4, tip, shoulder, 'rod');

const CAR: Figure = {
  width: 210,
  height: 158,
  title: 'Wheel under its arch, and the damper between lower eye and rod shoulder',
  parts: [
    path(line([4, 132], [206, 132]), 'tower'),
    rect(48, 132, 104, 141, 'packer'),
    circle(76, 94, 38, 'nut'),
    circle(76, 94, 21, 'hole'),
    circle(76, 94, 2, 'body'),
    path('M4 104H25V94A51 51 0 0 1 127 94V104H140M4 60V36Q40 14 90 12H140', ''),
    path('M37 94A39.5 39.5 0 0 1 115 94', 'ghost'),
    eye(170, 124),
    block(170, 8, 72, 116, 'body'),
    rod(170, 34, 72, 18),
    path(`${line([150, 46], [162, 46])}${line([178, 46], [198, 46])}`, 'tower'),
  ].join(''),
  dims: [
    upright('motion.pairs[].hub_to_arch', 76, 94, 43),
    upright('tyre_on_arch', 98, 94, 57, 80),
    upright('motion.pairs[].damper_length', 196, 124, 34, 176),
    upright('motion.mount_raise', 154, 46, 34, 166),
    tag('wheel_load', 26, 148, 54, 137),
  ],
};

const DAMPER: Figure = {
  width: 210,
  height: 190,
  title: 'Damper fully out, and the same fully in',
  parts: [
    eye(64, 172),
    block(64, 15, 88, 164, 'body'),
    rod(64, 28, 88, 12),
    eye(150, 172),
    block(150, 15, 88, 164, 'body'),
    rod(150, 74, 88, 58),
    path(line([150, 30], [150, 50]), ''),
    path('M150 54l-3 -7h6z', 'head'),
  ].join(''),
  dims: [
    upright('dampers[].extended', 18, 172, 28, 59),
    upright('dampers[].compressed', 188, 172, 74, 155),
    upright('dampers[].body_length', 98, 172, 88, 79),
    across('dampers[].body_diameter', 140, 49, 79),
    across('dampers[].gas.rod_diameter', 56, 59, 69),
    tag('dampers[].gas.out', 174, 38, 153, 42),
  ],
};

const SLEEVE: Figure = {
  width: 210,
  height: 206,
  title: 'Sleeve on its ledge, perch and lock ring on the sleeve',
  parts: [
    eye(105, 190),
    block(105, 24, 74, 182, 'body'),
    ring(105, 24, 34, 150, 156, 'nut'),
    ring(105, 25, 33, 50, 150, 'sleeve'),
    path(line([72, 50], [72, 150]) + line([138, 50], [138, 150]), 'thread'),
    ring(105, 33, 45, 122, 130, 'nut'),
    ring(105, 33, 52, 106, 122, 'nut'),
    ring(105, 33, 40, 98, 106, 'nut'),
  ].join(''),
  dims: [
    upright('sleeves[].ledge_height', 40, 190, 150, 71),
    upright('sleeves[].length', 190, 150, 50, 138),
    across('sleeves[].bore', 36, 80, 130, 50),
    across('sleeves[].outer_diameter', 18, 72, 138, 50),
    tag('sleeves[].thread_pitch', 162, 146, 140, 140),
    upright('perches[].lock_ring', 48, 130, 122, 60),
    upright('perches[].height', 168, 122, 106, 157),
    upright('perches[].inset', 54, 62, 50, 72),
    across('perches[].spigot_diameter', 90, 65, 145, 98),
    upright('perches[].engagement', 48, 106, 98, 65),
  ],
};

const MOUNT: Figure = {
  width: 234,
  height: 190,
  title: 'Top mount bolted to the tower, with the isolator under its flange',
  parts: [
    path(`${line([22, 92], [66, 92])}${line([154, 92], [198, 92])}`, 'tower'),
    path('M66 92V44H154V92M66 92V128H50V134H74V52H146V134H170V128H154V92', 'mount'),
    block(110, 5, 84, 176, 'rod'),
    block(110, 3.4, 22, 84, 'rod'),
    ring(110, 4, 28, 52, 76, 'rubber'),
    ring(110, 4, 31, 76, 84, 'nut'),
    ring(110, 34, 60, 134, 146, 'rubber'),
    ring(110, 34, 38, 146, 152, 'rubber'),
  ].join(''),
  dims: [
    upright('mounts[].raise', 44, 92, 84, 79),
    upright('mounts[].plate_height', 20, 92, 52, 74),
    upright('mounts[].flange_depth', 224, 92, 134, 170),
    across('mounts[].bore', 116, 74, 146),
    upright('mounts[].lower_bush', 172, 76, 52, 138),
    upright('mounts[].washers', 186, 84, 76, 141),
    across('mounts[].washer_diameter', 32, 79, 141, 76),
    upright('isolators[].thickness', 186, 146, 134, 170),
    across('isolators[].bore', 166, 76, 144, 152),
    upright('isolators[].spigot', 40, 152, 146, 72),
  ],
};

const STOP: Figure = {
  width: 210,
  height: 150,
  title: 'Bump stop on the rod under its packer, and squeezed closed in a press',
  parts: [
    rod(60, 24, 142, 10),
    block(60, 17, 24, 36, 'packer'),
    `<rect class="stop" x="36" y="36" width="48" height="76" rx="6"/>`,
    rect(128, 28, 196, 36, 'nut'),
    `<rect class="stop" x="132" y="36" width="60" height="28" rx="5"/>`,
    rect(128, 64, 196, 72, 'nut'),
    path(line([162, 92], [162, 78]), ''),
    path('M162 74l-3 7h6z', 'head'),
  ].join(''),
  dims: [
    upright('bump_stops[].length', 104, 112, 36, 84),
    upright('bump_stops[].packer', 104, 36, 24, 77),
    across('bump_stops[].diameter', 128, 36, 84, 112),
    across('bump_stops[].packer_diameter', 15, 43, 77, 24),
    upright('bump_stops[].closed_fraction', 204, 64, 36, 192),
    tag('bump_stops[].curve.points[].force', 182, 92, 166, 86),
  ],
};

const wires = (x: number, from: number, to: number, count: number) =>
  Array.from({ length: count }, (_, k) => circle(x, from + ((to - from) * k) / (count - 1), 6, 'wire')).join('');

const SPRING: Figure = {
  width: 230,
  height: 190,
  title: 'Spring free and pressed solid, helper with its coupler',
  parts: [
    wires(32, 20, 170, 8) + wires(92, 31, 159, 7),
    wires(132, 80, 170, 8),
    `${path(hatching({ left: 125, right: 139, top: 74, bottom: 176 }, 5), 'hatch')}`,
    ring(192, 18, 30, 30, 38, 'nut') + ring(192, 18, 24, 38, 46, 'nut'),
    ...[0, 1, 2, 3, 4].map((k) => ring(192, 22, 32, 50 + 14 * k, 54 + 14 * k, 'wire')),
    ...[0, 1, 2, 3, 4].map((k) => ring(192, 22, 32, 154 + 4 * k, 158 + 4 * k, 'wire')),
  ].join(''),
  dims: [
    upright('springs[].free_length', 12, 176, 14, 32),
    across('springs[].bore', 100, 38, 86),
    tag('springs[].wire', 108, 20, 97, 29),
    upright('springs[].solid_height', 110, 176, 74, 126),
    upright('helpers[].free_length', 150, 110, 50, 160),
    upright('helpers[].block_height', 154, 174, 154, 160),
    across('helpers[].bore', 132, 170, 214, 110),
    upright('helpers[].coupler.thickness', 154, 38, 30, 162),
    across('helpers[].coupler.bore', 18, 174, 210, 30),
  ],
};

const ROD_END: Figure = {
  width: 210,
  height: 190,
  title: 'Upper end of the rod: bushes, plate, washers, nut and jam nut',
  parts: [
    block(105, 8, 168, 186, 'rod'),
    block(105, 5, 14, 168, 'rod'),
    path(line([100, 22], [100, 136]) + line([110, 22], [110, 136]), 'thread'),
    ring(105, 5, 30, 160, 168, 'nut'),
    ring(105, 5, 27, 134, 160, 'rubber'),
    ring(105, 6, 52, 124, 134, 'mount'),
    ring(105, 5, 27, 98, 124, 'rubber'),
    ring(105, 5, 30, 90, 98, 'nut'),
    ring(105, 5, 18, 64, 90, 'nut'),
    ring(105, 5, 18, 48, 64, 'nut'),
  ].join(''),
  dims: [
    upright('rod_ends[].thread_start', 34, 168, 136, 97),
    upright('rod_ends[].thread_end', 14, 168, 22, 100),
    upright('rod_ends[].plate_thickness', 170, 134, 124, 157),
    upright('rod_ends[].upper_bush', 148, 124, 98, 132),
    upright('rod_ends[].upper_washers', 162, 98, 90, 135),
    upright('rod_ends[].nut', 142, 90, 64, 123),
    upright('rod_ends[].jam_nut', 142, 64, 48, 123),
  ],
};

/** The plank that makes a bathroom scale enough; its letters stand in the text beside it. */
export const LEVER: Figure = {
  width: 210,
  height: 112,
  title: 'A wheel on a plank between a pivot and a scale',
  parts: [
    path(line([4, 92], [206, 92]), 'tower'),
    rect(14, 62, 200, 70, 'packer'),
    path('M28 70l-9 22h18z', 'nut'),
    rect(160, 76, 194, 92, 'packer'),
    path('M177 70l-4 6h8z', 'nut'),
    group('', [circle(82, 34, 28, 'nut'), circle(82, 34, 14, 'hole')]),
  ].join(''),
  dims: [across('a', 80, 28, 82), across('b', 102, 28, 177)],
};

export const FIGURES = {
  car: CAR,
  damper: DAMPER,
  sleeve: SLEEVE,
  mount: MOUNT,
  stop: STOP,
  spring: SPRING,
  rodEnd: ROD_END,
} as const satisfies Readonly<Record<GroupName, Figure>>;
