/** The corner on the bench drawn to scale: the damper fully out, and in until its stop is closed. */
import type { BenchState } from '../model/corner/bench.ts';
import { contactsAt } from '../model/corner/contacts.ts';
import type { Corner } from '../model/corner/site.ts';
import type { CornerState } from '../model/corner/state.ts';
import { figure } from '../report/drawing/figure.ts';
import { type CornerLayout, cornerLayout } from '../report/drawing/layout.ts';
import {
  escaped,
  group,
  LINE,
  n,
  type PlacedText,
  path,
  type TextStyle,
  TYPE,
  textElement,
} from '../report/drawing/shapes.ts';
import { radiiOf, topOf, type View } from '../report/drawing/sheet.ts';
import { fixed, PAGE } from '../report/text/numbers.ts';
import { stateLengths } from '../result/records/lengths.ts';

const WIDTH = 356;
const TALL = 330;
const TOP = 22;
const FOOT = 26;

const POSITIONS = ['droop', 'full'] as const;
const TITLES = { droop: 'damper fully out', full: 'bump stop closed' } as const;

/** One whole `<svg>` element, the perch in the middle of its safe range. */
export function benchDrawing(state: BenchState, title: string): string {
  const layout = layoutOf(state);
  const radii = radiiOf(layout);
  const tallest = Math.max(...POSITIONS.map((name) => topOf(layout.positions[name])));
  const pitch = WIDTH / POSITIONS.length;
  const scale = Math.min((pitch - 2 * GAP) / (2 * radii.figure), TALL / tallest);
  const base = TOP + tallest * scale;
  const view = (k: number): View => ({ scale, radii, middle: (k + 0.5) * pitch, y: (mm) => base - mm * scale });
  const figures = POSITIONS.map((name, k) => figure(layout, view(k), name));
  const texts = POSITIONS.flatMap((name, k) => wordsOf(layout, name, view(k).middle, base));
  const axis = path(`M0 ${n(base)}H${WIDTH}`, 'axis');
  const box = `viewBox="0 0 ${WIDTH} ${n(base + FOOT + 2 * LINE + 4)}"`;
  const words = group('words', texts.map(textElement));
  return `<svg class="drawing" xmlns="http://www.w3.org/2000/svg" role="img" ${box} font-size="${TYPE}"><title>${escaped(title)}</title>${axis}${figures.join('')}${words}</svg>`;
}

const GAP = 8;

function wordsOf(
  { positions, lengths }: CornerLayout,
  name: (typeof POSITIONS)[number],
  x: number,
  base: number,
): PlacedText[] {
  const { shoulder, spring } = positions[name];
  const mm = (value: number) => fixed(value, 1, PAGE);
  const at = (text: string, y: number, style: TextStyle): PlacedText => ({
    x,
    y,
    text,
    size: TYPE,
    anchor: 'middle',
    style,
  });
  return [
    at(TITLES[name], TYPE, 'title'),
    at(`damper ${mm(shoulder)} mm`, base + FOOT, 'quiet'),
    at(`spring ${mm(spring[1] - lengths.perch.seat)} mm`, base + FOOT + LINE, 'quiet'),
    at(`perch ${mm(lengths.perch.seat)} mm`, base + FOOT + 2 * LINE, 'quiet'),
  ];
}

/** Sizes that nobody measured are drawn as such parts usually are, mm: only pictures read them. */
const DRAWN = { least: 1, body: 45, stop: 44, washers: 42, wall: 4, play: 1 } as const;

/** What stands on the drawing in place of diameters that are NaN, without end or next to nothing because nobody measured them. */
export function drawnCorner(corner: Corner): Corner {
  const usual = (value: number, instead: number) => (value >= DRAWN.least && Number.isFinite(value) ? value : instead);
  const rate = (value: number, instead: number) => (Number.isNaN(value) ? instead : value);
  const body = usual(corner.damper.bodyDiameter, DRAWN.body);
  const sleeveIn = usual(corner.sleeve.bore, body + DRAWN.play);
  const sleeveOut = usual(corner.sleeve.outerDiameter, sleeveIn + 2 * DRAWN.wall);
  const spring = usual(corner.spring.bore, sleeveOut + 4 * DRAWN.play);
  const { isolator, helper } = corner;
  return {
    ...corner,
    damper: { ...corner.damper, bodyDiameter: body },
    sleeve: { ...corner.sleeve, bore: sleeveIn, outerDiameter: sleeveOut },
    bumpStop: {
      ...corner.bumpStop,
      diameter: usual(corner.bumpStop.diameter, DRAWN.stop),
      packerDiameter: usual(corner.bumpStop.packerDiameter, DRAWN.stop),
    },
    mount: {
      ...corner.mount,
      bore: usual(corner.mount.bore, spring),
      washerDiameter: usual(corner.mount.washerDiameter, DRAWN.washers),
    },
    isolator: isolator && { ...isolator, bore: usual(isolator.bore, spring) },
    spring: { ...corner.spring, bore: spring, rate: rate(corner.spring.rate, 1) },
    helper: helper && { ...helper, bore: usual(helper.bore, spring), rate: rate(helper.rate, 0.1) },
  };
}

function layoutOf({ site, corner, geometry, low, high }: BenchState): CornerLayout {
  const middle = (low.perch + high.perch) / 2;
  const perch = Number.isFinite(middle) ? middle : geometry.perchLowest;
  const drawn = drawnCorner(corner);
  const stack = { ...geometry.stack, mainRate: drawn.spring.rate, helperRate: drawn.helper?.rate ?? 0 };
  const length = geometry.droopLength;
  const state = {
    site,
    corner: drawn,
    geometry: { ...geometry, stack },
    standing: { length, height: geometry.droopHeight, perch },
    full: { length: geometry.closedLength, height: geometry.closedHeight },
    contacts: contactsAt(site, corner, geometry, perch, geometry.closedLength).filter(({ length: at }) =>
      Number.isFinite(at),
    ),
    slack: length - geometry.seatBelowShoulder - perch - geometry.stack.freeLength,
  };
  return cornerLayout(stateLengths(state as unknown as CornerState));
}
