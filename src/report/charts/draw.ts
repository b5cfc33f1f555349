/** Vega-lite charts drawn to SVG without a browser. Vega is loaded only when the first chart is drawn. */

import type { Runtime } from 'vega';
import type { TopLevelSpec } from 'vega-lite';
import { textWidth } from '../text/textWidth.ts';

/** What goes into an `<svg>` element that the template opens, names and styles. */
export interface Drawing {
  readonly viewBox: string;
  readonly width: string;
  readonly body: string;
}

/** Type size inside charts, px. */
export const TYPE_SIZE = 12;

/** What the first chart would wait for. */
export function loadVega() {
  return Promise.all([import('vega'), import('vega-lite')]);
}

/** Charts drawn in this run by what they show: a page that was sketched before has most of them. */
const drawings = new Map<string, Drawing>();
/** More than any page has; a run over many scenarios starts anew. */
const MOST_KEPT = 256;

export async function drawChart(spec: TopLevelSpec): Promise<Drawing> {
  const key = JSON.stringify(spec);
  const drawing = drawings.get(key) ?? (await newDrawing(spec));
  keepIn(drawings, key, drawing);
  return drawing;
}

function keepIn<T>(kept: Map<string, T>, key: string, value: T): void {
  if (kept.size >= MOST_KEPT) kept.clear();
  kept.set(key, value);
}

async function newDrawing(spec: TopLevelSpec): Promise<Drawing> {
  const [vega, { compile }] = await loadVega();
  // Vega guesses text widths from a canvas, which there is none of; and it numbers definitions for all charts of a run.
  const metrics = vega as unknown as { textMetrics: { width: (item: TextItem, text?: string) => number } };
  metrics.textMetrics.width = (item, text) => textWidth(String(text ?? item.text ?? ''), item.fontSize ?? TYPE_SIZE);
  vega.resetSVGDefIds();
  const { shape, sets } = apart(spec);
  const flow = flows.get(shape) ?? vega.parse(compile(JSON.parse(shape)).spec);
  keepIn(flows, shape, flow);
  const view = new vega.View(withSets(flow, sets), { renderer: 'none', logLevel: vega.Error });
  try {
    return drawingOf(await view.toSVG());
  } finally {
    view.finalize();
  }
}

// Charts that differ in their data alone are compiled once.

/** What Vega makes of charts, by their shapes. */
const flows = new Map<string, Runtime>();

/** A chart's spec as text, its data named by number, and the data by these numbers. */
function apart(spec: TopLevelSpec): { readonly shape: string; readonly sets: readonly unknown[] } {
  const sets: unknown[] = [];
  const numberOf = (set: unknown) => (sets.includes(set) ? sets.indexOf(set) : sets.push(set) - 1);
  const isSet = (key: string, value: unknown) =>
    key === 'values' && Array.isArray(value) && typeof value[0] === 'object';
  const shape = JSON.stringify(spec, (key, value) => (isSet(key, value) ? [{ set: numberOf(value) }] : value));
  return { shape, sets };
}

/** The same with its data back. */
function withSets(flow: Runtime, sets: readonly unknown[]): Runtime {
  const operators = flow.operators.map((operator) => {
    const { $ingest: named } = (operator.value ?? {}) as { readonly $ingest?: readonly { readonly set?: number }[] };
    const set = named?.[0]?.set;
    return set === undefined ? operator : { ...operator, value: { ...Object(operator.value), $ingest: sets[set] } };
  });
  return { ...flow, operators } as Runtime;
}

interface TextItem {
  readonly text?: unknown;
  readonly fontSize?: number;
}

function drawingOf(svg: string): Drawing {
  const match = /^<svg\b[^>]*\bviewBox="0 0 (\d+(?:\.\d+)?) (\d+(?:\.\d+)?)"[^>]*>([\s\S]*)<\/svg>\s*$/.exec(svg);
  if (!match) throw new Error('Vega drew something that is no SVG.');
  const [, width = '', height = '', body = ''] = match;
  return { viewBox: `0 0 ${width} ${height}`, width, body: slimDown(body) };
}

