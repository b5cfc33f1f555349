/** One position of the corner, cut open along the damper's axis, from the back to the front. */
import type { PositionName } from '../../result/records/lengths.ts';
import type { CornerLayout, Position, Span } from './layout.ts';
import { box, circle, discs, group, hatching, lineThrough, n, path, rect } from './shapes.ts';
import { MOUNT_WALL, ROD_TIP, type View } from './sheet.ts';

/** Half-widths in mm of what nobody measures. */
const EYE = 11;
const EYE_HOLE = 5;
/** Beyond the sleeve or the spring. */
const LOCK_RING_RIM = 6;
const PERCH_RIM = 3;
const FLANGE = 3;

/** Draws in mm from the axis and above the lower eye. */
interface Pen {
  readonly x: (radius: number) => number;
  readonly y: (height: number) => number;
  readonly scale: number;
  /** Both halves of a ring cut open, from an inner to an outer radius. */
  readonly ring: (span: Span, inner: number, outer: number, name: string) => string;
  /** Solid across the axis. */
  readonly block: (span: Span, radius: number, name: string) => string;
}

export function figure(layout: CornerLayout, view: View, name: PositionName): string {
  const position = layout.positions[name];
  const pen = penFor(view);
  return group('f', [
    springBehind(layout, position, pen, view),
    damper(position, pen, view),
    stop(layout, position, pen),
    rod(position, pen, view),
    sleeve(position, pen, view),
    mount(layout, position, pen, view),
    spring(layout, position, pen, view),
    tower(position, pen, view),
  ]);
}

function penFor({ middle, scale, y }: View): Pen {
  const x = (radius: number) => middle + radius * scale;
  const ring = (span: Span, inner: number, outer: number, style: string) =>
    path(box(x(-outer), y(span[1]), x(-inner), y(span[0])) + box(x(inner), y(span[1]), x(outer), y(span[0])), style);
  const block = (span: Span, radius: number, style: string) =>
    rect(x(-radius), y(span[1]), x(radius), y(span[0]), style);
  return { x, y, scale, ring, block };
}

/** The half turns behind the damper, seen between it and the cut wire. */
function springBehind({ lengths }: CornerLayout, position: Position, pen: Pen, { radii }: View): string {
  const mean = radii.springIn + lengths.wire.diameter / 2;
  const { left, right } = coilsIn(position.spring, lengths.wire);
  const isFull = position.name === 'full';
  const turns = right.flatMap((height, k) => {
    const next = left[k + 1];
    return next === undefined
      ? []
      : [
          lineThrough([
            [pen.x(isFull ? 0 : mean), pen.y(isFull ? (height + next) / 2 : height)],
            [pen.x(-mean), pen.y(next)],
          ]),
        ];
  });
  return `<path class="turn" stroke-width="${n(0.85 * lengths.wire.diameter * pen.scale)}" d="${turns.join('')}"/>`;
}

function damper({ body }: Position, pen: Pen, { radii }: View): string {
  const foot: Span = [EYE * 1.4, body[1]];
  const eye = [
    rect(pen.x(-0.45 * EYE), pen.y(foot[0]), pen.x(0.45 * EYE), pen.y(0), 'body'),
    circle(pen.x(0), pen.y(0), EYE * pen.scale, 'body'),
    circle(pen.x(0), pen.y(0), EYE_HOLE * pen.scale, 'hole'),
  ];
  return eye.join('') + pen.block(foot, radii.body, 'body') + pen.block([body[1] - 5, body[1]], radii.body, 'body');
}

/** The thread above the shoulder is thinner. */
const THREAD_SHARE = 0.72;

function rod({ body, shoulder, nuts }: Position, pen: Pen, { radii }: View): string {
  const thread = THREAD_SHARE * radii.rod;
  return [
    pen.block([body[1], shoulder], radii.rod, 'rod'),
    pen.block([shoulder, nuts[1] + ROD_TIP], thread, 'rod'),
    pen.block(nuts, 1.9 * thread, 'rod'),
  ].join('');
}

