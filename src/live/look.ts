/** The drawing with its travel slider, and the verdict in short above it. */
import type { AxleName } from '../domain/scenario.ts';
import { TYPE } from '../report/drawing/shapes.ts';
import { fixed, PAGE } from '../report/numbers.ts';
import type { Judged } from './bench.ts';
import { element, setAttributes, setText, svgElement } from './element.ts';
import { drawn, pictureOf } from './picture.ts';
import { placeAt } from './travel.ts';
import type { Verdict } from './verdict.ts';
import { LOOK, PICTURE } from './words.ts';

export interface Look {
  readonly element: HTMLElement;
  readonly show: (axle: AxleName, judged: Judged, verdict: Verdict) => void;
}

/** Steps of the travel slider to either side of standing. */
const STEPS = 100;

export function look(travelled: (share: number) => void): Look {
  const head = element('p', { class: 'bench-head' });
  const svg = svgElement('svg', { class: 'drawing live', role: 'img', 'font-size': TYPE });
  const id = 'bench-travel';
  const slider = element('input', { type: 'range', id, min: -STEPS, max: STEPS, step: 1, value: STEPS });
  const place = element('output', { for: id });
  const ends = element(
    'p',
    { class: 'ends', 'aria-hidden': 'true' },
    ...LOOK.ends.map((text) => element('span', {}, text)),
  );
  const label = element('label', { for: id }, LOOK.travel);
  const travel = element('div', { class: 'travel' }, label, place, slider, ends);
  let shown: (() => void) | null = null;
  slider.addEventListener('input', () => {
    shown?.();
    travelled(slider.valueAsNumber / STEPS);
  });
  return {
    element: element('div', { class: 'bench-look' }, head, svg, travel),
    show: (axle, judged, verdict) => {
      setText(head, verdict.works ? LOOK.works(axle) : LOOK.fails(axle, verdict.lines.length));
      head.classList.toggle('alert', !verdict.works);
      shown = () => {
        const share = slider.valueAsNumber / STEPS;
        const at = placeAt(judged.state, share);
        const picture = pictureOf(judged, share);
        const { width, height } = picture;
        svg.innerHTML = drawn(picture);
        const text = `${PICTURE.place(at.travel)}, ${PICTURE.hubToArch(at.height)} mm`;
        setAttributes(svg, {
          viewBox: `0 0 ${fixed(width, 0, PAGE)} ${fixed(height, 0, PAGE)}`,
          'aria-label': LOOK.picture(axle, text),
          'data-length': at.length,
        });
        setAttributes(slider, { 'aria-valuetext': text });
        setText(place, PICTURE.place(at.travel));
      };
      shown();
    },
  };
}