// Takes out of a drawn chart what no reader sees, three quarters of the bytes.

/** Attributes that say nothing, or that the page's own style says. */
const IDLE =
  / (?:class|role|aria-roledescription|aria-label|aria-hidden|pointer-events|font-family|stroke-miterlimit|font-weight="normal|opacity="1)(?:="[^"]*)?"/g;

/** A run of like elements shorter than this is not worth a group. */
const RUN = 3;

export function slimDown(body: string): string {
  const bare = body.replace(/<[^<>]*>/g, (tag) => tag.replace(IDLE, '').replace(/ d="[^"]*"/, coarsenPath));
  return groupRuns(mergePaths(withoutUnseen(bare)));
}

/** No eye sees a tenth of a pixel. */
function coarsenPath(d: string): string {
  return d.replace(/-?\d+\.\d{2,}/g, (digits) => String(Math.round(Number(digits) * 10) / 10 + 0));
}

/** Paths without fill and stroke (a chart's root has fill none), and groups that hold nothing. */
function withoutUnseen(body: string): string {
  let before = '';
  let after = body
    .replace(/<path(?: transform="[^"]*")? d="[^"]*"(?: display="none")?\/>/g, '')
    .replace(/<path d="" [^>]*\/>/g, '');
  while (after !== before) {
    before = after;
    after = before.replace(/<g[^<>]*><\/g>/g, '');
  }
  return after;
}

/** Neighbouring paths of one style become one path. */
function mergePaths(body: string): string {
  return body.replace(/(?:<path d="[^"]*"[^<>]*\/>){2,}/g, (run) => {
    const paths = [...run.matchAll(/<path d="([^"]*)"([^<>]*)\/>/g)].map(([, d = '', style = '']) => ({ d, style }));
    const kept: { d: string; style: string }[] = [];
    for (const path of paths) {
      const last = kept.at(-1);
      // What is see-through would lie doubly on itself.
      if (last && last.style === path.style && !/opacity/.test(path.style)) last.d += path.d;
      else kept.push({ ...path });
    }
    return kept.map(({ d, style }) => `<path d="${d}"${style}/>`).join('');
  });
}

/** Runs of elements that differ only in place and content get their style from a group around them. */
function groupRuns(body: string): string {
  return [/<line[^<>]*\/>/, /<path[^<>]*\/>/, /<text[^<>]*>(?:[^<>]|<tspan[^<>]*>[^<>]*<\/tspan>)*<\/text>/].reduce(
    (text, element) => text.replace(new RegExp(`(?:${element.source}){${RUN},}`, 'g'), (run) => groupRun(run, element)),
    body,
  );
}

function groupRun(run: string, element: RegExp): string {
  const groups: { style: string; parts: string[]; whole: string[] }[] = [];
  for (const [whole] of run.matchAll(new RegExp(element.source, 'g'))) {
    const { style, part } = split(whole);
    const last = groups.at(-1);
    if (last && last.style === style) {
      last.parts.push(part);
      last.whole.push(whole);
    } else groups.push({ style, parts: [part], whole: [whole] });
  }
  return groups
    .map(({ style, parts, whole }) =>
      parts.length >= RUN && style !== '' ? `<g${style}>${parts.join('')}</g>` : whole.join(''),
    )
    .join('');
}

/** What a group can hand down, and what each element keeps. */
const INHERITED = / (?:fill|stroke|stroke-width|stroke-dasharray|fill-opacity|font-size|text-anchor)="[^"]*"/g;

function split(element: string): { readonly style: string; readonly part: string } {
  const opening = element.slice(0, element.indexOf('>'));
  const style = (opening.match(INHERITED) ?? []).join('');
  return { style, part: opening.replace(INHERITED, '') + element.slice(opening.length) };
}
