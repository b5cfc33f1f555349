/** Vega-lite charts drawn to SVG without a browser. Vega is loaded only when the first chart is drawn. */
import type { TopLevelSpec } from 'vega-lite';
import { slimmed } from './slim.ts';
import { textWidth } from './textWidth.ts';

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
const drawn = new Map<string, Drawing>();
/** More than any page has; a run over many scenarios starts anew. */
const MOST_KEPT = 256;

export async function drawChart(spec: TopLevelSpec): Promise<Drawing> {
  const key = JSON.stringify(spec);
  const drawing = drawn.get(key) ?? (await newDrawing(spec));
  if (drawn.size >= MOST_KEPT) drawn.clear();
  drawn.set(key, drawing);
  return drawing;
}

async function newDrawing(spec: TopLevelSpec): Promise<Drawing> {
  const [vega, { compile }] = await loadVega();
  // Vega guesses text widths from a canvas, which there is none of; and it numbers definitions for all charts of a run.
  const metrics = vega as unknown as { textMetrics: { width: (item: TextItem, text?: string) => number } };
  metrics.textMetrics.width = (item, text) => textWidth(String(text ?? item.text ?? ''), item.fontSize ?? TYPE_SIZE);
  vega.resetSVGDefIds();
  const { spec: compiled } = compile(spec);
  const view = new vega.View(vega.parse(compiled), { renderer: 'none', logLevel: vega.Error });
  try {
    return drawingOf(await view.toSVG());
  } finally {
    view.finalize();
  }
}

interface TextItem {
  readonly text?: unknown;
  readonly fontSize?: number;
}

function drawingOf(svg: string): Drawing {
  const match = /^<svg\b[^>]*\bviewBox="0 0 (\d+(?:\.\d+)?) (\d+(?:\.\d+)?)"[^>]*>([\s\S]*)<\/svg>\s*$/.exec(svg);
  if (!match) throw new Error('Vega drew something that is no SVG.');
  const [, width = '', height = '', body = ''] = match;
  return { viewBox: `0 0 ${width} ${height}`, width, body: slimmed(body) };
}
