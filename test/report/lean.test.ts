import { expect, test } from 'vitest';
import { leanPage } from '../../src/report/lean.ts';

const chart = (body: string) => `<svg class="chart" viewBox="0 0 9 9">${body}</svg>`;

test('lines and marks become one path where they stand, in groups that do something', () => {
  const lines =
    '<g><g stroke="a"><line transform="translate(0,5)" x2="9" y2="0"/><line transform="translate(0,7.04)" x2="9" y2="0"/></g></g>';
  expect(leanPage(chart(lines))).toBe(chart('<g stroke="a"><path d="M0 5h9m-9 2h9"/></g>'));
});

test('hidden labels go, seen ones stay, their places to a tenth of a pixel', () => {
  const texts =
    '<text transform="translate(30.3157,16)" opacity="0"><tspan>−60</tspan></text><text transform="translate(60.6315,16)">−40</text>';
  const hidden = '<path transform="translate(0,250)" d="M0,0" stroke="#123456" opacity="0"/>';
  expect(leanPage(chart(hidden + texts))).toBe(chart('<text x=60.6 y=16>−40</text>'));
});

test('see-through paths and paths of another look stay apart', () => {
  const body = '<path d="M0 0h1" fill-opacity="0.5"/><path d="M0 0h1" fill-opacity="0.5"/><path d="M0 0h1" fill="a"/>';
  expect(leanPage(chart(body))).toBe(chart(body));
});

test('rectangles are paths, those with round corners stay', () => {
  const round = '<rect x="1" y="2" width="3" height="4" rx="4"/>';
  const square = '<rect class="body" x="1" y="2" width="3.5" height="4"/>';
  expect(leanPage(chart(square + round))).toBe(chart(`<path class="body" d="M1 2h3.5v4h-3.5z"/>${round}`));
});

test('words that turn or stand in lines keep their transform', () => {
  const body =
    '<text transform="translate(-41.72,206) rotate(-90)">a</text><text transform="translate(1.25,2)"><tspan>b</tspan></text>';
  expect(leanPage(chart(body))).toBe(chart(body.replace('-41.72', '-41.7').replace('1.25', '1.3')));
});

test('tables lose the end tags that HTML does not ask for, and the space between their parts', () => {
  const table = '<table>\n<tbody>\n<tr><th scope="row">a</th>\n<td>b <b>c</b>\n<i>d</i></td></tr>\n</tbody>\n</table>';
  expect(leanPage(table)).toBe('<table><tbody><tr><th scope="row">a<td>b <b>c</b>\n<i>d</i></table>');
});

test('scripts and data stay as they are', () => {
  const page = '<p>a</p><script>"<td></td><g></g>"</script>';
  expect(leanPage(page)).toBe(page);
});

test('an enlarged figure keeps what reaches into its window', () => {
  const window = (body: string) => `<svg x="1" y="451" width="216" height="215" viewBox="1 451 216 215">${body}</svg>`;
  const hatch = '<path class="hatch" d="M10 460L20 470M10 640L20 650M10 800L20 810M400 500L410 510"/>';
  const gone = '<path class="nut" d="M10 100h5v5h-5z"/>';
  const through = '<path class="rod" d="M10 100h5v2000h-5z"/>';
  expect(leanPage(window(hatch + gone + through))).toBe(
    window('<path class="hatch" d="M10 460l10 10m-10 170 10 10"/><path class="rod" d="M10 100h5v2000h-5z"/>'),
  );
});

test('places of words stand without quotes, their words and what closes itself as they are', () => {
  const words = '<text x="-1.5" y="2" class="a"><tspan x="0" dy="14">x="1"</tspan></text><text x="50%">y="2" </text>';
  const bar = '<span aria-hidden="true"></span><svg class="bar" aria-hidden="true"><rect aria-hidden="true"/></svg>';
  expect(leanPage(words + bar)).toBe(
    '<text x=-1.5 y=2 class="a"><tspan x=0 dy=14>x="1"</tspan></text><text x="50%">y="2" </text>' +
      '<span aria-hidden=true></span><svg class="bar" aria-hidden=true><rect aria-hidden="true"/></svg>',
  );
});

test('what a picture is without being told is not said', () => {
  const body =
    '<text text-anchor="start" x="1" y="2" font-size="12px">text-anchor="start"</text><path d="M0 0h1" stroke-dasharray="1,0"/>';
  expect(leanPage(chart(body))).toBe(chart('<text x=1 y=2>text-anchor="start"</text><path d="M0 0h1"/>'));
});

test('classes of one letter need no quotes, and a hard space is one sign', () => {
  const cells =
    '<tr><td class="n">1&nbsp;<small class="i">2</small></td><th scope="col" class="n">a</th><td class="code">b</td></tr>';
  expect(leanPage(cells)).toBe(
    '<tr><td class=n>1\u00a0<small class=i>2</small><th scope="col" class=n>a<td class="code">b',
  );
});
