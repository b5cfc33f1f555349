/** SVG elements as text. Places are in drawing units; every number is rounded to a tenth of one. */
import { textWidth } from '../text/textWidth.ts';

/** Type size, and from one line to the next, in drawing units. */
export const TYPE = 11;
export const LINE = 13;

/** A text with the place it is anchored at, before it is drawn. */
export interface PlacedText {
  readonly x: number;
  readonly y: number;
  readonly text: string;
  readonly size: number;
  readonly anchor: 'start' | 'middle' | 'end';
  /** Reads from below upwards. */
  readonly upright?: boolean;
  readonly style?: TextStyle;
}

export type TextStyle = 'title' | 'quiet' | 'thin' | 'fail';

export interface Box {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

/** Bold letters are wider. */
const BOLD = 1.1;

export function widthOf({ text, size, style }: Pick<PlacedText, 'text' | 'size' | 'style'>): number {
  const isBold = style !== undefined && style !== 'quiet';
  return textWidth(text, size) * (isBold ? BOLD : 1);
}

export function textElement(placed: PlacedText): string {
  const { x, y, text, anchor, upright, style } = placed;
  const place = upright ? ` transform="translate(${n(x)} ${n(y)})rotate(-90)"` : ` x="${n(x)}" y="${n(y)}"`;
  const aligned = anchor === 'start' ? '' : ` text-anchor="${anchor}"`;
  return `<text${classed(style)}${place}${aligned}>${escaped(text)}</text>`;
}

export function rect(left: number, top: number, right: number, bottom: number, name: string): string {
  const width = Math.max(0, right - left);
  const height = Math.max(0, bottom - top);
  return `<rect${classed(name)} x="${n(left)}" y="${n(top)}" width="${n(width)}" height="${n(height)}"/>`;
}

/** A box as part of a path: several take fewer bytes than as many elements. */
export function box(left: number, top: number, right: number, bottom: number): string {
  const width = n(Math.max(0, right - left));
  return `M${n(left)} ${n(top)}h${width}V${n(Math.max(top, bottom))}h-${width}z`;
}

export function path(d: string, name: string): string {
  return `<path${classed(name)} d="${d}"/>`;
}

export function group(name: string, parts: readonly string[]): string {
  return `<g${classed(name)}>${parts.join('')}</g>`;
}

/** `M x y L x y ...` of a broken line. */
export function lineThrough(points: readonly (readonly [number, number])[]): string {
  return points.map(([x, y], k) => `${k === 0 ? 'M' : 'L'}${n(x)} ${n(y)}`).join('');
}

/**
 * Cut wire: discs with an outline, drawn as points of a thick round line and of a thinner one over it. A spring has
 * dozens, and a point takes half the bytes of a circle.
 */
export function discs(centres: readonly (readonly [number, number])[], radius: number, name: string): string {
  const d = centres.map(([x, y]) => `M${n(x)} ${n(y)}h0`).join('');
  const size = (value: number) => ` stroke-width="${n(Math.max(0.5, value))}"`;
  return `<g class="${name}"><path${size(2 * radius + 0.4)} d="${d}"/><path class="core"${size(2 * radius - 1.2)} d="${d}"/></g>`;
}

export function circle(x: number, y: number, radius: number, name: string): string {
  return `<circle${classed(name)} cx="${n(x)}" cy="${n(y)}" r="${n(radius)}"/>`;
}

/** Slanting lines inside a box, `step` apart, as one path. */
export function hatching({ left, right, top, bottom }: Box, step: number): string {
  const height = bottom - top;
  let d = '';
  for (let start = left - height + step; start < right; start += step) {
    const from = Math.max(start, left);
    const to = Math.min(start + height, right);
    if (to > from) d += `M${n(from)} ${n(bottom - (from - start))}L${n(to)} ${n(bottom - (to - start))}`;
  }
  return d;
}

export function n(value: number): string {
  return String(Math.round(value * 10) / 10 + 0);
}

export function escaped(text: string): string {
  return text.replace(/[&<>"]/g, (c) => ({ '&': '&amp;', '<': '&lt;', '>': '&gt;' })[c] ?? '&quot;');
}

function classed(name: string | undefined): string {
  return name ? ` class="${name}"` : '';
}