function stop({ lengths }: CornerLayout, { stop: span, packer }: Position, pen: Pen): string {
  const { diameter, length, packerDiameter } = lengths.stop;
  // Squeezed foam bulges; how far, nobody gives.
  const squeeze = 1 - (span[1] - span[0]) / length;
  const radius = (diameter / 2) * (1 + 0.12 * squeeze);
  const height = (span[1] - span[0]) * pen.scale;
  const round = n(Math.min(4, height / 3));
  const box = `x="${n(pen.x(-radius))}" y="${n(pen.y(span[1]))}" width="${n(2 * radius * pen.scale)}" height="${n(height)}"`;
  const foam = `<rect class="stop" ${box} rx="${round}"/>`;
  return foam + (packer ? pen.block(packer, (packerDiameter || diameter) / 2, 'packer') : '');
}

function sleeve({ sleeve: span, cut, lockRing, perch }: Position, pen: Pen, { radii }: View): string {
  const { sleeveIn, sleeveOut, springOut } = radii;
  // Walls thinner than a hair line would vanish.
  const inner = Math.min(sleeveIn, sleeveOut - 1.5 / pen.scale);
  const thread = [-1, 1].map((side) =>
    lineThrough([
      [pen.x(side * sleeveOut), pen.y(span[0])],
      [pen.x(side * sleeveOut), pen.y(span[1])],
    ]),
  );
  return [
    pen.ring(span, inner, sleeveOut, 'sleeve'),
    path(thread.join(''), 'thread'),
    cut ? pen.ring(cut, inner, sleeveOut, 'cut') : '',
    pen.ring(lockRing, sleeveOut, sleeveOut + LOCK_RING_RIM, 'nut'),
    pen.ring(perch, sleeveOut, Math.max(springOut + PERCH_RIM, sleeveOut + LOCK_RING_RIM), 'nut'),
  ].join('');
}

function mount(layout: CornerLayout, position: Position, pen: Pen, { radii }: View): string {
  const { lengths } = layout;
  const { flange, plate, tower: plane, seat, isolator, washers, lowerBush, upperBush, upperWashers } = position;
  const { spigot, washerDiameter } = lengths.mount;
  const { mountIn, mountOut } = radii;
  const wall = mountIn + MOUNT_WALL;
  const flangeTop = Math.max(flange + FLANGE, Math.min(plane, plate[0]));
  const thread = THREAD_SHARE * radii.rod;
  const half = (side: number) =>
    `${lineThrough([
      [pen.x(side * mountIn), pen.y(flange - spigot)],
      ...(spigot > 0
        ? ([
            [pen.x(side * (mountIn + 3)), pen.y(flange - spigot)],
            [pen.x(side * (mountIn + 3)), pen.y(flange)],
          ] as const)
        : []),
      [pen.x(side * mountOut), pen.y(flange)],
      [pen.x(side * mountOut), pen.y(flangeTop)],
      [pen.x(side * wall), pen.y(flangeTop)],
      [pen.x(side * wall), pen.y(plate[1])],
      [pen.x(side * thread), pen.y(plate[1])],
      [pen.x(side * thread), pen.y(plate[0])],
      [pen.x(side * mountIn), pen.y(plate[0])],
    ])}z`;
  const bush = Math.max(thread, Math.min(washerDiameter / 2, mountIn));
  return [
    path(half(-1) + half(1), 'mount'),
    pen.ring(washers, thread, washerDiameter / 2, 'nut'),
    ...[lowerBush, upperBush].map((span) => (span[1] > span[0] ? pen.ring(span, thread, 0.9 * bush, 'rubber') : '')),
    upperWashers[1] > upperWashers[0] ? pen.ring(upperWashers, thread, bush, 'nut') : '',
    isolator ? pen.ring(isolator, (lengths.isolator?.bore ?? 0) / 2, mountOut, 'rubber') : '',
    isolator && lengths.isolator && lengths.isolator.spigot > 0
      ? pen.ring(
          [seat - lengths.isolator.spigot, seat],
          lengths.isolator.bore / 2,
          lengths.isolator.bore / 2 + 3,
          'rubber',
        )
      : '',
  ].join('');
}

function spring(layout: CornerLayout, position: Position, pen: Pen, view: View): string {
  const { lengths, solid } = layout;
  const isFull = position.name === 'full';
  const { diameter, isKnown } = lengths.wire;
  const mean = view.radii.springIn + diameter / 2;
  const { left, right } = coilsIn(position.spring, lengths.wire);
  const cuts = [
    ...left.map((height) => [pen.x(-mean), pen.y(height)] as const),
    ...(isFull ? [] : right.map((height) => [pen.x(mean), pen.y(height)] as const)),
  ];
  return [
    discs(cuts, (diameter / 2) * pen.scale, isKnown ? 'cuts' : 'cuts guess'),
    helper(layout, position, pen, isFull),
    isFull ? solidBlock(solid, pen, view) : '',
  ].join('');
}

