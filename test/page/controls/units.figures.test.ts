import { expect, test } from 'vitest';
import { headerUnits, numberAtEnd, pieces } from '../../../src/page/controls/units.ts';

const marked = (text: string) =>
  pieces(text)
    .map(({ text: part, world }) => (world === null ? part : `[${world === 'metric' ? 'm' : 'i'}:${part}]`))
    .join('');

test('a sentence falls into what is metric, what is imperial, and the rest', () => {
  expect(marked('cut 20.0 mm (0.79 in) off')).toBe('cut [m:20.0 mm ][i:(0.79 in)] off');
  expect(marked('35.1 N/mm (200.5 lbf/in); 26 to 50 mm (1.0 to 2.0 in)')).toBe(
    '[m:35.1 N/mm ][i:(200.5 lbf/in)]; [m:26 to 50 mm ][i:(1.0 to 2.0 in)]',
  );
  expect(marked('at \u22121.1 mm (\u22120.04 in)')).toBe('at [m:\u22121.1 mm ][i:(\u22120.04 in)]');
});

test('brackets that hold no imperial figure stay', () => {
  for (const text of ['60 coils (60 of 60 springs)', '10 % (2 times)', '280 mm', '1.8 Hz (body)', '']) {
    expect(marked(text)).toBe(text);
  }
});

test('the figure in front of its imperial partner is found, and no word with it', () => {
  for (const [text, figure] of [
    ['asked for, 322.0 to 344.0\u00a0mm ', '322.0 to 344.0\u00a0mm '],
    ['280.0', '280.0'],
    ['\u2013', '\u2013'],
    ['\u22124.2\u00a0N/mm', '\u22124.2\u00a0N/mm'],
    ['no figure', ''],
  ] as const) {
    expect(text.slice(numberAtEnd(text))).toBe(figure);
  }
});

test('the header of a column has two units or none', () => {
  expect(headerUnits('N/mm, lbf/in')).toEqual(['N/mm', 'lbf/in']);
  expect(headerUnits('0 to 1')).toBeNull();
});
