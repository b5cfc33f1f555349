/** Layers of a scatter whose points carry their ranks. */
import { paint } from '../theme.ts';
import { TYPE_SIZE } from './draw.ts';
import { type MergedPoint, type PlotFrame, placedLabels } from './pointLabels.ts';

/** Told apart by shape and by fill, so that grey is enough. */
const SHAPES: Readonly<Record<string, object>> = {
  best: { shape: 'diamond', size: 150, fill: paint('accent'), stroke: paint('paper'), strokeWidth: 1 },
  front: { shape: 'diamond', size: 90, fill: paint('accent'), stroke: paint('paper'), strokeWidth: 1 },
  other: { shape: 'circle', size: 45, fill: paint('paper'), stroke: paint('muted'), strokeWidth: 1.5 },
};

export function pointLayers(points: readonly MergedPoint[], frame: PlotFrame): object[] {
  // What matters most is drawn last, on top.
  const kinds = ['other', 'front', 'best'].filter((kind) => points.some((point) => point.kind === kind));
  const dots = kinds.map((kind) => ({
    data: { values: points.filter((point) => point.kind === kind).map(({ x, y }) => ({ x, y })) },
    mark: { type: 'point', opacity: 1, ...SHAPES[kind] },
    encoding: { x: { field: 'x', type: 'quantitative' }, y: { field: 'y', type: 'quantitative' } },
  }));
  const labels = placedLabels(points, frame);
  return [...dots, ...(['left', 'right'] as const).map((align) => labelLayer(labels, align))];
}

function labelLayer(labels: ReturnType<typeof placedLabels>, align: 'left' | 'right'): object {
  return {
    data: { values: labels.filter((label) => label.align === align) },
    mark: { type: 'text', align, baseline: 'middle', fontSize: TYPE_SIZE, fill: paint('ink') },
    encoding: {
      x: { field: 'x', type: 'quantitative', scale: null },
      y: { field: 'y', type: 'quantitative', scale: null },
      text: { field: 'text', type: 'nominal' },
    },
  };
}