/** Flat wire: how many turns a helper has, nobody gives. */
const HELPER_TURNS = 5;

function helper({ lengths }: CornerLayout, position: Position, pen: Pen, leftOnly: boolean): string {
  if (position.helper === null || lengths.helper === null) return '';
  const inner = lengths.helper.bore / 2;
  const thickness = lengths.helper.block / (HELPER_TURNS + 1);
  const wide = lengths.wire.diameter;
  const [from, to] = position.helper;
  const pitch = (to - from - thickness) / HELPER_TURNS;
  const ringAt = (span: Span, name: string) =>
    leftOnly
      ? rect(pen.x(-inner - wide), pen.y(span[1]), pen.x(-inner), pen.y(span[0]), name)
      : pen.ring(span, inner, inner + wide, name);
  const turns = Array.from({ length: HELPER_TURNS + 1 }, (_, k) =>
    ringAt([from + k * pitch, from + k * pitch + thickness], 'wire'),
  );
  return turns.join('') + (position.coupler ? ringAt(position.coupler, 'nut') : '');
}

/** The right half at full bump: how much of the room is wire on wire. */
function solidBlock(solid: CornerLayout['solid'], pen: Pen, { radii }: View): string {
  const spans = [solid.helper, solid.coupler, solid.spring].filter((span): span is Span => span !== null);
  const left = pen.x(radii.springIn);
  const right = pen.x(radii.springOut);
  const blocks = spans.map((span) => rect(left, pen.y(span[1]), right, pen.y(span[0]), 'solid'));
  const lines = spans.map((span) => hatching({ left, right, top: pen.y(span[1]), bottom: pen.y(span[0]) }, 3.2));
  return blocks.join('') + path(lines.join(''), 'hatch');
}

/** The car's mounting face with the spacer between it and the mount; a high seat reaches up through its hole. */
function tower({ tower: plane, spacer, seat }: Position, pen: Pen, { radii }: View): string {
  const inner = seat > plane ? radii.mountOut + 1 : radii.mountIn + MOUNT_WALL;
  const outer = radii.figure + 2;
  const sides = [-1, 1].map((side) => `M${n(pen.x(side * inner))} ${n(pen.y(plane))}H${n(pen.x(side * outer))}`);
  const around = spacer ? pen.ring(spacer, inner, Math.max(radii.mountOut, inner + 5), 'packer') : '';
  // What bolts such a high mount down.
  const rim =
    spacer && seat > plane ? pen.ring([spacer[1], spacer[1] + FLANGE], radii.mountOut - 1, inner + 5, 'mount') : '';
  return around + rim + path(sides.join(''), 'tower');
}

// Where a sectioned spring's wire is cut: circles left and right of the axis, half a turn apart.

export interface Coils {
  /** Heights of the wire's centre, mm, from below. */
  readonly left: readonly number[];
  readonly right: readonly number[];
}

/**
 * Cuts through a spring of `total` turns of which `active` work: the dead turns at either end lie wire on wire, the
 * working ones share what is left of the length evenly.
 */
export function coilsIn(
  span: Span,
  wire: { readonly diameter: number; readonly active: number; readonly total: number },
): Coils {
  const height = (turn: number) => span[0] + wire.diameter / 2 + riseAt(turn, span[1] - span[0], wire);
  const turns = (from: number) =>
    Array.from({ length: Math.max(0, Math.floor(wire.total - from) + 1) }, (_, k) => height(from + k));
  return { left: turns(0), right: turns(0.5) };
}

function riseAt(
  turn: number,
  length: number,
  { diameter, active, total }: { readonly diameter: number; readonly active: number; readonly total: number },
): number {
  const dead = Math.max(0, total - active) / 2;
  const whole = length - diameter;
  // At the solid end dead turns of a ground spring are thinner than the wire.
  const deadPitch = Math.min(diameter, whole / total);
  const pitch = active > 0 ? (whole - 2 * dead * deadPitch) / active : 0;
  const working = Math.min(Math.max(0, turn - dead), active);
  return Math.min(turn, dead) * deadPitch + working * pitch + Math.max(0, turn - dead - active) * deadPitch;
}
